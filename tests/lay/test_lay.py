"""The lay: always one that can be cut, on the stripes, and short."""

import json

import msgspec
import pytest
from shapely.geometry import box

from cloths import (
    assert_can_be_cut,
    assert_phases_kept,
    project_of,
    rectangle,
    scattered,
    shapes_on_cloth,
    triangle,
)
from core.errors import BadInput, CannotBeHad
from core.files.project_file import project_from_bytes, read_project
from core.lay import budget
from core.lay.lay import lay
from core.lay.legal import find_faults
from core.lay.task import task_of
from core.model.project import Placement, Project
from garments import ring


def on_cloth(project: Project, **changes: object) -> Project:
    return msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], **changes),))


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize(
    "cloth",
    [
        {},
        {"repeat": None, "width": 1100.0},
        {"one_way": False, "width": 1250.0, "selvedge": (15.0, 20.0)},
        {"skew_mm_per_m": 12.0, "width": 1400.0},
        {"skew_mm_per_m": -30.0, "width": 900.0},
        {"flaws": ((300.0, 100.0, 420.0, 140.0), (900.0, 700.0, 910.0, 1600.0)), "width": 1300.0},
    ],
    ids=["striped", "plain", "end for end", "skewed", "narrow and skewed", "flaws"],
)
def test_every_lay_can_be_cut_and_keeps_the_stripes(cloth: dict, seed: int) -> None:
    project = scattered(on_cloth(ring(seed, number=5 + seed % 2, width=7.0 + 20 * seed), **cloth), seed)
    result = lay(project, seconds=0.15, seed=seed)
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)
    (only,) = result.lays
    shapes = shapes_on_cloth(result.project)
    assert only.length_mm == pytest.approx(max(shape.bounds[3] for shape in shapes.values()), abs=1e-6)
    room = (project.cloths[0].usable[1] - project.cloths[0].usable[0]) * only.length_mm
    assert only.used_share == pytest.approx(sum(shape.area for shape in shapes.values()) / room, rel=1e-9)
    assert find_faults(result.project, "cloth") == ()


def test_held_panels_stay_and_the_others_lie_around_them() -> None:
    project = scattered(on_cloth(ring(3, number=6), width=1300.0), 3)
    held = {"g1": Placement(u=333.3, v=400.0, turn_deg=2.0, hold=True), "g4": Placement(u=900.0, v=90.0, hold=True)}
    project = project.placed(held)
    result = lay(project, seconds=0.3)
    assert {name: result.project.placement(name) for name in held} == held
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)


def test_a_cloth_with_nothing_but_held_panels_is_told_as_it_is() -> None:
    project = project_of([rectangle("a", 300, 200)], 1000).placed({"a": Placement(u=50, v=700, hold=True)})
    result = lay(project)
    assert result.project == project
    assert result.lays[0].length_mm == 900


def test_held_panels_in_each_others_way_cannot_be_had() -> None:
    project = project_of([rectangle("a", 300, 200), rectangle("b", 300, 200)], 1000)
    project = project.placed({"a": Placement(u=0, v=0, hold=True), "b": Placement(u=290, v=0, hold=True)})
    with pytest.raises(CannotBeHad, match=r"held on 'cloth' can't stay there: panels 'a' and 'b' overlap by 2000\.00"):
        lay(project)


def test_abreast_on_plain_cloth_three_thirds_fill_the_width() -> None:
    project = project_of([rectangle(f"r{i}", 500, 300) for i in range(6)], 1500)
    assert lay(project).lays[0].length_mm == pytest.approx(600, abs=1e-6)
    assert lay(project).lays[0].used_share == pytest.approx(1.0)


def test_unlike_rectangles_that_fill_a_plain_cloth_are_found_to_fill_it() -> None:
    sizes = [(310, 400), (470, 400), (720, 250), (720, 150), (780, 200), (720, 200)]
    project = project_of([rectangle(f"r{i}", wide, tall) for i, (wide, tall) in enumerate(sizes)], 1500)
    assert lay(project).lays[0].length_mm == pytest.approx(600, abs=1e-6)


