"""The one drawing list. Everything that is drawn is first a list of a few primitives in mm; painters follow it.

Points are (x, y) in mm, x to the right, y down. Sizes of lettering, spots and arrowheads are mm on the paper or
screen itself: they stay as they are when a drawing is brought to scale.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Any, Literal

import numpy as np
from shapely import clip_by_rect, intersection, line_merge
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.geometry.transform import rotation

Role = Literal[
    "cut line",
    "net line",
    "line before",
    "patch",
    "neighbour",
    "ground",
    "stripe",
    "stripe edge",
    "lead stripe",
    "grain",
    "notch",
    "mark",
    "cloth edge",
    "selvedge",
    "flaw",
    "cut off",
    "ruler",
    "check square",
    "trim",
    "overlap",
    "strip",
    "height",
    "seam",
    "rule",
    "zero",
    "step good",
    "step fair",
    "step poor",
    "text",
    "fine text",
]
"""What a primitive stands for; painters choose pen, colour and layer by it."""

Anchor = Literal["start", "middle", "end"]
Point = tuple[float, float]


@dataclass(frozen=True, eq=False)
class Line:
    """A polyline, shape (n, 2); `closed` joins its last point to its first; `arrow` puts a head at its end."""

    points: Points
    role: Role
    closed: bool = False
    arrow: bool = False


@dataclass(frozen=True, eq=False)
class Area:
    """A filled outline, shape (n, 2), first point not repeated; `colour` as #rrggbb."""

    points: Points
    role: Role
    colour: str


@dataclass(frozen=True)
class Spot:
    """A filled dot; `radius` in mm on paper."""

    at: Point
    role: Role
    radius: float = 0.6


@dataclass(frozen=True)
class Text:
    """One line of lettering: `at` is on its baseline at the anchor, `size` its em in mm on paper.

    `angle_deg` turns it clockwise about `at`; `halo` clears the ground behind it.
    """

    at: Point
    text: str
    size: float
    role: Role = "text"
    anchor: Anchor = "start"
    angle_deg: float = 0.0
    bold: bool = False
    halo: bool = False


Primitive = Line | Area | Spot | Text
Mapping = Callable[[Points], Points]


