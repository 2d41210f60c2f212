"""Placement cards: one panel each, drawn on its stripes as it lies, beside what to do in order."""

import math
from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.geometry import Point as Place

from core.geometry.paths import Points
from core.geometry.polyline import length, outward, points_at, tangent_at
from core.papers.card_words import card_paragraphs
from core.papers.cloth_drawing import cloth_drawing, lead_lines, neighbour_drawing, panel_drawing
from core.papers.drawing import Anchor, Box, Drawing, Line, Primitive, Spot, Text, joined
from core.papers.figures import Figures, GrainEnd, PanelFigures
from core.papers.labels import Labels, block
from core.papers.lettering import LINE_HEIGHT
from core.papers.neighbours import neighbours_laid
from core.papers.page import (
    FINE_SIZE,
    SCALES,
    TEXT_SIZE,
    Page,
    Paragraph,
    flow,
    heading,
    scale_for,
    scale_words,
    smaller,
)
from core.papers.pattern import upright_deg
from core.papers.sheet import FINEST_ON_PAPER_MM, Sheet
from core.units import Units
from core.wording import later, tr

PICTURE_MM, NARROW_MM = 100.0, 70.0
"""Most and least width of the room for the picture; the words stand right of it."""
BESIDE_MM = 6.0
"""From that room to the words."""

MARGIN_MM = 13.0
NAME_SIZE = 2.7
TIGHTER = 0.9
"""Words that would just run over onto a second page are set smaller by this factor instead."""
UNDER_MM = 6.0
"""From the picture to words under it."""
SMALLER_PICTURES = 3
"""So many plain scales smaller the picture may be, for the words to stay on its page."""
LEAST_APART_MM = 2.0
"""Meeting places closer than this on paper are not marked each; the words and the table have them all."""


def card_pages(
    figures: Figures, page: Page, units: Units, wanted: Callable[[PanelFigures], bool]
) -> dict[int, tuple[Drawing, ...]]:
    """The pages of every card wanted by the panel's number; a second page only where the words need it."""
    titles = {panel.name: panel.title for panel in figures.panels}
    return {
        panel.number: _Card(panel, [other for other in cloth.panels if other is not panel], page, units).pages(titles)
        for cloth in figures.cloths
        for panel in cloth.panels
        if wanted(panel)
    }


@dataclass(frozen=True, eq=False)
class _Card:
    """One panel among the others on its cloth, on a page of a size, in some units."""

    figures: PanelFigures
    others: list[PanelFigures]
    page: Page
    units: Units

    def pages(self, titles: Mapping[str, str]) -> tuple[Drawing, ...]:
        figures, page = self.figures, self.page
        laid = neighbours_laid(figures, self.others)
        sheet, words, rest = self._arranged(card_paragraphs(figures, laid, titles, self.units))
        title = f"{figures.number} · {figures.title}"
        head = heading(
            page,
            title,
            tr("{title} · drawn {scale}", title=figures.cloth.title, scale=scale_words(sheet.n)),
        )
        pages = [head + _picture(figures, self.others, sheet, self.units) + words]
        while rest:
            words, rest, _ = flow(rest, page.body)
            pages.append(heading(page, tr("{title}, continued", title=title)) + words)
        return tuple(pages)

    def _arranged(self, paragraphs: list[Paragraph]) -> tuple[Sheet, Drawing, tuple[Paragraph, ...]]:
        """The picture's sheet, the words on its page and those that find no room there: the largest picture and the
        largest words that keep the card on one page."""
        body = self.page.body
        sheets = _sheets_for(self.figures, body)
        for sheet in sheets:
            for factor in (1.0, TIGHTER):
                words, rest = _words_round(sheet, [smaller(one, factor) for one in paragraphs], body)
                if not rest:
                    return sheet, words, rest
        return sheets[0], *_words_round(sheets[0], paragraphs, body)


def _words_round(sheet: Sheet, paragraphs: list[Paragraph], body: Box) -> tuple[Drawing, tuple[Paragraph, ...]]:
    """Words beside the picture, down to the foot; where they don't find room so, down to its end and then under it."""
    column = Box(body.left + _room_width(sheet.frame.width) + BESIDE_MM, body.top - 1.0, body.right, body.bottom)
    beside, rest, _ = flow(paragraphs, column)
    under = sheet.frame.bottom + UNDER_MM
    if not rest or under > body.bottom - TEXT_SIZE * LINE_HEIGHT:
        return beside, rest
    beside, rest, end = flow(paragraphs, replace(column, bottom=under - UNDER_MM / 2))
    below, rest, _ = flow(rest, replace(body, top=max(under, end)))
    return beside + below, rest


def _room_width(picture_mm: float) -> float:
    """Width of the room of a picture of some width."""
    return min(max(picture_mm, NARROW_MM), PICTURE_MM)


def _sheets_for(figures: PanelFigures, body: Box) -> list[Sheet]:
    """The panel with a margin of cloth round it, as large as its room allows, and some scales smaller."""
    box, most = Box.round(figures.cut_ring), body.height - 5.0
    n = scale_for(box.width, box.height, PICTURE_MM - 2 * MARGIN_MM, most - 2 * MARGIN_MM)
    return [_sheet(box, body, scale) for scale in (n, *[s for s in SCALES if s > n][:SMALLER_PICTURES])]


def _sheet(box: Box, body: Box, n: float) -> Sheet:
    """A box of cloth and a margin round it at 1 : n, at the body's top, in the middle of the picture's room."""
    window = box.grown(MARGIN_MM * n)
    width = window.width / n
    return Sheet(window, n, (body.left + (_room_width(width) - width) / 2, body.top))


