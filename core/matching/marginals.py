"""Min-marginals of a sum of cost tables: for every state of every variable the least sum that it can be part of.

Two passes over the elimination order: messages up to the variable eliminated last, then back down again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import prod

import numpy as np

from core.matching.elimination import Scope, Table, Tables, elimination_order

Factor = tuple[Scope, Table]

CHUNK = 1 << 18
"""Sums are taken in blocks of at most this many entries, which stay in the processor's cache."""


@dataclass(eq=False)
class _Bucket:
    """What is summed when a variable is eliminated: tables given, and the message up of each bucket below it."""

    variable: int
    given: list[Factor] = field(default_factory=list)
    below: list[tuple["_Bucket", Factor]] = field(default_factory=list)
    others: Scope = ()
    up: Factor = ((), np.zeros((), dtype=np.float32))
    down: Factor | None = None

    def factors(self, without: "_Bucket | None" = None) -> list[Factor]:
        """All that is summed here, the message of one bucket below left out, that from above taken in."""
        messages = [message for bucket, message in self.below if bucket is not without]
        return [*self.given, *messages, *([self.down] if self.down else [])]


def min_marginals(tables: Tables) -> list[Table]:
    """For each variable the least total over all states of the others, by its own states; shapes (sizes[v],).

    Variables that no table joins are taken together all the same, so that every entry is a total of all tables.
    """
    order, _ = elimination_order(tables.sizes, list(tables.tables))
    buckets = _collected(tables, order)
    for bucket in reversed(buckets):
        for below, message in bucket.below:
            table = least(bucket.factors(below), message[0], tables.sizes)
            below.down = (message[0], table)
    found = {bucket.variable: _marginal(bucket, buckets, tables.sizes) for bucket in buckets}
    return [found[v] for v in range(len(tables.sizes))]


def _collected(tables: Tables, order: list[int]) -> list[_Bucket]:
    """The buckets in order of elimination, each with its message handed to the bucket that takes it."""
    place = {v: i for i, v in enumerate(order)}
    buckets = [_Bucket(v) for v in order]
    for scope, table in tables.tables.items():
        buckets[min(place[v] for v in scope)].given.append((scope, np.ascontiguousarray(table)))
    for bucket in buckets[:-1]:
        factors = bucket.factors()
        bucket.others = tuple(sorted({u for scope, _ in factors for u in scope} - {bucket.variable}))
        bucket.up = (bucket.others, least(factors, bucket.others, tables.sizes, (bucket.variable,)))
        above = buckets[min((place[u] for u in bucket.others), default=len(buckets) - 1)]
        above.below.append((bucket, bucket.up))
    return buckets


def _marginal(bucket: _Bucket, buckets: list[_Bucket], sizes: Sequence[int]) -> Table:
    """The marginal of a bucket's variable, from the smallest message that has it, if there is one."""
    v = bucket.variable
    below = [b for b in buckets if v in b.others and b.down is not None]
    if below:
        smallest = min(below, key=lambda b: b.up[1].size)
        return least([smallest.up, smallest.down] if smallest.down else [], (v,), sizes)
    return least(bucket.factors(), (v,), sizes)


def least(factors: Sequence[Factor], keep: Scope, sizes: Sequence[int], also: Scope = ()) -> Table:
    """The minimum of the sum of factors over all their variables but those to keep; axes as in `keep`.

    Variables that stand in no factor may be kept (the result does not depend on them) or named in `also`.
    """
    scope = tuple(sorted({u for s, _ in factors for u in s} | set(keep) | set(also)))
    spread = [table.reshape([sizes[u] if u in s else 1 for u in scope]) for s, table in factors]
    dropped = tuple(i for i, u in enumerate(scope) if u not in keep)
    return _least_of(spread, tuple(sizes[u] for u in scope), dropped)


def _least_of(tables: list[Table], shape: tuple[int, ...], dropped: tuple[int, ...]) -> Table:
    """The minimum of a sum of broadcast tables over some axes, halved along the longest one until it fits the cache."""
    if prod(shape) <= CHUNK or max(shape) == 1:
        total = np.broadcast_to(_summed(tables), shape)
        for axis in reversed(dropped):
            total = total.min(axis=axis)
        return np.asarray(total)
    axis = int(np.argmax(shape))
    middle = shape[axis] // 2
    halves = []
    for part, length in ((slice(None, middle), middle), (slice(middle, None), shape[axis] - middle)):
        cut = (slice(None),) * axis + (part,)
        taken = [table[cut] if table.shape[axis] > 1 else table for table in tables]
        halves.append(_least_of(taken, (*shape[:axis], length, *shape[axis + 1 :]), dropped))
    if axis in dropped:
        return np.minimum(*halves)
    return np.concatenate(halves, axis=axis - sum(d < axis for d in dropped))


def _summed(tables: list[Table]) -> Table:
    """The sum of broadcast tables, the small ones first."""
    return np.asarray(sum(sorted(tables, key=lambda table: table.size), np.zeros((), dtype=np.float32)))