@dataclass(frozen=True)
class Box:
    """An upright rectangle, mm."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right, mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom, mm."""
        return self.bottom - self.top

    @property
    def area(self) -> float:
        """Width times height, mm2."""
        return self.width * self.height

    @property
    def corners(self) -> Points:
        """Its corners, clockwise as you look at it (y down); shape (4, 2)."""
        return np.array(
            [[self.left, self.top], [self.right, self.top], [self.right, self.bottom], [self.left, self.bottom]]
        )

    def grown(self, by: float) -> "Box":
        """Wider by so many mm on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    @classmethod
    def round(cls, points: Points) -> "Box":
        """The smallest that holds all points."""
        (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
        return cls(float(left), float(top), float(right), float(bottom))


@dataclass(frozen=True)
class Drawing:
    """A list of primitives, painted in order."""

    parts: tuple[Primitive, ...] = ()

    def __add__(self, other: "Drawing") -> "Drawing":
        return Drawing(self.parts + other.parts)

    @property
    def extent(self) -> Box | None:
        """The box round all points of all primitives, or None where nothing is drawn."""
        points = [points_of(part) for part in self.parts]
        return Box.round(np.concatenate(points)) if points else None

    def of(self, *roles: Role) -> "Drawing":
        """Only the primitives of some roles."""
        return Drawing(tuple(part for part in self.parts if part.role in roles))

    def to_scale(self, scale: float, origin: Point = (0.0, 0.0), onto: Point = (0.0, 0.0)) -> "Drawing":
        """Scaled so that `origin` comes to lie on the point `onto`."""
        start, end = np.array(origin), np.array(onto)
        return Drawing(tuple(_mapped(part, lambda points: (points - start) * scale + end) for part in self.parts))

    def moved(self, turn_deg: float, by: Point) -> "Drawing":
        """Turned clockwise (y down) about zero, lettering too, and then moved."""
        turn, step = rotation(turn_deg, False), np.array(by)
        parts = (_mapped(part, lambda points: points @ turn.T + step) for part in self.parts)
        return Drawing(tuple(_turned(part, turn_deg) for part in parts))

    @cached_property
    def _bounds(self) -> Points:
        """The boxes round the points of every primitive: left, top, right, bottom; shape (n, 4)."""
        each = [points_of(part) for part in self.parts]
        if not each:
            return np.empty((0, 4))
        every, starts = np.concatenate(each), np.cumsum([0, *(len(points) for points in each[:-1])])
        return np.hstack([np.minimum.reduceat(every, starts), np.maximum.reduceat(every, starts)])

    def within(self, window: Box) -> "Drawing":
        """What is to be seen through a window: lines and areas cut at its sides, dots and lettering kept or not."""
        left, top, right, bottom = self._bounds.T
        away = (left > window.right) | (top > window.bottom) | (right < window.left) | (bottom < window.top)
        whole = (left >= window.left) & (top >= window.top) & (right <= window.right) & (bottom <= window.bottom)
        crossing = [self.parts[index] for index in np.flatnonzero(~away & ~whole).tolist()]
        cut = iter(_all_cut(crossing, window))
        parts = ((self.parts[i],) if whole[i] else next(cut) for i in np.flatnonzero(~away).tolist())
        return Drawing(tuple(part for pieces in parts for part in pieces))

    def inside(self, outline: Points) -> "Drawing":
        """What lies within a closed outline, shape (n, 2): lines and areas cut at it, dots and lettering left out."""
        return Drawing(tuple(part for pieces in _all_cut(self.parts, Polygon(outline)) for part in pieces))


def joined(drawings: Iterable[Drawing]) -> Drawing:
    """One drawing of several, the first one lowest."""
    return Drawing(tuple(part for drawing in drawings for part in drawing.parts))


def points_of(part: Primitive) -> Points:
    """The points that fix a primitive, shape (n, 2)."""
    return part.points if isinstance(part, Line | Area) else np.array([part.at])


def segment(start: Point, end: Point, role: Role, arrow: bool = False) -> Line:
    """A straight line between two points."""
    return Line(np.array([start, end], dtype=np.float64), role, arrow=arrow)


def _mapped(part: Primitive, mapping: Mapping) -> Primitive:
    if isinstance(part, Line | Area):
        return replace(part, points=mapping(part.points))
    ((x, y),) = mapping(np.array([part.at]))
    return replace(part, at=(float(x), float(y)))


def _turned(part: Primitive, turn_deg: float) -> Primitive:
    return replace(part, angle_deg=part.angle_deg + turn_deg) if isinstance(part, Text) else part


def _all_cut(parts: Sequence[Primitive], frame: Box | BaseGeometry) -> list[tuple[Primitive, ...]]:
    """What of every primitive lies within a box or a shape; nothing of dots and lettering."""
    shapes = np.array([_shape_of(part) for part in parts], dtype=object)
    if isinstance(frame, Box):
        common = clip_by_rect(shapes, frame.left, frame.top, frame.right, frame.bottom)
    else:
        common = intersection(shapes, frame)
    merged = line_merge(common)
    return [_cut(*three) for three in zip(parts, common, merged, strict=True)]


def _shape_of(part: Primitive) -> BaseGeometry | None:
    if isinstance(part, Area):
        return Polygon(part.points)
    if isinstance(part, Line):
        return LineString(np.vstack([part.points, part.points[:1]]) if part.closed else part.points)
    return None


def _cut(part: Primitive, common: BaseGeometry, merged: BaseGeometry) -> tuple[Primitive, ...]:
    if isinstance(part, Area):
        areas = _pieces(common, "Polygon")
        return tuple(replace(part, points=np.array(piece.exterior.coords)[:-1]) for piece in areas)
    if isinstance(part, Line):
        return tuple(_piece_of(part, np.array(piece.coords)) for piece in _pieces(merged, "LineString"))
    return ()


def _piece_of(line: Line, points: Points) -> Line:
    """A stretch of a line; it keeps the arrowhead only if it holds the line's end."""
    reaches_end = bool(np.hypot(*(points[-1] - line.points[-1])) < 1e-6)
    return replace(line, points=points, closed=False, arrow=line.arrow and reaches_end)


def _pieces(shape: BaseGeometry, kind: str) -> list[Any]:
    return [piece for piece in getattr(shape, "geoms", [shape]) if piece.geom_type == kind and not piece.is_empty]
