"""The gores of a canopy or parasol: a cap of a ball, covered by as many like gores as there are ribs.

At arc length s from the crown the cap has the radius r(s) = R sin(s / R), R being the ball's radius; the half width of
a gore there is pi r(s) / ribs, so that the gores together go once round.
"""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.draft.curves import Curve, curve_length, segment_of, square_across, unit
from core.draft.measures import USUAL_CLOTH, within
from core.draft.result import Draft, fit_findings
from core.errors import BadInput
from core.geometry.beziers import path_data
from core.model.cloth import Cloth
from core.model.panel import panels_of
from core.model.pattern import Edge, Notch, Piece, Seam
from core.model.project import Centre, Match, Project
from core.wording import tr

FEWEST_RIBS, MOST_RIBS = 3, 64
USUAL_CROWN_MM = 6.0
_EDGE_CLOSE_MM = 1e-4


@dataclass(frozen=True, kw_only=True)
class CanopyMeasures:
    """A canopy: lengths in mm.

    `radius` is that of the rim, level; `rise` how high the crown stands above it (0: flat, the radius: half a ball).
    `hole` is the radius of a hole at the crown. `rim_hollow` is how far the rim is hollowed out between two ribs, or
    bulges if negative; None lets it run on smoothly over the ribs. The allowance at the crown is 6 mm unless given, or
    half the hole's radius if that is less, for it must fit inside the hole.
    """

    radius: float
    rise: float
    ribs: int = 8
    hole: float = 0.0
    rim_hollow: float | None = None
    seam_allowance: float = 10.0
    rim_allowance: float = 15.0
    crown_allowance: float | None = None
    cloth: Cloth = USUAL_CLOTH

    @property
    def turning_at_crown(self) -> float:
        """The allowance at the edge of the hole, mm."""
        return min(USUAL_CROWN_MM, self.hole / 2) if self.crown_allowance is None else self.crown_allowance

    @property
    def ball_radius(self) -> float:
        """R, mm; infinite for a flat canopy."""
        return (self.radius**2 + self.rise**2) / (2 * self.rise) if self.rise else math.inf

    @cached_property
    def arc(self) -> tuple[float, float]:
        """Where the gore begins and ends, in arc length from the crown, mm."""
        return self._arc_to(self.hole), self._arc_to(self.radius)

    def _arc_to(self, radius: float) -> float:
        ball = self.ball_radius
        return ball * math.asin(min(radius / ball, 1.0)) if self.rise else radius

    def half_width(self, s: float) -> float:
        """Half the width of a gore at an arc length from the crown, mm."""
        ball = self.ball_radius
        return math.pi / self.ribs * (ball * math.sin(s / ball) if self.rise else s)

    def slope(self, s: float) -> float:
        """How much the half width gains for each mm of arc length."""
        return math.pi / self.ribs * (math.cos(s / self.ball_radius) if self.rise else 1.0)


def draft_canopy(measures: CanopyMeasures) -> Draft:
    """The gores of a canopy as a project, every rib's seam joined up.

    Raises BadInput where no canopy has these measurements.
    """
    _check(measures)
    edges = _outline(measures)
    pieces = tuple(_piece(measures, number, edges) for number in range(1, measures.ribs + 1))
    seams = tuple(_seam(measures, number) for number in range(1, measures.ribs + 1))
    project = Project(
        title=tr("Canopy of {ribs} gores", ribs=measures.ribs),
        cloths=(measures.cloth,),
        pieces=pieces,
        seams=seams,
        match=Match(centre=Centre(on="lead", panel=pieces[0].id)),
    )
    wide = float(np.ptp(panels_of(pieces[0])[0].cut_ring[:, 0]))
    return Draft(project, tuple(fit_findings(measures.cloth, pieces[0].id, wide)))


