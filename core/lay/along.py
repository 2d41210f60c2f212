"""Lays on barred cloth made again without moving a panel across: bars elsewhere, or all shifted along together."""

from dataclasses import dataclass, replace

import numpy as np

from core.lay.places import Arrangement, compacted, one_by_one
from core.lay.rungs import rungs_of
from core.lay.shapes import Ints
from core.lay.task import Task
from core.model.pattern import PanelName
from core.model.project import Placement, Project

MOST_SHIFTS = 12
"""About so many common shifts are tried."""


@dataclass(frozen=True, eq=False)
class Lay:
    """Where the entries of a task lie."""

    task: Task
    at: Arrangement

    @property
    def length_mm(self) -> float:
        """The length of the lay."""
        return self.at.length(self.task)

    @property
    def places(self) -> dict[PanelName, Placement]:
        """Where the loose panels lie."""
        task, there = self.task, self.at.there.tolist()
        return {task.loose[e].name: task.placement(e, int(self.at.column[e]), float(self.at.v[e])) for e in there}

    def on(self, project: Project) -> Project:
        """The project laid so."""
        return project.placed(self.places)


def laid_again(chosen: Lay, project: Project, along: dict[PanelName, int]) -> Lay:
    """The shortest lay with every panel in its column and its bars as the project has them, or all shifted together.

    `along` says which way each panel goes then, as `core.lay.freedom` has it. Of the shifts those are tried at which a
    panel comes to lie right at the cut end. Raises CannotBeHad where a panel has no place in its column, as may be
    where stripes lean.
    """
    task, order = _in_columns(chosen, project)
    ways = np.array([along.get(one.name, 0) for one in task.loose])
    lays: list[Lay] = []
    for share in _shares(task, ways):
        shifted = task.on_rungs(task.rungs - ways[:, None, None] * np.array([share, 0.0, 0.0]))
        lays.append(Lay(shifted, compacted(shifted, one_by_one(shifted, order))))
    return min(lays, key=_length)


def _shares(task: Task, ways: Ints) -> list[float]:
    """Shares of a period, 0 first, by which panels in one column each are shifted together."""
    column = np.argmax(np.isfinite(task.walls[0]), axis=1)
    rows = np.arange(len(column))
    (a, b, q), wall = task.rungs[rows, column].T, task.walls[0][rows, column]
    wall = np.where(np.isfinite(wall), wall, 0.0)
    off = ways * (a + b * wall + q * wall**2) % 1.0
    shares = np.unique(np.round(off[ways != 0], 9))
    return [0.0, *shares[:: max(1, len(shares) // MOST_SHIFTS)].tolist()]


def _length(lay: Lay) -> float:
    return lay.length_mm


def _in_columns(chosen: Lay, project: Project) -> tuple[Task, Ints]:
    """The task in which every panel may lie in its column only, its bars as the project has them; and the order from
    the cut end on."""
    task, there = chosen.task, chosen.at.there
    there = there[np.argsort(task.whose[there])]
    order = np.argsort((chosen.at.v + task.starts)[there], kind="stable")
    task, column = task.only(there), chosen.at.column[there]
    loose = tuple(replace(one, placement=project.placement(one.name)) for one in task.loose)
    mine = np.arange(task.columns) == column[:, None]
    walls = np.stack([np.where(mine, task.walls[0], np.inf), np.where(mine, task.walls[1], -np.inf)])
    w = task.first[:, None] + task.step * np.arange(task.columns)
    rungs = rungs_of(task.cloth, [None if one.free else (one.placement, one.middle) for one in loose], w)
    return replace(task, loose=loose, walls=walls).on_rungs(rungs), order
