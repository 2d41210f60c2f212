"""The first page: the check square, the cautions, how to read the papers, and the list of panels to tick off."""

import math

from core.model.cloth import Repeat, Way
from core.papers.check_squares import FOUR_INCHES_MM, check_squares
from core.papers.drawing import Box, Drawing, Line, Point, Text, joined, segment
from core.papers.figures import Figures, PanelFigures
from core.papers.lettering import shortened
from core.papers.page import FINE_SIZE, HEAD_SIZE, Page, Paragraph, flow, heading
from core.units import Units
from core.wording import later, tr

LEFT, SQUARES_TOP = 13.0, 33.0
KIND_MM = 6.0
"""From one row of samples of lines to the next."""
SQUARES_BOTTOM, SQUARES_RIGHT = SQUARES_TOP + FOUR_INCHES_MM, LEFT + FOUR_INCHES_MM

CAUTIONS = (
    later(
        "Measure the squares before anything else. If their sides are not as they say, print again "
        "at actual size (100 %)."
    ),
    later("Shrink the cloth and press it flat before you measure it; so with every lining and stiffening."),
    later("A cut can't be taken back. Lay out every panel in its place, and look at every seam, before the first one."),
    later(
        "Stiff cotton of an open weave and a full hem catch fire quickly. Keep them from naked "
        "flame; for the stage and near effects, do what the fire code of the place says."
    ),
)

READING = (
    later(
        "The cloth lies face up in a single layer with its cut end at the top. Left and right are as you then see them."
    ),
    later("Across is measured from the left edge of the cloth, selvedge included; along, from the cut end."),
    later(
        "Cloth is never as even as its numbers. A measured distance only leads you to the stripe; the stripe decides."
    ),
    later("Drawings are to the scale printed on them. Take lengths from the words, not from the drawing."),
)

LENGTHS = {
    "mm": later("Lengths are millimetres."),
    "cm": later("Lengths are centimetres."),
    "in": later("Lengths are inches to the nearest sixteenth; steps are thousandths of an inch."),
}

_LEAD: dict[Way, str] = {
    "lengthwise": later(
        "The lead stripe of {cloth} is {name}, {width} wide, one in every {repeat}. Any stripe that looks the same "
        "will do for it."
    ),
    "crosswise": later(
        "The lead bar of {cloth} is {name}, {width} wide, one in every {repeat}. Any bar that looks the same will do "
        "for it."
    ),
}

ROW_MM = 5.4
COLUMNS_LEFT = (LEFT, LEFT + 95.0)
COLUMN_MM = 89.0


def cover_pages(figures: Figures, card_pages: dict[int, int], page: Page, units: Units) -> tuple[Drawing, ...]:
    """The first page and, where many panels have a card, more; `card_pages` gives its page by the panel's number."""
    advice, advice_end = _advice(figures, page, units)
    top = heading(page, figures.project.title or tr("Cutting papers"), tr("Papers for the cutting table"))
    squares = check_squares((LEFT, SQUARES_TOP))
    moved = any(panel.lines_before for panel in figures.panels)
    pages = [top + squares + advice + _line_kinds(SQUARES_BOTTOM + 8.0, moved)]
    rows, start = (
        [panel for panel in figures.panels if panel.number in card_pages],
        max(advice_end, SQUARES_BOTTOM + 22.0 + KIND_MM * moved) + 6.0,
    )
    while rows:
        room = int((page.body.bottom - start - 7.0) / ROW_MM)
        each = min(room, math.ceil(len(rows) / 2))
        for left, part in zip(COLUMNS_LEFT, (rows[:each], rows[each : 2 * each]), strict=True):
            pages[-1] = pages[-1] + _panel_list(part, left, start, card_pages)
        rows = rows[2 * each :]
        if rows:
            pages.append(heading(page, tr("Panels, continued")))
            start = page.body.top
    return tuple(pages)


