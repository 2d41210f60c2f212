"""Bars matched by moving panels along their cloth only: where they lie across the stripes, and their turns, stay.

On a bowed cloth a panel that is moved across sees its bars at another slope. Once columns are chosen this brings the
bars together again as well as those slopes let them.
"""

import math
from dataclasses import replace

import msgspec

from core.matching.both_ways import settled
from core.matching.objective import Objective
from core.matching.problem import Problem, as_they_lie, build_problem
from core.matching.refine import Point, bounds_of, refined
from core.matching.solve import connected
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.patch import patches


def bars_settled(project: Project, garment: Garment, cloth: Cloth) -> dict[PanelName, Placement]:
    """Where the loose panels of a barred cloth lie along it so that their bars meet best, by less than a period moved.

    Each panel for itself, those of a mirrored pair too: bars of a bowed cloth slope otherwise under either of them.
    What lies on a panel goes with it.
    """
    problem = _turns_kept(project, garment, cloth)
    phases, turns = as_they_lie(project, garment, problem)
    for variables, seams in connected(problem):
        if seams:
            phases = settled(problem, variables, seams, phases, turns)
            objective = Objective(problem, seams)
            start = Point(phases, turns, objective.value(phases, turns))
            phases = refined(objective, bounds_of(objective, variables), start).phases
    loose = [v.leader for v in problem.variables if not project.placement(v.leader).hold]
    moved = {name: problem.placement(name, phases, turns, project.placement(name)) for name in loose}
    settled_ = project.placed(moved)
    return {**moved, **{p.name: p.nearest for p in patches(settled_) if p.cloth.id == cloth.id and not p.at.hold}}


def _turns_kept(project: Project, garment: Garment, cloth: Cloth) -> Problem:
    """The problem of a cloth's bars in which every panel is free for itself, but for its turn."""
    alone = msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, mirror_pairs=False))
    turned = {name: project.placement(name).turned for name in garment.panels}
    problem = build_problem(alone, garment, cloth, turned, "crosswise")
    turns = [math.radians(project.placement(variable.leader).turn_deg) for variable in problem.variables]
    variables = (
        replace(variable, turn_low=turn, turn_high=turn)
        for variable, turn in zip(problem.variables, turns, strict=True)
    )
    return replace(problem, variables=tuple(variables))
