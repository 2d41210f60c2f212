"""Cost tables of a garment of which a hand moves some panels: what the hand doesn't change is worked out once.

The tables of the seams that it doesn't touch, on a coarse grid of phases and turns, are summed with all panels
eliminated but the neighbours of the hand's. Each move adds the few tables that it changes. Where stripes and bars are
matched together each way has a grid, in whose tables stands what a seam costs the other way at the least, as in
`core.matching.both_ways`; the other way's phases are then found at the turns that came of it.
"""

from collections.abc import Sequence
from functools import cached_property
from math import prod

import numpy as np

from core.geometry.polyline import Floats
from core.matching.both_ways import least_by_turns
from core.matching.elimination import Reduced, Scope, Table, Tables, minimise, reduced
from core.matching.grid import Axis, Grid, less_turning, ways_together
from core.matching.problem import Problem, SeamCost

PHASES, TURNS = 20, 5
"""States of the coarse grid, fewer for garments of many panels."""

MANY = 16
"""From so many free variables on the grid is coarser."""

MOST_KEPT = 2e5
"""Where the neighbours of the hand's panels have more states together than this, refinement alone has to do."""

Start = tuple[Floats, Floats]
"""Phases, mm, of all ways one after the other, and turns, rad."""

Known = list[tuple[Scope, Table]]
"""Seams' tables on a grid, mm2, each with the places of its variables."""


class HandTables:
    """The tables of one cloth's problems, one for each way, while a hand moves the variables `hand`.

    `share` says how much each way counts. `free` are the variables that hang together with the hand's and may be
    chosen, `seams` for each way the seams that these have.
    """

    def __init__(self, problems: tuple[Problem, ...], share: Floats, hand: list[int]) -> None:
        self._problems, self._share, self.hand = problems, share, hand
        chosen, self.free, self._variables = _reached(problems, hand)
        self.seams = [tuple(problem.seams[place] for place in chosen) for problem in problems]
        ends = [_ends(problems[0], seam) for seam in self.seams[0]]
        self._touched = [place for place, pair in enumerate(ends) if set(pair) & set(hand)]
        self._still = [place for place in range(len(ends)) if place not in self._touched]
        beside = {end for place in self._touched for end in ends[place]} | set(hand)
        self._kept = tuple(place for place, v in enumerate(self._variables) if v in beside)

    def starts(self, problems: tuple[Problem, ...], phases: Floats, turns: Floats, count: int) -> list[Start]:
        """The best states of the grid, some for each way, where the hand's panels lie as `problems` have them."""
        if not self._reduced:
            return []
        grids = self._grids(problems)
        touched = [self._known(grid, way, self._touched) for way, grid in enumerate(grids)]
        every = [[*still, *moving] for still, moving in zip(self._unmoved, touched, strict=True)]
        own = np.split(phases, len(problems))
        found: list[Start] = []
        for way, (still, tables) in enumerate(zip(self._reduced, self._summed(grids, touched), strict=True)):
            for states in still.best(tables.tables, count):
                values = [
                    grid.values(states if i == way else _at_turns(grid, every[i], grids[way], states), own[i], turns)
                    for i, grid in enumerate(grids)
                ]
                found.append((np.concatenate([mine for mine, _ in values]), values[way][1]))
        return found

    def carried(self, phases: Floats, by: Floats) -> Floats:
        """Phases of all ways, mm, in which the free variables go along with a hand whose first variable has moved `by`
        so much each way."""
        own = [mine.copy() for mine in np.split(phases, len(self._problems))]
        for mine, ways, moved in zip(own, self._ways, by.tolist(), strict=True):
            for v in self.free:
                mine[v] += ways.get(v, 0) * moved
        return np.concatenate(own)

    @cached_property
    def _ways(self) -> list[dict[int, int]]:
        """For each way of the cloth which way each variable goes with the hand's."""
        pairs = zip(self._problems, self.seams, strict=True)
        return [ways_together(problem, seams, self.hand) for problem, seams in pairs]

    @cached_property
    def _unmoved(self) -> list[Known]:
        """For each way the tables of the seams that the hand doesn't touch."""
        return [self._known(grid, way, self._still) for way, grid in enumerate(self._grids(self._problems))]

    @cached_property
    def _reduced(self) -> list[Reduced]:
        """For each way the tables that don't change, in which only the hand's variables and their neighbours are left;
        none where these have too many states."""
        grids = self._grids(self._problems)
        if max(prod(grid.axes[place].size for place in self._kept) for grid in grids) > MOST_KEPT:
            return []
        sums = self._summed(grids, self._unmoved)
        for grid, tables in zip(grids, sums, strict=True):
            for place, axis in enumerate(grid.axes):
                tables.add((place,), less_turning(axis))
        return [reduced(tables, self._kept) for tables in sums]

    def _known(self, grid: Grid, way: int, places: list[int]) -> Known:
        return [grid.seam_table(self.seams[way][place]) for place in places]

    def _summed(self, grids: Sequence[Grid], known: list[Known]) -> list[Tables]:
        """For each way the tables of some seams, with what each costs the other way at the least, by their shares."""
        sums = [Tables([axis.size for axis in grid.axes]) for grid in grids]
        for way, tables in enumerate(known):
            share = np.float32(self._share[way])
            for scope, table in tables:
                for onto, total in enumerate(sums):
                    own = table if onto == way else least_by_turns(grids[way], grids[onto], scope, table)
                    total.add(scope, own * share)
        return sums

    @property
    def _states(self) -> tuple[int, int]:
        """Phases and turns of every variable."""
        return (14, 3) if len(self.free) > MANY else (PHASES, TURNS)

    def _grids(self, problems: tuple[Problem, ...]) -> list[Grid]:
        return [
            Grid(problem, self._variables, seams, tuple(_axis(problem, v, *self._states) for v in self._variables))
            for problem, seams in zip(problems, self.seams, strict=True)
        ]


