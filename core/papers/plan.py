"""The cutting plan: the whole lay of a cloth on one page, and a long one once more in stretches that can be read."""

import math
from collections.abc import Iterator

from shapely.geometry import LineString, Polygon
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.papers.cloth_drawing import cloth_drawing, panel_drawing
from core.papers.drawing import Box, Drawing, Point, Primitive, Text, joined, segment
from core.papers.figures import ClothFigures, PanelFigures
from core.papers.labels import Labels, block
from core.papers.lettering import shortened, wrapped_lines
from core.papers.page import BODY, FINE_SIZE, TEXT_SIZE, Paragraph, flow, heading, scale_for, scale_words
from core.papers.sheet import FINEST_ON_PAPER_MM, Sheet
from core.papers.words import mm

ROOM = Box(BODY.left + 11.0, 58.0, BODY.right - 11.0, 279.0)
"""Where the cloth itself may lie on the page; the rulers stand outside it."""

COARSEST_READABLE = 15.0
"""A plan at a smaller scale than 1 : 15 is repeated in stretches."""

OVERLAP_MM = 100.0
BEYOND_MM = 110.0


def plan_pages(cloth: ClothFigures) -> tuple[Drawing, ...]:
    """The plan of one cloth: one page, and more where the whole is too small to read."""
    whole = _whole(cloth)
    title = f"Cutting plan: {cloth.cloth.title}"
    first = heading(title, scale_words(whole.n)) + _facts(cloth, whole) + _sheet_drawing(cloth, whole)
    if whole.n <= COARSEST_READABLE:
        return (first,)
    stretches = list(_stretches(cloth))
    return (first, *(_stretch_page(cloth, sheet, i, len(stretches)) for i, sheet in enumerate(stretches, 1)))


def _whole(cloth: ClothFigures) -> Sheet:
    window = Box(0.0, 0.0, cloth.cloth.width, _shown_length(cloth))
    return _sheet(window, scale_for(window.width, window.height, ROOM.width, ROOM.height))


def _shown_length(cloth: ClothFigures) -> float:
    """A little more than what is used, but no more than there is."""
    shown = cloth.length_mm + BEYOND_MM
    return shown if cloth.cloth.length is None else min(shown, max(cloth.cloth.length, cloth.length_mm))


def _sheet(window: Box, n: float) -> Sheet:
    return Sheet(window, n, ((ROOM.left + ROOM.right - window.width / n) / 2, ROOM.top))


def _stretches(cloth: ClothFigures) -> Iterator[Sheet]:
    """Stretches of even length that overlap, at the largest scale at which the width fits."""
    shown, width = _shown_length(cloth), cloth.cloth.width
    n = scale_for(width, 0.0, ROOM.width, ROOM.height)
    reach = ROOM.height * n
    count = max(math.ceil((shown - OVERLAP_MM) / (reach - OVERLAP_MM)), 1)
    each = (shown + (count - 1) * OVERLAP_MM) / count
    for i in range(count):
        start = i * (each - OVERLAP_MM)
        yield _sheet(Box(0.0, start, width, start + each), n)


def _stretch_page(cloth: ClothFigures, sheet: Sheet, number: int, count: int) -> Drawing:
    window = sheet.window
    words = (
        f"Stretch {number} of {count}: from {window.top / 10:.0f} to {window.bottom / 10:.0f} cm of the cloth."
        f" Stretches overlap by {OVERLAP_MM / 10:.0f} cm."
    )
    note = flow([Paragraph(words)], Box(BODY.left, 25.0, BODY.right, 40.0))[0]
    title = f"Cutting plan: {cloth.cloth.title}, {number}"
    return heading(title, scale_words(sheet.n)) + note + _sheet_drawing(cloth, sheet)


