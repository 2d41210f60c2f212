"""Whether the line across a seam's end (waist, hem) runs through smoothly once the seam is sewn."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.corners import turn_between
from core.geometry.paths import Points
from core.geometry.polyline import length, points_at
from core.model.panel import Panel
from core.model.pattern import edge_of
from core.seams.garment import Garment, SeamLine
from core.seams.sides import Side, sides_of

End = Literal["upper", "lower"]
"""The end of a seam."""

TANGENT_MM = 2.0
"""The direction of an edge at its end is that of its last so many mm: below what a maker draws, above noise."""

SEEN_OVER_MM = 30.0
"""How far a line juts is told over so many mm on either side of the seam."""


@dataclass(frozen=True)
class Beside:
    """The edge beside a seam at one of its ends: its name, its side, and the inner angle of its panel, degrees."""

    edge: str
    side: Side
    angle_deg: float


@dataclass(frozen=True)
class RunThrough:
    """How the lines beside a seam meet at one of its ends: on a's panel and on b's.

    `reach_mm` is how far on either side they are looked at: 30 mm, or half of a shorter line.
    """

    end: End
    a: Beside
    b: Beside
    reach_mm: float

    @property
    def juts_deg(self) -> float:
        """How far the two angles are from making 180 degrees: positive where the line juts out, negative where in."""
        return 180.0 - self.a.angle_deg - self.b.angle_deg

    @property
    def juts_mm(self) -> float:
        """How far the corner stands off a ruler laid across it, from `reach_mm` on one side to as far on the other."""
        return self.reach_mm * math.sin(math.radians(abs(self.juts_deg)) / 2)


def runs_through(garment: Garment, line: SeamLine) -> tuple[RunThrough, ...]:
    """The ends of a seam at which a line is meant to run through, the upper first.

    That is so where the edges beside the seam lie on one side of their panels: two waists, two hems; not at a point in
    which gores end. An end at which the longer edge overhangs is left out.
    """
    found = []
    of_a, of_b = (garment.panels[panel] for panel in line.panels)
    for end in _together(line):
        a, b = _beside(of_a, line.sewn.a, end, True), _beside(of_b, line.sewn.b, end, False)
        if a.side == b.side:
            shorter = min(length(of_a.net[a.edge]), length(of_b.net[b.edge]))
            found.append(RunThrough(end, a, b, min(SEEN_OVER_MM, shorter / 2)))
    return tuple(found)


def _together(line: SeamLine) -> tuple[End, ...]:
    """The ends at which the two edges end together."""
    a, b = line.edge_lengths
    if line.sewn.seam.join == "spread" or abs(a - b) < TANGENT_MM:
        return "upper", "lower"
    return ("upper",) if line.sewn.seam.join == "top" else ("lower",)


def _beside(panel: Panel, ref: str, end: End, is_a: bool) -> Beside:
    """a's edge runs down in outline order: the edge before it lies beside its upper end. b's runs up."""
    names = list(panel.net)
    here = names.index(edge_of(ref))
    before = (end == "upper") == is_a
    other = names[(here + (-1 if before else 1)) % len(names)]
    first, second = (other, names[here]) if before else (names[here], other)
    side = _sides(panel)[names.index(other)]
    return Beside(other, side, angle_between(panel.net[first], panel.net[second]))


def _sides(panel: Panel) -> tuple[Side, ...]:
    return sides_of(list(panel.net.values()))


def angle_between(first: Points, second: Points) -> float:
    """The inner angle of a panel between an edge and the one that follows it, degrees."""
    size = length(first)
    into = points_at(first, np.array([size - TANGENT_MM, size]))
    out = points_at(second, np.array([0.0, TANGENT_MM]))
    return 180.0 - math.degrees(turn_between(into, out))
