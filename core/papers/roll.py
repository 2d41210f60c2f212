"""One long page: a full-size drawing with a strip for its title and the check squares at its beginning."""

from collections.abc import Sequence

from core.papers.check_squares import FOUR_INCHES_MM, check_squares
from core.papers.drawing import Box, Drawing, Text
from core.papers.lettering import shortened
from core.papers.page import Leaf, Page, Paragraph, flow

MARGIN_MM = 12.0
HEAD_MM = 2 * MARGIN_MM + FOUR_INCHES_MM
LONGEST_MM = 5000.0
"""A PDF page can't be longer than 5080 mm."""


def on_long_page(drawing: Drawing, window: Box, title: str, notes: Sequence[str]) -> Leaf:
    """What lies in a window at 1 : 1, below a head of title, notes and check squares."""
    page = Page(max(window.width, 300.0) + 2 * MARGIN_MM, window.height + HEAD_MM + MARGIN_MM)
    squares = check_squares((MARGIN_MM, MARGIN_MM))
    column = Box(2 * MARGIN_MM + FOUR_INCHES_MM, MARGIN_MM, page.width - MARGIN_MM, HEAD_MM)
    name = Text((column.left, MARGIN_MM + 9.0), shortened(title, 10.0, column.width, bold=True), 10.0, bold=True)
    words = flow([Paragraph(note, 5.0) for note in notes], Box(column.left, MARGIN_MM + 14.0, column.right, HEAD_MM))[0]
    return Leaf(squares + Drawing((name,)) + words + drawing.within(window).moved(0.0, onto_page(window)), page)


def onto_page(window: Box) -> tuple[float, float]:
    """How far a drawing is moved when a window of it is put on a long page."""
    return MARGIN_MM - window.left, HEAD_MM - window.top
