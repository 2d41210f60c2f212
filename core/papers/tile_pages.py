"""The pages of the tiled pattern: a map of the tiles, then the tiles, framed for trimming and joining."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place
from shapely.geometry.base import BaseGeometry

from core.papers.check_squares import FOUR_INCHES_MM, check_squares
from core.papers.drawing import Box, Drawing, Line, Point, Primitive, Text, segment
from core.papers.labels import Labels, block
from core.papers.lettering import shortened, text_box, width_of, wrapped_lines
from core.papers.page import FINE_SIZE, Leaf, Page, Paragraph, flow, heading, scale_for, scale_words
from core.papers.pattern import PatternPiece
from core.papers.pattern_sheet import CLEAR_MM, PatternSheet
from core.papers.sheet import Sheet
from core.papers.tiles import LABEL_MM, OVERLAP_MM, Tile, Tiling
from core.units import Units
from core.wording import tr

NAME_MM = 4.0
CROSS_MM = 2.5
LEAST_JOIN_MM = 0.5
PIECE_SIZES_MM = (5.0, 3.6, 2.8)


@dataclass(frozen=True, eq=False)
class _TiledSheet:
    """One sheet of several, and the number of its first page of tiles in the file."""

    sheet: PatternSheet
    tiling: Tiling
    label: str
    first_page: int
    pages: int

    def name(self, tile: Tile) -> str:
        return f"{self.label}{tile.name}"

    def page_of(self, index: int) -> int:
        places = (page for page, puts in enumerate(self.tiling.pages) if any(put.index == index for put in puts))
        return self.first_page + next(places)


def tile_pages(
    sheets: Sequence[tuple[PatternSheet, Tiling]], title: str, written: Page, units: Units
) -> tuple[Leaf, ...]:
    """All pages of the file: for every sheet a map on `written` paper, then its tiles on the paper they are cut for."""
    every = list(_numbered(sheets))
    maps = [Leaf(_map(one, title, written, units, squares=number == 0), written) for number, one in enumerate(every)]
    tiles = [Leaf(_page(one, index), one.tiling.grid.page) for one in every for index in range(len(one.tiling.pages))]
    return (*maps, *tiles)


def _numbered(sheets: Sequence[tuple[PatternSheet, Tiling]]) -> Iterator[_TiledSheet]:
    total = len(sheets) + sum(len(tiling.pages) for _, tiling in sheets)
    page = len(sheets) + 1
    for number, (sheet, tiling) in enumerate(sheets, 1):
        yield _TiledSheet(sheet, tiling, f"{number}-" if len(sheets) > 1 else "", page, total)
        page += len(tiling.pages)


def _page(one: _TiledSheet, index: int) -> Drawing:
    """One page with its tile or tiles."""
    drawing = Drawing()
    for put in one.tiling.pages[index]:
        tile = one.tiling.tiles[put.index]
        shown = _content(one, tile) + _frame(one.tiling, tile) + _label(one, tile, one.first_page + index)
        drawing += put.lay(shown, (tile.box.left, tile.box.top), tile.box.height + LABEL_MM)
    return drawing


def _content(one: _TiledSheet, tile: Tile) -> Drawing:
    """What the window shows, sheet mm; of lettering only what lies in it whole, and the names of the pieces."""
    seen = one.sheet.lines.within(tile.box)
    labels = Labels()
    crosses = Drawing(tuple(_frame(one.tiling, tile).parts[1:]))
    for part in (seen + crosses).of("cut line", "net line", "notch", "grain", "trim").parts:
        if isinstance(part, Line):
            labels.take(LineString(part.points))
    frame = Polygon(tile.box.grown(-CLEAR_MM).corners)
    texts = [
        text for piece, inside in one.sheet.insides for text in _piece_name(piece, inside.intersection(frame), labels)
    ]
    edges = [text for text in one.sheet.edge_names if frame.contains(Polygon(text_box(text)))]
    return seen + Drawing((*texts, *(text for edge in edges for text in labels.place([(edge,)]))))


def _piece_name(piece: PatternPiece, seen: BaseGeometry, labels: Labels) -> tuple[Text, ...]:
    """The piece's name somewhere in the part of it that is seen, level or upright."""
    if seen.is_empty:
        return ()
    left, top, right, bottom = seen.bounds
    places = [
        (left + share * (right - left), top + down * (bottom - top))
        for down in (0.5, 0.35, 0.65, 0.2, 0.8)
        for share in (0.5, 0.3, 0.7, 0.15, 0.85)
    ]
    return labels.place(
        (
            block(at, [(piece.name, size, True)], angle)
            for size in PIECE_SIZES_MM
            for angle in (0.0, -90.0)
            for at in places
        ),
        seen,
    )


