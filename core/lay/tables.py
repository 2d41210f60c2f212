"""Tables of forbidden positions: between any two entries of a task, and against what stays where it is."""

from collections.abc import Sequence

import numpy as np

from core.geometry.polyline import Floats
from core.lay.forbidden import forbidden, merged
from core.lay.shapes import Ints, Shape
from core.progress import Progress
from core.wording import tr

_ABSENT = np.array([np.inf, -np.inf])
_NOTHING = np.empty((0, 0, 2))


def pair_tables(shapes: Sequence[Shape], whose: Ints, first: Floats, shifts: Floats, progress: Progress) -> Floats:
    """Forbidden v_i - v_j for all entries i and j that are different panels; (n, n, shifts, m, 2).

    `first` (n,) is the w of each entry's first column, `shifts` the differences there are between columns, mm. Empty if
    `progress` stopped it.
    """
    known: dict[tuple[int, int, float], Floats] = {}
    count = len(shapes)
    rows: list[list[Floats]] = [[_NOTHING] * count for _ in shapes]
    for i in range(count):
        if not progress(0.0, tr("measuring panel {i} of {count} against the others", i=i + 1, count=count)):
            return np.empty((0, 0, len(shifts), 1, 2))
        for j in (j for j in range(i) if whose[i] != whose[j]):
            key = (id(shapes[i]), id(shapes[j]), round(float(first[i] - first[j]), 6))
            if key not in known:
                known[key] = _reaching(shapes[j], shapes[i], first[i] - first[j] + shifts)
            rows[i][j], rows[j][i] = known[key], -known[key][::-1, :, ::-1]
    return _table(rows, len(shifts))


def still_tables(rows: Sequence[Sequence[tuple[Shape, Shape]]], w: Floats) -> Floats:
    """Forbidden v of each entry at each w (n, columns), for a list of (what stays, its own shape) each.

    Returns shape (n, columns, m, 2).
    """
    parts = []
    for row, across in zip(rows, w, strict=True):
        tables = [_reaching(stays, shape, across) for stays, shape in row]
        every = np.concatenate(tables, axis=1) if tables else np.empty((len(across), 0, 2))
        there = np.isfinite(every[..., 0])
        low, high = every[there].T
        parts.append([np.stack(merged(low, high, np.nonzero(there)[0], len(across)), axis=-1)])
    return np.ascontiguousarray(_table(parts, w.shape[1])[:, 0]) if parts else np.empty((0, w.shape[1], 1, 2))


def _reaching(fixed: Shape, moving: Shape, across: Floats) -> Floats:
    """`forbidden`, worked out only for shifts at which the two shapes reach each other across; (c, m, 2)."""
    near = (moving.reach[0] + across < fixed.reach[1]) & (moving.reach[1] + across > fixed.reach[0])
    found = np.stack(forbidden(fixed, moving, across[near]), axis=-1)
    every = np.full((len(across), *found.shape[1:]), _ABSENT)
    every[near] = found
    return every


def _table(rows: Sequence[Sequence[Floats]], places: int) -> Floats:
    """Interval lists of shape (places, m, 2) with unlike m in one array; (rows, entries, places, m, 2)."""
    most = max((part.shape[1] for row in rows for part in row), default=0) or 1
    table = np.full((len(rows), len(rows[0]) if rows else 0, places, most, 2), _ABSENT)
    for i, row in enumerate(rows):
        for j, part in enumerate(row):
            table[i, j, : len(part), : part.shape[1]] = part
    return table
