"""Crosswise bars at seams, waists and hems: against published gores, plane trigonometry and an independent reading."""

import json
import math
from itertools import product

import msgspec
import numpy as np
import pytest

from app.command_line.console import measurement_text
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes
from core.files.reports import measurement_report
from core.geometry.transform import placed
from core.model.cloth import Cloth
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.levels import Round, find_levels, find_rounds
from core.seams.readings import measure, remeasure
from core.swatch.faults import bow_at_edge_percent, bow_percent, skew_angle_deg, skew_percent
from core.units import MM
from garments import gores, repeat, ring, scattered
from oracle import seam_figures

BARS = repeat("even", 20.0)


@pytest.mark.parametrize(
    "keys",
    [
        {},
        {"weft_skew_percent": 3.0, "skew": 8.0},
        {"bow_percent": 2.0},
        {"bow_percent": -3.0, "weft_skew_percent": -2.0, "skew": -12.0, "one_way": False},
        {"crosswise": repeat("uneven", 31.0), "one_way": False, "tolerance": 2.0},
        {"crosswise": repeat("half", 44.0), "shape": "pairs", "bow_percent": 4.0},
    ],
)
def test_every_seam_reads_both_ways_as_the_formulas_say(keys):
    project = scattered(ring(3, 4, **{"crosswise": BARS, **keys}), 5)
    measurement = measure(project)
    for bars, way in ((False, "lengthwise"), (True, "crosswise")):
        figures = seam_figures(project, bars)
        for reading in measurement.readings_of(way):
            rms, worst = figures[reading.line.sewn.a, reading.line.sewn.b]
            assert reading.rms_mm == pytest.approx(rms, abs=0.005)
            assert reading.worst[0] == pytest.approx(worst, abs=0.012)


def test_bars_on_bennetts_gores_part_by_7_8_mm_after_35_bars():
    # Bennett, The Perfect Dressmaking System, 1914, scan 13: edges lean 1.848 (front) and 8.711 degrees.
    # A bar every 20 mm meets an edge at angle a to the grain every 20 / cos a: 20.010 and 20.233 mm.
    project = gores([(5, 1.848), (8.711, 5)], repeat=None, crosswise=BARS)
    (reading,) = measure(project).crosswise
    assert measure(project).seams == (None,)
    a, b = ([getattr(crossing, side) for crossing in reading.crossings] for side in ("a_at_mm", "b_at_mm"))
    assert np.diff(a) == pytest.approx(20.010, abs=0.001)
    assert np.diff(b) == pytest.approx(20.233, abs=0.001)
    gaps = [crossing.along_gap_mm for crossing in reading.crossings]
    assert gaps[35] - gaps[0] == pytest.approx(7.8, abs=0.05)
    assert reading.drift_mm_per_m == pytest.approx(
        1000 * (math.cos(math.radians(1.848)) - math.cos(math.radians(8.711)))
    )


def test_skew_and_bow_are_the_percentages_that_are_measured_on_the_cloth():
    # ASTM D3882: 100 x distance / width; one edge 45 mm ahead on 1500 mm is 3.00 %, 1.718 degrees.
    skewed = Cloth(id="c", width=1500.0, weft_skew_percent=skew_percent(45.0, 1500.0))
    assert skewed.z(1500.0, 45.0) == pytest.approx(skewed.z(0.0, 0.0))
    assert (
        math.degrees(math.atan(skewed.weft_skew))
        == pytest.approx(skew_angle_deg(3.0))
        == pytest.approx(1.718, abs=5e-4)
    )
    # A parabola of 2 % bow slopes 8 %, 4.57 degrees, at the edge.
    bowed = Cloth(id="c", width=1500.0, bow_percent=bow_percent(30.0, 1500.0))
    assert bowed.z(750.0, 30.0) == pytest.approx(0.0)
    assert bowed.z(0.0, 0.0) == bowed.z(1500.0, 0.0) == pytest.approx(0.0)
    assert 100 * bowed.weft_skew_at(0.0) == pytest.approx(bow_at_edge_percent(2.0)) == pytest.approx(8.0)
    assert math.degrees(math.atan(bowed.weft_skew_at(0.0))) == pytest.approx(4.57, abs=0.005)


def test_moving_along_a_skewed_bar_changes_nothing():
    project = gores([(5, 8.7), (8.5, 5)], crosswise=BARS, weft_skew_percent=3.0, skew_mm_per_m=10.0)
    cloth = project.cloths[0]
    u, v = cloth.shift_for(3 * 20.0, -2 * 20.0)
    before, after = measure(project), measure(project.placed({"g1": Placement(u=u, v=v)}))
    assert after.rms_of("lengthwise") == pytest.approx(before.rms_of("lengthwise"))
    assert after.rms_of("crosswise") == pytest.approx(before.rms_of("crosswise"))


