"""A seam cut into stretches of one grade, ready to be drawn: where its step is good, fair or poor."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np

from core.geometry.polyline import Floats, ascending
from core.seams.readings import SeamReading
from core.seams.stripes import crossing_heights


@dataclass(frozen=True, eq=False)
class Run:
    """A stretch of a seam with one grade, without a jump in the step.

    `grade` counts the limits that |step| exceeds; `counts` is False where the seam is open or not seen; `height` and
    `step` have the same shape (n,), n >= 2, mm, and describe a line that is straight between its points.
    """

    grade: int
    counts: bool
    height: Floats
    step: Floats


@lru_cache(maxsize=128)
def graded_runs(reading: SeamReading, limits_mm: tuple[float, ...]) -> tuple[Run, ...]:
    """The whole seam from top to bottom, cut wherever |step| passes a limit (ascending, mm) or jumps.

    It is cut also where it begins or ceases to count.
    """
    line, period = reading.line, reading.period
    cuts, _ = crossing_heights(line.height, reading.raw, _borders(limits_mm, period), period)
    height = ascending(np.concatenate([line.height, np.clip(cuts, 0.0, line.length)]))
    raw = np.interp(height, line.height, reading.raw)
    middle, raw_middle = (height[:-1] + height[1:]) / 2, (raw[:-1] + raw[1:]) / 2
    turns = np.floor(raw_middle / period + 0.5)
    grade = np.searchsorted(np.asarray(limits_mm), np.abs(raw_middle - turns * period))
    counts = line.counted_parts[np.searchsorted(line.height, middle, side="right") - 1]
    changes = np.flatnonzero((np.diff(grade) != 0) | (np.diff(turns) != 0) | (np.diff(counts) != 0)) + 1
    bounds = [0, *changes.tolist(), len(middle)]
    return tuple(
        Run(int(grade[i]), bool(counts[i]), height[i : j + 1], raw[i : j + 1] - turns[i] * period)
        for i, j in pairwise(bounds)
    )


@lru_cache(maxsize=32)
def _borders(limits_mm: tuple[float, ...], period: float) -> Floats:
    """Steps, mm and ascending, at which the grade changes or the step jumps; they recur every period."""
    limits = [sign * limit for limit in limits_mm if limit < period / 2 for sign in (-1, 1)]
    return ascending(np.array([period / 2, *limits]))
