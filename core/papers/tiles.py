"""A large sheet cut into tiles that a printer can print: the grid, what each tile carries, and tiles that share a page.

Every tile shows a window of the sheet; windows overlap, so that each tile is trimmed at its left and top and laid over
the margin of the tile before it. A tile with nothing of its own is left out, and small remainders share a page.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from shapely import bounds, clip_by_rect
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.papers.drawing import Box
from core.papers.page import Page

MARGIN_MM = 7.0
"""No printer that can do A4 needs more."""

LABEL_MM = 5.0
OVERLAP_MM = 10.0
APART_MM = 3.0
ROUND_MM = 1.0
"""So much round the outlines is shown as well, for lines have a width."""


@dataclass(frozen=True)
class Grid:
    """Windows of a page's printable size over a sheet; `start` is the left top corner of the first, mm."""

    page: Page
    start: tuple[float, float]

    @property
    def window(self) -> tuple[float, float]:
        """Width and height of a window, mm."""
        return self.page.width - 2 * MARGIN_MM, self.page.height - 2 * MARGIN_MM - LABEL_MM

    @property
    def step(self) -> tuple[float, float]:
        """From a window to the next one."""
        return self.window[0] - OVERLAP_MM, self.window[1] - OVERLAP_MM

    def box(self, row: int, column: int) -> Box:
        """A window on the sheet."""
        left, top = self.start[0] + column * self.step[0], self.start[1] + row * self.step[1]
        return Box(left, top, left + self.window[0], top + self.window[1])


@dataclass(frozen=True)
class Tile:
    """One tile: its place in the grid, and the part of its window that carries something, sheet mm."""

    row: int
    column: int
    box: Box

    @property
    def name(self) -> str:
        """Row as a letter and column as a number: B3."""
        return f"{row_name(self.row)}{self.column + 1}"


@dataclass(frozen=True)
class Put:
    """Something rectangular put on a page: which thing, and its left top corner, mm on the page."""

    index: int
    at: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Tiling:
    """Tiles of one sheet, and on which page each of them is printed."""

    grid: Grid
    tiles: tuple[Tile, ...]

    @cached_property
    def pages(self) -> tuple[tuple[Put, ...], ...]:
        """The tiles of every page, with their left top corners."""
        return packed([(tile.box.width, tile.box.height + LABEL_MM) for tile in self.tiles], self.grid.page)

    @cached_property
    def at(self) -> dict[tuple[int, int], Tile]:
        """Tiles by row and column."""
        return {(tile.row, tile.column): tile for tile in self.tiles}


def row_name(row: int) -> str:
    """A, B, … Z, AA, AB, …"""
    name = ""
    while row >= 0:
        row, letter = divmod(row, 26)
        name, row = chr(ord("A") + letter) + name, row - 1
    return name


def best_tiling(outlines: Sequence[Points], page: Page) -> Tiling:
    """The tiling of least pages: paper upright or on its side, the grid shifted by thirds of a step."""
    return min(_tilings(outlines, page), key=lambda tiling: (len(tiling.pages), len(tiling.tiles)))


def _tilings(outlines: Sequence[Points], page: Page) -> Iterator[Tiling]:
    shapes = np.array([_shown(outline) for outline in outlines], dtype=object)
    left, top, right, bottom = bounds(shapes).T
    corner, end = (float(left.min()), float(top.min())), (float(right.max()), float(bottom.max()))
    for lying in (page, page.landscape):
        step = Grid(lying, corner).step
        for x in (0.0, step[0] / 3, step[0] * 2 / 3):
            for y in (0.0, step[1] / 3, step[1] * 2 / 3):
                yield _tiling(shapes, Grid(lying, (corner[0] - x, corner[1] - y)), end)


def _shown(outline: Points) -> Polygon:
    return Polygon(outline).buffer(ROUND_MM, join_style="mitre").simplify(0.02)


def _tiling(shapes: NDArray[np.object_], grid: Grid, end: tuple[float, float]) -> Tiling:
    columns = int(np.ceil((end[0] - grid.start[0] - OVERLAP_MM) / grid.step[0]))
    rows = int(np.ceil((end[1] - grid.start[1] - OVERLAP_MM) / grid.step[1]))
    found = (_tile(shapes, grid, row, column) for row in range(max(rows, 1)) for column in range(max(columns, 1)))
    return Tiling(grid, tuple(tile for tile in found if tile))


def _tile(shapes: NDArray[np.object_], grid: Grid, row: int, column: int) -> Tile | None:
    """A tile, or None where what it would show is on the tiles before it as well."""
    window = grid.box(row, column)
    carried = _carried(shapes, window)
    if carried is None:
        return None
    on_the_left = column > 0 and carried.right <= window.left + OVERLAP_MM
    above = row > 0 and carried.bottom <= window.top + OVERLAP_MM
    return None if on_the_left or above else Tile(row, column, carried)


def _carried(shapes: NDArray[np.object_], box: Box) -> Box | None:
    """The box round what lies in a window, or None."""
    left, top, right, bottom = bounds(clip_by_rect(shapes, box.left, box.top, box.right, box.bottom)).T
    if np.isnan(left).all():
        return None
    return Box(float(np.nanmin(left)), float(np.nanmin(top)), float(np.nanmax(right)), float(np.nanmax(bottom)))


def packed(sizes: Sequence[tuple[float, float]], page: Page) -> tuple[tuple[Put, ...], ...]:
    """Rectangles put on as few pages as shelves allow, the tallest first; each must fit on a page by itself."""
    room = Box(MARGIN_MM, MARGIN_MM, page.width - MARGIN_MM, page.height - MARGIN_MM)
    pages: list[_Shelves] = []
    for index in sorted(range(len(sizes)), key=lambda index: (-round(sizes[index][1]), index)):
        if not any(shelves.take(index, sizes[index]) for shelves in pages):
            pages.append(_Shelves(room))
            if not pages[-1].take(index, sizes[index]):
                raise ValueError(f"{sizes[index]} mm is larger than the page")
    return tuple(tuple(shelves.puts) for shelves in sorted(pages, key=lambda one: min(put.index for put in one.puts)))


class _Shelves:
    """One page being filled, row by row."""

    def __init__(self, room: Box) -> None:
        self.room, self.puts, self._next = room, list[Put](), room.top
        self._shelves: list[tuple[float, float, float]] = []

    def take(self, index: int, size: tuple[float, float]) -> bool:
        """Put a rectangle on the page if there is room for it."""
        width, height = size
        for place, (top, tall, used) in enumerate(self._shelves):
            if height <= tall + 1e-6 and used + width <= self.room.right + 1e-6:
                self._put(index, used, top)
                self._shelves[place] = top, tall, used + width + APART_MM
                return True
        if self._next + height > self.room.bottom + 1e-6 or width > self.room.width + 1e-6:
            return False
        self._put(index, self.room.left, self._next)
        self._shelves.append((self._next, height, self.room.left + width + APART_MM))
        self._next += height + APART_MM
        return True

    def _put(self, index: int, left: float, top: float) -> None:
        self.puts.append(Put(index, (left, top)))
