"""Sheets of the full-size pattern: pieces laid close together, drawn as one, for tiles or for a roll."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.papers.choices import ROLL_MM
from core.papers.drawing import Drawing, Text, joined
from core.papers.nesting import Lying, Nest, Nester
from core.papers.page import Page
from core.papers.pattern import PatternPiece
from core.papers.tiles import Tiling, best_tiling

MOST_PIECES = 12
"""A sheet of more pieces is too large to be joined; the rest go on further sheets."""

MOST_STARTS = 12
"""So many ways of beginning a sheet are tried in all."""

CANDIDATES = 2
TALLER_MM = 12.0
"""A sheet is so much taller than its tallest piece, for pieces that are tilted."""

CLEAR_MM = 1.5
ROLL_MARGIN_MM = 12.0


@dataclass(frozen=True, eq=False)
class PatternSheet:
    """Pieces laid close together on one sheet."""

    pieces: tuple[PatternPiece, ...]
    nest: Nest

    @cached_property
    def lines(self) -> Drawing:
        """Stripes, lines and marks of all pieces as they lie, sheet mm."""
        return joined(self.pieces[one.index].lines_drawing.moved(one.turn_deg, one.by) for one in self.nest.lying)

    @cached_property
    def drawing(self) -> Drawing:
        """All of it, with the lettering."""
        return self.lines + joined(
            self.pieces[one.index].lettering.moved(one.turn_deg, one.by) for one in self.nest.lying
        )

    @cached_property
    def insides(self) -> tuple[tuple[PatternPiece, BaseGeometry], ...]:
        """Every piece with the room within its outermost line as it lies, clear of the line."""
        return tuple((piece, Polygon(outline).buffer(-CLEAR_MM)) for piece, outline in self.outlines)

    @cached_property
    def edge_names(self) -> tuple[Text, ...]:
        """The names of the edges of all pieces as they lie."""
        moved = (self.pieces[one.index].edge_names.moved(one.turn_deg, one.by) for one in self.nest.lying)
        return tuple(part for drawing in moved for part in drawing.parts if isinstance(part, Text))

    @cached_property
    def outlines(self) -> tuple[tuple[PatternPiece, Points], ...]:
        """Every piece with its outermost line as it lies; shape (n, 2)."""
        return tuple((self.pieces[one.index], one.placed(self.pieces[one.index].outline)) for one in self.nest.lying)


def tiled_sheets(pieces: Sequence[PatternPiece], page: Page) -> tuple[tuple[PatternSheet, Tiling], ...]:
    """The pieces on sheets that take few pages once they are cut into tiles."""
    groups = _groups(pieces)
    starts = max(MOST_STARTS // max(len(groups), 1), 1)
    return tuple(_best_tiled(group, page, starts) for group in groups)


def roll_sheets(pieces: Sequence[PatternPiece], roll_mm: float = ROLL_MM) -> tuple[PatternSheet, ...]:
    """The pieces on sheets as wide as a roll of paper, or wider where a piece asks for it; y runs across the roll."""
    return tuple(_on_roll(group, roll_mm) for group in _groups(pieces))


def _groups(pieces: Sequence[PatternPiece]) -> list[tuple[PatternPiece, ...]]:
    """Even shares of the pieces, in order, none larger than a sheet may be."""
    count = -(-len(pieces) // MOST_PIECES)
    return [tuple(pieces[i * len(pieces) // count : (i + 1) * len(pieces) // count]) for i in range(count)]


def _best_tiled(pieces: tuple[PatternPiece, ...], page: Page, starts: int) -> tuple[PatternSheet, Tiling]:
    nests = sorted(_nests(pieces, starts), key=lambda nest: nest.length_mm)[:CANDIDATES]
    sheets = [PatternSheet(pieces, nest) for nest in nests]
    number, tiling = best_tiling([[ring for _, ring in sheet.outlines] for sheet in sheets], page)
    return sheets[number], tiling


def _nests(pieces: Sequence[PatternPiece], starts: int) -> Iterator[Nest]:
    nester = Nester([piece.outline for piece in pieces])
    tallest = max(float(np.ptp(piece.outline[:, 1])) for piece in pieces)
    for first in (None, *range(min(starts, len(pieces)))):
        nest = nester.nest(tallest + TALLER_MM, first)
        if nest:
            yield nest


def _on_roll(pieces: tuple[PatternPiece, ...], roll_mm: float) -> PatternSheet:
    """In one row across the roll or in rows down it, whichever is shorter; on a wider sheet if neither goes."""
    nester = Nester([piece.outline for piece in pieces])
    wide = roll_mm - 2 * ROLL_MARGIN_MM
    while True:
        nests = [nest for nest in (nester.nest(wide), _in_rows(nester, pieces, wide)) if nest]
        if nests:
            return PatternSheet(pieces, min(nests, key=lambda nest: nest.length_mm))
        wide += 100.0


def _in_rows(nester: Nester, pieces: Sequence[PatternPiece], wide: float) -> Nest | None:
    """Rows of upright pieces one after the other down the roll, the tallest first; None if one is too wide.

    A row runs across the roll; the sheet is then turned so that its x runs down the roll.
    """
    heights = [float(np.ptp(piece.outline[:, 1])) for piece in pieces]
    left, lying, start = sorted(range(len(pieces)), key=lambda index: -heights[index]), list[Lying](), 0.0
    while left:
        tall = heights[left[0]] + TALLER_MM
        row = nester.row(tall, left, wide, first=left[0])
        if not row.lying:
            return None
        lying += [Lying(one.index, one.turn_deg - 90.0, (one.by[1] + start, wide - one.by[0])) for one in row.lying]
        placed = {one.index for one in row.lying}
        left, start = [index for index in left if index not in placed], start + tall
    return Nest(tuple(lying), start)
