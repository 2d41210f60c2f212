"""Two edges make a seam, the right way round; seams change and go, and nothing is left that names them."""

import msgspec
import pytest

from core.derive.changes import fresh_id, rows_of, ticked, with_layers, with_pockets
from core.derive.count import cutting_list
from core.errors import BadInput
from core.files.project_file import read_project
from core.model.project import Centre, Layer, Match, Placement
from core.model.validate import validate
from core.seams.joining import can_stand_for_both, free_edges, sew, with_ring, with_seam, without_seam
from skirts import full_skirt
from straight_gores import findings, gore, made


def unsewn(path):
    return msgspec.structs.replace(read_project(path), seams=(), match=Match())


@pytest.mark.parametrize("turn", [1, -1])
def test_the_edge_that_runs_down_is_the_left_one_whichever_is_named_first(turn):
    project = made([gore("a"), gore("b")], [])
    after = sew(project, *("a/r", "b/l")[::turn])
    (seam,) = after.seams
    assert (seam.a, seam.b, seam.both_sides, seam.name) == ("a/r", "b/l", False, "a to b")
    assert findings(after, "upwards") == []


def test_a_mirrored_panels_edge_runs_the_other_way():
    # the right panel of a pair drawn right has its centre edge on the left of the seam; the left one is reflected
    after = sew(made([gore("a", cut="pair")], []), "a.L/r", "a.R/r")
    assert (after.seams[0].a, after.seams[0].b) == ("a.R/r", "a.L/r")
    assert not after.seams[0].both_sides
    assert after.seams[0].name == "centre front"


def test_a_seam_of_pairs_stands_for_both_sides_and_each_edge_is_sewn_once():
    project = made([gore("a", cut="pair"), gore("b", cut="pair")], [])
    after = sew(project, "b.R/l", "a.R/r")
    assert after.seams[0].both_sides
    assert [seam.label for seam in after.sewn] == ["a to b R", "a to b L"]
    assert set(free_edges(project)) - set(free_edges(after)) == {"a.R/r", "b.R/l", "a.L/r", "b.L/l"}
    with pytest.raises(BadInput, match="sewn already"):
        sew(after, "a.L/r", "b.L/hem")


def test_seams_sewn_one_by_one_read_the_same_as_those_of_the_sample(harbour_skirt):
    sample, project = read_project(harbour_skirt), unsewn(harbour_skirt)
    for seam in sample.seams:
        project = sew(project, seam.b, seam.a)
    assert sorted((s.a, s.b) for s in project.sewn) == sorted((s.a, s.b) for s in sample.sewn)


def test_a_ring_is_sewn_as_far_as_edges_are_free(harbour_skirt):
    project = unsewn(harbour_skirt)
    ring = with_ring(project)
    assert sorted((s.a, s.b) for s in ring.sewn) == sorted((s.a, s.b) for s in read_project(harbour_skirt).sewn)
    part = without_seam(ring, ring.seams[2].name)
    assert len(with_ring(part).seams) == len(ring.seams)
    assert with_ring(part).seams[:-1] == part.seams
    with pytest.raises(BadInput, match="every edge of the ring is sewn"):
        with_ring(ring)


def test_a_renamed_seam_stays_the_centre_of_the_match_and_a_removed_one_leaves_it_free(harbour_skirt):
    project = read_project(harbour_skirt)
    name = project.seams[0].name
    centred = msgspec.structs.replace(project, match=Match(centre=Centre(on="lead", seam=name)))
    renamed = with_seam(centred, name, name="middle of the front", weight=4.0)
    assert renamed.match.centre == Centre(on="lead", seam="middle of the front")
    assert renamed.seams[0].weight == 4.0
    assert without_seam(renamed, "middle of the front").match.centre == Centre()


def test_changes_that_can_not_be_are_refused_by_name(harbour_skirt):
    project = read_project(harbour_skirt)
    first, second = project.seams[0].name, project.seams[1].name
    with pytest.raises(BadInput, match=second):
        with_seam(project, first, name=second)
    with pytest.raises(BadInput, match="seen"):
        with_seam(project, first, seen=(300.0, 200.0))
    with pytest.raises(BadInput, match="no seam 'hem'"):
        without_seam(project, "hem")


def test_only_a_seam_with_a_mirror_image_can_stand_for_both_sides(harbour_skirt):
    project = read_project(harbour_skirt)
    can = {seam.name: can_stand_for_both(project, seam) for seam in project.seams}
    assert can == {seam.name: seam.both_sides for seam in project.seams}


# --- what is cut besides the pieces


def test_every_row_of_the_list_has_its_own_panels():
    project = full_skirt()
    rows = rows_of(project)
    assert tuple(row.piece for row in rows) == cutting_list(project).pieces
    assert [name for row in rows for name in row.panels] == [*project.panel_names, *project.derived_panel_names]
    assert (rows[5].piece.of, rows[5].layer, rows[5].strip) == ("front", 0, None)
    assert rows[5].panels == ("front interlining.R", "front interlining.L")
    belt = next(row for row in rows if row.piece.name == "Belt")
    assert (belt.panels, belt.layer, belt.strip) == (("belt 1", "belt 2"), None, 1)


def test_ticks_are_kept_in_the_order_of_the_list_and_taken_back():
    project = full_skirt()
    some = ticked(ticked(project, ["pocket 2.R", "front.L"], True), ["front.R"], True)
    assert some.done == ("front.R", "front.L", "pocket 2.R")
    assert ticked(some, ["front.L", "back.R"], False).done == ("front.R", "pocket 2.R")
    validate(some)


def test_places_and_ticks_of_pieces_that_are_no_more_go_with_them():
    project = full_skirt().placed({"front interlining.R": Placement(u=3.0), "front.R": Placement(u=5.0)})
    project = ticked(project, ["front interlining.R", "pocket 1.R", "front.R"], True)
    fewer = with_pockets(with_layers(project, project.layers[1:]), ())
    assert set(fewer.placements) & {"front interlining.R", "front.R"} == {"front.R"}
    assert fewer.done == ("front.R",)
    validate(fewer)


def test_a_layer_deeper_than_its_piece_is_refused():
    project = full_skirt()
    deep = Layer(kind="hem facing", of=("front",), cloth="sateen", edge="hem", depth=2000.0, name="too deep")
    with pytest.raises(BadInput, match="depth reaches through"):
        with_layers(project, (*project.layers, deep))


def test_a_new_strip_gets_an_id_that_nothing_has():
    project = full_skirt()
    assert fresh_id(project, "Carrier / loop", "strip") == "carrier-loop"
    assert fresh_id(project, "Belt", "strip") == "belt-2"
    assert fresh_id(project, " ", "strip") == "strip"
