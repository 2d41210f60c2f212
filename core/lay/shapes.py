"""Cut lines sliced into upright trapezoids.

Everything here lives in the sheared frame (w, v), w = u - skew * v, in which stripes run straight along v.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.geometry.polyline import Floats

Ints = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class Shape:
    """A closed outline in the (w, v) frame, cut into slabs at the w of every vertex; mm.

    Slab s spans `cuts[s]` to `cuts[s + 1]`. In it layer l of the inside lies between `low` and `high`, both straight:
    value at the slab's left end plus rate times the distance from it. Absent layers have low = inf, high = -inf.
    Arrays `low`, `high` and their rates have shape (slabs, layers).
    """

    ring: Points
    cuts: Floats
    low: Floats
    high: Floats
    low_rate: Floats
    high_rate: Floats

    @classmethod
    def of(cls, ring: Points) -> "Shape":
        """Slice a simple closed outline, first point not repeated; shape (n, 2)."""
        cuts = np.unique(ring[:, 0])
        start, rate, spans = _edge_lines(ring, cuts)
        slabs = np.arange(len(cuts) - 1)
        middle = np.where(spans, start + rate * np.diff(cuts)[:, None] / 2, np.inf)
        count = int(spans.sum(axis=1).max())
        order = np.argsort(middle, axis=1, kind="stable")[:, :count]
        present = np.isfinite(middle[slabs[:, None], order])
        rates = np.where(present, rate[slabs[:, None], order], 0.0)
        starts = np.where(present, start[slabs[:, None], order], np.inf)
        highs = np.where(present, starts, -np.inf)
        return cls(ring, cuts, starts[:, ::2], highs[:, 1::2], rates[:, ::2], rates[:, 1::2])

    @cached_property
    def reach(self) -> tuple[float, float]:
        """Least and largest w."""
        return float(self.cuts[0]), float(self.cuts[-1])

    @property
    def lines(self) -> tuple[Floats, Floats, Floats, Floats, Floats]:
        """Cuts, and low, high and their rates of the first layer, each in an array of its own."""
        layers = (self.low, self.high, self.low_rate, self.high_rate)
        low, high, low_rate, high_rate = (np.ascontiguousarray(layer[:, 0]) for layer in layers)
        return self.cuts, low, high, low_rate, high_rate

    @cached_property
    def along(self) -> tuple[float, float]:
        """Least and largest v."""
        return float(self.ring[:, 1].min()), float(self.ring[:, 1].max())


def _edge_lines(ring: Points, cuts: Floats) -> tuple[Floats, Floats, NDArray[np.bool_]]:
    """For every slab and edge: v at the slab's left end, rate, and whether the edge spans the slab; (slabs, edges)."""
    ahead = np.roll(ring, -1, axis=0)
    forward = (ring[:, 0] <= ahead[:, 0])[:, None]
    left, right = np.where(forward, ring, ahead), np.where(forward, ahead, ring)
    run = right[:, 0] - left[:, 0]
    rate = np.where(run > 0, right[:, 1] - left[:, 1], 0.0) / np.where(run > 0, run, 1.0)
    spans = (left[:, 0] <= cuts[:-1, None]) & (right[:, 0] >= cuts[1:, None])
    start = left[:, 1] + rate * (cuts[:-1, None] - left[:, 0])
    return start, np.broadcast_to(rate, start.shape), spans


def eased(shape: Shape, tolerance_mm: float) -> Shape:
    """A shape of fewer slabs that covers the given one and reaches at most a tolerance over it, along v only.

    Straight edges stay exactly where they are. A shape of more than one layer is given back as it is.
    """
    if shape.low.shape[1] > 1:
        return shape
    lows, highs = _Line.of(shape.cuts, shape.low, shape.low_rate), _Line.of(shape.cuts, shape.high, shape.high_rate)
    kept, waiting = [], [(0, len(shape.cuts) - 1)]
    while waiting:
        first, last = waiting.pop()
        (under, over, at), (under_high, over_high, at_high) = lows.bend(first, last), highs.bend(first, last)
        low_off, high_off = under + over, under_high + over_high
        if last - first == 1 or max(low_off, high_off) <= tolerance_mm:
            kept.append((first, last, under, over_high))
        else:
            middle = at if low_off >= high_off else at_high
            waiting += [(middle, last), (first, middle)]
    return _rebuilt(shape, lows, highs, kept)


@dataclass(frozen=True, eq=False)
class _Line:
    """The low or high line of a shape of one layer: v at the left and the right end of each slab."""

    cuts: Floats
    left: Floats
    right: Floats

    @classmethod
    def of(cls, cuts: Floats, start: Floats, rate: Floats) -> "_Line":
        return cls(cuts, start[:, 0], start[:, 0] + rate[:, 0] * np.diff(cuts))

    def rate(self, first: int, last: int) -> float:
        return float((self.right[last - 1] - self.left[first]) / (self.cuts[last] - self.cuts[first]))

    def bend(self, first: int, last: int) -> tuple[float, float, int]:
        """How far the line goes under and over its chord between two cuts, and the cut where it is farthest off."""
        if last - first == 1:
            return 0.0, 0.0, first
        chord = self.left[first] + self.rate(first, last) * (self.cuts[first + 1 : last] - self.cuts[first])
        off = np.stack([self.right[first : last - 1], self.left[first + 1 : last]]) - chord
        middle = first + 1 + int(np.argmax(np.abs(off).max(axis=0)))
        return max(-float(off.min()), 0.0), max(float(off.max()), 0.0), middle


def _rebuilt(shape: Shape, lows: _Line, highs: _Line, kept: list[tuple[int, int, float, float]]) -> Shape:
    """The shape with only the slabs kept: (first cut, last cut, by how much low goes down, high goes up)."""
    first, last = np.array([slab[:2] for slab in kept]).T
    low = lows.left[first] - np.array([slab[2] for slab in kept])
    high = highs.left[first] + np.array([slab[3] for slab in kept])
    rates = np.array([(lows.rate(a, b), highs.rate(a, b)) for a, b, _, _ in kept])
    cuts = np.append(shape.cuts[first], shape.cuts[last[-1]])
    return Shape(shape.ring, cuts, low[:, None], high[:, None], rates[:, :1], rates[:, 1:])


def widened(ring: Points, by_mm: float) -> Points:
    """An outline that keeps at least `by_mm` away from the given one all round, without the holes that may leave."""
    if by_mm == 0:
        return ring
    wider = Polygon(ring).buffer(by_mm, join_style="mitre", mitre_limit=1.5)
    return np.asarray(wider.exterior.coords)[:-1]


def sheared(points: Points, skew: float) -> Points:
    """Points (u, v) in the frame (w, v) with w = u - skew * v; shape (n, 2)."""
    return np.stack([points[:, 0] - skew * points[:, 1], points[:, 1]], axis=1)
