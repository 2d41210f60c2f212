"""Curves as Bezier segments: arcs, reversing, moving, path data. A segment is 2, 3 or 4 control points, mm."""

import itertools
import math
from collections.abc import Sequence

import numpy as np

from core.geometry.paths import Points, flatten_segment, short_number, without_repeats

Point = tuple[float, float]
Segment = tuple[Point, ...]
Segments = tuple[Segment, ...]

ARC_MM = 0.001
"""Largest distance between an arc and the cubics that stand for it."""

_COMMAND = {2: "L", 3: "Q", 4: "C"}


def line_through(points: Sequence[Point]) -> Segments:
    """The straight segments that join points in order."""
    return tuple(itertools.pairwise(points))


def reversed_segments(segments: Segments) -> Segments:
    """The same curve drawn from its end to its start."""
    return tuple(segment[::-1] for segment in reversed(segments))


def transformed(segments: Segments, matrix: Points) -> Segments:
    """The curve under an affine map of shape (2, 3), its last column the shift. Numbers may be infinite."""
    if not segments:
        return ()
    points = np.array([point for segment in segments for point in segment], dtype=np.float64)
    with np.errstate(all="ignore"):
        moved = iter((points @ matrix[:, :2].T + matrix[:, 2]).tolist())
    return tuple(tuple((x, y) for x, y in (next(moved) for _ in segment)) for segment in segments)


def unit_arc(start: float, sweep: float, radius_mm: float) -> Segments:
    """Cubics for the arc of the unit circle from an angle on, radians, counted from +x towards +y.

    There are as many of them as keep within ARC_MM once the circle is drawn with the given radius. The error of one
    cubic over an angle t is 2/27 sin^6(t/4) / cos^2(t/4) of the radius.
    """
    count = max(1, math.ceil(abs(sweep) / (math.pi / 2) - 1e-9))
    while 2 / 27 * math.sin(abs(sweep) / count / 4) ** 6 * radius_mm > 0.9 * ARC_MM and count < 4000:
        count += 1
    step = sweep / count
    return tuple(_unit_cubic(start + index * step, step) for index in range(count))


def _unit_cubic(start: float, sweep: float) -> Segment:
    reach = 4 / 3 * math.tan(sweep / 4)
    (x0, y0), (x1, y1) = ((math.cos(angle), math.sin(angle)) for angle in (start, start + sweep))
    return (x0, y0), (x0 - reach * y0, y0 + reach * x0), (x1 + reach * y1, y1 - reach * x1), (x1, y1)


def flattened(segments: Segments) -> Points:
    """The polyline that stands for the curve, within the flatness of the house; shape (n, 2)."""
    parts = [flatten_segment(np.array(segment, dtype=np.float64)) for segment in segments]
    return without_repeats(np.concatenate([parts[0], *(part[1:] for part in parts[1:])]))


def without_specks(segments: Segments, smallest_mm: float) -> Segments:
    """The curve without segments that lie wholly within a small distance of their start; the next one starts there."""
    kept: list[Segment] = []
    for segment in segments:
        start = kept[-1][-1] if kept else segment[0]
        if any(math.dist(start, point) > smallest_mm for point in segment[1:]):
            kept.append((start, *segment[1:]))
    return tuple(kept)


def path_data(segments: Segments) -> str:
    """SVG path data (absolute M, L, Q, C) that draws the curve."""
    words = [f"M {_pair(segments[0][0])}"]
    for segment in segments:
        words.append(_COMMAND[len(segment)] + " " + " ".join(_pair(point) for point in segment[1:]))
    return " ".join(words)


def _pair(point: Point) -> str:
    return f"{short_number(point[0])} {short_number(point[1])}"
