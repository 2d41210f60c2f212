"""The other panels solved again while a hand moves some: from where they are, fast enough for every move of the mouse.

The panels in the hand, and those that are held, cut or have no places yet, stay. All others that hang together with
those in the hand take the best phases and turns, on a cloth with stripes and bars of both together. What doesn't change
while the hand moves is worked out once: see `core.matching.hand_tables`. Each move then traces the best states of the
grid back and refines them.
"""

import math
from collections.abc import Iterable
from dataclasses import replace

import msgspec
import numpy as np

from core.geometry.polyline import Floats
from core.matching.both_ways import BothWays, shares
from core.matching.hand_tables import HandTables
from core.matching.objective import Objective
from core.matching.problem import Problem, as_they_lie, build_problem, place
from core.matching.refine import EQUAL_MM, Point, Searched, bounds_of, refined
from core.model.cloth import WAYS, Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import read_seam
from core.seams.stripes import Across

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
        self._problems = tuple(build_problem(fixed, garment, cloth, turned, way) for way in cloth.ways)
        self._share = shares(project.match.crosswise_weight) if len(cloth.ways) > 1 else np.ones(1)
        self._tables = HandTables(self._problems, self._share, self._variables_of(self._moved))
        lie = [as_they_lie(fixed, garment, problem) for problem in self._problems]
        self._ways = [
            Objective(problem, seams) for problem, seams in zip(self._problems, self._tables.seams, strict=True)
        ]
        self._phases, self._turns = np.concatenate([phases for phases, _ in lie]), lie[0][1]

    def _variables_of(self, panels: Iterable[PanelName]) -> list[int]:
        return sorted({self._problems[0].followers[name].variable for name in panels})

    @property
    def panels(self) -> tuple[PanelName, ...]:
        """The panels that may be laid elsewhere."""
        reached = {*self._tables.free, *self._tables.hand}
        return tuple(
            name
            for name, follower in self._problems[0].followers.items()
            if follower.variable in reached and name not in self._moved and not _stays(self._project, name)
        )

    def places(self, hand: Changes) -> Changes:
        """Where the others lie best while the hand's panels lie as given; empty where they had better stay.

        `hand` may name panels of other cloths too.

        They stay inside the tolerance and move across stripes and bars by at most half a period from where they lay;
        along the cloth not at all where it has no bars. The answer depends on the arguments alone, not on the moves
        before.
        """
        if not self.panels:
            return {}
        problems, phases, turns = self._now(hand)
        best = self._best(problems, phases, turns)
        own = np.split(best.phases, len(problems))
        placements = {
            name: place(problems, name, own, best.turns, self._project.placement(name)) for name in self.panels
        }
        before = self._project.placed(hand)
        better = self._squares(before.placed(placements)) < self._squares(before) - EQUAL_MM**2
        return placements if better else {}

    def _now(self, hand: Changes) -> tuple[tuple[Problem, ...], Floats, Floats]:
        """The problems with the hand's panels where they are now, and phases and turns to start from."""
        phases, turns = self._phases.copy(), self._turns.copy()
        own = np.split(phases, len(self._problems))
        problems = tuple(
            self._with_hand(problem, hand, mine, turns) for problem, mine in zip(self._problems, own, strict=True)
        )
        return problems, phases, turns

    def _with_hand(self, problem: Problem, hand: Changes, phases: Floats, turns: Floats) -> Problem:
        """One way's problem with the hand's panels where they are now, which is put into phases and turns too."""
        variables = list(problem.variables)
        for name in self._moved:
            follower, at = problem.followers[name], hand.get(name, self._project.placement(name))
            variable = follower.variable
            if variables[variable].leader == name:
                turn = math.radians(at.turn_deg)
                phase = float(Across.of(at, problem.cloth, problem.way)(follower.middle[None])[0])
                variables[variable] = replace(variables[variable], turn_low=turn, turn_high=turn, phase_fixed=phase)
                phases[variable], turns[variable] = phase, turn
        return replace(problem, variables=tuple(variables))

    def _best(self, problems: tuple[Problem, ...], phases: Floats, turns: Floats) -> Point:
        objective = self._objective(problems)
        bounds = bounds_of(objective, tuple(self._tables.free))
        starts = [(objective.pinned(one, turns), turns) for one in self._lying(phases)]
        starts += self._tables.starts(problems, phases, turns, STARTS)
        points = [Point(*start, objective.value(*start)) for start in starts]
        rough = [
            refined(objective, bounds, point, 3) for point in sorted(points, key=lambda point: point.value)[:STARTS]
        ]
        return refined(objective, bounds, min(rough, key=lambda point: point.value), 8)

    def _lying(self, phases: Floats) -> tuple[Floats, Floats]:
        """Phases to start from, mm: as the panels lie, and as they lie once all have gone along with the hand."""
        moved = (phases - self._phases)[self._tables.hand[0] :: len(self._turns)]
        return phases, self._tables.carried(phases, moved)

    def _objective(self, problems: tuple[Problem, ...]) -> Searched:
        ways = [way.moved(problem) for way, problem in zip(self._ways, problems, strict=True)]
        return ways[0] if len(ways) == 1 else BothWays(ways, self._share)

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
