"""Cloth and panels as drawings in cloth mm: x is u, y is v."""

import numpy as np

from core.geometry.paths import Points
from core.lay.remnant import missing_outlines
from core.model.cloth import Cloth
from core.papers.drawing import Area, Box, Drawing, Line, Primitive, joined, segment
from core.papers.figures import PanelFigures
from core.papers.pens import light_tint
from core.seams.stripes import band_borders, lead_centres_between

NOTCH_MM = 8.0


def cloth_drawing(cloth: Cloth, window: Box, finest: float = 0.0) -> Drawing:
    """The cloth seen through a window: ground, stripes, selvedges, edges and flaws.

    A repeat narrower than `finest` mm is not drawn: at that scale its stripes would run together.
    """
    sheet = Box(0.0, max(window.top, 0.0), cloth.width, min(window.bottom, cloth.end or window.bottom))
    drawing = _stripes(cloth, _common(sheet, window), finest) + _flaws(cloth)
    return (drawing + _edges(cloth, sheet)).within(_common(sheet, window))


def lead_lines(cloth: Cloth, window: Box) -> Drawing:
    """The centre lines of the lead stripes on the usable width, seen through a window."""
    if cloth.repeat is None:
        return Drawing()
    left, right = cloth.usable
    seen = _common(Box(left, max(window.top, 0.0), right, cloth.end or window.bottom), window)
    shift = sorted((cloth.skew * seen.top, cloth.skew * seen.bottom))
    centres = lead_centres_between(cloth.repeat, seen.left - shift[1], seen.right - shift[0])
    lines = (segment(*_ends(cloth, w, seen), "lead stripe") for w in centres.tolist())
    return Drawing(tuple(lines)).within(seen)


def stripe_edges(cloth: Cloth, window: Box) -> Drawing:
    """Lines where one stripe ends and another, or the ground, begins, through the whole of a window."""
    if cloth.repeat is None:
        return Drawing()
    shift = sorted((cloth.skew * window.top, cloth.skew * window.bottom))
    width = cloth.repeat.width
    first = np.floor((window.left - shift[1] - cloth.repeat.origin) / width)
    last = np.ceil((window.right - shift[0] - cloth.repeat.origin) / width)
    places = np.sort((band_borders(cloth.repeat)[:, None] + np.arange(first - 1, last + 1) * width).ravel())
    lines = (segment(*_ends(cloth, w, window), "stripe edge") for w in places.tolist())
    return Drawing(tuple(lines)).within(window)


def stripe_areas(cloth: Cloth, window: Box) -> Drawing:
    """All stripes that meet a window, from its top to its bottom and some beyond its sides, without the ground."""
    if cloth.repeat is None:
        return Drawing()
    return joined(_stripe(cloth, stripe.at, stripe.width, stripe.colour, window) for stripe in cloth.repeat.stripes)


def panel_drawing(figures: PanelFigures) -> Drawing:
    """A panel as it lies: cutting line, stitching line, notches, grain line with its arrow at the bottom end."""
    top, bottom = figures.grain_top, figures.grain_bottom
    notches = (Line(np.array([mark.point, mark.point + mark.out * NOTCH_MM]), "notch") for mark in figures.notches)
    return Drawing(
        (
            Line(figures.cut_ring, "cut line", closed=True),
            Line(figures.net_ring, "net line", closed=True),
            *notches,
            segment((top.u_mm, top.v_mm), (bottom.u_mm, bottom.v_mm), "grain", arrow=True),
        )
    )


def neighbour_drawing(figures: PanelFigures) -> Drawing:
    """Only the cutting line of a panel that lies beside the one in question."""
    return Drawing((Line(figures.cut_ring, "neighbour", closed=True),))


def _common(a: Box, b: Box) -> Box:
    return Box(max(a.left, b.left), max(a.top, b.top), min(a.right, b.right), min(a.bottom, b.bottom))


def _ends(cloth: Cloth, w: float, box: Box) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where the line of one across-coordinate runs through the top and the bottom of a box."""
    return (w + cloth.skew * box.top, box.top), (w + cloth.skew * box.bottom, box.bottom)


def _stripes(cloth: Cloth, box: Box, finest: float) -> Drawing:
    if cloth.repeat is None:
        return Drawing()
    ground = Drawing((Area(box.corners, "ground", light_tint(cloth.repeat.ground)),))
    if cloth.repeat.width < finest:
        return ground
    return ground + stripe_areas(cloth, box).within(box)


def _stripe(cloth: Cloth, at: float, width: float, colour: str, box: Box) -> Drawing:
    """All copies of one stripe of the repeat that meet a box, from its top to its bottom."""
    assert cloth.repeat is not None
    place, spacing = cloth.repeat.origin + at, cloth.repeat.width
    shift = sorted((cloth.skew * box.top, cloth.skew * box.bottom))
    first = np.ceil((box.left - shift[1] - width / 2 - place) / spacing)
    last = np.floor((box.right - shift[0] + width / 2 - place) / spacing)
    centres = place + np.arange(first, last + 1) * spacing
    tint = light_tint(colour)
    return Drawing(tuple(Area(_band(cloth, w, width, box), "stripe", tint) for w in centres.tolist()))


def _band(cloth: Cloth, w: float, width: float, box: Box) -> Points:
    left, right = _ends(cloth, w - width / 2, box), _ends(cloth, w + width / 2, box)
    return np.array([left[0], right[0], right[1], left[1]])


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
