"""A large sheet cut into tiles that a printer can print: the grid, what each tile carries, and tiles that share a page.

Every tile shows a window of the sheet; windows overlap, so that each tile is trimmed at its left and top and laid over
the margin of the tile before it. A tile with nothing of its own is left out, and small remainders share a page.
"""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray
from shapely import bounds, clip_by_rect
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.papers.coverage import Coverage
from core.papers.drawing import Box, Point
from core.papers.packing import MARGIN_MM, Pages, Size, packed, packed_within
from core.papers.page import Page

LABEL_MM = 5.0
OVERLAP_MM = 10.0
ROUND_MM = 1.0
"""So much round the outlines is shown as well, for lines have a width."""

SHIFTS = 6
"""The grid is tried at so many places along each side of a tile."""

MOST_PACKED = 1800
"""So many rough tiles are put on pages in all, whichever grids they belong to."""

MOST_TILED = 3
Shapes = NDArray[np.object_]


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


@dataclass(frozen=True, eq=False)
class Tiling:
    """Tiles of one sheet, and on which page each of them is printed."""

    grid: Grid
    tiles: tuple[Tile, ...]

    @cached_property
    def pages(self) -> Pages:
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


def best_tiling(sheets: Sequence[Sequence[Points]], page: Page) -> tuple[int, Tiling]:
    """Which of several sheets of outlines takes the fewest pages, and its tiling.

    The paper may lie either way, and the grid may be shifted by any sixth of a step; all such grids are looked at
    roughly, and those that seem to need the fewest pages are tiled in truth.
    """
    shapes = [np.array([_shown(outline) for outline in outlines], dtype=object) for outlines in sheets]
    found: tuple[int, Tiling] | None = None
    for number, grid in _promising(shapes, page):
        tiling = _tiling(shapes[number], grid, _frame(shapes[number])[1])
        if found is None or _pages_and_tiles(tiling) < _pages_and_tiles(found[1]):
            found = number, tiling
    assert found is not None
    return found


def _pages_and_tiles(tiling: Tiling) -> tuple[int, int]:
    return len(tiling.pages), len(tiling.tiles)


def _promising(sheets: Sequence[Shapes], page: Page) -> list[tuple[int, Grid]]:
    """Sheets and grids that seem to need the fewest pages, from rough tiles and pages that hold them."""
    room = (page.width - 2 * MARGIN_MM) * (page.height - 2 * MARGIN_MM)
    rough = [(sum(w * h for w, h in sizes) / room, sizes, number, grid) for number, grid, sizes in _rough(sheets, page)]
    tried, left = list[tuple[int, int, Grid]](), MOST_PACKED
    for share, sizes, number, grid in sorted(rough, key=lambda one: one[0]):
        if not tried or (left > 0 and math.ceil(share) < tried[0][0]):
            worth = tried[-1][0] - 1 if len(tried) == MOST_TILED else len(sizes)
            pages = packed_within(sizes, page, worth)
            tried += [(len(pages), number, grid)] if pages is not None else []
            tried = sorted(tried, key=lambda one: one[0])[:MOST_TILED]
            left -= len(sizes)
    return [(number, grid) for _, number, grid in tried]


def _rough(sheets: Sequence[Shapes], page: Page) -> Iterator[tuple[int, Grid, list[Size]]]:
    """Every grid over every sheet, and the sizes of its tiles with their labels to some mm."""
    shifts = np.arange(SHIFTS) / SHIFTS
    for number, shapes in enumerate(sheets):
        corner, end = _frame(shapes)
        coverage = Coverage.of([np.array(shape.exterior.coords) for shape in shapes], corner, end)
        for lying in (page, page.landscape):
            across, down = Grid(lying, corner).step
            for x, y in itertools.product((shifts * across).tolist(), (shifts * down).tolist()):
                grid = Grid(lying, (corner[0] - x, corner[1] - y))
                sizes = coverage.tile_sizes(grid.start, grid.window, OVERLAP_MM)
                yield number, grid, [(wide, high + LABEL_MM) for wide, high in sizes]


def _frame(shapes: Shapes) -> tuple[Point, Point]:
    """The left top and the right bottom corner of all shapes."""
    left, top, right, bottom = bounds(shapes).T
    return (float(left.min()), float(top.min())), (float(right.max()), float(bottom.max()))


def _shown(outline: Points) -> Polygon:
    return Polygon(outline).buffer(ROUND_MM, join_style="mitre").simplify(0.02)


def _tiling(shapes: Shapes, grid: Grid, end: tuple[float, float]) -> Tiling:
    columns = int(np.ceil((end[0] - grid.start[0] - OVERLAP_MM) / grid.step[0]))
    rows = int(np.ceil((end[1] - grid.start[1] - OVERLAP_MM) / grid.step[1]))
    found = (_tile(shapes, grid, row, column) for row in range(max(rows, 1)) for column in range(max(columns, 1)))
    return Tiling(grid, tuple(tile for tile in found if tile))


def _tile(shapes: Shapes, grid: Grid, row: int, column: int) -> Tile | None:
    """A tile, or None where what it would show is on the tiles before it as well."""
    window = grid.box(row, column)
    carried = _carried(shapes, window)
    if carried is None:
        return None
    on_the_left = column > 0 and carried.right <= window.left + OVERLAP_MM
    above = row > 0 and carried.bottom <= window.top + OVERLAP_MM
    return None if on_the_left or above else Tile(row, column, carried)


def _carried(shapes: Shapes, box: Box) -> Box | None:
    """The box round what lies in a window, or None."""
    left, top, right, bottom = bounds(clip_by_rect(shapes, box.left, box.top, box.right, box.bottom)).T
    if np.isnan(left).all():
        return None
    return Box(float(np.nanmin(left)), float(np.nanmin(top)), float(np.nanmax(right)), float(np.nanmax(bottom)))
