"""The step of every seam, of stripes and of bars, as a function of phases, turns and shifts, with its derivatives.

Unknowns, in one vector: the phases of all variables, mm, for each way one after the other; their turns, rad; and the
splines' coefficients, mm, one group of edges after the other. A moved line meets other stripes, and where it leans it
meets the bars elsewhere too: where edges lean by a and b, a shift changes the bars' step by sin a + sin b of itself.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats, length, lengths_along
from core.geometry.sideways import dense, moved_sideways, ways_out
from core.matching.problem import SAMPLES, Problem, SeamCost, sample_heights
from core.model.pattern import PanelName, edge_of, panel_of
from core.model.project import Project
from core.seams.garment import Garment, SeamLine, joined
from core.seams.readings import lean_alike
from core.seams.stripes import wrap
from core.shifting.edges import EdgeGroup
from core.shifting.spline import Spline

COARSE_MM = 10.0
"""Lines have points this far apart while shifts are searched."""

TURN_STEP = 1e-6
"""Derivatives by a turn are central differences over this, rad; w is smooth in it."""


@dataclass(frozen=True, eq=False)
class Side:
    """One side of a seam: its edge from the upper end down, in the panel's frame, ready to be moved.

    `group` is the place of its group among those that can be moved, -1 if it stays; `way` is 1 if it is moved out where
    the group's shift is positive. `at` are the samples' distances down the edge, `basis` and `basis_at` what each
    coefficient adds at the line's points and at the samples, `middle` the panel's reference point.
    """

    panel: PanelName
    middle: Points
    line: Points
    out: Points
    at: Floats
    group: int
    way: int
    end_stays: bool
    basis: Floats
    basis_at: Floats

    def moved(self, coefficients: Floats) -> Points:
        """The line moved by the group's spline; shape (n, 2)."""
        if self.group < 0:
            return self.line
        return moved_sideways(self.line, self.out, self.way * (self.basis @ coefficients), self.end_stays)

    @cached_property
    def along(self) -> Floats:
        """Distances of the line's points down the edge, mm."""
        return lengths_along(self.line)

    @property
    def lengthens(self) -> Floats:
        """What each coefficient adds to the line's length, mm per mm, to first order; shape (count,)."""
        steps = np.diff(self.line, axis=0)
        steps = steps / np.hypot(*steps.T)[:, None]
        turned = np.vstack([-steps[:1], steps[:-1] - steps[1:], steps[-1:]])
        return np.asarray(self.way * (np.sum(self.out * turned, axis=1) @ self.basis))


@dataclass(frozen=True, eq=False)
class Steps:
    """Wrapped steps of all samples, mm, shape (ways * seams, SAMPLES), and their derivatives, (ways * seams, SAMPLES,
    n)."""

    rest: Floats
    slopes: Floats


