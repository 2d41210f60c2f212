"""Edge strips: a full-size strip along every sewn edge that says where the stripes must fall, for a pattern on paper.

A strip is cut into lengths that fit on a page. Each length is drawn in cloth mm first, turned upright, and packed.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.ops import substring

from core.geometry.paths import Points
from core.geometry.polyline import Floats, outward, points_at, tangent_at
from core.geometry.transform import rotation
from core.papers.check_squares import FOUR_INCHES_MM, check_squares
from core.papers.drawing import Anchor, Box, Drawing, Line, Primitive, Spot, Text, segment
from core.papers.figures import EdgeMarks, Figures, PanelFigures
from core.papers.labels import Labels
from core.papers.lettering import shortened
from core.papers.measures import Units
from core.papers.packing import MARGIN_MM, Put, packed
from core.papers.page import Leaf, Page, Paragraph, flow, heading
from core.papers.pattern import stripes_within, upright_deg
from core.papers.tiles import LABEL_MM

OUTSIDE_MM, INSIDE_MM = 12.0, 24.0
"""How far a strip reaches beyond the stitching line and into the panel."""

JOIN_MM = 10.0
"""Lengths of one strip overlap by so much."""

TICK_MM = 4.0
LETTER_MM = 2.9


@dataclass(frozen=True, eq=False)
class StripLength:
    """One length of a strip: which edge, which length of how many, and from where to where along the edge, mm.

    Distances run along the stitching line from the edge's upper corner.
    """

    figures: PanelFigures
    marks: EdgeMarks
    number: int
    count: int
    start: float
    end: float

    @cached_property
    def line(self) -> Points:
        """The whole stitching line of the edge from its upper corner on, cloth mm; shape (n, 2)."""
        return self.figures.edge_line(self.marks)

    @cached_property
    def outline(self) -> Points:
        """The strip itself: a band round this length of the stitching line, cloth mm; shape (n, 2)."""
        part = substring(LineString(self.line), self.start, self.end).simplify(0.01)
        side = 1.0 if self.marks.downwards else -1.0
        bands = [part.buffer(width * side, single_sided=True) for width in (-OUTSIDE_MM, INSIDE_MM)]
        ring = np.array(_one(bands).exterior.coords)[:-1]
        return ring

    @cached_property
    def upright_deg(self) -> float:
        """By how much it is turned to stand upright on the page, its upper end at the top."""
        first, last = points_at(self.line, np.array([self.start, self.end]))
        return 90.0 - math.degrees(math.atan2(last[1] - first[1], last[0] - first[0]))


def _one(bands: Sequence[Polygon]) -> Polygon:
    """Both halves of a band as one outline; slivers that a bend leaves are dropped."""
    union = bands[0].union(bands[1]).buffer(0.02, join_style="mitre").buffer(-0.02, join_style="mitre")
    parts = getattr(union, "geoms", [union])
    return max(parts, key=lambda part: part.area)


def strip_lengths(figures: Figures, page: Page) -> tuple[StripLength, ...]:
    """All lengths of the strips of all edges that are sewn on striped cloth, in the order of the panels."""
    longest = page.height - 2 * MARGIN_MM - LABEL_MM - 6.0
    return tuple(
        length
        for panel in figures.panels
        for marks in panel.edges
        if panel.cloth.repeat
        for length in _lengths_of(panel, marks, longest)
    )


def _lengths_of(panel: PanelFigures, marks: EdgeMarks, longest: float) -> Iterator[StripLength]:
    """As few lengths as the page allows, all but the last as long as it allows."""
    count = max(math.ceil((marks.length_mm - JOIN_MM) / (longest - JOIN_MM)), 1)
    for number in range(count):
        start = number * (longest - JOIN_MM)
        yield StripLength(panel, marks, number + 1, count, start, min(start + longest, marks.length_mm))


def strip_pages(figures: Figures, page: Page, written: Page, units: Units) -> tuple[Leaf, ...]:
    """A page of instructions with the check squares, then the strips, packed; nothing where no edge is striped."""
    lengths = strip_lengths(figures, page)
    if not lengths:
        return ()
    drawn = [_drawn(length, units) for length in lengths]
    sizes = [(box.width, box.height + LABEL_MM) for _, box in drawn]
    pages = packed(sizes, page)
    leaves = [Leaf(_strips_on(puts, drawn, lengths), page) for puts in pages]
    return (Leaf(_first_page(written, units, len(lengths), len(pages)), written), *leaves)


def _strips_on(puts: Sequence[Put], drawn: Sequence[tuple[Drawing, Box]], lengths: Sequence[StripLength]) -> Drawing:
    drawing = Drawing()
    for put in puts:
        part, box = drawn[put.index]
        drawing += put.lay(part + _label(lengths[put.index], box), (box.left, box.top), box.height + LABEL_MM)
    return drawing


def _label(length: StripLength, box: Box) -> Drawing:
    part = f" {length.number}/{length.count}" if length.count > 1 else ""
    name = f"{length.figures.number} {length.marks.edge}{part}"
    return Drawing((Text((box.left, box.bottom + 3.6), shortened(name, 3.4, box.width, bold=True), 3.4, bold=True),))


def _drawn(length: StripLength, units: Units) -> tuple[Drawing, Box]:
    """A length of a strip standing upright, and the box round it, mm."""
    stripes = stripes_within(length.figures, length.outline)
    lines = Drawing((Line(length.outline, "strip", closed=True), *_stitching(length)))
    upright = (stripes + lines).moved(length.upright_deg, (0.0, 0.0))
    box = Box.round(length.outline @ rotation(length.upright_deg, False).T)
    return upright + Drawing(tuple(_marks(length, units))), box


def _stitching(length: StripLength) -> Iterator[Primitive]:
    part = substring(LineString(length.line), length.start, length.end)
    yield Line(np.array(part.coords), "net line")
    for notch in length.figures.notches:
        if notch.edge == length.marks.edge and part.distance(_point(notch.point)) < 1e-3:
            yield Line(
                np.array([notch.point - notch.out * TICK_MM, notch.point + notch.out * (OUTSIDE_MM - 1)]), "notch"
            )


def _point(at: Points) -> LineString:
    return LineString([at, at + 1e-9])


def _marks(length: StripLength, units: Units) -> Iterator[Primitive]:
    """Heights and meeting places with their numbers, and the names, in the upright frame of the page."""
    labels, strip = Labels(), Polygon(length.outline @ rotation(length.upright_deg, False).T)
    for place, words, role in _places(length, units):
        here, inward = _upright_at(length, place)
        if role == "mark":
            yield Spot(_xy(here), "mark", 0.8)
        else:
            yield segment(_xy(here), _xy(here + inward * TICK_MM), "height")
        yield from labels.place(_number_candidates(here, inward, words, role == "mark"), strip)
    yield from labels.place(_name_candidates(length), strip)


def _number_candidates(here: Floats, inward: Floats, words: str, bold: bool) -> Iterator[tuple[Text, ...]]:
    """Beside its place, level with it or a little lower or higher."""
    for down in (0.0, 1.6, -1.6, 3.2, -3.2):
        for reach in (6.0, 9.0, 12.0):
            yield _beside(here + inward * reach + (0.0, down), inward, words, bold)


def _places(length: StripLength, units: Units) -> Iterator[tuple[float, str, str]]:
    """Where lead stripes meet the edge, then the heights on a ruler's round numbers."""
    inside = [place for place in length.marks.meets_mm if length.start <= place <= length.end]
    for place in inside:
        yield place, units.bare(place), "mark"
    every = units.ruler_mm * (5 if units.name != "in" else 2)
    first, last = math.ceil(length.start / every), math.floor(length.end / every)
    for count in range(first, last + 1):
        yield count * every, units.whole(count * every), "height"