def test_a_bow_bends_a_bar_across_a_panel_by_what_the_parabola_says():
    # A panel laid in the middle of a bowed cloth and one at the selvedge: their edges lie at other heights of the bar.
    project = gores([(0, 0), (0, 0)], crosswise=BARS, bow_percent=2.0)
    width = project.cloths[0].width
    project = project.placed({"g0": Placement(u=width / 2), "g1": Placement(u=100.0)})
    (reading,) = measure(project).crosswise

    def ahead(u):
        return 0.02 * width * (1 - (2 * u / width - 1) ** 2)

    expected = ahead(50.0) - ahead(width / 2 + 50)
    assert reading.raw == pytest.approx(np.full(len(reading.raw), expected), abs=1e-9)


def test_the_garments_figure_weighs_both_ways_as_told():
    project = scattered(ring(4, 6, crosswise=BARS, match={"crosswise_weight": 0.25}), 1)
    found = measure(project)
    stripes, bars = found.rms_of("lengthwise"), found.rms_of("crosswise")
    assert found.rms_mm == pytest.approx(math.sqrt((stripes**2 + 0.25 * bars**2) / 1.25))
    unheeded = msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, crosswise_weight=0.0))
    assert measure(unheeded).rms_mm == pytest.approx(stripes)
    barred_only = ring(4, 6, repeat=None, crosswise=BARS)
    assert measure(barred_only).rms_mm == measure(barred_only).rms_of("crosswise") > 0


def test_a_project_without_bars_reads_as_it_did_before():
    project = scattered(ring(4, 6), 1)
    plaid = _with_cloth(project, crosswise=project.cloths[0].repeat)
    assert measure(project).rms_mm == measure(plaid).rms_of("lengthwise")
    assert measure(project).crosswise == (None,) * 6
    assert b"crosswise" not in project_to_bytes(project)


def test_only_the_seams_of_moved_panels_are_read_again_both_ways():
    project = scattered(ring(4, 6, crosswise=BARS), 1)
    before = measure(project)
    moved = project.placed({"g2": Placement(u=333.0, v=444.0)})
    after = remeasure(before, moved, frozenset({"g2"}))
    assert after.rms_mm == measure(moved).rms_mm
    kept = [new is old for new, old in zip(after.crosswise, before.crosswise, strict=True)]
    assert kept == [True, False, False, True, True, True]


def test_the_report_has_the_same_figures_of_bars_as_of_stripes():
    project = scattered(ring(4, 6, crosswise=BARS), 1)
    report = measurement_report(project, measure(project))
    seam = report["seams"][0]
    assert seam["crosswise"].keys() == seam.keys() - {"seam", "side", "a", "b", "length_mm", "crosswise"}
    assert seam["crosswise"]["rms_mm"] == pytest.approx(measure(project).crosswise[0].rms_mm, abs=1e-6)
    plain = measurement_report(ring(4, 6), measure(ring(4, 6)))
    assert plain["seams"][0]["crosswise"] is None
    assert plain["crosswise_rms_mm"] is None
    assert plain["rms_mm"] == plain["lengthwise_rms_mm"]
    assert plain["levels"] == []


def test_no_shift_of_a_line_is_told_to_close_steps_of_bars():
    found = measure(scattered(ring(4, 6, crosswise=BARS, one_way=False), 1))
    assert {one.lean for one in found.crosswise} == {"alike", "opposite"}
    assert {one.shift_mm for one in found.crosswise} == {None}
    assert any(one.shift_mm for one in found.seams)


@pytest.mark.parametrize("turned", [False, True])
def test_levels_tell_how_far_the_next_bar_lies_from_waist_and_hem(turned):
    project = ring(4, 6, crosswise=BARS, weft_skew_percent=2.0, one_way=False)
    project = project.placed({"g1": Placement(u=400.0, v=900.0, turn_deg=0.3, turned=turned)})
    garment, cloth = Garment.of(project), project.cloths[0]
    told = {(level.panel, level.edge): level for level in find_levels(project, garment)}
    assert {edge for panel, edge in told if panel == "g1"} == {"top", "hem"}
    for edge in ("top", "hem"):
        line = garment.panels["g1"].net[edge]
        steps = np.hypot(*np.diff(line, axis=0).T)
        middle = np.array([np.interp(steps.sum() / 2, np.append(0, np.cumsum(steps)), line[:, i]) for i in (0, 1)])
        u, v = placed(middle[None], 400.0, 900.0, 0.3, turned)[0]
        bar = v + (-1 if turned else 1) * told["g1", edge].to_bar_mm
        places = [cloth.crosswise.origin + stripe.at for stripe in cloth.crosswise.stripes]
        off = [abs((cloth.z(u, bar) - place + 10) % 20 - 10) for place in places]
        assert min(off) == pytest.approx(0, abs=1e-6)
        assert abs(told["g1", edge].to_bar_mm) <= 10


