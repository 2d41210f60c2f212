"""Shifting stitching lines: where each seam's line is moved to, together with phases and turns, and what that gives."""

import math
import time
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.errors import Stopped
from core.geometry.polyline import Floats
from core.matching.elimination import minimise
from core.matching.grid import build_grid
from core.matching.orientation import orientations
from core.matching.problem import Problem, build_problem
from core.matching.solve import connected, match
from core.model.cloth import Cloth
from core.model.pattern import SewnSeam
from core.model.project import Placement, Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment, SeamLine
from core.seams.readings import SeamReading, measure
from core.seams.strip import Side, edge_at
from core.seams.stripes import Across
from core.seams.taking_in import TakingIn, taking_in
from core.shifting.descend import Limits, descend, limits_of
from core.shifting.edges import EdgeGroup, edge_groups
from core.shifting.pieces import LEAST_SHIFT_MM, present_shift, unshifted, with_moved_lines
from core.shifting.spline import Spline
from core.shifting.task import ShiftTask, spline_of

USUAL_CAP_MM = 2.0
LARGEST_CAP_MM = 20.0
KNOTS_MM = 50.0
"""A shift is told at heights so far apart."""

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

Ends = Literal["free", "kept"]


@dataclass(frozen=True, eq=False)
class SeamShift:
    """How one seam's line is moved: heights, mm, with the shift there, positive where the left edge is let out.

    `stays` says why it is not moved, or "", and `instead` what taking in or letting out one edge alone would come to
    where the edges lean alike. The figures are those of the match without shifts and with them.
    """

    sewn: SewnSeam
    knots: tuple[tuple[float, float], ...]
    stays: str
    rms_before_mm: float | None
    rms_mm: float | None
    instead: TakingIn | None = None

    @property
    def largest(self) -> tuple[float, float]:
        """The largest shift, mm, with its sign, and its height; (0, 0) where nothing is moved."""
        return max(((by, at) for at, by in self.knots), key=lambda pair: abs(pair[0]), default=(0.0, 0.0))


@dataclass(frozen=True, eq=False)
class ShiftResult:
    """Shifted lines: the project with altered pieces and placements, and what they give.

    `rms_before_mm` is the figure of the best match without shifts. `girth_change_mm` is the most by which what one edge
    gains and the other loses differ at any height of any seam, `length_change_mm` the most by which the two edges of a
    seam differ in length more than before.
    """

    project: Project
    cap_mm: float
    ends: Ends
    rms_before_mm: float | None
    rms_mm: float | None
    seams: tuple[SeamShift, ...]
    girth_change_mm: float
    length_change_mm: float
    seconds: float
    status: Literal["done", "stopped"]

    @property
    def largest_mm(self) -> float:
        """The largest shift anywhere, mm."""
        return max((abs(seam.largest[0]) for seam in self.seams), default=0.0)


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
            stopped = not watch(1.0, "shifting the lines")
    placed = matched.project.placed(
        {name: at for one in found for name, at in _placements(matched.project, one).items()}
    )
    progress(1.0, "shifted")
    status: Literal["done", "stopped"] = "stopped" if stopped else "done"
    return _result(placed, matched.project, garment, groups, found, cap_mm, ends, started, status)


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
    others = [(group, spline, present_shift(project, base, group, spline)) for group, spline in splines]
    return _result(base, project, garment, groups, found, cap_mm, ends, started, "done", others)


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
            useless[id(group)] = "its edges lean alike, so that moving the line changes no step"
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
        if not progress(0.3 + 0.4 * index / len(starts), "shifting the lines"):
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
        if not progress(count / 5, "making the shift small"):
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


