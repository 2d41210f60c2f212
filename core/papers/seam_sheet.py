"""The seam sheet: a page for every seam, to lie beside the machine: how it will look, what to mark, what to ease."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from core.model.pattern import PanelName, edge_of, panel_of
from core.papers.drawing import Anchor, Box, Drawing, Text, segment
from core.papers.figures import EdgeMarks, Figures, PanelFigures
from core.papers.lettering import shortened, width_of
from core.papers.page import FINE_SIZE, TEXT_SIZE, Leaf, Page, Paragraph, flow, heading, scale_words, with_feet
from core.papers.seam_picture import ROOM_FOR_NUMBERS_MM, columns_on_page, opened_seam
from core.papers.seam_remedies import LeadPair, lead_pairs, shifts_at
from core.papers.sheet import Sheet
from core.seams.readings import Reading, SeamReading
from core.units import INCH_MM, Units
from core.wording import later, tr

HALF_MM = 14.5
"""Width of one panel's side in the picture, on paper."""

COLUMN_MM = 2 * HALF_MM + 2 * ROOM_FOR_NUMBERS_MM
SCALES = (1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0, 10.0, 15.0, 20.0)
MOST_COLUMNS = 2
TOP_MM = 52.0
ROW_MM = 4.5
CELL_MM = 3.1
PUCKERS = 0.03
"""Easing more than this share of an edge's length shows."""

Row = tuple[str, ...]


@dataclass(frozen=True, eq=False)
class _Seam:
    """A seam with its reading and its two panels, left and right."""

    reading: SeamReading
    sides: tuple[PanelFigures, PanelFigures]
    heights: tuple[float, ...] | None
    units: Units

    @property
    def readings(self) -> tuple[Reading, ...]:
        """At the project's heights; else at every 100 mm, or every 4 in, and at both ends."""
        length = self.reading.line.length
        if self.heights is not None or self.units.name != "in":
            return self.reading.readings(self.heights)
        every = np.arange(0.0, length - 1e-6, 4 * INCH_MM)
        return self.reading.readings((*every.tolist(), length))

    @property
    def edges(self) -> tuple[str, str]:
        sewn = self.reading.line.sewn
        return edge_of(sewn.a), edge_of(sewn.b)

    @property
    def name(self) -> str:
        return self.reading.label

    @property
    def what(self) -> str:
        """What is matched."""
        return "stripe" if self.reading.way == "lengthwise" else "bar"

    @property
    def noun(self) -> str:
        """What is matched, as it is called on the page."""
        return tr("stripe" if self.what == "stripe" else "bar")


def seam_pages(figures: Figures, page: Page, units: Units) -> tuple[Leaf, ...]:
    """A page for every seam on striped cloth, more where its tables are long."""
    panels: Mapping[PanelName, PanelFigures] = {panel.name: panel for panel in figures.panels}
    drawings = [
        drawing
        for reading in figures.measurement.read
        for drawing in _pages(_seam_of(reading, panels, figures, units), page)
    ]
    return with_feet(page, drawings, figures.project.title or tr("Seam sheet"))


def _seam_of(reading: SeamReading, panels: Mapping[PanelName, PanelFigures], figures: Figures, units: Units) -> _Seam:
    sewn = reading.line.sewn
    sides = panels[panel_of(sewn.a)], panels[panel_of(sewn.b)]
    return _Seam(reading, sides, figures.project.heights, units)


def _pages(seam: _Seam, page: Page) -> Iterator[Drawing]:
    windows = _windows(seam.reading.line.length, page)
    picture = columns_on_page(
        opened_seam(seam.reading, seam.sides, HALF_MM * windows[0].n),
        seam.readings,
        windows,
        seam.units,
    )
    note = tr("left and right as seen from outside · drawn {scale}", scale=scale_words(windows[0].n))
    first = heading(page, tr("Seam: {name}", name=seam.name), note) + _sides_words(seam, page) + picture
    left = windows[-1].frame.right + ROOM_FOR_NUMBERS_MM + 2.0
    column = Box(left, TOP_MM - 8.0, page.body.right, page.body.bottom)
    words, rows, end = _tables(_blocks(seam), column)
    yield first + words + _advice(seam, Box(column.left, end + 3.0, column.right, page.body.bottom), bool(rows))
    while rows:
        words, rows, end = _tables(rows, page.body)
        last = Box(page.body.left, end + 3.0, page.body.right, page.body.bottom)
        yield heading(page, tr("Seam: {name}, continued", name=seam.name)) + words + _advice(seam, last, bool(rows))


def _windows(length: float, page: Page) -> list[Sheet]:
    """The seam in one column or two at the largest scale at which it fits on the page."""
    room = page.body.bottom - TOP_MM
    count, n = next(
        ((count, n) for n in SCALES for count in range(1, MOST_COLUMNS + 1) if length / n <= count * room),
        (MOST_COLUMNS, length / (MOST_COLUMNS * room)),
    )
    each = length / count
    depth = HALF_MM * n
    left = page.body.left + ROOM_FOR_NUMBERS_MM
    return [
        Sheet(Box(-depth, i * each, depth, (i + 1) * each), n, (left + i * COLUMN_MM, TOP_MM)) for i in range(count)
    ]