def test_bars_fall_as_unevenly_as_the_narrowest_range_that_holds_one_of_each_edge():
    """All ways of taking one bar an edge, tried one by one."""
    project = scattered(ring(6, 5, crosswise=BARS, weft_skew_percent=1.0), 2)
    levels = find_levels(project, Garment.of(project))
    period = project.cloths[0].crosswise.period
    rounds = find_rounds(project, levels)
    assert [one.side for one in rounds] == ["top", "hem"]
    for one in rounds:
        far = [level.to_bar_mm for level in levels if level.side == one.side]
        assert len(far) == 5
        ranges = [
            np.ptp([x + k * period for x, k in zip(far, ks, strict=True)]) for ks in product((-1, 0, 1), repeat=5)
        ]
        assert one.uneven_mm == pytest.approx(min(ranges), abs=1e-9)
        assert abs(one.low_mm + one.high_mm) <= period + 1e-9
        for level in one.levels:
            inside = [level.to_bar_mm + k * period for k in (-1, 0, 1)]
            assert any(one.low_mm - 1e-9 <= x <= one.high_mm + 1e-9 for x in inside)


def test_panels_that_are_not_sewn_in_a_row_are_not_compared():
    project = scattered(ring(6, 4, crosswise=BARS), 2)
    alone = msgspec.structs.replace(project, seams=())
    levels = find_levels(alone, Garment.of(alone))
    assert levels
    assert find_rounds(alone, levels) == ()
    assert find_rounds(ring(6, 4), find_levels(ring(6, 4), Garment.of(ring(6, 4)))) == ()


def test_a_level_says_by_how_much_the_bar_leaves_a_curved_edge():
    project = scattered(ring(4, 4, crosswise=BARS, tolerance=0.0), 1)
    garment, cloth = Garment.of(project), project.cloths[0]
    for level in find_levels(project, garment):
        at = project.placement(level.panel)
        u, v = placed(garment.panels[level.panel].net[level.edge], at.u, at.v, 0.0, at.turned).T
        z = cloth.z(u, v)
        assert level.swing_mm == pytest.approx(z.max() - z.min(), abs=1e-9)
    assert max(level.swing_mm for level in find_levels(project, garment)) > 2


@pytest.mark.parametrize(
    ("low", "high", "said"),
    [
        (3.0, 3.02, "Hems: bars 3.0 mm below, uneven by 0.0 mm."),
        (-3.02, -3.0, "Hems: bars 3.0 mm above, uneven by 0.0 mm."),
        (3.0, 4.5, "Hems: bars 3.0 to 4.5 mm below, uneven by 1.5 mm."),
        (-4.5, -3.0, "Hems: bars 3.0 to 4.5 mm above, uneven by 1.5 mm."),
        (-1.0, 2.5, "Hems: bars from 1.0 above to 2.5 mm below, uneven by 3.5 mm."),
    ],
)
def test_how_unevenly_bars_fall_is_said_in_a_sentence(low, high, said):
    assert Round("hem", (), low, high).words(MM) == said


def test_the_report_tells_levels_and_how_uneven_they_are():
    project = scattered(ring(4, 6, crosswise=BARS), 1)
    report = measurement_report(project, measure(project))
    assert {one["side"] for one in report["levels"]} == {"top", "hem"}
    for one in report["levels_round"]:
        assert len(one["panels"]) == 6
        assert one["uneven_mm"] == pytest.approx(one["high_mm"] - one["low_mm"], abs=2e-6)
    text = measurement_text(project, measure(project))
    assert f"uneven by {report['levels_round'][1]['uneven_mm']:.1f} mm." in text


def _with_cloth(project: Project, **changes) -> Project:
    return msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], **changes),))


@pytest.mark.parametrize(
    ("where", "value", "said"),
    [
        (("cloths", 0, "crosswise", "width"), 0.0, "cloth 'cloth', crosswise"),
        (("cloths", 0, "crosswise", "stripes", 0, "at"), 20.0, "crosswise, stripe 'lead'"),
        (("cloths", 0, "crosswise", "origin"), 1e308, "origin is 1e+308"),
        (("cloths", 0, "weft_skew_percent"), 31.0, "weft_skew_percent is 31"),
        (("cloths", 0, "bow_percent"), -1e308, "bow_percent is -1e+308"),
        (("match", "crosswise_weight"), -1.0, "crosswise_weight is -1"),
        (("cloths", 0, "bow_percent"), float("nan"), ""),
        (("cloths", 0, "crosswise"), 7, "crosswise"),
    ],
)
def test_bad_bars_are_refused_in_one_line_that_names_the_place(where, value, said):
    raw = json.loads(project_to_bytes(ring(4, 6, crosswise=BARS, match={"crosswise_weight": 2.0})))
    spot = raw
    for key in where[:-1]:
        spot = spot[key]
    spot[where[-1]] = value
    with pytest.raises(BadInput) as refusal:
        project_from_bytes(json.dumps(raw).encode())
    assert said in str(refusal.value)
    assert "\n" not in str(refusal.value)
