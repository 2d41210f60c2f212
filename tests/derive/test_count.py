"""What to cut and buy, against counts written out by hand and against lengths of the pieces themselves."""

import json

import msgspec
import numpy as np
import pytest
import svgpathtools
from shapely.geometry import Polygon

from app import cli
from core.derive.count import cutting_list
from core.derive.cutting import cut_project
from core.derive.findings import find_odd
from core.derive.notions import binding_mm, braid_mm
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, write_project
from core.lay.lay import lay
from core.lay.legal import find_faults
from core.matching.solve import match
from core.model.panel import panels_of
from core.model.pattern import Edge, Piece
from core.model.project import Layer, Match, Strip
from skirts import LAYERS, changed, full_skirt, plain_skirt

INCH = 25.4

# By hand, for a skirt of five gores, each cut as a mirrored pair:
#   panels of the striped cloth     5 gores x 2 =  10
#   interlining, muslin             5 gores x 2 =  10
#   hem facing, sateen              5 gores x 2 =  10
#   top lining, sateen              5 gores x 2 =  10
#   pocket bags, sateen             2 pockets x 2 = 4, a pocket in the side seam of either side
#   placket, sateen                                 1
#   belt and its stiffening, muslin                 2
#   bias binding, sateen                            3
BY_HAND = 10 + 10 + 10 + 10 + 4 + 1 + 2 + 3


def hem_by_paths(project) -> float:
    """Length of all hems with svgpathtools, both panels of each pair."""
    return sum(
        len(piece.panel_names) * svgpathtools.parse_path(edge.path).length()
        for piece in project.pieces
        for edge in piece.edges
        if edge.name == "hem"
    )


def ring_skirt(hem: float, number: int, name: str = "hem"):
    """Straight gores of one hem width, sewn to a ring."""
    corners = [(-50, 0), (50, 0), (hem / 2, 900), (-hem / 2, 900)]
    names = ["waist", "right", name, "left"]
    edges = tuple(
        Edge(name=n, path=f"M {a[0]!r} {a[1]!r} L {b[0]!r} {b[1]!r}", allowance=12)
        for n, a, b in zip(names, corners, corners[1:] + corners[:1], strict=True)
    )
    plain = plain_skirt()
    pieces = tuple(Piece(id=f"g{index}", cloth="ticking", edges=edges) for index in range(number))
    seams = tuple({"name": f"s{i}", "a": f"g{i}/right", "b": f"g{(i + 1) % number}/left"} for i in range(number))
    raw = msgspec.to_builtins(msgspec.structs.replace(plain, pieces=pieces, seams=(), match=Match(), placements={}))
    return project_from_bytes(json.dumps({**raw, "seams": seams}).encode())


def test_the_count_of_a_fully_made_up_skirt_is_the_count_by_hand():
    found = cutting_list(full_skirt())
    assert found.count == BY_HAND == 50
    assert len(cut_project(full_skirt()).panel_names) == BY_HAND
    by_cloth = {
        cloth: sum(p.number for p in found.pieces if p.cloth == cloth) for cloth in ("ticking", "muslin", "sateen")
    }
    assert by_cloth == {"ticking": 10, "muslin": 12, "sateen": 28}


def test_rows_say_of_what_how_often_and_how():
    rows = {piece.name: piece for piece in cutting_list(full_skirt()).pieces}
    assert len(rows) == 5 * 4 + 4
    facing = rows["Side gore, hem facing"]
    assert (facing.of, facing.cloth, facing.number, facing.mirrored, facing.grain) == (
        "side",
        "sateen",
        2,
        True,
        "straight",
    )
    binding = rows["Binding"]
    assert (binding.of, binding.number, binding.mirrored, binding.grain) == (None, 3, False, "bias")
    assert rows["Front gore"].of is None


def test_area_of_a_cloth_is_that_of_its_cut_lines():
    project = full_skirt()
    panels = [panel for piece in cut_project(project).pieces if piece.cloth == "sateen" for panel in panels_of(piece)]
    need = next(need for need in cutting_list(project).cloths if need.cloth.id == "sateen")
    assert need.area_mm2 == pytest.approx(sum(Polygon(panel.cut_ring).area for panel in panels))


def test_braid_is_the_sweep_and_two_joins():
    """Butterick 1911, Baldt 1916: joined once; arithmetic: a sweep of 80 in and half an inch at each end is 81 in."""
    assert braid_mm(ring_skirt(16 * INCH, 5)) / INCH == pytest.approx(81)
    assert braid_mm(ring_skirt(16 * INCH, 5, name="rim")) / INCH == pytest.approx(81)


def test_without_a_named_hem_the_lowest_free_edge_of_each_panel_is_braided():
    assert braid_mm(ring_skirt(16 * INCH, 5, name="foot")) / INCH == pytest.approx(81)


def test_braid_of_curved_hems_is_the_length_of_their_paths():
    assert braid_mm(plain_skirt()) == pytest.approx(hem_by_paths(plain_skirt()) + 25.4, abs=0.1)


def test_binding_covers_both_edges_of_every_seam():
    project = ring_skirt(400, 6)
    side = np.hypot(150, 900)
    assert binding_mm(project) == pytest.approx(6 * 2 * side)
    opened = msgspec.structs.replace(project.seams[0], open=(0.0, 200.0))
    assert binding_mm(changed(project, seams=(opened, *project.seams[1:]))) == pytest.approx(6 * 2 * side)


