"""Lays on a bowed cloth: in the columns that a lay has chosen its bars are matched anew, and the panels moved up again.

A bowed bar has another slope at every u, so what was matched in one column is off in another. The bars' phases that are
best for the columns of a lay follow from it in some hundredths of a second; the lay is then made again without moving
a panel across, which costs it a part of a bar's period. Of several lays, and of lays in which two panels have changed
places, those first that bring like slopes to a seam, one is taken that is hardly longer than the shortest and has the
best bars.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import combinations

import numpy as np

from core.errors import CannotBeHad
from core.lay.along import Lay, laid_again
from core.lay.budget import Budget
from core.lay.freedom import Freedom
from core.lay.places import Arrangement
from core.lay.search import LONG_PATIENCE, Separation
from core.lay.task import Task
from core.matching.bars_alone import bars_settled
from core.model.cloth import Cloth
from core.model.project import Project
from core.seams.garment import Garment, SeamLine
from core.seams.readings import measure, read_seam

WORTH = 0.04
"""A lay may be longer by this share for the sake of its bars."""

MOST_LAYS = 12
"""So many of the last lays of a search are looked at."""

MOST_SWAPS = 48
"""So many times two panels change places, for the sake of the bars."""

HEIGHTS = 24
"""At so many heights a seam's step is looked at where only its slope is asked for."""

BETTER = 0.98
"""Bars that are better by less than this factor are worth no change."""


def bars_mm(project: Project, cloth: Cloth, garment: Garment) -> float | None:
    """The rms of the bars' steps over all seams on a cloth, mm; None where there are none."""
    lines = tuple(line for line in garment.seams if line.cloth is not None and line.cloth.id == cloth.id)
    return measure(project, replace(garment, seams=lines)).rms_of("crosswise")


@dataclass(frozen=True, eq=False)
class Settled:
    """The lay that was `chosen`, what became of it once its bars were matched in its columns, and their rms, mm."""

    chosen: Lay
    lay: Lay
    rms_mm: float


def settled_lay(
    project: Project, task: Task, lays: Sequence[Arrangement], garment: Garment, budget: Budget, seed: int
) -> Lay:
    """The best that comes of some lays of a task, the last of them the shortest, with the work allowed.

    The bars of the shortest are brought together even where no more work is allowed: that takes hundredths of a second.
    """
    room = _Room(project, garment)
    made: list[Settled] = []
    for at in reversed(lays[-MOST_LAYS:]):
        if not made or budget.goes_on():
            made += room.settled(Lay(task, at))
            budget.spend(0)
    if not made:
        return Lay(task, lays[-1])
    limit = _limit(task, min(one.lay.length_mm for one in made))
    best = min((one for one in made if one.lay.length_mm <= limit), key=lambda one: one.rms_mm)
    return _with_swaps(room, best, limit, budget, np.random.default_rng(seed)).lay


def _with_swaps(room: "_Room", best: Settled, limit_mm: float, budget: Budget, rng: np.random.Generator) -> Settled:
    """The best that comes of having two panels change places, again and again, within a length."""
    swaps = room.swapped(best.chosen)
    for _ in range(MOST_SWAPS):
        swapped = next(swaps, None) if budget.goes_on() else None
        if swapped is None:
            break
        chosen = _worked_out(swapped, limit_mm + _rise(swapped.task), budget, rng)
        other = next(room.settled(chosen, BETTER * best.rms_mm), None) if chosen else None
        if other and other.lay.length_mm <= limit_mm:
            best, swaps = other, room.swapped(other.chosen)
    return best


def _rise(task: Task) -> float:
    """How much shorter a lay may become by having its bars elsewhere, mm: half a period on the average."""
    return task.cloth.crosswise.period / 2 if task.cloth.crosswise else 0.0


def _worked_out(lay: Lay, length_mm: float, budget: Budget, rng: np.random.Generator) -> Lay | None:
    """A lay whose overlaps are worked out within a length; None where that is not found."""
    separation = Separation(lay.task, length_mm, rng)
    found = separation.solve(lay.at, budget, LONG_PATIENCE)
    return Lay(lay.task, separation.at) if found else None


def _limit(task: Task, shortest_mm: float) -> float:
    """How long a lay may be for the sake of its bars, mm: no longer than the cloth, if the shortest is not."""
    limit, end = shortest_mm * (1 + WORTH), task.cloth.end
    return 1e-6 + (limit if end is None else max(shortest_mm, min(limit, end)))


@dataclass(frozen=True, eq=False)
class _Room:
    """What lays are judged by: the project as it was matched, and its garment."""

    project: Project
    garment: Garment

    def settled(self, chosen: Lay, below_mm: float = np.inf) -> Iterator[Settled]:
        """What becomes of a lay; nothing where its bars are no better than `below_mm`, or a panel finds no place."""
        cloth = chosen.task.cloth
        project = chosen.on(self.project)
        project = project.placed(bars_settled(project, self.garment, cloth))
        rms_mm = bars_mm(project, cloth, self.garment) or 0.0
        if rms_mm < below_mm:
            along = Freedom(project, cloth, self.garment).along
            try:
                yield Settled(chosen, laid_again(chosen, project, along), rms_mm)
            except CannotBeHad:
                return

    def swapped(self, lay: Lay) -> Iterator[Lay]:
        """All lays in which two panels have changed places, those first whose bars slope most alike at the seams."""
        here = lay.on(self.project)
        rivals = [_swapped(lay, pair) for pair in combinations(range(lay.task.panels), 2)]
        yield from sorted(rivals, key=lambda other: self._change(here, other.on(self.project)))

    def _change(self, here: Project, there: Project) -> float:
        """By how much more the bars' slopes part the seams of the panels that lie elsewhere `there`, mm2."""
        moved = {name for name, at in there.placements.items() if at != here.placements.get(name)}
        lines = [line for line in self.garment.seams if moved.intersection(line.panels)]
        return sum(line.sewn.seam.weight * (_variance(there, line) - _variance(here, line)) for line in lines)


def _variance(project: Project, line: SeamLine) -> float:
    """The variance of the bars' step down a seam before it is wrapped, mm2: what is left at the best offset."""
    reading = read_seam(project, line, "crosswise")
    heights = np.linspace(0.0, line.length, HEIGHTS)
    return float(np.var(np.interp(heights, line.height, reading.raw))) if reading else 0.0


def _swapped(lay: Lay, pair: tuple[int, int]) -> Lay:
    """A lay, overlaps and all, in which two panels have changed places across the cloth, and as good as along it."""
    task, at = lay.task, lay.at.copy()
    both = np.array([e for panel in pair for e in at.there.tolist() if task.whose[e] == panel])
    middle = np.array([task.loose[e].middle for e in both])
    w, v = task.first[both] + at.column[both] * task.step + middle[:, 0], at.v[both] + middle[:, 1]
    column = np.rint((w[::-1] - middle[:, 0] - task.first[both]) / task.step).astype(np.int64)
    at.column[both] = np.clip(column, 0, task.columns - 1)
    at.v[both] = v[::-1] - middle[:, 1]
    return Lay(task, at)
