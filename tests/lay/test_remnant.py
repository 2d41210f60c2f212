"""The cloth there is: flaws as outlines, remnants with bites and holes, a margin, and what helps when it is short."""

import json

import pytest
from shapely.geometry import Polygon

from cloths import assert_can_be_cut, assert_phases_kept, project_of, rectangle, scattered, shapes_on_cloth, triangle
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.lay import budget
from core.lay.lay import lay
from core.lay.legal import find_faults
from core.lay.rescue import narrower
from core.model.project import Placement
from garments import ring

BITTEN = {"outline": [[0, 0], [1000, 0], [1000, 300], [600, 500], [1000, 700], [1000, 1400], [0, 1400]]}


@pytest.mark.parametrize("period", [None, 30.0])
def test_panels_keep_out_of_a_bite_and_a_hole(period) -> None:
    remnant = {**BITTEN, "holes": [[[200, 200], [260, 200], [230, 260]]]}
    pieces = [rectangle(f"r{i}", 290, 380) for i in range(7)]
    project = project_of(pieces, 1000, period, remnant=remnant)
    result = lay(project, seconds=2)
    there = Polygon(remnant["outline"], remnant["holes"])
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)
    assert result.lays[0].available_mm == 1400
    assert result.lays[0].fits
    for shape in shapes_on_cloth(result.project).values():
        assert shape.difference(there).area < 0.01


def test_a_flaw_with_three_corners_leaves_room_beside_it() -> None:
    flaw = [[0, 0], [400, 400], [0, 400]]
    result = lay(project_of([rectangle("a", 100, 300), rectangle("b", 100, 100)], 400, flaws=[flaw]))
    for shape in shapes_on_cloth(result.project).values():
        assert shape.intersection(Polygon(flaw)).area < 0.01
    assert result.lays[0].length_mm == pytest.approx(300, abs=1)


@pytest.mark.parametrize("spare", [1.0, 12.5])
def test_what_is_to_be_spared_stays_free_between_any_two_panels(spare: float) -> None:
    made = ring(2, number=5, width=20.0)
    project = scattered(
        project_from_bytes(
            json.dumps(
                {
                    **json.loads(project_to_bytes(made)),
                    "cloths": [{**json.loads(project_to_bytes(made))["cloths"][0], "spare_mm": spare}],
                }
            ).encode()
        ),
        1,
    )
    shapes = list(shapes_on_cloth(lay(project, seconds=0.5).project).values())
    gaps = [a.distance(b) for i, a in enumerate(shapes) for b in shapes[:i]]
    assert min(gaps) >= spare - 1e-3
    assert min(gaps) < 4 * spare


def test_panels_too_near_each_other_are_told() -> None:
    project = project_of([rectangle("a", 100, 200), rectangle("b", 100, 200)], 400, spare_mm=3)
    project = project.placed({"a": Placement(), "b": Placement(u=101)})
    assert find_faults(project, "cloth") == ("panels 'a' and 'b' lie 1.00 mm apart, 3.00 mm are to be spared",)


def test_a_panel_off_the_remnant_is_told() -> None:
    project = project_of([rectangle("a", 100, 200)], 1000, remnant=BITTEN).placed({"a": Placement(u=900, v=350)})
    assert "panel 'a' lies off the remnant" in find_faults(project, "cloth")[0]


def test_old_files_and_new_ones_come_back_as_they_were() -> None:
    flaws = [[10, 10, 20, 20], [[50, 50], [80, 50], [60, 90]]]
    project = project_of([rectangle("a", 100, 200)], 1000, flaws=flaws, remnant=BITTEN, spare_mm=2)
    assert project_from_bytes(project_to_bytes(project)) == project
    assert project.cloths[0].flaw_boxes == ((10, 10, 20, 20),)
    assert project.cloths[0].flaw_outlines[1] == ((50, 50), (80, 50), (60, 90))


def holed(*holes: list[list[float]]) -> dict:
    return {"remnant": {"outline": [[0, 0], [900, 0], [900, 500], [0, 500]], "holes": list(holes)}}


@pytest.mark.parametrize(
    ("changes", "wrong"),
    [
        ({"flaws": [[1, 2, 3]]}, "flaw 1 is neither two corners nor an outline"),
        ({"flaws": [[[0, 0], [1, 1]]]}, "flaw 1 is neither two corners nor an outline"),
        ({"flaws": [[[0, 0], [9, 9], [9, 0], [0, 9]]]}, "its flaw 1 crosses itself"),
        ({"remnant": {"outline": [[0, 0], [9, 9]]}}, "its outline encloses nothing"),
        ({"remnant": {"outline": [[0, -5], [900, 0], [0, 900]]}}, "its outline starts before v = 0"),
        (holed([[800, 300], [990, 300], [990, 400]]), "hole 1 reaches over its outline"),
        (holed([[10, 10], [60, 10], [60, 60]], [[50, 10], [90, 10], [50, 50]]), "hole 1 and hole 2 overlap"),
        ({"spare_mm": -1}, "spare_mm is -1"),
    ],
)
def test_what_is_no_flaw_and_no_remnant_is_refused(changes, wrong) -> None:
    with pytest.raises(BadInput, match=wrong):
        project_of([rectangle("a", 100, 200)], 1000, **changes)


