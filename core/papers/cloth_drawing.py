"""Cloth and panels as drawings in cloth mm: x is u, y is v."""

from collections.abc import Iterator

import numpy as np

from core.lay.remnant import missing_outlines
from core.model.cloth import Cloth, Way
from core.papers.drawing import Area, Box, Drawing, Line, Primitive, segment
from core.papers.figures import PanelFigures
from core.papers.panel_lines import panel_lines
from core.papers.pens import light_tint
from core.seams.bands import bands_in, borders_in, lead_lines_in


def cloth_drawing(cloth: Cloth, window: Box, finest: float = 0.0) -> Drawing:
    """The cloth seen through a window: ground, stripes, selvedges, edges and flaws.

    A repeat narrower than `finest` mm is not drawn: at that scale its stripes would run together.
    """
    sheet = Box(0.0, max(window.top, 0.0), cloth.width, min(window.bottom, cloth.end or window.bottom))
    drawing = _stripes(cloth, _common(sheet, window), finest) + _flaws(cloth)
    return (drawing + _edges(cloth, sheet)).within(_common(sheet, window))


def lead_lines(cloth: Cloth, window: Box, finest: float = 0.0) -> Drawing:
    """The centre lines of the lead stripes and lead bars on the usable width, seen through a window.

    Those of a repeat narrower than `finest` mm are left out.
    """
    left, right = cloth.usable
    seen = _common(Box(left, max(window.top, 0.0), right, cloth.end or window.bottom), window)
    lines = (line for way in _ways_drawn(cloth, finest) for line in lead_lines_in(cloth, way, _sides(seen)))
    return Drawing(tuple(Line(line, "lead stripe") for line in lines)).within(seen)


def stripe_edges(cloth: Cloth, window: Box) -> Drawing:
    """Lines where one stripe or bar ends and another, or the ground, begins, through the whole of a window."""
    lines = (line for way in cloth.ways for line in borders_in(cloth, way, _sides(window)))
    return Drawing(tuple(Line(line, "stripe edge") for line in lines)).within(window)


def stripe_areas(cloth: Cloth, window: Box, finest: float = 0.0) -> Drawing:
    """All stripes and, over them, bars that meet a window, from side to side of it and some beyond; no ground."""
    return Drawing(
        tuple(
            Area(outline, "stripe", light_tint(bands.stripe.colour))
            for way in _ways_drawn(cloth, finest)
            for bands in bands_in(cloth, way, _sides(window))
            for outline in bands.outlines
        )
    )


def panel_drawing(figures: PanelFigures) -> Drawing:
    """A panel as it lies: its lines, what is sewn onto it, and its grain line with an arrow at the bottom end."""
    top, bottom, at = figures.grain_top, figures.grain_bottom, figures.at
    lying = panel_lines(figures.panel).moved(at.turn_deg + 180.0 * at.turned, (at.u, at.v))
    grain = segment((top.u_mm, top.v_mm), (bottom.u_mm, bottom.v_mm), "grain", arrow=True)
    return lying + Drawing((*patch_lines(figures), grain))


def patch_lines(figures: PanelFigures) -> Iterator[Line]:
    """The outlines of what is sewn onto a panel, as it lies."""
    yield from (Line(outline, "patch", closed=True) for outline in figures.patch_outlines)


def neighbour_drawing(figures: PanelFigures) -> Drawing:
    """Only the cutting line of a panel that lies beside the one in question."""
    return Drawing((Line(figures.cut_ring, "neighbour", closed=True),))


def _common(a: Box, b: Box) -> Box:
    return Box(max(a.left, b.left), max(a.top, b.top), min(a.right, b.right), min(a.bottom, b.bottom))


def _sides(box: Box) -> tuple[float, float, float, float]:
    return box.left, box.top, box.right, box.bottom


def _ways_drawn(cloth: Cloth, finest: float) -> list[Way]:
    """The ways whose repeat is not narrower than so many mm."""
    repeats = {way: cloth.repeat_of(way) for way in cloth.ways}
    return [way for way, repeat in repeats.items() if repeat and repeat.width >= finest]


def _stripes(cloth: Cloth, box: Box, finest: float) -> Drawing:
    lowest = cloth.repeat or cloth.crosswise
    if lowest is None:
        return Drawing()
    ground = Drawing((Area(box.corners, "ground", light_tint(lowest.ground)),))
    return ground + stripe_areas(cloth, box, finest).within(box)


def _edges(cloth: Cloth, sheet: Box) -> Drawing:
    """The cloth's own edges, the cut end where it is in sight, and where the usable width begins and ends."""
    left, right = cloth.usable
    parts: list[Primitive] = [
        segment((u, sheet.top), (u, sheet.bottom), "selvedge") for u in (left, right) if 0 < u < cloth.width
    ]
    parts += [segment((u, sheet.top), (u, sheet.bottom), "cloth edge") for u in (0.0, cloth.width)]
    parts += [
        segment((0.0, v), (cloth.width, v), "cloth edge")
        for v in (0.0, cloth.end)
        if v is not None and sheet.top <= v <= sheet.bottom
    ]
    return Drawing(tuple(parts))


def _flaws(cloth: Cloth) -> Drawing:
    """Flaws as crossed boxes, or as outlines; what a remnant lacks as empty areas."""
    parts: list[Primitive] = []
    parts += [Area(outline, "flaw", "#ffffff") for outline in missing_outlines(cloth)]
    borders = (cloth.remnant.outline, *cloth.remnant.holes) if cloth.remnant else ()
    parts += [Line(np.array(border), "flaw", closed=True) for border in borders]
    for outline in cloth.flaw_outlines:
        parts += [Area(np.array(outline), "flaw", "#ffffff"), Line(np.array(outline), "flaw", closed=True)]
    for u0, v0, u1, v1 in cloth.flaw_boxes:
        parts += [segment((u0, v0), (u1, v1), "flaw"), segment((u0, v1), (u1, v0), "flaw")]
    return Drawing(tuple(parts))
