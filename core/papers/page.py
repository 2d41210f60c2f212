"""The frame of a page: margins, heading, foot, and text that flows down a column. All in mm from its top left."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.papers.choices import PaperName
from core.papers.drawing import Box, Drawing, Primitive, Text, segment
from core.papers.lettering import LINE_HEIGHT, shortened, width_of, wrapped_lines
from core.wording import number, tr


@dataclass(frozen=True)
class Page:
    """A sheet of paper as it is printed, mm."""

    width: float
    height: float

    @property
    def body(self) -> Box:
        """Where a page's own content goes, between heading and foot, clear of printers' margins."""
        return Box(13.0, 30.0, self.width - 13.0, self.height - 14.0)

    @property
    def landscape(self) -> "Page":
        """The same sheet lying on its long side."""
        return Page(self.height, self.width)


A4, LETTER, A3 = Page(210.0, 297.0), Page(215.9, 279.4), Page(297.0, 420.0)

WRITTEN_ON: dict[PaperName, Page] = {"a4": A4, "letter": LETTER, "a3": A4}
"""What cards, lists and readings are printed on: nothing larger than fits beside the shears."""

DRAWN_ON: dict[PaperName, Page] = {"a4": A4, "letter": LETTER, "a3": A3}
"""What full-size drawings are printed on."""


@dataclass(frozen=True)
class Leaf:
    """One page ready to be printed: its drawing in mm from the page's top left, and the page."""

    drawing: Drawing
    page: Page


TEXT_SIZE = 3.5
FINE_SIZE = 2.9
HEAD_SIZE = 4.2

SCALES = (
    1,
    1.5,
    2,
    2.5,
    3,
    4,
    5,
    6,
    8,
    10,
    12,
    15,
    20,
    25,
    30,
    40,
    50,
    60,
    80,
    100,
    150,
    200,
    250,
    300,
    400,
    500,
    1000,
)


@dataclass(frozen=True)
class Paragraph:
    """A run of text, indented; `label` stands `hang` mm before its first line; `gap` is the room above it, mm.

    One that `leads` is never the last of a column that goes on in another.
    """

    text: str
    size: float = TEXT_SIZE
    bold: bool = False
    label: str = ""
    indent: float = 0.0
    hang: float = 0.0
    gap: float = 1.6
    leads: bool = False


def scale_for(width: float, height: float, room_width: float, room_height: float) -> float:
    """The n of the largest plain scale 1 : n at which width x height mm fits into the room."""
    fits = (n for n in SCALES if width / n <= room_width and height / n <= room_height)
    return float(next(fits, max(width / room_width, height / room_height)))


def scale_words(n: float) -> str:
    """A scale as it is printed, "1 : 12"."""
    return f"1 : {n:g}" if n in SCALES else f"1 : {number(n, 1)}"


def heading(page: Page, title: str, note: str = "") -> Drawing:
    """A page's title, a note at the right of it, and a line under both."""
    body = page.body
    note = shortened(note, TEXT_SIZE, body.width / 2)
    note_room = width_of(note, TEXT_SIZE) + 6.0 if note else 0.0
    short = shortened(title, 6.0, body.width - note_room, bold=True)
    parts: list[Primitive] = [Text((body.left, 20.0), short, 6.0, bold=True)]
    if note:
        parts.append(Text((body.right, 20.0), note, TEXT_SIZE, anchor="end"))
    return Drawing((*parts, segment((body.left, 24.0), (body.right, 24.0), "rule")))


def with_feet(page: Page, pages: Sequence[Drawing], title: str) -> tuple[Leaf, ...]:
    """The pages with the project's title and the page number at the foot."""
    return tuple(
        Leaf(drawing + _foot(page, title, tr("page {number} of {count}", number=i, count=len(pages))), page)
        for i, drawing in enumerate(pages, 1)
    )


def _foot(page: Page, title: str, number: str) -> Drawing:
    short = shortened(title, FINE_SIZE, page.body.width - 40.0)
    at = page.height - 9.0
    return Drawing(
        (
            Text((page.body.left, at), short, FINE_SIZE, "fine text"),
            Text((page.body.right, at), number, FINE_SIZE, "fine text", anchor="end"),
        )
    )


def set_paragraph(paragraph: Paragraph, left: float, top: float, width: float) -> tuple[tuple[Text, ...], float]:
    """A paragraph set from a top left corner in a column; its lines of text and the y where it ends."""
    start = left + paragraph.indent
    lines = wrapped_lines(paragraph.text, paragraph.size, width - paragraph.indent, paragraph.bold)
    y = top + paragraph.gap
    texts = [
        Text((start, y + paragraph.size * (0.9 + LINE_HEIGHT * i)), line, paragraph.size, bold=paragraph.bold)
        for i, line in enumerate(lines)
    ]
    if paragraph.label and texts:
        texts.insert(0, Text((start - paragraph.hang, texts[0].at[1]), paragraph.label, paragraph.size, bold=True))
    return tuple(texts), y + paragraph.size * LINE_HEIGHT * len(lines)


def smaller(paragraph: Paragraph, factor: float) -> Paragraph:
    """The same words set smaller, the room above them too."""
    return replace(paragraph, size=paragraph.size * factor, gap=paragraph.gap * factor)


def flow(paragraphs: Sequence[Paragraph], column: Box) -> tuple[Drawing, tuple[Paragraph, ...], float]:
    """Paragraphs set down a column: what was set, the paragraphs that found no room, and the y where it ends."""
    done: list[tuple[tuple[Text, ...], float]] = []
    y, rest = column.top, tuple[Paragraph, ...]()
    for paragraph in paragraphs:
        lines, end = set_paragraph(paragraph, column.left, y, column.width)
        if end > column.bottom and done:
            while len(done) > 1 and paragraphs[len(done) - 1].leads:
                done.pop()
            rest = tuple(paragraphs[len(done) :])
            break
        done.append((lines, end))
        y = end
    texts = tuple(text for lines, _ in done for text in lines)
    return Drawing(texts), rest, done[-1][1] if done else y
