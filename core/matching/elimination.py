"""Exact minimum of a sum of small cost tables, by eliminating one variable after the other.

Minimise sum of tables over variables with finite domains. Round a ring, a chain or a tree of panels the tables that
arise stay small, so this is dynamic programming; the order is the greedy one of least cost.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import prod

import numpy as np
from numpy.typing import NDArray

from core.errors import Stopped
from core.progress import Progress, silent
from core.wording import tr

Table = NDArray[np.float32]
Scope = tuple[int, ...]


@dataclass(eq=False)
class Tables:
    """Cost tables by the variables they depend on, in ascending order; adding to a scope sums."""

    sizes: Sequence[int]
    tables: dict[Scope, Table] = field(default_factory=dict)

    def add(self, scope: Scope, table: Table) -> None:
        """Add a table; its axes are the variables of `scope`, in any order, without repeats."""
        order = np.argsort(scope)
        key, table = tuple(scope[i] for i in order), table.transpose(order)
        self.tables[key] = self.tables[key] + table if key in self.tables else table


def elimination_order(sizes: Sequence[int], scopes: Sequence[Scope], kept: Scope = ()) -> tuple[list[int], float]:
    """An order of all variables but those kept that keeps tables small, and the number of sums it takes."""
    neighbours: dict[int, set[int]] = {v: set() for v in range(len(sizes))}
    for scope in scopes:
        for v in scope:
            neighbours[v] |= set(scope) - {v}
    order, work = [], 0.0
    while waiting := [v for v in neighbours if v not in kept]:
        v = min(waiting, key=lambda v: (prod(sizes[u] for u in neighbours[v]), -sizes[v], v))
        work += prod(sizes[u] for u in neighbours[v]) * sizes[v]
        for u in neighbours[v]:
            neighbours[u] |= neighbours[v] - {u}
            neighbours[u].discard(v)
        del neighbours[v]
        order.append(v)
    return order, work


@dataclass(frozen=True, eq=False)
class _Step:
    """What backtracking needs: the tables in which an eliminated variable stood, with the variable's axis last."""

    variable: int
    others: Scope
    tables: tuple[tuple[Scope, Table], ...]

    def best(self, chosen: dict[int, int]) -> int:
        return int(np.argmin(sum(table[tuple(chosen[u] for u in scope)] for scope, table in self.tables)))


def minimise(tables: Tables, progress: Progress = silent, count: int = 1) -> list[tuple[float, list[int]]]:
    """The best states of all variables, and up to `count` - 1 others that differ in the variable eliminated last.

    Returns (cost, state index of every variable), ascending by cost. The others are the local minima over the last
    variable's states in their given order. Raises Stopped.
    """
    order, _ = elimination_order(tables.sizes, list(tables.tables))
    steps: list[_Step] = []
    left = dict(tables.tables)
    for done, v in enumerate(order[:-1]):
        if not progress(done / len(order), tr("searching all placements")):
            raise Stopped(tr("stopped before the search was through"))
        step, left = _eliminated(tables.sizes, v, left)
        steps.append(step)
    last = order[-1]
    costs = _sum_over(left, (last,), tables.sizes)
    constant = sum(float(table) for scope, table in left.items() if scope == ())
    return [(float(costs[s]) + constant, _traced(steps, last, s, len(tables.sizes))) for s in _minima(costs, count)]


