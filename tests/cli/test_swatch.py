"""`stripewright swatch` from outside: its report, what it gives to a project, one line and exit 2 for the rest."""

import json
import shutil

import pytest
from PIL import Image

from app.cli import main
from core.files.project_file import read_project
from swatch.made import Made, picture, plaid

CLOTH = Made(20, ((5, 5, "#23304d"), (13, 2, "#b8282e")), size=(600, 400), angle_deg=1.5, noise=4, even=False)


@pytest.fixture(scope="module")
def photo(tmp_path_factory):
    path = tmp_path_factory.mktemp("cloth") / "cloth.png"
    Image.fromarray(picture(CLOTH)).save(path)
    return str(path)


def test_the_report_has_the_keys_of_the_project_file(photo, capsys):
    assert main(["swatch", photo, "--mm-per-px", "0.2", "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert set(report) == {"repeat", "width_sd_mm", "angle_deg", "even", "confidence"}
    assert report["repeat"]["width"] == pytest.approx(20, abs=0.02)
    assert [stripe["width"] for stripe in report["repeat"]["stripes"]] == pytest.approx([5, 2], abs=0.1)
    assert report["even"] is False
    assert report["angle_deg"] == pytest.approx(1.5, abs=0.05)
    assert 0.9 < report["confidence"] <= 1
    assert 0 < report["width_sd_mm"] < 0.02


def test_resolution_and_marks_give_the_same_repeat(photo, capsys):
    widths = []
    for scale in (["--dpi", "127"], ["--marks", "100,100", "400,500", "10cm"]):
        assert main(["swatch", photo, *scale, "--json"]) == 0
        widths.append(json.loads(capsys.readouterr().out)["repeat"]["width"])
    assert widths == pytest.approx([20, 20], abs=0.02)


PLAID = Made(24, ((6, 5, "#23304d"), (16, 2, "#b8282e")), size=(560, 420), angle_deg=1, noise=3, even=False)
BARS = Made(18, ((4, 3, "#3f7d45"), (12, 1.6, "#b8282e")), even=False)


def test_bars_are_reported_and_given_to_the_cloth_with_their_skew(tmp_path, harbour_skirt, capsys):
    photo, target = tmp_path / "plaid.png", tmp_path / "skirt.stripewright"
    Image.fromarray(plaid(PLAID, BARS, 2.0)).save(photo)
    shutil.copy(harbour_skirt, target)
    assert main(["swatch", str(photo), "--mm-per-px", "0.2", "--into", str(target), "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["crosswise"]["width"] == pytest.approx(18, abs=0.02)
    assert {"width", "stripes", "ground", "lead"} <= set(report["crosswise"])
    assert report["weft_skew_percent"] == pytest.approx(2, abs=0.1)
    assert 0 < report["crosswise_width_sd_mm"] < 0.02
    cloth = read_project(target).cloths[0]
    assert (cloth.repeat.width, cloth.crosswise.width) == (report["repeat"]["width"], report["crosswise"]["width"])
    assert cloth.weft_skew_percent == report["weft_skew_percent"]


def test_words_on_a_terminal(photo, capsys):
    assert main(["swatch", photo, "--mm-per-px", "0.2"]) == 0
    told = capsys.readouterr().out
    assert "The repeat: 20.0" in told
    assert "uneven" in told
    assert "origin" in told


def test_the_repeat_goes_onto_a_cloth_of_a_project(photo, tmp_path, harbour_skirt, capsys):
    target = tmp_path / "skirt.stripewright"
    shutil.copy(harbour_skirt, target)
    before = read_project(target)
    assert main(["swatch", photo, "--mm-per-px", "0.2", "--into", str(target), "--json"]) == 0
    after = read_project(target)
    assert json.loads(capsys.readouterr().out)["repeat"]["width"] == after.cloths[0].repeat.width
    assert after.pieces == before.pieces
    assert after.cloths[0].width == before.cloths[0].width


@pytest.mark.parametrize(
    "options",
    [
        [],
        ["--mm-per-px", "0"],
        ["--dpi", "300", "--mm-per-px", "1"],
        ["--marks", "1,1", "nowhere", "10cm"],
        ["--marks", "1,1", "300,1", "ten"],
        ["--corners", "0,0", "1,0", "1,1", "0,1", "10cm", "10cm"],
        ["--dpi", "300", "--part", "1,1", "4,4"],
        ["--dpi", "300", "-o", "out.stripewright"],
    ],
)
def test_what_can_t_be_is_one_line_and_exit_2(photo, options, capsys):
    assert main(["swatch", photo, *options]) == 2
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1


def test_a_cloth_that_is_not_there_is_named_before_anything_is_read(photo, harbour_skirt, capsys):
    assert main(["swatch", photo, "--dpi", "127", "--into", str(harbour_skirt), "--cloth", "velvet"]) == 2
    assert "velvet" in capsys.readouterr().err
