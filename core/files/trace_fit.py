"""A traced outline, noisy and of many points, as few lines and smooth curves between sharp corners."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.geometry.beziers import Segment, Segments, flattened
from core.geometry.fitting import gaps, nearest_cubic, pair
from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along, points_at, signed_area

STEP_MM = 1.0
"""The traced outline is read at points this far apart."""

CORNER_REACH_MM = 12.0
"""A corner is where the outline has turned between this far before it and this far after it."""

CORNER_DEG = 16.0
BLUNT_MM = 2.0
"""So close to a corner the trace is rounded off and counts for nothing."""

WITHIN_MM = 0.5
"""A line or curve that keeps this close to the trace stands for it."""

STRAIGHT_RMS_MM, STRAIGHT_MM = 0.3, 0.25
"""A stretch is straight if its trace lies off its line by no more, root mean square, and its ends on average."""

ENDS_MM = 15
"""The ends of a stretch, for that."""

BOW_MM = 0.15
"""A stretch whose middle bows off its chord by more than this is curved, however gently."""

STRAIGHT_AT_LEAST_MM, STRAIGHT_SHARE = 60, 0.2
"""A straight stretch next to a corner, so long and such a share of its side, is drawn straight if the rest bends."""

DEEPEST = 6
"""A stretch between corners is halved at most this often."""


@dataclass(frozen=True)
class Traced:
    """A closed outline fitted to a trace, and how far the trace lies from it, mm: root mean square and at worst."""

    segments: Segments
    rms_mm: float
    worst_mm: float


def fitted_ring(trace: Points) -> Traced:
    """Lines and cubic curves that follow a closed trace, shape (n, 2) in mm with the first point repeated."""
    ring = _evenly(trace if signed_area(trace[:-1]) > 0 else trace[::-1])
    corners = _corners(ring)
    if len(corners) < 2:
        corners = [0, len(ring) // 2]
        halves = ring[: corners[1] + 1], np.vstack([ring[corners[1] :], ring[:1]])
        segments = [segment for half in halves for segment in _fitted(half, DEEPEST)]
    else:
        segments = _between_corners(ring, corners)
    away = _away(ring, corners, tuple(segments))
    return Traced(tuple(segments), float(np.sqrt(np.mean(away**2))), float(away.max()))


def _between_corners(ring: Points, corners: list[int]) -> list[Segment]:
    """Segments of a ring with corners: each side first, where it is straight, then the corners where sides meet."""
    ends = [*corners[1:], corners[0]]
    sides = [_Side.of(_stretch(ring, start, end)) for start, end in zip(corners, ends, strict=True)]
    tips = [_tip(sides[place - 1].at_end, sides[place].at_start, ring[index]) for place, index in enumerate(corners)]
    return [
        segment
        for side, start, end in zip(sides, tips, [*tips[1:], tips[0]], strict=True)
        for segment in side.segments(start, end)
    ]


Line = tuple[Points, Points]
"""A point of a straight line and its direction."""


@dataclass(frozen=True, eq=False)
class _Side:
    """The trace between two corners; its first `head` and its last `tail` points are straight."""

    points: Points
    head: int
    tail: int

    @classmethod
    def of(cls, points: Points) -> "_Side":
        """A side with its straight stretches found; one that is straight all along is its own head."""
        if _is_straight(points):
            return cls(points, len(points), 0)
        head, tail = _straight_points(points), _straight_points(points[::-1])
        return cls(points, head, tail if head + tail < len(points) - 4 else 0)

    @property
    def at_start(self) -> Line:
        """The straight line on which it leaves its first corner."""
        return _line_through(self.points[: self.head or _NEAR])

    @property
    def at_end(self) -> Line:
        """The straight line on which it comes to its last corner."""
        if self.head == len(self.points):
            return self.at_start
        return _line_through(self.points[-(self.tail or _NEAR) :])

    def segments(self, start: Points, end: Points) -> list[Segment]:
        """Lines and curves from one corner to the other."""
        if self.head == len(self.points):
            return [_line(start, end)]
        first, last = self.head, len(self.points) - self.tail
        begin = start if first == 0 else _on(self.at_start, self.points[first - 1])
        stop = end if self.tail == 0 else _on(self.at_end, self.points[last])
        curve = _fitted(_with_ends(self.points[first:last], begin, stop), DEEPEST)
        return [*([_line(start, begin)] if first else []), *curve, *([_line(stop, end)] if self.tail else [])]


def _on(line: Line, point: Points) -> Points:
    """The point of a line nearest to a given one."""
    middle, way = line
    return np.asarray(middle + ((point - middle) @ way) * way)


def _line(start: Points, end: Points) -> Segment:
    return pair(start), pair(end)


def _straight_points(points: Points) -> int:
    """How many points of a side from its start on lie on a straight line; 0 where too few do."""
    fewest = max(int(STRAIGHT_AT_LEAST_MM / STEP_MM), int(STRAIGHT_SHARE * len(points)))
    for count in range(len(points) - 1, fewest, -4):
        if _is_straight(points[:count]):
            return count
    return 0


def _is_straight(points: Points) -> bool:
    """Whether points lie along a straight line and don't bow evenly off it."""
    if len(points) < 4:
        return True
    middle, way = _line_through(points)
    off = (points - middle) @ np.array([-way[1], way[0]])
    ends = int(ENDS_MM / STEP_MM)
    if np.sqrt(np.mean(off**2)) > STRAIGHT_RMS_MM or max(abs(off[:ends].mean()), abs(off[-ends:].mean())) > STRAIGHT_MM:
        return False
    s = np.linspace(0.0, 1.0, len(off))
    bow = s * (1 - s) - np.mean(s * (1 - s))
    return bool(abs(np.sum(bow * off) / np.sum(bow * bow)) / 4 <= BOW_MM)