@dataclass(frozen=True, eq=False)
class Reduced:
    """A sum of tables in which all variables but those kept were eliminated once, to be minimised again and again."""

    sizes: Sequence[int]
    kept: Scope
    _steps: list[_Step]
    _left: dict[Scope, Table]

    def best(self, more: dict[Scope, Table], count: int = 1) -> list[list[int]]:
        """The best states of all variables with more tables over kept variables added, in ascending order of scope.

        Up to `count` answers, the best one first, that differ in the first kept variable with more than one state.
        """
        total = np.zeros([self.sizes[v] for v in self.kept], dtype=np.float32)
        for tables in (self._left, more):
            for scope, table in tables.items():
                total = total + table.reshape([self.sizes[v] if v in scope else 1 for v in self.kept])
        axis = next((place for place, v in enumerate(self.kept) if self.sizes[v] > 1), 0)
        by_first = np.moveaxis(total, axis, 0).reshape(total.shape[axis], -1)
        return [self._states(total, axis, state) for state in _minima(by_first.min(axis=1), count)]

    def _states(self, total: Table, axis: int, state: int) -> list[int]:
        rest = np.unravel_index(int(np.argmin(total.take(state, axis=axis))), np.delete(total.shape, axis))
        places = [int(place) for place in np.insert(np.array(rest, dtype=np.intp), axis, state)]
        chosen = dict(zip(self.kept, places, strict=True))
        for step in reversed(self._steps):
            chosen[step.variable] = step.best(chosen)
        return [chosen[v] for v in range(len(self.sizes))]


def reduced(tables: Tables, kept: Scope) -> Reduced:
    """Eliminate all variables but those kept, which are given in ascending order."""
    order, _ = elimination_order(tables.sizes, list(tables.tables), kept)
    steps: list[_Step] = []
    left = dict(tables.tables)
    for v in order:
        step, left = _eliminated(tables.sizes, v, left)
        steps.append(step)
    return Reduced(tables.sizes, kept, steps, left)


def _minima(costs: Table, count: int) -> list[int]:
    order = np.argsort(costs, kind="stable")
    chosen: list[int] = []
    for state in order.tolist():
        if len(chosen) < count and all(abs(state - other) > 1 for other in chosen):
            chosen.append(state)
    return chosen


def _traced(steps: list[_Step], last: int, state: int, number: int) -> list[int]:
    chosen = {last: state}
    for step in reversed(steps):
        chosen[step.variable] = step.best(chosen)
    return [chosen[v] for v in range(number)]


def _sum_over(tables: dict[Scope, Table], scope: Scope, sizes: Sequence[int]) -> Table:
    total = np.zeros([sizes[v] for v in scope], dtype=np.float32)
    for key, table in tables.items():
        if key == scope:
            total = total + table
    return total


def _eliminated(sizes: Sequence[int], v: int, tables: dict[Scope, Table]) -> tuple[_Step, dict[Scope, Table]]:
    """Minimise over one variable: the step to trace back by, and the tables that remain."""
    touching = {scope: table for scope, table in tables.items() if v in scope}
    rest = Tables(sizes, {scope: table for scope, table in tables.items() if v not in scope})
    others = tuple(sorted({u for scope in touching for u in scope} - {v}))
    parts = tuple(
        (tuple(u for u in scope if u != v), np.moveaxis(table, scope.index(v), -1)) for scope, table in touching.items()
    )
    step = _Step(v, others, parts)
    rest.add(others, _least(sizes, v, others, parts))
    return step, rest.tables


def _least(sizes: Sequence[int], v: int, others: Scope, parts: tuple[tuple[Scope, Table], ...]) -> Table:
    """The minimum over v of the sum of tables, for all states of the others; one state of the first other at a time."""
    if not others:
        return np.asarray(np.min(sum(table for _, table in parts)), dtype=np.float32)
    first, rest = others[0], others[1:]
    fixed = np.zeros((*(sizes[u] for u in rest), sizes[v]), dtype=np.float32)
    for scope, table in parts:
        if first not in scope:
            fixed = fixed + _spread(table, scope, rest)
    result = np.empty([sizes[u] for u in others], dtype=np.float32)
    for state in range(sizes[first]):
        total = fixed
        for scope, table in parts:
            if first in scope:
                total = total + _spread(table[state], scope[1:], rest)
        result[state] = total.min(axis=-1)
    return result


def _spread(table: Table, scope: Scope, others: Scope) -> Table:
    """A table over `scope` and the eliminated variable, with axes of length 1 for the others that it lacks."""
    shape = [table.shape[scope.index(u)] if u in scope else 1 for u in others]
    return table.reshape(*shape, table.shape[-1])
