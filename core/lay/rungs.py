"""Where panels may lie along a cloth with bars: in every column v has rungs, one for each period of the bars.

The number of periods that a panel's middle has moved across the bars is a polynomial of v, of the second degree where
stripes lean on a bowed cloth: f(v) = a + b v + q v^2. v lies on a rung where f is whole.
"""

from collections.abc import Sequence

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import Cloth
from core.model.project import Placement

SAME_SHARE = 1e-9
"""Places that lie off a rung by no more than this share of a period lie on it."""

SAME_MM = 1e-7
"""Places closer together than this are one place."""

STEPS = 6
"""Newton steps to a rung; without a bow on leaning stripes the first is exact."""


def rungs_of(cloth: Cloth, places: Sequence[tuple[Placement, Floats] | None], w: Floats) -> Floats:
    """a, b and q for panels with their origins at w, mm; shape (n, columns, 3), or (n, columns, 0) without bars.

    A place is where a panel lies with its bars right, and its middle from its origin there, (2,); None stands for a
    panel whose bars don't matter, which gets zeros.
    """
    if cloth.crosswise is None:
        return np.empty((*w.shape, 0))
    rungs = np.zeros((*w.shape, 3))
    for row, place in enumerate(places):
        if place is not None:
            rungs[row] = _polynomial(cloth, *place, w[row]) / cloth.crosswise.period
    return rungs


def _polynomial(cloth: Cloth, at: Placement, middle: Floats, w: Floats) -> Floats:
    """How far the middle has moved across the bars, mm, as a polynomial of v; shape (columns, 3)."""
    u = w + middle[0]
    slope, bend, lean = cloth.weft_skew + cloth.bow_per_mm * cloth.width, cloth.bow_per_mm, cloth.skew
    start = middle[1] - slope * u + bend * u**2 - cloth.z(at.u + float(middle[0]), at.v + float(middle[1]))
    rate = 1 - slope * lean + 2 * bend * lean * u
    return np.stack([start, rate, np.full_like(u, bend * lean**2)], axis=-1)


def on_rungs(v: Floats, rungs: Floats, up: bool) -> Floats:
    """The rungs nearest to places v (...) beyond them, or before them if not `up`; `rungs` has shape (..., 3 or 0).

    Infinite places stay, and all where there are no rungs.
    """
    if not rungs.shape[-1]:
        return v
    a, b, q = np.moveaxis(rungs, -1, 0)
    place = np.where(np.isfinite(v), v, 0.0)
    f = a + b * place + q * place**2
    wanted = np.ceil(f - SAME_SHARE) if up else np.floor(f + SAME_SHARE)
    for _ in range(STEPS):
        rate = b + 2 * q * place
        place = place + (wanted - a - b * place - q * place**2) / np.where(rate != 0, rate, np.inf)
    return np.where(np.isfinite(v), place, v)


def between(least: Floats, most: Floats, rungs: Floats) -> tuple[Floats, Floats]:
    """The first and the last rung from `least` to `most`, mm; inf and -inf where there is none. Shapes (n, columns)."""
    first, last = on_rungs(least, rungs, True), on_rungs(most, rungs, False)
    there = first <= last + (SAME_MM if rungs.shape[-1] else 0.0)
    return np.where(there, first, np.inf), np.where(there, np.maximum(first, last), -np.inf)
