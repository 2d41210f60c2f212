"""Truing: every method leaves edges that agree, outlines that are closed, and nothing to find of what was trued."""

import math

import msgspec
import numpy as np
import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from svgpathtools import parse_path

from app.cli import main
from core.errors import BadInput
from core.files.project_file import read_project, write_project
from core.model.panel import panels_of
from core.model.project import Pocket
from core.model.validate import validate
from core.seams.garment import Garment
from core.seams.remedy import LENGTH_METHODS, Remedy
from core.seams.runs_through import runs_through
from core.seams.truing import trued
from garments import gore as curved_gore
from straight_gores import findings, gore, made, seam_lengths, sewn, true

LEAN = math.radians(6.0)


def path(project, piece: str, edge: str):
    one = next(one for one in project.pieces if one.id == piece)
    return parse_path(next(side.path for side in one.edges if side.name == edge))


def notch_ats(project, piece: str) -> list[float]:
    return [notch.at for one in project.pieces if one.id == piece for notch in one.notches]


# --- lengths, on straight gores: 800 against 810 mm, leaning 6 degrees


@pytest.mark.parametrize(
    ("method", "both"),
    [
        ("lengthen the shorter edge at the bottom", 810.0),
        ("lengthen the shorter edge at the top", 810.0),
        ("shorten the longer edge at the bottom", 800.0),
        ("shorten the longer edge at the top", 800.0),
        ("share the difference at the bottom", 805.0),
        ("share the difference at the top", 805.0),
    ],
)
@pytest.mark.parametrize("cut", ["single", "pair"])
def test_each_method_brings_both_edges_to_its_length(method, both, cut):
    project = true(sewn(gore("a", cut=cut), gore("b", cut=cut, length=810.0)), method, "longer")
    for index in range(len(Garment.of(project).seams)):
        assert seam_lengths(project, index) == pytest.approx((both, both), abs=0.003)
    assert findings(project, "longer") == []


def test_the_corner_goes_straight_on_along_the_edge_and_the_hem_follows_it():
    before = sewn(gore("a"), gore("b", length=810.0))
    after = true(before, "lengthen the shorter edge at the bottom", "longer")
    corner = complex(50 + 810 * math.sin(LEAN), 810 * math.cos(LEAN))
    assert path(after, "a", "r").end == pytest.approx(corner, abs=0.002)
    assert path(after, "a", "hem").start == pytest.approx(corner, abs=0.002)
    assert path(after, "a", "hem").end == pytest.approx(path(before, "a", "hem").end, abs=1e-4)
    assert path(after, "b", "l") == path(before, "b", "l")


def test_at_the_top_the_waist_end_goes_up_and_notches_stay_where_they_are_on_the_cloth():
    marked = gore("a", notches=[{"edge": "r", "at": 200}])
    after = true(sewn(marked, gore("b", length=810.0)), "lengthen the shorter edge at the top", "longer")
    start = complex(50 - 10 * math.sin(LEAN), -10 * math.cos(LEAN))
    assert path(after, "a", "r").start == pytest.approx(start, abs=0.002)
    assert path(after, "a", "top").end == pytest.approx(start, abs=0.002)
    assert notch_ats(after, "a") == pytest.approx([210.0], abs=0.003)


def test_pieces_on_the_fold_are_trued_as_drawn_for_both_sides_at_once():
    half = gore("f", lean_deg=0.0, cut="fold", fold="l", notches=[{"edge": "r", "at": 300}])
    seams = [
        {"name": "right", "a": "f/r.R", "b": "a.R/l"},
        {"name": "left", "a": "a.L/l", "b": "f/r.L"},
    ]
    project = made([half, gore("a", lean_deg=0.0, cut="pair", length=808.0)], seams)
    after = true(project, "lengthen the shorter edge at the bottom", "longer")
    assert seam_lengths(after, 0) == pytest.approx((808.0, 808.0), abs=0.003)
    assert seam_lengths(after, 1) == pytest.approx((808.0, 808.0), abs=0.003)
    assert path(after, "f", "r").end == pytest.approx(50 + 808j, abs=0.003)


@pytest.mark.parametrize("method", LENGTH_METHODS)
def test_a_piece_drawn_at_its_cutting_line_is_trued_on_its_stitching_line(method):
    project = sewn(gore("a", outline_is="cut", length=900.0), gore("b", length=810.0))
    lengths = seam_lengths(project)
    assert abs(lengths[0] - lengths[1]) > 5
    after = true(project, method, "longer")
    assert seam_lengths(after)[0] == pytest.approx(seam_lengths(after)[1], abs=0.003)
    assert findings(after, "longer") == []


