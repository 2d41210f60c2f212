"""Where to ease one edge of a seam onto the other, and by how much, so that the stripes meet better.

Eased, the point of b's edge that meets height h of a is the one at h + e(h): e grows where b, the longer there, is
eased in, and falls where a is. The seam is cut into pieces of one length; on each the rate of easing is one of a few
up to the most the cloth takes. As e is then a whole number of the least amounts at every joint, the best rates are
found by dynamic programming over the joints.
"""

import itertools
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import Cloth
from core.seams.garment import SeamLine
from core.seams.readings import SeamReading
from core.seams.stripes import wrap

USUAL_PERCENT = 2.0
"""Firm cotton is eased by about this share of its length without puckers: common practice, no measured figure."""

PIECE_MM = 25.0
"""A seam is cut into pieces about so long."""

RATES = 4
"""The rate of a piece is a whole number of this part of the most: from -RATES to RATES of them."""

SAMPLES = 6
"""Places at which the step is read on a piece while rates are compared."""

DEAR_MM = 0.02
"""A whole seam eased as much as it can be counts for a step of this much, so that nothing is eased for nothing."""

WORTH_SHARE = 0.1
"""Easing that takes less than this share off the root mean square step is not worth the work."""

Ends = Literal["kept", "free"]


@dataclass(frozen=True)
class EaseRun:
    """A stretch of the seam, mm of height, and what is eased in on it: mm of b in 100, of a where negative."""

    from_mm: float
    to_mm: float
    per_100_mm: float


@dataclass(frozen=True, eq=False)
class Easing:
    """The best easing of a seam within a limit, and what it leaves.

    `heights` and `eased` are the joints and e there, mm. The figures are None where no part of the seam counts.
    """

    reading: SeamReading
    limit_percent: float
    heights: Floats
    eased: Floats

    @property
    def runs(self) -> tuple[EaseRun, ...]:
        """The stretches that are eased, pieces of one rate in a row taken together."""
        rates = np.round(np.diff(self.eased) / np.diff(self.heights) * 100, 6)
        starts = np.flatnonzero(np.concatenate([[True], rates[1:] != rates[:-1]]))
        ends = np.concatenate([starts[1:], [len(rates)]])
        return tuple(
            EaseRun(float(self.heights[start]), float(self.heights[end]), float(rates[start]))
            for start, end in zip(starts.tolist(), ends.tolist(), strict=True)
            if rates[start]
        )

    @property
    def total_mm(self) -> float:
        """How much is eased in all, mm, whichever edge is the longer."""
        return float(np.abs(np.diff(self.eased)).sum())

    @property
    def rms_mm(self) -> float | None:
        """The root mean square step that remains."""
        return self.after.rms_mm

    @property
    def worst_mm(self) -> float | None:
        """The largest step that remains."""
        return self.after.worst[0] if self.after.worst else None

    @property
    def after(self) -> SeamReading:
        """The seam as it reads once it is eased; b's edge meets a's at heights of a."""
        return eased_reading(self.reading, self.heights, self.eased)

    @property
    def worth(self) -> bool:
        """Whether easing takes enough off the step to be worth the work."""
        before, after = self.reading.rms_mm, self.rms_mm
        return bool(before is not None and after is not None and before > 0 and 1 - after / before >= WORTH_SHARE)


def limit_of(cloth: Cloth) -> float:
    """The most a cloth is eased, percent of its length: as it says, else by common practice."""
    return USUAL_PERCENT if cloth.ease_percent is None else cloth.ease_percent


def best_easing(reading: SeamReading, limit_percent: float | None = None, ends: Ends = "kept") -> Easing:
    """The easing that leaves the least root mean square step.

    Both ends meet; with `free` ends b may come out longer or shorter at the bottom. The limit is the cloth's own where
    none is given.
    """
    limit = limit_of(reading.cloth) if limit_percent is None else limit_percent
    length = reading.line.length
    count = max(4, round(length / PIECE_MM))
    heights = np.linspace(0.0, length, count + 1)
    least = limit / 100 * length / count / RATES
    if least <= 0:
        return Easing(reading, limit, heights, np.zeros(count + 1))
    costs = _piece_costs(reading, heights, least)
    return Easing(reading, limit, heights, least * _cheapest(costs, ends))


