"""The pattern full size: every panel in cloth mm, with its lines, its marks and the stripes as they must fall on it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np
from shapely.geometry import LinearRing, LineString, Point, Polygon

from core.geometry.paths import Points
from core.geometry.polyline import length, outward, points_at, tangent_at
from core.model.panel import NotchMark
from core.papers.choices import LineChoice
from core.papers.cloth_drawing import lead_lines, patch_lines, stripe_areas, stripe_edges
from core.papers.drawing import Box, Drawing, Line, Primitive, Text, segment
from core.papers.figures import PanelFigures
from core.papers.labels import Labels, block
from core.papers.lettering import text_box, wrapped_lines
from core.papers.panel_lines import NOTCH_MM
from core.wording import later, tr

WIDEST_NOTCH_MM = 30.0
NUMBER_MM, TITLE_MM, NOTE_MM, EDGE_MM = 14.0, 6.5, 4.2, 4.6


@dataclass(frozen=True, eq=False)
class PatternPiece:
    """A panel as it is drawn full size: `outline` is the outermost line that is drawn, cloth mm; shape (n, 2)."""

    figures: PanelFigures
    lines: LineChoice

    @property
    def name(self) -> str:
        """What it is called on maps."""
        return f"{self.figures.number} {self.figures.title}" if self.figures.number else self.figures.title

    @cached_property
    def outline(self) -> Points:
        """The outermost line that is drawn."""
        return self.figures.net_ring if self.lines == "net" else self.figures.cut_ring

    @cached_property
    def lines_drawing(self) -> Drawing:
        """Stripes lowest, then lines and marks, cloth mm."""
        return stripes_within(self.figures, self.outline) + pattern_lines(self.figures, self.lines)

    @cached_property
    def lettering(self) -> Drawing:
        """Number, name and how to lay it, and the names of the edges, cloth mm."""
        return Drawing(tuple(_title(self.figures))) + self.edge_names

    @cached_property
    def edge_names(self) -> Drawing:
        """The names of the edges, inside the stitching line, cloth mm."""
        return Drawing(tuple(_edge_names(self.figures)))


@lru_cache(maxsize=128)
def pattern_piece(figures: PanelFigures, lines: LineChoice) -> PatternPiece:
    """The panel as it is drawn full size; the same piece for every file that shows it."""
    return PatternPiece(figures, lines)


def stripes_within(figures: PanelFigures, outline: Points) -> Drawing:
    """Stripes, their edges and the centre lines of lead stripes within a closed line, cloth mm."""
    window = Box.round(outline).grown(1.0)
    cloth = figures.cloth
    areas = stripe_areas(cloth, window)
    return (areas + stripe_edges(cloth, window) + lead_lines(cloth, window)).inside(outline)


def pattern_lines(figures: PanelFigures, lines: LineChoice) -> Drawing:
    """The lines chosen, notches and the grain line, cloth mm."""
    top, bottom = figures.grain_top, figures.grain_bottom
    parts: list[Primitive] = []
    if lines != "net":
        parts.append(Line(figures.cut_ring, "cut line", closed=True))
    if lines != "cut":
        parts.append(Line(figures.net_ring, "net line", closed=True))
    parts += [Line(line, "line before") for line in figures.lines_before.values()]
    parts += patch_lines(figures)
    ring = LinearRing(figures.cut_ring)
    parts += [_notch(mark, ring, lines) for mark in figures.notches]
    parts.append(segment((top.u_mm, top.v_mm), (bottom.u_mm, bottom.v_mm), "grain", arrow=True))
    return Drawing(tuple(parts))


def _notch(mark: NotchMark, cut_ring: LinearRing, lines: LineChoice) -> Line:
    """From the stitching line out to the cutting line; inwards where the stitching line is the outermost."""
    if lines == "net":
        return Line(np.array([mark.point, mark.point - mark.out * NOTCH_MM]), "notch")
    return Line(np.array([mark.point, mark.point + mark.out * _room_out(mark, cut_ring)]), "notch")


def _room_out(mark: NotchMark, cut_ring: LinearRing) -> float:
    """How far a notch reaches: to the cutting line, where that is no farther than a usual allowance."""
    ray = LineString([mark.point - mark.out * 1e-3, mark.point + mark.out * WIDEST_NOTCH_MM])
    met = ray.intersection(cut_ring)
    return NOTCH_MM if met.is_empty else max(float(met.distance(Point(ray.coords[0]))) - 1e-3, 0.0)


def _title(figures: PanelFigures) -> tuple[Text, ...]:
    """Number, name and how to lay it, beside the grain line and clear of the edges' names."""
    labels = _with_grain(figures)
    for text in _edge_names(figures):
        labels.take(Polygon(text_box(text, 1.0)))
    return labels.place(_title_candidates(figures), Polygon(figures.net_ring))


