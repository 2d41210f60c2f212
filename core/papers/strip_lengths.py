"""Which edge strips there are. Edges are cut into stretches that fit on a page, and every stretch has a strip.

The two sides of a seam share one where their stitching lines coincide; strips that would look the same, or would if
they were turned over, are printed once.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.geometry.polyline import points_at
from core.geometry.transform import rotation
from core.papers.drawing import Box, Drawing
from core.papers.figures import EdgeMarks, Figures, PanelFigures
from core.papers.packing import MARGIN_MM
from core.papers.page import Page
from core.papers.strip_edges import EdgeStretch
from core.papers.tiles import LABEL_MM

OUTSIDE_MM, INSIDE_MM = 12.0, 23.0
"""How far the strip of one edge reaches beyond the stitching line and into the panel."""

HALF_MM = 18.0
"""How far the strip of both sides of a seam reaches into either panel."""

JOIN_MM = 10.0
"""Strips down one edge overlap by so much."""

Sides = tuple[EdgeStretch, ...]
"""One edge's stretch, or those of both sides of a seam: the one whose panel lies on the left, and the other."""


@dataclass(eq=False)
class Strip:
    """One strip as it is printed: its sides, and the other sides that it serves, as it is and turned over.

    In its frame the first place on the stitching line is zero, and y runs along the chord.
    """

    sides: Sides
    same: list[Sides] = field(default_factory=list)
    turned_over: list[Sides] = field(default_factory=list)

    @property
    def shared(self) -> bool:
        """Whether it is for both sides of a seam."""
        return len(self.sides) > 1

    def serves(self, sides: Sides) -> bool:
        """Whether it will do for other sides as well, which it then remembers."""
        if _alike(self.sides, sides) and self.sides[0].inside == sides[0].inside:
            self.same.append(sides)
            return True
        if _alike(self.sides, sides[::-1]) and self.sides[0].inside != sides[-1].inside:
            self.turned_over.append(sides[::-1])
            return True
        return False

    def band(self, side: EdgeStretch) -> Points:
        """What the strip shows of a side's cloth, cloth mm; shape (n, 2)."""
        part = side.part.simplify(0.01)
        widths = (HALF_MM,) if self.shared else (-OUTSIDE_MM, INSIDE_MM)
        return _ring(_one([part.buffer(width * side.inside, single_sided=True) for width in widths]))

    @cached_property
    def outline(self) -> Points:
        """The whole strip in its frame; shape (n, 2)."""
        return _ring(_one([Polygon(framed(side, self.band(side))) for side in self.sides]))

    @cached_property
    def box(self) -> Box:
        """The room that the strip takes in its frame."""
        return Box.round(self.outline)


def _alike(one: Sides, other: Sides) -> bool:
    return len(one) == len(other) and all(a.looks_like(b) for a, b in zip(one, other, strict=True))


def upright_deg(side: EdgeStretch) -> float:
    """By how much a side's cloth is turned to stand upright in the frame of its strip."""
    first, last = points_at(side.line, np.array([side.start, side.end]))
    return 90.0 - math.degrees(math.atan2(last[1] - first[1], last[0] - first[0]))


def framed(side: EdgeStretch, points: Points) -> Points:
    """Places on a side's cloth as places in the frame of its strip; shape (n, 2)."""
    (first,) = points_at(side.line, np.array([side.start]))
    return np.asarray((points - first) @ rotation(upright_deg(side), False).T)


def drawn_in_frame(side: EdgeStretch, drawing: Drawing) -> Drawing:
    """A drawing in a side's cloth mm brought into the frame of its strip."""
    x, y = framed(side, np.zeros((1, 2)))[0].tolist()
    return drawing.moved(upright_deg(side), (x, y))


def strips_of(figures: Figures, page: Page) -> list[Strip]:
    """The strips for all edges that are sewn on striped cloth, in the order of the panels."""
    longest = page.height - 2 * MARGIN_MM - LABEL_MM - 6.0
    strips: list[Strip] = []
    for sides in _all_sides(figures, longest):
        if not any(strip.serves(sides) for strip in strips):
            strips.append(Strip(sides))
    return strips


def _all_sides(figures: Figures, longest: float) -> Iterator[Sides]:
    """Every stretch once: together with its partner's where one strip can serve both."""
    edges = {
        marks.ref: list(_stretches(panel, marks, longest))
        for panel in figures.panels
        for marks in panel.edges
        if panel.cloth.ways
    }
    done: set[tuple[str, int]] = set()
    for stretch in (stretch for stretches in edges.values() for stretch in stretches):
        if (stretch.marks.ref, stretch.number) in done:
            continue
        partners = edges.get(stretch.marks.partner, []) if stretch.marks.partner != stretch.marks.ref else []
        sides = (stretch, *(partner for partner in partners if stretch.shares_line(partner)))
        done |= {(side.marks.ref, side.number) for side in sides}
        yield tuple(sorted(sides, key=lambda side: -side.inside))


def _stretches(panel: PanelFigures, marks: EdgeMarks, longest: float) -> Iterator[EdgeStretch]:
    """As few stretches as the page allows, all but the last as long as it allows."""
    count = max(math.ceil((marks.length_mm - JOIN_MM) / (longest - JOIN_MM)), 1)
    for number in range(count):
        start = number * (longest - JOIN_MM)
        yield EdgeStretch(panel, marks, number + 1, count, start, min(start + longest, marks.length_mm))


def _one(bands: Sequence[Polygon]) -> Polygon:
    """Both halves of a band as one outline; slivers that a bend leaves are dropped."""
    union = bands[0].union(bands[-1]).buffer(0.02, join_style="mitre").buffer(-0.02, join_style="mitre")
    return max(getattr(union, "geoms", [union]), key=lambda part: part.area)


def _ring(shape: Polygon) -> Points:
    return np.array(shape.exterior.coords)[:-1]
