"""The other panels solved again while a hand moves some: from where they are, fast enough for every move of the mouse.

The panels in the hand, and those that are held, cut or have no places yet, stay. All others that hang together with
those in the hand take the best phases and turns. What doesn't change while the hand moves is worked out once: the cost
tables of the seams that it doesn't touch on a coarse grid of phases and turns, all panels eliminated but the neighbours
of the hand's. Each move then adds the few tables that it changes, traces the best states back and refines them.
"""

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property
from math import prod

import msgspec
import numpy as np

from core.geometry.polyline import Floats
from core.matching.elimination import Reduced, Table, Tables, reduced
from core.matching.grid import Axis, Grid, less_turning
from core.matching.objective import Objective
from core.matching.problem import Problem, SeamCost, as_they_lie, build_problem
from core.matching.refine import EQUAL_MM, Point, bounds_of, refined
from core.model.cloth import WAYS, Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import read_seam
from core.seams.stripes import Across

PHASES, TURNS = 20, 5
"""States of the coarse grid, fewer for garments of many panels."""

MANY = 16
"""From so many free variables on the grid is coarser."""

MOST_KEPT = 2e5
"""Where the neighbours of the hand's panels have more states together than this, refinement alone has to do."""

STARTS = 2
"""States of the grid that are refined, besides where the panels are."""

Changes = dict[PanelName, Placement]


class Followers:
    """The panels of one cloth that follow a hand which holds `moved`, panels of that cloth."""

    def __init__(self, project: Project, garment: Garment, moved: Iterable[PanelName]) -> None:
        self._project, self._moved = project, frozenset(moved)
        cloth = project.cloth_of(next(iter(self._moved)))
        self._lines = [line for line in garment.seams if line.cloth is not None and line.cloth.id == cloth.id]
        fixed = _with_fixed(project, cloth, self._moved)
        turned = {name: project.placement(name).turned for name in garment.panels}
        self._problem = build_problem(fixed, garment, cloth, turned)
        self._hand = sorted({self._problem.followers[name].variable for name in self._moved})
        self._seams, self._free, self._variables = _reached(self._problem, self._hand)
        self._phases, self._turns = as_they_lie(fixed, garment, self._problem)

    @property
    def panels(self) -> tuple[PanelName, ...]:
        """The panels that may be laid elsewhere."""
        reached = {*self._free, *self._hand}
        return tuple(
            name
            for name, follower in self._problem.followers.items()
            if follower.variable in reached and name not in self._moved and not _stays(self._project, name)
        )

    def places(self, hand: Changes) -> Changes:
        """Where the others lie best while the hand's panels lie as given; empty where they had better stay.

        `hand` may name panels of other cloths too.

        They keep v, stay inside the tolerance and move across by at most half a period from where they lay. The answer
        depends on the arguments alone, not on the moves before.
        """
        if not self.panels:
            return {}
        problem, phases, turns = self._now(hand)
        best = self._best(problem, phases, turns)
        placements = {
            name: problem.placement(name, best.phases, best.turns, self._project.placement(name))
            for name in self.panels
        }
        before = self._project.placed(hand)
        better = self._squares(before.placed(placements)) < self._squares(before) - EQUAL_MM**2
        return placements if better else {}

    def _now(self, hand: Changes) -> tuple[Problem, Floats, Floats]:
        """The problem with the hand's panels where they are now, and phases and turns to start from."""
        phases, turns = self._phases.copy(), self._turns.copy()
        variables = list(self._problem.variables)
        for name in self._moved:
            follower, at = self._problem.followers[name], hand.get(name, self._project.placement(name))
            if variables[follower.variable].leader == name:
                turn = math.radians(at.turn_deg)
                phase = float(Across.of(at, self._problem.cloth)(follower.middle[None])[0])
                variables[follower.variable] = replace(
                    variables[follower.variable], turn_low=turn, turn_high=turn, phase_fixed=phase
                )
                phases[follower.variable], turns[follower.variable] = phase, turn
        return replace(self._problem, variables=tuple(variables)), phases, turns

    def _best(self, problem: Problem, phases: Floats, turns: Floats) -> Point:
        objective = Objective(problem, self._seams)
        bounds = bounds_of(objective, tuple(self._free))
        starts = [(objective.pinned(phases, turns), turns), *self._from_grid(problem, phases, turns)]
        points = [Point(*start, objective.value(*start)) for start in starts]
        rough = [
            refined(objective, bounds, point, 3) for point in sorted(points, key=lambda point: point.value)[:STARTS]
        ]
        return refined(objective, bounds, min(rough, key=lambda point: point.value), 8)

    # --- the coarse grid

    def _from_grid(self, problem: Problem, phases: Floats, turns: Floats) -> list[tuple[Floats, Floats]]:
        if self._reduced is None:
            return []
        grid = Grid(problem, self._variables, self._seams, self._axes(problem))
        more: dict[tuple[int, ...], Table] = {}
        for seam in self._touched:
            scope, table = grid.seam_table(seam)
            order = tuple(sorted(scope))
            table = table if order == scope else table.T
            more[order] = more[order] + table if order in more else table
        return [grid.values(states, phases, turns) for states in self._reduced.best(more, STARTS)]

    @cached_property
    def _touched(self) -> tuple[SeamCost, ...]:
        """The seams whose cost changes as the hand moves."""
        return tuple(seam for seam in self._seams if set(_ends(self._problem, seam)) & set(self._hand))

    @cached_property
    def _reduced(self) -> Reduced | None:
        """The tables of all other seams, in which only the hand's variables and their neighbours are left."""
        axes = self._axes(self._problem)
        beside = {end for seam in self._touched for end in _ends(self._problem, seam)} | set(self._hand)
        kept = tuple(place for place, v in enumerate(self._variables) if v in beside)
        if prod(axes[place].size for place in kept) > MOST_KEPT:
            return None
        tables = Tables([axis.size for axis in axes])
        grid = Grid(self._problem, self._variables, self._seams, axes)
        for seam in self._seams:
            if seam not in self._touched:
                tables.add(*grid.seam_table(seam))
        for place, axis in enumerate(axes):
            tables.add((place,), less_turning(axis))
        return reduced(tables, kept)

    def _axes(self, problem: Problem) -> tuple[Axis, ...]:
        many = len(self._free) > MANY
        return tuple(_axis(problem, v, 14 if many else PHASES, 3 if many else TURNS) for v in self._variables)

    def _squares(self, project: Project) -> float:
        """Weighted sum of the mean squared steps of this cloth's seams, both ways, mm2, read exactly."""
        weights = {"lengthwise": 1.0, "crosswise": project.match.crosswise_weight}
        readings = [(weights[way], read_seam(project, line, way)) for way in WAYS for line in self._lines]
        return sum(w * r.line.sewn.seam.weight * (r.mean_square or 0.0) for w, r in readings if r is not None)


