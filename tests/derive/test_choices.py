"""What choices cost in cloth, on garments whose shortest lays are known."""

import msgspec
import pytest

from cloths import project_of, rectangle, triangle
from core.derive.choices import AS_IT_IS, compared
from core.errors import CannotBeHad
from core.model.project import Placement


def test_one_way_triangles_and_the_same_end_for_end_and_free_across() -> None:
    """Three triangles 400 by 800, one way, on 1000 wide, striped every 100 mm: 1200 mm is the least (every order and
    column tried); one turned end for end between two others takes 800 mm of cloth and 800 across."""
    project = project_of([triangle(f"t{i}", 400, 800) for i in range(3)], 1000, 100.0, one_way=True, price_per_m=12.5)
    project = project.placed({f"t{i}": Placement() for i in range(3)})
    as_it_is, turned, free = compared(project)
    assert (as_it_is.what, turned.what) == (AS_IT_IS, "panels end for end, if the cloth allows it")
    assert as_it_is.length_mm == pytest.approx(1200, abs=1e-6)
    assert turned.length_mm == pytest.approx(800, abs=1e-6)
    assert free.what == "stripes not matched"
    assert free.length_mm <= 1200 + 1e-6
    assert as_it_is.cost == pytest.approx(1.2 * 12.5)


def test_what_stripes_cost_where_they_keep_two_panels_from_lying_abreast() -> None:
    """Two panels 90 wide on 209.95, stripes every 60 mm: columns of both start at 0, 60, 120."""
    project = project_of([rectangle("a", 90, 100), rectangle("b", 90, 100)], 209.95, 60.0, one_way=True, length=150)
    lengths = {
        choice.what: choice.length_mm for choice in compared(project.placed({"a": Placement(), "b": Placement()}))
    }
    assert lengths[AS_IT_IS] == pytest.approx(200, abs=1e-6)
    assert lengths["stripes not matched"] == pytest.approx(100, abs=1e-6)


def test_stopped_it_leaves_out_what_was_not_laid() -> None:
    project = project_of([rectangle("a", 90, 100)], 500, 60.0)
    assert compared(project, progress=lambda share, note: False) == ()


def test_plain_cloth_with_no_way_up_leaves_nothing_to_choose() -> None:
    with pytest.raises(CannotBeHad, match="nothing to compare"):
        compared(project_of([rectangle("a", 90, 100)], 500))
    assert len(compared(project_of([rectangle("a", 90, 100)], 500, one_way=True))) == 2


def test_nothing_of_the_project_is_changed() -> None:
    project = project_of([rectangle("a", 90, 100), rectangle("b", 70, 80)], 500, 60.0, length=500)
    before = msgspec.json.encode(project)
    compared(project)
    assert msgspec.json.encode(project) == before
