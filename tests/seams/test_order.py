"""Panels in the order in which they are worn."""

import msgspec
import pytest

from core.model.project import Project
from core.seams.order import rows_as_worn
from garments import EVERY_KIND, ring


def sewn_pairs(project: Project) -> set[tuple[str, str]]:
    return {(seam.a.partition("/")[0], seam.b.partition("/")[0]) for seam in project.sewn}


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda kind: f"{kind.get('shape', 'ring')}-{kind['number']}")
def test_every_panel_is_worn_once_and_neighbours_are_sewn_left_to_right(kind):
    project = ring(1, **kind)
    rows = rows_as_worn(project)
    assert sorted(name for row in rows for name in row.panels) == sorted(project.panel_names)
    for row in rows:
        assert set(zip(row.panels, row.panels[1:], strict=False)) <= sewn_pairs(project)


def test_a_ring_of_pairs_has_its_first_pair_in_the_middle_of_the_front():
    front, back = rows_as_worn(ring(1, 10, shape="pairs"))
    assert front.panels == ("g2.R", "g1.R", "g0.R", "g0.L", "g1.L", "g2.L")
    assert back.panels == ("g3.L", "g4.L", "g4.R", "g3.R")
    assert (front.part, back.part) == ("front", "back")


def test_a_panel_cut_on_the_fold_is_the_middle_of_the_front():
    front, back = rows_as_worn(ring(1, 7, shape="fold"))
    assert front.panels[len(front.panels) // 2] == "front"
    assert len(front.panels) == 3
    assert len(back.panels) == 4


def test_a_ring_of_single_panels_is_halved_from_the_first_on():
    one, other = rows_as_worn(ring(1, 8))
    assert one.panels == ("g0", "g1", "g2", "g3")
    assert other.panels == ("g4", "g5", "g6", "g7")
    assert one.part is None


def test_an_odd_ring_has_the_greater_half_first():
    assert [len(row.panels) for row in rows_as_worn(ring(1, 7))] == [4, 3]


def test_a_chain_of_single_panels_is_one_row_from_its_left_end():
    project = ring(1, 6, shape="chain")
    late = msgspec.structs.replace(project, pieces=project.pieces[3:] + project.pieces[:3])
    assert [row.panels for row in rows_as_worn(late)] == [("g0", "g1", "g2", "g3", "g4", "g5")]


def without_seam(project: Project, name: str) -> Project:
    return msgspec.structs.replace(project, seams=tuple(seam for seam in project.seams if seam.name != name))


def test_a_garment_open_at_the_front_still_has_a_front():
    front, back = rows_as_worn(without_seam(ring(1, 10, shape="pairs"), "front"))
    assert front.panels == ("g2.R", "g1.R", "g0.R", "g0.L", "g1.L", "g2.L")
    assert back.part == "back"


def test_a_garment_open_at_the_back_still_has_a_back():
    front, back = rows_as_worn(without_seam(ring(1, 10, shape="pairs"), "back"))
    assert front.panels[2:4] == ("g0.R", "g0.L")
    assert back.panels == ("g3.L", "g4.L", "g4.R", "g3.R")


def test_panels_sewn_to_nothing_share_the_last_row():
    project = msgspec.structs.replace(ring(1, 5), seams=ring(1, 5).seams[:1])
    assert [row.panels for row in rows_as_worn(project)] == [("g0", "g1"), ("g2", "g3", "g4")]


def test_a_yoke_over_a_ring_has_a_row_of_its_own():
    rows = rows_as_worn(ring(1, 6, shape="branch"))
    assert [row.panels for row in rows] == [("g0", "g1", "g2"), ("g3", "g4", "g5"), ("yoke",)]


def test_two_pieces_make_a_front_and_a_back():
    one, other = rows_as_worn(ring(1, 2))
    assert (one.panels, other.panels) == (("g0",), ("g1",))
