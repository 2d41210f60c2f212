"""The first page: the check square, the cautions, how to read the papers, and the list of panels to tick off."""

import math

from core.papers.drawing import Box, Drawing, Line, Point, Text, joined, segment
from core.papers.figures import Figures, PanelFigures
from core.papers.lettering import shortened
from core.papers.page import BODY, FINE_SIZE, HEAD_SIZE, TEXT_SIZE, Paragraph, flow, heading
from core.papers.words import mm

CHECK_MM = 100.0
SQUARE = Box(BODY.left, 33.0, BODY.left + CHECK_MM, 33.0 + CHECK_MM)

CAUTIONS = (
    "Measure the square before anything else. If its sides are not 100.0 mm, print again at actual size (100 %).",
    "Shrink the cloth and press it flat before you measure it; so with every lining and stiffening.",
    "A cut can't be taken back. Lay out every panel in its place, and look at every seam, before the first one.",
    "Stiff cotton of an open weave and a full hem catch fire quickly. Keep them from naked flame; for the stage and"
    " near effects, do what the fire code of the place says.",
)

READING = (
    "The cloth lies face up in a single layer with its cut end at the top. Left and right are as you then see them.",
    "Lengths are millimetres. Across is measured from the left edge of the cloth, selvedge included; along, from the"
    " cut end.",
    "Cloth is never as even as its numbers. A measured distance only leads you to the stripe; the stripe decides.",
    "Drawings are to the scale printed on them. Take lengths from the words, not from the drawing.",
)

ROW_MM = 5.4
COLUMNS_LEFT = (BODY.left, BODY.left + 95.0)
COLUMN_MM = 89.0


def cover_pages(figures: Figures, card_pages: dict[int, int]) -> tuple[Drawing, ...]:
    """The first page and, where the list of panels is long, more; `card_pages` gives the page of each panel's card."""
    advice, advice_end = _advice(figures)
    top = heading(figures.project.title or "Cutting papers", "Papers for the cutting table")
    pages = [top + _check_square() + advice + _line_kinds(SQUARE.bottom + 9.0)]
    rows, start = list(figures.panels), max(advice_end, SQUARE.bottom + 23.0) + 6.0
    while rows:
        room = int((BODY.bottom - start - 7.0) / ROW_MM)
        each = min(room, math.ceil(len(rows) / 2))
        for left, part in zip(COLUMNS_LEFT, (rows[:each], rows[each : 2 * each]), strict=True):
            pages[-1] = pages[-1] + _panel_list(part, left, start, card_pages)
        rows = rows[2 * each :]
        if rows:
            pages.append(heading("Panels, continued"))
            start = BODY.top
    return tuple(pages)


def cover_count(figures: Figures) -> int:
    """How many pages `cover_pages` gives."""
    return len(cover_pages(figures, {}))


def _check_square() -> Drawing:
    words = ("Check the printed scale", "each side of this square", "must measure 100.0 mm")
    middle = (SQUARE.left + SQUARE.right) / 2
    texts = [
        Text(
            (middle, SQUARE.top + 46.0 + 6.0 * i),
            line,
            HEAD_SIZE if i == 0 else TEXT_SIZE,
            anchor="middle",
            bold=i == 0,
        )
        for i, line in enumerate(words)
    ]
    return Drawing((Line(SQUARE.corners, "check square", closed=True), *texts))


def _advice(figures: Figures) -> tuple[Drawing, float]:
    """Cautions and how to read, right of the square; with the y where they end."""
    paragraphs = [Paragraph("Before you cut", HEAD_SIZE, bold=True, gap=0.0)]
    paragraphs += [Paragraph(text, 3.2, label=f"{i}", indent=5.0, hang=5.0) for i, text in enumerate(CAUTIONS, 1)]
    paragraphs += [Paragraph("How to read these papers", HEAD_SIZE, bold=True, gap=4.0)]
    paragraphs += [Paragraph(text, 3.2) for text in (*READING, *_lead_stripes(figures))]
    drawing, _, end = flow(paragraphs, Box(SQUARE.right + 6.0, 32.0, BODY.right, BODY.bottom))
    return drawing, end


def _lead_stripes(figures: Figures) -> list[str]:
    """What the lead stripe of each striped cloth is."""
    words = []
    for cloth in (entry.cloth for entry in figures.cloths if entry.cloth.repeat):
        assert cloth.repeat is not None
        stripe = cloth.repeat.lead_stripe
        words.append(
            f"The lead stripe of {cloth.title} is {stripe.name}, {mm(stripe.width)} mm wide, one in every"
            f" {mm(cloth.repeat.width)} mm. Any stripe that looks the same will do for it."
        )
    return words


def _line_kinds(y: float) -> Drawing:
    """A sample of every kind of line, below the square."""
    kinds: list[tuple[str, Drawing]] = [
        ("cutting line", Drawing((segment((0, 0), (14, 0), "cut line"),))),
        ("stitching line", Drawing((segment((0, 0), (14, 0), "net line"),))),
        ("middle of lead stripe", Drawing((segment((0, 0), (14, 0), "lead stripe"),))),
        ("grain, top to bottom", Drawing((segment((0, 0), (14, 0), "grain", arrow=True),))),
        ("notch", Drawing((segment((7, -1.5), (7, 1.5), "notch"),))),
        ("panel lying beside", Drawing((segment((0, 0), (14, 0), "neighbour"),))),
    ]
    return joined(_line_kind(i, y, *kind) for i, kind in enumerate(kinds))


def _line_kind(index: int, y: float, words: str, sample: Drawing) -> Drawing:
    at: Point = (BODY.left + 51.0 * (index % 2), y + 6.0 * (index // 2))
    text = Text((at[0] + 16.0, at[1] + 1.1), words, FINE_SIZE)
    return sample.to_scale(1.0, onto=at) + Drawing((text,))


def _panel_list(rows: list[PanelFigures], left: float, top: float, card_pages: dict[int, int]) -> Drawing:
    """A column of panels with boxes to tick, how the paper lies and the page of the card."""
    if not rows:
        return Drawing()
    right = left + COLUMN_MM
    head = (
        Text((left + 13.0, top + 3.5), "panel", FINE_SIZE, bold=True),
        Text((left + 55.0, top + 3.5), "paper", FINE_SIZE, bold=True),
        Text((right, top + 3.5), "page", FINE_SIZE, anchor="end", bold=True),
        segment((left, top + 5.2), (right, top + 5.2), "rule"),
    )
    return Drawing(head) + joined(_row(row, left, top + 6.0 + ROW_MM * i, card_pages) for i, row in enumerate(rows))


def _row(figures: PanelFigures, left: float, top: float, card_pages: dict[int, int]) -> Drawing:
    y, size = top + 3.7, 3.2
    paper = {"up": "face up", "down": "face down", "half": "half"}[figures.paper]
    return Drawing(
        (
            Line(Box(left, top + 0.7, left + 3.6, top + 4.3).corners, "ruler", closed=True),
            Text((left + 11.0, y), f"{figures.number}", size, anchor="end", bold=True),
            Text((left + 13.0, y), shortened(figures.title, size, 41.0), size),
            Text((left + 55.0, y), paper + (", turned" if figures.at.turned else ""), FINE_SIZE),
            Text((left + COLUMN_MM, y), f"{card_pages.get(figures.number, 0)}", size, anchor="end"),
        )
    )