def _stays(project: Project, name: PanelName) -> bool:
    return project.placement(name).hold or name in project.done or name not in project.placements


def _with_fixed(project: Project, cloth: Cloth, moved: frozenset[PanelName]) -> Project:
    """The project with the hand's panels, and all others that stay, held."""
    names = [name for name in project.panel_names if project.cloth_of(name).id == cloth.id]
    fixed = [name for name in names if name in moved or _stays(project, name)]
    return project.placed({name: msgspec.structs.replace(project.placement(name), hold=True) for name in fixed})


def _ends(problem: Problem, seam: SeamCost) -> tuple[int, int]:
    return problem.followers[seam.a].variable, problem.followers[seam.b].variable


def _reached(problem: Problem, hand: list[int]) -> tuple[tuple[SeamCost, ...], list[int], tuple[int, ...]]:
    """Seams and free variables that hang together with the hand's, and all variables that those seams have."""
    fixed = {
        v for v, one in enumerate(problem.variables) if one.turn_low == one.turn_high and one.phase_fixed is not None
    }
    free: set[int] = set()
    for _ in problem.variables:
        near = {
            end for seam in problem.seams if set(_ends(problem, seam)) & {*hand, *free} for end in _ends(problem, seam)
        }
        if near <= free | fixed:
            break
        free |= near - fixed
    seams = tuple(seam for seam in problem.seams if set(_ends(problem, seam)) & free)
    variables = {end for seam in seams for end in _ends(problem, seam)} | set(hand)
    return seams, sorted(free), tuple(sorted(variables))


def _axis(problem: Problem, v: int, phases: int, turns: int) -> Axis:
    variable = problem.variables[v]
    if variable.turn_low == variable.turn_high:
        at = np.array([variable.turn_low])
    else:
        at = np.linspace(variable.turn_low, variable.turn_high, turns)
    if variable.phase_fixed is not None:
        return Axis(at, problem.pinned_phase(v, at), 1)
    return Axis(at, np.full(len(at), problem.repeat.c), phases)
