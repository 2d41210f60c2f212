"""The inner loops of the search, compiled: what `core.lay.plainly` does with numpy alone, many times faster.

Compilation is kept on disk beside this file, or in the user's cache where that place can't be written to.
"""

import numpy as np
from numba import njit

from core.geometry.polyline import Floats
from core.lay.shapes import Ints

_SAME = 1e-7


@njit(cache=True, error_model="numpy")
def _gather(
    pairs: Floats, still: Floats, column: Ints, v: Floats, i: int, c: int, low: Floats, high: Floats, owner: Ints
) -> int:
    """Fill in the intervals that are forbidden to panel i in column c, and whose they are; returns how many."""
    count, panels = 0, pairs.shape[0]
    for j in range(panels):
        if j == i or column[j] < 0:
            continue
        place = c - column[j] + (pairs.shape[2] - 1) // 2
        for t in range(pairs.shape[3]):
            if pairs[i, j, place, t, 0] == np.inf:
                break
            low[count] = pairs[i, j, place, t, 0] + v[j]
            high[count] = pairs[i, j, place, t, 1] + v[j]
            owner[count] = j
            count += 1
    for t in range(still.shape[2]):
        if still[i, c, t, 0] == np.inf:
            break
        low[count], high[count], owner[count] = still[i, c, t, 0], still[i, c, t, 1], panels
        count += 1
    return count


@njit(cache=True, error_model="numpy")
def _cost(v: float, low: Floats, high: Floats, weight: Floats, count: int, most: float) -> float:
    """Weighted depths at v, added up until they exceed `most`."""
    total = 0.0
    for k in range(count):
        below, above = v - low[k], high[k] - v
        depth = below if below < above else above
        if depth > _SAME:
            total += depth * weight[k]
            if total >= most:
                return float(total)
    return total


@njit(cache=True, error_model="numpy")
def _random(state: Ints, below: int) -> int:
    """A whole number from 0 to below `below`; `state` (1,) goes on (a linear congruence modulo 2^31 - 1)."""
    state[0] = state[0] * 48271 % 2147483647
    return int(state[0] % below)


@njit(cache=True, error_model="numpy")
def _move(
    pairs: Floats, still: Floats, least: Floats, most: Floats, column: Ints, v: Floats, weights: Floats, i: int,
    state: Ints, low: Floats, high: Floats, owner: Ints, weight: Floats,
) -> None:  # fmt: skip
    """Bring panel i where it overlaps least: ends of intervals in all columns, from a random one on."""
    columns = least.shape[1]
    best, best_c, best_v = np.inf, column[i], v[i]
    start = _random(state, columns)
    for step in range(-1, columns):
        c = column[i] if step < 0 else (start + step) % columns
        if least[i, c] > most[i, c] or (step >= 0 and c == column[i]):
            continue
        count = _gather(pairs, still, column, v, i, c, low, high, owner)
        for k in range(count):
            weight[k] = weights[i, owner[k]]
        for k in range(-1, 2 * count):
            if k < 0:
                place = least[i, c]
            else:
                place = high[k // 2] if k % 2 == 0 else low[k // 2]
            if place < least[i, c] or place > most[i, c]:
                continue
            cost = _cost(place, low, high, weight, count, best)
            if cost < best:
                best, best_c, best_v = cost, c, place
        cost = _cost(most[i, c], low, high, weight, count, best)
        if cost < best:
            best, best_c, best_v = cost, c, most[i, c]
        if best == 0.0:
            break
    column[i], v[i] = best_c, best_v


@njit(cache=True, error_model="numpy")
def _depths(
    pairs: Floats, still: Floats, column: Ints, v: Floats, depth: Floats, low: Floats, high: Floats, owner: Ints
) -> float:
    """How deep each panel lies in every other one and in what stays, mm; depth (n, n + 1); returns the sum."""
    total = 0.0
    for i in range(len(v)):
        for j in range(len(v) + 1):
            depth[i, j] = 0.0
        for k in range(_gather(pairs, still, column, v, i, column[i], low, high, owner)):
            below, above = v[i] - low[k], high[k] - v[i]
            here = below if below < above else above
            if here > _SAME and here > depth[i, owner[k]]:
                total += here - depth[i, owner[k]]
                depth[i, owner[k]] = here
    return total


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
    pairs: Floats, still: Floats, least: Floats, most: Floats, column: Ints, v: Floats, weights: Floats,
    state: Ints, best_column: Ints, best_v: Floats, record: Floats, patience: int, moves: int,
) -> int:  # fmt: skip
    """Work overlaps out, sweep after sweep, for about so many moves; returns how many were made.

    `record` (2,) holds the least overlap met, mm, at which `best_column` and `best_v` were kept, and the sweeps since;
    it comes to 0.0 if nothing overlaps any more. `patience` sweeps without a better one end it.
    """
    panels = len(v)
    size = panels * pairs.shape[3] + still.shape[2]
    low, high, weight = np.empty(size), np.empty(size), np.empty(size)
    owner, order = np.empty(size, dtype=np.int64), np.empty(panels, dtype=np.int64)
    depth = np.empty((panels, panels + 1))
    made = 0
    while made < moves and record[1] <= patience:
        total = _depths(pairs, still, column, v, depth, low, high, owner)
        record[1] += 1
        if total == 0.0 or total < 0.98 * record[0]:
            record[0], record[1] = total, 0.0
            for i in range(panels):
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
            _move(pairs, still, least, most, column, v, weights, order[k], state, low, high, owner, weight)
            made += 1
    return made


@njit(cache=True, error_model="numpy")
def lowest(
    pairs: Floats, still: Floats, least: Floats, most: Floats, column: Ints, v: Floats, i: int, below: float
) -> tuple[int, float]:
    """The column and v nearest to the cut end, before `below`, at which panel i overlaps nothing; column -1 if none.

    Panels in column -1 are not there yet.
    """
    size = len(v) * pairs.shape[3] + still.shape[2]
    low, high, weight = np.empty(size), np.empty(size), np.empty(size)
    owner = np.empty(size, dtype=np.int64)
    for k in range(size):
        weight[k] = 1.0
    best_c, best = -1, below
    for c in range(least.shape[1]):
        if not least[i, c] < best:
            continue
        count = _gather(pairs, still, column, v, i, c, low, high, owner)
        for k in range(-1, count):
            place = least[i, c] if k < 0 else high[k]
            inside = least[i, c] <= place < best and place <= most[i, c]
            if inside and _cost(place, low, high, weight, count, _SAME) == 0.0:
                best_c, best = c, place
    return best_c, best
