"""Stripes at a seam against plane trigonometry and published gores."""

import math

import numpy as np
import pytest

from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import SeamReading, mean_wrapped_square, measure, remeasure
from core.seams.walk import walk
from garments import gores, repeat

INCH = 25.4


def the_reading(project: Project) -> SeamReading:
    return measure(project).read[0]


# Crossings of period p on an edge at angle a to the stripes are p / sin a apart (plane trigonometry):
# p = 20 mm: 8.711 deg 132.05 mm; 17.04 deg 68.25 mm; 3.41 deg 336.2 mm.
@pytest.mark.parametrize(("angle", "apart"), [(8.711, 132.05), (17.04, 68.25), (3.41, 336.2)])
def test_crossings_are_a_period_over_the_sine_of_the_lean_apart(angle, apart):
    reading = the_reading(gores([(5, angle), (angle, 5)], length=1500))
    heights = [crossing.a_at_mm for crossing in reading.crossings]
    assert len(heights) >= 3
    assert np.diff(heights) == pytest.approx(apart, abs=0.05)


def test_unequal_leans_carry_the_crossings_3_24_mm_further_apart_with_every_stripe():
    # Leans 8.71 and 8.50 degrees, p = 20 mm: 3.24 mm a stripe (plane trigonometry).
    project = gores([(5, 8.71), (8.50, 5)], length=1500)
    gaps = [crossing.along_gap_mm for crossing in the_reading(project).crossings]
    assert np.abs(np.diff(gaps)) == pytest.approx(3.24, abs=0.02)


def test_a_seam_matched_at_the_top_drifts_by_the_difference_of_the_sines():
    # Straight edges leaning a and b opposite ways, matched at the top: the step at h is h (sin a - sin b).
    project = gores([(5, 8.71), (8.50, 5)])
    raw = the_reading(project)
    matched = project.placed({"g1": Placement(u=-float(raw.step_at(np.array([0.0]))[0]))})
    reading = the_reading(matched)
    rate = math.sin(math.radians(8.71)) - math.sin(math.radians(8.50))
    heights = np.array([0.0, 200.0, 500.0, 800.0])
    assert reading.step_at(heights) == pytest.approx(heights * rate, abs=1e-6)
    assert reading.drift_mm_per_m == pytest.approx(1000 * rate)
    assert reading.rms_mm == pytest.approx(800 * rate / math.sqrt(3))
    assert reading.worst == (pytest.approx(800 * rate), pytest.approx(800))
    assert reading.shift_mm == pytest.approx(400 * rate)


def test_bennetts_gores_lean_as_the_printed_widths_say():
    # Bennett, The Perfect Dressmaking System, 1914, scan 13: gores 8 in at the hip, 31 in above the hem; front hem
    # 10 in, side hem 17.5 in: front edges lean atan(1 / 31) = 1.848 deg; a side gore with the grain in its middle
    # 8.711 deg.
    front, side = math.atan(1 / 31), math.atan((17.5 - 8) / 2 / 31)
    assert math.degrees(front) == pytest.approx(1.848, abs=0.001)
    hip_to_hem = 31 * INCH
    project = gores([(8.711, 8.711), (1.848, 1.848)], length=hip_to_hem / math.cos(side))
    assert the_reading(project).leans_deg == (pytest.approx(8.711, abs=0.002), pytest.approx(-1.848, abs=0.002))


def test_prince_brownes_front_gore_leans_3_406_degrees():
    # Prince Browne, Every Woman's Encyclopaedia 1, c. 1911, pp. 637-638: 5 in at the top, 10 in at the hem, 42 in long.
    lean = math.degrees(math.atan(2.5 / 42))
    assert lean == pytest.approx(3.406, abs=0.001)
    reading = the_reading(gores([(lean, lean), (lean, lean)], length=42 * INCH / math.cos(math.radians(lean))))
    assert abs(reading.net_changes[0]) == pytest.approx(2.5 * INCH, abs=1e-6)


