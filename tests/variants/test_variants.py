"""Variants: how things stood, kept by name in the project and brought back."""

import json
import math

import msgspec
import pytest

from app.cli import main
from core.derive.compare import standings
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes
from core.model.project import Placement, Project
from core.model.variants import fitting, keep, renamed, stands, taken, variant_of, without
from core.seams.edge_ends import with_piece
from garments import ring
from oracle import seam_figures


def spread(project: Project, by: float) -> Project:
    """Every panel at another place."""
    return project.placed(
        {name: Placement(u=40.0 * i + by * i, v=3.0 * i, turn_deg=0.1) for i, name in enumerate(project.panel_names)}
    )


def with_limit(project: Project, degrees: float) -> Project:
    cloths = tuple(msgspec.structs.replace(cloth, grain_tolerance_deg=degrees) for cloth in project.cloths)
    return msgspec.structs.replace(project, cloths=cloths)


def weighed(project: Project, weight: float) -> Project:
    seams = (msgspec.structs.replace(project.seams[0], weight=weight), *project.seams[1:])
    return msgspec.structs.replace(project, seams=seams)


def wider(project: Project) -> Project:
    """The first piece with a deeper allowance at its hem."""
    piece = project.pieces[0]
    edges = tuple(msgspec.structs.replace(edge, allowance=33.0) if edge.name == "hem" else edge for edge in piece.edges)
    return with_piece(project, msgspec.structs.replace(piece, edges=edges))


@pytest.fixture
def two_ways() -> Project:
    """A garment at a second placement, tolerance and weight, its first way kept."""
    first = keep(spread(ring(1, 6), 1.0), "by hand", "as pinned on the table")
    return weighed(with_limit(spread(first, 3.3), 1.5), 9.0)


def test_taking_a_variant_brings_placements_tolerance_and_weights_back(two_ways):
    first, before = spread(ring(1, 6), 1.0), taken(two_ways, "by hand")
    assert msgspec.structs.replace(before, variants=()) == msgspec.structs.replace(first, match=before.match)
    assert stands(before, variant_of(before, "by hand"))
    assert not stands(two_ways, variant_of(two_ways, "by hand"))


def test_the_tolerance_of_a_cloth_with_nothing_but_bars_comes_back_too(two_ways):
    cloth = two_ways.cloths[0]
    barred = msgspec.structs.replace(cloth, repeat=None, crosswise=cloth.repeat)
    project = keep(msgspec.structs.replace(two_ways, cloths=(barred, *two_ways.cloths[1:]), variants=()), "before")
    assert taken(with_limit(project, 0.75), "before").cloths == project.cloths


def test_a_variant_keeps_its_pieces_when_another_one_with_other_pieces_is_taken(two_ways):
    now = keep(two_ways, "now")
    deep = keep(wider(now), "deep hem")
    deep = msgspec.structs.replace(
        deep,
        variants=tuple(
            msgspec.structs.replace(v, pieces=deep.pieces[:1]) if v.name == "deep hem" else v for v in deep.variants
        ),
        pieces=now.pieces,
    )
    there = taken(deep, "deep hem")
    assert there.pieces == wider(now).pieces
    assert taken(there, "now").pieces == now.pieces
    assert taken(taken(there, "by hand"), "deep hem").pieces == there.pieces


def test_the_file_holds_variants_and_a_file_without_them_gets_no_key(two_ways):
    assert project_from_bytes(project_to_bytes(two_ways)) == two_ways
    assert b"variants" not in project_to_bytes(without(two_ways, "by hand"))


