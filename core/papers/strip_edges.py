"""Stretches of sewn edges as strips see them: which look the same, which are mirror images, which share a line."""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely.geometry import LineString
from shapely.geometry import Point as Place
from shapely.ops import substring

from core.geometry.paths import Points
from core.geometry.polyline import Floats, outward, points_at, tangent_at
from core.model.cloth import Way
from core.model.panel import NotchMark
from core.papers.figures import EdgeMarks, PanelFigures
from core.seams.stripes import wrap

SAME_MM = 0.1
"""What differs by less is the same on paper."""

NEAR_MM = 1e-3
SAMPLES = 33
FROM_THE_LINE_MM = (-9.0, 3.0, 18.0)
"""So far inside the stitching line stripes are compared."""


@dataclass(frozen=True, eq=False)
class EdgeStretch:
    """A stretch of a sewn edge of a placed panel on striped cloth: the so-manieth of how many, from where to where.

    Distances run along the stitching line from the edge's upper corner, mm.
    """

    figures: PanelFigures
    marks: EdgeMarks
    number: int
    count: int
    start: float
    end: float

    @cached_property
    def line(self) -> Points:
        """The stitching line of the whole edge from the upper corner on, cloth mm; shape (n, 2)."""
        return self.figures.edge_line(self.marks)

    @cached_property
    def part(self) -> LineString:
        """The stitching line of the stretch, cloth mm."""
        return substring(LineString(self.line), self.start, self.end)

    @property
    def inside(self) -> float:
        """1 where the panel lies on the left of its edge when that stands upright on paper, -1 on the right."""
        return 1.0 if self.marks.downwards else -1.0

    def inward(self, place: float) -> Points:
        """The unit vector into the panel at a place, cloth mm; shape (2,)."""
        return np.asarray(-outward(tangent_at(self.line, place)) * self.inside)

    @cached_property
    def notches(self) -> tuple[NotchMark, ...]:
        """The notches on the stretch, as they lie."""
        on_edge = (notch for notch in self.figures.notches if notch.edge == self.marks.edge)
        return tuple(notch for notch in on_edge if self.part.distance(Place(notch.point)) < NEAR_MM)

    @cached_property
    def profile(self) -> Points:
        """Places evenly down the stretch: how far along its chord and how far into the panel from it; shape (n, 2)."""
        return np.asarray((self._places - self._places[0]) @ self._chord.T)

    @cached_property
    def _notch_places(self) -> Points:
        points = np.array([notch.point for notch in self.notches]).reshape(-1, 2)
        along = (points - self._places[0]) @ self._chord.T
        return np.asarray(along[np.argsort(along[:, 0])])

    @cached_property
    def _places(self) -> Points:
        return points_at(self.line, np.linspace(self.start, self.end, SAMPLES))

    @cached_property
    def _chord(self) -> Points:
        """Unit vectors along the chord and from it into the panel."""
        along = self._places[-1] - self._places[0]
        along = along / np.hypot(*along)
        return np.array([along, -outward(along) * self.inside])

    def across(self, way: Way) -> Floats:
        """Coordinates across the stripes of one way at places beside the line; shape (places, 3)."""
        beside = self._places[:, None] + np.array(FROM_THE_LINE_MM)[None, :, None] * self._chord[1]
        cloth = self.figures.cloth
        u, v = beside[..., 0], beside[..., 1]
        return cloth.w(u, v) if way == "lengthwise" else cloth.z(u, v)

    def looks_like(self, other: "EdgeStretch") -> bool:
        """Whether both are as far down and have one shape, seen from inside, and the same stripes and notches on it."""
        return (
            self.figures.cloth.id == other.figures.cloth.id
            and self._as_far_down(other)
            and _close(self.profile, other.profile)
            and _close(self._notch_places, other._notch_places)
            and all(self._striped_like(other, way) for way in self.figures.cloth.ways)
        )

    def shares_line(self, other: "EdgeStretch") -> bool:
        """Whether the two stitching lines coincide when the panels are laid against each other."""
        return self._as_far_down(other) and _close(self.profile, other.profile * (1.0, -1.0))

    def _as_far_down(self, other: "EdgeStretch") -> bool:
        return _close(np.array([self.start, self.end]), np.array([other.start, other.end]))

    def _striped_like(self, other: "EdgeStretch", way: Way) -> bool:
        """Shifted by whole periods, or, where the repeat is even, reflected about its axis."""
        repeat = self.figures.cloth.repeat_of(way)
        assert repeat is not None
        here, there = self.across(way), other.across(way)
        apart = [here - there, here + there - 2 * repeat.c] if repeat.even else [here - there]
        return any(bool(np.abs(wrap(each, repeat.period)).max() < SAME_MM) for each in apart)


def _close(one: Floats, other: Floats) -> bool:
    return one.shape == other.shape and bool(np.abs(one - other).max(initial=0.0) < SAME_MM)