def _edge_names(figures: PanelFigures) -> Iterator[Text]:
    labels, shape = _with_grain(figures), Polygon(figures.net_ring)
    for name, line in figures.net.items():
        yield from labels.place(_edge_candidates(name, line), shape)
    for patch, outline in zip(figures.carries, figures.patch_outlines, strict=True):
        yield from labels.place(_patch_candidates(patch.panel.piece.title, outline), shape)


def _patch_candidates(title: str, outline: Points) -> Iterator[tuple[Text, ...]]:
    """The name of what is sewn on, in its outline, from the middle outwards."""
    (left, top), (right, bottom) = outline.min(axis=0), outline.max(axis=0)
    for down in (0.5, 0.3, 0.7, 0.15, 0.85):
        for across in (0.5, 0.3, 0.7):
            at = float(left + across * (right - left)), float(top + down * (bottom - top))
            yield block(at, [(line, EDGE_MM, False) for line in wrapped_lines(title, EDGE_MM, float(right - left))])


def _with_grain(figures: PanelFigures) -> Labels:
    top, bottom = figures.grain_top, figures.grain_bottom
    labels = Labels()
    labels.take(LineString([(top.u_mm, top.v_mm), (bottom.u_mm, bottom.v_mm)]).buffer(0.8))
    return labels


def _title_candidates(figures: PanelFigures) -> Iterator[tuple[Text, ...]]:
    """Beside the grain line, on its right and then on its left, from the middle towards the hem and the top."""
    top, bottom = figures.grain_top, figures.grain_bottom
    breadth = float(np.ptp(figures.net_ring[:, 0]))
    for smaller in (1.0, 0.75, 0.5, 0.35):
        for room in (room for room in (90.0, 60.0, 40.0, 25.0) if room * smaller < breadth):
            words = _title_lines(figures, room * smaller, smaller)
            for share in (0.6, 0.7, 0.5, 0.8, 0.4, 0.3, 0.9):
                u = top.u_mm + share * (bottom.u_mm - top.u_mm)
                v = top.v_mm + share * (bottom.v_mm - top.v_mm)
                for side in (1.0, -1.0):
                    yield block((u + side * (room * smaller / 2 + 4.0), v), words)


def _title_lines(figures: PanelFigures, room: float, scale: float) -> list[tuple[str, float, bool]]:
    lines = [(f"{figures.number}", NUMBER_MM * scale, True)] if figures.number else []
    lines += [(line, TITLE_MM * scale, True) for line in wrapped_lines(figures.title, TITLE_MM * scale, room)]
    for note in _notes(figures):
        lines += [(line, NOTE_MM * scale, False) for line in wrapped_lines(note, NOTE_MM * scale, room)]
    return lines


def _notes(figures: PanelFigures) -> list[str]:
    """How the drawing lies on the cloth: always face up, whichever panel of a pair it is."""
    if not figures.number:
        pair = figures.panel.piece.cut == "pair"
        once, twice = later("cut from {cloth} as drawn"), later("cut from {cloth} as drawn and once turned over")
        return [tr(twice if pair else once, cloth=figures.cloth.title)]
    striped, plain = later("{cloth}: this side up, stripe on stripe"), later("{cloth}: this side up")
    return [
        tr(striped if figures.cloth.ways else plain, cloth=figures.cloth.title),
        tr("turned end for end") if figures.at.turned else "",
    ]


def _edge_candidates(name: str, line: Points) -> Iterator[tuple[Text, ...]]:
    total = length(line)
    for inside in (5.0, 8.0, 12.0):
        for share in (0.5, 0.6, 0.4, 0.7, 0.3):
            (point,) = points_at(line, np.array([share * total]))
            direction = tangent_at(line, share * total)
            at = point - outward(direction) * inside
            yield block((float(at[0]), float(at[1])), [(name, EDGE_MM, False)], upright_deg(direction))


def upright_deg(direction: Points) -> float:
    """The angle of a direction, clockwise, turned by half a circle where lettering would stand on its head."""
    angle = math.degrees(math.atan2(direction[1], direction[0]))
    return angle - 180.0 if angle > 90.0 else angle + 180.0 if angle <= -90.0 else angle