def _facts(cloth: ClothFigures, sheet: Sheet) -> Drawing:
    left, right = cloth.cloth.usable
    there = "as much as it takes" if cloth.cloth.length is None else f"{mm(cloth.cloth.length)} mm"
    repeated = " The lay is long: the next pages show it larger." if sheet.n > COARSEST_READABLE else ""
    words = [
        f"Length used {mm(cloth.length_mm)} mm; length there is: {there}. Usable width {mm(right - left)} of"
        f" {mm(cloth.cloth.width)} mm. Share of it covered by panels: {cloth.used_share * 100:.1f} %.",
        "Cloth face up in a single layer, cut end at the top. Solid line: cut. Dashed: stitching line. Arrow: grain,"
        " from a panel's top to its bottom. Crossed box: flaw. Rulers in cm. The numbers are those of the cards."
        + repeated,
    ]
    paragraphs = [Paragraph(words[0], TEXT_SIZE), Paragraph(words[1], FINE_SIZE, gap=1.0)]
    return flow(paragraphs, Box(BODY.left, 24.5, BODY.right, ROOM.top))[0]


def _sheet_drawing(cloth: ClothFigures, sheet: Sheet) -> Drawing:
    """Cloth, panels, rulers and lettering of one sheet."""
    lying = sheet.on_page(cloth_drawing(cloth.cloth, sheet.window, FINEST_ON_PAPER_MM * sheet.n))
    lines = joined(sheet.on_page(panel_drawing(figures)) for figures in cloth.panels)
    return lying + lines + _names(cloth, sheet) + _cut_off(cloth, sheet) + _rulers(sheet)


def _cut_off(cloth: ClothFigures, sheet: Sheet) -> Drawing:
    """The line below which nothing lies, with the length used."""
    v = cloth.length_mm
    if not sheet.window.top < v < sheet.window.bottom:
        return Drawing()
    start, end = sheet.point(sheet.window.left, v), sheet.point(sheet.window.right, v)
    line = segment(start, end, "cut off")
    if sheet.frame.bottom - end[1] < FINE_SIZE * 1.5:
        return Drawing((line,))
    labels = Labels()
    for u0, v0, u1, v1 in cloth.cloth.flaws:
        labels.take(Polygon(sheet.points(Box(u0, v0, u1, v1).corners)))
    y, words = end[1] + FINE_SIZE * 1.15, f"used to here: {mm(v)} mm"
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
    name = figures.title + (", turned" if figures.at.turned else "")
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


def _rulers(sheet: Sheet) -> Drawing:
    """Centimetres down both sides and across the top."""
    frame, window = sheet.frame, sheet.window
    parts: list[Primitive] = []
    for cm, long in _ticks(window.top, window.bottom, sheet.n):
        y = sheet.point(0.0, cm * 10)[1]
        reach = 2.4 if long else 1.2
        parts += [
            segment((frame.left, y), (frame.left - reach, y), "ruler"),
            segment((frame.right, y), (frame.right + reach, y), "ruler"),
        ]
        if long:
            parts.append(Text((frame.left - 3.0, y + 0.9), f"{cm:g}", 2.6, anchor="end"))
            parts.append(Text((frame.right + 3.0, y + 0.9), f"{cm:g}", 2.6))
    for cm, long in _ticks(window.left, window.right, sheet.n):
        x = sheet.point(cm * 10, 0.0)[0]
        parts.append(segment((x, frame.top), (x, frame.top - (2.4 if long else 1.2)), "ruler"))
        if long:
            parts.append(Text((x, frame.top - 3.2), f"{cm:g}", 2.6, anchor="middle"))
    return Drawing(tuple(parts))


def _ticks(start_mm: float, end_mm: float, n: float) -> list[tuple[int, bool]]:
    """Whole centimetres to tick, each with whether it has a number: numbers no closer than 8 mm on paper."""
    steps = [scale * digit for scale in (1, 10, 100, 1000) for digit in (1, 2, 5)]
    numbered = next(step for step in steps if step * 10 / n >= 8)
    ticked = next(step for step in steps if step * 10 / n >= 2.0 and numbered % step == 0)
    first, last = math.ceil(start_mm / 10 / ticked), math.floor(end_mm / 10 / ticked)
    return [(i * ticked, (i * ticked) % numbered == 0) for i in range(first, last + 1)]
