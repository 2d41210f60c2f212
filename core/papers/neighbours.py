"""The panels already laid beside one: how far apart the cutting lines are where they come closest."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from shapely.geometry import LinearRing
from shapely.ops import nearest_points

from core.papers.figures import PanelFigures

MOST_NAMED = 3
NEAR_MM = 300.0
"""A panel farther away is no neighbour."""

Way = Literal["on its left", "on its right", "towards the cut end", "towards the far end"]


@dataclass(frozen=True)
class Neighbour:
    """A panel beside another: which way it lies, the gap between the cutting lines, and how far along that is, mm."""

    figures: PanelFigures
    way: Way
    gap_mm: float
    along_mm: float


def neighbours_laid(figures: PanelFigures, others: Iterable[PanelFigures]) -> tuple[Neighbour, ...]:
    """The panels near by that are laid before this one, at most MOST_NAMED, the closest first."""
    line = LinearRing(figures.cut_ring)
    found = [_neighbour(line, other) for other in others if other.number < figures.number]
    near = [one for one in found if one.gap_mm <= NEAR_MM]
    return tuple(sorted(near, key=lambda one: (round(one.gap_mm, 3), one.figures.number))[:MOST_NAMED])


def _neighbour(line: LinearRing, other: PanelFigures) -> Neighbour:
    here, there = nearest_points(line, LinearRing(other.cut_ring))
    across, along = there.x - here.x, there.y - here.y
    if abs(across) >= abs(along):
        way: Way = "on its right" if across > 0 else "on its left"
    else:
        way = "towards the far end" if along > 0 else "towards the cut end"
    return Neighbour(other, way, float(here.distance(there)), float(here.y))