def _frame(tiling: Tiling, tile: Tile) -> Drawing:
    """The frame to trim along, dashes where the next tile's edge comes to lie, and a cross on every join, sheet mm."""
    parts: list[Primitive] = [Line(tile.box.corners, "trim", closed=True)]
    for other, upright in _after(tiling, tile):
        parts += _overlap_line(tile.box, other.box, upright)
        parts += _cross(_join(tile.box, other.box, upright))
    for other, upright in _before(tiling, tile):
        parts += _cross(_join(other.box, tile.box, upright))
    return Drawing(tuple(parts))


def _after(tiling: Tiling, tile: Tile) -> Iterator[tuple[Tile, bool]]:
    """The tiles laid over this one's right and lower margin; True for one on the right."""
    for other, upright in ((tiling.at.get((tile.row, tile.column + 1)), True),
                           (tiling.at.get((tile.row + 1, tile.column)), False)):  # fmt: skip
        if other and _touch(tile.box, other.box):
            yield other, upright


def _before(tiling: Tiling, tile: Tile) -> Iterator[tuple[Tile, bool]]:
    """The tiles that this one is laid over, left and above; True for the one on the left."""
    for other, upright in ((tiling.at.get((tile.row, tile.column - 1)), True),
                           (tiling.at.get((tile.row - 1, tile.column)), False)):  # fmt: skip
        if other and _touch(other.box, tile.box):
            yield other, upright


def _touch(a: Box, b: Box) -> bool:
    across = min(a.right, b.right) - max(a.left, b.left)
    down = min(a.bottom, b.bottom) - max(a.top, b.top)
    return across > LEAST_JOIN_MM and down > LEAST_JOIN_MM


def _overlap_line(box: Box, after: Box, upright: bool) -> list[Primitive]:
    if upright:
        top, bottom = max(box.top, after.top), min(box.bottom, after.bottom)
        return [segment((after.left, top), (after.left, bottom), "overlap")]
    left, right = max(box.left, after.left), min(box.right, after.right)
    return [segment((left, after.top), (right, after.top), "overlap")]


def _join(first: Box, after: Box, upright: bool) -> Point:
    """The middle of the edge along which two tiles are joined."""
    if upright:
        return after.left, (max(first.top, after.top) + min(first.bottom, after.bottom)) / 2
    return (max(first.left, after.left) + min(first.right, after.right)) / 2, after.top


def _cross(at: Point) -> list[Primitive]:
    x, y = at
    return [
        segment((x - CROSS_MM, y), (x + CROSS_MM, y), "trim"),
        segment((x, y - CROSS_MM), (x, y + CROSS_MM), "trim"),
    ]


def _label(one: _TiledSheet, tile: Tile, page: int) -> Drawing:
    """Name, page and neighbours of a tile, below its frame, sheet mm."""
    y = tile.box.bottom + 4.0
    name = shortened(one.name(tile), NAME_MM, tile.box.width, bold=True)
    room = tile.box.width - width_of(name, NAME_MM, bold=True) - 3.0
    words = (
        shortened(
            tr("page {page} of {pages}{joins}", page=page, pages=one.pages, joins=_joins(one, tile)), FINE_SIZE, room
        )
        if room > 0
        else ""
    )
    texts = [Text((tile.box.left, y), name, NAME_MM, bold=True)]
    if words:
        texts.append(Text((tile.box.right, y), words, FINE_SIZE, "fine text", anchor="end"))
    return Drawing(tuple(texts))


def _joins(one: _TiledSheet, tile: Tile) -> str:
    before, after = _before(one.tiling, tile), _after(one.tiling, tile)
    names = [tr("left {tile}" if upright else "above {tile}", tile=one.name(other)) for other, upright in before]
    names += [tr("right {tile}" if upright else "below {tile}", tile=one.name(other)) for other, upright in after]
    return "".join(f" · {words}" for words in names)


