"""Rules that hold in several places of a project. Each raises BadInput: place, what is wrong, what would be right."""

import re
from collections import Counter
from collections.abc import Iterable

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM, Points
from core.wording import listed, tr

_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def filled(place: str, values: Iterable[object], right: str) -> None:
    """Check that there is at least one; `right` says why."""
    if not values:
        raise BadInput(tr("it is empty"), place, right)


def unique(place: str, names: Iterable[str]) -> None:
    """Check that no name is empty and none stands twice."""
    for name, count in Counter(names).items():
        if not name.strip():
            raise BadInput(tr("a name or id is empty"), place, tr("each needs one of its own"))
        if count > 1:
            raise BadInput(
                tr("{name!r} stands {count} times", name=name, count=count), place, tr("each needs one of its own")
            )


def within(place: str, what: str, value: float, low: float, high: float) -> None:
    """Check that a number lies from `low` to `high`; a NaN does not."""
    if not low <= value <= high:
        raise BadInput(
            tr("{what} is {value:g}", what=what, value=value),
            place,
            tr("{low:g} to {high:g} is right", low=low, high=high),
        )


def check_colour(place: str, what: str, value: str) -> None:
    """Check that a colour is written as #rrggbb."""
    if not _COLOUR.fullmatch(value):
        raise BadInput(
            tr("{what} is {value!r}", what=what, value=value[:20]), place, tr("a colour such as #23304d is right")
        )


def check_name(place: str, what: str, name: str) -> None:
    """Check that a name has nothing in it that marks edges and sides."""
    if "/" in name or name.endswith((".R", ".L")):
        raise BadInput(
            tr("its {what} has a / in it or ends in .R or .L", what=what), place, tr("those mark edges and sides")
        )


def check_cloth_of(place: str, cloth: str, cloths: set[str]) -> None:
    """Check that a cloth is one of the cloths of the project."""
    if cloth not in cloths:
        raise BadInput(
            tr("its cloth {cloth!r} is not there", cloth=cloth),
            place,
            tr("the cloths are {cloths}", cloths=listed(sorted(cloths))),
        )


def check_stretch(place: str, what: str, stretch: tuple[float, float] | None) -> None:
    """Check that a stretch of a seam, mm from its upper end, goes from below to above."""
    if stretch is not None and not 0 <= stretch[0] < stretch[1] <= LARGEST_MM:
        raise BadInput(
            tr("{what} is {stretch}", what=what, stretch=list(stretch)),
            place,
            tr("[from, to] in mm down the seam, from below to, is right"),
        )


def check_simple(place: str, what: str, ring: Points) -> None:
    """Check that a closed line, shape (n, 2), mm, encloses an area and does not cross itself."""
    if len(ring) < 3:
        raise BadInput(tr("its {what} encloses nothing", what=what), place, tr("a closed outline is right"))
    shape = Polygon(ring)
    if not shape.is_valid:
        raise BadInput(
            tr("its {what} crosses itself ({explain_validity})", what=what, explain_validity=explain_validity(shape)),
            place,
            tr("edges that don't cross are right"),
        )
    if shape.area < 1:
        raise BadInput(
            tr("its {what} encloses {area:.3g} mm2", what=what, area=shape.area), place, tr("at least 1 mm2 is right")
        )
