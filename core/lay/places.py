"""Where the loose panels lie while the search goes on, and the engine that moves them."""

import importlib
from dataclasses import dataclass
from functools import cache
from types import ModuleType

import numpy as np

from core.geometry.polyline import Floats
from core.lay.shapes import Ints
from core.lay.task import Task, no_room


@cache
def engine() -> ModuleType:
    """`core.lay.kernel`, whose loops are compiled, or `core.lay.plainly` where numba is not
    there, does not load, or finds no place to keep what it compiled."""
    try:
        return importlib.import_module("core.lay.kernel")
    except (ImportError, OSError, RuntimeError):
        return importlib.import_module("core.lay.plainly")


@dataclass(eq=False)
class Arrangement:
    """Column and v of each loose panel; shape (n,). Changed in place. Column -1: not there yet."""

    column: Ints
    v: Floats

    def copy(self) -> "Arrangement":
        """One that can be changed without changing this one."""
        return Arrangement(self.column.copy(), self.v.copy())

    def length(self, task: Task) -> float:
        """Largest v of any cut line, held panels included, mm."""
        return max(task.held_end, float((self.v + task.ends).max(initial=0.0)))


def lowest(task: Task, index: int, at: Arrangement, below: float = np.inf) -> tuple[int, float] | None:
    """The column and v nearest to the cut end at which a panel overlaps none of those there; None if there is none."""
    column, v = engine().lowest(task.pairs, task.still, task.least, task.most, at.column, at.v, index, below)
    return None if column < 0 else (int(column), float(v))


def one_by_one(task: Task, order: Ints) -> Arrangement:
    """A lay built panel by panel, each as near to the cut end as it goes. Raises CannotBeHad if one has no place."""
    at = Arrangement(np.full(len(order), -1, dtype=np.int64), np.zeros(len(order)))
    for index in order.tolist():
        place = lowest(task, index, at)
        if place is None:
            raise no_room(task.cloth, task.loose[index])
        at.column[index], at.v[index] = place
    return at


def compacted(task: Task, at: Arrangement) -> Arrangement:
    """A legal lay in which no panel alone can come nearer to the cut end."""
    at = at.copy()
    moved = True
    while moved:
        moved = False
        for index in np.argsort(at.v + task.starts, kind="stable").tolist():
            place = lowest(task, index, at, at.v[index] - 1e-6)
            if place is not None:
                at.column[index], at.v[index] = place
                moved = True
    return at
