"""Easing: the best that a limit allows, against brute force; what it is worth, told plainly."""

import itertools
import json

import numpy as np
import pytest

from app.cli import main
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, write_project
from core.matching.solve import match
from core.model.project import Placement
from core.seams.easing import PIECE_MM, RATES, best_easing
from core.seams.readings import SeamReading, measure
from core.seams.taking_in import taking_in
from near_gores import gore, made, near_skirt


def short_seam(lean: float = 12.0, other: float = 9.0, u: float = 2.0) -> SeamReading:
    """Two gores cut off 100 mm down, so that there are four pieces to ease."""
    pieces = [gore("a", lean, 9), gore("b", 8, other)]
    for piece in pieces:
        for edge in piece["edges"]:
            numbers = edge["path"].split()
            edge["path"] = " ".join(str(float(n) * 100 / 850) if _is_number(n) else n for n in numbers)
        piece["notches"] = []
    project = made(pieces, [{"name": "s", "a": "a/r", "b": "b/l"}]).placed({"a": Placement(u=u)})
    return measure(project).read[0]


def _is_number(word: str) -> bool:
    return word.lstrip("-")[0].isdigit()


def step_eased(reading: SeamReading, heights: np.ndarray, eased: np.ndarray, at: np.ndarray) -> np.ndarray:
    """The design's step with b's edge met at h + e(h), read afresh from the two sides' coordinates."""
    meets = np.clip(at + np.interp(at, heights, eased), 0, reading.line.length)
    p_a = np.interp(at, reading.line.height, reading.w_a) - reading.repeat.c
    p_b = np.interp(meets, reading.line.height, reading.w_b) - reading.repeat.c
    raw = p_a + p_b if reading.lean == "opposite" else p_a - p_b
    return (raw + reading.period / 2) % reading.period - reading.period / 2


@pytest.mark.parametrize(("ends", "u"), [("kept", 2.0), ("kept", 9.0), ("free", 2.0), ("free", 11.5)])
def test_no_rates_of_all_there_are_do_better(ends, u):
    reading = short_seam(u=u)
    found = best_easing(reading, 8.0, ends)
    heights = np.linspace(0, reading.line.length, 5)
    at = np.linspace(0, reading.line.length, 241)[:-1] + reading.line.length / 480
    least = 0.08 * reading.line.length / 4 / RATES
    best = np.inf
    for rates in itertools.product(range(-RATES, RATES + 1), repeat=4):
        eased = least * np.concatenate([[0], np.cumsum(rates)])
        if ends == "free" or eased[-1] == 0:
            best = min(best, float(np.mean(step_eased(reading, heights, eased, at) ** 2)))
    mine = step_eased(reading, found.heights, found.eased, at)
    assert np.mean(mine**2) <= best + 0.002
    assert found.rms_mm == pytest.approx(np.sqrt(np.mean(mine**2)), abs=2e-3)
    assert found.worst_mm == pytest.approx(np.abs(mine).max(), abs=0.1)
    assert abs(found.eased[0]) == 0
    assert ends == "free" or found.eased[-1] == pytest.approx(0, abs=1e-9)


def test_no_stretch_is_eased_beyond_the_limit():
    for reading in measure(match(near_skirt(1, 4)).project).read:
        found = best_easing(reading, 3.0)
        assert np.abs(np.diff(found.eased) / np.diff(found.heights)).max() <= 0.03 + 1e-9
        assert all(0 < abs(run.per_100_mm) <= 3.0 for run in found.runs)
        assert all(run.to_mm - run.from_mm >= PIECE_MM * 0.9 for run in found.runs)
        assert found.rms_mm <= reading.rms_mm + 0.02
        assert sum(abs(run.per_100_mm) / 100 * (run.to_mm - run.from_mm) for run in found.runs) == pytest.approx(
            found.total_mm
        )


def test_a_matched_seam_is_not_eased_for_nothing():
    # Both edges lean 10 degrees and meet at the lead stripe: there is no step to take off.
    project = made([gore("a", 10, 10), gore("b", 10, 10)], [{"name": "s", "a": "a/r", "b": "b/l"}])
    reading = measure(match(project).project).read[0]
    found = best_easing(reading)
    assert found.runs == ()
    assert not found.worth


def test_a_limit_of_nothing_eases_nothing():
    found = best_easing(short_seam(), 0.0)
    assert found.runs == ()
    assert found.rms_mm == pytest.approx(short_seam().rms_mm)


def test_the_cloth_says_how_much_it_takes():
    raw = json.loads(project_to_bytes(near_skirt(1, 3)))
    raw["cloths"][0]["ease_percent"] = 0.5
    reading = measure(project_from_bytes(json.dumps(raw).encode())).read[0]
    assert best_easing(reading).limit_percent == 0.5
    raw["cloths"][0]["ease_percent"] = 21
    with pytest.raises(BadInput, match="ease_percent is 21; 0 to 20 is right"):
        project_from_bytes(json.dumps(raw).encode())


def test_letting_one_edge_out_by_the_step_closes_a_seam_whose_edges_lean_alike():
    # Left edge leans 8 degrees, so 1 mm square to it is cos 8 = 0.990 mm across: a step of 3 mm takes 3.03 mm (D).
    project = made([gore("a", 8, 8), gore("b", 8, -8)], [{"name": "s", "a": "a/r", "b": "b/l"}])
    reading = measure(project).read[0]
    shift = float(reading.step_at(np.array([0.0]))[0])
    placed = project.placed({"a": Placement(u=-shift + 3.0)})
    told = taking_in(measure(placed).read[0], placed.placement("a"))
    assert told.mean_mm == pytest.approx(-3.0 / np.cos(np.radians(8)), abs=1e-3)
    assert told.most_mm - told.least_mm < 1e-6


def test_the_command(tmp_path, capsys):
    path = tmp_path / "skirt.stripewright"
    write_project(path, match(near_skirt(1, 3)).project)
    assert main(["ease", str(path), "--json"]) == 0
    report = json.loads(capsys.readouterr().out)
    assert [seam["seam"] for seam in report["seams"]] == ["s0", "s1", "s2"]
    for seam in report["seams"]:
        easing = seam["easing"]
        assert easing["limit_percent"] == 2
        assert easing["limit_is_usual"] is True
        assert easing["worth"] == (easing["rms_mm"] <= 0.9 * seam["rms_before_mm"])
        assert all(run["to_mm"] > run["from_mm"] for run in easing["runs"])
    assert main(["ease", str(path), "--seam", "s1", "--limit", "6"]) == 0
    assert "mm in 100 of the" in capsys.readouterr().out
    for wrong in (["--seam", "hem"], ["--limit", "0"], ["--limit", "nan"], ["--ends", "loose"]):
        assert main(["ease", str(path), *wrong]) == 2
        assert len(capsys.readouterr().err.splitlines()) == 1
