"""Tiles: put together again they give the sheet, and there are few of them."""

import math

import numpy as np
import pytest
from shapely import union_all
from shapely.affinity import affine_transform
from shapely.geometry import LinearRing, LineString, MultiLineString, Polygon, box

from core.model.project import Project
from core.papers.choices import LineChoice
from core.papers.drawing import Role, Text
from core.papers.figures import figures_of
from core.papers.nesting import GAP_MM
from core.papers.packing import Put, packed
from core.papers.page import A3, A4, LETTER, Page
from core.papers.pattern_sheet import PatternSheet, roll_sheets, tiled_sheets
from core.papers.pdf import pdf_bytes
from core.papers.pens import PENS
from core.papers.pieces import laid_project, pattern_pieces
from core.papers.tile_pages import tile_pages
from core.papers.tiles import LABEL_MM, OVERLAP_MM, Tile, Tiling
from core.seams.readings import measure
from core.units import Units
from reading_back import pdf_lines

TENTH_MM = 0.1
Sheets = tuple[tuple[PatternSheet, Tiling], ...]


_FOUND: dict[tuple[int, Page, LineChoice], Sheets] = {}


def sheets_of(project: Project, page: Page, lines: LineChoice = "both") -> Sheets:
    """The sheets of a project that lives as long as the tests do; laid once."""
    key = id(project), page, lines
    if key not in _FOUND:
        figures = figures_of(project, measure(project))
        _FOUND[key] = tiled_sheets(pattern_pieces(laid_project(project), figures, lines), page)
    return _FOUND[key]


@pytest.fixture(scope="module")
def sheets(skirt: Project) -> Sheets:
    return sheets_of(skirt, A4)


@pytest.fixture(scope="module")
def printed(skirt: Project, sheets: Sheets) -> bytes:
    return pdf_bytes(tile_pages(sheets, skirt.title, A4, Units("mm")), skirt.title)


def on_the_sheet(sheets: Sheets, printed: bytes, role: Role) -> list[MultiLineString]:
    """The lines of a role on every tile, read from the PDF, within its frame, where they belong on the sheet."""
    ((_, tiling),) = sheets
    pages = pdf_lines(printed, PENS[role].width)[1:]
    assert len(pages) == len(tiling.pages)
    found: list[MultiLineString] = []
    for puts, lines in zip(tiling.pages, pages, strict=True):
        drawn = [LineString(line) for line in lines]
        for put in puts:
            tile = tiling.tiles[put.index]
            to_sheet = _back_to_the_sheet(put, tile)
            onto_sheet = [affine_transform(line, to_sheet) for line in drawn]
            frame = box(*_corners(tile.box)).buffer(0.001)
            found.append(MultiLineString([line for line in onto_sheet if frame.contains(line)]))
    return found


def _back_to_the_sheet(put: Put, tile: Tile) -> list[float]:
    """From the page to the sheet: where a tile lies turned, the page's y runs along the sheet's x, and x against y."""
    x, y = put.at
    if not put.turned:
        return [1, 0, 0, 1, tile.box.left - x, tile.box.top - y]
    return [0, 1, -1, 0, tile.box.left - y, tile.box.top + tile.box.height + LABEL_MM + x]


def test_tiles_join_to_the_outlines(sheets: Sheets, printed: bytes) -> None:
    """The printed cutting lines cover every outline and nothing else; so do the stitching lines."""
    ((sheet, _),) = sheets
    models: dict[Role, list[np.ndarray]] = {
        "cut line": [outline for _, outline in sheet.outlines],
        "net line": [_net_on_sheet(sheet, piece) for piece, _ in sheet.outlines],
    }
    for role, rings in models.items():
        printed_lines = union_all(on_the_sheet(sheets, printed, role))
        model = MultiLineString([LinearRing(ring) for ring in rings])
        assert printed_lines.buffer(TENTH_MM).covers(model)
        if role == "cut line":
            assert model.buffer(TENTH_MM).covers(printed_lines)


def _net_on_sheet(sheet: PatternSheet, piece: object) -> np.ndarray:
    lying = next(one for one in sheet.nest.lying if sheet.pieces[one.index] is piece)
    return lying.placed(sheet.pieces[lying.index].figures.net_ring)


def test_a_printed_outline_keeps_the_size_of_the_model(sheets: Sheets) -> None:
    ((sheet, _),) = sheets
    for piece, outline in sheet.outlines:
        assert Polygon(outline).area == pytest.approx(Polygon(piece.figures.panel.cut_ring).area, rel=1e-9)


def test_two_tiles_show_the_same_along_their_overlap(sheets: Sheets, printed: bytes) -> None:
    ((_, tiling),) = sheets
    places = [tiling.tiles[put.index] for puts in tiling.pages for put in puts]
    lines_of = zip(places, on_the_sheet(sheets, printed, "cut line"), strict=True)
    shown = {(tile.row, tile.column): lines for tile, lines in lines_of}
    compared = 0
    for (row, column), lines in shown.items():
        for other in ((row, column + 1), (row + 1, column)):
            if other not in shown:
                continue
            common = box(*_corners(tiling.at[row, column].box)).intersection(box(*_corners(tiling.at[other].box)))
            here, there = (seen.intersection(common.buffer(-0.2)) for seen in (lines, shown[other]))
            assert here.difference(there.buffer(TENTH_MM)).is_empty
            assert there.difference(here.buffer(TENTH_MM)).is_empty
            compared += here.length > OVERLAP_MM / 2
    assert compared > 20