@pytest.mark.parametrize(("phase", "least"), [(0.0, 200), (50.0, 100), (29.9, 200), (30.1, 100)])
def test_stripes_decide_whether_two_panels_lie_abreast(phase: float, least: float) -> None:
    """Panels 90 wide on 210: columns of the first start at 0, 60, 120, those of the second at phase + 60 j."""
    project = project_of([rectangle("a", 90, 100), rectangle("b", 90, 100)], 209.95, 60.0, one_way=True)
    result = lay(project.placed({"a": Placement(u=0), "b": Placement(u=phase)}))
    assert result.lays[0].length_mm == pytest.approx(least, abs=1e-6)


def test_triangles_nest_as_far_as_they_can() -> None:
    """Three of 400 by 800, all pointing one way, on 1000 wide striped every 100 mm: every order and column tried."""
    project = project_of([triangle(f"t{i}", 400, 800) for i in range(3)], 1000, 100.0, one_way=True)
    tips = range(200, 801, 100)
    shortest = min(length_of_triangles(a, b, c) for a in tips for b in tips for c in tips)
    assert shortest == 1200
    assert lay(project).lays[0].length_mm == pytest.approx(shortest, abs=1e-6)


def length_of_triangles(*tips: int) -> float:
    """Length with the tips at given places across, each laid as near to the cut end as the ones before it allow.

    Two of them less than 200 apart across can't share any length; from there to 400 the sides, 4 mm along for 1 mm
    across, let them.
    """
    starts: list[float] = []
    for index, tip in enumerate(tips):
        needed = [800 - 4 * max(abs(tip - other) - 200, 0) for other in tips[:index]]
        blocked = [(start - gap, start + gap) for start, gap in zip(starts, needed, strict=True) if gap > 0]
        free = [v for v in (0.0, *(high for _, high in blocked)) if not any(a < v < b for a, b in blocked)]
        starts.append(min(free))
    return max(starts) + 800


def test_what_is_missing_is_told_in_millimetres() -> None:
    pieces = [rectangle(f"r{i}", 500, 300) for i in range(6)]
    short = lay(project_of(pieces, 1500, length=580)).lays[0]
    assert (short.fits, short.available_mm) == (False, 580)
    assert short.missing_mm == pytest.approx(20, abs=1e-6)
    assert short.message() == "cloth: the lay takes 600.0 mm, the cloth has 580.0 mm: 20.0 mm are missing"
    enough = lay(project_of(pieces, 1500, length=600)).lays[0]
    assert (enough.fits, enough.missing_mm) == (True, 0.0)
    open_ended = lay(project_of(pieces, 1500)).lays[0]
    assert (open_ended.fits, open_ended.missing_mm, open_ended.available_mm) == (True, 0.0, None)


def test_a_flaw_across_the_cloth_pushes_the_lay_behind_it() -> None:
    project = project_of([rectangle("a", 400, 300), rectangle("b", 400, 250)], 500, 50.0, flaws=[[0, 280, 500, 290]])
    result = lay(project)
    assert_can_be_cut(result.project)
    assert result.lays[0].length_mm == pytest.approx(590, abs=1e-6)
    assert shapes_on_cloth(result.project)["b"].within(box(0, -1e-6, 500, 280))


def test_a_panel_wider_than_the_cloth_is_bad_input() -> None:
    project = project_of([rectangle("wide", 1480, 300)], 1500, 20.0, selvedge=[15, 15])
    with pytest.raises(BadInput, match=r"panel 'wide': its cutting line is 1480\.0 mm wide, the usable width"):
        lay(project)


def test_a_panel_whose_stripes_find_no_place_between_the_selvedges_cannot_be_had() -> None:
    project = project_of([rectangle("coat", 990, 300)], 1000, 60.0).placed({"coat": Placement(u=20)})
    with pytest.raises(CannotBeHad, match=r"panel 'coat' can't lie on 'cloth': where its stripes match"):
        lay(project)


def test_on_a_skewed_cloth_such_a_panel_waits_for_its_stripes() -> None:
    project = project_of([rectangle("coat", 990, 300)], 1000, 60.0, skew_mm_per_m=20, one_way=True).placed(
        {"coat": Placement(u=20)}
    )
    result = lay(project)
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)
    assert result.lays[0].length_mm == pytest.approx(300 + 40 / 0.02, abs=1e-3)


