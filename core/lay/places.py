"""Every place that one panel could take among the others, and what it costs there."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.lay.shapes import Ints
from core.lay.task import SAME_MM, Task

_AT_ONCE = 128
"""Places tried together, nearest to the cut end first."""


@dataclass(eq=False)
class Arrangement:
    """Where the loose panels lie while the search goes on: column and v of each; shape (n,). Changed in place."""

    column: Ints
    v: Floats

    def copy(self) -> "Arrangement":
        """One that can be changed without changing this one."""
        return Arrangement(self.column.copy(), self.v.copy())

    def length(self, task: Task) -> float:
        """Largest v of any cut line, held panels included, mm."""
        return max(task.held_end, float((self.v + task.ends).max(initial=0.0)))


def barriers(task: Task, index: int, others: Ints, at: Arrangement) -> tuple[Floats, Floats]:
    """Ends of the intervals of v that the other panels, then what stays, forbid to a panel; (columns, r) each."""
    columns = task.columns
    place = np.arange(columns - 1, 2 * columns - 1)[:, None] - at.column[others]
    from_others = task.pairs[index][others, place] + at.v[others][:, None, None]
    every = np.concatenate([from_others.reshape(columns, -1, 2), task.still[index]], axis=1)
    return every[..., 0], every[..., 1]


@dataclass(frozen=True, eq=False)
class Choices:
    """The only places of a panel that need be tried: in each column the ends of intervals and the walls; (k,) each.

    `depth` (k, r) is how far along the cloth the panel would have to move to leave each interval, 0 outside it.
    """

    column: Ints
    v: Floats
    depth: Floats


def choices(low: Floats, high: Floats, least: Floats, most: Floats) -> Choices:
    """All places to try between the walls `least` and `most` (columns,) among barriers (columns, r)."""
    ends = np.concatenate([high, low, least[:, None], most[:, None]], axis=1)
    inside = (ends >= least[:, None]) & (ends <= most[:, None]) & np.isfinite(ends)
    column = np.nonzero(inside)[0]
    v = ends[inside]
    depth = np.minimum(v[:, None] - low[column], high[column] - v[:, None])
    depth[depth < SAME_MM] = 0.0
    return Choices(column, v, depth)


def lowest(task: Task, index: int, others: Ints, at: Arrangement) -> tuple[int, float] | None:
    """The column and v nearest to the cut end at which a panel overlaps nothing; None if there is none."""
    low, high = barriers(task, index, others, at)
    least, most = task.least[index][:, None], task.most[index][:, None]
    ends = np.concatenate([least, high], axis=1)
    inside = (ends >= least) & (ends <= most) & np.isfinite(ends)
    v, column = ends[inside], np.nonzero(inside)[0]
    order = np.argsort(v, kind="stable")
    for start in range(0, len(order), _AT_ONCE):
        tried = order[start : start + _AT_ONCE]
        here, c = v[tried], column[tried]
        blocked = (here[:, None] - low[c] > SAME_MM) & (high[c] - here[:, None] > SAME_MM)
        free = np.flatnonzero(~blocked.any(axis=1))
        if len(free):
            return int(c[free[0]]), float(here[free[0]])
    return None