def _advice(figures: Figures, page: Page, units: Units) -> tuple[Drawing, float]:
    """Cautions and how to read, right of the squares; with the y where they end."""
    paragraphs = [Paragraph(tr("Before you cut"), HEAD_SIZE, bold=True, gap=0.0)]
    paragraphs += [Paragraph(tr(text), 3.2, label=f"{i}", indent=5.0, hang=5.0) for i, text in enumerate(CAUTIONS, 1)]
    paragraphs += [Paragraph(tr("How to read these papers"), HEAD_SIZE, bold=True, gap=4.0)]
    reading = (tr(LENGTHS[units.name]), *map(tr, READING), *_lead_stripes(figures, units))
    paragraphs += [Paragraph(text, 3.2) for text in reading]
    drawing, _, end = flow(paragraphs, Box(SQUARES_RIGHT + 6.0, 32.0, page.body.right, page.body.bottom))
    return drawing, end


def _lead_stripes(figures: Figures, units: Units) -> list[str]:
    """What the lead stripe of each striped cloth is, and the lead bar of each barred one."""
    cloths = [entry.cloth for entry in figures.cloths]
    found = [(cloth.title, way, cloth.repeat_of(way)) for cloth in cloths for way in cloth.ways]
    return [_lead(title, way, repeat, units) for title, way, repeat in found if repeat is not None]


def _lead(cloth: str, way: Way, repeat: Repeat, units: Units) -> str:
    lead = repeat.lead_stripe
    sizes = {"width": units.say(lead.width), "repeat": units.say(repeat.width)}
    return tr(_LEAD[way], cloth=cloth, name=lead.name, **sizes)


def _line_kinds(y: float, moved: bool) -> Drawing:
    """A sample of every kind of line, below the squares; of old lines where some were moved."""
    kinds: list[tuple[str, Drawing]] = [
        (tr("cutting line"), Drawing((segment((0, 0), (14, 0), "cut line"),))),
        (tr("stitching line"), Drawing((segment((0, 0), (14, 0), "net line"),))),
        (tr("middle of lead stripe"), Drawing((segment((0, 0), (14, 0), "lead stripe"),))),
        (tr("grain, top to bottom"), Drawing((segment((0, 0), (14, 0), "grain", arrow=True),))),
        (tr("notch"), Drawing((segment((7, -1.5), (7, 1.5), "notch"),))),
        (tr("panel lying beside"), Drawing((segment((0, 0), (14, 0), "neighbour"),))),
    ]
    if moved:
        kinds.append((tr("line before it was moved"), Drawing((segment((0, 0), (14, 0), "line before"),))))
    return joined(_line_kind(i, y, *kind) for i, kind in enumerate(kinds))


def _line_kind(index: int, y: float, words: str, sample: Drawing) -> Drawing:
    at: Point = (LEFT + 51.0 * (index % 2), y + KIND_MM * (index // 2))
    text = Text((at[0] + 16.0, at[1] + 1.1), words, FINE_SIZE)
    return sample.to_scale(1.0, onto=at) + Drawing((text,))


def _panel_list(rows: list[PanelFigures], left: float, top: float, card_pages: dict[int, int]) -> Drawing:
    """A column of panels with boxes to tick, how the paper lies and the page of the card."""
    if not rows:
        return Drawing()
    right = left + COLUMN_MM
    head = (
        Text((left + 13.0, top + 3.5), tr("panel"), FINE_SIZE, bold=True),
        Text((left + 55.0, top + 3.5), tr("paper"), FINE_SIZE, bold=True),
        Text((right, top + 3.5), tr("page"), FINE_SIZE, anchor="end", bold=True),
        segment((left, top + 5.2), (right, top + 5.2), "rule"),
    )
    return Drawing(head) + joined(_row(row, left, top + 6.0 + ROW_MM * i, card_pages) for i, row in enumerate(rows))


def _row(figures: PanelFigures, left: float, top: float, card_pages: dict[int, int]) -> Drawing:
    y, size = top + 3.7, 3.2
    paper = {"up": tr("face up"), "down": tr("face down"), "half": tr("half")}[figures.paper]
    return Drawing(
        (
            Line(Box(left, top + 0.7, left + 3.6, top + 4.3).corners, "ruler", closed=True),
            Text((left + 11.0, y), f"{figures.number}", size, anchor="end", bold=True),
            Text((left + 13.0, y), shortened(figures.title, size, 41.0), size),
            Text((left + 55.0, y), paper + (tr(", turned") if figures.at.turned else ""), FINE_SIZE),
            Text((left + COLUMN_MM, y), f"{card_pages[figures.number]}", size, anchor="end"),
        )
    )
