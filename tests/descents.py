"""Descents from random starts: what a local search would find, to hold the solver's answers and bounds against."""

from collections.abc import Iterator

import numpy as np

from core.matching.objective import Objective
from core.matching.orientation import orientations
from core.matching.problem import Problem, build_problem
from core.matching.refine import Point, bounds_of, refined
from core.model.project import Project
from core.seams.garment import Garment

STEPS = 25


def problem_of(project: Project) -> tuple[Garment, Problem]:
    """The garment and the problem of its first cloth."""
    garment, cloth = Garment.of(project), project.cloths[0]
    return garment, build_problem(project, garment, cloth, orientations(project, garment, cloth))


def descents(problem: Problem, starts: int, seed: int) -> Iterator[Point]:
    """Where descents from so many random starts end."""
    objective = Objective(problem, problem.seams)
    bounds = bounds_of(objective, tuple(range(len(problem.variables))))
    rng = np.random.default_rng(seed)
    for _ in range(starts):
        turns = rng.uniform(bounds.low, bounds.high)
        phases = objective.pinned(rng.uniform(0, problem.repeat.period, len(turns)), turns)
        yield refined(objective, bounds, Point(phases, turns, objective.value(phases, turns)), STEPS)
