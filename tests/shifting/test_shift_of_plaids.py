"""Shifted lines on cloth with bars: both ways count, and the figure of both never gets worse."""

import json

import msgspec
import numpy as np
import pytest

from app.command_line.shift_option import shift_keys, shift_text
from core.files.project_file import project_from_bytes, project_to_bytes
from core.matching.both_ways import shares
from core.matching.orientation import orientations
from core.matching.problem import as_they_lie, build_problem
from core.matching.solve import connected, match
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import measure
from core.shifting.edges import edge_groups
from core.shifting.shift import shift_lines, shift_where_it_lies
from core.shifting.task import ShiftTask
from garments import repeat
from near_gores import near_skirt
from oracle import seam_figures


def plaid(seed: int, number: int = 4, tolerance: float = 0.25, **keys: object) -> Project:
    raw = json.loads(project_to_bytes(near_skirt(seed, number, tolerance)))
    raw["cloths"][0] |= {"crosswise": repeat("even", 45.0), **keys}
    return project_from_bytes(json.dumps(raw).encode())


def figures(project: Project) -> tuple[float, float]:
    """The figures of stripes and of bars from the independent reading of the file; all weights are 1."""
    read = (seam_figures(project, bars).values() for bars in (False, True))
    stripes, bars = (float(np.sqrt(np.mean([rms**2 for rms, _ in one]))) for one in read)
    return stripes, bars


@pytest.mark.parametrize("keys", [{}, {"weft_skew_percent": 2.0}, {"bow_percent": 1.5}], ids=str)
def test_stripes_and_bars_together_never_get_worse_and_are_told_as_they_are(keys):
    project = plaid(2, **keys)
    result = shift_lines(project)
    after = project_from_bytes(project_to_bytes(result.project))
    stripes, bars = figures(after)
    assert ((stripes**2 + bars**2) / 2) ** 0.5 == pytest.approx(result.rms_mm, abs=2e-3)
    assert (stripes, bars) == pytest.approx((result.stripes_mm[1], result.bars_mm[1]), abs=2e-3)
    assert result.rms_before_mm == pytest.approx(match(project).rms_mm, abs=1e-6)
    assert result.rms_mm < 0.8 * result.rms_before_mm


def test_bars_that_count_for_more_are_spared():
    project = plaid(2, weft_skew_percent=2.0)
    heavy = msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, crosswise_weight=30.0))
    light, spared = shift_lines(project), shift_lines(heavy)
    assert spared.bars_mm[1] <= light.bars_mm[1] + 1e-3
    assert spared.stripes_mm[1] >= light.stripes_mm[1] - 1e-3
    assert spared.rms_mm <= spared.rms_before_mm + 1e-6


def test_a_shift_changes_the_step_of_bars_by_the_sines_of_the_leans():
    """From the drawing: a moved line's point goes out square to its edge, and so up by the sine of the edge's lean."""
    project = match(plaid(3, 3)).project
    result = shift_where_it_lies(project, "s0", cap_mm=1.5)
    seam = next(seam for seam in result.seams if seam.knots)
    was, now = (
        next(one for one in measure(each).crosswise if one.line.sewn.label == "s0")
        for each in (project, result.project)
    )
    stripes = next(one for one in measure(project).seams if one.line.sewn.label == "s0")
    assert was.lean == "alike"
    sines = sum(abs(change) for change in stripes.net_changes) / stripes.line.length
    heights, by = np.array(seam.knots[1:-1]).T
    change = now.step_at(heights) - was.step_at(heights)
    assert np.abs(by).max() > 0.3
    assert change == pytest.approx(-by * sines, abs=0.02)


@pytest.mark.parametrize("keys", [{"weft_skew_percent": 2.0, "skew_mm_per_m": 8.0}, {"bow_percent": 1.5}], ids=str)
def test_the_slopes_of_both_ways_agree_with_finite_differences(keys):
    # Those by coefficients of splines to first order: the line is sampled between points 10 mm apart.
    project = match(plaid(5, 3, **keys)).project
    garment, cloth = Garment.of(project), project.cloths[0]
    turned = orientations(project, garment, cloth)
    problems = [build_problem(project, garment, cloth, turned, way) for way in cloth.ways]
    ((_, seams),) = connected(problems[0])
    ((_, bars),) = connected(problems[1])
    groups = list(edge_groups(project, garment, 2.0, False))
    task = ShiftTask(project, garment, problems, [seams, bars], shares(2.0), groups)
    lie = [as_they_lie(project, garment, problem) for problem in problems]
    x = task.start(np.concatenate([phases for phases, _ in lie]), lie[0][1])
    x = x + np.random.default_rng(1).uniform(-1, 1, task.size) * np.where(np.arange(task.size) < task.phases, 3.0, 0.0)
    found = task.steps(x)
    assert found.rest.shape == (6, 96)
    for unknown in (0, 4, task.turn(1), task.columns(0).start + 5, task.columns(2).start + 8):
        step = np.zeros(task.size)
        step[unknown] = 1e-5
        slope = (task.steps(x + step).rest - task.steps(x - step).rest) / 2e-5
        assert found.slopes[:, :, unknown] == pytest.approx(slope, abs=0.04 if unknown >= task.turn(3) else 1e-3)


def test_where_a_plaid_lies_the_lines_alone_never_make_it_worse():
    project = match(plaid(6)).project
    result = shift_where_it_lies(project)
    assert result.project.placements == project.placements
    assert result.rms_mm <= result.rms_before_mm + 1e-6


def test_what_becomes_of_bars_is_told_beside_the_stripes():
    result = shift_lines(plaid(2, 3))
    text, keys = shift_text(result), shift_keys(result)["shift"]
    assert "bars before mm" in text
    assert f"bars {result.bars_mm[0]:.3f} mm before, {result.bars_mm[1]:.3f} mm after" in text
    read = {label: rms for (label, _), (rms, _) in seam_figures(result.project, bars=True).items()}
    for seam, told in zip(result.project.seams, keys["seams"], strict=True):
        assert told["crosswise_rms_mm"] == pytest.approx(read[seam.a], abs=2e-3)
    striped = shift_lines(near_skirt(2, 3))
    assert "bars" not in shift_text(striped)
    assert shift_keys(striped)["shift"]["seams"][0]["crosswise_rms_mm"] is None