def test_a_gore_with_a_straight_grain_edge_is_reported_as_impossible_to_chevron():
    # Older drafts set the straight edge of a gore to the front: stripes cross one side of the seam only, and no
    # placement can make a chevron (Hapgood 1893; Ingalls c. 1911).
    on_the_edge = walk(project := gores([(5, 17.038), (0.0, 5)]), Garment.of(project))
    assert any("no placement can make a chevron" in finding.right for finding in on_the_edge)
    in_the_middle = walk(project := gores([(5, 8.711), (8.711, 5)]), Garment.of(project))
    assert not any("chevron" in finding.right for finding in in_the_middle)


def test_an_uneven_repeat_with_opposite_leans_lets_only_the_lead_stripe_meet():
    # Successful Sewing, Goodheart-Willcox 2013, p. 108, on uneven stripes: single layer, one way.
    project = gores([(5, 8.0), (8.0, 5)], stripes=repeat("uneven", 60.0), grain_tolerance_deg=0.5)
    step = float(the_reading(project).step_at(np.array([0.0]))[0])
    matched = the_reading(project.placed({"g1": Placement(u=-step)}))
    assert matched.rms_mm == pytest.approx(0, abs=1e-9)
    assert not matched.all_stripes_meet_at_zero
    assert matched.agreement < 0.9
    lead = [c.along_gap_mm for c in matched.crossings if c.stripe == "lead"]
    assert lead == pytest.approx([0] * len(lead), abs=1e-6)
    assert max(abs(c.along_gap_mm) for c in matched.crossings if c.stripe != "lead") > 1


def test_a_matched_even_seam_shows_one_colour_on_both_sides_everywhere():
    project = gores([(5, 8.0), (8.0, 5)], stripes=repeat("fine pair", 40.0))
    step = float(the_reading(project).step_at(np.array([0.0]))[0])
    reading = the_reading(project.placed({"g1": Placement(u=-step)}))
    assert reading.agreement == pytest.approx(1.0, abs=1e-6)


def test_shifting_a_panel_by_a_period_changes_nothing_and_by_half_the_nominal_width_nothing_on_a_half_period_cloth():
    project = gores([(5, 8.7), (8.5, 5)], stripes=repeat("half", 20.0))
    assert project.cloths[0].repeat.period == pytest.approx(10.0)
    before = the_reading(project)
    after = the_reading(project.placed({"g0": Placement(u=10.0)}))
    assert after.rms_mm == pytest.approx(before.rms_mm)
    assert after.agreement == pytest.approx(before.agreement)


def test_moving_along_the_stripes_of_a_skewed_cloth_changes_nothing():
    project = gores([(5, 8.7), (8.5, 5)], skew_mm_per_m=12.0)
    before, after = the_reading(project), the_reading(project.placed({"g1": Placement(u=12.0, v=1000.0)}))
    assert after.raw == pytest.approx(before.raw)


def test_only_the_seams_of_a_moved_panel_are_read_again_and_the_figures_are_the_same():
    project = gores([(5, 8.7), (8.5, 5), (6, 7), (7, 5)])
    before = measure(project)
    moved = project.placed({"g3": Placement(u=3.0)})
    after = remeasure(before, moved, frozenset({"g3"}))
    assert after.seams[0] is before.seams[0]
    assert after.rms_mm == pytest.approx(measure(moved).rms_mm)


def test_the_mean_of_a_wrapped_square_is_exact_over_many_periods():
    raw = np.array([-3.0, 47.0, 47.0, 46.9999, -120.0])
    for index, mean in enumerate(mean_wrapped_square(raw, 7.0)):
        x = np.linspace(raw[index], raw[index + 1], 2_000_001)
        x = (x[:-1] + x[1:]) / 2
        assert mean == pytest.approx(np.mean(((x + 3.5) % 7 - 3.5) ** 2), abs=1e-5)


def test_heights_of_the_readings_are_the_top_every_100_mm_and_the_bottom_unless_named():
    reading = the_reading(gores([(5, 8), (8, 5)], length=350))
    assert [r.at_mm for r in reading.readings(None)] == pytest.approx([0, 100, 200, 300, 350])
    assert [r.at_mm for r in reading.readings((50.0, 120.0, 900.0))] == [50.0, 120.0]
