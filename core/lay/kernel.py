"""The inner loops of the search, compiled: what `core.lay.plainly` does with numpy alone, many times faster.

Compilation is kept on disk beside this file, or in the user's cache where that place can't be written to.
"""

import numpy as np
from numba import njit

from core.geometry.polyline import Floats
from core.lay.rungs import SAME_SHARE, STEPS
from core.lay.shapes import Ints

_SAME = 1e-7


@njit(cache=True, error_model="numpy")
def _gather(
    pairs: Floats, still: Floats, whose: Ints, column: Ints, v: Floats, i: int, weights: Floats,
    low: Floats, high: Floats, weight: Floats, counts: Ints,
) -> None:  # fmt: skip
    """The intervals forbidden to entry i and how much each weighs, for all columns at once, which takes far less time
    than column by column; `counts` (columns,) says how many there are in a row of low, high and weight."""
    counts[:] = 0
    for j in range(len(v)):
        if column[j] < 0 or whose[j] == whose[i]:
            continue
        first, at, worth = (pairs.shape[2] - 1) // 2 - column[j], v[j], weights[whose[j]]
        for c in range(len(counts)):
            for t in range(pairs.shape[3]):
                start = pairs[i, j, first + c, t, 0]
                if start == np.inf:
                    break
                k = counts[c]
                low[c, k], high[c, k], weight[c, k] = start + at, pairs[i, j, first + c, t, 1] + at, worth
                counts[c] = k + 1
    for c in range(len(counts)):
        for t in range(still.shape[2]):
            if still[i, c, t, 0] == np.inf:
                break
            k = counts[c]
            low[c, k], high[c, k], weight[c, k] = still[i, c, t, 0], still[i, c, t, 1], weights[-1]
            counts[c] = k + 1


@njit(cache=True, error_model="numpy")
def _room(columns: int, size: int) -> tuple[Floats, Floats, Floats, Ints]:
    """Room for what `_gather` fills in."""
    low, high, weight = np.empty((columns, size)), np.empty((columns, size)), np.empty((columns, size))
    return low, high, weight, np.empty(columns, dtype=np.int64)


@njit(cache=True, error_model="numpy")
def _cost(v: float, low: Floats, high: Floats, weight: Floats, count: int, most: float) -> float:
    """Weighted depths at v, added up until they reach `most`."""
    total = 0.0
    for k in range(count):
        depth = min(v - low[k], high[k] - v)
        total += (depth if depth > _SAME else 0.0) * weight[k]
        if total >= most:
            return float(total)
    return total


@njit(cache=True, error_model="numpy")
def _on_rung(v: float, rungs: Floats, i: int, c: int, up: bool) -> float:
    """`core.lay.rungs.on_rungs` for one place of an entry in a column."""
    if rungs.shape[2] == 0 or not np.isfinite(v) or rungs[i, c, 1] == 0.0:
        return v
    a, b, q = rungs[i, c, 0], rungs[i, c, 1], rungs[i, c, 2]
    f = a + b * v + q * v * v
    wanted = np.ceil(f - SAME_SHARE) if up else np.floor(f + SAME_SHARE)
    for _ in range(STEPS):
        v += (wanted - a - b * v - q * v * v) / (b + 2 * q * v)
    return v


@njit(cache=True, error_model="numpy")
def _random(state: Ints, below: int) -> int:
    """A whole number from 0 to below `below`; `state` (1,) goes on (a linear congruence modulo 2^31 - 1)."""
    state[0] = state[0] * 48271 % 2147483647
    return int(state[0] % below)


