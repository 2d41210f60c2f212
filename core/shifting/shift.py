"""Shifting stitching lines: where each seam's line is moved to, together with phases and turns, and what that gives."""

import math
import time
from dataclasses import dataclass, replace

import numpy as np

from core.errors import Stopped
from core.geometry.polyline import Floats
from core.matching.elimination import minimise
from core.matching.grid import build_grid
from core.matching.orientation import orientations
from core.matching.problem import Problem, build_problem
from core.matching.solve import connected, match
from core.model.cloth import Cloth
from core.model.project import Placement, Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment
from core.seams.stripes import Across
from core.shifting.descend import Limits, descend, limits_of
from core.shifting.edges import ALIKE, EdgeGroup, edge_groups
from core.shifting.pieces import Move, present_shift, unshifted
from core.shifting.result import ShiftResult, shift_result
from core.shifting.task import ShiftTask, spline_of
from core.shifting.wish import USUAL_CAP_MM, Ends, ShiftWish
from core.wording import tr

LEAST_EFFECT = 0.5
"""Where moving a line by 1 mm changes the step by less than this, it is not moved."""

CANDIDATES = 12
"""So many other placements of the match's search are looked at."""

STARTS = 3
"""From so many placements the descent starts, those that shifts could mend best."""

ROUGH, FINE = 3, 25
"""Steps of a descent while starts are compared, and from the best of them."""

CHEAP = 1e-3
"""What a mean square shift of 1 mm2 costs at first, mm2 of the mean square step."""

EQUAL_SHARE, EQUAL_MM = 0.01, 0.003
"""A figure that is higher by no more than this share and this many mm counts as equal; the smaller shift is taken."""


@dataclass(frozen=True, eq=False)
class _Found:
    """What was found for one cloth: its task, the unknowns, and why groups stay that could have been moved."""

    task: ShiftTask
    x: Floats
    useless: dict[int, str]


def shift_lines(
    project: Project, cap_mm: float = USUAL_CAP_MM, ends: Ends = "free", progress: Progress = silent
) -> ShiftResult:
    """The placements, and shifts of the stitching lines of at most a cap, mm, that let the seams match best together.

    Shifts are measured against the lines as they were before any shift. On a cloth with bars the panels stay where the
    match laid them, for turning one would part the bars. A stop gives the best found so far.
    """
    started = time.perf_counter()
    base = unshifted(project)
    garment = Garment.of(base)
    matched = match(base, part(progress, 0.0, 0.3), garment)
    stopped = matched.status == "stopped"
    groups = edge_groups(base, garment, cap_mm, ends == "kept")
    found: list[_Found] = []
    striped = [cloth for cloth in base.cloths if cloth.repeat is not None]
    for index, cloth in enumerate(striped):
        watch = part(progress, 0.3 + 0.65 * index / len(striped), 0.3 + 0.65 * (index + 1) / len(striped))
        if not stopped:
            found += _shift_cloth(matched.project, garment, cloth, groups, cap_mm, watch)
            stopped = not watch(1.0, tr("shifting the lines"))
    placed = matched.project.placed(
        {name: at for one in found for name, at in _placements(matched.project, one).items()}
    )
    progress(1.0, "shifted")
    moves = _moves(found)
    result = shift_result(placed, matched.project, groups, moves, _stays(groups, found, moves), ShiftWish(cap_mm, ends))
    seconds = time.perf_counter() - started
    return replace(result, seconds=seconds, status="stopped" if stopped else "done")


def shift_where_it_lies(
    project: Project, seam: str | None = None, cap_mm: float = USUAL_CAP_MM, ends: Ends = "free"
) -> ShiftResult:
    """The shifts alone, all panels staying where they lie: of the group of one seam (as sewn), or of all.

    The lines of other groups stay as they are. `rms_before_mm` is then the figure of the project as it is.
    """
    started = time.perf_counter()
    base = unshifted(project)
    garment = Garment.of(base)
    groups = edge_groups(base, garment, cap_mm, ends == "kept")
    wanted = tuple(group for group in groups if seam is None or any(base.sewn[i].label == seam for i in group.seams))
    found = [
        one
        for cloth in base.cloths
        if cloth.repeat is not None
        for one in _shift_cloth(_all_held(base), garment, cloth, wanted, cap_mm, silent)
    ]
    splines = [(group, spline_of(garment, group)) for group in groups if group not in wanted]
    kept = [Move(group, spline, present_shift(project, base, group, spline)) for group, spline in splines]
    moves = [*_moves(found), *kept]
    result = shift_result(base, project, groups, moves, _stays(groups, found, moves), ShiftWish(cap_mm, ends))
    return replace(result, seconds=time.perf_counter() - started)


def _all_held(project: Project) -> Project:
    held = {
        name: Placement(u=at.u, v=at.v, turn_deg=at.turn_deg, turned=at.turned, hold=True)
        for name in project.panel_names
        for at in (project.placement(name),)
    }
    return project.placed(held)


