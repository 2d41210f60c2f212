"""The grid of phases and turns on which all placements are searched, and the cost table of each seam on it."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.geometry.polyline import Floats
from core.matching.elimination import Table, Tables, elimination_order
from core.matching.problem import Problem, SeamCost
from core.seams.readings import lean_alike
from core.seams.stripes import wrap

PHASES = 32
"""Phases a period is divided into."""

TURNS_PER_PERIOD = 4.0
"""Turns are so close that the next one carries an edge's end by at most this share of a period: 1 / it."""

FEWEST_TURNS, MOST_TURNS = 5, 41

MOST_SUMS = 1e9
"""Grids that would take more sums than this in the search are made coarser."""


@dataclass(frozen=True, eq=False)
class Axis:
    """The states of one variable: every turn, rad, with every phase base(turn) + i * period / phases, mm."""

    turns: Floats
    base: Floats
    phases: int

    @property
    def size(self) -> int:
        """Number of states, turn-major."""
        return len(self.turns) * self.phases


@dataclass(frozen=True, eq=False)
class Grid:
    """One axis a variable of the part of the problem that is searched together, and that part's seams."""

    problem: Problem
    variables: tuple[int, ...]
    seams: tuple[SeamCost, ...]
    axes: tuple[Axis, ...]

    def values(self, states: list[int], phases: Floats, turns: Floats) -> tuple[Floats, Floats]:
        """Copies of all phases, mm, and turns, rad, with those of this part as the states say."""
        phases, turns = phases.copy(), turns.copy()
        for v, axis, state in zip(self.variables, self.axes, states, strict=True):
            turn, phase = divmod(state, axis.phases)
            turns[v] = axis.turns[turn]
            phases[v] = axis.base[turn] + phase * self.problem.repeat.period / axis.phases
        return phases, turns

    def tables(self) -> Tables:
        """The cost tables of all seams of this part."""
        tables = Tables([axis.size for axis in self.axes])
        for seam in self.seams:
            scope, table = self.seam_table(seam)
            tables.add(scope, table)
        for position, axis in enumerate(self.axes):
            tables.add((position,), less_turning(axis))
        return tables

    def seam_table(self, seam: SeamCost) -> tuple[tuple[int, ...], Table]:
        """The places of a seam's variables in the grid, and its cost for each of their states."""
        a, b = (self.problem.followers[panel] for panel in (seam.a, seam.b))
        at_a, at_b = self.variables.index(a.variable), self.variables.index(b.variable)
        cost, step_b = self._costs(seam, self.axes[at_a], self.axes[at_b], at_a == at_b)
        count = cost.shape[-1]
        if at_a == at_b:
            axis = self.axes[at_a]
            place = (np.arange(axis.phases) * (a.sign + step_b)[:, None]) % count
            return (at_a,), np.take_along_axis(cost, place, axis=1).reshape(-1)
        i = np.arange(self.axes[at_a].phases)[None, :, None, None]
        j = np.arange(self.axes[at_b].phases)[None, None, None, :]
        place = (a.sign * i + step_b[:, None, :, None] * j) % count
        turn_a = np.arange(len(self.axes[at_a].turns))[:, None, None, None]
        turn_b = np.arange(len(self.axes[at_b].turns))[None, None, :, None]
        return (at_a, at_b), cost[turn_a, turn_b, place].reshape(self.axes[at_a].size, self.axes[at_b].size)

    def _costs(self, seam: SeamCost, axis_a: Axis, axis_b: Axis, same: bool) -> tuple[Table, NDArray[np.intp]]:
        """Weighted mean squares for all pairs of turns (the diagonal, where both are one variable) and all phase sums.

        Also the step in the phase sum for one more phase of b.
        """
        w_a, change_a, w_b, change_b = *self._side(seam, axis_a, True), *self._side(seam, axis_b, False)
        if not same:
            w_a, change_a, w_b, change_b = w_a[:, None], change_a[:, None], w_b[None], change_b[None]
        alike = lean_alike(change_a, change_b)
        sense = np.where(alike, -1, 1)
        raw = w_a + sense[..., None] * w_b - np.where(alike, 0.0, 2 * self.problem.repeat.c)[..., None]
        period, count = self.problem.repeat.period, max(axis_a.phases, axis_b.phases)
        steps: Table = wrap(raw, period).astype(np.float32)
        weight = seam.weight / sum(s.weight for s in self.seams)
        cost = [_mean_square(steps + np.float32(m * period / count), np.float32(period)) for m in range(count)]
        return np.stack(cost, axis=-1) * np.float32(weight), sense * self.problem.followers[seam.b].sign

    def _side(self, seam: SeamCost, axis: Axis, is_a: bool) -> tuple[Floats, Floats]:
        """w at the samples for every turn, at the axis's base phase, shape (turns, SAMPLES); net change of w."""
        panel = seam.a if is_a else seam.b
        points, ends = (seam.points_a, seam.ends_a) if is_a else (seam.points_b, seam.ends_b)
        follower = self.problem.followers[panel]
        x, y = follower.rates(axis.turns)
        phase = follower.sign * axis.base + self.problem.offsets(panel, axis.turns)
        bent = seam.bent_a if is_a else seam.bent_b
        w = phase[:, None] + points[:, 0] * x[:, None] + points[:, 1] * y[:, None] + bent
        return w, ends[0] * x + ends[1] * y


