"""`match --shift-mm`: what it writes, prints and refuses."""

import json

import pytest

from app.cli import main
from core.files.project_file import read_project, write_project
from core.seams.readings import measure
from near_gores import near_skirt


@pytest.fixture
def skirt(tmp_path):
    path = tmp_path / "skirt.stripewright"
    write_project(path, near_skirt(1, 3))
    return path


def test_it_writes_the_altered_pieces_and_says_what_was_moved(skirt, tmp_path, capsys):
    out = tmp_path / "out.stripewright"
    assert main(["match", str(skirt), "--shift-mm", "1.5", "--json", "-o", str(out)]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["rms_mm"] == pytest.approx(measure(read_project(out)).rms_mm, abs=1e-6)
    shift = report["shift"]
    assert (shift["cap_mm"], shift["ends"], shift["status"]) == (1.5, "free", "done")
    assert shift["rms_mm"] == pytest.approx(report["rms_mm"], abs=1e-6)
    assert shift["rms_mm"] < shift["rms_before_mm"]
    assert [seam["seam"] for seam in shift["seams"]] == ["s0", "s1", "s2"]
    for seam in shift["seams"]:
        assert seam["stays"] is None
        assert seam["largest_mm"] in [knot["shift_mm"] for knot in seam["knots"]]
        assert seam["knots"][0]["at_mm"] == 0
    assert any(edge.before_shift for piece in read_project(out).pieces for edge in piece.edges)


def test_in_words(skirt, capsys):
    assert main(["match", str(skirt), "--shift-mm", "1", "--shift-ends", "kept"]) == 0
    said = capsys.readouterr().out
    assert "without moving a line" in said
    assert "The girth changes by at most 0.0" in said


@pytest.mark.parametrize("cap", ["0", "-1", "nan", "21", "much"])
def test_a_cap_that_is_none_changes_nothing(skirt, capsys, cap):
    before = skirt.read_bytes()
    assert main(["match", str(skirt), "--shift-mm", cap]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
    assert skirt.read_bytes() == before


def test_a_proof_is_not_asked_of_moved_lines(skirt, capsys):
    assert main(["match", str(skirt), "--shift-mm", "1", "--prove", "1"]) == 2
    assert "as they are drawn" in capsys.readouterr().err