def _shift_cloth(
    project: Project,
    garment: Garment,
    cloth: Cloth,
    groups: tuple[EdgeGroup, ...],
    cap_mm: float,
    progress: Progress,
) -> list[_Found]:
    """What is found for the unconnected parts of the panels on one cloth."""
    problem = build_problem(project, garment, cloth, orientations(project, garment, cloth))
    phases, turns = _as_placed(project, garment, problem)
    parts = [(variables, seams) for variables, seams in connected(problem) if seams]
    found = []
    for index, (variables, seams) in enumerate(parts):
        watch = part(progress, index / len(parts), (index + 1) / len(parts))
        here = {garment.seams.index(seam.line) for seam in seams}
        mine = [group for group in groups if not group.stays and here & set(group.seams)]
        useless = _useless(ShiftTask(project, garment, problem, seams, mine), phases, turns)
        task = ShiftTask(project, garment, problem, seams, [g for g in mine if id(g) not in useless])
        found.append(_Found(task, _searched(task, variables, phases, turns, cap_mm, watch), useless))
    return found


def _useless(task: ShiftTask, phases: Floats, turns: Floats) -> dict[int, str]:
    """The groups, by identity, whose moving changes no step to speak of, and why."""
    x, useless = task.start(phases, turns), {}
    for place, group in enumerate(task.groups):
        mine = [index for index, pair in enumerate(task.sides) if pair[0].group == place]
        if all(np.abs(task.effect(x, index)).mean() < LEAST_EFFECT for index in mine):
            useless[id(group)] = tr(ALIKE)
    return useless


def _as_placed(project: Project, garment: Garment, problem: Problem) -> tuple[Floats, Floats]:
    """Phases, mm, and turns, rad, of all variables for the placements in the project."""
    phases, turns = [], []
    for variable in problem.variables:
        at = project.placement(variable.leader)
        middle = garment.panels[variable.leader].middle
        phases.append(float(Across.of(at, problem.cloth)(middle[None])[0]))
        turns.append(min(max(math.radians(at.turn_deg), variable.turn_low), variable.turn_high))
    return np.array(phases), np.array(turns)


def _searched(
    task: ShiftTask, variables: tuple[int, ...], phases: Floats, turns: Floats, cap_mm: float, progress: Progress
) -> Floats:
    """The best of the descents from the match and from the search's other placements, with the smallest shift."""
    limits = limits_of(task, cap_mm, fixed_places=task.problem.cloth.crosswise is not None)
    first = task.start(phases, turns)
    if not len(limits.free):
        return first
    others = [] if limits.fixed else _others(task, variables, phases, turns, part(progress, 0.0, 0.3))
    starts = [first, *sorted(others, key=lambda x: _beyond_reach(task, x, cap_mm))[: STARTS - 1]]
    ends = []
    for index, start in enumerate(starts):
        if not progress(0.3 + 0.4 * index / len(starts), tr("shifting the lines")):
            break
        ends.append(descend(task, limits, start, CHEAP, ROUGH))
    best = min(ends or [first], key=task.mean_square)
    return _smallest(task, limits, best, part(progress, 0.7, 1.0))


def _others(
    task: ShiftTask, variables: tuple[int, ...], phases: Floats, turns: Floats, progress: Progress
) -> list[Floats]:
    """Other good placements on the grid of the match."""
    grid = build_grid(task.problem, variables, task.seams)
    try:
        states = minimise(grid.tables(), progress, CANDIDATES)
    except Stopped:
        return []
    return [task.start(*grid.values(one, phases, turns)) for _, one in states]


def _beyond_reach(task: ShiftTask, x: Floats, cap_mm: float) -> float:
    """The mean square of what shifts within the cap could not take off the steps, mm2."""
    left = np.maximum(np.abs(task.steps(x).rest) - cap_mm * task.reaches(x), 0.0)
    return float(np.mean(left * left, axis=1) @ task.weight)


def _smallest(task: ShiftTask, limits: Limits, x: Floats, progress: Progress) -> Floats:
    """From the best start to the end, then the smallest shift whose figure counts as equal."""
    chosen = descend(task, limits, x, CHEAP, FINE)
    limit = (math.sqrt(task.mean_square(chosen)) * (1 + EQUAL_SHARE) + EQUAL_MM) ** 2
    for count, dear in enumerate((1e-2, 3e-2, 0.1, 0.3, 1.0)):
        if not progress(count / 5, tr("making the shift small")):
            break
        tried = descend(task, limits, chosen, dear, ROUGH)
        if task.mean_square(tried) > limit:
            break
        chosen = tried
    return chosen


def _placements(project: Project, one: _Found) -> dict[str, Placement]:
    """Where the free panels of one task lie."""
    problem, number = one.task.problem, one.task.variables
    reached = {problem.followers[name].variable for seam in one.task.seams for name in (seam.a, seam.b)}
    return {
        name: problem.placement(name, one.x[:number], one.x[number : 2 * number], project.placements.get(name))
        for name, follower in problem.followers.items()
        if follower.variable in reached and not project.placement(name).hold
    }


def _moves(found: list[_Found]) -> list[Move]:
    """What the tasks have found for every group that may move."""
    return [
        Move(group, one.task.splines[place], one.x[one.task.columns(place)])
        for one in found
        for place, group in enumerate(one.task.groups)
    ]


def _stays(groups: tuple[EdgeGroup, ...], found: list[_Found], moves: list[Move]) -> dict[int, str]:
    """By group's identity why it stays; no entry for one that moves."""
    moved = {id(move.group) for move in moves}
    useless = {key: words for one in found for key, words in one.useless.items()}
    plain = {
        id(group): group.stays
        or tr("it has no lengthwise stripes that count in the match; bars hardly change by a shift")
        for group in groups
        if id(group) not in moved
    }
    return plain | useless
