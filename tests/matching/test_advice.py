"""What to change: the reason for every seam's residual, and gains that a match of the changed file confirms."""

import json
import math

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from svgpathtools import parse_path

from app.cli import main
from core.errors import Stopped
from core.files.project_file import project_from_bytes, project_to_bytes, read_project, write_project
from core.matching.advice import advise
from core.matching.solve import match
from core.model.project import Centre, Match, Placement, Project
from core.model.variants import taken
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import ring
from straight_gores import gore, made, sewn


def within(project: Project, degrees: float) -> Project:
    """The project under another tolerance."""
    cloths = tuple(msgspec.structs.replace(cloth, grain_tolerance_deg=degrees) for cloth in project.cloths)
    return msgspec.structs.replace(project, cloths=cloths)


def round_of(*gores: dict) -> Project:
    """Gores sewn to a ring."""
    ids = [one["id"] for one in gores]
    seams = [
        {"name": f"s{i}", "a": f"{a}/r", "b": f"{b}/l"}
        for i, (a, b) in enumerate(zip(ids, ids[1:] + ids[:1], strict=True))
    ]
    return made(gores, seams)


def wider(piece: dict, by: float) -> dict:
    """A straight gore with its right edge further out by so many mm at every height."""
    half = piece["edges"][1]["path"].split()
    x0, y0, x1, y1 = (float(half[i]) for i in (1, 2, 4, 5))
    paths = {"top": f"M -50 0 L {x0 + by} 0", "r": f"M {x0 + by} {y0} L {x1 + by} {y1}"}
    paths["hem"] = f"M {x1 + by} {y1} L {-x1} {y1}"
    edges = [{**edge, "path": paths.get(edge["name"], edge["path"])} for edge in piece["edges"]]
    return {**piece, "edges": edges}


def first_reasons(project: Project) -> list[str]:
    return [seam.reasons[0].what for seam in advise(project).seams if seam.reasons]


@settings(max_examples=8, deadline=None)
@given(st.floats(2.0, 12.0), st.floats(2.0, 12.0))
def test_on_straight_gores_the_drift_is_h_times_the_difference_of_the_sines(a_deg, b_deg):
    # D, plane trigonometry: edges leaning a and b opposite ways, matched at the top, step h (sin a - sin b) at h.
    if abs(a_deg - b_deg) < 0.05:
        return
    project = within(sewn(gore("p", lean_deg=a_deg), gore("q", lean_deg=b_deg)), 0.0)
    lean = next(r for r in advise(project).seams[0].reasons if r.what == "lean")
    sines = math.sin(math.radians(a_deg)) - math.sin(math.radians(b_deg))
    assert lean.drift_mm == pytest.approx(800 * sines, rel=1e-4, abs=0.01)
    assert lean.deg == pytest.approx(a_deg - b_deg, abs=1e-3)
    assert lean.share == pytest.approx(1, abs=0.01)
    assert lean.mm == pytest.approx(800 * abs(sines) / math.sqrt(12), rel=1e-4, abs=0.01)


def test_a_tolerance_that_is_the_only_obstacle_is_named_first():
    project = within(sewn(gore("p", lean_deg=6.0), gore("q", lean_deg=6.35)), 0.1)
    advice = advise(project)
    reasons = advice.seams[0].reasons
    assert [r.what for r in reasons] == ["tolerance", "lean"]
    assert set(reasons[0].panels) == {"p", "q"}
    assert reasons[0].share == pytest.approx(1, abs=1e-3)
    # Each panel turns by 0.1 degrees, so that 0.15 of the 0.35 are left.
    assert abs(reasons[1].deg) == pytest.approx(0.15, abs=2e-3)
    best = next(change for change in advice.changes if change.kind != "match")
    assert (best.kind, best.what) == ("tolerance", "cloth: turns up to 0.2° instead of 0.1°")
    assert best.rms_mm < 0.01


def test_a_held_panel_that_is_the_only_obstacle_is_named_first():
    project = within(sewn(gore("p"), gore("q"), gore("r")), 0.0)
    held = {"p": Placement(u=0, hold=True), "r": Placement(u=7, hold=True)}
    advice = advise(project.placed(held))
    for seam in advice.seams:
        assert seam.reasons[0].what == "hold"
        assert seam.reasons[0].share == pytest.approx(1, abs=1e-3)
        assert {r.what for r in seam.reasons} == {"hold", "offset"}
    assert advice.gains[0].kind == "hold"
    assert advice.gains[0].rms_mm < 0.01


