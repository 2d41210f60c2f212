"""Cells of phase and turn for every variable: how low the figure may go in them, which can be left, how they split."""

import math
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from core.geometry.polyline import Floats
from core.matching.elimination import Table, Tables, elimination_order
from core.matching.grid import free_shift
from core.matching.lattice import Seam, Ways
from core.matching.marginals import min_marginals
from core.matching.problem import Problem, SeamCost
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Flags
from core.seams.stripes import Ints

FIRST_PHASES, MOST_FIRST_TURNS = 12, 24
"""Cells of phase that a period, and at most cells of turn that a tolerance, is divided into at first."""

MOST_PAIRS, MOST_SUMS = 2e7, 5e8
"""Boxes with more pairs of cells in their seams, or that would take more sums, than this are cut in two."""

MOST_STORED = 1 << 29
"""Bytes of tables that are kept for later boxes."""

UNWEIGHED = -1.0
"""`Box.low` of a box that was not weighed yet."""


@dataclass(frozen=True, eq=False)
class Box:
    """A set of placements: for every variable the cells that its phase and turn may lie in.

    `phases`: cells round the period; `fineness`: cells for each cell of turn there was at first; `cells`: for every
    variable its cells as (phase, turn) indices, shape (cells, 2). `low`: no placement here has a mean square step
    below, mm2; UNWEIGHED where that was not asked yet.
    """

    phases: int
    fineness: int
    cells: tuple[Ints, ...]
    low: float


@dataclass(frozen=True, eq=False)
class Weighed:
    """A box without the cells in which nothing below a limit can lie, and the corners that are best by themselves.

    `phases`, mm, and `turns`, rad: one of each a variable; `value`: a lower bound of the mean square step there, mm2.
    """

    box: Box
    phases: Floats
    turns: Floats
    value: float


