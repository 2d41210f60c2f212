"""The search for a short lay: first lays panel by panel, then overlaps worked out at ever smaller lengths."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.lay import engine
from core.lay.budget import Budget
from core.lay.places import Arrangement, compacted, one_by_one
from core.lay.rungs import SAME_MM, between, on_rungs
from core.lay.task import Task

FIRST_CUT = 0.02
"""Share of the length that is taken off at each attempt, at first."""

LEAST_CUT = 0.002
STALE = 0.08
"""A trail on which so large a share of the work brought nothing is left."""

WORTH_SHARING = 20_000
"""With fewer moves only one trail is followed."""

PATIENCE = 35
"""Sweeps without less overlap after which another start is worth more."""

LONG_PATIENCE = 60
"""The same where there are few starts: little work, or a start that is tried but once."""

_ATTEMPTS = 5
_AT_ONCE = 500
"""Moves between two looks at the clock."""


Show = Callable[[Arrangement], None]
"""Is given each lay that is shorter than those before it; not to be changed."""


def shortest(
    task: Task, budget: Budget, seed: int, enough_mm: float = 0.0, show: Show = lambda at: None
) -> Arrangement:
    """The shortest lay found with the work allowed, or the first no longer than `enough_mm`.

    The same task, work and seed give the same lay.

    Trails set out from the first lay one after another, each with chances of its own, and are left when they lead no
    farther; when too little work remains for one more, the one that has come farthest gets the rest. A single one may
    end far from the best.
    Raises CannotBeHad for a panel that has no place at all.
    """
    search = Search(task, budget, max(task.floor, enough_mm) + SAME_MM, show, first_lay(task, budget))
    show(search.best)
    work, first = budget.left, search.best
    stale = int(STALE * work)
    if work < WORTH_SHARING:
        stale, search.patience = work, LONG_PATIENCE
    trails: list[Trail] = []
    longest = 0
    while search.goes_on and budget.left > longest:
        trails.append(Trail(first, np.random.default_rng([seed, len(trails)])))
        before = budget.left
        search.follow(trails[-1], stale)
        longest = max(longest, before - budget.left)
    if search.goes_on:
        search.follow(min(trails, key=lambda trail: trail.best.length(task)), budget.left)
    return search.best


@dataclass(eq=False)
class Trail:
    """A lay that gets shorter, and what is tried next: a start, overlaps and all, and how much to cut off."""

    best: Arrangement
    rng: np.random.Generator
    cut: float = FIRST_CUT
    failures: int = 0

    def __post_init__(self) -> None:
        self.start = self.best


@dataclass(eq=False)
class Search:
    """The search for a lay no longer than `aim`, mm; `best` is the shortest of all trails."""

    task: Task
    budget: Budget
    aim: float
    show: Show
    best: Arrangement
    patience: int = PATIENCE

    @property
    def goes_on(self) -> bool:
        """Whether a shorter lay is wanted and there is work left."""
        length = self.best.length(self.task)
        return length > self.aim and self.budget.goes_on(length)

    def follow(self, trail: Trail, stale: int) -> None:
        """Go on with a trail until so many moves have made it no shorter."""
        since, best = self.budget.left, trail.best
        while self.goes_on and since - self.budget.left <= stale:
            self._step(trail)
            if trail.best is not best:
                since, best = self.budget.left, trail.best

    def _step(self, trail: Trail) -> None:
        """Try a length a little below the trail's best.

        Panels that overlap go, one at a time, where they overlap least, pairs that stay in each other's way weighing
        more and more. Where that leads nowhere two panels change places, or one goes elsewhere.
        """
        task = self.task
        separation = Separation(task, max(trail.best.length(task) * (1 - trail.cut), task.floor), trail.rng)
        if separation.solve(trail.start, self.budget, self.patience):
            trail.best = trail.start = compacted(task, separation.at)
            trail.failures = 0
            self._take(trail.best)
            return
        trail.failures += 1
        afresh = trail.failures % _ATTEMPTS == 0
        if afresh:
            trail.cut = max(0.6 * trail.cut, LEAST_CUT)
        trail.start = disturbed(task, trail.best if afresh else separation.least_bad, trail.rng)

    def _take(self, at: Arrangement) -> None:
        if at.length(self.task) < self.best.length(self.task):
            self.best = at
            self.show(at)


def first_lay(task: Task, budget: Budget) -> Arrangement:
    """The shortest of some lays built panel by panel, each as near to the cut end as it goes.

    The first of them is built in any case.
    """
    wide = np.array([one.sides[1] - one.sides[0] for one in task.loose[: task.panels]])
    tall = (task.ends - task.starts)[: task.panels]
    keys = (-task.areas, -wide, -tall, task.areas, np.arange(task.panels))
    best = one_by_one(task, np.argsort(keys[0], kind="stable"))
    for key in keys:
        if not budget.goes_on(best.length(task)):
            break
        other = compacted(task, one_by_one(task, np.argsort(key, kind="stable")))
        best = min(best, other, key=lambda at: at.length(task))
    return best


def disturbed(task: Task, at: Arrangement, rng: np.random.Generator) -> Arrangement:
    """A lay, overlaps and all, in which two panels, large ones more often, have changed places or one has strayed."""
    return swapped(task, at, rng) if rng.random() < 0.5 else strayed(task, at, rng)


def strayed(task: Task, at: Arrangement, rng: np.random.Generator) -> Arrangement:
    """A lay, overlaps and all, in which one panel lies anywhere within its length."""
    at, there = at.copy(), at.there
    entry = there[_picked(task.areas[task.whose[there]], rng)]
    column = rng.choice(np.flatnonzero(task.least[entry] <= task.most[entry]))
    least = task.least[entry, column]
    at.v[entry] = least + rng.random() * max(at.length(task) - task.ends[entry] - least, 0.0)
    at.column[entry] = column
    return at


def swapped(task: Task, at: Arrangement, rng: np.random.Generator) -> Arrangement:
    """A lay, overlaps and all, in which two panels, large ones more often, have changed places."""
    if task.panels < 2:
        return at
    at = at.copy()
    there = at.there
    share = task.areas[task.whose[there]]
    one = _picked(share, rng)
    share[one] = 0.0
    pair = there[[one, _picked(share, rng)]]
    w, start = task.first[pair] + at.column[pair] * task.step, at.v[pair] + task.starts[pair]
    column = np.rint((w[::-1] - task.first[pair]) / task.step).astype(np.int64)
    at.column[pair] = np.clip(column, 0, task.columns - 1)
    at.v[pair] = start[::-1] - task.starts[pair]
    return at


def _picked(share: Floats, rng: np.random.Generator) -> int:
    """The number of an entry, those with a large share more often; shape (n,)."""
    upto = np.cumsum(share)
    return int(np.searchsorted(upto, rng.random() * upto[-1]))


@dataclass(eq=False)
class Separation:
    """One attempt at lying within a length: an arrangement with overlaps, and how much each of them weighs.

    `weights` has shape (n, n + 1); the last column is for what stays where it is. `record` holds the least overlap met,
    mm, and the sweeps since. Solving it makes `at` legal, or leaves `least_bad`, the nearest to it met.
    """

    task: Task
    length: float
    rng: np.random.Generator

    def __post_init__(self) -> None:
        count = self.task.panels
        most = np.minimum(self.task.most, (self.length + SAME_MM - self.task.ends)[:, None])
        self.least, self.most = between(self.task.least, most, self.task.rungs)
        self.weights = np.ones((count, count + 1))
        self.record = np.array([np.inf, 0.0])
        self.state = self.rng.integers(1, 2**31 - 1, 1)
        self.at = self.least_bad = Arrangement(np.zeros(len(most), dtype=np.int64), np.zeros(len(most)))

    def solve(self, start: Arrangement, budget: Budget, patience: int) -> bool:
        """Work the overlaps out; True if `at` is legal now. Otherwise `least_bad` is the nearest to it met, and so many
        sweeps since have brought none nearer."""
        self._begin(start)
        while self.record[0] > 0.0 and self.record[1] <= patience and budget.goes_on():
            budget.spend(self._sweep(patience))
        return bool(self.record[0] == 0.0)

    def _begin(self, start: Arrangement) -> None:
        """Take a start over; panels that would stick out move in, those in a column with no place for them last."""
        self.at = start.copy()
        there = self.at.there
        least, most, column = self.least[there], self.most[there], self.at.column[there]
        row = np.arange(len(there))
        column = np.where(least[row, column] <= most[row, column], column, np.argmax(least <= most, axis=1))
        self.at.column[there] = column
        v = np.minimum(np.maximum(self.at.v[there], least[row, column]), most[row, column])
        self.at.v[there] = on_rungs(v, self.task.rungs[there, column], False)
        self.least_bad = self.at.copy()

    def _sweep(self, patience: int) -> int:
        task, at, kept = self.task, self.at, self.least_bad
        places = (task.pairs, task.still, task.whose, task.other, self.least, self.most, task.rungs, at.column, at.v)
        made = engine.loops().sweep(
            *places, self.weights, self.state, kept.column, kept.v, self.record, patience, _AT_ONCE
        )
        return int(made) + 1