def test_a_curved_edge_stays_one_curve_and_keeps_its_shape():
    rng = np.random.default_rng(5)
    one, other = (curved_gore(name, rng, length=length) for name, length in (("a", 850.0), ("b", 862.0)))
    before = sewn(one, other)
    after = true(before, "lengthen the shorter edge at the bottom", "longer")
    changed = [p for p in "ab" for e in "rl" if path(after, p, e) != path(before, p, e)]
    (piece,) = changed
    edge = "r" if piece == "a" else "l"
    old, new = path(before, piece, edge), path(after, piece, edge)
    assert len(old) == len(new) == 1
    # the old edge lies on the new one: its points are met at the same distance from the end that stays
    for share in (0.2, 0.5, 0.9):
        at = old.ilength(share * old.length()) if edge == "r" else old.ilength((1 - share) * old.length())
        there = new.ilength(share * old.length())
        if edge == "l":
            there = new.ilength(new.length() - share * old.length())
        assert abs(old.point(at) - new.point(there)) < 0.02


@settings(deadline=None, max_examples=40)
@given(
    seed=st.integers(0, 10_000),
    method=st.sampled_from(LENGTH_METHODS),
    cut=st.sampled_from(["single", "pair"]),
    drawn=st.sampled_from(["net", "cut"]),
    curved=st.booleans(),
    join=st.sampled_from(["spread", "top", "bottom"]),
    longer=st.floats(2.0, 25.0),
)
def test_whatever_the_gores_their_edges_agree_afterwards(seed, method, cut, drawn, curved, join, longer):
    rng = np.random.default_rng(seed)
    one = {**curved_gore("a", rng, cut, curved), "outline_is": drawn}
    other = curved_gore("b", rng, cut, curved, length=850.0 + longer)
    project = sewn(one, other, join=join)
    assume(findings(project, "longer"))
    after = true(project, method, "longer")
    validate(after)
    assert seam_lengths(after)[0] == pytest.approx(seam_lengths(after)[1], abs=0.1)
    assert findings(after, "longer") == []


# --- notches


def with_notches(drawn: str = "net", right=(200.0, 500.0), left=(596.0, 300.0)):
    one = gore("a", notches=[{"edge": "r", "at": at} for at in right], outline_is=drawn)
    return sewn(one, gore("b", notches=[{"edge": "l", "at": at} for at in left], outline_is=drawn))


@pytest.mark.parametrize("drawn", ["net", "cut"])
@pytest.mark.parametrize("which", ["right", "left"])
def test_a_moved_notch_meets_its_partner_and_the_others_stay(drawn, which):
    project = with_notches(drawn)
    assert len(findings(project, "notch")) == 1  # 204 against 200; 500 meets 500
    after = true(project, f"move the notch of the {which} edge", "notch")
    assert findings(after, "notch") == []
    stays = "a" if which == "right" else "b"
    assert notch_ats(after, stays) == notch_ats(project, stays)
    assert len(notch_ats(after, "a")) == len(notch_ats(after, "b")) == 2


def test_a_moved_notch_has_its_partners_height():
    after = true(with_notches(), "move the notch of the right edge", "notch")
    assert sorted(notch_ats(after, "b")) == pytest.approx([300.0, 600.0], abs=1e-3)
    after = true(with_notches(), "move the notch of the left edge", "notch")
    assert sorted(notch_ats(after, "a")) == pytest.approx([204.0, 500.0], abs=1e-3)


def test_a_missing_notch_is_marked_or_the_other_taken_away():
    project = with_notches(left=(600.0,))
    marked = true(project, "mark the missing notch", "meets none")
    assert sorted(notch_ats(marked, "b")) == pytest.approx([300.0, 600.0], abs=1e-3)
    gone = true(project, "take the notch away", "meets none")
    assert notch_ats(gone, "a") == [200.0]
    assert findings(marked, "notch") == findings(gone, "notch") == []


# --- lines across the seam's ends


def juts(project, end: str, index: int = 0) -> float:
    garment = Garment.of(project)
    return next(run.juts_deg for run in runs_through(garment, garment.seams[index]) if run.end == end)