def _upright_at(length: StripLength, place: float) -> tuple[Floats, Floats]:
    """A place of the stitching line and the unit vector into the panel, in the upright frame."""
    (here,) = points_at(length.line, np.array([place]))
    out = outward(tangent_at(length.line, place)) * (1.0 if length.marks.downwards else -1.0)
    turn = rotation(length.upright_deg, False)
    return turn @ here, -turn @ out


def _xy(point: Floats) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _beside(at: Floats, inward: Floats, words: str, bold: bool) -> tuple[Text, ...]:
    down = float(at[1]) + LETTER_MM * 0.3
    anchor: Anchor = "start" if inward[0] >= 0 else "end"
    return (Text((float(at[0]), down), words, LETTER_MM, anchor=anchor, bold=bold, halo=True),)


def _name_candidates(length: StripLength) -> Iterator[tuple[Text, ...]]:
    """Panel, edge and seam, lengthwise on the strip, where there is room."""
    figures, marks = length.figures, length.marks
    name = f"{figures.number} {figures.title}: {marks.edge} · {marks.seam} · {figures.cloth.title}"
    room = length.end - length.start
    for inside in (INSIDE_MM - 4.0, INSIDE_MM - 7.0, INSIDE_MM - 10.0):
        for share in (0.5, 0.4, 0.6, 0.3, 0.7):
            here, inward = _upright_at(length, length.start + share * room)
            at = here + inward * inside
            short = shortened(name, LETTER_MM, min(2 * share, 2 - 2 * share) * room - 14.0)
            if short:
                angle = upright_deg(np.array([-inward[1], inward[0]]))
                yield (Text(_xy(at), short, LETTER_MM, anchor="middle", angle_deg=angle, halo=True),)


def _first_page(page: Page, units: Units, strips: int, pages: int) -> Drawing:
    body = page.body
    words = [Paragraph(text) for text in _instructions(units)]
    words.append(Paragraph(f"{strips} lengths on {pages} pages after this one."))
    text, _, end = flow(words, Box(body.left, 26.0, body.right, body.bottom - FOUR_INCHES_MM))
    return (
        heading(page, "Edge strips", "for a pattern that you have on paper")
        + text
        + check_squares((body.left, end + 8.0))
    )


def _instructions(units: Units) -> tuple[str, ...]:
    return (
        "Measure the squares: the strips are full size and must be printed so (100 %).",
        "A strip belongs to one edge of one panel. It shows the cloth's stripes as they must fall there, seen from the"
        " face of the cloth. Its dashed line is the stitching line, its upper end the upper corner of the edge. A strip"
        f" in several lengths is joined so that the heights run on; the lengths overlap by {units.say(JOIN_MM)}.",
        "Pin it to your pattern, stitching line on stitching line, upper corner on upper corner. For a panel that is"
        " laid face down pin it to the other side of the paper. Then lay the pattern on the cloth so that the stripes"
        " run on from the strip.",
        "A dot is where the middle of a lead stripe meets the stitching line; bold numbers beside dots, and the plain"
        f" numbers beside ticks, are {units.title} down the stitching line from the upper corner. A thick short line is"
        " a notch.",
    )
