"""Curves with one end changed: lengthened, shortened, moved, turned. A curve stays a curve of the same kind.

Every function works on the end; for the start turn the curve round with `reversed_segments` first and back after.
"""

import math

import numpy as np

from core.geometry.beziers import Point, Segment, Segments
from core.geometry.paths import Points, flatten_segment
from core.geometry.polyline import Floats, length, lengths_along

CARRIED_ON = 0.2
"""A curved segment is carried on by at most this share of itself; what is longer goes on straight."""


def lengthened(segments: Segments, by: float) -> Segments:
    """The curve carried on beyond its end by so many mm, as it bends there; a negative `by` cuts it short.

    The length comes out right to first order in `by` where the last segment is curved. Cut by more than the curve is
    long, a speck of it is left at its start.
    """
    kept = list(segments)
    while by < 0 and len(kept) > 1 and -by >= segment_length(kept[-1]):
        by += segment_length(kept.pop())
    last = np.array(kept[-1])
    speed = (len(last) - 1) * float(np.hypot(*(last[-1] - last[-2])))
    if by > 0 and len(last) > 2 and by > CARRIED_ON * speed:
        way = (last[-1] - last[-2]) * (len(last) - 1) / speed
        return (*kept, _segment(np.stack([last[-1], last[-1] + by * way])))
    share = 1 + by / speed if by > 0 else _share_at(last, max(by, 1e-3 - segment_length(kept[-1])))
    return (*kept[:-1], _segment(_up_to(last, share)))


def moved_end(segments: Segments, by: Points) -> Segments:
    """The curve with its end moved by a vector, mm; every control point goes along by its share of the way there."""
    shares = _shares(segments)
    return tuple(_segment(np.array(seg) + share[:, None] * by) for seg, share in zip(segments, shares, strict=True))


def turned_end(segments: Segments, turn_deg: float) -> Segments:
    """The curve turned at its end about that end, degrees clockwise as you look at it (y down); both ends stay.

    What is moved fades out smoothly towards the start, whose direction stays: a point s mm before the end goes aside by
    s tan(turn) (1 - s / L)^2. All segments become cubic.
    """
    cubics = [_cubic(segment) for segment in segments]
    size = sum(length(flatten_segment(cubic)) for cubic in cubics)
    way = _end_way(cubics[-1])
    aside = np.array([-way[1], way[0]])
    slope = -math.tan(math.radians(turn_deg))
    before, turned = size, []
    for cubic in cubics:
        after = max(before - length(flatten_segment(cubic)), 0.0)
        turned.append(_segment(cubic + slope * _fading(before, after, size)[:, None] * aside))
        before = after
    return tuple(turned)


def segment_length(segment: Segment) -> float:
    """Length of one segment, mm."""
    return length(flatten_segment(np.array(segment, dtype=np.float64)))


def _fading(start: float, end: float, size: float) -> Floats:
    """Bezier coefficients of s (1 - s / L)^2 on a stretch from s = start down to s = end; shape (4,)."""

    def value(s: float) -> float:
        return s * (1 - s / size) ** 2

    def slope(s: float) -> float:
        return (1 - s / size) * (1 - 3 * s / size)

    third = (end - start) / 3
    return np.array([value(start), value(start) + third * slope(start), value(end) - third * slope(end), value(end)])


def _end_way(cubic: Points) -> Points:
    """Unit vector along a segment at its end."""
    step = next(cubic[-1] - point for point in cubic[-2::-1] if np.hypot(*(cubic[-1] - point)) > 1e-9)
    return np.asarray(step / np.hypot(*step))


def _cubic(segment: Segment) -> Points:
    """A segment as a cubic one that draws the same."""
    points = np.array(segment, dtype=np.float64)
    while len(points) < 4:
        degree = len(points)
        shares = np.arange(1, degree)[:, None] / degree
        points = np.vstack([points[:1], shares * points[:-1] + (1 - shares) * points[1:], points[-1:]])
    return points


def _share_at(control: Points, by: float) -> float:
    """The parameter at which a segment is shorter by so many mm (`by` negative)."""
    line = flatten_segment(control)
    along = lengths_along(line)
    return float(np.interp(along[-1] + by, along, np.linspace(0.0, 1.0, len(line))))


def _up_to(control: Points, share: float) -> Points:
    """The part of a segment from its start to a parameter, which may be above 1 (de Casteljau)."""
    row, kept = control, [control[0]]
    while len(row) > 1:
        row = row[:-1] * (1 - share) + row[1:] * share
        kept.append(row[0])
    return np.array(kept)


def _shares(segments: Segments) -> list[Floats]:
    """How far along the control polygon every control point lies, from 0 at the start to 1 at the end."""
    steps = [np.hypot(*np.diff(np.array(segment), axis=0).T) for segment in segments]
    along = np.cumsum(np.concatenate(steps)) / max(sum(float(step.sum()) for step in steps), 1e-12)
    shares, begun, index = [], 0.0, 0
    for step in steps:
        part = along[index : index + len(step)]
        shares.append(np.concatenate([[begun], part]))
        begun, index = float(part[-1]), index + len(step)
    return shares


def _segment(points: Points) -> Segment:
    return tuple(_point(x, y) for x, y in points.tolist())


def _point(x: float, y: float) -> Point:
    return x, y