def test_a_ring_that_does_not_close_is_named_first():
    gores = [gore(name) for name in "pqrs"]
    assert first_reasons(within(round_of(*gores), 0.0)) == []
    advice = advise(within(round_of(wider(gores[0], 4.0), *gores[1:]), 0.0))
    assert [seam.reasons[0].what for seam in advice.seams] == ["ring"] * 4
    # One edge 4 mm further out leaves the four steps 4 mm to share: 1 mm each is the least in root mean square.
    assert [abs(seam.reasons[0].mm) for seam in advice.seams] == pytest.approx([1.0] * 4, abs=0.01)


def test_an_odd_ring_whose_centre_is_asked_for_closes_once_it_is_let_free():
    # Round an odd ring of chevrons 2 phi is given by the widths, so that a centre on the lead stripe is too much.
    project = within(round_of(wider(gore("p"), 5.0), gore("q"), gore("r")), 0.0)
    asked = msgspec.structs.replace(project, match=Match(centre=Centre(on="lead", panel="q")))
    advice = advise(asked)
    assert all(seam.reasons[0].what == "centre" for seam in advice.seams)
    assert advice.gains[0].kind == "centre"
    assert advice.gains[0].rms_mm < 0.01


def test_a_curve_at_the_hip_is_told_from_a_lean():
    bent = gore("p")
    x, y = (float(word) for word in bent["edges"][1]["path"].split()[4:6])
    bent["edges"][1]["path"] = f"M 50 0 Q {(50 + x) / 2 + 30} {y / 2} {x} {y}"
    reasons = advise(within(sewn(bent, gore("q")), 0.0)).seams[0].reasons
    assert reasons[0].what == "curve"
    assert reasons[0].share > 0.9
    # The bow of a quadratic is 4 d s (1 - s) with d half the control point's way out: its rms about its own best line.
    assert reasons[0].mm == pytest.approx(15 * math.cos(math.radians(6)) * math.sqrt(4 / 45), rel=0.05)


def test_each_gain_is_what_match_finds_on_the_written_project(tmp_path, harbour_skirt):
    apron = read_project(harbour_skirt.with_name("ferry-apron.stripewright"))
    mixed = ring(3, 6, shape="pairs", tolerance=0.4, match={"centre": {"on": "lead", "panel": "g0.R"}})
    mixed = mixed.placed({"g2.R": Placement(u=31.0, v=4.0, hold=True), "g1.L": Placement(u=2.0, hold=True)})
    for project in (apron, mixed):
        advice = advise(project)
        assert advice.matched_mm == pytest.approx(match(project).rms_mm, abs=1e-5)
        kinds = {change.kind for change in advice.changes}
        for change in advice.changes:
            write_project(tmp_path / "changed.stripewright", change.project)
            again = match(read_project(tmp_path / "changed.stripewright"))
            assert again.rms_mm == pytest.approx(change.rms_mm, rel=1e-3, abs=1e-4), change.what
            if change.kind not in ("match", "weights"):
                assert change.gain_mm == pytest.approx(advice.matched_mm - change.rms_mm, abs=1e-9)
        assert {"tolerance", "flare", "mirror pairs", "weights"} <= kinds
    assert {"hold", "centre", "grain"} <= kinds
    gains = [change.gain_mm for change in advice.changes]
    assert gains == sorted(gains, reverse=True)


def test_flare_goes_from_one_gore_to_the_other_without_girth_or_length_changing():
    project = within(sewn(gore("p", lean_deg=6.0, cut="pair"), gore("q", lean_deg=7.5, cut="pair")), 0.0)
    change = next(change for change in advise(project).changes if change.kind == "flare")
    assert change.rms_mm < 0.02
    assert measure(change.project).rms_mm == pytest.approx(change.rms_mm)
    for height in (0.0, 200.0, 500.0, 790.0):
        before, after = (sum(_half_width(p, name, height) for name in "pq") for p in (project, change.project))
        assert after == pytest.approx(before, abs=0.15)
    for piece, name, ref in (("p", "r", 800.0), ("q", "l", 800.0)):
        edges = next(one.edges for one in change.project.pieces if one.id == piece)
        path = parse_path(next(edge.path for edge in edges if edge.name == name))
        assert path.length() == pytest.approx(ref, abs=0.02)
        assert abs(path.point(1).real - path.point(0).real) == pytest.approx(
            800 * math.sin(math.radians(6.75)), abs=0.3
        )


def _half_width(project: Project, piece: str, height: float) -> float:
    """How far the edge of the seam between p and q lies from the grain at a height below the waist, mm."""
    edges = next(one.edges for one in project.pieces if one.id == piece)
    path = parse_path(next(edge.path for edge in edges if edge.name == ("r" if piece == "p" else "l")))
    ends = sorted((path.point(0), path.point(1)), key=lambda point: point.imag)
    share = (height - ends[0].imag) / (ends[1].imag - ends[0].imag)
    return abs(ends[0].real + share * (ends[1].real - ends[0].real))