def _sides_words(seam: _Seam, page: Page) -> Drawing:
    """Which panel and edge lies on which side."""
    (left, right), (edge_a, edge_b) = seam.sides, seam.edges
    lines = (
        tr("Left: panel {number}, {title}, its {edge} edge.", number=left.number, title=left.title, edge=edge_a),
        tr("Right: panel {number}, {title}, its {edge} edge.", number=right.number, title=right.title, edge=edge_b),
    )
    body = page.body
    texts = [
        Text((body.left, 30.0 + 5.0 * i), shortened(line, TEXT_SIZE, body.width, bold=True), TEXT_SIZE, bold=True)
        for i, line in enumerate(lines)
    ]
    key = tr("{units}: heights on the left of the picture, steps on its right", units=seam.units.title)
    return Drawing((*texts, Text((body.left, 40.0), key, FINE_SIZE, "fine text")))


@dataclass(frozen=True)
class _Block:
    """A table: a title, the heads of its columns and where they end, and its rows; `note` stands under the title."""

    title: str
    heads: Row
    ends: tuple[float, ...]
    rows: tuple[Row, ...]
    note: str = ""


def _blocks(seam: _Seam) -> list[_Block]:
    """Steps at the heights, then the lead stripes to mark and ease, then all crossings."""
    unit = seam.units.name
    readings = _Block(
        tr("Steps, and moves that close them, {unit}", unit=unit),
        (tr("height"), tr("step"), tr("left edge"), tr("right edge")),
        (14.0, 27.0, 45.5, 66.0),
        tuple(_reading_rows(seam)),
    )
    marks = _Block(
        tr("Thread marks: lead {what}, {unit}", what=seam.noun, unit=unit),
        (tr("left at"), tr("right at"), tr("ease"), tr("edge")),
        (14.0, 31.0, 43.0, 45.0),
        tuple(_mark_rows(seam)),
        tr("Along each edge from its upper corner. Pin mark to mark; ease so much since the mark above."),
    )
    crossings = _Block(
        tr("Every {what}, heights in the seam, {unit}", what=seam.noun, unit=unit),
        (tr("left"), tr("right"), tr("gap"), tr("step"), seam.noun),
        (14.0, 28.5, 42.5, 54.5, 56.0),
        tuple(_crossing_rows(seam)),
    )
    return [block for block in (readings, marks, crossings) if block.rows]


def _reading_rows(seam: _Seam) -> Iterator[Row]:
    readings = seam.readings
    heights = np.array([reading.at_mm for reading in readings])
    moves = shifts_at(seam.reading, seam.sides[0].at, seam.sides[1].at, heights).tolist()
    for reading, move in zip(readings, moves, strict=True):
        height, step = seam.units.whole(reading.at_mm), _signed(seam.units.fine(reading.step_mm))
        if not reading.counts:
            yield height, tr("open"), "", ""
        elif math.isnan(move):
            yield height, step, "–", "–"
        else:
            size = seam.units.fine(abs(move))
            out, into = tr("out {far}", far=size), tr("in {far}", far=size)
            ways = (size, size) if _is_nothing(size) else (out, into) if move > 0 else (into, out)
            yield height, step, *ways


def _mark_rows(seam: _Seam) -> Iterator[Row]:
    """The lead stripes' pairs, measured along each edge by itself."""
    line, units = seam.reading.line, seam.units
    marks = [_marks_of(figures, ref) for figures, ref in zip(seam.sides, (line.sewn.a, line.sewn.b), strict=True)]
    for pair in lead_pairs(seam.reading):
        places = [
            _along_edge(_met(seam, one), height, line.length, index, line.edge_lengths, line.sewn.seam.join)
            for index, (one, height) in enumerate(zip(marks, (pair.a_at_mm, pair.b_at_mm), strict=True))
        ]
        yield units.bare(places[0]), units.bare(places[1]), *_ease_words(pair, units)


def _ease_words(pair: LeadPair, units: Units) -> tuple[str, str]:
    """How much is eased since the pair above, and of which edge."""
    if pair.ease_mm is None or pair.span_mm is None:
        return "", ""
    size, side = units.fine(abs(pair.ease_mm)), tr("right" if pair.ease_mm > 0 else "left")
    if _is_nothing(size):
        return tr("none"), ""
    return size, side + (tr(", puckers") if abs(pair.ease_mm) > PUCKERS * pair.span_mm else "")


def _is_nothing(size: str) -> bool:
    """Whether a number that is shown has no digit but noughts."""
    return not size.strip("0.,")


def _marks_of(figures: PanelFigures, ref: str) -> EdgeMarks:
    return next(marks for marks in figures.edges if marks.ref == ref)


def _met(seam: _Seam, marks: EdgeMarks) -> tuple[float, ...]:
    return marks.meets_mm if seam.what == "stripe" else marks.bars_mm


