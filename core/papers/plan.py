"""The cutting plan: the whole lay of a cloth on one page, and a long one once more in stretches that can be read."""

import math
from collections.abc import Iterator

import numpy as np
from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.papers.cloth_drawing import cloth_drawing, panel_drawing
from core.papers.drawing import Box, Drawing, Point, Primitive, Text, joined, segment
from core.papers.figures import ClothFigures, PanelFigures
from core.papers.labels import Labels, block
from core.papers.lettering import shortened, wrapped_lines
from core.papers.page import FINE_SIZE, TEXT_SIZE, Page, Paragraph, flow, heading, scale_for, scale_words
from core.papers.sheet import FINEST_ON_PAPER_MM, Sheet
from core.units import Units
from core.wording import tr

COARSEST_READABLE = 15.0
"""A plan at a smaller scale than 1 : 15 is repeated in stretches."""

OVERLAP_MM = 100.0
BEYOND_MM = 110.0


def plan_pages(cloth: ClothFigures, page: Page, units: Units) -> tuple[Drawing, ...]:
    """The plan of one cloth: one page, and more where the whole is too small to read."""
    whole = _whole(cloth, page)
    title = tr("Cutting plan: {title}", title=cloth.cloth.title)
    first = heading(page, title, scale_words(whole.n)) + _facts(cloth, whole, page, units)
    first += _sheet_drawing(cloth, whole, units)
    if whole.n <= COARSEST_READABLE:
        return (first,)
    stretches = list(_stretches(cloth, page))
    rest = (_stretch_page(cloth, sheet, i, len(stretches), page, units) for i, sheet in enumerate(stretches, 1))
    return (first, *rest)


def _room(page: Page) -> Box:
    """Where the cloth itself may lie on the page; the rulers stand outside it."""
    return Box(page.body.left + 11.0, 58.0, page.body.right - 11.0, page.body.bottom - 4.0)


def _whole(cloth: ClothFigures, page: Page) -> Sheet:
    window, room = Box(0.0, 0.0, cloth.cloth.width, _shown_length(cloth)), _room(page)
    return _sheet(window, scale_for(window.width, window.height, room.width, room.height), room)


def _shown_length(cloth: ClothFigures) -> float:
    """A little more than what is used, but no more than there is."""
    shown = cloth.length_mm + BEYOND_MM
    return shown if cloth.cloth.end is None else min(shown, max(cloth.cloth.end, cloth.length_mm))


def _sheet(window: Box, n: float, room: Box) -> Sheet:
    return Sheet(window, n, ((room.left + room.right - window.width / n) / 2, room.top))


def _stretches(cloth: ClothFigures, page: Page) -> Iterator[Sheet]:
    """Stretches of even length that overlap, at the largest scale at which the width fits."""
    shown, width, room = _shown_length(cloth), cloth.cloth.width, _room(page)
    n = scale_for(width, 0.0, room.width, room.height)
    reach = room.height * n
    count = max(math.ceil((shown - OVERLAP_MM) / (reach - OVERLAP_MM)), 1)
    each = (shown + (count - 1) * OVERLAP_MM) / count
    for i in range(count):
        start = i * (each - OVERLAP_MM)
        yield _sheet(Box(0.0, start, width, start + each), n, room)


def _stretch_page(cloth: ClothFigures, sheet: Sheet, number: int, count: int, page: Page, units: Units) -> Drawing:
    window = sheet.window
    words = tr(
        "Stretch {number} of {count}: from {top} to {bottom} {unit} of the cloth. Stretches overlap "
        "by {overlap} {unit}.",
        number=number,
        count=count,
        top=units.whole(window.top),
        bottom=units.whole(window.bottom),
        unit=units.name,
        overlap=units.whole(OVERLAP_MM),
    )
    note = flow([Paragraph(words)], Box(page.body.left, 25.0, page.body.right, 40.0))[0]
    title = tr("Cutting plan: {title}, {number}", title=cloth.cloth.title, number=number)
    return heading(page, title, scale_words(sheet.n)) + note + _sheet_drawing(cloth, sheet, units)


def _facts(cloth: ClothFigures, sheet: Sheet, page: Page, units: Units) -> Drawing:
    left, right = cloth.cloth.usable
    there = tr("as much as it takes") if cloth.cloth.end is None else units.say(cloth.cloth.end)
    repeated = tr(" The lay is long: the next pages show it larger.") if sheet.n > COARSEST_READABLE else ""
    words = [
        tr(
            "Length used {length}; length there is: {there}. Usable width {usable} of {width}. Share "
            "of it covered by panels: {share:.1f} %.",
            length=units.say(cloth.length_mm),
            there=there,
            usable=units.bare(right - left),
            width=units.say(cloth.cloth.width),
            share=cloth.used_share * 100,
        ),
        tr(
            "Cloth face up in a single layer, cut end at the top. Solid line: cut. Dashed: stitching "
            "line. Arrow: grain, from a panel's top to its bottom. Crossed box: flaw. Rulers in {unit}. "
            "The numbers are those of the cards; lay and cut in their order.",
            unit=units.name,
        )
        + repeated,
    ]
    paragraphs = [Paragraph(words[0], TEXT_SIZE), Paragraph(words[1], FINE_SIZE, gap=1.0)]
    return flow(paragraphs, Box(page.body.left, 24.5, page.body.right, 58.0))[0]


def _sheet_drawing(cloth: ClothFigures, sheet: Sheet, units: Units) -> Drawing:
    """Cloth, panels, rulers and lettering of one sheet."""
    lying = sheet.on_page(cloth_drawing(cloth.cloth, sheet.window, FINEST_ON_PAPER_MM * sheet.n))
    lines = joined(sheet.on_page(panel_drawing(figures)) for figures in cloth.panels)
    return lying + lines + _names(cloth, sheet) + _cut_off(cloth, sheet, units) + _rulers(sheet, units)