@pytest.mark.parametrize("drawn", ["net", "cut"])
@pytest.mark.parametrize("cut", ["single", "pair"])
@pytest.mark.parametrize(("where", "end"), [("top", "upper"), ("bottom", "lower")])
def test_a_run_that_was_smoothed_makes_180_degrees_and_the_edges_keep_agreeing(where, end, cut, drawn):
    project = sewn(gore("a", cut=cut, outline_is=drawn), gore("b", cut=cut, outline_is=drawn))
    assert abs(juts(project, end)) > 8
    after = true(project, f"smooth the run at the {where}", f"at the {where}")
    assert juts(after, end) == pytest.approx(0.0, abs=0.05)
    assert findings(after, f"at the {where}") == []
    assert seam_lengths(after)[0] == pytest.approx(seam_lengths(after)[1], abs=0.05)


def test_smoothing_leaves_the_corners_and_turns_the_hem_only_at_that_end():
    before = sewn(gore("a"), gore("b"))
    after = true(before, "smooth the run at the bottom", "hem")
    old, new = path(before, "a", "hem"), path(after, "a", "hem")
    assert (new.start, new.end) == (pytest.approx(old.start), pytest.approx(old.end))
    turned = np.angle(new[0].derivative(0) / old[0].derivative(0), deg=True)
    assert abs(turned) == pytest.approx(
        6.0, abs=0.4
    )  # 12 degrees, shared; over its first 2 mm the curve bends a little
    assert np.angle(new[0].derivative(1) / old[0].derivative(1), deg=True) == pytest.approx(0.0, abs=0.01)


def test_a_hem_smoothed_at_both_ends_comes_near_the_circle_that_is_square_to_both_edges():
    # Edges that lean by a either way are radii of a circle about the point where they would meet; its arc bows below
    # the chord of width w by w / 2 tan(a / 2).
    project = sewn(gore("a"), gore("b"), gore("c"))
    for name in ("s0", "s1"):
        project = true(project, "smooth the run at the bottom", f"{name!r}: hem")
    hem = path(project, "b", "hem")
    width = abs(hem.end - hem.start)
    bow = max(hem.point(t).imag for t in np.linspace(0, 1, 101)) - hem.start.imag
    assert bow == pytest.approx(width / 2 * math.tan(LEAN / 2), rel=0.05)


def test_two_panels_of_one_piece_share_one_hem_and_it_is_turned_once():
    pair = gore("a", cut="pair")
    project = made([pair], [{"name": "centre front", "a": "a.R/r", "b": "a.L/r"}])
    after = true(project, "smooth the run at the bottom", "hem")
    assert juts(after, "lower") == pytest.approx(0.0, abs=0.05)


@settings(deadline=None, max_examples=15)
@given(seed=st.integers(0, 10_000), cut=st.sampled_from(["single", "pair"]), drawn=st.sampled_from(["net", "cut"]))
def test_whatever_the_gores_their_hems_run_through_afterwards(seed, cut, drawn):
    rng = np.random.default_rng(seed)
    project = sewn(*({**curved_gore(name, rng, cut, length=850.0), "outline_is": drawn} for name in "ab"))
    found = findings(project, "at the bottom")
    assume(found)
    after = true(project, "smooth the run at the bottom", "at the bottom")
    assert findings(after, "at the bottom") == []
    validate(after)


# --- the seam itself


def test_left_and_right_are_exchanged_where_they_were_the_wrong_way_round():
    pieces = [gore("a"), gore("b")]
    wrong = made(pieces, [{"name": "s", "a": "b/l", "b": "a/r"}])
    after = true(wrong, "exchange left and right", "upwards")
    assert (after.seams[0].a, after.seams[0].b) == ("a/r", "b/l")
    assert findings(after, "upwards") == []


def test_a_stretch_that_goes_on_below_the_seam_ends_with_it():
    project = sewn(gore("a"), gore("b"), open=[0, 180], seen=[200, 900])
    after = true(project, "end the stretch with the seam", "seen goes to")
    assert after.seams[0].seen == pytest.approx((200, 800))
    assert after.seams[0].open == (0, 180)


AT_TOP = [method for method in LENGTH_METHODS if method.endswith("top")]


def places(project, heights) -> np.ndarray:
    """Where heights of the first seam lie on its left panel; shape (n, 2)."""
    line = Garment.of(project).seams[0]
    return np.stack([np.interp(heights, line.height, line.a[:, axis]) for axis in (0, 1)], axis=1)


