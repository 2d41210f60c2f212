"""How far along one shape may not lie from another: exact intervals, without a no-fit polygon."""

import numpy as np

from core.geometry.polyline import Floats
from core.lay import engine
from core.lay.shapes import Ints, Shape

THIN_MM = 1e-7
"""Overlaps across the cloth narrower than this count as touching."""

_BATCH = 200_000
"""Slabs worked on at once."""


def forbidden(fixed: Shape, moving: Shape, across: Floats) -> tuple[Floats, Floats]:
    """Open intervals of v at which `moving`, shifted by `across` in w and v along, would overlap `fixed`.

    `across` has shape (c,). Returns lower and upper ends, each of shape (c, m), ascending, disjoint; places that are
    not needed hold inf and -inf. Two shapes over one slab overlap for the v between the least of (fixed low - moving
    high) and the largest of (fixed high - moving low), both straight over the slab, so their ends decide.
    """
    compiled = getattr(engine.loops(), "hulls", None)
    if compiled and fixed.low.shape[1] == moving.low.shape[1] == 1:
        ends = np.empty((2, len(across)))
        compiled(*fixed.lines, *moving.lines, np.ascontiguousarray(across), ends[0], ends[1])
        return ends[0][:, None], ends[1][:, None]
    return forbidden_by_slabs(fixed, moving, across)


def forbidden_by_slabs(fixed: Shape, moving: Shape, across: Floats) -> tuple[Floats, Floats]:
    """What `forbidden` gives, for shapes of any number of layers, with numpy alone."""
    rows = max(_BATCH // (len(fixed.cuts) + len(moving.cuts)), 1)
    parts = [_intervals(fixed, moving, across[i : i + rows]) for i in range(0, len(across), rows)]
    shifted = [row + number * rows for number, (_, _, row) in enumerate(parts)]
    low, high = (np.concatenate([part[which] for part in parts] or [np.empty(0)]) for which in (0, 1))
    return merged(low, high, np.concatenate(shifted or [np.empty(0, dtype=np.intp)]), len(across))


def blocked_at(fixed: Shape, moving: Shape, across: float) -> tuple[Floats, Floats]:
    """What `forbidden` gives for one shift, (m,) each, but the intervals may overlap and come in any order."""
    return _intervals(fixed, moving, np.array([across]))[:2]


def _intervals(fixed: Shape, moving: Shape, across: Floats) -> tuple[Floats, Floats, Ints]:
    """Forbidden intervals, not yet merged over all slabs: ends and which entry of `across` each belongs to."""
    shift = across[:, None]
    cuts = np.concatenate([np.broadcast_to(fixed.cuts, (len(across), len(fixed.cuts))), moving.cuts + shift], axis=1)
    cuts.sort(axis=1)
    left, right = cuts[:, :-1], cuts[:, 1:]
    slab_f, slab_m = _slab_at(fixed, (left + right) / 2), _slab_at(moving, (left + right) / 2 - shift)
    common = (right - left > THIN_MM) & (slab_f >= 0) & (slab_m >= 0)
    row = np.nonzero(common)[0]
    ends = np.stack([left[common], right[common]])
    low_f, high_f = _lines_at(fixed, slab_f[common], ends)
    low_m, high_m = _lines_at(moving, slab_m[common], ends - across[row])
    pairs = (len(row), fixed.low.shape[1] * moving.low.shape[1])
    low = np.minimum.reduce(low_f[..., :, None] - high_m[..., None, :]).reshape(pairs).T
    high = np.maximum.reduce(high_f[..., :, None] - low_m[..., None, :]).reshape(pairs).T
    there = np.isfinite(low)
    return _runs(low[there], high[there], np.broadcast_to(row, low.shape)[there])


def _slab_at(shape: Shape, across: Floats) -> Ints:
    """Which slab of a shape each w lies in; -1 outside."""
    slab = np.searchsorted(shape.cuts, across, side="right") - 1
    return np.where(slab < len(shape.cuts) - 1, slab, -1)


def _lines_at(shape: Shape, slab: Ints, across: Floats) -> tuple[Floats, Floats]:
    """Low and high lines at places in given slabs; (2, s) in, (2, s, layers) out."""
    run = (across - shape.cuts[slab])[..., None]
    return shape.low[slab] + shape.low_rate[slab] * run, shape.high[slab] + shape.high_rate[slab] * run


def _runs(low: Floats, high: Floats, row: Ints) -> tuple[Floats, Floats, Ints]:
    """Successive intervals of a row that overlap made one, as those of neighbouring slabs do."""
    if not len(row):
        return low, high, row
    apart = (row[1:] != row[:-1]) | (low[1:] > high[:-1]) | (high[1:] < low[:-1])
    start = np.flatnonzero(np.concatenate([[True], apart]))
    return np.minimum.reduceat(low, start), np.maximum.reduceat(high, start), row[start]


def merged(low: Floats, high: Floats, row: Ints, rows: int) -> tuple[Floats, Floats]:
    """Unions of the intervals of each row: flat lists in, (rows, m) out, ascending, padded with inf and -inf."""
    order = np.lexsort((low, row))
    low, high, row = low[order], high[order], row[order]
    lift = row * (np.ptp(np.concatenate([low, high])) + 1.0) if len(row) else 0.0
    reach = np.maximum.accumulate(high + lift)
    start = np.flatnonzero(np.concatenate([[True], (low + lift)[1:] > reach[:-1]])[: len(row)])
    number = np.arange(len(start)) - np.searchsorted(row[start], row[start])
    shape = (rows, int(number.max(initial=0)) + 1)
    out_low, out_high = np.full(shape, np.inf), np.full(shape, -np.inf)
    if len(start):
        out_low[row[start], number] = low[start]
        out_high[row[start], number] = np.maximum.reduceat(high, start)
    return out_low, out_high
