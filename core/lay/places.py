"""Where the loose panels lie while the search goes on, and lays built panel by panel."""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from core.geometry.polyline import Floats
from core.lay import engine
from core.lay.rungs import on_rungs
from core.lay.shapes import Ints
from core.lay.task import Task, no_room
from core.lay.ways import ways_round


@dataclass(eq=False)
class Arrangement:
    """Column and v of each entry of a task; shape (n,). Changed in place. Column -1: not there."""

    column: Ints
    v: Floats

    def copy(self) -> "Arrangement":
        """One that can be changed without changing this one."""
        return Arrangement(self.column.copy(), self.v.copy())

    @property
    def there(self) -> Ints:
        """The entries that lie on the cloth; shape (k,)."""
        return np.flatnonzero(self.column >= 0)

    def put(self, place: "Place") -> None:
        """Bring an entry to a place."""
        self.column[place.entry], self.v[place.entry] = place.column, place.v

    def length(self, task: Task) -> float:
        """Largest v of any cut line, held panels included, mm."""
        return max(task.held_end, float((self.v + task.ends)[self.there].max(initial=0.0)))


class Place(NamedTuple):
    """A place of one entry."""

    entry: int
    column: int
    v: float


def lowest(task: Task, entry: int, at: Arrangement, before: float = np.inf) -> Place | None:
    """Where an entry's panel overlaps none of those there and ends nearest to the cut end, before a v; or None."""
    best = None
    for e in ways_round(task.other, entry):
        tables = (task.pairs, task.still, task.whose, task.least, task.most, task.rungs)
        column, v = engine.loops().lowest(*tables, at.column, at.v, e, before - task.ends[e])
        if column >= 0:
            best, before = Place(e, int(column), float(v)), v + task.ends[e]
    return best


def one_by_one(task: Task, order: Ints) -> Arrangement:
    """A lay built panel by panel, each as near to the cut end as it goes. Raises CannotBeHad if one has no place."""
    at = Arrangement(np.full(len(task.loose), -1, dtype=np.int64), np.zeros(len(task.loose)))
    for entry in order.tolist():
        place = lowest(task, entry, at)
        if place is None:
            raise no_room(task.cloth, task.loose[entry])
        at.put(place)
    return at


def compacted(task: Task, at: Arrangement) -> Arrangement:
    """A legal lay in which no panel alone can come nearer to the cut end."""
    at = at.copy()
    moved = True
    while moved:
        moved = False
        there = at.there
        for entry in there[np.argsort((at.v + task.starts)[there], kind="stable")].tolist():
            place = lowest(task, entry, at, at.v[entry] + task.ends[entry] - 1e-6)
            if place is not None:
                at.column[entry] = -1
                at.put(place)
                moved = True
    return at


def in_rows(task: Task) -> Arrangement:
    """A lay that needs no tables: panels side by side in rows, the tallest first, behind everything that stays."""
    at = Arrangement(np.full(len(task.loose), -1, dtype=np.int64), np.zeros(len(task.loose)))
    row = Row(task.still_end)
    for panel in np.argsort((task.starts - task.ends)[: task.panels], kind="stable").tolist():
        place = _beside(task, panel, row)
        if place is None:
            row = Row(row.end)
            place = _beside(task, panel, row)
        if place is None:
            raise no_room(task.cloth, task.loose[panel])
        at.put(place)
        row = row.with_place(task, place)
    return at


@dataclass(frozen=True)
class Row:
    """A row of panels, from a v on, filled as far as w `right`; the next one may begin at `end`."""

    start: float
    right: float = -np.inf
    end: float = -np.inf

    def with_place(self, task: Task, place: Place) -> "Row":
        """The row with a panel more."""
        right = task.first[place.entry] + place.column * task.step + task.loose[place.entry].roomy.reach[1]
        end = place.v + task.ends[place.entry] + task.cloth.spare_mm
        return Row(self.start, float(right), max(self.end, float(end)))


def _beside(task: Task, panel: int, row: Row) -> Place | None:
    """The place farthest to the left in a row that is as near to its start as any; None if there is none."""
    places = [place for entry in ways_round(task.other, panel) if (place := _in_row(task, entry, row))]
    return min(places, key=lambda place: place.v + task.starts[place.entry], default=None)


def _in_row(task: Task, entry: int, row: Row) -> Place | None:
    left = task.first[entry] + np.arange(task.columns) * task.step + task.loose[entry].roomy.reach[0]
    wanted = on_rungs(np.maximum(task.least[entry], row.start - task.starts[entry]), task.rungs[entry], True)
    v = np.where((wanted <= task.most[entry]) & (left >= row.right), wanted, np.inf)
    column = int(np.argmin(v))
    return Place(entry, column, float(v[column])) if np.isfinite(v[column]) else None