def _check(measures: CanopyMeasures) -> None:
    if isinstance(measures.ribs, bool) or not isinstance(measures.ribs, int):
        raise BadInput(tr("it is {ribs!r}", ribs=measures.ribs), "ribs", tr("a whole number is right"))
    within("ribs", measures.ribs, FEWEST_RIBS, MOST_RIBS, unit="")
    within("radius", measures.radius, 50, 10_000)
    within("rise", measures.rise, 0, measures.radius)
    within("hole", measures.hole, 0, measures.radius / 2)
    turnings = (measures.seam_allowance, measures.rim_allowance, measures.turning_at_crown)
    for name, turning in zip(("seam", "rim", "crown"), turnings, strict=True):
        within(f"allowance, {name}", turning, 0, 300)
    if measures.rim_hollow is not None:
        reach = measures.half_width(measures.arc[1])
        within("rim hollow", measures.rim_hollow, -reach / 2, (measures.arc[1] - measures.arc[0]) / 2)


def _outline(measures: CanopyMeasures) -> list[tuple[str, tuple[Curve, ...], float]]:
    """Name, curves and allowance of each edge, clockwise; without a hole the gore ends in a point."""
    right = _edge(measures)
    left = tuple(tuple(complex(-point.real, point.imag) for point in curve[::-1]) for curve in reversed(right))
    top_down, rim_down = (unit(complex(measures.slope(s), 1)) for s in measures.arc)
    crown = [("crown", (_across(right[0][0], top_down),), measures.turning_at_crown)] if measures.hole else []
    return [
        *crown,
        ("right", right, measures.seam_allowance),
        ("rim", (_rim(measures, right[-1][-1], rim_down),), measures.rim_allowance),
        ("left", left, measures.seam_allowance),
    ]


def _edge(measures: CanopyMeasures) -> tuple[Curve, ...]:
    """The right edge from crown to rim: cubics that have the half width and its slope at their ends."""
    start, end = measures.arc
    bend = math.pi / measures.ribs / measures.ball_radius**3
    count = max(1, math.ceil((end - start) * (bend / 384 / _EDGE_CLOSE_MM) ** 0.25))
    return tuple(_cubic(measures, start + (end - start) * part / count, (end - start) / count) for part in range(count))


def _cubic(measures: CanopyMeasures, s: float, step: float) -> Curve:
    if not measures.rise:
        return complex(measures.half_width(s), s), complex(measures.half_width(s + step), s + step)
    ends = [complex(measures.half_width(at), at) for at in (s, s + step)]
    reach = [complex(measures.slope(at), 1) * step / 3 for at in (s, s + step)]
    return ends[0], ends[0] + reach[0], ends[1] - reach[1], ends[1]


def _across(right: complex, right_down: complex) -> Curve:
    left, left_down = (complex(-point.real, point.imag) for point in (right, right_down))
    return square_across(left, left_down, right, right_down)


def _rim(measures: CanopyMeasures, corner: complex, down: complex) -> Curve:
    """The rim, from right to left."""
    if measures.rim_hollow is None:
        return _across(corner, down)[::-1]
    x, y = corner.real, corner.imag
    deep = y - measures.rim_hollow * 4 / 3
    return corner, complex(x / 3, deep), complex(-x / 3, deep), complex(-x, y)


def _piece(measures: CanopyMeasures, number: int, edges: list[tuple[str, tuple[Curve, ...], float]]) -> Piece:
    half = round(sum(map(curve_length, next(curves for name, curves, _ in edges if name == "right"))) / 2, 4)
    return Piece(
        id=f"gore-{number}",
        name=tr("Gore {number}", number=number),
        cloth=measures.cloth.id,
        edges=tuple(
            Edge(name=name, path=path_data(tuple(map(segment_of, curves))), allowance=allowance)
            for name, curves, allowance in edges
        ),
        notches=(Notch(edge="right", at=half), Notch(edge="left", at=half)),
    )


def _seam(measures: CanopyMeasures, number: int) -> Seam:
    after = number % measures.ribs + 1
    return Seam(name=tr("rib {number}", number=number), a=f"gore-{number}/right", b=f"gore-{after}/left")