def _at_turns(grid: Grid, known: Known, chosen: Grid, states: list[int]) -> list[int]:
    """The best states of a grid at the turns of another one's states."""
    turns = [state // axis.phases for axis, state in zip(chosen.axes, states, strict=True)]
    tables = Tables([axis.phases for axis in grid.axes])
    for scope, table in known:
        shape = [size for place in scope for size in (len(grid.axes[place].turns), grid.axes[place].phases)]
        at = tuple(one for place in scope for one in (turns[place], slice(None)))
        tables.add(scope, table.reshape(shape)[at])
    phases = minimise(tables)[0][1]
    return [turn * axis.phases + phase for axis, turn, phase in zip(grid.axes, turns, phases, strict=True)]


def _ends(problem: Problem, seam: SeamCost) -> tuple[int, int]:
    return problem.followers[seam.a].variable, problem.followers[seam.b].variable


def _reached(problems: tuple[Problem, ...], hand: list[int]) -> tuple[tuple[int, ...], list[int], tuple[int, ...]]:
    """Places of the seams, and free variables, that hang together with the hand's; and all variables of those seams."""
    ends = [_ends(problems[0], seam) for seam in problems[0].seams]
    fixed = {v for v in range(len(problems[0].variables)) if all(_is_fixed(problem, v) for problem in problems)}
    free: set[int] = set()
    for _ in problems[0].variables:
        near = {end for pair in ends if set(pair) & {*hand, *free} for end in pair}
        if near <= free | fixed:
            break
        free |= near - fixed
    places = tuple(place for place, pair in enumerate(ends) if set(pair) & free)
    variables = {end for place in places for end in ends[place]} | set(hand)
    return places, sorted(free), tuple(sorted(variables))


def _is_fixed(problem: Problem, v: int) -> bool:
    variable = problem.variables[v]
    return variable.turn_low == variable.turn_high and variable.phase_fixed is not None


def _axis(problem: Problem, v: int, phases: int, turns: int) -> Axis:
    variable = problem.variables[v]
    if variable.turn_low == variable.turn_high:
        at = np.array([variable.turn_low])
    else:
        at = np.linspace(variable.turn_low, variable.turn_high, turns)
    if variable.phase_fixed is not None:
        return Axis(at, problem.pinned_phase(v, at), 1)
    return Axis(at, np.full(len(at), problem.repeat.c), phases)