@pytest.mark.parametrize("method", AT_TOP)
@pytest.mark.parametrize("join", ["spread", "top", "bottom"])
@pytest.mark.parametrize("lengths", [(800.0, 812.0), (812.0, 800.0)])
def test_what_is_open_and_seen_stays_where_it_was_on_the_left_panel_when_the_top_is_trued(method, join, lengths):
    a, b = (gore(name, length=long) for name, long in zip("ab", lengths, strict=True))
    project = sewn(a, b, open=[100, 220], seen=[50, 700], join=join)
    pocket = Pocket(id="p", seam="s0", opening=(100, 220), width=150, depth=120, cloth="cloth")
    project = msgspec.structs.replace(project, pockets=(pocket,))
    after = true(project, method, "longer")
    seam, before = after.seams[0], project.seams[0]
    low = np.array([0.0, lengths[0] * math.cos(LEAN)])  # the feet of the left panel, from which both are looked at
    for now, then in ((seam.open, before.open), (seam.seen, before.seen)):
        assert places(after, now) - low == pytest.approx(places(project, then) - low, abs=0.01)
    assert after.pockets[0].opening == seam.open


def test_what_lies_above_the_new_top_is_cut_off():
    project = sewn(gore("a", length=830.0), gore("b"), open=[10, 220], seen=[0, 25], join="spread")
    after = true(project, "shorten the longer edge at the top", "longer")
    assert after.seams[0].open == pytest.approx((0, 190), abs=0.01)
    assert after.seams[0].seen is None
    bottom = true(project, "shorten the longer edge at the bottom", "longer")
    assert (bottom.seams[0].open, bottom.seams[0].seen) == ((10, 220), (0, 25))


# --- what can't be had


def test_a_method_that_leaves_no_sound_outline_is_refused_and_says_where():
    project = sewn(gore("a", length=40.0, lean_deg=0.0), gore("b", length=800.0, lean_deg=0.0))
    remedy = next(one for found in findings(project, "longer") for one in found.remedies if "share" in one.method)
    shorter = Remedy(remedy.sewn, "shorten the longer edge at the bottom")
    with pytest.raises(BadInput):
        trued(msgspec.structs.replace(project, pieces=(project.pieces[0], _thin(project.pieces[1]))), shorter)


def _thin(piece):
    """The gore with its other edge left long and its hem allowance too deep for a slanting hem."""
    edges = tuple(msgspec.structs.replace(edge, allowance=300.0) for edge in piece.edges)
    return msgspec.structs.replace(piece, edges=edges, outline_is="cut")


def test_panels_of_a_pair_stay_mirror_images():
    after = true(sewn(gore("a", cut="pair"), gore("b", cut="pair", length=806.0)), LENGTH_METHODS[4], "longer")
    for piece in after.pieces:
        right, left = panels_of(piece)
        assert np.allclose(np.sort(right.net_ring[:, 0]), np.sort(-left.net_ring[:, 0]))


# --- from the command line


def test_true_writes_the_project_and_says_what_is_left(tmp_path, capsys):
    source, to = tmp_path / "gores.stripewright", tmp_path / "trued.stripewright"
    write_project(source, sewn(gore("a"), gore("b", length=810.0), gore("c")))
    by = "share the difference at the bottom"
    assert main(["true", str(source), "--by", by, "--seam", "s0", "-o", str(to)]) == 0
    assert "trued, seam 's0': b/l is 10.0 mm longer" in capsys.readouterr().out
    assert seam_lengths(read_project(to), 0) == pytest.approx((805, 805), abs=0.003)
    assert seam_lengths(read_project(to), 1) == pytest.approx((810, 800), abs=0.003)
    assert main(["true", str(to), "--by", by]) == 0
    assert seam_lengths(read_project(to), 1)[0] == pytest.approx(seam_lengths(read_project(to), 1)[1], abs=0.003)


def test_a_method_that_no_finding_offers_is_refused_and_leaves_the_file(tmp_path, capsys):
    source = tmp_path / "gores.stripewright"
    write_project(source, sewn(gore("a"), gore("b")))
    before = source.read_bytes()
    assert main(["true", str(source), "--by", "take the notch away"]) == 2
    error = capsys.readouterr().err
    assert "no finding offers to take the notch away" in error
    assert "smooth the run at the bottom" in error
    assert source.read_bytes() == before
