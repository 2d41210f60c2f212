"""Offsetting an outline edge by edge, each edge by its own distance, corners mitred as a person would mark them."""

from collections.abc import Sequence

import numpy as np
from shapely.geometry import LineString, Point
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points, without_repeats
from core.geometry.polyline import outward

MITRE_LIMIT = 8.0
"""A corner is mitred to at most this many times the larger allowance; a sharper one is cut off square."""


def offset_edges(edges: Sequence[Points], distances: Sequence[float]) -> list[Points]:
    """Offset each edge of a clockwise closed outline (y down) by its own distance, mm, outwards positive.

    Returns one polyline an edge, each starting where the one before it ends. Where two moved edges cross they are
    trimmed at the crossing, where they part they are extended along their end tangents to a mitre.
    """
    moved = [_moved(edge, distance) for edge, distance in zip(edges, distances, strict=True)]
    result = list(moved)
    for index in range(len(moved)):
        after = (index + 1) % len(moved)
        reach = MITRE_LIMIT * max(abs(distances[index]), abs(distances[after]), 1e-6)
        result[index], result[after] = _joined(result[index], result[after], edges[index][-1], reach)
    return [without_repeats(edge) for edge in result]


def _moved(edge: Points, distance: float) -> Points:
    if distance == 0:
        return edge
    steps = np.diff(edge, axis=0)
    normals = outward(steps / np.hypot(*steps.T)[:, None])
    before, after = np.vstack([normals[:1], normals]), np.vstack([normals, normals[-1:]])
    bisector = before + after
    scale = 2.0 / np.maximum(np.sum(bisector * bisector, axis=1), 0.25)
    return np.asarray(edge + distance * bisector * scale[:, None])


def _joined(first: Points, second: Points, corner: Points, reach: float) -> tuple[Points, Points]:
    """Two successive edges made to meet: trimmed, mitred, or joined by a short straight line."""
    if np.hypot(*(first[-1] - second[0])) < 1e-9:
        return first, np.vstack([first[-1:], second[1:]])
    long_first = np.vstack([first, _beyond(first[-2], first[-1], reach)])
    long_second = np.vstack([_beyond(second[1], second[0], reach), second])
    meeting = _nearest_meeting(long_first, long_second, corner)
    if meeting is None:
        return first, np.vstack([first[-1:], second])
    head = _up_to(long_first, meeting)
    tail = _up_to(long_second[::-1], meeting)[::-1]
    return head, tail


def _beyond(inner: Points, end: Points, reach: float) -> Points:
    step = end - inner
    return np.asarray(end + step / np.hypot(*step) * reach)


def _nearest_meeting(first: Points, second: Points, corner: Points) -> Points | None:
    common = LineString(first).intersection(LineString(second))
    points = [np.array(point) for part in _parts(common) for point in part.coords]
    return min(points, key=lambda point: float(np.hypot(*(point - corner))), default=None)


def _parts(shape: BaseGeometry) -> list[BaseGeometry]:
    if shape.is_empty:
        return []
    return [part for part in getattr(shape, "geoms", [shape]) if not part.is_empty]


def _up_to(line: Points, end: Points) -> Points:
    """The polyline from its start to a point on it."""
    along = LineString(line).project(Point(end))
    lengths = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(line, axis=0).T))])
    return np.vstack([line[lengths < along - 1e-9], end]) if along > 1e-9 else np.vstack([line[:1], end])
