"""How far a cloth is from straight: bow and skew of its crosswise threads, lean of its lengthwise stripes.

Two things that go by one name are kept apart. *Skew* by ASTM D3882 is a slant of the crosswise threads (or bars)
against the square across from a selvedge; it bends or tilts whatever runs across, and leaves stripes that run along the
selvedge where they are. *Lean* is a slant of the lengthwise stripes against the selvedge: it is what `skew_mm_per_m` of
a cloth holds, and what moves stripes against each other at a seam.
"""

import math

from core.errors import BadInput
from core.model.cloth import Cloth
from core.wording import tr

NOTABLE_PERCENT = 2.0
"""Bow or skew from which a warning is given; a choice of ours, the standard sets no limit."""


def bow_percent(depth_mm: float, width_mm: float) -> float:
    """Bow: the greatest distance of a crosswise thread from the straight line between its ends, to the cloth's width.

    ASTM D3882: 100 x distance / width. Raises BadInput for distances that can't be.
    """
    return _percent("bow", depth_mm, width_mm)


def skew_percent(ahead_mm: float, width_mm: float) -> float:
    """Skew: how far a crosswise thread has run along the cloth by the other edge, to the width it crosses.

    ASTM D3882: 100 x distance / width; positive where the right end is further from the cut end (greater v).
    """
    return _percent("skew", ahead_mm, width_mm)


def skew_angle_deg(percent: float) -> float:
    """The angle, degrees, that a crosswise thread of that skew makes with the square across."""
    return math.degrees(math.atan(percent / 100))


def bow_at_edge_percent(percent: float) -> float:
    """How steep, percent, a bowed thread runs at the edges if it is a parabola: four times its bow."""
    return 4 * percent


def square_skew_percent(ac_mm: float, bd_mm: float) -> float:
    """Skew that washing brings, from the diagonals of a marked square ABCD: AATCC TM179, 100 x 2 (AC - BD) / (AC + BD).

    Raises BadInput for diagonals that no square has.
    """
    if not (math.isfinite(ac_mm + bd_mm) and min(ac_mm, bd_mm) > 0 and 0.5 <= ac_mm / bd_mm <= 2):
        raise BadInput(
            tr("the diagonals are {ac_mm:g} and {bd_mm:g} mm", ac_mm=ac_mm, bd_mm=bd_mm),
            "square",
            tr("nearly equal lengths above 0"),
        )
    return 100 * 2 * (ac_mm - bd_mm) / (ac_mm + bd_mm)


def lean_mm_per_m(off_mm: float, over_mm: float) -> float:
    """`skew_mm_per_m` of a cloth: how far a stripe wanders from the selvedge's line over a length along it.

    Positive where it moves away from the left selvedge as v grows.
    """
    if not (math.isfinite(off_mm) and over_mm >= 10 and abs(off_mm) <= 0.3 * over_mm):
        raise BadInput(
            tr("{off_mm:g} mm over {over_mm:g} mm", off_mm=off_mm, over_mm=over_mm),
            "lean",
            tr("up to 3 in 10, over at least 10 mm"),
        )
    return 1000 * off_mm / over_mm


def lean_if_squared_across(percent: float) -> float:
    """The stripes' lean, mm per m, on a skewed cloth that is laid with its crosswise threads square to the table.

    The whole cloth is then turned by the angle of the skew, and its selvedges and stripes lean. Laid by a selvedge, as
    plans are, the same cloth has no lean.
    """
    return 10 * percent


def fault_warnings(cloth: Cloth, bow: float = 0.0, skew: float = 0.0) -> tuple[str, ...]:
    """What a maker should know about a striped cloth with that bow and skew, percent, and its lean; empty if sound."""
    found = []
    if cloth.repeat is not None and abs(cloth.skew) > math.tan(math.radians(cloth.grain_tolerance_deg)):
        lean = math.degrees(math.atan(cloth.skew))
        found.append(
            tr(
                "{title}: the stripes lean {lean:+.2f} degrees, more than panels may turn "
                "({grain_tolerance_deg:g}): they can't follow the stripes",
                title=cloth.title,
                lean=lean,
                grain_tolerance_deg=cloth.grain_tolerance_deg,
            )
        )
    if abs(skew) >= NOTABLE_PERCENT:
        found.append(
            tr(
                "{title}: crosswise threads are skewed by {skew:.1f} % ({skew_angle_deg:.2f} degrees): pull "
                "the cloth straight before cutting, lay it by a selvedge, and let no mark across it count as "
                "square",
                title=cloth.title,
                skew=skew,
                skew_angle_deg=skew_angle_deg(skew),
            )
        )
    if abs(bow) >= NOTABLE_PERCENT:
        found.append(
            tr(
                "{title}: crosswise threads are bowed by {bow:.1f} %, {bow_at_edge_percent:.1f} % at the "
                "edges: straighten it before cutting; lengthwise stripes stay where they are, anything "
                "across bends",
                title=cloth.title,
                bow=bow,
                bow_at_edge_percent=bow_at_edge_percent(bow),
            )
        )
    return tuple(found)


def _percent(what: str, distance_mm: float, width_mm: float) -> float:
    if not (math.isfinite(distance_mm + width_mm) and width_mm > 0 and abs(distance_mm) <= width_mm / 2):
        right = tr("a distance of at most half the width is right")
        raise BadInput(
            tr("{distance_mm:g} mm on {width_mm:g} mm", distance_mm=distance_mm, width_mm=width_mm), what, right
        )
    return 100 * distance_mm / width_mm