def _corners(tile_box: object) -> tuple[float, float, float, float]:
    return tile_box.left, tile_box.top, tile_box.right, tile_box.bottom  # type: ignore[attr-defined]


def test_neighbours_overlap_by_what_is_promised(sheets: Sheets) -> None:
    ((_, tiling),) = sheets
    wide, high = tiling.grid.window
    across, down = tiling.grid.step
    assert (wide - across, high - down) == (OVERLAP_MM, OVERLAP_MM)
    for tile in tiling.tiles:
        window = tiling.grid.box(tile.row, tile.column)
        assert tile.box.left >= window.left
        assert tile.box.right <= window.right
        assert tile.box.top >= window.top
        assert tile.box.bottom <= window.bottom


FEW: list[tuple[str, LineChoice, Page, float]] = [
    ("skirt", "both", A4, 1.15),
    ("skirt", "both", LETTER, 1.15),
    ("skirt", "both", A3, 1.15),
    ("skirt", "net", A4, 1.15),
    ("parasol", "net", A4, 1.25),
]


@pytest.mark.parametrize(("name", "lines", "page", "most"), FEW)
def test_tiles_cover_all_pieces_and_pages_are_few(
    request: pytest.FixtureRequest, name: str, lines: LineChoice, page: Page, most: float
) -> None:
    """Within 15 % of the bound: the area within the lines over the area that one page adds.

    Gores with sides that bulge, as a canopy's, can't lie as close: they take up to a quarter more.
    """
    sheets = sheets_of(request.getfixturevalue(name), page, lines)
    area = sum(Polygon(outline).area for sheet, _ in sheets for _, outline in sheet.outlines)
    pages = sum(len(tiling.pages) for _, tiling in sheets)
    across, down = sheets[0][1].grid.step
    assert pages <= most * area / (across * down)
    for sheet, tiling in sheets:
        windows = union_all([box(*_corners(tile.box)) for tile in tiling.tiles])
        assert all(windows.buffer(1e-6).contains(Polygon(outline)) for _, outline in sheet.outlines)


@pytest.mark.parametrize(("name", "lines"), [("skirt", "both"), ("parasol", "net"), ("many_gores", "both")])
def test_pieces_on_a_sheet_keep_apart(request: pytest.FixtureRequest, name: str, lines: LineChoice) -> None:
    project: Project = request.getfixturevalue(name)
    figures = figures_of(project, measure(project))
    pieces = pattern_pieces(laid_project(project), figures, lines)
    for sheet in (*(sheet for sheet, _ in sheets_of(project, A4, lines)), *roll_sheets(pieces)):
        shapes = [Polygon(outline) for _, outline in sheet.outlines]
        for i, shape in enumerate(shapes):
            assert all(shape.distance(other) >= GAP_MM - 0.01 for other in shapes[:i])


def test_every_piece_is_on_exactly_one_sheet(many_gores: Project) -> None:
    sheets = sheets_of(many_gores, A4)
    names = [piece.figures.name for sheet, _ in sheets for piece, _ in sheet.outlines]
    assert sorted(names) == sorted(many_gores.panel_names)
    assert len(sheets) == math.ceil(len(names) / 12)


def test_the_map_names_every_tile_and_every_tile_its_neighbours(skirt: Project, sheets: Sheets) -> None:
    ((_, tiling),) = sheets
    first, *rest = [
        [part.text for part in leaf.drawing.parts if isinstance(part, Text)]
        for leaf in tile_pages(sheets, skirt.title, A4, Units("mm"))
    ]
    named = {text.split(",")[0] for text in first}
    for texts, puts in zip(rest, tiling.pages, strict=True):
        for tile in (tiling.tiles[put.index] for put in puts):
            assert tile.name in named
            assert tile.name in texts
            right = tiling.at.get((tile.row, tile.column + 1))
            if right and tile.box.width > 100 and right.box.top < tile.box.bottom:
                assert any(f"right {right.name}" in text for text in texts)


def test_things_packed_on_a_page_neither_touch_nor_leave_it() -> None:
    rng = np.random.default_rng(3)
    sizes = [(float(w), float(h)) for w, h in rng.uniform((10, 10), (190, 280), (60, 2))]
    pages = packed(sizes, A4)
    assert sorted(put.index for puts in pages for put in puts) == list(range(60))
    for puts in pages:
        rooms = [_room(put, sizes[put.index]) for put in puts]
        for i, room in enumerate(rooms):
            assert all(room.distance(other) > 2.9 for other in rooms[:i])
            left, top, right, bottom = room.bounds
            assert min(left, top, A4.width - right, A4.height - bottom) >= 7.0 - 1e-6


def _room(put: Put, size: tuple[float, float]) -> Polygon:
    wide, high = reversed(size) if put.turned else size
    return box(*put.at, put.at[0] + wide, put.at[1] + high)