class Part:
    """A connected part of a problem, on ever finer lattices of phases and turns."""

    def __init__(self, problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...]) -> None:
        self.problem = _anchored(problem, variables, seams)
        total = sum(seam.weight for seam in seams)
        self.variables = variables
        self.seams = tuple(Seam(self.problem, seam, seam.weight / total) for seam in seams)
        self._ways = Ways.of(variables, self.seams)
        self._first = {v: self._first_turns(v) for v in variables}
        self._levels: dict[tuple[int, int], Level] = {}

    def whole(self) -> list[Box]:
        """Boxes that together hold every placement."""
        cells = tuple(self._all_cells(v) for v in self.variables)
        return self._all_small(self._by_turn(Box(FIRST_PHASES, 1, cells, UNWEIGHED)))

    def halves(self, box: Box) -> list[Box]:
        """Boxes that together hold a box's placements in halved cells, across phases or turns as makes them tighter.

        Empty if nothing can be halved.
        """
        level = self.level(box)
        if not level.phase_allowance and not level.turn_allowance:
            return []
        if level.phase_allowance >= level.turn_allowance:
            cells = [_halved(c, 0) if self._moves(v) else c for v, c in zip(self.variables, box.cells, strict=True)]
            return self._all_small([replace(box, phases=2 * box.phases, cells=tuple(cells))])
        cells = [_halved(c, 1) if self._first[v] else c for v, c in zip(self.variables, box.cells, strict=True)]
        return self._all_small(self._by_turn(replace(box, fineness=2 * box.fineness, cells=tuple(cells))))

    def weigh(self, box: Box, limit: float) -> Weighed:
        """Bound the mean square step in every cell and leave the cells where it can't go below a limit, mm2."""
        level = self.level(box)
        corners = [self._corners(box, i) for i in range(len(self.variables))]
        tables = Tables([len(states) for states, _ in corners])
        for seam, scope in zip(self.seams, self._scopes, strict=True):
            tables.add(scope, level.table(seam, corners[scope[0]][0], corners[scope[-1]][0]))
        marginals = min_marginals(tables)
        lows = [
            level.low(marginal[index].min(axis=1), len(self.seams))
            for marginal, (_, index) in zip(marginals, corners, strict=True)
        ]
        kept = tuple(cells[low < limit] for cells, low in zip(box.cells, lows, strict=True))
        low = max(box.low, float(lows[0].min()))
        best = [states[np.argmin(marginal)] for marginal, (states, _) in zip(marginals, corners, strict=True)]
        return Weighed(replace(box, cells=kept, low=low), *self._values(level, best), float(marginals[0].min()))

    def placements(self, project: Project, phases: Floats, turns: Floats) -> dict[PanelName, Placement]:
        """Where the part's panels lie for phases, mm, and turns, rad, of all variables; held ones are left out."""
        return {
            name: self.problem.placement(name, phases, turns, project.placements.get(name))
            for name, follower in self.problem.followers.items()
            if follower.variable in self.variables and not project.placement(name).hold
        }

    def level(self, box: Box) -> "Level":
        """The lattice that a box's cells have their corners on."""
        key = (box.phases, box.fineness)
        if sum(level.stored for level in self._levels.values()) > MOST_STORED:
            self._levels.clear()
        if key not in self._levels:
            turns = {v: self._turns(v, box.fineness) for v in self.variables}
            self._levels[key] = Level(self.problem.repeat.period, box.phases, turns, self.seams, self._ways)
        return self._levels[key]

    @cached_property
    def _cut(self) -> int:
        """Place of the variable that has one cell of turn in every box: the one with the fewest cells at first."""
        return int(np.argmin([len(self._all_cells(v)) for v in self.variables]))

    def _by_turn(self, box: Box) -> list[Box]:
        own = box.cells[self._cut]
        return [_with(box, self._cut, own[own[:, 1] == turn]) for turn in np.unique(own[:, 1])]

    def _all_small(self, boxes: list[Box]) -> list[Box]:
        return [small for box in boxes for small in self._small(box)]

    def _small(self, box: Box) -> list[Box]:
        """The box, cut in two where it has the most cells until it isn't too large."""
        sizes = [len(cells) for cells in box.cells]
        _, sums = elimination_order(sizes, self._scopes)
        if sums <= MOST_SUMS and sum(math.prod(sizes[i] for i in scope) for scope in self._scopes) <= MOST_PAIRS:
            return [box]
        most = int(np.argmax(sizes))
        cells = box.cells[most][np.lexsort(box.cells[most].T)]
        return [small for half in np.array_split(cells, 2) for small in self._small(_with(box, most, half))]

    @cached_property
    def _scopes(self) -> list[tuple[int, ...]]:
        """For every seam the places of the variables that it joins."""
        return [
            tuple(dict.fromkeys(self.variables.index(side.variable) for side in (seam.a, seam.b)))
            for seam in self.seams
        ]

    def _moves(self, v: int) -> bool:
        return self.problem.variables[v].phase_fixed is None

    def _first_turns(self, v: int) -> int:
        """How many cells of turn a variable has at first: so many that they count about as much as those of phase."""
        variable = self.problem.variables[v]
        lever = max(
            seam.leverage(side is seam.a) for seam in self.seams for side in (seam.a, seam.b) if side.variable == v
        )
        wanted = (variable.turn_high - variable.turn_low) * lever / (self.problem.repeat.period / FIRST_PHASES)
        return min(max(1, round(wanted)), MOST_FIRST_TURNS) if wanted > 0 else 0

    def _turns(self, v: int, fineness: int) -> Floats:
        variable = self.problem.variables[v]
        return np.linspace(variable.turn_low, variable.turn_high, self._first[v] * fineness + 1)

    def _all_cells(self, v: int) -> Ints:
        phases, turns = FIRST_PHASES if self._moves(v) else 1, max(1, self._first[v])
        return np.stack(np.meshgrid(np.arange(phases), np.arange(turns), indexing="ij"), axis=-1).reshape(-1, 2)

    def _corners(self, box: Box, index: int) -> tuple[Ints, Ints]:
        """The corners of a variable's cells, (phase, turn) indices, and for each cell the places of its own corners."""
        v, cells = self.variables[index], box.cells[index]
        phase = cells[:, :1] + ([0, 0, 1, 1] if self._moves(v) else [0, 0, 0, 0])
        turn = cells[:, 1:] + ([0, 1, 0, 1] if self._first[v] else [0, 0, 0, 0])
        codes, places = np.unique(turn * box.phases + phase % box.phases, return_inverse=True)
        return np.stack([codes % box.phases, codes // box.phases], axis=-1), places.reshape(len(cells), 4)

    def _values(self, level: "Level", states: list[Ints]) -> tuple[Floats, Floats]:
        number = len(self.problem.variables)
        phases, turns = np.full(number, self.problem.repeat.c), np.zeros(number)
        for v, (phase, turn) in zip(self.variables, states, strict=True):
            turns[v] = level.turns[v][turn]
            phases[v] = phase * level.phase if self._moves(v) else self.problem.pinned_phase(v, turns[v : v + 1])[0]
        return phases, turns


class Level:
    """One lattice: so many phases to the period, and the turns of each variable; what its cells may hide.

    `phase_allowance`, `turn_allowance`: mean variance of the steps, mm2, between the corners of a cell.
    """

    def __init__(
        self, period: float, phases: int, turns: dict[int, Floats], seams: tuple[Seam, ...], ways: Ways
    ) -> None:
        self.phases, self.turns, self.phase = phases, turns, period / phases
        pairs = [(seam, turns[seam.a.variable], turns[seam.b.variable]) for seam in seams]
        self.phase_allowance = sum(seam.share * seam.phase_allowance(self.phase, ways) for seam in seams)
        self.turn_allowance = sum(seam.share * seam.turn_allowance(a, b, ways) for seam, a, b in pairs)
        self._sagitta = max(seam.sagitta(a, b) for seam, a, b in pairs)
        self._tables: dict[tuple[Seam, int], _Rows] = {}

    @property
    def stored(self) -> int:
        """Bytes of the tables kept."""
        return sum(rows.values.nbytes for rows in self._tables.values())

    def low(self, corners: Table, seams: int) -> Floats:
        """What the mean square step in cells can't go below, mm2, from the least at their corners; shape of corners."""
        sums = corners.astype(np.float64) * (1 - (seams + 4) * float(np.finfo(np.float32).eps))
        inside = np.sqrt(np.maximum(sums - self.phase_allowance - self.turn_allowance, 0.0))
        return np.square(np.maximum(inside - self._sagitta, 0.0))

    def table(self, seam: Seam, a: Ints, b: Ints) -> Table:
        """Weighted lower bounds of a seam's mean square step for all pairs of states, or for each if they are of one.

        Where the edges may lean either way in the cells about a pair, the lower of both.
        """
        turns_a, at_a = np.unique(a[:, 1], return_inverse=True)
        turns_b, at_b = np.unique(b[:, 1], return_inverse=True)
        lowest: Table | None = None
        for sense, may in self._senses(seam, turns_a, turns_b).items():
            if not may.any():
                continue
            rows = self._rows(seam, sense)
            if seam.joins_one:
                table = rows.of_each(turns_a, a[:, 0], at_a)
                table = np.where(may[at_a], table, np.float32(np.inf))
            else:
                table = rows.of_pairs((turns_a, turns_b), (a[:, 0], b[:, 0]), (at_a, at_b))
                table = table if may.all() else np.where(may[at_a][:, at_b], table, np.float32(np.inf))
            lowest = table if lowest is None else np.minimum(lowest, table)
        if lowest is None:
            raise ValueError("edges lean one way or the other")
        return lowest

    def _senses(self, seam: Seam, turns_a: Ints, turns_b: Ints) -> dict[int, Flags]:
        all_a, all_b = self.turns[seam.a.variable], self.turns[seam.b.variable]
        slacks = [float(np.diff(turns).max(initial=0.0)) for turns in (all_a, all_b)]
        return seam.senses(all_a[turns_a], all_b[turns_b], *slacks)

    def _rows(self, seam: Seam, sense: int) -> "_Rows":
        if (seam, sense) not in self._tables:
            self._tables[seam, sense] = _Rows(seam, sense, self)
        return self._tables[seam, sense]


class _Rows:
    """Lower bounds of one seam, for the pairs of turns that were asked for, by the sum of phases, twice round."""

    def __init__(self, seam: Seam, sense: int, level: Level) -> None:
        self._seam, self._sense, self._phases = seam, sense, level.phases
        self._a, self._b = level.turns[seam.a.variable], level.turns[seam.b.variable]
        self._row = np.full((len(self._a), len(self._b)), -1)
        self._used = 0
        self.values = np.empty((0, 2 * level.phases), dtype=np.float32)

    def of_each(self, turns: Ints, phases: Ints, places: Ints) -> Table:
        """Values of states (phase, turns[place]) of the one variable that both edges follow; shape (states,)."""
        shift = (self._seam.a.sign + self._sense * self._seam.b.sign) * phases % self._phases
        rows = self._rows(turns, turns)[places]
        return np.asarray(self.values[rows, shift])

    def of_pairs(self, turns: tuple[Ints, Ints], phases: tuple[Ints, Ints], places: tuple[Ints, Ints]) -> Table:
        """Values of all pairs of states (phase, turns[place]) of the two variables; shape (states of a, of b)."""
        rows = self._rows(*(grid.ravel() for grid in np.meshgrid(*turns, indexing="ij"))).reshape(len(turns[0]), -1)
        at = (rows * (2 * self._phases)).take(places[0], axis=0).take(places[1], axis=1)
        at += (self._seam.a.sign * phases[0] % self._phases)[:, None]
        at += self._sense * self._seam.b.sign * phases[1] % self._phases
        return np.asarray(self.values.ravel().take(at))

    def _rows(self, turns_a: Ints, turns_b: Ints) -> Ints:
        missing = self._row[turns_a, turns_b] < 0
        if missing.any():
            self._add(turns_a[missing], turns_b[missing])
        return np.asarray(self._row[turns_a, turns_b])

    def _add(self, turns_a: Ints, turns_b: Ints) -> None:
        found = self._seam.mean_squares(self._a[turns_a], self._b[turns_b], self._sense, self._phases)
        found *= np.float32(self._seam.share)
        end = self._used + len(found)
        if end > len(self.values):
            grown = np.empty((max(end, 2 * len(self.values)), 2 * self._phases), dtype=np.float32)
            grown[: self._used] = self.values[: self._used]
            self.values = grown
        self.values[self._used : end] = np.tile(found, 2)
        self._row[turns_a, turns_b] = np.arange(self._used, end)
        self._used = end


def _anchored(problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...]) -> Problem:
    """The problem with one phase fixed if all panels of the part can be shifted together without changing a step."""
    free = free_shift(problem, variables, seams)
    if free is None:
        return problem
    fixed = replace(problem.variables[free], phase_fixed=problem.repeat.c)
    return replace(problem, variables=(*problem.variables[:free], fixed, *problem.variables[free + 1 :]))


def _halved(cells: Ints, axis: int) -> Ints:
    """The halves of cells across one axis."""
    low = cells * np.where(np.arange(2) == axis, 2, 1)
    return np.concatenate([low, low + (np.arange(2) == axis)])


def _with(box: Box, index: int, cells: Ints) -> Box:
    """The box with other cells for one variable."""
    return replace(box, cells=(*box.cells[:index], cells, *box.cells[index + 1 :]))
