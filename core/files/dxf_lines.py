"""The lines and curves of a DXF drawing as Bezier segments."""

import itertools
import math
from collections.abc import Iterable, Iterator, Sequence
from typing import Any

import numpy as np

from core.errors import BadInput
from core.files.outlines import Outline
from core.geometry.beziers import Point, Segment, Segments, line_through, transformed, unit_arc
from core.geometry.paths import Points
from core.wording import tr

MOST_ENTITIES = 50_000
"""More entities than this, those inside inserted blocks counted, are no pattern."""

DEEPEST_INSERT = 12

DRAWN = ("LINE", "LWPOLYLINE", "POLYLINE", "ARC", "CIRCLE", "ELLIPSE", "SPLINE")
"""The kinds of entities that draw an outline."""

_FLAT = 1e-9


def entities_within(entities: Iterable[Any]) -> Iterator[Any]:
    """All entities, those of inserted blocks where they come to lie. Raises BadInput: too many, too deep."""
    for number, entity in enumerate(_unpacked(entities, 0)):
        if number >= MOST_ENTITIES:
            raise BadInput(
                tr("it holds more than {most_entities} entities", most_entities=MOST_ENTITIES),
                right=tr("a drawing of the pattern alone"),
            )
        yield entity


def _unpacked(entities: Iterable[Any], depth: int) -> Iterator[Any]:
    for entity in entities:
        if entity.dxftype() != "INSERT":
            yield entity
        elif depth >= DEEPEST_INSERT:
            raise BadInput(
                tr("its blocks are inserted in each other too deep"),
                right=tr("up to {deepest_insert} levels", deepest_insert=DEEPEST_INSERT),
            )
        else:
            yield entity
            for insert in _one_by_one(entity):
                inside = insert.block() if _as_it_is(insert) else insert.virtual_entities()
                yield from _unpacked(inside or (), depth + 1)


def _one_by_one(insert: Any) -> Iterable[Any]:
    """The insert itself, or all those of a grid that it stands for."""
    if insert.mcount > MOST_ENTITIES:
        raise BadInput(
            tr("a block is inserted {mcount} times", mcount=insert.mcount),
            right=tr("a drawing of the pattern alone is right"),
        )
    return insert.multi_insert() if insert.mcount > 1 else (insert,)


def _as_it_is(insert: Any) -> bool:
    """Whether a block is put into the drawing without being moved, turned or scaled."""
    around = insert.dxf
    scales = [around.get(name, 1.0) for name in ("xscale", "yscale", "zscale")]
    moved = [*around.get("insert", (0, 0, 0)), around.get("rotation", 0.0), *scales]
    block = insert.block()
    base = tuple(block.block.dxf.get("base_point", (0, 0, 0))) if block is not None else (0, 0, 0)
    upright = tuple(around.get("extrusion", (0, 0, 1))) == (0, 0, 1)
    return moved == [0, 0, 0, 0, 1, 1, 1] and tuple(base) == (0, 0, 0) and upright


def stroke_of(entity: Any, size: float, place: str) -> Outline:
    """The line that an entity of a DRAWN kind draws, in mm and y downwards; `size` is millimetres in a unit."""
    segments, closed = _segments(entity, size)
    layer = entity.dxf.get("layer", "0")
    matrix = np.array([[size, 0.0, 0.0], [0.0, -size, 0.0]])
    return Outline(transformed(segments, matrix), closed, layer="" if layer == "0" else layer, place=place)


def _segments(entity: Any, mm_per_unit: float) -> tuple[Segments, bool]:
    match entity.dxftype():
        case "LINE":
            return line_through((_xy(entity.dxf.start), _xy(entity.dxf.end))), False
        case "LWPOLYLINE":
            vertices = [(x, y, bulge) for x, y, bulge in entity.get_points("xyb")]
            return _in_world(entity, _polyline(vertices, entity.closed, mm_per_unit)), entity.closed
        case "POLYLINE":
            return _old_polyline(entity, mm_per_unit)
        case "ARC" | "CIRCLE":
            return _in_world(entity, _arc(entity, mm_per_unit)), entity.dxftype() == "CIRCLE"
        case "ELLIPSE":
            return _ellipse(entity, mm_per_unit)
        case _:
            return _spline(entity), bool(entity.closed)


def _xy(vector: Any) -> Point:
    return float(vector.x), float(vector.y)


