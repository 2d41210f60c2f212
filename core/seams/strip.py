"""The cloth on either side of a seam, opened flat: what lies at a height down the seam and a depth into the panel."""

from typing import Literal

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats, outward
from core.seams.garment import SeamLine
from core.seams.stripes import Across

Side = Literal["a", "b"]


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
    """Across-coordinates w, mm, at heights (m,) down the seam and depths (n,) square to the edge; shape (m, n)."""
    points, inward = edge_at(line, side, heights)
    rate = inward[:, 0] * across.x_rate + inward[:, 1] * across.y_rate
    return np.asarray(across(points)[:, None] + rate[:, None] * depths)


def strip_reach(line: SeamLine, side: Side, ring: Points, heights: Floats) -> Floats:
    """From which depth to which the panel with outline `ring` lies beside the seam at heights (m,), mm; shape (m, 2).

    Where the line square to the edge leaves the panel and enters it again, only the first stretch is given; 0, 0 where
    it misses the panel.
    """
    points, inward = edge_at(line, side, heights)
    crossings = _depths_of_crossings(points, inward, ring)
    beside = (heights >= 0) & (heights <= line.length)
    crossings = np.where(beside[:, None], np.insert(crossings, 0, 0.0, axis=1)[:, :-1], crossings)[:, :2]
    hits = np.asarray(np.isfinite(crossings).all(axis=1))
    return np.where(hits[:, None], crossings, 0.0)


def _interpolated(at: Floats, height: Floats, values: Points) -> Points:
    return np.stack([np.interp(at, height, values[:, 0]), np.interp(at, height, values[:, 1])], axis=-1)


def _depths_of_crossings(points: Points, inward: Points, ring: Points) -> Floats:
    """Depths at which rays cross an outline, ascending, infinity where there are no more; shape (m, len(ring))."""
    start, step = ring, np.roll(ring, -1, axis=0) - ring
    offset = start[None] - points[:, None]
    side = inward[:, :1] * offset[..., 1] - inward[:, 1:] * offset[..., 0]
    rise = inward[:, :1] * step[:, 1] - inward[:, 1:] * step[:, 0]
    with np.errstate(divide="ignore", invalid="ignore"):
        share = -side / rise
        depth = (offset[..., 0] * step[:, 1] - offset[..., 1] * step[:, 0]) / rise
    met = np.asarray((share >= 0) & (share < 1) & (depth > 1e-3))
    return np.sort(np.where(met, depth, np.inf), axis=1)