def eased_reading(reading: SeamReading, heights: Floats, eased: Floats) -> SeamReading:
    """The reading of a seam eased by e at heights, mm, linear between: its heights are those of a's edge."""
    line = reading.line
    own = np.interp(line.height, heights + eased, heights) if np.all(np.diff(heights + eased) > 0) else line.height
    height = np.unique(np.clip(np.concatenate([line.height, heights, own]), 0.0, line.length))
    height = height[np.concatenate([[True], np.diff(height) > 1e-9])]
    meets = np.clip(height + np.interp(height, heights, eased), 0.0, line.length)
    a = np.stack([np.interp(height, line.height, line.a[:, axis]) for axis in (0, 1)], axis=-1)
    b = np.stack([np.interp(meets, line.height, line.b[:, axis]) for axis in (0, 1)], axis=-1)
    moved = SeamLine(line.sewn, line.cloth, height, a, b, line.edge_lengths)
    w_a, w_b = (np.interp(at, line.height, w) for at, w in ((height, reading.w_a), (meets, reading.w_b)))
    return SeamReading(
        moved, reading.cloth, reading.repeat, w_a, w_b, reading.lean, _raw(reading, w_a, w_b), reading.way
    )


def _raw(reading: SeamReading, w_a: Floats, w_b: Floats) -> Floats:
    return w_a - w_b if reading.lean == "alike" else w_a + w_b - 2 * reading.repeat.c


def _piece_costs(reading: SeamReading, heights: Floats, least: float) -> Floats:
    """The cost of every piece from every amount at its upper joint by every rate, mm2; shape (pieces, amounts, rates).

    Amounts run from -most to most of the least one, rates from -RATES to RATES.
    """
    line, count = reading.line, len(heights) - 1
    most = RATES * count
    amounts, rates = np.arange(-most, most + 1), np.arange(-RATES, RATES + 1)
    shares = (np.arange(SAMPLES) + 0.5) / SAMPLES
    dear = (DEAR_MM * rates / RATES) ** 2
    counted = np.concatenate([line.counted_parts, line.counted_parts[-1:]])
    costs = np.empty((count, len(amounts), len(rates)))
    for piece, (top, bottom) in enumerate(itertools.pairwise(heights)):
        at = top + (bottom - top) * shares
        meets = at + least * (amounts[:, None, None] + rates[:, None] * shares)
        w_b = np.interp(meets, line.height, reading.w_b)
        step = wrap(_raw(reading, np.interp(at, line.height, reading.w_a), w_b), reading.period)
        seen = counted[np.clip(np.searchsorted(line.height, at, side="right") - 1, 0, len(counted) - 1)]
        costs[piece] = np.mean(step * step * seen, axis=-1) + dear
    return costs


def _cheapest(costs: Floats, ends: Ends) -> Floats:
    """The amounts at all joints, in least ones, whose pieces cost least together; shape (pieces + 1,)."""
    count, size, _ = costs.shape
    middle = size // 2
    below = np.full(size, np.inf if ends == "kept" else 0.0)
    below[middle] = 0.0
    chosen = np.empty((count, size), dtype=int)
    for piece in range(count - 1, -1, -1):
        padded = np.concatenate([np.full(RATES, np.inf), below, np.full(RATES, np.inf)])
        total = costs[piece] + np.lib.stride_tricks.sliding_window_view(padded, 2 * RATES + 1)
        chosen[piece] = np.argmin(total, axis=1)
        below = total.min(axis=1)
    amounts = [middle]
    for piece in range(count):
        amounts.append(amounts[-1] + int(chosen[piece, amounts[-1]]) - RATES)
    return np.asarray(np.array(amounts) - middle, dtype=np.float64)