def test_one_panel_too_many_is_left_over_and_a_seam_across_it_would_help(monkeypatch) -> None:
    """Two rows of three, 300 long, fill 900 by 600; the seventh, of 100 by 260, has 60 mm of cloth behind them."""
    monkeypatch.setattr(budget, "WORK", 5e7)
    pieces = [*(rectangle(f"r{i}", 300, 300) for i in range(6)), rectangle("strap", 100, 260)]
    short = lay(project_of(pieces, 900, one_way=True, length=780)).lays[0]
    assert short.missing_mm == pytest.approx(80, abs=1e-6)
    assert short.left_over == ("strap",)
    (seam,) = [one for one in short.remedies if one.what == "a seam across strap"]
    assert seam.fits
    assert seam.length_mm == pytest.approx(600 + 260 / 2 + 15, abs=1e-6)
    assert short.advice[0] == "left over: strap"


def test_end_for_end_is_found_to_help_where_it_does() -> None:
    pieces = [triangle(f"t{i}", 400, 800) for i in range(2)]
    short = lay(project_of(pieces, 620, one_way=True, length=820)).lays[0]
    assert not short.fits
    helped = [one for one in short.remedies if one.fits]
    assert "panels end for end, if the cloth allows it" in [one.what for one in helped]
    assert lay(project_of(pieces, 620, length=820)).lays[0].fits


def test_the_stash_that_is_20_mm_short_is_told_so(harbour_skirt) -> None:
    """Its four gores lie two abreast, each 740 mm with its allowances, so 1480 mm are needed and 1460 are there."""
    (only,) = lay(read_project(harbour_skirt.with_name("ferry-apron.stripewright"))).lays
    assert (only.fits, only.available_mm) == (False, 1460)
    assert only.missing_mm == pytest.approx(20, abs=1e-3)
    assert len(only.left_over) == 2
    assert not any(one.fits and one.length_mm > 1460.001 for one in only.remedies)
    assert f"a seam across {', '.join(only.left_over)}" in [one.what for one in only.remedies]


def test_hems_10_mm_narrower_are_found_to_help_the_stash_and_do(harbour_skirt) -> None:
    project = read_project(harbour_skirt.with_name("ferry-apron.stripewright"))
    (helps,) = [one.what for one in lay(project).lays[0].remedies if one.fits]
    assert helps == "every panel's widest allowance 10 mm narrower"
    narrow = narrower(project, project.cloths[0], 10)
    hems = [edge.allowance for piece in narrow.pieces for edge in piece.edges if edge.name == "hem"]
    assert hems == [20, 20]
    (after,) = lay(narrow).lays
    assert after.fits
    assert after.length_mm == pytest.approx(1460, abs=1e-3)


def test_what_a_remnant_lacks_is_measured_from_its_slanting_end() -> None:
    """Two panels of 300 behind one another need 600; at the left corner, u from 0 to 50, 550 to 554.4 are there."""
    remnant = {"outline": [[0, 0], [450, 0], [450, 590], [0, 550]]}
    project = project_of([rectangle("a", 400, 300), rectangle("b", 400, 300)], 450, remnant=remnant)
    result = lay(project)
    (short,) = result.lays
    assert not short.fits
    assert short.length_mm == pytest.approx(600, abs=1e-6)
    assert 600 - 554.5 < short.missing_mm < 50 + 1e-6
    (fault,) = find_faults(result.project, "cloth")[:1]
    assert "lies off the remnant" in fault
    assert lay(project_of([rectangle("a", 400, 300)], 450, remnant=remnant)).lays[0].fits


def test_the_remnant_with_a_bite_is_enough_for_its_skirt(harbour_skirt, monkeypatch) -> None:
    monkeypatch.setattr(budget, "WORK", 5e7)
    project = read_project(harbour_skirt.with_name("skylight-skirt.stripewright"))
    result = lay(project)
    remnant = project.cloths[0].remnant
    assert result.lays[0].fits
    assert find_faults(result.project, "main") == ()
    for shape in shapes_on_cloth(result.project).values():
        assert shape.difference(Polygon(remnant.outline, remnant.holes)).area < 0.01