def _map(one: _TiledSheet, title: str, page: Page, units: Units, squares: bool) -> Drawing:
    """The whole sheet to scale with its tiles, what to do with them, and on the first map the check squares."""
    body = page.body
    outlines = np.concatenate([outline for _, outline in one.sheet.outlines])
    window = Box.round(outlines).grown(5.0)
    name = tr("Full-size pattern, sheet {label}", label=one.label[:-1]) if one.label else tr("Full-size pattern")
    words, _, end = flow(
        [Paragraph(text, 3.2) for text in _instructions(units)], Box(body.left, 25.0, body.right, 90.0)
    )
    foot = body.bottom - FOUR_INCHES_MM - 4.0 if squares else body.bottom
    room = Box(body.left, end + 5.0, body.right, foot)
    n = scale_for(window.width, window.height, room.width, room.height)
    sheet = Sheet(window, n, ((room.left + room.right - window.width / n) / 2, room.top))
    drawing = (
        heading(page, name, tr("{title} · map {scale}", title=title, scale=scale_words(n)))
        + words
        + _map_drawing(one, sheet)
    )
    return drawing + check_squares((body.left, foot + 3.0)) if squares else drawing


def _instructions(units: Units) -> tuple[str, ...]:
    return (
        tr(
            "Print at actual size (100 %) and measure the squares. Trim every tile along its frame at "
            "the left and at the top, lay it on the dashed line of the tile before it ({overlap} of "
            "overlap), cross on cross, and stick it down: rows first, then row to row. Several small "
            "tiles may share a page: cut them apart.",
            overlap=units.say(OVERLAP_MM),
        ),
        tr(
            "Each panel has its own drawing, right and left alike, with its own stripes: all are seen "
            "from the face of the cloth. Lay the paper on the cloth face up, stripe on stripe. The map "
            "has the tiles' names and pages and the panels' numbers."
        ),
    )


def _map_drawing(one: _TiledSheet, sheet: Sheet) -> Drawing:
    lines = [Line(sheet.points(outline), "cut line", closed=True) for _, outline in one.sheet.outlines]
    boxes = [Line(sheet.points(tile.box.corners), "trim", closed=True) for tile in one.tiling.tiles]
    labels = Labels()
    texts: list[Primitive] = []
    smallest_first = sorted(range(len(one.tiling.tiles)), key=lambda index: one.tiling.tiles[index].box.area)
    for index in smallest_first:
        room = Polygon(sheet.points(one.tiling.tiles[index].box.corners)).buffer(0.6)
        texts += labels.place(_tile_name_candidates(one, index, room), room) or labels.place(_beside(one, index, room))
    for piece, outline in one.sheet.outlines:
        shape = Polygon(sheet.points(outline))
        texts += labels.place(block(at, _map_name(piece, sheet.n)) for at in _places_in(shape.bounds) if _in(shape, at))
    return Drawing((*lines, *boxes, *texts))


def _beside(one: _TiledSheet, index: int, room: Polygon) -> Iterator[tuple[Text, ...]]:
    """The name of a tile that is too small on the map, next to it."""
    left, top, right, bottom = room.bounds
    middle, level = (left + right) / 2, (top + bottom) / 2
    for at in ((right + 4.0, level), (left - 4.0, level), (middle, bottom + 2.0), (middle, top - 2.0)):
        yield block(at, [(one.name(one.tiling.tiles[index]), 2.3, True)])


def _places_in(bounds: tuple[float, float, float, float]) -> list[Point]:
    """Places all over a box, from its middle outwards."""
    left, top, right, bottom = bounds
    shares = (0.5, 0.42, 0.58, 0.3, 0.7, 0.15, 0.85)
    return [(left + x * (right - left), top + y * (bottom - top)) for y in shares for x in shares]


def _in(shape: Polygon, at: Point) -> bool:
    return bool(shape.contains(Place(at)))


def _map_name(piece: PatternPiece, n: float) -> list[tuple[str, float, bool]]:
    """The number of a panel; the name of a piece that has none, in lines no wider than the piece."""
    if piece.figures.number:
        return [(f"{piece.figures.number}", 4.6, True)]
    breadth = max(float(np.ptp(piece.outline[:, 0])) / n, 16.0)
    return [(line, 2.6, True) for line in wrapped_lines(piece.figures.title, 2.6, breadth)]


def _tile_name_candidates(one: _TiledSheet, index: int, room: Polygon) -> Iterator[tuple[Text, ...]]:
    name, page = one.name(one.tiling.tiles[index]), tr("page {page}", page=one.page_of(index))
    places = _places_in(room.bounds)
    for size in (2.8, 2.3):
        for at in places:
            yield block(at, [(name, size, True), (page, size, False)])
        for at in places:
            yield block(at, [(f"{name}, {page}", size, False)], -90.0)
    for size in (2.8, 2.3, 1.9):
        for angle in (0.0, -90.0):
            for at in places:
                yield block(at, [(name, size, True)], angle)
