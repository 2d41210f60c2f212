"""How far a cutting line lies outside a stitching line, edge by edge."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from core.geometry.paths import Points
from core.geometry.polyline import length, outward, points_at, tangent_at

_SHARES = np.linspace(0.2, 0.8, 13)
"""Where along an edge the allowance is measured: away from its corners."""

FARTHEST_MM = 300.0
"""No allowance is wider than this."""


@dataclass(frozen=True)
class Measured:
    """The allowance of one edge, mm: the median along it, the least and the most."""

    middle: float
    least: float
    most: float


def allowances_between(edges: Sequence[Points], cutting_line: Points) -> list[Measured | None]:
    """For each edge of a clockwise stitching line how far the cutting line lies outside it, square to the edge.

    None for an edge outside which there is no cutting line.
    """
    ring = shapely.LineString(cutting_line)
    shapely.prepare(ring)
    return [_measured(edge, ring) for edge in edges]


def _measured(edge: Points, ring: shapely.LineString) -> Measured | None:
    found = [gap for share in _SHARES if (gap := _gap(edge, share * length(edge), ring)) is not None]
    if len(found) < len(_SHARES) / 2:
        return None
    return Measured(float(np.median(found)), min(found), max(found))


def _gap(edge: Points, at: float, ring: shapely.LineString) -> float | None:
    """From a point of the edge square outwards to the cutting line, mm."""
    point = points_at(edge, np.array([at]))[0]
    ray = shapely.LineString([point, point + FARTHEST_MM * outward(tangent_at(edge, at))])
    met = ray.intersection(ring)
    if met.is_empty:
        return 0.0 if ring.distance(shapely.Point(point)) < 0.05 else None
    return float(met.distance(shapely.Point(point)))
