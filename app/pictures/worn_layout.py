"""Where the panels lie in the garment picture: sewn to each other in the order they are worn, opened flat."""

import math
from dataclasses import dataclass, replace
from itertools import pairwise

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import outward
from core.geometry.transform import placed
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Project
from core.seams.garment import Garment, SeamLine
from core.seams.order import WornRow, rows_as_worn

WIDEST_DEG = 150.0
"""A row fans out no wider than this; its seams gape towards the hem instead."""
APART_MM = 60.0
"""Room between panels that are not sewn to each other."""


@dataclass(frozen=True, eq=False)
class LaidPanel:
    """A panel in the picture: turned by `turn_deg`, clockwise, its origin at (x, y), mm from the row's own corner."""

    panel: Panel
    turn_deg: float = 0.0
    x: float = 0.0
    y: float = 0.0

    def at(self, points: Points) -> Points:
        """Points of the panel's frame in the row, mm."""
        return placed(points, self.x, self.y, self.turn_deg, turned=False)


@dataclass(frozen=True, eq=False)
class LaidRow:
    """A row of the picture, its upper left corner at 0, 0; mm."""

    row: WornRow
    panels: tuple[LaidPanel, ...]
    width: float
    height: float


def lay_out(project: Project, garment: Garment) -> tuple[LaidRow, ...]:
    """All rows of the garment picture."""
    return tuple(_laid_row(row, garment) for row in rows_as_worn(project) if row.panels)


def _laid_row(row: WornRow, garment: Garment) -> LaidRow:
    joins = {line.panels: line for line in reversed(garment.seams)}
    laid: list[LaidPanel] = []
    right = 0.0
    for run in _runs(row.panels, joins):
        panels = _fan(run, joins, garment)
        low, high = _box(panels)
        panels = [replace(panel, x=panel.x + right - low[0], y=panel.y - low[1]) for panel in panels]
        laid += panels
        right += high[0] - low[0] + APART_MM
    low, high = _box(laid)
    return LaidRow(row, tuple(laid), float(high[0] - low[0]), float(high[1] - low[1]))


def _runs(names: tuple[PanelName, ...], joins: dict[tuple[str, str], SeamLine]) -> list[list[PanelName]]:
    """A row cut where two neighbours are not sewn to each other."""
    runs = [[names[0]]]
    for before, name in pairwise(names):
        if (before, name) in joins:
            runs[-1].append(name)
        else:
            runs.append([name])
    return runs


def _fan(names: list[PanelName], joins: dict[tuple[str, str], SeamLine], garment: Garment) -> list[LaidPanel]:
    """Panels beside each other, turned so far that their seams close, balanced about the upright."""
    lines = [joins[pair] for pair in pairwise(names)]
    opening = [_lean_deg(line.b) - _lean_deg(line.a) for line in lines]
    total = abs(sum(opening))
    share = min(1.0, WIDEST_DEG / total) if total else 1.0
    turns = np.concatenate([[0.0], np.cumsum(opening)]) * share
    turns -= (turns[0] + turns[-1]) / 2
    laid = [LaidPanel(garment.panels[names[0]], float(turns[0]))]
    for name, turn, line in zip(names[1:], turns[1:].tolist(), lines, strict=True):
        laid.append(_beside(laid[-1], LaidPanel(garment.panels[name], turn), line))
    return laid


def _beside(before: LaidPanel, panel: LaidPanel, line: SeamLine) -> LaidPanel:
    """The panel moved to the right of one that lies: tops of the seam together, then off until none overlaps."""
    a, b = before.at(line.a), panel.at(line.b)
    to_top = a[0] - b[0]
    chord = (a[-1] - a[0]) / np.hypot(*(a[-1] - a[0]))
    off = outward(chord)
    overlap = max(float(((a - b - to_top) @ off).max()), 0.0)
    x, y = to_top + overlap * off
    return replace(panel, x=float(x), y=float(y))


def _lean_deg(edge: Points) -> float:
    """How far an edge leans to the right from top to bottom, degrees off the upright."""
    across, down = edge[-1] - edge[0]
    return math.degrees(math.atan2(across, down))


def _box(panels: list[LaidPanel]) -> tuple[Points, Points]:
    """Corners of the box round some panels."""
    points = np.concatenate([panel.at(panel.panel.net_ring) for panel in panels])
    return points.min(axis=0), points.max(axis=0)
