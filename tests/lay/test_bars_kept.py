"""A lay on barred cloth: every panel keeps its place in the stripes and in the bars, and can be cut."""

import math

import msgspec
import numpy as np
import pytest
from scipy.optimize import dual_annealing

from app.command_line.console import lay_text
from cloths import assert_can_be_cut, assert_phases_kept, project_of, rectangle, scattered, shapes_on_cloth
from core.files.project_file import read_project
from core.lay import engine, kernel, places, plainly
from core.lay.freedom import Freedom
from core.lay.lay import lay
from core.lay.legal import find_faults
from core.lay.rungs import on_rungs
from core.lay.task import task_of
from core.matching.bars_alone import bars_settled
from core.matching.byhand import by_hand
from core.matching.solve import match
from core.model.cloth import Cloth
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import repeat, ring

BARS = repeat("even", 45.0)
LEANING = {"skew": 8.0, "weft_skew_percent": 2.0}


def without_bars(project: Project) -> Project:
    return msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], crosswise=None),))


@pytest.mark.parametrize("loops", [kernel, plainly], ids=["compiled", "numpy alone"])
@pytest.mark.parametrize("keys", [{}, {"one_way": False}, LEANING, {"kind": "uneven", "one_way": False}])
def test_stripes_and_bars_lie_where_they_lay_on_every_panel(keys, loops, monkeypatch):
    monkeypatch.setattr(engine, "loops", lambda: loops)
    project = scattered(ring(2, number=5, crosswise=BARS, **keys), 2)
    result = lay(project, seconds=0.3, quick=True)
    assert_can_be_cut(result.project)
    assert find_faults(result.project, "cloth") == ()
    assert_phases_kept(project, result.project)


@pytest.mark.parametrize("loops", [kernel, plainly], ids=["compiled", "numpy alone"])
def test_rectangles_one_after_another_wait_for_the_next_bar(loops, monkeypatch):
    # 100 mm tall, a bar every 26 mm: the next begins at the first multiple of 26 past the one before.
    monkeypatch.setattr(engine, "loops", lambda: loops)
    project = project_of([rectangle(f"r{i}", 500, 100) for i in range(4)], 600, 20.0, crosswise=repeat("even", 26.0))
    found = lay(project, seconds=0.5, quick=True)
    assert found.lays[0].length_mm == pytest.approx(3 * 26 * math.ceil(100 / 26) + 100, abs=1e-6)
    assert lay(without_bars(project), seconds=0.5, quick=True).lays[0].length_mm == pytest.approx(400, abs=1e-6)


def test_a_lay_with_bars_is_never_shorter_than_the_same_without():
    for seed in range(2):
        project = scattered(ring(seed, number=4, crosswise=BARS), seed)
        kept = [lay(one, seconds=1.0, quick=True).lays[0].length_mm for one in (project, without_bars(project))]
        assert kept[0] >= kept[1] - 1e-6
        assert kept[0] <= kept[1] + 5 * 45.0


@pytest.mark.parametrize("keys", [{}, LEANING, {"bow_percent": 2.0, **LEANING}])
def test_both_engines_find_the_same_lowest_place(keys):
    project = scattered(ring(4, number=6, crosswise=BARS, **keys), 4)
    task = task_of(project, project.cloths[0])
    at = places.one_by_one(task, np.arange(6))
    for index in range(6):
        at.column[index] = -1
        tables = task.pairs, task.still, task.whose, task.least, task.most, task.rungs
        compiled, plain = (room.lowest(*tables, at.column, at.v, index, np.inf) for room in (kernel, plainly))
        assert compiled == (plain[0], pytest.approx(plain[1], abs=1e-9))
        at.column[index], at.v[index] = compiled


@pytest.mark.parametrize("keys", [{}, {"one_way": False}, LEANING], ids=["one-way", "either way", "leaning"])
def test_on_a_bowed_cloth_bars_lie_as_well_as_any_moves_along_the_cloth_could_bring_them(keys):
    project = match(ring(5, number=4, crosswise=BARS, bow_percent=2.0, **keys)).project
    found = lay(project, seconds=1.0, quick=True)
    laid, garment = found.project, Garment.of(project)
    assert_can_be_cut(laid)
    assert measure(laid).rms_of("lengthwise") <= measure(project).rms_of("lengthwise") + 1e-5
    names, cloth = laid.panel_names[1:], laid.cloths[0]

    def bars(by_mm):
        moved = {name: along(laid.placement(name), cloth, dv) for name, dv in zip(names, by_mm, strict=True)}
        return measure(laid.placed(moved), garment).rms_of("crosswise")

    rival = dual_annealing(bars, [(-22.5, 22.5)] * 3, maxiter=40, rng=1)
    assert bars([0.0] * 3) <= rival.fun * 1.01 + 0.02
    assert found.lays[0].bars_mm == pytest.approx([measure(p).rms_of("crosswise") for p in (project, laid)], abs=1e-6)


