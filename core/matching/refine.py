"""Continuous refinement: from a good placement to the bottom of its valley, and along it to the least turning."""

from dataclasses import dataclass
from typing import Protocol

import numpy as np

from core.geometry.polyline import Floats
from core.matching.objective import Slopes
from core.seams.garment import Flags

TURN_LEVER_MM = 400.0
"""Turns are scaled by this length so that phases and turns are of one size."""

EQUAL_SHARE, EQUAL_MM = 2.5e-4, 5e-5
"""Figures that differ by less than this share, or by less than this many mm, count as equal."""


class Searched(Protocol):
    """A mean square step as a function of phases and turns."""

    @property
    def phases_fixed(self) -> Flags:
        """Which phases are not free."""

    @property
    def turn_limits(self) -> tuple[Floats, Floats]:
        """Least and most turn of every variable, rad."""

    def value(self, phases: Floats, turns: Floats) -> float:
        """The mean square step, mm2."""

    def slopes(self, phases: Floats, turns: Floats) -> Slopes:
        """Value, half the gradient and the Gauss-Newton matrix; all phases, then all turns."""

    def pinned(self, phases: Floats, turns: Floats) -> Floats:
        """The phases with those that are fixed as the turns want them, mm."""


@dataclass(frozen=True, eq=False)
class Point:
    """Phases, mm, and turns, rad, of all variables, with the mean square step there, mm2.

    Where stripes and bars are matched together, all phases across stripes come first, then all across bars.
    """

    phases: Floats
    turns: Floats
    value: float

    @property
    def turning(self) -> float:
        """Sum of squared turns, rad2."""
        return float(self.turns @ self.turns)


@dataclass(frozen=True, eq=False)
class Bounds:
    """Which phases and turns may move and how far turns may go, rad; arrays like those of a Point."""

    free_phase: Flags
    free_turn: Flags
    low: Floats
    high: Floats


def bounds_of(objective: Searched, variables: tuple[int, ...]) -> Bounds:
    """The bounds of some variables of a problem; all others stay."""
    low, high = objective.turn_limits
    chosen = np.zeros(len(low), dtype=bool)
    chosen[list(variables)] = True
    ways = len(objective.phases_fixed) // len(low)
    return Bounds(np.tile(chosen, ways) & ~objective.phases_fixed, chosen & (high > low), low, high)


def refined(objective: Searched, bounds: Bounds, start: Point, most: int = 60, turning: float = 0.0) -> Point:
    """Descend from a point by Gauss-Newton steps inside the turn bounds.

    Minimises the mean square step plus `turning` (mm2 per rad2) times the sum of squared turns; never ends higher.
    """
    here, total = start, start.value + turning * start.turning
    for _ in range(most):
        step = _step(objective, bounds, here, turning)
        after = _downhill(objective, here, step, total, turning)
        if after is None:
            return here
        gain = total - (after.value + turning * after.turning)
        here, total = after, total - gain
        if gain < 1e-9 * total + 1e-13:
            return here
    return here


def least_turning(objective: Searched, bounds: Bounds, best: Point) -> Point:
    """Of the points near the best one whose figure counts as equal to its, one with nearly the least turning."""
    limit = (np.sqrt(max(best.value, 0.0)) * (1 + EQUAL_SHARE) + EQUAL_MM) ** 2
    chosen, low, high = best, -6.0, 6.0
    for _ in range(10):
        middle = (low + high) / 2
        tried = refined(objective, bounds, chosen, 8, 10.0**middle)
        if tried.value <= limit and tried.turning < chosen.turning:
            chosen, low = tried, middle
        else:
            high = middle
    return chosen


def _downhill(
    objective: Searched, here: Point, step: tuple[Floats, Floats], total: float, turning: float
) -> Point | None:
    """The first of ever shorter steps that leads down; None if none does."""
    for share in (1.0, 0.5, 0.25, 0.1, 0.03, 0.003):
        turns = here.turns + share * step[1]
        phases = objective.pinned(here.phases + share * step[0], turns)
        point = Point(phases, turns, objective.value(phases, turns))
        if point.value + turning * point.turning < total:
            return point
    return None


def _step(objective: Searched, bounds: Bounds, here: Point, turning: float) -> tuple[Floats, Floats]:
    """The Gauss-Newton step of the free variables that keeps turns within their bounds."""
    slopes = objective.slopes(here.phases, here.turns)
    number = len(here.phases)
    free = np.flatnonzero(np.concatenate([bounds.free_phase, bounds.free_turn]))
    if not len(free):
        return np.zeros(number), np.zeros(len(here.turns))
    scale = np.where(free < number, 1.0, 1 / TURN_LEVER_MM)
    matrix = slopes.matrix[np.ix_(free, free)] * np.outer(scale, scale)
    gradient = slopes.gradient[free] * scale
    turned = free >= number
    own = free[turned] - number
    matrix[turned, turned] += turning * scale[turned] ** 2
    gradient[turned] += turning * scale[turned] * here.turns[own]
    matrix[np.diag_indices(len(free))] += 1e-9 * (np.trace(matrix) / len(free) + 1e-12)
    low, high = np.full(len(free), -np.inf), np.full(len(free), np.inf)
    low[turned] = (bounds.low[own] - here.turns[own]) / scale[turned] - 1e-12
    high[turned] = (bounds.high[own] - here.turns[own]) / scale[turned] + 1e-12
    step = np.zeros(number + len(here.turns))
    step[free] = least_in_box(matrix, gradient, low, high) * scale
    turns = np.clip(here.turns + step[number:], bounds.low, bounds.high) - here.turns
    return step[:number], turns


def least_in_box(matrix: Floats, gradient: Floats, low: Floats, high: Floats) -> Floats:
    """The x within low <= x <= high at which x'Mx / 2 + g'x is least, for a positive definite M; shape (n,).

    Primal-dual active set: solve with the active bounds as equations, then take in the bounds that are overstepped and
    let go those that hold x back the wrong way, until neither happens.
    """
    x = np.zeros(len(gradient))
    at_low = np.zeros(len(gradient), dtype=bool)
    at_high = at_low.copy()
    for _ in range(30):
        x = np.where(at_low, low, np.where(at_high, high, 0.0))
        free = ~(at_low | at_high)
        pull = gradient + matrix @ x
        x[free] = -np.linalg.solve(matrix[np.ix_(free, free)], pull[free])
        slope = matrix @ x + gradient
        now_low = (free & (x < low)) | (at_low & (slope > 0))
        now_high = (free & (x > high)) | (at_high & (slope < 0))
        if np.array_equal(now_low, at_low) and np.array_equal(now_high, at_high):
            break
        at_low, at_high = now_low, now_high
    return np.clip(x, low, high)
