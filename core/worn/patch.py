"""A panel as it hangs: every place of it by how far down it lies and how far from its left edge to its right one."""

from dataclasses import dataclass

import numpy as np

from core.errors import CannotBeHad
from core.geometry.paths import Points
from core.geometry.polyline import Floats, distance_of, lengths_along, points_at
from core.model.panel import Panel
from core.seams.garment import SeamLine
from core.seams.strip import Side
from core.wording import tr

ROWS = 1024
"""Rows, from the upper end of the seams to their lower end, at which a panel is known."""
SHARES: Floats = np.linspace(0.0, 1.0, ROWS)
_ACROSS: Floats = np.linspace(0.0, 1.0, 9)
_NEAR_MM = 0.01


@dataclass(frozen=True, eq=False)
class Patch:
    """A panel's place at share t of its width in a row is c0 + c1 t + c2 t^2, mm in its own frame.

    `places` has the shape (ROWS, 3, 2); `width` is the length of each row, mm, shape (ROWS,); `length` the mean length
    of the panel's two sides, mm.
    """

    places: Floats
    width: Floats
    length: float


def patch(panel: Panel, left: Points, right: Points) -> Patch:
    """The patch between two sides of a panel, both given at `SHARES` from top to bottom, shape (ROWS, 2).

    Between the sides the upper and the lower border of the panel are blended linearly (Coons' patch), so that all
    four sides are met; inside a row a parabola through its ends and its middle is kept.
    """
    ring = panel.net_ring
    top = _round(ring, left[0], right[0], _ACROSS)
    bottom = _round(ring, right[-1], left[-1], _ACROSS)[::-1]
    t, s = _ACROSS[:, None], SHARES[:, None, None]
    rows = left[:, None] * (1 - t) + right[:, None] * t
    rows = rows + (1 - s) * _bulge(top, t) + s * _bulge(bottom, t)
    first, middle, last = rows[:, 0], rows[:, len(_ACROSS) // 2], rows[:, -1]
    bend = 2 * first - 4 * middle + 2 * last
    width = np.hypot(*np.moveaxis(np.diff(rows, axis=1), -1, 0)).sum(axis=1)
    length = float(lengths_along(left)[-1] + lengths_along(right)[-1]) / 2
    return Patch(np.stack([first, last - first - bend, bend], axis=1), width, length)


def _bulge(border: Points, t: Points) -> Points:
    """By how much a border differs from its chord."""
    return np.asarray(border - border[0] * (1 - t) - border[-1] * t)


def _round(ring: Points, start: Points, end: Points, shares: Floats) -> Points:
    """Points of an outline from one of its points clockwise to another, at shares of the way."""
    if np.hypot(*(end - start)) < _NEAR_MM:
        return start + (end - start) * shares[:, None]
    closed = np.vstack([ring, ring[:1]])
    total, begin = lengths_along(closed)[-1], distance_of(closed, start)
    way = (distance_of(closed, end) - begin) % total
    return points_at(closed, (begin + shares * way) % total)


def sewn_side(lines: list[SeamLine], side: Side) -> Points:
    """The side of a panel along which it is sewn to its neighbour, by one seam or several, at `SHARES`."""
    ordered = sorted(lines, key=lambda line: float(line.a[:, 1].mean()))
    tops = np.concatenate([[0.0], np.cumsum([line.length for line in ordered])])
    height = np.concatenate([line.height + top for line, top in zip(ordered, tops[:-1], strict=True)])
    points = np.concatenate([line.a if side == "a" else line.b for line in ordered])
    return np.stack([np.interp(SHARES * tops[-1], height, column) for column in points.T], axis=-1)


def free_side(panel: Panel, left: bool) -> Points:
    """The left or the right side of a panel that is not sewn there, at `SHARES`.

    Raises CannotBeHad if none of its edges runs up or down there.
    """
    way = -1.0 if left else 1.0
    edges = [edge for edge in panel.net.values() if _runs(edge[-1] - edge[0], way)]
    if not edges:
        side = tr("it has no edge down its left side") if left else tr("it has no edge down its right side")
        raise CannotBeHad(side, tr("panel {name!r}", name=panel.name))
    line = np.concatenate(sorted(edges, key=lambda edge: way * float(edge[:, 1].mean())))
    line = line[::-1] if left else line
    return points_at(line, SHARES * lengths_along(line)[-1])


def _runs(chord: Points, way: float) -> bool:
    """Whether an edge runs down (1) or up (-1) rather than across."""
    return bool(way * chord[1] > abs(chord[0]))
