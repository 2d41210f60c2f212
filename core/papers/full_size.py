"""The full-size pattern and the full-size plan as files: tiles, rolls, layers, exchange."""

from collections.abc import Iterator, Sequence

import numpy as np

from core.papers.choices import ROLL_MM, PaperChoices
from core.papers.cloth_drawing import cloth_drawing
from core.papers.drawing import Box, Drawing, joined
from core.papers.dxf_out import DxfBlock, dxf_bytes
from core.papers.figures import ClothFigures, Figures
from core.papers.page import DRAWN_ON, WRITTEN_ON, Leaf
from core.papers.pattern import PatternPiece, pattern_lines, pattern_piece
from core.papers.pattern_sheet import PatternSheet, roll_sheets, tiled_sheets
from core.papers.pdf import pdf_bytes
from core.papers.roll import LONGEST_MM, on_long_page
from core.papers.svg import svg_bytes
from core.papers.tile_pages import tile_pages
from core.units import Units
from core.wording import tr

BEYOND_MM = 50.0
PLAN_OVERLAP_MM = 100.0


def tiles_pdf(pieces: Sequence[PatternPiece], title: str, choices: PaperChoices) -> bytes:
    """The full-size pattern in tiles, with maps."""
    sheets = tiled_sheets(pieces, DRAWN_ON[choices.paper])
    return pdf_bytes(tile_pages(sheets, title, WRITTEN_ON[choices.paper], Units(choices.units)), title)


def roll_files(pieces: Sequence[PatternPiece], title: str, roll_mm: float = ROLL_MM) -> dict[str, bytes]:
    """The full-size pattern on long sheets: one PDF with layers, and an SVG of each sheet."""
    leaves = roll_leaves(pieces, title, roll_mm)
    names = [f"full-size{part}.svg" for part in _numbers(len(leaves))]
    drawn = {name: svg_bytes(leaf, title) for name, leaf in zip(names, leaves, strict=True)}
    return {"full-size-roll.pdf": pdf_bytes(leaves, title, layers=True), **drawn}


def roll_leaves(pieces: Sequence[PatternPiece], title: str, roll_mm: float = ROLL_MM) -> tuple[Leaf, ...]:
    """The sheets of the roll, as pages."""
    return tuple(_roll_leaf(sheet, title) for sheet in roll_sheets(pieces, roll_mm))


def _roll_leaf(sheet: PatternSheet, title: str) -> Leaf:
    """A sheet with its length down the page, as the paper comes off the roll."""
    height = max(float(outline[:, 1].max()) for _, outline in sheet.outlines)
    drawing = sheet.drawing.moved(90.0, (height, 0.0))
    outlines = np.concatenate([outline for _, outline in sheet.outlines])
    down = np.column_stack([height - outlines[:, 1], outlines[:, 0]])
    notes = (
        tr("Print at actual size (100 %) and measure the squares first."),
        tr("Every panel is seen from the face of the cloth: lay the paper on the cloth face up, stripe on stripe."),
    )
    return on_long_page(drawing, Box.round(down).grown(2.0), title, notes)


def plan_files(figures: Figures, choices: PaperChoices) -> dict[str, bytes]:
    """The lay of every cloth full size: PDF with layers, SVG, and DXF."""
    files: dict[str, bytes] = {}
    for cloth in figures.cloths:
        part = f"-{_file_name(cloth.cloth.id)}" if len(figures.cloths) > 1 else ""
        leaves = plan_leaves(cloth, choices)
        title = f"{figures.project.title or tr('Cutting plan')}: {cloth.cloth.title}"
        files[f"plan-full-size{part}.pdf"] = pdf_bytes(leaves, title, layers=True)
        for number, leaf in zip(_numbers(len(leaves)), leaves, strict=True):
            files[f"plan-full-size{part}{number}.svg"] = svg_bytes(leaf, title)
        files[f"plan-full-size{part}.dxf"] = dxf_bytes(plan_blocks(cloth, choices), title)
    return files


def plan_leaves(cloth: ClothFigures, choices: PaperChoices) -> tuple[Leaf, ...]:
    """The cloth as it is laid at 1 : 1, in stretches that overlap where it is longer than a page can be."""
    drawing = plan_drawing(cloth, choices)
    stretches = list(_stretches(cloth))
    notes = (
        tr("Full-size cutting plan for a projector or a plotter. Measure the squares before anything is cut by it."),
        tr("The cloth lies face up, its cut end at the top of this sheet and its left selvedge on the left."),
    )
    leaves = []
    for number, window in enumerate(stretches, 1):
        part = tr(", {number} of {count}", number=number, count=len(stretches)) if len(stretches) > 1 else ""
        leaves.append(on_long_page(drawing, window, f"{cloth.cloth.title}{part}", notes))
    return tuple(leaves)


def plan_drawing(cloth: ClothFigures, choices: PaperChoices) -> Drawing:
    """The cloth and every panel on it, cloth mm."""
    window = _whole(cloth)
    pieces = [pattern_piece(panel, choices.lines) for panel in cloth.panels]
    panels = joined(pattern_lines(piece.figures, piece.lines) + piece.lettering for piece in pieces)
    return cloth_drawing(cloth.cloth, window) + panels


def plan_blocks(cloth: ClothFigures, choices: PaperChoices) -> tuple[DxfBlock, ...]:
    """Every panel as a block: what is drawn of it, cloth mm, with the stripes within its outermost line."""
    return tuple(
        DxfBlock(
            panel.name,
            panel.title,
            (panel.at.u, panel.at.v),
            pattern_piece(panel, choices.lines).lines_drawing,
        )
        for panel in cloth.panels
    )


def _whole(cloth: ClothFigures) -> Box:
    length = cloth.length_mm + BEYOND_MM
    shown = length if cloth.cloth.end is None else min(length, max(cloth.cloth.end, cloth.length_mm))
    return Box(0.0, 0.0, cloth.cloth.width, shown)


def _stretches(cloth: ClothFigures) -> Iterator[Box]:
    whole = _whole(cloth)
    start = 0.0
    while True:
        end = min(start + LONGEST_MM - 200.0, whole.bottom)
        yield Box(whole.left, start, whole.right, end)
        if end >= whole.bottom:
            return
        start = end - PLAN_OVERLAP_MM


def _numbers(count: int) -> list[str]:
    return [f"-{number}" for number in range(1, count + 1)] if count > 1 else [""]


def _file_name(name: str) -> str:
    """An id as part of a file's name: letters, digits and dashes."""
    return "".join(letter if letter.isalnum() and letter.isascii() else "-" for letter in name)