def test_a_piece_set_to_its_middle_leans_alike_on_both_sides():
    crooked = gore("q", lean_deg=6.0)
    crooked["edges"][1]["path"], crooked["edges"][2]["path"] = (
        "M 50 0 L 210 800",
        f"M 210 800 L {crooked['edges'][3]['path'].split()[1]} {crooked['edges'][3]['path'].split()[2]}",
    )
    project = within(sewn(gore("p"), crooked, gore("r")), 0.0)
    change = next(change for change in advise(project).changes if change.kind == "grain")
    edges = {e.name: parse_path(e.path) for e in next(p.edges for p in change.project.pieces if p.id == "q")}
    right, left = edges["r"].point(1) - edges["r"].point(0), edges["l"].point(0) - edges["l"].point(1)
    assert math.atan2(right.real, right.imag) == pytest.approx(-math.atan2(left.real, left.imag), abs=1e-5)
    assert abs(right) == pytest.approx(math.hypot(160, 800), abs=1e-3)


def test_panels_that_are_cut_are_neither_let_go_nor_drawn_otherwise():
    project = within(sewn(gore("p", lean_deg=6.0), gore("q", lean_deg=7.5)), 0.0)
    project = msgspec.structs.replace(project.placed({"p": Placement(hold=True)}), done=("p",))
    assert {change.kind for change in advise(project).changes} <= {"match", "tolerance"}


def test_bars_have_reasons_of_their_own():
    project = within(sewn(gore("p", lean_deg=6.0), gore("q", lean_deg=7.5)), 0.0)
    barred = msgspec.structs.replace(project.cloths[0], crosswise=project.cloths[0].repeat)
    seams = advise(msgspec.structs.replace(project, cloths=(barred,))).seams
    assert [seam.way for seam in seams] == ["lengthwise", "crosswise"]
    # Along v the edges run down by the cosines of their leans, 800 (cos 6 - cos 7.5) apart at the hem.
    drift = next(r for r in seams[1].reasons if r.what == "lean").drift_mm
    cosines = math.cos(math.radians(6.0)) - math.cos(math.radians(7.5))
    assert abs(drift) == pytest.approx(800 * cosines, rel=1e-3)


def test_it_can_be_stopped():
    shares = []

    def stop(share: float, note: str) -> bool:
        shares.append(share)
        return share < 0.3

    with pytest.raises(Stopped):
        advise(ring(1, 6), stop)
    assert shares == sorted(shares)
    assert shares[-1] < 0.5


def test_nothing_to_match_gives_no_advice():
    plain = msgspec.structs.replace(ring(1, 4), cloths=(msgspec.structs.replace(ring(1, 4).cloths[0], repeat=None),))
    assert advise(plain) is None


def test_the_command_prints_reasons_and_changes_and_writes_one_of_them(tmp_path, capsys):
    project = within(sewn(gore("p", lean_deg=6.0), gore("q", lean_deg=7.5)), 0.1)
    path, out = tmp_path / "two.stripewright", tmp_path / "out.stripewright"
    path.write_bytes(project_to_bytes(project))
    assert main(["advise", str(path), "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert set(report) == {"rms_mm", "matched_rms_mm", "seams", "changes"}
    assert {"seam", "side", "way", "rms_mm", "reasons"} == set(report["seams"][0])
    assert {"what", "share", "words"} <= set(report["seams"][0]["reasons"][0])
    assert {"kind", "what", "rms_mm", "gain_mm", "caution"} == set(report["changes"][0])
    number = next(n for n, change in enumerate(report["changes"], 1) if change["kind"] == "flare")
    assert main(["advise", str(path), "--take", str(number), "-o", str(out)]) == 0
    assert "the leans differ by" in capsys.readouterr().out
    written = read_project(out)
    assert measure(written).rms_mm == pytest.approx(report["changes"][number - 1]["rms_mm"], abs=1e-5)
    assert [v.name for v in written.variants] == ["As it stood", report["changes"][number - 1]["what"]]
    back = taken(written, "As it stood")
    assert back.pieces == project_from_bytes(path.read_bytes()).pieces
    assert main(["advise", str(path), "--take", "99", "-o", str(out)]) == 2
    assert main(["advise", str(path), "--take", "1"]) == 2
    assert "--take and -o go together" in capsys.readouterr().err
    assert Garment.of(back).panels.keys() == {"p", "q"}
