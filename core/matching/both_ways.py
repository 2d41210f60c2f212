"""Stripes and bars matched together: two problems with the same variables, which share their turns.

The figure is sum(share * figure of that way). Phases of the two ways meet only in the turns. So each way in turn is
searched on its grid of phases and turns, as if the phases of the other were free at every seam: what a seam then costs
the other way depends on two turns alone and is added to its table. The turns found are kept, the other way's phases are
searched for them, and all is refined together.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.matching.elimination import Table, Tables, minimise
from core.matching.grid import Axis, Grid, build_grid, free_shift
from core.matching.objective import Objective, Slopes
from core.matching.problem import Problem, SeamCost
from core.matching.refine import Point
from core.progress import Progress, part
from core.seams.garment import Flags

PHASES_AT_TURNS = 48
"""Phases a period is divided into where turns are settled."""

LEAST_SHARE = 1e-6
"""What does not count by the project's wish is matched all the same, as far as nothing else suffers from it."""


def shares(crosswise_weight: float) -> Floats:
    """How much stripes and bars count in the figure; they sum to 1."""
    share = crosswise_weight / (1 + crosswise_weight)
    share = min(max(share, LEAST_SHARE), 1 - LEAST_SHARE)
    return np.array([1 - share, share])


class BothWays:
    """The weighted mean square step of some seams both ways, mm2; phases across stripes first, then across bars."""

    def __init__(self, ways: Sequence[Objective], share: Floats) -> None:
        self._ways, self._share = tuple(ways), share

    @property
    def phases_fixed(self) -> Flags:
        """Which phases are not free."""
        return np.concatenate([way.phases_fixed for way in self._ways])

    @property
    def turn_limits(self) -> tuple[Floats, Floats]:
        """Least and most turn of every variable, rad."""
        return self._ways[0].turn_limits

    def value(self, phases: Floats, turns: Floats) -> float:
        """The weighted mean square step, mm2."""
        return float(sum(s * way.value(own, turns) for s, way, own in self._each(phases)))

    def pinned(self, phases: Floats, turns: Floats) -> Floats:
        """The phases with those of pinned variables as their turns want them, mm."""
        return np.concatenate([way.pinned(own, turns) for _, way, own in self._each(phases)])

    def slopes(self, phases: Floats, turns: Floats) -> Slopes:
        """Value and derivatives of the weighted mean square step; the gradient is half of the true one."""
        number, total = len(turns), len(phases) + len(turns)
        value, gradient, matrix = 0.0, np.zeros(total), np.zeros((total, total))
        for index, (share, way, own) in enumerate(self._each(phases)):
            found = way.slopes(own, turns)
            place = np.r_[index * number : (index + 1) * number, len(phases) : total]
            value += share * found.value
            gradient[place] += share * found.gradient
            matrix[np.ix_(place, place)] += share * found.matrix
        return Slopes(value, gradient, matrix)

    def _each(self, phases: Floats) -> list[tuple[float, Objective, Floats]]:
        parts = np.split(phases, len(self._ways))
        return list(zip(self._share.tolist(), self._ways, parts, strict=True))


@dataclass(frozen=True, eq=False)
class Search:
    """A connected part of the two problems: its variables, and its seams as each way has them."""

    problems: tuple[Problem, Problem]
    variables: tuple[int, ...]
    seams: tuple[tuple[SeamCost, ...], tuple[SeamCost, ...]]
    share: Floats

    def starts(self, start: Point, progress: Progress, count: int) -> list[Point]:
        """Places worth refining: the best of either way's grid, and the panels as straight as they may lie.

        Raises Stopped.
        """
        objective = self.objective()
        turns = [start.turns, *self._from_grids(start, progress, count)]
        return [self.at_turns(objective, start, one) for one in turns]

    def objective(self) -> BothWays:
        """What is minimised."""
        ways = [Objective(problem, seams) for problem, seams in zip(self.problems, self.seams, strict=True)]
        return BothWays(ways, self.share)

    def at_turns(self, objective: BothWays, start: Point, turns: Floats) -> Point:
        """The best phases both ways, of a fine grid, for given turns of this part's variables."""
        phases = [
            settled(problem, self.variables, seams, own, turns)
            for problem, seams, own in zip(self.problems, self.seams, np.split(start.phases, 2), strict=True)
        ]
        both = np.concatenate(phases)
        return Point(both, turns, objective.value(both, turns))

    def _from_grids(self, start: Point, progress: Progress, count: int) -> list[Floats]:
        grids = self._grids()
        found = []
        for way, grid in enumerate(grids):
            tables = self._tables(grids, way)
            for _, states in minimise(tables, part(progress, way / 2, (way + 1) / 2), count):
                found.append(grid.values(states, np.split(start.phases, 2)[way], start.turns)[1])
        return found

    def _grids(self) -> tuple[Grid, Grid]:
        """A grid for each way, with the same turns."""
        first = build_grid(self.problems[0], self.variables, self.seams[0])
        problem, seams = self.problems[1], self.seams[1]
        free = free_shift(problem, self.variables, seams)
        phases = max(axis.phases for axis in first.axes)
        axes = tuple(
            _axis(problem, v, axis.turns, 1 if v == free else phases)
            for v, axis in zip(self.variables, first.axes, strict=True)
        )
        return first, Grid(problem, self.variables, seams, axes)

    def _tables(self, grids: tuple[Grid, Grid], way: int) -> Tables:
        """The tables of one way, and what each seam costs the other way at the least, both by their shares."""
        tables = Tables([axis.size for axis in grids[way].axes])
        for scope, table in grids[way].tables().tables.items():
            tables.add(scope, table * np.float32(self.share[way]))
        other = grids[1 - way]
        for seam in self.seams[1 - way]:
            scope, table = other.seam_table(seam)
            tables.add(scope, least_by_turns(other, grids[way], scope, table) * np.float32(self.share[1 - way]))
        return tables


def least_by_turns(grid: Grid, onto: Grid, scope: tuple[int, ...], table: Table) -> Table:
    """The least of a table over all phases, for the states of another grid with the same turns."""
    shape = [size for place in scope for size in (len(grid.axes[place].turns), grid.axes[place].phases)]
    least = table.reshape(shape).min(axis=tuple(range(1, len(shape), 2)))
    for axis, place in enumerate(scope):
        least = np.repeat(least, onto.axes[place].phases, axis=axis)
    return np.asarray(least)


def settled(
    problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...], phases: Floats, turns: Floats
) -> Floats:
    """All phases of a problem, with those of some variables, of a fine grid, as they are best for given turns, mm."""
    free = free_shift(problem, variables, seams)
    axes = tuple(_axis(problem, v, turns[v : v + 1], 1 if v == free else PHASES_AT_TURNS) for v in variables)
    grid = Grid(problem, variables, seams, axes)
    return grid.values(minimise(grid.tables())[0][1], phases, turns)[0]


def _axis(problem: Problem, v: int, turns: Floats, phases: int) -> Axis:
    if problem.variables[v].phase_fixed is not None:
        return Axis(turns, problem.pinned_phase(v, turns), 1)
    return Axis(turns, np.full(len(turns), problem.repeat.c), phases)
