"""A sheet as a grid of small cells that are covered or not: rough tiles of many grids in little time."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points
from core.papers.drawing import Point

CELL_MM = 2.0
Cells = NDArray[np.bool_]


@dataclass(frozen=True, eq=False)
class Coverage:
    """`cells[j, i]` says whether anything lies in the cell right of `corner` by i and below it by j cells."""

    cells: Cells
    corner: Point

    @classmethod
    def of(cls, rings: Sequence[Points], corner: Point, end: Point) -> "Coverage":
        """Closed rings, shape (n, 2), each taken as covering whatever lies between its sides at a level."""
        wide, high = (int((e - c) / CELL_MM) + 1 for c, e in zip(corner, end, strict=True))
        cells = np.zeros((high, wide), dtype=bool)
        for ring in rings:
            _fill(cells, (ring - corner) / CELL_MM)
        return cls(cells, corner)

    def tile_sizes(self, start: Point, window: Point, overlap: float) -> list[tuple[float, float]]:
        """Width and height of the part of every window that carries something of its own, mm, too large by a cell.

        The first window has its left top corner at `start`; each reaches over the next one by `overlap`.
        """
        sizes = []
        for top, bottom, own_top in self._spans(1, start, window, overlap):
            band = self.cells[top:bottom]
            across: Cells = np.asarray(band.any(axis=0))
            for left, right, own_left in self._spans(0, start, window, overlap):
                if across[own_left:right].any() and band[own_top - top :, left:right].any():
                    sizes.append((_length(across[left:right]), _length(np.asarray(band[:, left:right].any(axis=1)))))
        return [(min(wide, window[0]), min(high, window[1])) for wide, high in sizes]

    def _spans(self, axis: int, start: Point, window: Point, overlap: float) -> Iterator[tuple[int, int, int]]:
        """The cells of every column or row of windows: first, end, and the first that no window before it shows."""
        count, low = self.cells.shape[1 - axis], (start[axis] - self.corner[axis]) / CELL_MM
        wide, over = window[axis] / CELL_MM, overlap / CELL_MM
        first = True
        while low + over < count:
            own = low if first else low + over
            yield max(int(low), 0), max(int(np.ceil(low + wide)), 0), max(int(own), 0)
            low, first = low + wide - over, False


def _fill(cells: Cells, ring: Points) -> None:
    """Cover all cells between the first and the last that a ring meets at every level."""
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(ring, axis=0).T))])
    every = np.concatenate([np.arange(0.0, along[-1], 0.5), along])
    column, row = (np.interp(every, along, ring[:, axis]).astype(int) for axis in (0, 1))
    low, high = np.full(len(cells), cells.shape[1]), np.full(len(cells), -1)
    np.minimum.at(low, row, column)
    np.maximum.at(high, row, column)
    columns = np.arange(cells.shape[1])
    cells |= (columns >= low[:, None]) & (columns <= high[:, None])


def _length(covered: Cells) -> float:
    """From the first covered cell to the last, mm."""
    places = np.flatnonzero(covered)
    return float(places[-1] - places[0] + 1) * CELL_MM