def _cut_off(cloth: ClothFigures, sheet: Sheet, units: Units) -> Drawing:
    """The line below which nothing lies, with the length used."""
    v = cloth.length_mm
    if not sheet.window.top < v < sheet.window.bottom:
        return Drawing()
    start, end = sheet.point(sheet.window.left, v), sheet.point(sheet.window.right, v)
    line = segment(start, end, "cut off")
    if sheet.frame.bottom - end[1] < FINE_SIZE * 1.5:
        return Drawing((line,))
    labels = Labels()
    for flaw in cloth.cloth.flaw_outlines:
        labels.take(Polygon(sheet.points(np.array(flaw))))
    y, words = end[1] + FINE_SIZE * 1.15, tr("used to here: {length}", length=units.say(v))
    places = (start[0] + share * (end[0] - start[0]) for share in (0.5, 0.3, 0.7, 0.2, 0.8))
    texts = labels.place((Text((x, y), words, FINE_SIZE, anchor="middle", halo=True),) for x in places)
    return Drawing((line, *texts))


def _names(cloth: ClothFigures, sheet: Sheet) -> Drawing:
    labels = Labels()
    frame = Polygon(sheet.frame.corners)
    texts: list[Primitive] = []
    for figures in cloth.panels:
        net = sheet.points(figures.net_ring)
        seen = Polygon(net).intersection(frame)
        if not seen.is_empty:
            texts += labels.place(_name_candidates(figures, net, sheet), seen)
    return Drawing(tuple(texts))


def _name_candidates(figures: PanelFigures, net: Points, sheet: Sheet) -> Iterator[tuple[Text, ...]]:
    """Number and name level where the panel is broad, else along the grain line, else the number alone."""
    places = [_along_grain(figures, sheet, share) for share in (0.55, 0.62, 0.7, 0.48, 0.78, 0.4, 0.85, 0.3, 0.2)]
    name = figures.title + (tr(", turned") if figures.at.turned else "")
    shape = Polygon(net)
    for size in (2.9, 2.5):
        for at in places:
            room = _breadth_at(shape, at[1]) - 3.0
            lines = wrapped_lines(name, size, room)
            if len(lines) <= 4 and " ".join(lines) == name:
                yield block(at, [(f"{figures.number}", 4.6, True), *((line, size, False) for line in lines)])
    length = figures.grain_length_mm / sheet.n
    angle = _reading_angle(figures)
    for share in (0.6, 0.45, 0.3):
        short = shortened(f"{figures.number}  {name}", 2.7, length * share)
        for at in places:
            yield block(at, [(short, 2.7, True)], angle)
    for at in places:
        yield block(at, [(f"{figures.number}", 2.7, True)])


def _along_grain(figures: PanelFigures, sheet: Sheet, share: float) -> Point:
    top, bottom = figures.grain_top, figures.grain_bottom
    return sheet.point(
        top.u_mm + share * (bottom.u_mm - top.u_mm),
        top.v_mm + share * (bottom.v_mm - top.v_mm),
    )


def _reading_angle(figures: PanelFigures) -> float:
    """The grain line's direction as an angle at which lettering reads upwards."""
    return (
        -90.0 + figures.at.turn_deg % 180.0 if figures.at.turn_deg % 180.0 < 90 else figures.at.turn_deg % 180.0 - 270.0
    )


def _breadth_at(shape: BaseGeometry, y: float) -> float:
    left, _, right, _ = shape.bounds
    return float(shape.intersection(LineString([(left - 1, y), (right + 1, y)])).length)


def _rulers(sheet: Sheet, units: Units) -> Drawing:
    """A ruler down both sides and across the top."""
    frame, window, unit = sheet.frame, sheet.window, units.ruler_mm
    parts: list[Primitive] = []
    for count, long in ruler_ticks(window.top, window.bottom, sheet.n, unit):
        y = sheet.point(0.0, count * unit)[1]
        reach = 2.4 if long else 1.2
        parts += [
            segment((frame.left, y), (frame.left - reach, y), "ruler"),
            segment((frame.right, y), (frame.right + reach, y), "ruler"),
        ]
        if long:
            parts.append(Text((frame.left - 3.0, y + 0.9), units.ruled(count), 2.6, anchor="end"))
            parts.append(Text((frame.right + 3.0, y + 0.9), units.ruled(count), 2.6))
    for count, long in ruler_ticks(window.left, window.right, sheet.n, unit):
        x = sheet.point(count * unit, 0.0)[0]
        parts.append(segment((x, frame.top), (x, frame.top - (2.4 if long else 1.2)), "ruler"))
        if long:
            parts.append(Text((x, frame.top - 3.2), units.ruled(count), 2.6, anchor="middle"))
    return Drawing(tuple(parts))


def ruler_ticks(start_mm: float, end_mm: float, n: float, unit_mm: float) -> list[tuple[int, bool]]:
    """Whole units to tick, each with whether it has a number: numbers no closer than 8 mm on paper at 1 : n."""
    steps = [scale * digit for scale in (1, 10, 100, 1000, 10000) for digit in (1, 2, 5)]
    numbered = next(step for step in steps if step * unit_mm / n >= 8)
    ticked = next(step for step in steps if step * unit_mm / n >= 2.0 and numbered % step == 0)
    first, last = math.ceil(start_mm / unit_mm / ticked), math.floor(end_mm / unit_mm / ticked)
    return [(i * ticked, (i * ticked) % numbered == 0) for i in range(first, last + 1)]
