"""The inner loops of the search with numpy alone, for where `core.lay.kernel` can't be had.

Both have `sweep` and `lowest` with the same arguments. Their lays may differ; whether a lay is legal never does.
"""

import numpy as np

from core.geometry.polyline import Floats
from core.lay.rungs import on_rungs
from core.lay.shapes import Ints
from core.lay.ways import ways_round

_SAME = 1e-7
_AT_ONCE = 128


def sweep(
    pairs: Floats, still: Floats, whose: Ints, other: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints,
    v: Floats, weights: Floats, state: Ints, best_column: Ints, best_v: Floats, record: Floats, patience: int,
    moves: int,
) -> int:  # fmt: skip
    """Work overlaps out, sweep after sweep, for about so many moves; returns how many were made.

    See `core.lay.search.Separation` for the arrays, which are changed in place.
    """
    made = 0
    while made < moves and record[1] <= patience:
        depth = _depths(pairs, still, whose, column, v)
        record[1] += 1
        if not depth.any() or depth.sum() < 0.98 * record[0]:
            record[:] = depth.sum(), 0.0
            best_column[:], best_v[:] = column, v
        if not depth.any():
            break
        growth = np.where(depth > 0, 1.2 + 0.8 * depth / depth.max(), 0.95)
        weights[:] = np.maximum(weights * growth, 1.0)
        for index in np.random.default_rng(state).permutation(np.flatnonzero(depth.any(axis=1))):
            entry = next(e for e in ways_round(other, int(index)) if column[e] >= 0)
            _move(pairs, still, whose, other, least, most, rungs, column, v, weights, entry)
            made += 1
        state += 1
    return made


def lowest(
    pairs: Floats, still: Floats, whose: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints, v: Floats,
    i: int, below: float,
) -> tuple[int, float]:  # fmt: skip
    """The column and v nearest to the cut end, before `below`, at which entry i overlaps nothing; column -1 if none.

    Entries in column -1 are not there.
    """
    low, high, _ = _barriers(pairs, still, whose, column, v, i)
    ends = np.concatenate([least[i][:, None], on_rungs(high, rungs[i][:, None], True)], axis=1)
    inside = (ends >= least[i][:, None]) & (ends <= most[i][:, None]) & (ends < below) & np.isfinite(ends)
    places, columns = ends[inside], np.nonzero(inside)[0]
    order = np.argsort(places, kind="stable")
    for start in range(0, len(order), _AT_ONCE):
        tried = order[start : start + _AT_ONCE]
        here, c = places[tried], columns[tried]
        blocked = (here[:, None] - low[c] > _SAME) & (high[c] - here[:, None] > _SAME)
        free = np.flatnonzero(~blocked.any(axis=1))
        if len(free):
            return int(c[free[0]]), float(here[free[0]])
    return -1, below


def _barriers(
    pairs: Floats, still: Floats, whose: Ints, column: Ints, v: Floats, i: int
) -> tuple[Floats, Floats, Ints]:
    """Ends of the intervals of v that the other panels, then what stays, forbid to an entry, (columns, r) each; whose
    each is, (r,)."""
    columns, panels = still.shape[1], int(whose.max()) + 1
    others = np.flatnonzero((column >= 0) & (whose != whose[i]))
    place = np.arange(columns)[:, None] - column[others] + (pairs.shape[2] - 1) // 2
    from_others = pairs[i][others, place] + v[others][:, None, None]
    every = np.concatenate([from_others.reshape(columns, -1, 2), still[i]], axis=1)
    owner = np.concatenate([np.repeat(whose[others], pairs.shape[3]), np.full(still.shape[2], panels)])
    return every[..., 0], every[..., 1], owner


def _move(
    pairs: Floats, still: Floats, whose: Ints, other: Ints, least: Floats, most: Floats, rungs: Floats, column: Ints,
    v: Floats, weights: Floats, i: int,
) -> None:  # fmt: skip
    """Bring a panel, any way it may lie, where it overlaps least: ends of intervals and walls in every column are
    tried."""
    found = []
    for e in ways_round(other, i):
        low, high, owner = _barriers(pairs, still, whose, column, v, e)
        there = rungs[e][:, None]
        beyond, before = on_rungs(high, there, True), on_rungs(low, there, False)
        ends = np.concatenate([beyond, before, least[e][:, None], most[e][:, None]], axis=1)
        inside = (ends >= least[e][:, None]) & (ends <= most[e][:, None]) & np.isfinite(ends)
        if not inside.any():
            continue
        c, places = np.nonzero(inside)[0], ends[inside]
        depth = np.minimum(places[:, None] - low[c], high[c] - places[:, None])
        depth[depth < _SAME] = 0.0
        cost = depth @ weights[whose[i]][owner]
        best = int(np.argmin(cost))
        found.append((float(cost[best]), e, int(c[best]), float(places[best])))
    column[i] = -1
    _, e, column_e, v[e] = min(found)
    column[e] = column_e


def _depths(pairs: Floats, still: Floats, whose: Ints, column: Ints, v: Floats) -> Floats:
    """How deep each panel lies in every other one and, last, in what stays, mm along the cloth; (n, n + 1)."""
    panels = int(whose.max()) + 1
    there = np.flatnonzero(column >= 0)
    there = there[np.argsort(whose[there])]
    c, at = column[there], v[there]
    apart = c[:, None] - c + (pairs.shape[2] - 1) // 2
    others = _depth(at[:, None] - at, pairs[there[:, None], there, apart])
    others[np.arange(panels), np.arange(panels)] = 0.0
    depth = np.concatenate([others, _depth(at, still[there, c])[:, None]], axis=1)
    return np.where(depth > _SAME, depth, 0.0)


def _depth(v: Floats, intervals: Floats) -> Floats:
    return np.asarray(np.minimum(v[..., None] - intervals[..., 0], intervals[..., 1] - v[..., None]).max(axis=-1))