def test_facings_are_as_long_as_the_hem_they_face():
    followed = dict(cutting_list(full_skirt()).followed_mm)
    assert followed["hem facing"] == pytest.approx(hem_by_paths(plain_skirt()), abs=0.1)


def test_nothing_is_to_be_bought_before_it_is_laid():
    needs = cutting_list(full_skirt()).cloths
    assert [(need.length_mm, need.buy_mm, need.cost) for need in needs] == [(None, None, None)] * 3


@pytest.fixture(scope="module")
def laid():
    project = match(full_skirt()).project
    return project.placed(lay(cut_project(project), seconds=4.0).project.placements)


def test_all_cloths_are_laid_and_bought_with_their_shrinkage(laid):
    whole = cut_project(laid)
    for need in cutting_list(laid).cloths:
        assert find_faults(whole, need.cloth.id) == ()
        after = need.buy_mm * (1 - need.cloth.shrinkage_percent / 100)
        assert after >= need.length_mm - 1e-6
        assert after < need.length_mm + 10
        assert need.buy_mm % 10 == pytest.approx(0)
        assert need.length_mm * (need.cloth.usable[1] - need.cloth.usable[0]) > need.area_mm2


def test_the_price_is_that_of_the_length_bought(laid):
    muslin = next(need for need in cutting_list(laid).cloths if need.cloth.id == "muslin")
    assert muslin.cost == pytest.approx(muslin.buy_mm / 1000 * 6.5)


def test_places_of_derived_panels_and_ticks_are_kept_in_the_file(laid):
    ticked = changed(laid, done=("front.R", "front hem facing.L", "belt 2"))
    assert project_from_bytes(project_to_bytes(ticked)) == ticked
    assert "side top lining.L" in ticked.placements
    with pytest.raises(BadInput, match=r"done, 'front.X': there is no such panel"):
        changed(laid, done=("front.X",))


def test_two_panels_on_one_another_are_no_lay(laid):
    places = {**laid.placements, "belt 1": laid.placements["belt 2"]}
    need = next(
        n for n in cutting_list(msgspec.structs.replace(laid, placements=places)).cloths if n.cloth.id == "muslin"
    )
    assert need.length_mm is None


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"layers": (Layer(kind="interlining", of=("sleeve",), cloth="muslin"),)}, "no piece 'sleeve'"),
        ({"layers": (LAYERS[0], LAYERS[0])}, "stands 2 times"),
        ({"layers": (Layer(kind="hem facing", of=("front",), cloth="muslin", edge="hem"),)}, "no edge or no depth"),
        ({"layers": (Layer(kind="interlining", of=("front",), cloth="muslin", name="a/b"),)}, "has a / in it"),
        ({"strips": (Strip(id="tab.R", length=9, width=9, number=1, cloth="muslin"),)}, "ends in .R or .L"),
        ({"strips": (Strip(id="s", length=9, width=9, number=1, cloth="felt"),)}, "cloth 'felt' is not there"),
        ({"strips": (Strip(id="s", length=9, width=9, number=1, cloth="muslin", allowance=-1),)}, "allowance is -1"),
    ],
)
def test_layers_and_strips_that_make_no_sense_are_refused(keys, told):
    with pytest.raises(BadInput, match=told):
        changed(full_skirt(), **keys)


def test_a_bend_narrower_than_its_allowance_is_found():
    project = ring_skirt(400, 4)
    dip = Edge(name="waist", path="M -50 0 L -5 0 L 0 12 L 5 0 L 50 0", allowance=15)
    pieces = (
        msgspec.structs.replace(project.pieces[0], edges=(dip, *project.pieces[0].edges[1:])),
        *project.pieces[1:],
    )
    (finding,) = find_odd(changed(project, pieces=pieces))
    assert "piece 'g0', edge 'waist': its bend at (0.0, 12.0)" in str(finding)


def test_list_prints_one_object_with_these_keys(tmp_path, capsys):
    path = tmp_path / "skirt.stripewright"
    write_project(path, full_skirt())
    assert cli.main(["list", str(path), "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert list(report) == ["count", "pieces", "notions", "cloths"]
    assert report["count"] == BY_HAND
    assert all(list(row) == ["name", "of", "cloth", "number", "mirrored", "grain"] for row in report["pieces"])
    assert list(report["notions"]) == ["binding_mm", "braid_mm"]
    assert [row["cloth"] for row in report["cloths"]] == ["ticking", "muslin", "sateen"]
    assert all(list(row) == ["cloth", "area_mm2", "length_mm", "buy_mm"] for row in report["cloths"])


def test_list_says_the_same_in_words(tmp_path, capsys, laid):
    path = tmp_path / "skirt.stripewright"
    write_project(path, laid)
    assert cli.main(["list", str(path)]) == 0
    text = capsys.readouterr().out
    assert "50 pieces to cut" in text
    assert "Side gore, top lining" in text
    assert "Stiff muslin" in text


def test_a_layer_too_deep_is_one_line_and_exit_code_2(tmp_path, capsys):
    path = tmp_path / "deep.stripewright"
    deep = msgspec.structs.replace(LAYERS[1], depth=2000)
    write_project(path, changed(full_skirt(), layers=(deep,)))
    assert cli.main(["list", str(path)]) == 2
    assert capsys.readouterr().err.count("\n") == 1