def _evenly(trace: Points) -> Points:
    """Points along the closed trace at equal steps, the first not repeated."""
    whole = float(lengths_along(trace)[-1])
    count = max(int(whole / STEP_MM), 16)
    return points_at(trace, np.arange(count) * whole / count)


def _corners(ring: Points) -> list[int]:
    """Indices of the points at which the ring turns sharply, ascending."""
    reach = min(int(CORNER_REACH_MM / STEP_MM), len(ring) // 8)
    before, after = ring - np.roll(ring, reach, axis=0), np.roll(ring, -reach, axis=0) - ring
    cross = before[:, 0] * after[:, 1] - before[:, 1] * after[:, 0]
    turn = np.degrees(np.abs(np.arctan2(cross, np.sum(before * after, axis=1))))
    bend = np.minimum(np.roll(turn, reach), np.roll(turn, -reach))
    sharp = [index for index in np.flatnonzero(turn - bend > CORNER_DEG) if _is_peak(turn, int(index), reach)]
    return [int(index) for index in sharp]


def _is_peak(turn: Floats, index: int, reach: int) -> bool:
    around = np.take(turn, range(index - reach, index + reach + 1), mode="wrap")
    return bool(int(np.argmax(around)) == reach)


_NEAR = int((CORNER_REACH_MM - BLUNT_MM) / STEP_MM) + 1
"""So many points next to a corner tell where a curved side leaves it."""


def _tip(before: Line, after: Line, near: Points) -> Points:
    """Where the lines of the sides on either hand of a corner meet; shape (2,)."""
    (p, d), (q, e) = before, after
    parting = d[0] * e[1] - d[1] * e[0]
    if abs(parting) < 0.1:
        return near
    along = ((q - p)[0] * e[1] - (q - p)[1] * e[0]) / parting
    tip = p + along * d
    return np.asarray(tip if np.hypot(*(tip - near)) < CORNER_REACH_MM / 2 else near)


def _line_through(points: Points) -> tuple[Points, Points]:
    """The middle of points and the direction of the straight line nearest to them (least squares)."""
    middle = points.mean(axis=0)
    return middle, np.linalg.svd(points - middle, full_matrices=False)[2][0]


def _stretch(ring: Points, start: int, end: int) -> Points:
    """The points from one corner to the next, without those that are rounded off."""
    blunt = int(BLUNT_MM / STEP_MM)
    last = end if end > start else end + len(ring)
    inner = np.arange(start + blunt, last - blunt + 1)
    return np.take(ring, inner if len(inner) > 2 else np.arange(start, last + 1), axis=0, mode="wrap")


def _with_ends(stretch: Points, start: Points, end: Points) -> Points:
    return np.vstack([start, stretch, end])


def _fitted(points: Points, deepest: int) -> list[Segment]:
    """Segments that follow points from the first to the last."""
    line: Segment = (pair(points[0]), pair(points[-1]))
    if gaps(points, np.array(line)).max() <= WITHIN_MM:
        return [line]
    control = nearest_cubic(points)
    if deepest == 0 or len(points) < 8 or gaps(points, control).max() <= WITHIN_MM:
        return [tuple(pair(point) for point in control)]
    half = len(points) // 2
    middle = points[max(half - 4, 0) : half + 5].mean(axis=0)
    first, second = np.vstack([points[:half], middle]), np.vstack([middle, points[half + 1 :]])
    return _fitted(first, deepest - 1) + _fitted(second, deepest - 1)


def _away(ring: Points, corners: list[int], segments: Segments) -> npt.NDArray[np.float64]:
    """How far the trace lies from the outline, mm, apart from where it is rounded off at corners."""
    import shapely

    blunt = int(BLUNT_MM / STEP_MM)
    apart = np.abs((np.arange(len(ring))[:, None] - np.array(corners) + len(ring) / 2) % len(ring) - len(ring) / 2)
    kept = ring[apart.min(axis=1) >= blunt]
    return np.asarray(shapely.distance(shapely.points(kept), shapely.LineString(flattened(segments))))
