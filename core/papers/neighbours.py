"""The panels already laid beside one: how far apart the cutting lines are where they come closest."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from shapely.geometry import LinearRing, Point, Polygon
from shapely.ops import nearest_points

from core.papers.figures import PanelFigures
from core.wording import later

MOST_NAMED = 3
NEAR_MM = 300.0
"""A panel farther away is no neighbour."""

TOUCHING_MM, LOOK_ROUND_MM = 0.5, 10.0
"""Where two lines touch, the way to the other panel is seen from what of it lies round the place."""

Way = Literal["on its left", "on its right", "towards the cut end", "towards the far end"]
WAYS: tuple[Way, ...] = (
    later("on its left"),
    later("on its right"),
    later("towards the cut end"),
    later("towards the far end"),
)


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
    gap = float(here.distance(there))
    start, end = (here, there) if gap > TOUCHING_MM else _either_side(here, line, other)
    across, along = end.x - start.x, end.y - start.y
    if abs(across) >= abs(along):
        way: Way = "on its right" if across > 0 else "on its left"
    else:
        way = "towards the far end" if along > 0 else "towards the cut end"
    return Neighbour(other, way, gap, float(here.y))


def _either_side(place: Point, line: LinearRing, other: PanelFigures) -> tuple[Point, Point]:
    """The middles of what of either panel lies round a place where they touch."""
    near = place.buffer(LOOK_ROUND_MM)
    return Polygon(line).intersection(near).centroid, Polygon(other.cut_ring).intersection(near).centroid