def _mean_square(steps: Table, period: np.float32) -> Table:
    """The mean of squared steps along the last axis, mm2; those beyond half a period, less than one and a half, are
    a period less."""
    steps -= period * (steps >= period / 2)
    return np.asarray(np.einsum("...i,...i->...", steps, steps) / np.float32(steps.shape[-1]))


def less_turning(axis: Axis) -> Table:
    """A cost far below any step that matters, which decides between equals for the smaller turn."""
    return np.repeat(1e-6 * (axis.turns / max(np.abs(axis.turns).max(), 1e-12)) ** 2, axis.phases).astype(np.float32)


def build_grid(problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...]) -> Grid:
    """The finest grid within the bounds of this room for a connected part of a problem."""
    free = free_shift(problem, variables, seams)
    turns_share, phases = 1.0, PHASES
    while True:
        axes = tuple(_axis(problem, seams, v, phases if v != free else 1, turns_share) for v in variables)
        scopes = [
            (i, j)
            for seam in seams
            if len({i := _place(problem, variables, seam.a), j := _place(problem, variables, seam.b)}) == 2
        ]
        _, work = elimination_order([axis.size for axis in axes], scopes)
        if work <= MOST_SUMS or (phases <= 12 and turns_share < 0.2):
            return Grid(problem, variables, seams, axes)
        turns_share, phases = turns_share * 0.75, max(12, int(phases * 0.85))


def _place(problem: Problem, variables: tuple[int, ...], panel: str) -> int:
    return variables.index(problem.followers[panel].variable)


def _axis(problem: Problem, seams: tuple[SeamCost, ...], v: int, phases: int, turns_share: float) -> Axis:
    variable = problem.variables[v]
    turns = _turns(problem, seams, v, turns_share)
    if variable.phase_fixed is not None:
        return Axis(turns, problem.pinned_phase(v, turns), 1)
    return Axis(turns, np.full(len(turns), problem.repeat.c), phases)


def _turns(problem: Problem, seams: tuple[SeamCost, ...], v: int, share: float) -> Floats:
    """Turns close enough that no basin of the cost is missed: an odd number, so that no turn is one of them."""
    variable = problem.variables[v]
    spread = variable.turn_high - variable.turn_low
    if spread <= 0:
        return np.array([variable.turn_low])
    reach = max((s.line.length for s in seams if v in {problem.followers[p].variable for p in (s.a, s.b)}), default=0.0)
    wanted = spread * reach * TURNS_PER_PERIOD / problem.repeat.period * share
    count = int(min(max(math.ceil(wanted), FEWEST_TURNS), MOST_TURNS)) // 2 * 2 + 1
    return np.linspace(variable.turn_low, variable.turn_high, count)


def free_shift(problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...]) -> int | None:
    """A variable whose phase may be fixed at will, because shifting all panels together changes no step; or None.

    Shift variable v by way[v] * d: a seam keeps its step if sign_a * way_a + sense * sign_b * way_b = 0, where sense
    is -1 for edges that lean alike at every turn, 1 for opposite ones.
    """
    if any(problem.variables[v].phase_fixed is not None for v in variables):
        return None
    links = [_link(problem, seam) for seam in seams]
    way = _together(links, {variables[0]: 1})
    if all(relation != 0 and way[b] == way[a] * relation for a, b, relation in links):
        return variables[0]
    return None


def ways_together(problem: Problem, seams: tuple[SeamCost, ...], given: Sequence[int]) -> dict[int, int]:
    """Which way the phase of each variable goes, where those `given` go up, so that seams keep their steps as far as
    they can: 1, -1, or 0 where that depends on the turns."""
    return _together([_link(problem, seam) for seam in seams], dict.fromkeys(given, 1))


def _together(links: list[tuple[int, int, int]], given: dict[int, int]) -> dict[int, int]:
    way = dict(given)
    for _ in links:
        for a, b, relation in links:
            if a in way and b not in way:
                way[b] = way[a] * relation
            elif b in way and a not in way:
                way[a] = way[b] * relation
    return way


def _link(problem: Problem, seam: SeamCost) -> tuple[int, int, int]:
    """The two variables of a seam and how their shifts go together: 1, -1, or 0 where the lean depends on the turns."""
    a, b = problem.followers[seam.a], problem.followers[seam.b]
    corners = []
    for turn_a in _limits(problem, a.variable):
        for turn_b in _limits(problem, b.variable):
            x_a, y_a = a.rates(np.array([turn_a]))
            x_b, y_b = b.rates(np.array([turn_b]))
            change_a, change_b = (
                seam.ends_a[0] * x_a + seam.ends_a[1] * y_a,
                seam.ends_b[0] * x_b + seam.ends_b[1] * y_b,
            )
            corners.append(bool(lean_alike(change_a, change_b)[0]))
    if len(set(corners)) > 1:
        return a.variable, b.variable, 0
    return a.variable, b.variable, a.sign * b.sign * (1 if corners[0] else -1)


def _limits(problem: Problem, v: int) -> tuple[float, float, float]:
    variable = problem.variables[v]
    return variable.turn_low, (variable.turn_low + variable.turn_high) / 2, variable.turn_high
