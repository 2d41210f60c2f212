"""`stripewright forecast`."""

import json

import pytest

from app.cli import main
from conftest import SAMPLES

SKIRT = str(SAMPLES / "harbour-skirt.stripewright")


def test_every_error_has_its_share_and_its_own_option(capsys):
    assert main(["forecast", SKIRT, "--json", "--cutting-mm", "0"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert report["errors"]["cutting_mm"] == {"sd": 0.0, "share": 0.0, "rms_without_mm": report["expected_rms_mm"]}
    assert sum(error["share"] for error in report["errors"].values()) == pytest.approx(1.0, abs=1e-5)
    assert report["expected_rms_mm"] > report["rms_mm"]
    assert all(at["sd_mm"] > 0 for seam in report["seams"] for at in seam["readings"])


def test_it_says_what_matters_most(capsys):
    assert main(["forecast", SKIRT, "--placing-mm", "5"]) == 0
    assert "What matters most: laying panels across the stripes." in capsys.readouterr().out


def test_an_error_below_nothing_is_refused_in_one_line(capsys):
    assert main(["forecast", SKIRT, "--placing-mm", "-1"]) == 2
    assert capsys.readouterr().err.count("\n") == 1
