"""Edge strips: full-size strips along sewn edges that say where the stripes must fall, for a pattern on paper."""

import math
from collections.abc import Iterator, Sequence

import numpy as np
from shapely.geometry import Polygon

from core.geometry.polyline import Floats, points_at
from core.geometry.transform import rotation
from core.model.panel import NotchMark
from core.papers.check_squares import FOUR_INCHES_MM, check_squares
from core.papers.drawing import Anchor, Box, Drawing, Line, Primitive, Spot, Text, joined, segment
from core.papers.figures import Figures
from core.papers.labels import Labels
from core.papers.lettering import shortened
from core.papers.packing import Put, packed
from core.papers.page import Leaf, Page, Paragraph, flow, heading
from core.papers.pattern import stripes_within, upright_deg
from core.papers.strip_edges import EdgeStretch
from core.papers.strip_lengths import (
    HALF_MM,
    INSIDE_MM,
    JOIN_MM,
    OUTSIDE_MM,
    Sides,
    Strip,
    drawn_in_frame,
    framed,
    strips_of,
)
from core.papers.strip_lengths import upright_deg as to_frame_deg
from core.papers.tiles import LABEL_MM
from core.units import Units
from core.wording import listed, tr, tr_n

TICK_MM = 4.0
NOTCH_INSIDE_MM = 8.0
LETTER_MM = 2.9


def strip_pages(figures: Figures, page: Page, written: Page, units: Units) -> tuple[Leaf, ...]:
    """A page of instructions with the check squares, then the strips, packed; nothing where no edge is striped."""
    strips = strips_of(figures, page)
    if not strips:
        return ()
    drawn = [strip_drawing(strip, units) for strip in strips]
    pages = packed([(strip.box.width, strip.box.height + LABEL_MM) for strip in strips], page)
    leaves = [Leaf(joined(_put_down(put, strips[put.index], drawn[put.index]) for put in puts), page) for puts in pages]
    return (Leaf(_first_page(written, units, len(strips), len(pages)), written), *leaves)


def _put_down(put: Put, strip: Strip, drawing: Drawing) -> Drawing:
    return put.lay(drawing, (strip.box.left, strip.box.top), strip.box.height + LABEL_MM)


def strip_drawing(strip: Strip, units: Units) -> Drawing:
    """A strip with its label below, in its frame."""
    stripes = joined(drawn_in_frame(side, stripes_within(side.figures, strip.band(side))) for side in strip.sides)
    first = strip.sides[0]
    net = Line(framed(first, np.array(first.part.coords)), "net line")
    notches = (_notch(strip, side, notch) for side in strip.sides for notch in side.notches)
    outline = Line(strip.outline, "strip", closed=True)
    return stripes + Drawing((outline, net, *notches, *_marks(strip, units), _label(strip)))


def _label(strip: Strip) -> Text:
    """Panels, the edge of a single one, and which strip of how many it is down the edge."""
    first = strip.sides[0]
    numbers = "|".join(f"{side.figures.number}" for side in strip.sides)
    part = f" {first.number}/{first.count}" if first.count > 1 else ""
    name = f"{numbers}{part}" if strip.shared else f"{numbers} {first.marks.edge}{part}"
    at = strip.box.left, strip.box.bottom + 3.6
    return Text(at, shortened(name, 3.4, strip.box.width, bold=True), 3.4, bold=True)


def _notch(strip: Strip, side: EdgeStretch, notch: NotchMark) -> Line:
    """From inside the stitching line outwards, as far as the side's own half of the strip goes."""
    outside = 0.0 if strip.shared else OUTSIDE_MM - 1
    ends = np.array([notch.point - notch.out * NOTCH_INSIDE_MM, notch.point + notch.out * outside])
    return Line(framed(side, ends), "notch")


def _marks(strip: Strip, units: Units) -> Iterator[Primitive]:
    """Heights and meeting places with their numbers, and the names, in the frame of the length."""
    labels, room = Labels(), Polygon(strip.outline)
    for side in strip.sides:
        for place, words, role in _places(side, units):
            here, inward = _framed_at(side, place)
            if role == "mark":
                yield Spot(_xy(here), "mark", 0.8)
            else:
                yield segment(_xy(here), _xy(here + inward * TICK_MM), "height")
            yield from labels.place(_number_candidates(here, inward, words, role == "mark"), room)
    for index in range(len(strip.sides)):
        yield from labels.place(_name_candidates(strip, index), room)


def _number_candidates(here: Floats, inward: Floats, words: str, bold: bool) -> Iterator[tuple[Text, ...]]:
    """Beside its place, level with it or a little lower or higher."""
    for down in (0.0, 1.6, -1.6, 3.2, -3.2):
        for reach in (6.0, 9.0, 12.0):
            yield _beside(here + inward * reach + (0.0, down), inward, words, bold)


