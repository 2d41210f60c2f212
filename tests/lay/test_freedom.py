"""Freedom that costs nothing: end for end and common shifts, never at a seam's expense; and what it saves."""

import pytest

from cloths import assert_can_be_cut, assert_phases_kept, project_of, scattered, triangle
from core.lay.freedom import Freedom
from core.lay.lay import lay
from core.matching.solve import match
from core.model.project import Placement
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import ring


def freedom_of(project) -> Freedom:
    return Freedom(project, project.cloths[0], Garment.of(project))


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("kind", ["even", "fine pair", "half"])
def test_on_an_even_repeat_every_panel_may_lie_either_way(kind: str, seed: int) -> None:
    project = scattered(ring(seed, number=5 + seed, kind=kind, one_way=False, width=20.0), seed)
    assert freedom_of(project).either_way == set(project.panel_names)
    result = lay(project, seconds=0.5, seed=seed)
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)


def test_no_panel_is_turned_on_an_uneven_repeat_or_a_one_way_cloth_or_where_it_is_held() -> None:
    assert freedom_of(ring(1, number=6, kind="uneven", one_way=False, width=20.0)).either_way == frozenset()
    assert freedom_of(ring(1, number=6, one_way=True, width=20.0)).either_way == frozenset()
    held = ring(1, number=6, one_way=False, width=20.0).placed({"g0": Placement(hold=True)})
    assert "g0" not in freedom_of(held).either_way


@pytest.mark.parametrize(
    "keywords", [{"number": 6}, {"number": 7}, {"number": 8, "kind": "uneven"}, {"number": 8, "shape": "pairs"}]
)
def test_shifts_that_are_offered_keep_every_step(keywords: dict) -> None:
    project = match(ring(3, width=22.0, one_way=False, **keywords)).project
    before = measure(project)
    for other in freedom_of(project).others():
        after = measure(other)
        assert other.placements != project.placements
        assert [reading.rms_mm for reading in after.seams] == pytest.approx(
            [reading.rms_mm for reading in before.seams], abs=1e-6
        )


def test_an_even_ring_may_shift_and_an_odd_one_may_not() -> None:
    """Round a ring of gores each seam turns the way of the shift about; only an even number of turns closes."""
    even = ring(3, number=6, width=22.0, one_way=True)
    odd = ring(3, number=7, width=22.0, one_way=True)
    assert len(list(freedom_of(even).others())) == 3
    assert list(freedom_of(odd).others()) == []


def test_triangles_end_for_end_lie_head_to_tail() -> None:
    pieces = [triangle(f"t{i}", 400, 800) for i in range(4)]
    one_way = lay(project_of(pieces, 1200, 100.0, one_way=True)).lays[0].length_mm
    either = lay(project_of(pieces, 1200, 100.0)).lays[0].length_mm
    assert either == pytest.approx(800, abs=1e-6)
    assert one_way > 1000
