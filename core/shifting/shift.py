"""Shifting stitching lines: where each seam's line is moved to, together with phases and turns, and what that gives."""

import math
import time
from dataclasses import dataclass, replace

import numpy as np

from core.errors import Stopped
from core.geometry.polyline import Floats
from core.matching.both_ways import Search, shares
from core.matching.elimination import minimise
from core.matching.grid import build_grid
from core.matching.orientation import orientations
from core.matching.problem import Problem, SeamCost, as_they_lie, build_problem, place
from core.matching.refine import Point
from core.matching.solve import connected, match
from core.model.cloth import Cloth
from core.model.project import Placement, Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment
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

    Shifts are measured against the lines as they were before any shift. On a cloth with bars as well the steps of both
    ways count as in the match. A stop gives the best found so far.
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
    turned = orientations(project, garment, cloth)
    problems = [build_problem(project, garment, cloth, turned, way) for way in cloth.ways]
    share = shares(project.match.crosswise_weight) if len(problems) > 1 else np.ones(1)
    lie = [as_they_lie(project, garment, problem) for problem in problems]
    start = Point(np.concatenate([phases for phases, _ in lie]), lie[0][1], 0.0)
    parts = list(zip(*(_with_seams(problem) for problem in problems), strict=True))
    found = []
    for index, ways in enumerate(parts):
        watch = part(progress, index / len(parts), (index + 1) / len(parts))
        variables, seams = ways[0][0], [own for _, own in ways]
        here = {garment.seams.index(seam.line) for seam in seams[0]}
        mine = [group for group in groups if not group.stays and here & set(group.seams)]
        useless = _useless(ShiftTask(project, garment, problems, seams, share, mine), start)
        task = ShiftTask(project, garment, problems, seams, share, [g for g in mine if id(g) not in useless])
        found.append(_Found(task, _searched(task, variables, start, cap_mm, watch), useless))
    return found


def _with_seams(problem: Problem) -> list[tuple[tuple[int, ...], tuple[SeamCost, ...]]]:
    """The unconnected parts of a problem that have seams."""
    return [one for one in connected(problem) if one[1]]


def _useless(task: ShiftTask, start: Point) -> dict[int, str]:
    """The groups, by identity, whose moving changes no step of stripes to speak of, and why."""
    reach, useless = task.reaches(task.start(start.phases, start.turns)).mean(axis=1), {}
    for number, group in enumerate(task.groups):
        mine = [index for index, pair in enumerate(task.sides) if pair[0].group == number]
        if all(reach[index] < LEAST_EFFECT for index in mine):
            useless[id(group)] = tr(ALIKE)
    return useless


def _searched(task: ShiftTask, variables: tuple[int, ...], start: Point, cap_mm: float, progress: Progress) -> Floats:
    """The best of the descents from the match and from the search's other placements, with the smallest shift."""
    limits = limits_of(task, cap_mm)
    first = task.start(start.phases, start.turns)
    if not len(limits.free):
        return first
    others = [] if limits.fixed else _others(task, variables, start, part(progress, 0.0, 0.3))
    starts = [first, *sorted(others, key=lambda x: _beyond_reach(task, x, cap_mm))[: STARTS - 1]]
    ends = []
    for index, one in enumerate(starts):
        if not progress(0.3 + 0.4 * index / len(starts), tr("shifting the lines")):
            break
        ends.append(descend(task, limits, one, CHEAP, ROUGH))
    best = min(ends or [first], key=task.mean_square)
    return _smallest(task, limits, best, task.mean_square(first), part(progress, 0.7, 1.0))


def _others(task: ShiftTask, variables: tuple[int, ...], start: Point, progress: Progress) -> list[Floats]:
    """Other good placements of the search of the match."""
    try:
        if len(task.problems) > 1:
            search = Search((task.problems[0], task.problems[1]), variables, (task.seams[0], task.seams[1]), task.share)
            return [task.start(one.phases, one.turns) for one in search.starts(start, progress, CANDIDATES // 2)]
        grid = build_grid(task.problems[0], variables, task.seams[0])
        states = minimise(grid.tables(), progress, CANDIDATES)
    except Stopped:
        return []
    return [task.start(*grid.values(one, start.phases, start.turns)) for _, one in states]


def _beyond_reach(task: ShiftTask, x: Floats, cap_mm: float) -> float:
    """The mean square of what shifts within the cap could not take off the steps, mm2."""
    left = np.maximum(np.abs(task.steps(x).rest) - cap_mm * task.reaches(x), 0.0)
    return float(np.mean(left * left, axis=1) @ task.weight)


def _smallest(task: ShiftTask, limits: Limits, x: Floats, before: float, progress: Progress) -> Floats:
    """From the best start to the end, then the smallest shift whose figure counts as equal and is no higher than it was
    `before`, mm2."""
    chosen = descend(task, limits, x, CHEAP, FINE)
    found = task.mean_square(chosen)
    limit = max(found, min((math.sqrt(found) * (1 + EQUAL_SHARE) + EQUAL_MM) ** 2, before))
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
    problems, (phases, turns) = one.task.problems, one.task.placed(one.x)
    followers = problems[0].followers
    reached = {followers[name].variable for seam in one.task.seams[0] for name in (seam.a, seam.b)}
    return {
        name: place(problems, name, phases, turns, project.placements.get(name))
        for name, follower in followers.items()
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