def test_names_are_given_once_and_can_be_changed(two_ways):
    with pytest.raises(BadInput, match="already"):
        keep(two_ways, "by hand")
    with pytest.raises(BadInput, match="empty"):
        keep(two_ways, "  ")
    with pytest.raises(BadInput, match="the variants are by hand"):
        variant_of(two_ways, "solved")
    assert [v.name for v in renamed(two_ways, "by hand", "pinned").variants] == ["pinned"]
    assert without(two_ways, "by hand").variants == ()


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"placements": {"g9": {"u": 0}}}, "variant 'x', placement 'g9': there is no such panel"),
        ({"placements": {"g0": {"u": 1e308}}}, "variant 'x', placement 'g0': u is 1e\\+308"),
        ({"grain_tolerance_deg": {"silk": 1}}, "variant 'x': there is no cloth 'silk'; the cloths are cloth"),
        ({"grain_tolerance_deg": {"cloth": 90}}, "variant 'x', cloth 'cloth': grain_tolerance_deg is 90"),
        ({"weights": {"s0": -1}}, "variant 'x', seam 's0': weight is -1"),
        ({"weights": {"hem": 1}}, "variant 'x': there is no seam 'hem'"),
        ({"match": {"centre": {"on": "lead", "panel": "g7"}}}, "variant 'x', match, centre: there is no panel 'g7'"),
        ({"pieces": [{"id": "g7", "cloth": "cloth", "edges": []}]}, "variant 'x': there is no piece 'g7'"),
        ({"pieces": [{"id": "g0", "cloth": "cloth", "edges": []}]}, "variant 'x', piece 'g0': it can't stand for"),
        ({"name": " "}, "variants: a name or id is empty"),
        ({"colour": 1}, "there is no key 'colour'"),
    ],
)
def test_what_is_wrong_in_a_variant_is_said_in_one_line(change, says):
    raw = json.loads(project_to_bytes(ring(1, 4)))
    raw["variants"] = [{"name": "x", **change}]
    with pytest.raises(BadInput, match=says) as caught:
        project_from_bytes(json.dumps(raw).encode())
    assert "\n" not in str(caught.value)


def test_two_variants_of_one_name_are_refused():
    raw = json.loads(project_to_bytes(ring(1, 4)))
    raw["variants"] = [{"name": "x"}, {"name": "x"}]
    with pytest.raises(BadInput, match="'x' stands 2 times"):
        project_from_bytes(json.dumps(raw).encode())


def test_a_seam_or_a_panel_that_goes_takes_its_name_out_of_the_variants(two_ways):
    fewer = msgspec.structs.replace(two_ways, seams=two_ways.seams[:-2], pieces=two_ways.pieces[:-1])
    left = fitting(fewer).variants[0]
    assert "g5" not in left.placements
    assert set(left.weights) == {seam.name for seam in fewer.seams}
    assert project_from_bytes(project_to_bytes(fitting(msgspec.structs.replace(fewer, placements={}))))


def garment_figure(project: Project, weights: list[float]) -> float:
    """The garment's figure from the independent reading of each seam."""
    squares = [rms**2 for rms, _ in seam_figures(project).values()]
    return math.sqrt(sum(w * s for w, s in zip(weights, squares, strict=True)) / sum(weights))


def test_figures_agree_with_an_independent_reading_of_the_file(two_ways):
    found, back = standings(two_ways)[0], taken(two_ways, "by hand")
    own, now = ([seam.weight for seam in project.seams] for project in (back, two_ways))
    assert found.rms_mm == pytest.approx(garment_figure(back, own), abs=0.01)
    assert found.alike_rms_mm == pytest.approx(garment_figure(back, now), abs=0.01)
    assert abs(found.rms_mm - found.alike_rms_mm) > 0.02
    worst = max(seam_figures(back).values(), key=lambda figures: figures[1])
    assert found.worst_mm == pytest.approx(worst[1], abs=0.02)
    assert found.longest_turn_deg == 0.1
    assert found.lay_mm > 850


def test_a_panel_that_is_cut_and_lies_elsewhere_in_a_variant_is_counted(two_ways):
    assert standings(msgspec.structs.replace(two_ways, done=("g1", "g2")))[0].cut_elsewhere == 2
    assert standings(two_ways)[0].cut_elsewhere == 0


def test_measure_reads_a_variant_and_lists_all(two_ways, tmp_path, capsys):
    path = tmp_path / "two.stripewright"
    path.write_bytes(project_to_bytes(two_ways))
    assert main(["measure", str(path), "--variant", "by hand", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["placements"]["g1"]["u"] == 41.0
    assert main(["measure", str(path)]) == 0
    assert "by hand" in capsys.readouterr().out
    assert main(["measure", str(path), "--variant", "none"]) == 2
    assert "no variant 'none'; the variants are by hand" in capsys.readouterr().err