def _picture(figures: PanelFigures, others: list[PanelFigures], sheet: Sheet, units: Units) -> Drawing:
    finest = FINEST_ON_PAPER_MM * sheet.n
    lying = cloth_drawing(figures.cloth, sheet.window, finest)
    leads = lead_lines(figures.cloth, sheet.window, finest)
    beside = joined(neighbour_drawing(other) for other in others)
    lines = sheet.on_page(lying + leads + beside + panel_drawing(figures))
    return lines + _lettering(figures, sheet, units)


def _lettering(figures: PanelFigures, sheet: Sheet, units: Units) -> Drawing:
    """Dots and all words in the picture: meeting places first, then grain ends, number and edges' names."""
    labels = Labels()
    for ring in (figures.cut_ring, figures.net_ring):
        line = sheet.points(ring)
        labels.take(LineString(np.vstack([line, line[:1]])).buffer(0.25))
    for flaw in figures.cloth.flaw_outlines:
        labels.take(Polygon(sheet.points(np.array(flaw))))
    labels.take(LineString([sheet.point(0.0, 0.0), sheet.point(figures.cloth.width, 0.0)]).buffer(0.25))
    labels.take(Place(sheet.point(figures.grain_bottom.u_mm, figures.grain_bottom.v_mm)).buffer(3.2))
    parts = [*_meeting_marks(figures, sheet, labels, units), *_grain_ends(figures, sheet, labels, units)]
    parts += labels.place(_number_candidates(figures, sheet))
    for name, line in figures.net.items():
        parts += labels.place(_edge_name_candidates(name, sheet.points(line)), Polygon(sheet.points(figures.net_ring)))
    return Drawing(tuple(parts))


def _meeting_marks(figures: PanelFigures, sheet: Sheet, labels: Labels, units: Units) -> list[Primitive]:
    parts: list[Primitive] = []
    for marks in figures.edges:
        line, last = sheet.points(figures.net[marks.edge]), -math.inf
        for point, place in zip(sheet.points(figures.meeting_points(marks)), marks.meets_mm, strict=True):
            if place - last < LEAST_APART_MM * sheet.n:
                continue
            last = place
            parts.append(Spot((float(point[0]), float(point[1])), "mark", 0.7))
            parts += _numbered(point, _outward_at(line, point), units.bare(place), labels)
    return parts


def _numbered(point: Points, out: Points, words: str, labels: Labels) -> list[Primitive]:
    """The number of a meeting place outside the panel, with a thin line to it; nothing where there is no room."""
    reaches = (3.0, 4.0, 5.0, 6.5, 8.0, 10.0, 12.0)
    placed = labels.place((_beside(point + out * reach, out, words),) for reach in reaches)
    if not placed:
        return []
    end = np.array(placed[0].at) - (0.0, NAME_SIZE * 0.3)
    return [Line(np.array([point, end]), "mark"), *placed]


def _beside(at: Points, out: Points, words: str) -> Text:
    anchor: Anchor = "start" if out[0] >= 0 else "end"
    return Text((float(at[0]), float(at[1]) + NAME_SIZE * 0.3), words, NAME_SIZE, anchor=anchor, halo=True)


def _outward_at(line: Points, point: Points) -> Points:
    """Unit vector out of the panel at a point of one of its edges; edges run clockwise on the page."""
    direction = tangent_at(line, LineString(line).project(Place(point)))
    return outward(direction)


def _grain_ends(figures: PanelFigures, sheet: Sheet, labels: Labels, units: Units) -> list[Primitive]:
    """A dot on either end of the grain line and, beyond the cutting line, how far it lies from a lead stripe."""
    top, bottom = (np.array(sheet.point(end.u_mm, end.v_mm)) for end in (figures.grain_top, figures.grain_bottom))
    along = (bottom - top) / np.hypot(*(bottom - top))
    parts: list[Primitive] = []
    for end, point, out in ((figures.grain_top, top, -along), (figures.grain_bottom, bottom, along)):
        words = [(_off_lead(end, units), FINE_SIZE, True)]
        candidates = (
            block((float(point[0] + side), float(point[1] + out[1] * reach)), words)
            for side in (0.0, 8.0, -8.0, 16.0, -16.0)
            for reach in (4.5, 7.0, 9.0, 11.0, 13.0, 16.0)
        )
        parts += [Spot((float(point[0]), float(point[1])), "grain", 0.7), *labels.place(candidates)]
    return parts


def _off_lead(end: GrainEnd, units: Units) -> str:
    if end.off_lead_mm is None:
        return ""
    if abs(end.off_lead_mm) < units.nothing_mm:
        return tr("on a lead stripe")
    right, left = later("{far} right of lead stripe"), later("{far} left of lead stripe")
    return tr(right if end.off_lead_mm > 0 else left, far=units.bare(abs(end.off_lead_mm)))


def _number_candidates(figures: PanelFigures, sheet: Sheet) -> Iterator[tuple[Text, ...]]:
    """The panel's number on its grain line, somewhere in the lower half of it."""
    top, bottom = figures.grain_top, figures.grain_bottom
    for share in (0.55, 0.62, 0.48, 0.7, 0.4):
        at = sheet.point(top.u_mm + share * (bottom.u_mm - top.u_mm), top.v_mm + share * (bottom.v_mm - top.v_mm))
        yield block(at, [(f"{figures.number}", 6.0, True)])


def _edge_name_candidates(name: str, line: Points) -> Iterator[tuple[Text, ...]]:
    """An edge's name inside the panel, along the edge, wherever it finds room."""
    total = length(line)
    for inside in (2.6, 3.6, 5.0, 7.0, 9.0):
        for share in (0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2):
            (point,) = points_at(line, np.array([share * total]))
            direction = tangent_at(line, share * total)
            at = point - outward(direction) * inside
            yield block((float(at[0]), float(at[1])), [(name, NAME_SIZE, False)], upright_deg(direction))
