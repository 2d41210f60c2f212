"""What a remnant lacks of a whole cloth, as simple outlines."""

import itertools
from collections.abc import Iterable

import msgspec
import numpy as np
from shapely import union_all
from shapely.geometry import LineString, MultiPolygon, Polygon, box
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.model.cloth import Cloth, Remnant

_PAST_MM = 1.0
_GRID_MM = 1e-6


def missing_outlines(cloth: Cloth) -> list[Points]:
    """The parts of the width that a remnant does not have, from its cut end to where it ends, and its holes.

    Shapes (n, 2), columns u and v; beside the outline upright trapezoids, which touch each other.
    """
    if cloth.remnant is None:
        return []
    outline = np.array(cloth.remnant.outline)
    sides = np.clip(outline[:, 0], -_PAST_MM, cloth.width + _PAST_MM)
    cuts = np.unique(np.concatenate([[-_PAST_MM, cloth.width + _PAST_MM], sides]))
    top, end = -_PAST_MM, float(outline[:, 1].max())
    strips = [box(a, top, b, end).difference(Polygon(outline)) for a, b in itertools.pairwise(cuts.tolist())]
    corners = [np.array(part.exterior.coords)[:-1] for strip in strips for part in polygons_in(strip)]
    return [*corners, *(np.array(hole) for hole in cloth.remnant.holes)]


def open_ended(cloth: Cloth) -> Cloth:
    """The cloth as if its remnant went on past its end: what it lacks right before that is there as well."""
    assert cloth.remnant is not None
    holes = [Polygon(hole) for hole in cloth.remnant.holes]
    lacking = [Polygon(line) for line in missing_outlines(cloth)[: -len(holes) or None]]
    ends = [part for part in lacking if part.bounds[3] >= _end(cloth.remnant)]
    joined = union_all([Polygon(cloth.remnant.outline), *ends], grid_size=_GRID_MM)
    whole = max(polygons_in(joined.intersection(box(0.0, 0.0, cloth.width, 1e6))), key=lambda part: part.area)
    rings = [np.asarray(ring.coords)[:-1].tolist() for ring in (whole.exterior, *whole.interiors)]
    outline, *bites = (tuple((u, v) for u, v in ring) for ring in rings)
    remnant = Remnant(outline=outline, holes=(*cloth.remnant.holes, *bites))
    return msgspec.structs.replace(cloth, remnant=remnant)


def past_end(cloth: Cloth, lines: Iterable[Points]) -> float:
    """How far cut lines, (n, 2) each, reach past a remnant's end, measured along the cloth, mm; 0.0 if none does."""
    assert cloth.remnant is not None
    outline = Polygon(cloth.remnant.outline)
    parts = [part for line in lines for part in polygons_in(Polygon(line).difference(outline))]
    corners = [corner for part in parts for corner in part.exterior.coords]
    return max((v - _end_at(outline, u) for u, v in corners), default=0.0)


def _end(remnant: Remnant) -> float:
    return max(v for _, v in remnant.outline)


def _end_at(outline: Polygon, u: float) -> float:
    across = outline.intersection(LineString([(u, -1e6), (u, 1e6)]))
    return 0.0 if across.is_empty else float(across.bounds[3])


def there(cloth: Cloth) -> BaseGeometry | None:
    """All that a remnant has, and everything past its end; None for a cloth that is no remnant."""
    if cloth.remnant is None:
        return None
    outline = Polygon(cloth.remnant.outline).union(box(-1e6, cloth.end, 1e6, 1e6))
    for hole in cloth.remnant.holes:
        outline = outline.difference(Polygon(hole))
    return outline


def polygons_in(shape: BaseGeometry) -> list[Polygon]:
    """The parts of a shape that have an area."""
    parts = shape.geoms if hasattr(shape, "geoms") else [shape]
    flat = [piece for part in parts for piece in (part.geoms if isinstance(part, MultiPolygon) else [part])]
    return [piece for piece in flat if isinstance(piece, Polygon) and piece.area > 0]
