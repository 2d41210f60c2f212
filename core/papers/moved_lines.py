"""How far stitching lines that were shifted lie from where they were."""

from dataclasses import dataclass

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats, length, outward, points_at
from core.model.panel import lines_before_shift
from core.papers.figures import EdgeMarks, PanelFigures

EVERY_MM = 100.0
NOTHING_MM = 0.05
"""A line that is nowhere moved by more than this counts as not moved."""

_REACH_MM = 1.0


@dataclass(frozen=True)
class MovedEdge:
    """A sewn edge whose line was moved: distances from its upper corner, mm, each with how far out it lies now, mm."""

    marks: EdgeMarks
    places: tuple[tuple[float, float], ...]


def moved_edges(figures: PanelFigures) -> tuple[MovedEdge, ...]:
    """The panel's sewn edges that were moved, with the distances at every 100 mm and at both ends."""
    old = lines_before_shift(figures.panel)
    found = []
    for marks in figures.edges:
        if marks.edge in old and _farthest(old[marks.edge], figures.panel.net[marks.edge]) > NOTHING_MM:
            at = np.concatenate([np.arange(0.0, marks.length_mm - EVERY_MM / 2, EVERY_MM), [marks.length_mm]])
            way = 1 if marks.downwards else -1
            out = way * _out(old[marks.edge][::way], figures.panel.net[marks.edge][::way], at / marks.length_mm)
            found.append(MovedEdge(marks, tuple(zip(at.tolist(), out.tolist(), strict=True))))
    return tuple(found)


def _farthest(old: Points, new: Points) -> float:
    return float(np.abs(_out(old, new, np.linspace(0.0, 1.0, 41))).max())


def _out(old: Points, new: Points, shares: Floats) -> Floats:
    """How far to the left of an old line, as it runs, a new one lies at the same shares of both; out of its piece."""
    size = length(old)
    at = shares * size
    ways = points_at(old, at + _REACH_MM) - points_at(old, at - _REACH_MM)
    ways = outward(ways / np.hypot(*ways.T)[:, None])
    return np.asarray(np.sum((points_at(new, shares * length(new)) - points_at(old, at)) * ways, axis=1))
