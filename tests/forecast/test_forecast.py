"""What to expect once a placement has been cut and sewn: against a source's figures and against repeated trials."""

import math
from dataclasses import fields, replace

import numpy as np
import pytest

from core.errors import BadInput
from core.forecast.errors import CUT_LIMIT_MM, WORDS, Errors
from core.forecast.forecast import expected_square, forecast, without
from core.matching.solve import match
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import repeat, ring
from straight_gores import gore, sewn

NONE = Errors(**{field.name: 0.0 for field in fields(Errors)})


def test_two_cut_edges_alone_put_stripes_almost_3_mm_apart():
    # Vilumsone-Nemes, Industrial Cutting of Textile Materials, 2nd ed., 2018, table 13.1, p. 210: side edges +-2 mm;
    # two of them make 2.83 mm, root of the sum of squares (arithmetic on it), where stripes run along the seam.
    project = sewn(gore("left", lean_deg=0.0), gore("right", lean_deg=0.0))
    found = forecast(project, replace(NONE, cutting_mm=CUT_LIMIT_MM))
    assert found.seams[0].deviation_mm == pytest.approx(2.83, abs=0.005)


def test_leaning_edges_move_stripes_less_by_the_cosine():
    project = sewn(gore("left", lean_deg=8.711), gore("right", lean_deg=8.711))
    found = forecast(project, replace(NONE, cutting_mm=1.0))
    assert found.seams[0].deviation_mm == pytest.approx(math.sqrt(2) * math.cos(math.radians(8.711)), abs=1e-6)


def test_stitching_deeper_on_both_sides_keeps_a_chevron():
    project = sewn(gore("left"), gore("right"))
    assert forecast(project, replace(NONE, depth_mm=5.0)).seams[0].deviation_mm == pytest.approx(0.0, abs=1e-9)
    shifted = forecast(project, replace(NONE, flush_mm=1.0)).seams[0].deviation_mm
    assert shifted == pytest.approx(math.cos(math.radians(6.0)), abs=1e-9)


def test_without_errors_what_is_planned_comes_true():
    project = match(ring(3, 8)).project
    assert forecast(project, NONE).rms_mm == pytest.approx(measure(project).rms_mm, rel=1e-3)


GARMENTS = [
    {"number": 8, "width": 24.0},
    {"number": 7, "kind": "uneven", "width": 30.0, "one_way": False, "skew": 8.0},
    {"number": 7, "shape": "fold", "width": 26.0},
    {"number": 6, "width": 24.0, "crosswise": repeat("even", 60.0), "weft_skew_percent": 3.0},
]


@pytest.mark.parametrize("kind", GARMENTS, ids=["even", "uneven", "fold", "bars"])
def test_repeated_trials_spread_as_foretold(kind):
    check_trials(match(ring(5, **kind)).project, None)


@pytest.mark.parametrize("only", [field.name for field in fields(Errors)])
def test_each_error_alone_spreads_as_foretold(only):
    check_trials(ring(5, **GARMENTS[1]), only)


def check_trials(project: Project, only: str | None) -> None:
    large = Errors(turning_deg=0.2, repeat_percent=1.0, lean_mm_per_m=3.0)
    errors = large if only is None else replace(NONE, **{only: getattr(large, only)})
    found = forecast(project, errors)
    trials = trials_of(project, errors, 1200)
    foretold = [seam.mean_square for seam in found.seams]
    assert np.sqrt(trials) == pytest.approx(np.sqrt(foretold), rel=0.05, abs=0.003)


def trials_of(project: Project, errors: Errors, number: int) -> np.ndarray:
    """Mean squared step of each seam, mm2, over garments laid, cut and sewn with errors drawn at random;
    with bars, then that of each seam across them.

    Every panel's points are moved bodily, its edges square to themselves, and the steps read again from the formulas.
    """
    rng = np.random.default_rng(1)
    garment, plan, cloth = Garment.of(project), measure(project), project.cloths[0]
    drawn = {name: rng.normal(size=(4, number, 1)) for name in garment.panels}
    result = []
    for way in ("lengthwise", "crosswise")[: 1 + (cloth.crosswise is not None)]:
        for line, reading in zip(garment.seams, plan.readings_of(way), strict=True):
            sense = 1 if reading.lean == "opposite" else -1
            a, b = (p - reading.repeat.c for p in sewn_sides(project, garment, line, errors, way, drawn, rng))
            period = reading.repeat.period
            step = (a + sense * b + period / 2) % period - period / 2
            counted = np.array([line.counts(float(h)) for h in np.linspace(0, line.length, HEIGHTS)])
            result.append(np.mean(step[:, counted] ** 2))
    return np.array(result)