@njit(cache=True, error_model="numpy")
def _move(
    pairs: Floats, still: Floats, whose: Ints, other: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints,
    v: Floats, weights: Floats, i: int, state: Ints, low: Floats, high: Floats, weight: Floats, counts: Ints,
) -> None:  # fmt: skip
    """Bring the panel of entry i, any way it may lie, where it overlaps least: ends of intervals in all columns, from a
    random one on."""
    columns, here = least.shape[1], column[i]
    best, best_i, best_c, best_v = np.inf, i, column[i], v[i]
    start, e = _random(state, columns), i
    while True:
        _gather(pairs, still, whose, column, v, e, weights[whose[i]], low, high, weight, counts)
        for step in range(-1 if e == i else 0, columns):
            c = here if step < 0 else (start + step) % columns
            if least[e, c] > most[e, c] or (step >= 0 and e == i and c == here):
                continue
            count, starts, ends, worth = counts[c], low[c], high[c], weight[c]
            for k in range(-2, 2 * count):
                if k < 0:
                    place = least[e, c] if k == -2 else most[e, c]
                else:
                    place = _on_rung(ends[k // 2] if k % 2 == 0 else starts[k // 2], rungs, e, c, k % 2 == 0)
                if place < least[e, c] or place > most[e, c]:
                    continue
                cost = _cost(place, starts, ends, worth, count, best)
                if cost < best:
                    best, best_i, best_c, best_v = cost, e, c, place
            if best == 0.0:
                break
        e = other[e]
        if best == 0.0 or e == i:
            break
    column[i] = -1
    column[best_i], v[best_i] = best_c, best_v


@njit(cache=True, error_model="numpy")
def _depths(pairs: Floats, still: Floats, whose: Ints, column: Ints, v: Floats, depth: Floats) -> float:
    """How deep each panel lies in every other one and in what stays, mm; depth (n, n + 1); returns the sum."""
    middle = (pairs.shape[2] - 1) // 2
    depth[:] = 0.0
    for i in range(len(v)):
        if column[i] < 0:
            continue
        for j in range(len(v)):
            if column[j] < 0 or whose[j] == whose[i]:
                continue
            for t in range(pairs.shape[3]):
                place = column[i] - column[j] + middle
                if pairs[i, j, place, t, 0] == np.inf:
                    break
                here = min(v[i] - v[j] - pairs[i, j, place, t, 0], pairs[i, j, place, t, 1] + v[j] - v[i])
                if here > _SAME and here > depth[whose[i], whose[j]]:
                    depth[whose[i], whose[j]] = here
        for t in range(still.shape[2]):
            if still[i, column[i], t, 0] == np.inf:
                break
            here = min(v[i] - still[i, column[i], t, 0], still[i, column[i], t, 1] - v[i])
            if here > _SAME and here > depth[whose[i], -1]:
                depth[whose[i], -1] = here
    return float(depth.sum())


@njit(cache=True, error_model="numpy")
def _raise_weights(weights: Floats, depth: Floats) -> None:
    """Overlaps that are there weigh more from now on, the deepest most; others less."""
    deepest = 0.0
    for i in range(weights.shape[0]):
        for j in range(weights.shape[1]):
            if depth[i, j] > deepest:
                deepest = depth[i, j]
    for i in range(weights.shape[0]):
        for j in range(weights.shape[1]):
            growth = 1.2 + 0.8 * depth[i, j] / deepest if depth[i, j] > 0.0 else 0.95
            weights[i, j] *= growth
            if weights[i, j] < 1.0:
                weights[i, j] = 1.0


@njit(cache=True, error_model="numpy")
def sweep(
    pairs: Floats, still: Floats, whose: Ints, other: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints,
    v: Floats, weights: Floats, state: Ints, best_column: Ints, best_v: Floats, record: Floats, patience: int,
    moves: int,
) -> int:  # fmt: skip
    """Work overlaps out, sweep after sweep, for about so many moves; returns how many were made.

    `record` (2,) holds the least overlap met, mm, at which `best_column` and `best_v` were kept, and the sweeps since;
    it comes to 0.0 if nothing overlaps any more. `patience` sweeps without a better one end it.
    """
    panels = weights.shape[0]
    low, high, weight, counts = _room(least.shape[1], len(v) * pairs.shape[3] + still.shape[2])
    order, depth = np.empty(panels, dtype=np.int64), np.empty((panels, panels + 1))
    made = 0
    while made < moves and record[1] <= patience:
        total = _depths(pairs, still, whose, column, v, depth)
        record[1] += 1
        if total == 0.0 or total < 0.98 * record[0]:
            record[0], record[1] = total, 0.0
            for i in range(len(v)):
                best_column[i], best_v[i] = column[i], v[i]
        if total == 0.0:
            break
        _raise_weights(weights, depth)
        count = 0
        for i in range(panels):
            for j in range(panels + 1):
                if depth[i, j] > 0.0:
                    order[count] = i
                    count += 1
                    break
        for k in range(count - 1, -1, -1):
            pick = _random(state, k + 1)
            order[k], order[pick] = order[pick], order[k]
            i = order[k]
            while column[i] < 0:
                i = other[i]
            _move(
                pairs,
                still,
                whose,
                other,
                least,
                most,
                rungs,
                column,
                v,
                weights,
                i,
                state,
                low,
                high,
                weight,
                counts,
            )
            made += 1
    return made


@njit(cache=True, error_model="numpy")
def lowest(
    pairs: Floats, still: Floats, whose: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints, v: Floats,
    i: int, below: float,
) -> tuple[int, float]:  # fmt: skip
    """The column and v nearest to the cut end, before `below`, at which entry i overlaps nothing; column -1 if none.

    Entries in column -1 are not there.
    """
    low, high, weight, counts = _room(least.shape[1], len(v) * pairs.shape[3] + still.shape[2])
    _gather(pairs, still, whose, column, v, i, np.ones(len(v) + 1), low, high, weight, counts)
    best_c, best = -1, below
    for c in range(least.shape[1]):
        if not least[i, c] < best:
            continue
        for k in range(-1, counts[c]):
            place = least[i, c] if k < 0 else _on_rung(high[c, k], rungs, i, c, True)
            inside = least[i, c] <= place < best and place <= most[i, c]
            if inside and _cost(place, low[c], high[c], weight[c], counts[c], _SAME) == 0.0:
                best_c, best = c, place
    return best_c, best


@njit(cache=True, error_model="numpy")
def hulls(
    cuts_a: Floats, low_a: Floats, high_a: Floats, low_rate_a: Floats, high_rate_a: Floats,
    cuts_b: Floats, low_b: Floats, high_b: Floats, low_rate_b: Floats, high_rate_b: Floats,
    across: Floats, low: Floats, high: Floats,
) -> None:  # fmt: skip
    """Forbidden v of b against a, both of one layer and in one piece across, for every shift; fills low and high (c,).

    Over neighbouring slabs such shapes' forbidden intervals touch, so that all of them together are one.
    """
    for s in range(len(across)):
        shift = across[s]
        low[s], high[s] = np.inf, -np.inf
        i, j = 0, 0
        while i < len(cuts_a) - 1 and j < len(cuts_b) - 1:
            left = max(cuts_a[i], cuts_b[j] + shift)
            right = min(cuts_a[i + 1], cuts_b[j + 1] + shift)
            if right - left > _SAME:
                for x in (left, right):
                    run_a, run_b = x - cuts_a[i], x - shift - cuts_b[j]
                    bottom = low_a[i] + low_rate_a[i] * run_a - high_b[j] - high_rate_b[j] * run_b
                    top = high_a[i] + high_rate_a[i] * run_a - low_b[j] - low_rate_b[j] * run_b
                    if bottom < low[s]:
                        low[s] = bottom
                    if top > high[s]:
                        high[s] = top
            if cuts_a[i + 1] < cuts_b[j + 1] + shift:
                i += 1
            else:
                j += 1