def _result(
    placed: Project,
    before: Project,
    garment: Garment,
    groups: tuple[EdgeGroup, ...],
    found: list[_Found],
    cap_mm: float,
    ends: Ends,
    started: float,
    status: Literal["done", "stopped"],
    others: Sequence[tuple[EdgeGroup, Spline, Floats]] = (),
) -> ShiftResult:
    moved = [
        (group, one.task.splines[place], one.x[one.task.columns(place)])
        for one in found
        for place, group in enumerate(one.task.groups)
    ] + list(others)
    after = with_moved_lines(placed, *_columns(moved))
    garment_after = Garment.of(after)
    was, now = measure(before), measure(after, garment_after)
    by_group = {id(group): (spline, shift) for group, spline, shift in moved}
    useless = {key: words for one in found for key, words in one.useless.items()}
    seams = []
    for index, sewn in enumerate(before.sewn):
        group = next(group for group in groups if index in group.seams)
        spline, shift = by_group.get(id(group), (None, None))
        stays = group.stays or useless.get(id(group), "")
        stays = stays or ("" if spline else "it has no stripes to match")
        knots: tuple[tuple[float, float], ...] = ()
        if spline is not None and shift is not None and np.abs(shift).max() > LEAST_SHIFT_MM:
            way = group.way_of(before, sewn.a, True)
            knots = _knots(garment.seams[index].length, spline, way * shift)
        before_mm, after_mm = (one.rms_mm if one else None for one in (was.seams[index], now.seams[index]))
        instead = _instead(after, now.seams[index]) if useless.get(id(group)) else None
        seams.append(SeamShift(sewn, knots, stays, before_mm, after_mm, instead))
    return ShiftResult(
        after,
        cap_mm,
        ends,
        was.rms_mm,
        now.rms_mm,
        tuple(seams),
        _girth_change(garment, garment_after),
        _length_change(garment, garment_after),
        time.perf_counter() - started,
        status,
    )


def _instead(project: Project, reading: SeamReading | None) -> TakingIn | None:
    return taking_in(reading, project.placement(reading.line.panels[0])) if reading else None


def _columns(
    moved: list[tuple[EdgeGroup, Spline, Floats]],
) -> tuple[list[EdgeGroup], list[Spline], list[Floats]]:
    return [one[0] for one in moved], [one[1] for one in moved], [one[2] for one in moved]


def _knots(length: float, spline: Spline, shift: Floats) -> tuple[tuple[float, float], ...]:
    heights = np.concatenate([np.arange(0.0, length - KNOTS_MM / 4, KNOTS_MM), [length]])
    values = spline.values(heights / length) @ shift
    return tuple((round(float(h), 3), round(float(d), 4) + 0.0) for h, d in zip(heights, values, strict=True))


def _girth_change(before: Garment, after: Garment) -> float:
    """The most by which what a's edge gains, square to itself, and what b's loses differ, summed over the seams, mm.

    Read from the lines as they are written, at the same share of every seam.
    """
    total = np.zeros(len(_SHARES))
    for old, new in zip(before.seams, after.seams, strict=True):
        gained = [_gained(old, new, side) for side in ("a", "b")]
        total += np.abs(gained[0] + gained[1])
    return float(total.max())


_SHARES = np.linspace(0.0, 1.0, 101)


def _gained(old: SeamLine, new: SeamLine, side: Side) -> Floats:
    """How far one edge has moved out, square to itself, at shares of the seam, mm; shape of the shares."""
    line = old.a if side == "a" else old.b
    if np.array_equal(line, new.a if side == "a" else new.b):
        return np.zeros(len(_SHARES))
    points, inward = edge_at(old, side, _SHARES * old.length)
    there, _ = edge_at(new, side, _SHARES * new.length)
    return np.asarray(-np.sum((there - points) * inward, axis=1))


def _length_change(before: Garment, after: Garment) -> float:
    """The most by which the two edges of a seam differ in length more than they did, mm."""
    return max(
        (
            abs((new.edge_lengths[0] - new.edge_lengths[1]) - (old.edge_lengths[0] - old.edge_lengths[1]))
            for old, new in zip(before.seams, after.seams, strict=True)
        ),
        default=0.0,
    )
