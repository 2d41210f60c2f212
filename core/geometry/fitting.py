"""Lines and cubic curves laid through points."""

import numpy as np

from core.geometry.beziers import Segment, Segments, flattened
from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along

DEEPEST = 10
"""A stretch is halved at most this often."""

FEWEST = 6
"""A stretch of fewer points is not halved."""


def curve_through(points: Points, within_mm: float) -> Segments:
    """Few lines and cubics from the first of some points, shape (n, 2) in mm, to the last, that near to all of them."""
    return tuple(_fitted(points, within_mm, DEEPEST))


def _fitted(points: Points, within_mm: float, deepest: int) -> list[Segment]:
    line: Segment = (pair(points[0]), pair(points[-1]))
    if gaps(points, np.array(line)).max() <= within_mm:
        return [line]
    control = nearest_cubic(points)
    if deepest == 0 or len(points) < FEWEST or gaps(points, control).max() <= within_mm:
        return [tuple(pair(point) for point in control)]
    half = len(points) // 2
    parts = points[: half + 1], points[half:]
    return [segment for part in parts for segment in _fitted(part, within_mm, deepest - 1)]


def pair(point: Points) -> tuple[float, float]:
    """A point of shape (2,) as a control point."""
    return float(point[0]), float(point[1])


def nearest_cubic(points: Points) -> Points:
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


def gaps(points: Points, control: Points) -> Floats:
    """How far points lie from a segment, mm."""
    import shapely

    line = shapely.LineString(flattened((tuple(pair(point) for point in control),)))
    return np.asarray(shapely.distance(shapely.points(points), line))
