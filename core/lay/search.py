"""The search for a short lay: first lays panel by panel, then overlaps worked out at ever smaller lengths."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.lay.budget import Budget
from core.lay.places import Arrangement, barriers, choices, lowest
from core.lay.shapes import Ints
from core.lay.task import SAME_MM, Task, no_room

FIRST_CUT = 0.02
"""Share of the length that is taken off at each attempt, at first."""

LEAST_CUT = 0.002
_ATTEMPTS = 5
_PATIENCE = 25
_SWEEPS = 200


def shortest(task: Task, budget: Budget, seed: int) -> Arrangement:
    """The shortest lay found with the work allowed; the same task, work and seed give the same lay.

    A length a little below the best is tried: panels that overlap go, one at a time, where they overlap least, pairs
    that stay in each other's way weighing more and more. Where that leads nowhere two panels change places.
    Raises CannotBeHad for a panel that has no place at all.
    """
    best = first_lay(task, budget)
    start, cut, failures = best, FIRST_CUT, 0
    rng = np.random.default_rng(seed)
    while budget.goes_on(best.length(task)) and best.length(task) > task.floor + SAME_MM:
        length = max(best.length(task) * (1 - cut), task.floor)
        separation = Separation(task, length, rng)
        if separation.solve(start, budget):
            best = start = compacted(task, separation.at)
            failures = 0
            continue
        failures += 1
        if failures % _ATTEMPTS == 0:
            cut = max(0.6 * cut, LEAST_CUT)
        start = swapped(task, best if failures % _ATTEMPTS == 0 else separation.least_bad, rng)
    return best


def first_lay(task: Task, budget: Budget) -> Arrangement:
    """The shortest of some lays built panel by panel, each as near to the cut end as it goes.

    The first of them is built in any case.
    """
    wide = np.array([one.sides[1] - one.sides[0] for one in task.loose])
    keys = (-task.areas, -wide, task.starts - task.ends, task.areas, np.arange(len(task.loose)))
    best = _one_by_one(task, np.argsort(keys[0], kind="stable"))
    for key in keys:
        if not budget.goes_on(best.length(task)):
            break
        other = compacted(task, _one_by_one(task, np.argsort(key, kind="stable")))
        best = min(best, other, key=lambda at: at.length(task))
    return best


def _one_by_one(task: Task, order: Ints) -> Arrangement:
    at = Arrangement(np.zeros(len(order), dtype=np.intp), np.zeros(len(order)))
    for count, index in enumerate(order):
        place = lowest(task, int(index), order[:count], at)
        if place is None:
            raise no_room(task.cloth, task.loose[index])
        at.column[index], at.v[index] = place
    return at


def compacted(task: Task, at: Arrangement) -> Arrangement:
    """A legal lay in which no panel alone can come nearer to the cut end."""
    at = at.copy()
    everyone = np.arange(len(at.v))
    moved = True
    while moved:
        moved = False
        for index in np.argsort(at.v + task.starts, kind="stable"):
            place = lowest(task, int(index), everyone, at)
            if place is not None and place[1] < at.v[index] - 1e-6:
                at.column[index], at.v[index] = place
                moved = True
    return at


def swapped(task: Task, at: Arrangement, rng: np.random.Generator) -> Arrangement:
    """A lay, overlaps and all, in which two panels, large ones more often, have changed places."""
    if len(at.v) < 2:
        return at
    at = at.copy()
    pair = rng.choice(len(at.v), 2, replace=False, p=task.areas / task.areas.sum())
    w, start = task.first[pair] + at.column[pair] * task.step, at.v[pair] + task.starts[pair]
    column = np.rint((w[::-1] - task.first[pair]) / task.step).astype(np.intp)
    at.column[pair] = np.clip(column, 0, task.columns - 1)
    at.v[pair] = start[::-1] - task.starts[pair]
    return at


@dataclass(eq=False)
class Separation:
    """One attempt at lying within a length: an arrangement with overlaps, and how much each of them weighs.

    `weights` has shape (n, n + 1); the last column is for what stays where it is.
    """

    task: Task
    length: float
    rng: np.random.Generator

    def __post_init__(self) -> None:
        count = len(self.task.loose)
        most = np.minimum(self.task.most, (self.length + SAME_MM - self.task.ends)[:, None])
        open_ = self.task.least <= most
        self.least, self.most = np.where(open_, self.task.least, np.inf), np.where(open_, most, -np.inf)
        self.weights = np.ones((count, count + 1))
        self.everyone = np.arange(count)
        self.at = self.least_bad = Arrangement(np.zeros(count, dtype=np.intp), np.zeros(count))

    def solve(self, start: Arrangement, budget: Budget) -> bool:
        """Work the overlaps out; True if `at` is legal now. Otherwise `least_bad` is the nearest to it met."""
        self._begin(start, budget)
        least, waited = np.inf, 0
        for _ in range(_SWEEPS):
            depth = depths(self.task, self.at)
            if not depth.any():
                return True
            waited += 1
            if depth.sum() < 0.98 * least:
                least, waited, self.least_bad = depth.sum(), 0, self.at.copy()
            if waited > _PATIENCE or not budget.goes_on():
                return False
            self._sweep(depth, budget)
        return False

    def _begin(self, start: Arrangement, budget: Budget) -> None:
        """Take a start over; panels that would stick out move in at once."""
        self.at = start.copy()
        least, most = self.least[self.everyone, self.at.column], self.most[self.everyone, self.at.column]
        closed = least > most
        self.at.v = np.where(closed, 0.0, np.minimum(np.maximum(self.at.v, least), most))
        for index in np.flatnonzero(closed):
            self._move(int(index), budget)
        self.least_bad = self.at.copy()

    def _sweep(self, depth: Floats, budget: Budget) -> None:
        """Weigh the overlaps there are more, others less, then move every panel that overlaps, in random order."""
        growth = np.where(depth > 0, 1.2 + 0.8 * depth / depth.max(), 0.95)
        self.weights = np.maximum(self.weights * growth, 1.0)
        for index in self.rng.permutation(np.flatnonzero(depth.any(axis=1))):
            self._move(int(index), budget)

    def _move(self, index: int, budget: Budget) -> None:
        low, high = barriers(self.task, index, self.everyone, self.at)
        found = choices(low, high, self.least[index], self.most[index])
        pairs, still = self.task.pairs.shape[3], self.task.still.shape[2]
        weights = np.repeat(self.weights[index], [pairs] * len(self.everyone) + [still])
        best = int(np.argmin(found.depth @ weights))
        self.at.column[index], self.at.v[index] = found.column[best], found.v[best]
        budget.spend()


def depths(task: Task, at: Arrangement) -> Floats:
    """How deep each panel lies in every other one and, last, in what stays, mm along the cloth; (n, n + 1)."""
    everyone = np.arange(len(at.v))
    apart = at.column[:, None] - at.column + task.columns - 1
    others = _depth(at.v[:, None] - at.v, task.pairs[everyone[:, None], everyone, apart])
    still = _depth(at.v, task.still[everyone, at.column])
    depth = np.concatenate([others, still[:, None]], axis=1)
    return np.where(depth > SAME_MM, depth, 0.0)


def _depth(v: Floats, intervals: Floats) -> Floats:
    return np.asarray(np.minimum(v[..., None] - intervals[..., 0], intervals[..., 1] - v[..., None]).max(axis=-1))
