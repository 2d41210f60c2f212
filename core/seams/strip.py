"""The cloth on either side of a seam, opened flat: what lies at a height down the seam and a depth into the panel."""

from typing import Literal

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along, outward, points_at
from core.seams.garment import SeamLine
from core.seams.stripes import Across

Side = Literal["a", "b"]

DENSE_MM = 4.0


def edge_points(line: SeamLine, side: Side, heights: Floats) -> Points:
    """Points of one net edge at heights on the seam, in the panel's frame, mm; shape (m, 2)."""
    return _interpolated(heights, line.height, line.a if side == "a" else line.b)


def edge_at(line: SeamLine, side: Side, heights: Floats) -> tuple[Points, Points]:
    """Points of one net edge at heights down the seam, and unit vectors square to the edge into the panel.

    Both of shape (m, 2), in the panel's frame, mm. Above the seam's top and below its bottom the edge runs straight on.
    """
    edge = line.a if side == "a" else line.b
    along = np.diff(edge, axis=0)
    along /= np.hypot(*along.T)[:, None]
    at_points = np.vstack([along[:1], along[:-1] + along[1:], along[-1:]])
    direction = _interpolated(heights, line.height, at_points)
    direction /= np.hypot(*direction.T)[:, None]
    beyond = np.minimum(heights, 0.0) + np.maximum(heights - line.length, 0.0)
    points = _interpolated(heights, line.height, edge) + beyond[:, None] * direction
    return points, outward(direction) * (-1.0 if side == "a" else 1.0)


def strip_across(line: SeamLine, side: Side, across: Across, heights: Floats, depths: Floats) -> Floats:
    """Coordinates across the stripes, mm, at heights (m,) down the seam and depths (n,) square to the edge; (m, n).

    The bend of a bow over the depth is left out: 0.2 mm in 60 mm for a bow of 2 % on 1500 mm.
    """
    points, inward = edge_at(line, side, heights)
    return np.asarray(across(points)[:, None] + across.rate_along(points, inward)[:, None] * depths)


def opened_ring(line: SeamLine, side: Side, ring: Points) -> Points:
    """A panel's closed outline as it lies beside the seam opened flat: heights and depths, mm; shape (m, 2).

    Every point keeps its distance from the edge, or from the edge's straight continuation beyond its ends; depths are
    positive inwards. Points are added so that none lie farther apart than `DENSE_MM`.
    """
    points = _densified(ring)
    beyond = float(np.ptp(ring, axis=0).sum())
    ends = np.array([-beyond, line.length + beyond])
    tips = edge_at(line, side, ends)[0]
    height = np.concatenate([ends[:1], line.height, ends[1:]])
    edge = np.vstack([tips[:1], line.a if side == "a" else line.b, tips[1:]])
    start, step = edge[:-1], np.diff(edge, axis=0)
    share = np.sum((points[:, None] - start) * step, axis=2) / np.sum(step * step, axis=1)
    offset = points[:, None] - start - np.clip(share, 0.0, 1.0)[..., None] * step
    distance = np.hypot(offset[..., 0], offset[..., 1])
    row, part = np.arange(len(points)), np.argmin(distance, axis=1)
    inwards = np.sum(offset[row, part] * outward(step[part]), axis=1) * (-1.0 if side == "a" else 1.0)
    along = height[part] + np.clip(share[row, part], 0.0, 1.0) * np.diff(height)[part]
    return np.stack([along, np.copysign(distance[row, part], inwards)], axis=-1)


def _densified(ring: Points) -> Points:
    """The outline with points added along its straight stretches; shape (m, 2)."""
    closed = np.vstack([ring, ring[:1]])
    along = lengths_along(closed)
    extra = np.arange(0.0, along[-1], DENSE_MM)
    return points_at(closed, np.unique(np.concatenate([along[:-1], extra])))


def _interpolated(at: Floats, height: Floats, values: Points) -> Points:
    return np.stack([np.interp(at, height, values[:, 0]), np.interp(at, height, values[:, 1])], axis=-1)
