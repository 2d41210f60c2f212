"""How two moved edges meet at a corner: at a mitre, by a square step, or cut off square where the corner is sharp."""

import math
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points

MITRE_LIMIT = 8.0
"""A corner is mitred to at most this many times the larger distance; a sharper one is cut off square there."""

STEP_BELOW_DEG = 30.0
"""Edges that turn by less than this and move by different distances meet in a step square to the one moved farther."""

TOUCH_MM = 0.005
"""Ends closer together than this are one point."""


@dataclass(frozen=True, eq=False)
class Side:
    """An edge at a corner: as drawn, moved by a distance, mm, outwards positive."""

    drawn: Points
    moved: Points
    distance: float


@dataclass(frozen=True, eq=False)
class Corner:
    """Where the first moved edge ends, where the second starts, and the point of the outline that parts them."""

    end: Points
    start: Points
    joint: Points


def corner_between(first: Side, second: Side, stepped: bool) -> Corner | None:
    """The corner of two successive edges; None where they don't meet because one is shorter than the allowances.

    `stepped` says that a step between the drawn edges has been taken out: the edge moved farther ends at the corner.
    """
    end, start = first.moved[-1], second.moved[0]
    if stepped:
        return _at(end if abs(first.distance) > abs(second.distance) else start)
    if np.hypot(*(end - start)) < TOUCH_MM:
        return _at((end + start) / 2)
    if _makes_step(first, second):
        return _step(first, second)
    reach = MITRE_LIMIT * max(abs(first.distance), abs(second.distance))
    tip, tail = _beyond(first.moved[-2], end, reach), _beyond(second.moved[1], start, reach)
    meeting = _meeting(np.vstack([first.moved, tip]), np.vstack([tail, second.moved]), first.drawn[-1])
    if meeting is not None:
        return _at(meeting)
    opens = turn_between(first.drawn, second.drawn) * (first.distance + second.distance) > 0
    return Corner(tip, tail, tip) if opens else None


def turn_between(first: Points, second: Points) -> float:
    """Angle by which the way turns from one polyline into the next, radians; positive at a convex corner."""
    into, out = first[-1] - first[-2], second[1] - second[0]
    return math.atan2(into[0] * out[1] - into[1] * out[0], into[0] * out[0] + into[1] * out[1])


def _makes_step(first: Side, second: Side) -> bool:
    """Whether a mitre would cut into the allowance of the edge that is moved farther, and the turn is slight."""
    turn = turn_between(first.drawn, second.drawn)
    less, more = sorted((abs(first.distance), abs(second.distance)))
    return abs(turn) < math.radians(STEP_BELOW_DEG) and more > less / math.cos(turn) + TOUCH_MM


def _step(first: Side, second: Side) -> Corner | None:
    """A step along the square line through the end of the edge that is moved farther."""
    corner = first.drawn[-1]
    reach = MITRE_LIMIT * max(abs(first.distance), abs(second.distance))
    if abs(first.distance) > abs(second.distance):
        long_second = np.vstack([_beyond(second.moved[1], second.moved[0], reach), second.moved])
        foot = _meeting(np.vstack([corner, first.moved[-1]]), long_second, corner)
        return None if foot is None else Corner(first.moved[-1], foot, foot)
    long_first = np.vstack([first.moved, _beyond(first.moved[-2], first.moved[-1], reach)])
    foot = _meeting(long_first, np.vstack([corner, second.moved[0]]), corner)
    return None if foot is None else Corner(foot, second.moved[0], foot)


def _at(point: Points) -> Corner:
    return Corner(point, point, point)


def _beyond(inner: Points, end: Points, reach: float) -> Points:
    step = end - inner
    return np.asarray(end + step / np.hypot(*step) * reach)


def _meeting(first: Points, second: Points, corner: Points) -> Points | None:
    """The common point of two polylines that is nearest to the corner, if there is any."""
    common = LineString(first).intersection(LineString(second))
    points = [np.array(point) for part in _parts(common) for point in part.coords]
    return min(points, key=lambda point: float(np.hypot(*(point - corner))), default=None)


def _parts(shape: BaseGeometry) -> list[BaseGeometry]:
    return [part for part in getattr(shape, "geoms", [shape]) if not part.is_empty]
