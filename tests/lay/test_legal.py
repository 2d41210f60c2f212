"""The check of placements as they stand."""

import pytest

from cloths import project_of, rectangle
from core.errors import BadInput
from core.lay.legal import find_faults
from core.model.project import Placement, Project


def two_at(first: tuple[float, float], second: tuple[float, float], **cloth: object) -> Project:
    project = project_of([rectangle("a", 100, 200), rectangle("b", 100, 200)], 400, selvedge=[10, 20], **cloth)
    return project.placed({"a": Placement(u=first[0], v=first[1]), "b": Placement(u=second[0], v=second[1])})


def test_panels_that_touch_each_other_and_the_selvedges_have_no_fault() -> None:
    assert find_faults(two_at((10, 0), (110, 0)), "cloth") == ()
    assert find_faults(two_at((280, 0), (280, 200), length=400), "cloth") == ()


@pytest.mark.parametrize(
    ("first", "second", "cloth", "fault"),
    [
        ((10, 0), (109, 0), {}, "panels 'a' and 'b' overlap by 200.00 mm2"),
        ((8, 0), (110, 0), {}, "panel 'a' lies 2.00 mm outside the usable width"),
        ((10, 0), (281.5, 0), {}, "panel 'b' lies 1.50 mm outside the usable width"),
        ((10, -3), (110, 0), {}, "panel 'a' lies 3.00 mm before the cut end"),
        ((10, 0), (110, 50), {"length": 240}, "panel 'b' lies 10.00 mm beyond the cloth's end"),
        ((10, 0), (110, 0), {"flaws": [[200, 190, 230, 260]]}, "panel 'b' lies on flaw 1 with 100.00 mm2"),
    ],
)
def test_each_fault_is_told_with_its_size(first, second, cloth, fault) -> None:
    assert find_faults(two_at(first, second, **cloth), "cloth") == (fault,)


def test_a_cloth_that_is_not_there_is_bad_input() -> None:
    with pytest.raises(BadInput, match="no cloth 'silk'"):
        find_faults(two_at((10, 0), (110, 0)), "silk")


def test_two_panels_that_lie_on_each_other_but_for_the_last_digit_overlap() -> None:
    """A triangle whose copy, 1e-14 mm along, the overlay of shapely without a grid says it does not meet."""
    corners = [(7.1, 119.6), (90.0, 9.9), (171.3, 90.7)]
    sides = [f"M {a[0]} {a[1]} L {b[0]} {b[1]}" for a, b in zip(corners, [*corners[1:], corners[0]], strict=True)]
    edges = [{"name": str(i), "path": side} for i, side in enumerate(sides)]
    project = project_of([{"id": name, "cloth": "cloth", "edges": edges} for name in "ab"], 400)
    project = project.placed({"a": Placement(u=0, v=0), "b": Placement(u=0, v=1e-14)})
    assert find_faults(project, "cloth") == ("panels 'a' and 'b' overlap by 7808.47 mm2",)
