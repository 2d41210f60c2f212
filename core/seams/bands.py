"""Stripes and bars as they lie on a cloth, as outlines and lines to be drawn; all pictures of a cloth draw these."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.model.cloth import Box, Cloth, Stripe, Way
from core.seams.stripes import band_borders, lead_centres_between

BENT_MM = 0.02
"""Bowed bars are drawn straight between points so close that they stray by no more than this."""


@dataclass(frozen=True, eq=False)
class Bands:
    """All copies of one stripe that meet a box: closed outlines of one number of points, mm; shape (copies, m, 2)."""

    stripe: Stripe
    outlines: Points


def bands_in(cloth: Cloth, way: Way, box: Box) -> Iterator[Bands]:
    """The stripes of one way that meet a box of cloth (u, v, u, v), lowest first.

    They reach from one side of the box to the other, and beyond it by part of a stripe the other way.
    """
    repeat = cloth.repeat_of(way)
    if repeat is None:
        return
    low, high = _reach(cloth, way, box)
    for stripe in repeat.stripes:
        centre = repeat.origin + stripe.at
        starts = centre - stripe.width / 2 + _shifts(centre, stripe.width, low, high, repeat.width)
        there, back = _lines(cloth, way, starts, box), _lines(cloth, way, starts + stripe.width, box)
        yield Bands(stripe, np.concatenate([there, back[:, ::-1]], axis=1))


def borders_in(cloth: Cloth, way: Way, box: Box) -> Points:
    """Lines along which what is seen of one way changes, from side to side of a box; shape (lines, m, 2)."""
    repeat = cloth.repeat_of(way)
    if repeat is None:
        return np.empty((0, 2, 2))
    low, high = _reach(cloth, way, box)
    borders = band_borders(repeat)
    shifts = _shifts(float(borders.min()), repeat.width * 2, low, high, repeat.width)
    places = np.sort((borders[:, None] + shifts).ravel())
    return _lines(cloth, way, places[(places >= low) & (places <= high)], box)


def lead_lines_in(cloth: Cloth, way: Way, box: Box) -> Points:
    """Centre lines of the lead stripes of one way, from side to side of a box; shape (lines, m, 2)."""
    repeat = cloth.repeat_of(way)
    if repeat is None:
        return np.empty((0, 2, 2))
    return _lines(cloth, way, lead_centres_between(repeat, *_reach(cloth, way, box)), box)


def straight_for_mm(cloth: Cloth) -> float:
    """How far a bowed bar is straight to `BENT_MM`; a chord d of a parabola q u^2 strays by q d^2 / 4."""
    return math.sqrt(4 * BENT_MM / abs(cloth.bow_per_mm)) if cloth.bow_per_mm else math.inf


def _shifts(centre: float, width: float, low: float, high: float, every: float) -> Floats:
    """The whole repeats by which something of a width meets the coordinates between two."""
    first, last = np.ceil((low - width / 2 - centre) / every), np.floor((high + width / 2 - centre) / every)
    return np.asarray(np.arange(first, last + 1) * every)


def _reach(cloth: Cloth, way: Way, box: Box) -> tuple[float, float]:
    """The least and the greatest coordinate across the stripes in a box."""
    left, top, right, bottom = box
    if way == "lengthwise":
        across = [cloth.w(u, v) for u in (left, right) for v in (top, bottom)]
        return min(across), max(across)
    u = _stations(cloth, left, right)
    low = np.asarray(cloth.z(u, np.full(len(u), top)))
    return float(low.min()), float(low.max()) + bottom - top


def _lines(cloth: Cloth, way: Way, places: Floats, box: Box) -> Points:
    """The lines at coordinates across the stripes, from side to side of a box; shape (places, m, 2)."""
    left, top, right, bottom = box
    if way == "lengthwise":
        v = np.array([top, bottom])
        u = places[:, None] + cloth.skew * v
        return np.stack([u, np.broadcast_to(v, u.shape)], axis=-1)
    u = _stations(cloth, left, right)
    v = places[:, None] - cloth.z(u, np.zeros(len(u)))
    return np.stack([np.broadcast_to(u, v.shape), v], axis=-1)


def _stations(cloth: Cloth, left: float, right: float) -> Floats:
    """Where across a box the points of bars lie: at its sides, and between them where bars are bowed."""
    count = int(np.ceil((right - left) / straight_for_mm(cloth))) + 1 if cloth.bow_per_mm else 2
    return np.linspace(left, right, max(count, 2))