class ShiftTask:
    """All seams of one cloth's problems, one for each way, with the groups of edges that can be moved, and one spline a
    group.

    `seams` has the same seams for each way; `share` says how much each way counts. Steps and weights stand way by way.
    """

    def __init__(
        self,
        project: Project,
        garment: Garment,
        problems: Sequence[Problem],
        seams: Sequence[tuple[SeamCost, ...]],
        share: Floats,
        groups: list[EdgeGroup],
    ) -> None:
        self.problems, self.seams, self.share, self.groups = tuple(problems), tuple(seams), share, groups
        self.splines = [spline_of(garment, group) for group in groups]
        weight = np.array([seam.weight for seam in seams[0]])
        self.weight = np.concatenate([one * weight / weight.sum() for one in share])
        counts = [spline.count for spline in self.splines]
        self.variables = len(problems[0].variables)
        self.phases = len(problems) * self.variables
        self.starts = self.phases + self.variables + np.concatenate([[0], np.cumsum(counts)]).astype(int)
        self.size = int(self.starts[-1])
        self.sides = [self._sides(project, garment, seam) for seam in seams[0]]
        self._seen: tuple[bytes, list[list[Points]]] = (b"", [])

    def columns(self, group: int) -> slice:
        """Where a group's coefficients stand among the unknowns."""
        return slice(int(self.starts[group]), int(self.starts[group + 1]))

    def turn(self, variable: int) -> int:
        """Where the turn of a variable stands among the unknowns."""
        return self.phases + variable

    def start(self, phases: Floats, turns: Floats) -> Floats:
        """The unknowns for the phases of all ways, turns, and no shift."""
        return np.concatenate([phases, turns, np.zeros(self.size - self.phases - self.variables)])

    def placed(self, x: Floats) -> tuple[list[Floats], Floats]:
        """The phases of each way, mm, and the turns, rad, that stand among unknowns."""
        return np.split(x[: self.phases], len(self.problems)), x[self.phases : self.phases + self.variables]

    def pinned(self, x: Floats) -> Floats:
        """The unknowns with the phases of pinned variables as their turns want them."""
        x = x.copy()
        for way, problem in enumerate(self.problems):
            for index, variable in enumerate(problem.variables):
                if variable.phase_fixed is not None:
                    x[way * self.variables + index] = problem.pinned_phase(index, x[self.turn(index)][None])[0]
        return x

    def mean_square(self, x: Floats) -> float:
        """The weighted mean square step, mm2."""
        rest = self._rest(self._raw(x)[0])
        return float(np.mean(rest * rest, axis=1) @ self.weight)

    def steps(self, x: Floats) -> Steps:
        """Wrapped steps and their derivatives by all unknowns."""
        raw, senses = self._raw(x)
        slopes = np.zeros((*raw.shape, self.size))
        for way in range(len(self.problems)):
            for index, (pair, lines) in enumerate(zip(self.sides, self._lines(x), strict=True)):
                row = self._row(way, index)
                for side, line, sign in zip(pair, lines, (1.0, senses[row]), strict=True):
                    self._add_slopes(slopes[row], x, way, side, line, sign)
        return Steps(self._rest(raw), slopes)

    def reaches(self, x: Floats) -> Floats:
        """By how much each step changes per mm that groups are moved, without sign; shape (ways * seams, SAMPLES)."""
        senses = self._raw(x)[1]
        ways = range(len(self.problems))
        return np.abs([self._effect(x, way, i, senses) for way in ways for i in range(len(self.sides))])

    def _effect(self, x: Floats, way: int, index: int, senses: list[float]) -> Floats:
        """By how much a seam's step changes per mm that its group is moved, at the samples; 0 if it stays."""
        total = np.zeros(SAMPLES)
        for side, sign in zip(self.sides[index], (1.0, senses[self._row(way, index)]), strict=True):
            total = total + sign * side.way * self._out_at(side) @ self._rates(x, way, side.panel)[0]
        return total

    def _row(self, way: int, index: int) -> int:
        return way * len(self.sides) + index

    def _rest(self, raw: Floats) -> Floats:
        """Steps brought into half a period of their way to either side."""
        own = np.split(raw, len(self.problems))
        return np.concatenate([wrap(one, p.repeat.period) for one, p in zip(own, self.problems, strict=True)])

    def _add_slopes(self, slopes: Floats, x: Floats, way: int, side: Side, line: Points, sign: float) -> None:
        follower = self.problems[way].followers[side.panel]
        turn = self.turn(follower.variable)
        slopes[:, way * self.variables + follower.variable] += sign * follower.sign
        ahead, behind = (self._rates(_nudged(x, turn, by), way, side.panel) for by in (TURN_STEP, -TURN_STEP))
        change = line @ (ahead[0] - behind[0]) + (ahead[1] - behind[1])
        slopes[:, turn] += sign * _sampled(side, change) / (2 * TURN_STEP)
        if side.group >= 0:
            effect = sign * side.way * (self._out_at(side) @ self._rates(x, way, side.panel)[0])
            slopes[:, self.columns(side.group)] += effect[:, None] * side.basis_at

    def _raw(self, x: Floats) -> tuple[Floats, list[float]]:
        """Steps before wrapping, and each one's sense: -1 where edges lean alike, else 1."""
        raw, senses = [], []
        for way, (problem, seams) in enumerate(zip(self.problems, self.seams, strict=True)):
            for sides, lines, seam in zip(self.sides, self._lines(x), seams, strict=True):
                changes, across = [], []
                for side, line, bent in zip(sides, lines, (seam.bent_a, seam.bent_b), strict=True):
                    rates, start = self._rates(x, way, side.panel)
                    changes.append(rates @ (line[-1] - line[0]))
                    across.append(_sampled(side, line @ rates) + start + bent)
                alike = bool(lean_alike(np.array(changes[0]), np.array(changes[1])))
                raw.append(across[0] - across[1] if alike else across[0] + across[1] - 2 * problem.repeat.c)
                senses.append(-1.0 if alike else 1.0)
        return np.array(raw), senses

    def _lines(self, x: Floats) -> list[list[Points]]:
        """The moved lines of both sides of every seam; those of the last unknowns are remembered."""
        shifts = x[self.phases + self.variables :]
        if self._seen[0] != (key := shifts.tobytes()) or not self._seen[1]:
            self._seen = key, [[self._moved(x, side) for side in pair] for pair in self.sides]
        return self._seen[1]

    def _moved(self, x: Floats, side: Side) -> Points:
        return side.moved(x[self.columns(side.group)]) if side.group >= 0 else side.line

    def _out_at(self, side: Side) -> Points:
        return np.stack([_sampled(side, side.out[:, axis]) for axis in (0, 1)], axis=-1)

    def _rates(self, x: Floats, way: int, panel: PanelName) -> tuple[Floats, float]:
        """The coordinate of a way is points @ rates + start for a panel's points in its own frame."""
        problem = self.problems[way]
        follower = problem.followers[panel]
        turn = x[self.turn(follower.variable)][None]
        if problem.variables[follower.variable].phase_fixed is None:
            phase = x[way * self.variables + follower.variable]
        else:
            phase = problem.pinned_phase(follower.variable, turn)[0]
        rates = np.concatenate(follower.rates(turn))
        start = follower.sign * phase + problem.offsets(panel, turn)[0] - follower.middle @ rates
        return rates, float(start)

    def _sides(self, project: Project, garment: Garment, seam: SeamCost) -> tuple[Side, Side]:
        line, heights = seam.line, sample_heights(seam.line)
        index = garment.seams.index(line)
        group = next((place for place, group in enumerate(self.groups) if index in group.seams), -1)
        _, lift_a, lift_b, stretch = joined(line.sewn.seam, *line.edge_lengths)
        a = garment.panels[seam.a].net[edge_of(line.sewn.a)]
        b = garment.panels[seam.b].net[edge_of(line.sewn.b)][::-1]
        return (
            self._side(project, garment, line, a, True, heights + lift_a, group),
            self._side(project, garment, line, b, False, heights * stretch + lift_b, group),
        )

    def _side(
        self, project: Project, garment: Garment, line: SeamLine, edge: Points, is_a: bool, at: Floats, group: int
    ) -> Side:
        ref = line.sewn.a if is_a else line.sewn.b
        points = dense(edge, COARSE_MM)
        out = ways_out(points) * (1.0 if is_a else -1.0)
        size, middle = length(points), garment.panels[panel_of(ref)].middle
        if group < 0:
            return Side(panel_of(ref), middle, points, out, at, -1, 0, False, np.empty((0, 0)), np.empty((0, 0)))
        shares, spline = lengths_along(points) / size, self.splines[group]
        way, stays = self.groups[group].way_of(project, ref, is_a), self.groups[group].ends_stay[1]
        basis, basis_at = spline.values(shares), spline.values(at / size)
        return Side(panel_of(ref), middle, points, out, at, group, way, stays, basis, basis_at)


def spline_of(garment: Garment, group: EdgeGroup) -> Spline:
    """The spline by which a group's edges are moved; the shortest of them decides how steep it may be."""
    return Spline.over(min(min(garment.seams[index].edge_lengths) for index in group.seams))


def _sampled(side: Side, values: Floats) -> Floats:
    """Values at a line's points read at the samples; a moved line keeps distances, or all in one proportion."""
    return np.asarray(np.interp(side.at, side.along, values))


def _nudged(x: Floats, index: int, by: float) -> Floats:
    x = x.copy()
    x[index] += by
    return x
