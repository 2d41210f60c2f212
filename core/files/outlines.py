"""What any import yields: outlines in mm, x to the right and y down as one looks at them, and what is known of them."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np

from core.errors import BadInput
from core.geometry.beziers import Point, Segments, flattened, line_through, transformed, without_specks
from core.geometry.paths import LARGEST_MM, Points
from core.geometry.polyline import length, signed_area
from core.seams.walk import Finding
from core.wording import tr

SPECK_MM = 1e-3
"""Anything drawn smaller than this is no line."""

MEETS_MM = 0.01
"""Two ends closer than this meet."""

REPAIR_MM = 0.5
"""A gap up to this is closed, and said so."""

MOST_SEGMENTS = 200_000
"""A drawing with more lines and curves than this is no pattern."""

Line = tuple[Point, Point]


@dataclass(frozen=True)
class Outline:
    """One line of a drawing: lines and Bezier curves end to end, mm.

    `closed` says that the last segment ends where the first one starts. `place` tells where in the file it stands.
    `sew` is the stitching line inside it, `mirror` the line on which a half is mirrored, `smooth` are vertices known to
    lie on a curve, `corners` of which are none.
    """

    segments: Segments
    closed: bool
    label: str = ""
    layer: str = ""
    place: str = ""
    sew: Segments = ()
    notches: tuple[Point, ...] = ()
    grain: Line | None = None
    mirror: Line | None = None
    smooth: tuple[Point, ...] = ()

    @property
    def title(self) -> str:
        """What to call it in a message."""
        return repr(self.label) if self.label else self.place

    @cached_property
    def points(self) -> Points:
        """The polyline that stands for it; shape (n, 2), the first point repeated at the end where it is closed."""
        return _flattened(self.segments)

    @cached_property
    def area_mm2(self) -> float:
        """Area within it, positive where it goes round clockwise as one looks at it."""
        return signed_area(self.points[:-1])

    @cached_property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right and bottom, mm."""
        low, high = self.points.min(axis=0), self.points.max(axis=0)
        return float(low[0]), float(low[1]), float(high[0]), float(high[1])

    @cached_property
    def length_mm(self) -> float:
        """Length along it, mm."""
        return length(self.points)

    @property
    def gap_mm(self) -> float:
        """How far its end lies from its start, mm."""
        return math.dist(self.segments[0][0], self.segments[-1][-1])

    def moved(self, matrix: Points) -> "Outline":
        """Itself and all that belongs to it under an affine map of shape (2, 3)."""
        return replace(
            self,
            segments=transformed(self.segments, matrix),
            sew=transformed(self.sew, matrix),
            notches=_moved_points(self.notches, matrix),
            grain=_moved_line(self.grain, matrix),
            mirror=_moved_line(self.mirror, matrix),
            smooth=_moved_points(self.smooth, matrix),
        )


@lru_cache(maxsize=1024)
def _flattened(segments: Segments) -> Points:
    points = flattened(segments)
    points.flags.writeable = False
    return points


def _moved_points(points: tuple[Point, ...], matrix: Points) -> tuple[Point, ...]:
    if not points:
        return ()
    return tuple((x, y) for x, y in (np.array(points) @ matrix[:, :2].T + matrix[:, 2]).tolist())


def _moved_line(line: Line | None, matrix: Points) -> Line | None:
    if line is None:
        return None
    start, end = _moved_points(line, matrix)
    return start, end


@dataclass(frozen=True)
class Drawing:
    """All outlines of one file or page in the order in which they stand there, and what there was to say about them.

    `page` is the width and height of the sheet they are drawn on, mm, where there is one. `all_pieces` says that every
    outline is known to be a piece, wherever it lies.
    """

    outlines: tuple[Outline, ...]
    findings: tuple[Finding, ...] = ()
    page: tuple[float, float] | None = None
    all_pieces: bool = False


def checked(strokes: Iterable[Outline]) -> list[Outline]:
    """The strokes without specks, closed ones ending exactly where they start.

    Raises BadInput: nothing is drawn, more than a pattern has, a number that is not finite or farther than 100 m.
    """
    kept: list[Outline] = []
    count = 0
    for stroke in strokes:
        count += len(stroke.segments)
        if count > MOST_SEGMENTS:
            raise BadInput(
                tr("it draws more than {most_segments} lines", most_segments=MOST_SEGMENTS),
                right=tr("a drawing of the pattern alone"),
            )
        _check_numbers(stroke)
        segments = without_specks(stroke.segments, SPECK_MM)
        if segments:
            kept.append(_closed_exactly(replace(stroke, segments=segments)))
    if not kept:
        raise BadInput(
            tr("it draws no lines"), right=tr("outlines drawn as lines and curves, not as a picture or as text")
        )
    return kept


def _check_numbers(stroke: Outline) -> None:
    for segment in stroke.segments:
        for point in segment:
            check_point(point, stroke.place)


def check_point(point: Point, place: str) -> Point:
    """The point itself. Raises BadInput if it is not finite, or farther away than anything in a pattern."""
    if not (abs(point[0]) <= LARGEST_MM and abs(point[1]) <= LARGEST_MM):
        what = tr("a point lies at ({point:g}, {point_2:g}) mm", point=point[0], point_2=point[1])
        raise BadInput(what, place, tr("up to {largest_mm:g} mm is right", largest_mm=LARGEST_MM))
    return point


def _closed_exactly(stroke: Outline) -> Outline:
    if not stroke.closed:
        return stroke
    if stroke.gap_mm > SPECK_MM:
        back = line_through((stroke.segments[-1][-1], stroke.segments[0][0]))
        return replace(stroke, segments=stroke.segments + back)
    return replace(stroke, segments=ending_at(stroke.segments, stroke.segments[0][0]))


def ending_at(segments: Segments, point: Point) -> Segments:
    """The curve with its last point put elsewhere."""
    return (*segments[:-1], (*segments[-1][:-1], point))


def box_of(outlines: Sequence[Outline]) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of all the outlines together, mm."""
    boxes = np.array([outline.box for outline in outlines])
    low, high = boxes[:, :2].min(axis=0), boxes[:, 2:].max(axis=0)
    return float(low[0]), float(low[1]), float(high[0]), float(high[1])