def _in_world(entity: Any, segments: Segments) -> Segments:
    """Segments of an entity with its own plane, seen from above."""
    plane = entity.ocs()
    if not plane.transform:
        return segments
    origin, x, y = (plane.to_wcs(vector) for vector in ((0, 0, 0), (1, 0, 0), (0, 1, 0)))
    matrix = np.array(
        [[x[0] - origin[0], y[0] - origin[0], origin[0]], [x[1] - origin[1], y[1] - origin[1], origin[1]]]
    )
    return transformed(segments, matrix)


def _old_polyline(entity: Any, mm_per_unit: float) -> tuple[Segments, bool]:
    if not (entity.is_2d_polyline or entity.is_3d_polyline):
        return (), False
    control_frame = 16
    vertices = [vertex for vertex in entity.vertices if not vertex.dxf.get("flags", 0) & control_frame]
    points = [(*_xy(vertex.dxf.location), float(vertex.dxf.get("bulge", 0.0))) for vertex in vertices]
    closed = bool(entity.is_closed)
    segments = _polyline(points, closed, mm_per_unit)
    return (_in_world(entity, segments) if entity.is_2d_polyline else segments), closed


def _polyline(vertices: Sequence[tuple[float, float, float]], closed: bool, mm_per_unit: float) -> Segments:
    pairs = list(itertools.pairwise(vertices))
    if closed and len(vertices) > 1 and vertices[0][:2] != vertices[-1][:2]:
        pairs.append((vertices[-1], vertices[0]))
    segments: list[Segment] = []
    for (x, y, bulge), after in pairs:
        segments += _bulged((x, y), after[:2], bulge, mm_per_unit)
    return tuple(segments)


def _bulged(start: Point, end: Point, bulge: float, mm_per_unit: float) -> Segments:
    """A straight line, or the arc over it whose bulge is the tangent of a quarter of its angle."""
    chord = math.dist(start, end)
    if abs(bulge) < _FLAT or chord == 0 or not math.isfinite(bulge * chord):
        return ((start, end),)
    angle = 4 * math.atan(bulge)
    offset = chord / 2 * (1 - bulge * bulge) / (2 * bulge)
    along = (end[0] - start[0]) / chord, (end[1] - start[1]) / chord
    middle = (start[0] + end[0]) / 2 - along[1] * offset, (start[1] + end[1]) / 2 + along[0] * offset
    radius = math.dist(middle, start)
    first = math.atan2(start[1] - middle[1], start[0] - middle[0])
    arc = _round(middle, radius, first, angle, mm_per_unit)
    return ((start, *arc[0][1:]), *arc[1:-1], (*arc[-1][:-1], end)) if len(arc) > 1 else ((start, *arc[0][1:-1], end),)


def _arc(entity: Any, mm_per_unit: float) -> Segments:
    start, sweep = 0.0, 2 * math.pi
    if entity.dxftype() == "ARC":
        start = math.radians(entity.dxf.start_angle)
        sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360 or 360)
    return _round(_xy(entity.dxf.center), float(entity.dxf.radius), start, sweep, mm_per_unit)


def _round(middle: Point, radius: float, start: float, sweep: float, mm_per_unit: float) -> Segments:
    matrix = np.array([[radius, 0.0, middle[0]], [0.0, radius, middle[1]]])
    return transformed(unit_arc(start, sweep, radius * mm_per_unit), matrix)


def _ellipse(entity: Any, mm_per_unit: float) -> tuple[Segments, bool]:
    middle, long, short = _xy(entity.dxf.center), _xy(entity.dxf.major_axis), _xy(entity.minor_axis)
    start, end = float(entity.dxf.start_param), float(entity.dxf.end_param)
    sweep = (end - start) % (2 * math.pi)
    whole = sweep < _FLAT or 2 * math.pi - sweep < _FLAT
    matrix = np.array([[long[0], short[0], middle[0]], [long[1], short[1], middle[1]]])
    size = math.hypot(*long) * mm_per_unit
    return transformed(unit_arc(start, 2 * math.pi if whole else sweep, size), matrix), whole


def _spline(entity: Any) -> Segments:
    """Exact Bezier segments for a plain spline up to the third degree; a fine polyline for any other."""
    tool = entity.construction_tool()
    if tool.degree <= 3 and tool.is_clamped and not tool.is_rational:
        curves = ([_xy(point) for point in curve] for curve in tool.bezier_decomposition())
        return tuple(tuple(curve) for curve in curves)
    points = [_xy(point) for point in tool.flattening(FLAT_SHARE * _extent(tool))]
    return line_through(points)


FLAT_SHARE = 2e-6
"""A rational spline is drawn as a polyline that keeps this close, as a share of its extent."""


def _extent(tool: Any) -> float:
    points: Points = np.array([_xy(point) for point in tool.control_points])
    return max(float(np.ptp(points, axis=0).max()), 1e-6)