def _along_edge(
    meets_mm: tuple[float, ...], height: float, length: float, index: int, lengths: tuple[float, float], join: str
) -> float:
    """A height of the seam as a distance along one of its edges: the nearest of the edge's own meeting places."""
    own = lengths[index]
    place = height * own / length if join == "spread" else height + (own - length if join == "bottom" else 0.0)
    return min(meets_mm, key=lambda meets: abs(meets - place), default=place)


def _crossing_rows(seam: _Seam) -> Iterator[Row]:
    units = seam.units
    for one in sorted(seam.reading.crossings, key=lambda crossing: crossing.a_at_mm):
        gap, step = _signed(units.fine(one.along_gap_mm)), _signed(units.fine(one.step_mm))
        name = shortened(one.stripe, CELL_MM, 12.0)
        yield units.bare(one.a_at_mm), units.bare(one.b_at_mm), gap, step, name


def _signed(number: str) -> str:
    return number.replace("-", "−")


def _tables(blocks: Sequence[_Block], column: Box) -> tuple[Drawing, list[_Block], float]:
    """Tables down a column: what was set, what found no room, and the y where it ends."""
    drawing, y = Drawing(), column.top
    for index, block in enumerate(blocks):
        head, top = _table_head(block, column, y + (4.0 if index else 0.0))
        fitting = int((column.bottom - top) / ROW_MM)
        if fitting < min(2, len(block.rows)):
            return drawing, list(blocks[index:]), y
        drawing += head + _rows(block, block.rows[:fitting], column, top)
        y = top + ROW_MM * min(fitting, len(block.rows))
        if fitting < len(block.rows):
            rest = _Block(block.title, block.heads, block.ends, block.rows[fitting:], block.note)
            return drawing, [rest, *blocks[index + 1 :]], y
    return drawing, [], y


def _table_head(block: _Block, column: Box, top: float) -> tuple[Drawing, float]:
    words = [Paragraph(block.title, 3.3, bold=True, gap=0.0)]
    words += [Paragraph(block.note, 2.7, gap=0.6)] if block.note else []
    drawing, _, end = flow(words, Box(column.left, top, column.right, column.bottom + 40.0))
    heads = _cells(block, block.heads, column, end + 3.4, bold=True)
    return drawing + heads + Drawing((segment(*_rule(column, end + 4.6), "rule"),)), end + 5.2


def _rule(column: Box, y: float) -> tuple[tuple[float, float], tuple[float, float]]:
    return (column.left, y), (min(column.right, column.left + 75.0), y)


def _rows(block: _Block, rows: Sequence[Row], column: Box, top: float) -> Drawing:
    drawing = Drawing()
    for index, row in enumerate(rows):
        drawing += _cells(block, row, column, top + ROW_MM * index + 3.3)
    return drawing


def _cells(block: _Block, row: Row, column: Box, y: float, bold: bool = False) -> Drawing:
    """Numbers end at their columns; a last column that begins where the one before ends holds words. Words that are
    too long for their column are set smaller."""
    texts = []
    for index, (words, end) in enumerate(zip(row, block.ends, strict=True)):
        room = end - (block.ends[index - 1] if index else 0.0)
        starts = index == len(block.ends) - 1 and room < 3.0
        anchor: Anchor = "start" if starts else "end"
        if words:
            size = CELL_MM if starts else min(CELL_MM, CELL_MM * (room - 1.0) / width_of(words, CELL_MM, bold))
            texts.append(Text((column.left + end, y), words, size, anchor=anchor, bold=bold))
    return Drawing(tuple(texts))


def _advice(seam: _Seam, column: Box, more: bool) -> Drawing:
    """What to do about the seam, after its tables."""
    if more:
        return Drawing()
    return flow([Paragraph(text, 3.0, gap=1.4) for text in _advice_words(seam)], column)[0]


def _advice_words(seam: _Seam) -> Iterator[str]:
    reading, units = seam.reading, seam.units
    if reading.worst and reading.rms_mm is not None:
        worst, at = reading.worst
        yield (
            tr(
                "On the whole {rms} (rms); worst {worst} at {height}.",
                rms=units.say_fine(reading.rms_mm),
                worst=units.say_fine(worst),
                height=units.say_whole(at),
            )
        )
    if np.isfinite(shifts_at(reading, seam.sides[0].at, seam.sides[1].at, reading.line.height)).any():
        yield tr("Moving the stitching line as the first table says closes the seam and leaves the girth as it is.")
    else:
        yield tr("Moving the stitching line closes nothing here: it takes both edges across the stripes alike.")
    ease = reading.easing_ratio
    if ease is not None and abs(ease) > 5e-4:
        right = later("Easing instead takes {ease:.1f} % of the right edge{puckers}.")
        left = later("Easing instead takes {ease:.1f} % of the left edge{puckers}.")
        puckers = tr("; that would pucker") if abs(ease) > PUCKERS else ""
        yield tr(right if ease > 0 else left, ease=abs(ease) * 100, puckers=puckers)
    if not reading.all_stripes_meet_at_zero:
        yield tr(
            "The repeat is uneven and the edges lean opposite ways: only the lead {what} can meet.", what=seam.noun
        )