HEIGHTS = 81


def sewn_sides(project, garment, line, errors, way, drawn, rng):
    """The coordinate across the stripes, mm, on both sides of a seam as sewn: (trials, heights) each."""
    cloth, grid, number = project.cloths[0], np.linspace(0, line.length, HEIGHTS), len(drawn[line.panels[0]][0])
    flush, depth, slip, cut_a, cut_b = rng.normal(size=(5, number, 1))
    outwards = {
        "a": errors.flush_mm * flush / 2 - errors.depth_mm * depth + errors.cutting_mm * cut_a,
        "b": -errors.flush_mm * flush / 2 - errors.depth_mm * depth + errors.cutting_mm * cut_b,
    }
    for side, edge, name in (("a", line.a, line.panels[0]), ("b", line.b, line.panels[1])):
        at, (off, spin, grown, lean) = project.placement(name), drawn[name]
        heights = grid + (errors.slipping_mm * slip if side == "b" else 0 * slip)
        x, y = (np.interp(heights, line.height, edge[:, i]) for i in (0, 1))
        dx, dy = (np.gradient(np.interp(grid, line.height, edge[:, i])) for i in (0, 1))
        size = np.hypot(dx, dy) * (1 if side == "a" else -1)
        x, y = x + outwards[side] * dy / size, y - outwards[side] * dx / size
        mx, my = garment.panels[name].middle
        turn = np.radians(at.turn_deg + (180 if at.turned else 0))
        spun = turn + np.radians(errors.turning_deg) * spin
        middle_u, middle_v = np.cos(turn) * mx - np.sin(turn) * my + at.u, np.sin(turn) * mx + np.cos(turn) * my + at.v
        du, dv = np.cos(spun) * (x - mx) - np.sin(spun) * (y - my), np.sin(spun) * (x - mx) + np.cos(spun) * (y - my)
        if way == "crosswise":
            middle_u, middle_v, du, dv = middle_v, middle_u, dv, du
        slant = cloth.skew_mm_per_m / 1000 if way == "lengthwise" else cloth.weft_skew_percent / 100
        wide = (du - slant * dv) / (1 + errors.repeat_percent / 100 * grown)
        yield middle_u - slant * middle_v + errors.placing_mm * off + wide - errors.lean_mm_per_m / 1000 * lean * dv


def test_a_step_can_never_be_expected_above_what_chance_gives():
    # A phase spread over the whole period has the mean square of a uniform distribution, P^2 / 12.
    assert expected_square(np.zeros(1), np.full(1, 100.0), 12.0)[0] == pytest.approx(12.0, rel=0.03)
    close = (
        expected_square(np.full(1, 2.0), np.array([2.9999]), 12.0),
        expected_square(np.full(1, 2.0), np.array([3.0]), 12.0),
    )
    assert close[0] == pytest.approx(close[1], rel=0.01)
    assert expected_square(np.full(1, 1.5), np.full(1, 0.5), 100.0)[0] == pytest.approx(2.5)


def test_the_largest_error_is_named_and_gains_most_when_it_goes():
    project = match(ring(3, 8)).project
    found = forecast(project)
    shares = list(found.shares.items())
    assert shares[0][0] == "cutting_mm"
    assert sum(share for _, share in shares) == pytest.approx(1.0)
    rests = {name: without(found, name).rms_mm for name in WORDS}
    assert min(rests, key=rests.get) == "cutting_mm"


def test_the_last_tenth_is_worth_little_under_a_large_spread():
    project = match(ring(3, 8)).project
    fine, coarse = forecast(project, replace(NONE, placing_mm=0.05)), forecast(project, replace(NONE, placing_mm=3.0))
    assert 0 < coarse.tenth_mm < fine.tenth_mm <= 0.1


@pytest.mark.parametrize("value", [-1.0, float("nan"), float("inf"), 1e308])
def test_an_error_that_cant_be_is_refused(value):
    with pytest.raises(BadInput, match="placing_mm"):
        Errors(placing_mm=value)