def test_the_same_seed_gives_the_same_lay_however_long_it_may_take() -> None:
    project = scattered(on_cloth(ring(5, number=4, curved=False), width=1000.0), 5)
    first, again = lay(project, seconds=100, seed=7), lay(project, seconds=200, seed=7)
    assert first.project == again.project
    assert first.status == again.status == "done"


def test_stopped_at_once_it_still_gives_a_lay_that_can_be_cut() -> None:
    project = scattered(on_cloth(ring(6, number=6), width=1200.0), 6)
    result = lay(project, progress=lambda share, note: False)
    assert result.status == "stopped"
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)


def test_stopped_on_the_way_it_gives_the_best_so_far() -> None:
    project = scattered(on_cloth(ring(6, number=6), width=1200.0), 6)
    shares: list[float] = []

    def stop_early(share: float, note: str) -> bool:
        shares.append(share)
        return share < 0.05

    result = lay(project, progress=stop_early)
    at_once = lay(project, progress=lambda share, note: False)
    assert result.status == "stopped"
    assert shares == sorted(shares)
    assert_can_be_cut(result.project)
    assert result.lays[0].length_mm <= at_once.lays[0].length_mm


def test_the_skirt_lies_shorter_than_in_rows(harbour_skirt, monkeypatch) -> None:
    monkeypatch.setattr(budget, "WORK", 5e7)
    project = scattered(read_project(harbour_skirt), 1, 0.3)
    result = lay(project)
    at_once = lay(project, progress=lambda share, note: False)
    assert_can_be_cut(result.project)
    assert result.lays[0].length_mm < 0.9 * at_once.lays[0].length_mm


def test_every_cloth_that_has_panels_gets_a_lay_in_the_order_of_the_file() -> None:
    cloths = [{"id": name, "width": 600} for name in ("face", "spare", "lining")]
    pieces = [rectangle("a", 300, 200, "lining"), rectangle("b", 300, 100, "face"), rectangle("c", 300, 100, "face")]
    raw = {"format": "stripewright-project", "version": 1, "cloths": cloths, "pieces": pieces}
    result = lay(project_from_bytes(json.dumps(raw).encode()))
    assert [(one.cloth.id, one.panels) for one in result.lays] == [("face", ("b", "c")), ("lining", ("a",))]
    assert [one.length_mm for one in result.lays] == pytest.approx([100, 200])


@pytest.mark.parametrize("cloth", [{"width": 60_000.0}, {"width": 500.0, "skew_mm_per_m": 300.0}])
def test_very_wide_and_very_skewed_cloths_keep_the_stripes_and_the_tables_in_bounds(cloth: dict) -> None:
    pieces = [rectangle(f"r{i}", 300 + 7 * i, 400 - 9 * i) for i in range(5)]
    project = scattered(project_of(pieces, period=0.1, **cloth), 1)
    result = lay(project, seconds=0.2)
    assert task_of(project, project.cloths[0]).columns < 1000
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)


def test_each_lay_that_is_shown_on_the_way_can_be_cut_and_is_shorter_than_the_one_before() -> None:
    project = scattered(on_cloth(ring(6, number=6), width=1200.0), 6)
    shown: list[Project] = []
    result = lay(project, lambda share, note: len(shown) < 2, show=lambda places: shown.append(project.placed(places)))
    lengths = [max(shape.bounds[3] for shape in shapes_on_cloth(one).values()) for one in shown]
    assert len(shown) > 1
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[-1] == pytest.approx(result.lays[0].length_mm, abs=1e-9)
    for one in shown:
        assert_can_be_cut(one)
        assert_phases_kept(project, one)


@pytest.mark.parametrize("cloth", [{}, {"skew_mm_per_m": -30.0, "width": 900.0}, {"spare_mm": 7.0}, {"repeat": None}])
def test_stopped_before_a_cloth_is_begun_its_panels_lie_in_rows(cloth: dict) -> None:
    project = scattered(on_cloth(ring(4, number=8), **{"width": 1500.0, **cloth}), 4)
    result = lay(project, progress=lambda share, note: False)
    shapes = shapes_on_cloth(result.project).values()
    assert find_faults(result.project, "cloth") == ()
    assert_phases_kept(project, result.project)
    assert result.lays[0].length_mm < 0.7 * sum(shape.bounds[3] - shape.bounds[1] for shape in shapes)
