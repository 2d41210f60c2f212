"""The ways in which one panel may lie: as it was put, end for end, and on the bias anywhere across, either way."""

import math
from collections.abc import Iterator

import msgspec
import numpy as np

from core.lay.shapes import Ints
from core.model.cloth import Cloth
from core.model.project import Placement

BIAS_STEP_MM = 8.0
"""A bias strip is tried at places across a striped cloth that are about so far apart."""

MOST_BIAS_PLACES = 4
"""At most so many places within a repeat are tried: each takes tables of its own."""


def ways_round(other: Ints, entry: int) -> Iterator[int]:
    """An entry, then the others of the same panel; `other` gives the next of each, in a ring."""
    yield entry
    following = int(other[entry])
    while following != entry:
        yield following
        following = int(other[following])


def next_of_same(whose: Ints) -> Ints:
    """For every entry the next one of the same panel, in a ring; `whose` says which panel each is. Shape (n,)."""
    other = np.arange(len(whose))
    for panel in np.unique(whose):
        ring = np.flatnonzero(whose == panel)
        other[ring] = np.roll(ring, -1)
    return other


def ways_of(at: Placement, cloth: Cloth, either_way: bool, bias: bool) -> list[Placement]:
    """How a panel may be put, `at` first; end for end as well if it may lie `either_way`.

    Stripes on a bias strip meet nothing: it may lie anywhere across, and on a plain cloth that is not one-way at 45
    degrees to either side. On others all lie to one side, so that the pattern runs on where strips are joined.
    """
    if bias:
        return [across for way in _bias_ways(at, cloth) for across in _across(way, cloth)]
    return [at, end_for_end(at, cloth)] if either_way else [at]


def _bias_ways(at: Placement, cloth: Cloth) -> list[Placement]:
    return [at] if cloth.ways or cloth.one_way else [at, quarter_turned(at)]


def quarter_turned(at: Placement) -> Placement:
    """A bias placement at 45 degrees to the other side."""
    return msgspec.structs.replace(at, turn_deg=at.turn_deg - math.copysign(90.0, at.turn_deg - 45.0))


def _across(at: Placement, cloth: Cloth) -> list[Placement]:
    period = cloth.repeat.period if cloth.repeat else 0.0
    count = max(min(math.ceil(period / BIAS_STEP_MM), MOST_BIAS_PLACES), 1)
    return [msgspec.structs.replace(at, u=at.u + period * k / count) for k in range(count)]


def end_for_end(at: Placement, cloth: Cloth) -> Placement:
    """A placement the other way round: reflected about the matched axes, which even repeats can't tell."""
    dw = 2 * (cloth.repeat.c - cloth.w(at.u, at.v)) if cloth.repeat else 0.0
    if cloth.crosswise is None:
        return msgspec.structs.replace(at, u=at.u + dw, turned=not at.turned)
    du, dv = cloth.shift_for(dw, 2 * (cloth.crosswise.c - cloth.z(at.u, at.v)))
    return msgspec.structs.replace(at, u=at.u + du, v=at.v + dv, turned=not at.turned)
