"""The match: the best placement of all panels across the stripes that their cloths' grain tolerance allows."""

import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.errors import Stopped
from core.matching.both_ways import Search, shares
from core.matching.elimination import minimise
from core.matching.grid import build_grid
from core.matching.objective import Objective
from core.matching.orientation import orientations
from core.matching.problem import Problem, SeamCost, build_problem, place
from core.matching.refine import EQUAL_MM, EQUAL_SHARE, Bounds, Point, Searched, bounds_of, least_turning, refined
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment
from core.seams.readings import measure
from core.wording import tr

CANDIDATES = 16
"""How many of the search's placements are refined before the best is taken."""

FINALISTS = 6
"""How many of the refined ones are followed to the bottom of their valleys."""


@dataclass(frozen=True, eq=False)
class MatchResult:
    """A solved match: the project with its placements, the garment's figure, mm, and how it was reached.

    `lower_bound_mm` is a figure below which no placement can go, or None while that is not proved.
    """

    project: Project
    rms_mm: float | None
    lower_bound_mm: float | None
    seconds: float
    status: Literal["done", "stopped"]
    message: str


def match(project: Project, progress: Progress = silent, garment: Garment | None = None) -> MatchResult:
    """Minimise sqrt(sum(weight * rms^2) / sum(weight)) over all phases and turns the project allows.

    Where a cloth has bars, their steps count in the figure as the project says, and v is chosen with u.

    The same project always gives the same placements. A stop gives the best placement found so far.
    """
    started = time.perf_counter()
    garment = garment or Garment.of(project)
    striped = [cloth for cloth in project.cloths if cloth.ways]
    status: Literal["done", "stopped"] = "done"
    solved = project
    for index, cloth in enumerate(striped):
        try:
            found = _match_cloth(
                project, garment, cloth, part(progress, index / len(striped), (index + 1) / len(striped))
            )
        except Stopped:
            status = "stopped"
            break
        solved = solved.placed(found)
    progress(1.0, "matched")
    rms = measure(solved, garment).rms_mm
    message = tr("stopped; what was not reached lies as it lay") if status == "stopped" else tr("matched")
    return MatchResult(solved, rms, None, time.perf_counter() - started, status, message)


def _match_cloth(project: Project, garment: Garment, cloth: Cloth, progress: Progress) -> dict[PanelName, Placement]:
    turned = orientations(project, garment, cloth)
    problems = [build_problem(project, garment, cloth, turned, way) for way in cloth.ways]
    best = _start(problems)
    parts = list(zip(*(connected(problem) for problem in problems), strict=True))
    for index, ((variables, seams), *other) in enumerate(parts):
        watch = part(progress, index / len(parts), (index + 1) / len(parts))
        if seams and other:
            share = shares(project.match.crosswise_weight)
            search = Search((problems[0], problems[1]), variables, (seams, other[0][1]), share)
            best = _solve_both(search, best, watch)
        elif seams:
            best = _solve_part(problems[0], variables, seams, best, watch)
    phases = np.split(best.phases, len(problems))
    return {
        name: place(problems, name, phases, best.turns, project.placements.get(name))
        for name in problems[0].followers
        if not project.placement(name).hold
    }


def _start(problems: Sequence[Problem]) -> Point:
    """All panels as straight as they may lie, with the matched axis of each way through their middles."""
    turns = np.array([min(max(0.0, v.turn_low), v.turn_high) for v in problems[0].variables])
    phases = [Objective(problem, ()).pinned(np.full(len(turns), problem.repeat.c), turns) for problem in problems]
    return Point(np.concatenate(phases), turns, 0.0)


def connected(problem: Problem) -> list[tuple[tuple[int, ...], tuple[SeamCost, ...]]]:
    """The problem's unconnected parts: variables, and the seams between them."""
    root = list(range(len(problem.variables)))
    for seam in problem.seams:
        a, b = (root[problem.followers[panel].variable] for panel in (seam.a, seam.b))
        root = [a if r == b else r for r in root]
    parts = []
    for r in dict.fromkeys(root):
        variables = tuple(v for v in range(len(root)) if root[v] == r)
        seams = tuple(seam for seam in problem.seams if root[problem.followers[seam.a].variable] == r)
        parts.append((variables, seams))
    return parts


def _solve_part(
    problem: Problem, variables: tuple[int, ...], seams: tuple[SeamCost, ...], start: Point, progress: Progress
) -> Point:
    """Search the grid for the best placements, refine the best of them, take the least turning among equals."""
    grid = build_grid(problem, variables, seams)
    objective = Objective(problem, seams)
    bounds = bounds_of(objective, variables)
    found = minimise(grid.tables(), part(progress, 0.0, 0.6), CANDIDATES)
    points = []
    for _, states in found:
        phases, turns = grid.values(states, start.phases, start.turns)
        points.append(Point(phases, turns, objective.value(phases, turns)))
    return _best_refined(objective, bounds, points, part(progress, 0.6, 1.0))


def _solve_both(search: Search, start: Point, progress: Progress) -> Point:
    """The same for stripes and bars together; then their phases are searched once more at the turns that came of it."""
    objective = search.objective()
    bounds = bounds_of(objective, search.variables)
    points = search.starts(start, part(progress, 0.0, 0.6), CANDIDATES)
    best = _best_refined(objective, bounds, points, part(progress, 0.6, 0.95))
    again = refined(objective, bounds, search.at_turns(objective, start, best.turns))
    return least_turning(objective, bounds, again) if again.value < best.value * (1 - EQUAL_SHARE) else best


def _best_refined(objective: Searched, bounds: Bounds, points: list[Point], progress: Progress) -> Point:
    """Refine all a little and the best few to the end; of equals take the one with the least turning."""
    rough = []
    for index, point in enumerate(points):
        if not progress(0.5 * index / len(points), tr("refining the best placements")):
            break
        rough.append(refined(objective, bounds, point, 4))
    rough = _unlike(sorted(rough, key=lambda point: point.value))
    fine = []
    for index, point in enumerate(rough[:FINALISTS] or points[:1]):
        if not progress(0.5 + 0.5 * index / FINALISTS, tr("refining the best placements")):
            break
        fine.append(refined(objective, bounds, point))
    best = min(fine or rough or points, key=lambda point: point.value)
    limit = (np.sqrt(best.value) * (1 + EQUAL_SHARE) + EQUAL_MM) ** 2
    equals = _unlike([point for point in fine if point.value <= limit]) or [best]
    return min((least_turning(objective, bounds, point) for point in equals), key=lambda point: point.turning)


def _unlike(points: list[Point]) -> list[Point]:
    """The points without those that are one of the others over again."""
    unlike: list[Point] = []
    for point in points:
        if all(abs(point.turns - other.turns).max() > 1e-5 for other in unlike):
            unlike.append(point)
    return unlike
