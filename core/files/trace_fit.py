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
        tips = [ring[index] for index in corners]
    else:
        tips = [_tip(ring, index) for index in corners]
    segments: list[Segment] = []
    for place, start in enumerate(corners):
        after = (place + 1) % len(corners)
        stretch = _stretch(ring, start, corners[after])
        segments += _fitted(_with_ends(stretch, tips[place], tips[after]), DEEPEST)
    away = _away(ring, corners, tuple(segments))
    return Traced(tuple(segments), float(np.sqrt(np.mean(away**2))), float(away.max()))


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


def _tip(ring: Points, index: int) -> Points:
    """Where the straight lines through the outline on either side of a corner meet; shape (2,)."""
    blunt, reach = int(BLUNT_MM / STEP_MM), int(CORNER_REACH_MM / STEP_MM)
    steps = np.arange(blunt, reach + 1)
    (p, d), (q, e) = (_line_through(np.take(ring, index + sign * steps, axis=0, mode="wrap")) for sign in (-1, 1))
    parting = d[0] * e[1] - d[1] * e[0]
    if abs(parting) < 0.1:
        return np.asarray(ring[index])
    along = ((q - p)[0] * e[1] - (q - p)[1] * e[0]) / parting
    tip = p + along * d
    return np.asarray(tip if np.hypot(*(tip - ring[index])) < CORNER_REACH_MM / 2 else ring[index])


def _line_through(points: Points) -> tuple[Points, Points]:
    """The middle of points and the direction of the straight line nearest to them (least squares)."""
    middle = points.mean(axis=0)
    return middle, np.linalg.svd(points - middle)[2][0]


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
