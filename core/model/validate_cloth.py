"""What a cloth and the repeats on it must satisfy."""

from collections.abc import Sequence

import numpy as np
from shapely.geometry import Polygon

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM
from core.model.cloth import Cloth, Remnant, Repeat, is_box
from core.model.rules import check_colour, check_simple, filled, within
from core.wording import listed, tr

SMALLEST_REPEAT_MM = 0.1

ROUNDED_MM2 = 1.0
"""Outlines that reach over each other by a smaller area only touch."""


def check_cloth(cloth: Cloth) -> None:
    """Check one cloth. Raises BadInput that names the cloth, what is wrong and what would be right."""
    place = tr("cloth {id!r}", id=cloth.id)
    within(place, "width", cloth.width, 1, LARGEST_MM)
    for side in cloth.selvedge:
        within(place, "selvedge", side, 0, cloth.width)
    if cloth.usable[1] - cloth.usable[0] < 1:
        raise BadInput(tr("the selvedges leave no usable width"), place, tr("their sum must be less than the width"))
    if cloth.length is not None:
        within(place, "length", cloth.length, 1, LARGEST_MM)
    within(place, "skew_mm_per_m", cloth.skew_mm_per_m, -300, 300)
    within(place, "grain_tolerance_deg", cloth.grain_tolerance_deg, 0, 45)
    within(place, "shrinkage_percent", cloth.shrinkage_percent, 0, 50)
    if cloth.ease_percent is not None:
        within(place, "ease_percent", cloth.ease_percent, 0, 20)
    if cloth.price_per_m is not None:
        within(place, "price_per_m", cloth.price_per_m, 0, 1e6)
    within(place, "spare_mm", cloth.spare_mm, 0, 100)
    for index, flaw in enumerate(cloth.flaws):
        _check_flaw(place, tr("flaw {index}", index=index + 1), flaw)
    if cloth.remnant is not None:
        _check_remnant(f"{place}, remnant", cloth.remnant)
    within(place, "weft_skew_percent", cloth.weft_skew_percent, -30, 30)
    within(place, "bow_percent", cloth.bow_percent, -30, 30)
    if cloth.repeat is not None:
        _check_repeat(f"{place}, repeat", cloth.repeat)
    if cloth.crosswise is not None:
        _check_repeat(f"{place}, crosswise", cloth.crosswise)


def _check_remnant(place: str, remnant: Remnant) -> None:
    _check_spot(place, "outline", remnant.outline)
    for index, hole in enumerate(remnant.holes):
        _check_spot(place, tr("hole {index}", index=index + 1), hole)
    _check_holes(place, Polygon(remnant.outline), [Polygon(hole) for hole in remnant.holes])
    if min(v for _, v in remnant.outline) < 0:
        raise BadInput(tr("its outline starts before v = 0"), place, tr("v is measured from the cut end"))


def _check_holes(place: str, outline: Polygon, holes: Sequence[Polygon]) -> None:
    """Holes lie inside the outline and apart from each other, but for what rounding does."""
    for index, hole in enumerate(holes):
        here = tr("hole {index}", index=index + 1)
        if hole.difference(outline).area > ROUNDED_MM2:
            raise BadInput(
                tr("{hole} reaches over its outline", hole=here), place, tr("a hole lies inside the outline")
            )
        for other in range(index):
            if hole.intersection(holes[other]).area > ROUNDED_MM2:
                wrong = tr("hole {other} and {hole} overlap", other=other + 1, hole=here)
                raise BadInput(wrong, place, tr("holes that lie apart, or one hole for both"))


def _check_flaw(place: str, what: str, flaw: tuple[float | tuple[float, float], ...]) -> None:
    right = tr("[u, v, u, v] of two opposite corners, smaller first, or three and more points [u, v]")
    points = [part for part in flaw if isinstance(part, tuple)]
    if is_box(flaw):
        for value in flaw:
            within(place, what, value, -LARGEST_MM, LARGEST_MM)
        if flaw[0] >= flaw[2] or flaw[1] >= flaw[3]:
            raise BadInput(tr("{what} has no area", what=what), place, right)
    elif len(points) < len(flaw) or len(points) < 3:
        raise BadInput(tr("{what} is neither two corners nor an outline", what=what), place, right)
    else:
        _check_spot(place, what, points)


def _check_spot(place: str, what: str, points: Sequence[tuple[float, float]]) -> None:
    """An outline on the cloth: three corners and more, within bounds, that does not cross itself."""
    for value in (value for point in points for value in point):
        within(place, what, value, -LARGEST_MM, LARGEST_MM)
    check_simple(place, what, np.array(points).reshape(-1, 2))


def _check_repeat(place: str, repeat: Repeat) -> None:
    within(place, "width", repeat.width, SMALLEST_REPEAT_MM, LARGEST_MM)
    within(place, "origin", repeat.origin, -LARGEST_MM, LARGEST_MM)
    check_colour(place, "ground", repeat.ground)
    filled(
        f"{place}, stripes",
        repeat.stripes,
        tr("a repeat has at least one stripe; a plain cloth has no repeat"),
    )
    for stripe in repeat.stripes:
        where = f"{place}, stripe {stripe.name!r}"
        if not 0 <= stripe.at < repeat.width:
            raise BadInput(
                tr("at is {at:g}", at=stripe.at),
                where,
                tr("its centre lies within the repeat: 0 to below {width:g}", width=repeat.width),
            )
        if not 0 < stripe.width <= repeat.width:
            raise BadInput(
                tr("width is {width:g}", width=stripe.width),
                where,
                tr("above 0 and up to {width:g} is right", width=repeat.width),
            )
        check_colour(where, "colour", stripe.colour)
    names = [stripe.name for stripe in repeat.stripes]
    if repeat.lead is not None and repeat.lead not in names:
        raise BadInput(
            tr("lead is {lead!r}", lead=repeat.lead),
            place,
            tr("one of its stripes is right: {names}", names=listed(names)),
        )
