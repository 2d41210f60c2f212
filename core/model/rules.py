"""Rules that hold in several places of a project. Each raises BadInput: place, what is wrong, what would be right."""

import re
from collections import Counter
from collections.abc import Iterable

from shapely.geometry import Polygon
from shapely.validation import explain_validity

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM, Points

_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def filled(place: str, values: Iterable[object], right: str) -> None:
    """Check that there is at least one; `right` says why."""
    if not values:
        raise BadInput("it is empty", place, right)


def unique(place: str, names: Iterable[str]) -> None:
    """Check that no name is empty and none stands twice."""
    for name, count in Counter(names).items():
        if not name.strip():
            raise BadInput("a name or id is empty", place, "each needs one of its own")
        if count > 1:
            raise BadInput(f"{name!r} stands {count} times", place, "each needs one of its own")


def within(place: str, what: str, value: float, low: float, high: float) -> None:
    """Check that a number lies from `low` to `high`; a NaN does not."""
    if not low <= value <= high:
        raise BadInput(f"{what} is {value:g}", place, f"{low:g} to {high:g} is right")


def check_colour(place: str, what: str, value: str) -> None:
    """Check that a colour is written as #rrggbb."""
    if not _COLOUR.fullmatch(value):
        raise BadInput(f"{what} is {value[:20]!r}", place, "a colour such as #23304d is right")


def check_name(place: str, what: str, name: str) -> None:
    """Check that a name has nothing in it that marks edges and sides."""
    if "/" in name or name.endswith((".R", ".L")):
        raise BadInput(f"its {what} has a / in it or ends in .R or .L", place, "those mark edges and sides")


def check_cloth_of(place: str, cloth: str, cloths: set[str]) -> None:
    """Check that a cloth is one of the cloths of the project."""
    if cloth not in cloths:
        raise BadInput(f"its cloth {cloth!r} is not there", place, f"the cloths are {', '.join(sorted(cloths))}")


def check_stretch(place: str, what: str, stretch: tuple[float, float] | None) -> None:
    """Check that a stretch of a seam, mm from its upper end, goes from below to above."""
    if stretch is not None and not 0 <= stretch[0] < stretch[1] <= LARGEST_MM:
        raise BadInput(f"{what} is {list(stretch)}", place, "[from, to] in mm down the seam, from below to, is right")


def check_simple(place: str, what: str, ring: Points) -> None:
    """Check that a closed line, shape (n, 2), mm, encloses an area and does not cross itself."""
    if len(ring) < 3:
        raise BadInput(f"its {what} encloses nothing", place, "a closed outline is right")
    shape = Polygon(ring)
    if not shape.is_valid:
        raise BadInput(
            f"its {what} crosses itself ({explain_validity(shape)})", place, "edges that don't cross are right"
        )
    if shape.area < 1:
        raise BadInput(f"its {what} encloses {shape.area:.3g} mm2", place, "at least 1 mm2 is right")
