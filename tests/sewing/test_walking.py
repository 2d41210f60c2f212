"""What walking a seam finds: notches that don't meet, lines that jut in or out where two panels are sewn together."""

import math

import pytest

from core.seams.garment import Garment
from core.seams.notches import NotchPair, notch_pairs
from core.seams.runs_through import runs_through
from straight_gores import findings, gore, made, sewn


def pairs(project, index=0):
    garment = Garment.of(project)
    return notch_pairs(garment, garment.seams[index])


def runs(project, index=0):
    garment = Garment.of(project)
    return {run.end: run for run in runs_through(garment, garment.seams[index])}


def with_notches(name: str, right=(), left=(), **keys) -> dict:
    """Notches by their heights down either edge; the left one is drawn upwards."""
    length = keys.get("length", 800.0)
    notches = [{"edge": "r", "at": at} for at in right] + [{"edge": "l", "at": length - at} for at in left]
    return gore(name, notches=notches, **keys)


def test_notches_at_one_height_meet_though_the_edges_are_drawn_opposite_ways():
    project = sewn(with_notches("a", right=[200, 500]), with_notches("b", left=[500.6, 200]))
    assert [pair.apart_mm for pair in pairs(project)] == pytest.approx([0.0, 0.6], abs=1e-6)
    assert findings(project, "notch") == []


def test_a_notch_more_than_a_millimetre_off_is_told_with_its_height():
    project = sewn(with_notches("a", right=[200]), with_notches("b", left=[203.5]))
    (found,) = findings(project, "notch")
    assert (
        str(found) == "seam 's0': the notch of b/l is 3.5 mm lower than that of a/r; both at 200.0 or both at 203.5 mm"
    )


def test_a_notch_that_meets_none_is_named():
    project = sewn(with_notches("a", right=[200, 600]), with_notches("b", left=[200]))
    (found,) = findings(project, "notch")
    assert "the notch of a/r at 600.0 mm meets none" in str(found)
    assert pairs(project)[1] == NotchPair(pytest.approx(600.0), None)


def test_double_notches_stay_in_order_rather_than_meet_the_nearest():
    # 100 and 105 against 103 and 108: the nearest of all, 105 and 103, would leave the outer two crossed.
    project = sewn(with_notches("a", right=[100, 105]), with_notches("b", left=[103, 108]))
    assert [pair.apart_mm for pair in pairs(project)] == pytest.approx([3.0, 3.0], abs=1e-6)


@pytest.mark.parametrize(("join", "at"), [("spread", 808.0 / 2), ("top", 400.0), ("bottom", 408.0)])
def test_where_the_edges_differ_notches_meet_as_the_join_holds_them(join, at):
    # 800 against 808 mm: halfway down meets halfway; held at the top it meets 400 from the top, held at the bottom
    # 400 from the bottom.
    project = sewn(with_notches("a", right=[400]), with_notches("b", left=[at], length=808.0), join=join)
    assert pairs(project)[0].apart_mm == pytest.approx(0.0, abs=1e-6)


def test_a_straight_hem_on_a_flaring_gore_juts_out_by_both_leans():
    # Plane trigonometry: a hem square to the grain meets an edge that leans by a at 90 - a degrees, so two of them
    # make 180 - 2a, and a ruler laid across from 30 mm to 30 mm passes 30 sin a above the corner.
    project = sewn(gore("a", lean_deg=6.0), gore("b", lean_deg=6.0))
    lower, upper = runs(project)["lower"], runs(project)["upper"]
    assert lower.juts_deg == pytest.approx(12.0, abs=1e-6)
    assert lower.juts_mm == pytest.approx(30 * math.sin(math.radians(6)), abs=1e-6)
    assert upper.juts_deg == pytest.approx(-12.0, abs=1e-6)
    told = [str(finding) for finding in findings(project)]
    assert any("hem juts out at the bottom by 12.0 degrees, 3.1 mm over 30 mm" in line for line in told)
    assert any("top juts in at the top by 12.0 degrees, 3.1 mm over 30 mm" in line for line in told)


def test_unequal_leans_jut_by_their_sum():
    project = sewn(gore("a", lean_deg=4.0), gore("b", lean_deg=9.5))
    assert runs(project)["lower"].juts_deg == pytest.approx(13.5, abs=1e-6)


def test_a_hem_drawn_square_to_both_edges_runs_through():
    x, y = 50 + 800 * math.sin(math.radians(6)), 800 * math.cos(math.radians(6))
    sag = x * math.tan(math.radians(6))
    square = gore("a")
    square["edges"][2]["path"] = f"M {x!r} {y!r} Q 0 {y + sag!r} {-x!r} {y!r}"
    project = sewn(square, {**square, "id": "b"})
    assert runs(project)["lower"].juts_deg == pytest.approx(0.0, abs=0.5)
    assert findings(project, "hem") == []


def test_a_point_in_which_gores_end_is_no_line_that_runs_through():
    edges = [
        {"name": "r", "path": "M 0 0 L 200 500"},
        {"name": "rim", "path": "M 200 500 L -200 500"},
        {"name": "l", "path": "M -200 500 L 0 0"},
    ]
    one, other = ({"id": name, "cloth": "cloth", "edges": edges, "cut": "single"} for name in "ab")
    assert list(runs(sewn(one, other))) == ["lower"]


def test_a_scallop_is_taken_for_meant():
    project = sewn(gore("a", lean_deg=25), gore("b", lean_deg=25))
    assert runs(project)["lower"].juts_deg == pytest.approx(50.0, abs=1e-6)
    assert findings(project, "juts") == []


def test_a_yoke_sewn_across_has_its_side_lines_walked():
    # The yoke narrows upwards, the skirt widens downwards: their right sides meet at the seam by the sum of the leans.
    yoke = [
        {"name": "waist", "path": "M -40 0 L 40 0"},
        {"name": "right", "path": "M 40 0 L 50 100"},
        {"name": "lower", "path": "M 50 100 L -50 100"},
        {"name": "left", "path": "M -50 100 L -40 0"},
    ]
    seam = {"name": "yoke", "a": "yoke/lower", "b": "a/top"}
    project = made([{"id": "yoke", "cloth": "cloth", "edges": yoke}, gore("a", lean_deg=0.0)], [seam])
    found = runs(project)
    assert {run.a.side for run in found.values()} == {"left", "right"}
    assert found["upper"].juts_deg == pytest.approx(math.degrees(math.atan(10 / 100)), abs=1e-6)


def test_what_stands_for_both_sides_is_told_once():
    project = sewn(gore("a", cut="pair"), gore("b", cut="pair", length=810.0))
    (found,) = findings(project, "longer")
    assert found.place == "seam 's0' on both sides"
    assert found.seam == "s0"


def test_an_end_that_overhangs_has_no_line_to_run_through():
    project = sewn(gore("a"), gore("b", length=820.0), join="top")
    assert list(runs(project)) == ["upper"]
