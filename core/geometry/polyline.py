"""Measures of polylines: arc length, points at a distance, area, direction of travel."""

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points

Floats = NDArray[np.float64]


def lengths_along(points: Points) -> Floats:
    """Distance of every vertex from the first one along the polyline, mm; shape (n,)."""
    return np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])


def ascending(values: Floats) -> Floats:
    """The values in ascending order, each once. `np.unique` does the same, but reads the whole room of masked arrays
    when it is first called, which a start would wait for."""
    values = np.sort(values)
    once: Floats = values[np.concatenate([[True], values[1:] != values[:-1]])]
    return once


def length(points: Points) -> float:
    """Length of the polyline, mm."""
    return float(lengths_along(points)[-1])


def points_at(points: Points, distances: Floats) -> Points:
    """The points at given distances along the polyline, mm; distances outside it give its ends."""
    along = lengths_along(points)
    return np.stack([np.interp(distances, along, points[:, 0]), np.interp(distances, along, points[:, 1])], axis=-1)


def stretch(line: Points, start: float, end: float) -> Points:
    """The part of a polyline from one distance along it to a larger one, mm."""
    along = lengths_along(line)
    inside = line[(along > start + 1e-3) & (along < end - 1e-3)]
    ends = points_at(line, np.array([start, end]))
    return np.vstack([ends[:1], inside, ends[1:]])


def distance_of(line: Points, point: Points) -> float:
    """Distance along a polyline of its point nearest to a given one, mm."""
    start, step = line[:-1], np.diff(line, axis=0)
    share = np.clip(np.sum((point - start) * step, axis=1) / np.sum(step * step, axis=1), 0.0, 1.0)
    gap = np.hypot(*(start + share[:, None] * step - point).T)
    index = int(np.argmin(gap))
    along = lengths_along(line)
    return float(along[index] + share[index] * (along[index + 1] - along[index]))


def tangent_at(points: Points, distance: float) -> Points:
    """Unit vector along the polyline at a distance from its start; shape (2,)."""
    along = lengths_along(points)
    index = int(np.clip(np.searchsorted(along, distance, side="right") - 1, 0, len(points) - 2))
    step = points[index + 1] - points[index]
    return np.asarray(step / np.hypot(*step))


def outward(direction: Points) -> Points:
    """Unit normal that points out of an outline drawn clockwise (y down); works on (..., 2)."""
    return np.stack([direction[..., 1], -direction[..., 0]], axis=-1)


def signed_area(ring: Points) -> float:
    """Area of a closed outline, mm2: positive when it is drawn clockwise as you look at it (y down)."""
    x, y = ring[:, 0], ring[:, 1]
    return float(0.5 * np.sum(x * np.roll(y, -1) - np.roll(x, -1) * y))


def reflected(points: Points, through: Points, along: Points) -> Points:
    """The points mirrored in the line through a point with a given unit direction; shape (n, 2)."""
    offset = points - through
    return np.asarray(through + 2 * (offset @ along)[:, None] * along - offset)
