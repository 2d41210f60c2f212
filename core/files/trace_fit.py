"""A traced outline, noisy and of many points, as few lines and smooth curves between sharp corners."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.geometry.beziers import Segment, Segments, flattened
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
    line: Segment = (_pair(points[0]), _pair(points[-1]))
    if _gaps(points, np.array(line)).max() <= WITHIN_MM:
        return [line]
    control = _cubic(points)
    if deepest == 0 or len(points) < 8 or _gaps(points, control).max() <= WITHIN_MM:
        return [tuple(_pair(point) for point in control)]
    half = len(points) // 2
    middle = points[max(half - 4, 0) : half + 5].mean(axis=0)
    first, second = np.vstack([points[:half], middle]), np.vstack([middle, points[half + 1 :]])
    return _fitted(first, deepest - 1) + _fitted(second, deepest - 1)


def _pair(point: Points) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _cubic(points: Points) -> Points:
    """The cubic through the first and the last point that is nearest to the others (least squares); shape (4, 2)."""
    t = lengths_along(points) / lengths_along(points)[-1]
    for _ in range(6):
        basis = np.stack([(1 - t) ** 3, 3 * (1 - t) ** 2 * t, 3 * (1 - t) * t**2, t**3], axis=1)
        fixed = basis[:, [0, 3]] @ points[[0, -1]]
        inner = np.linalg.lstsq(basis[:, 1:3], points - fixed, rcond=None)[0]
        control = np.vstack([points[:1], inner, points[-1:]])
        t = _nearest_parameters(points, control, t)
    return control


def _nearest_parameters(points: Points, control: Points, t: Floats) -> Floats:
    """One step of Newton's method towards the parameters at which a cubic lies nearest to points."""
    s = (1 - t)[:, None]
    u = t[:, None]
    p0, p1, p2, p3 = control
    offset = s**3 * p0 + 3 * s**2 * u * p1 + 3 * s * u**2 * p2 + u**3 * p3 - points
    first = 3 * (s**2 * (p1 - p0) + 2 * s * u * (p2 - p1) + u**2 * (p3 - p2))
    second = 6 * (s * (p2 - 2 * p1 + p0) + u * (p3 - 2 * p2 + p1))
    slope = np.sum(first * first, axis=1) + np.sum(offset * second, axis=1)
    step = np.sum(offset * first, axis=1) / np.where(np.abs(slope) > 1e-9, slope, np.inf)
    moved = np.clip(t - step, 0.0, 1.0)
    return np.asarray(np.maximum.accumulate(moved))


def _gaps(points: Points, control: Points) -> Floats:
    """How far points lie from a segment, mm."""
    import shapely

    line = shapely.LineString(flattened((tuple(_pair(point) for point in control),)))
    return np.asarray(shapely.distance(shapely.points(points), line))


def _away(ring: Points, corners: list[int], segments: Segments) -> npt.NDArray[np.float64]:
    """How far the trace lies from the outline, mm, apart from where it is rounded off at corners."""
    import shapely

    blunt = int(BLUNT_MM / STEP_MM)
    apart = np.abs((np.arange(len(ring))[:, None] - np.array(corners) + len(ring) / 2) % len(ring) - len(ring) / 2)
    kept = ring[apart.min(axis=1) >= blunt]
    return np.asarray(shapely.distance(shapely.points(kept), shapely.LineString(flattened(segments))))
