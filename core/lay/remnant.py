"""What a remnant lacks of a whole cloth, as simple outlines."""

import itertools

import numpy as np
from shapely.geometry import MultiPolygon, Polygon, box
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.model.cloth import Cloth

_PAST_MM = 1.0


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