def test_on_a_bowed_cloth_panels_change_places_until_bars_slope_alike_at_their_seams():
    """Where panels lie one beside the other in the order of their seams, slopes at the edges of the cloth part them."""
    project = match(ring(8, 6, shape="chain", crosswise=repeat("even", 50.0), bow_percent=3.0, width=24.0)).project
    found = lay(project, seconds=20.0, quick=True)
    assert_can_be_cut(found.project)
    before, after = found.lays[0].bars_mm
    assert after < 1.5 * before


@pytest.mark.parametrize("share", [0.25, 0.6])
def test_a_lay_on_bowed_cloth_that_is_stopped_has_its_bars_brought_together_too(share):
    project = match(ring(5, number=4, crosswise=BARS, bow_percent=2.0)).project
    found = lay(project, progress=lambda done, note: done < share, seconds=5.0, quick=True)
    assert found.status == "stopped"
    assert_can_be_cut(found.project)
    garment, cloth = Garment.of(found.project), found.project.cloths[0]
    again = found.project.placed(bars_settled(found.project, garment, cloth))
    bars = [measure(one).rms_of("crosswise") for one in (found.project, again)]
    assert bars[0] <= bars[1] * 1.01 + 0.02


def test_a_lay_on_bowed_cloth_that_is_stopped_before_it_was_begun_tells_of_its_bars():
    project = match(ring(5, number=4, crosswise=BARS, bow_percent=2.0)).project
    found = lay(project, progress=lambda done, note: False, quick=True)
    assert found.status == "stopped"
    assert_can_be_cut(found.project)
    assert found.lays[0].bars_mm == pytest.approx(
        [measure(one).rms_of("crosswise") for one in (project, found.project)], abs=1e-6
    )
    assert "the cloth is bowed" in lay_text(found.lays[0])


def along(at: Placement, cloth: Cloth, dv: float) -> Placement:
    return msgspec.structs.replace(at, u=at.u + cloth.skew * dv, v=at.v + dv)


def test_on_a_bowed_cloth_panels_may_still_lie_end_for_end():
    project = scattered(ring(3, number=4, one_way=False, crosswise=BARS, bow_percent=2.0), 1)
    assert Freedom(project, project.cloths[0], Garment.of(project)).either_way == {"g0", "g1", "g2", "g3"}


@pytest.mark.parametrize("seed", range(3))
def test_panels_sewn_together_go_along_the_cloth_together_as_far_as_they_can(seed):
    project = match(ring(seed, number=4, crosswise=BARS)).project
    found = lay(project, seconds=0.5, quick=True)
    assert min(shape.bounds[1] for shape in shapes_on_cloth(found.project).values()) == pytest.approx(0.0, abs=1e-4)
    assert_can_be_cut(found.project)
    assert_phases_kept(project, found.project)


def test_a_lay_on_straight_bars_changes_no_step():
    project = match(ring(6, number=4, crosswise=BARS, **LEANING)).project
    before, after = measure(project), measure(lay(project, seconds=0.5, quick=True).project)
    assert after.rms_of("lengthwise") == pytest.approx(before.rms_of("lengthwise"), abs=1e-5)
    assert after.rms_of("crosswise") == pytest.approx(before.rms_of("crosswise"), abs=1e-5)


def test_panels_are_turned_only_where_stripes_and_bars_are_even():
    def either_way(**keys):
        project = scattered(ring(3, number=4, one_way=False, **keys), 1)
        return Freedom(project, project.cloths[0], Garment.of(project)).either_way

    assert either_way(crosswise=BARS) == {"g0", "g1", "g2", "g3"}
    assert either_way(crosswise=BARS, **LEANING) == {"g0", "g1", "g2", "g3"}
    assert either_way(crosswise=repeat("uneven", 45.0)) == frozenset()
    assert either_way(crosswise=BARS, kind="uneven") == frozenset()


def test_a_rung_is_the_next_one_either_way():
    rungs = np.array([0.25, 0.1, 0.0])
    v = np.array([-3.0, 0.0, 7.5, 7.5001, np.inf, -np.inf])
    assert on_rungs(v, rungs, True) == pytest.approx([-2.5, 7.5, 7.5, 17.5, np.inf, -np.inf])
    assert on_rungs(v, rungs, False) == pytest.approx([-12.5, -2.5, 7.5, 7.5, np.inf, -np.inf])
    assert np.array_equal(on_rungs(v, np.empty((6, 0)), True), v)


def test_held_panels_are_laid_round():
    held = Placement(u=400.0, v=150.0, hold=True)
    project = scattered(ring(7, number=4, crosswise=BARS), 7).placed({"g1": held})
    laid = lay(project, seconds=0.5, quick=True).project
    assert laid.placement("g1") == held
    assert find_faults(laid, "cloth") == ()
    assert_phases_kept(project, laid)


def test_the_plaid_sample_is_matched_and_can_be_cut(harbour_skirt):
    project = read_project(harbour_skirt.with_name("boathouse-plaid.stripewright"))
    assert find_faults(project, "main") == ()
    found, again = measure(project), match(project)
    assert again.rms_mm == pytest.approx(found.rms_mm, rel=2e-3)
    assert found.rms_mm < measure(by_hand(project, Garment.of(project))).rms_mm / 2
    assert all(reading.rms_mm < 2 for reading in (*found.seams, *found.crosswise))