def _places(side: EdgeStretch, units: Units) -> Iterator[tuple[float, str, str]]:
    """Where lead stripes and bars meet the edge, then the heights on a ruler's round numbers."""
    inside = [place for place in (*side.marks.meets_mm, *side.marks.bars_mm) if side.start <= place <= side.end]
    for place in inside:
        yield place, units.bare(place), "mark"
    every = units.ruler_mm * (5 if units.name != "in" else 2)
    first, last = math.ceil(side.start / every), math.floor(side.end / every)
    for count in range(first, last + 1):
        yield count * every, units.whole(count * every), "height"


def _framed_at(side: EdgeStretch, place: float) -> tuple[Floats, Floats]:
    """A place of the stitching line and the unit vector into the panel, in the frame of the strip."""
    (here,) = framed(side, points_at(side.line, np.array([place])))
    return here, np.asarray(rotation(to_frame_deg(side), False) @ side.inward(place))


def _xy(point: Floats) -> tuple[float, float]:
    return float(point[0]), float(point[1])


def _beside(at: Floats, inward: Floats, words: str, bold: bool) -> tuple[Text, ...]:
    down = float(at[1]) + LETTER_MM * 0.3
    anchor: Anchor = "start" if inward[0] >= 0 else "end"
    return (Text((float(at[0]), down), words, LETTER_MM, anchor=anchor, bold=bold, halo=True),)


def _name_candidates(strip: Strip, index: int) -> Iterator[tuple[Text, ...]]:
    """Panels and edges that a side serves, lengthwise on the strip, where there is room."""
    side, name = strip.sides[index], _serves(strip, index)
    room, breadth = side.end - side.start, HALF_MM if strip.shared else INSIDE_MM
    for inside in (breadth - 3.0, breadth - 6.0, breadth - 9.0):
        for share in (0.5, 0.4, 0.6, 0.3, 0.7):
            here, inward = _framed_at(side, side.start + share * room)
            short = shortened(name, LETTER_MM, min(2 * share, 2 - 2 * share) * room - 14.0)
            if short:
                angle = upright_deg(np.array([-inward[1], inward[0]]))
                at = _xy(here + inward * inside)
                yield (Text(at, short, LETTER_MM, anchor="middle", angle_deg=angle, halo=True),)


def _serves(strip: Strip, index: int) -> str:
    """The panel and the edge of one side of a strip, and what else it serves."""
    words = [_name(strip.sides[index])]
    words += [tr("same for {names}", names=_names(strip.same, index))] if strip.same else []
    words += [tr("turned over for {names}", names=_names(strip.turned_over, index))] if strip.turned_over else []
    return " · ".join(words)


def _name(side: EdgeStretch) -> str:
    return f"{side.figures.number} {side.figures.title}: {side.marks.edge}"


def _names(others: Sequence[Sides], index: int) -> str:
    return listed(_name(sides[index]) for sides in others)


def _first_page(page: Page, units: Units, strips: int, pages: int) -> Drawing:
    body = page.body
    words = [Paragraph(text) for text in _instructions(units)]
    words.append(
        Paragraph(
            tr_n(
                "{strips} strips on {count} page after this one.",
                "{strips} strips on {count} pages after this one.",
                pages,
                strips=strips,
            )
        )
    )
    text, _, end = flow(words, Box(body.left, 26.0, body.right, body.bottom - FOUR_INCHES_MM))
    return (
        heading(page, tr("Edge strips"), tr("for a pattern that you have on paper"))
        + text
        + check_squares((body.left, end + 8.0))
    )


def _instructions(units: Units) -> tuple[str, ...]:
    return (
        tr("Measure the squares: the strips are full size and must be printed so (100 %)."),
        tr(
            "A strip shows the cloth's stripes as they must fall along an edge, seen from the face of "
            "the cloth. Its dashed line is the stitching line, its upper end the upper corner of the "
            "edge. Where both sides of a seam are one line they share a strip: the panel named on the "
            "left of the line has its stripes on the left, the other on the right. A long edge has "
            "several strips, joined so that the heights run on; they overlap by {overlap}.",
            overlap=units.say(JOIN_MM),
        ),
        tr(
            "Pin it to your pattern, stitching line on stitching line, upper corner on upper corner, "
            "with the named side inside the panel. For a panel that is laid face down pin it to the "
            "other side of the paper. Then lay the pattern on the cloth so that the stripes run on from "
            "the strip."
        ),
        tr(
            "A strip serves every edge that is named on it. Where it says turned over, trace its stripes "
            "through to the back and use it with the back up."
        ),
        tr(
            "A dot is where the middle of a lead stripe or bar meets the stitching line; bold numbers "
            "beside dots, and the plain numbers beside ticks, are {units} down the stitching line from "
            "the upper corner. A thick short line is a notch.",
            units=units.title,
        ),
    )
