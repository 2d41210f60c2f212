"""Down from a placement to the least step that phases, turns and shifts together allow near it."""

from dataclasses import dataclass
from typing import Any

import numpy as np

from core.geometry.polyline import Floats
from core.seams.stripes import Ints
from core.shifting.bounded import least_within
from core.shifting.task import ShiftTask

STEEPEST = 1 / 30
"""A moved line runs no steeper than this against the line as it was."""

LENGTHS_APART_MM = 0.15
"""A shift between ends that stay makes the two edges of a seam differ by at most this much more than they did."""

SPECK = 1e-6
"""A bound on nothing but coefficients smaller than this binds nothing."""

ROOM = 1e-4
"""Share of the bounds that is left as room, for figures are rounded in the file."""


@dataclass(frozen=True, eq=False)
class Limits:
    """Which unknowns may change, and the bounds rows @ x <= most on them; `rows` is sparse.

    `fixed` says that no phase and no turn may change.
    """

    free: Ints
    rows: Any
    most: Floats
    fixed: bool


def limits_of(task: ShiftTask, cap_mm: float) -> Limits:
    """The bounds of a task: turns within their tolerance, shifts within the cap, slopes and lengths within theirs."""
    from scipy.sparse import csr_matrix, vstack

    rows, most = [csr_matrix((0, task.size))], [np.empty(0)]
    free = np.ones(task.size, dtype=bool)
    for way, problem in enumerate(task.problems):
        held = np.array([variable.phase_fixed is not None for variable in problem.variables])
        free[way * task.variables : (way + 1) * task.variables] = ~held
    for index, variable in enumerate(task.problems[0].variables):
        turn = task.turn(index)
        free[turn] = variable.turn_high > variable.turn_low
        if free[turn]:
            rows.append(csr_matrix(([1.0, -1.0], ([0, 1], [turn, turn])), shape=(2, task.size)))
            most.append(np.array([variable.turn_high, -variable.turn_low]))
    for group, bounds in ((group, _shift_bounds(task, group, cap_mm)) for group in range(len(task.groups))):
        for row, limit in bounds:
            wide = np.zeros((2 * len(row), task.size))
            wide[:, task.columns(group)] = np.vstack([row, -row])
            rows.append(csr_matrix(wide))
            most.append(np.full(2 * len(row), limit * (1 - ROOM)))
        columns = task.columns(group)
        for end, place in zip(task.groups[group].ends_stay, (columns.start, columns.stop - 1), strict=True):
            free[place] = not end
    narrow = vstack(rows).tocsr()[:, np.flatnonzero(free)]
    bound = np.flatnonzero(np.asarray(np.abs(narrow).sum(axis=1)).ravel() > SPECK)
    return Limits(
        np.flatnonzero(free), narrow[bound], np.concatenate(most)[bound], not free[: task.turn(task.variables)].any()
    )


def _shift_bounds(task: ShiftTask, group: int, cap_mm: float) -> list[tuple[Floats, float]]:
    """Rows of coefficients with the size they must not exceed."""
    spline = task.splines[group]
    bounds = [(np.eye(spline.count), cap_mm), (spline.slopes, STEEPEST)]
    if task.groups[group].ends_stay[1]:
        pairs = [pair for pair in task.sides if pair[0].group == group]
        bounds.append((np.array([a.lengthens - b.lengthens for a, b in pairs]), LENGTHS_APART_MM))
    return bounds


def descend(task: ShiftTask, limits: Limits, x: Floats, dear: float, most: int = 12) -> Floats:
    """From x down, by steps that are least squares between the bounds; never ends higher.

    Minimises the mean square step plus `dear` times the mean square shift.
    """
    from scipy.sparse import csr_matrix

    cost = _dearness(task, dear)
    value = task.mean_square(x) + _cost(cost, x)
    for _ in range(most):
        steps = task.steps(x)
        share = np.sqrt(task.weight / steps.rest.shape[1])[:, None]
        slopes = csr_matrix((steps.slopes * share[:, :, None]).reshape(-1, task.size))
        matrix = (slopes.T @ slopes).toarray() + cost
        gradient = slopes.T @ (steps.rest * share).reshape(-1) + cost @ x
        move = _step(limits, x, matrix, gradient)
        after, better = _downhill(task, cost, x, move, value)
        if after is None:
            return x
        gain, x, value = value - better, after, better
        if gain < 1e-6 * value + 1e-10:
            return x
    return x


def _step(limits: Limits, x: Floats, matrix: Floats, gradient: Floats) -> Floats:
    from scipy.sparse import diags

    free = limits.free
    inner = matrix[np.ix_(free, free)]
    scale = 1 / np.sqrt(np.maximum(np.diag(inner), 1e-12 * float(np.trace(inner)) + 1e-300))
    inner = inner * np.outer(scale, scale) + 1e-9 * np.eye(len(free))
    rows = limits.rows @ diags(scale)
    size = np.asarray(np.abs(rows).max(axis=1).todense()).ravel()
    room = np.maximum((limits.most - limits.rows @ x[free]) / size, 0.0)
    rows = diags(1 / size) @ rows
    found = least_within(inner, gradient[free] * scale, rows, room)
    over = rows @ found > room
    found = found * float(np.min(room[over] / (rows @ found)[over], initial=1.0))
    move = np.zeros(len(x))
    move[free] = found * scale
    return move


def _downhill(task: ShiftTask, cost: Floats, x: Floats, move: Floats, value: float) -> tuple[Floats | None, float]:
    for share in (1.0, 0.5, 0.25, 0.1, 0.03):
        after = task.pinned(x + share * move)
        here = task.mean_square(after) + _cost(cost, after)
        if here < value:
            return after, here
    return None, value


def _cost(cost: Floats, x: Floats) -> float:
    return float(x @ cost @ x)


def _dearness(task: ShiftTask, dear: float) -> Floats:
    """The matrix of what shifts cost beside the steps: their size, and a little for each change of slope."""
    cost = np.zeros((task.size, task.size))
    for group in range(len(task.groups)):
        spline, columns = task.splines[group], task.columns(group)
        mine = np.array([pair[0].group == group for pair in task.sides])
        share = float(np.tile(mine, len(task.problems)) @ task.weight) / spline.count
        cost[columns, columns] = share * (dear * np.eye(spline.count) + BENDING * spline.bends.T @ spline.bends)
    turns = np.arange(task.turn(0), task.turn(task.variables))
    cost[turns, turns] = 1e-4
    return cost


BENDING = 1e-3
"""What a mean square second difference of 1 mm2 costs, mm2: it keeps lines smooth where nothing else decides."""
