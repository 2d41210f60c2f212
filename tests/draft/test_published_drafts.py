"""Drafts as they stand in old books come out to half a millimetre. The source stands beside each."""

import math

import pytest
from shapely.geometry import LineString, Polygon

from core.draft.measures import Allowances, SkirtMeasures
from core.draft.skirt import draft_skirt
from core.errors import BadInput
from core.model.panel import panels_of
from drafted import INCH, YARD, edge, hip_width, lean_deg, middle_length, piece, width

TO = 0.5
LEAN_TO = 0.002


def inches(project, line: str) -> list[float]:
    """Widths of all pieces from front to back, in; a gore on the fold whole."""
    read = hip_width if line == "hip" else lambda one: width(one, line)
    return [read(one) / INCH for one in project.pieces]


def near(*values: float):
    return pytest.approx(values, abs=TO / INCH)


# Bennett, The Perfect Dressmaking System, 1914, scan 13: five gores, waist 25 in, hip 40 in at 7 in below the waist,
# sweep 2 1/4 yd, lengths front 38, side 39, back 39 1/2 in.
BENNETT = {
    "waist": 25 * INCH,
    "hip": 40 * INCH,
    "hip_depth": 7 * INCH,
    "sweep": 2.25 * YARD,
    "length_front": 38 * INCH,
    "length_side": 39 * INCH,
    "length_back": 39.5 * INCH,
    "gores": 5,
    "sharing": "bennett",
}
PRINTED_HEMS = (10 * INCH, 17.5 * INCH, 17.5 * INCH)


def test_bennett_gives_every_gore_5_in_at_the_waist_and_8_at_the_hip():
    project = draft_skirt(SkirtMeasures(**BENNETT)).project
    assert inches(project, "waist") == near(5, 5, 5)
    assert inches(project, "hip") == near(8, 8, 8)


def test_bennetts_front_hem_is_twice_its_waist_and_the_others_share_the_rest_of_the_sweep():
    """Front 10 in; arithmetic on the rest: (81 - 10) / 4 = 17.75 in."""
    draft = draft_skirt(SkirtMeasures(**BENNETT))
    assert inches(draft.project, "hem") == near(10, 17.75, 17.75)
    assert draft.findings == ()


def test_bennetts_printed_hems_are_reported_an_inch_short_of_her_sweep():
    """Printed: front 10 in, the others 17 1/2; 10 + 4 x 17 1/2 = 80 in, the sweep is 81."""
    draft = draft_skirt(SkirtMeasures(**BENNETT, own_hem=PRINTED_HEMS))
    assert inches(draft.project, "hem") == near(10, 17.5, 17.5)
    (finding,) = draft.findings
    assert finding.place == "hem widths"
    assert "2032.0 mm, 25.4 mm (1 in) short of the sweep of 2057.4 mm" in finding.what


def test_bennetts_lengths_hold_down_the_centre_front_and_the_centre_back_and_are_alike_below_the_hip():
    project = draft_skirt(SkirtMeasures(**BENNETT, own_hem=PRINTED_HEMS)).project
    assert middle_length(piece(project, "front")) == pytest.approx(38 * INCH, abs=TO)
    assert edge(piece(project, "back"), "centre").length() == pytest.approx(39.5 * INCH, abs=TO)
    below = {round(notch.at, 2) for one in project.pieces for notch in one.notches if notch.edge in ("back", "centre")}
    assert len(below) == 1


def test_leans_of_bennetts_gores_with_the_grain_in_the_middle():
    """Hip to hem 31 in: atan((10 - 8) / 2 / 31) and atan((17.5 - 8) / 2 / 31), trigonometry on the published draft."""
    project = draft_skirt(SkirtMeasures(**BENNETT, own_hem=PRINTED_HEMS)).project
    assert lean_deg(piece(project, "front"), "back.R") == pytest.approx(1.848, abs=LEAN_TO)
    for name in ("front", "back"):
        assert lean_deg(piece(project, "side"), name) == pytest.approx(8.711, abs=LEAN_TO)


def test_leans_of_bennetts_side_gore_with_its_front_edge_on_the_grain():
    """One edge on the grain: atan((17.5 - 8) / 31) on the other."""
    draft = draft_skirt(SkirtMeasures(**BENNETT, own_hem=PRINTED_HEMS, grain=("middle", "front edge", "middle")))
    side = piece(draft.project, "side")
    assert lean_deg(side, "front") == pytest.approx(0, abs=LEAN_TO)
    assert lean_deg(side, "back") == pytest.approx(17.038, abs=LEAN_TO)


# Ingalls, Text-Book on Domestic Art, c. 1911: waist 24 in, hip 39 in taken 6 in down.
INGALLS = {
    "waist": 24 * INCH,
    "hip": 39 * INCH,
    "hip_depth": 6 * INCH,
    "sweep": 100 * INCH,
    "length_front": 40 * INCH,
    "sharing": "ingalls",
}


def test_ingalls_five_gores():
    """Half draft: waist front W/8, side W/6, the rest (3, 4, 5 in); hip front + 1, side W/4, the rest (4, 6, 9 1/2)."""
    project = draft_skirt(SkirtMeasures(**INGALLS, gores=5)).project
    assert inches(project, "waist") == near(6, 4, 5)
    assert inches(project, "hip") == near(8, 6, 9.5)
    assert sum(w * n for w, n in zip(inches(project, "hem"), (1, 2, 2), strict=True)) == pytest.approx(100, abs=0.02)


def test_ingalls_nine_gores():
    """Half waist: front 1 1/2, three sides 2 2/3 each, back 2 1/2 in; hip front 2 1/4, sides 4, back 5 1/4 in."""
    project = draft_skirt(SkirtMeasures(**INGALLS, gores=9)).project
    assert inches(project, "waist") == near(3, 8 / 3, 8 / 3, 8 / 3, 2.5)
    assert inches(project, "hip") == near(4.5, 4, 4, 4, 5.25)


def test_baldt_six_gores():
    """Clothing for Women, 1916. Hip 42, hem 81 in: half hip 3.5, 7, 7, 3.5; half hem 7, 13.25, 13.25, 7."""
    measures = SkirtMeasures(
        waist=27 * INCH, hip=42 * INCH, sweep=81 * INCH, length_front=39 * INCH, gores=6, sharing="baldt"
    )
    project = draft_skirt(measures).project
    assert [one.cut for one in project.pieces] == ["single", "pair", "pair", "single"]
    assert inches(project, "hip") == near(7, 7, 7, 7)
    assert inches(project, "hem") == near(14, 13.25, 13.25, 14)


@pytest.mark.parametrize("cut", ["single", "fold"])
def test_baldt_seven_gores(cut):
    """The same. Hip 40, hem 90 in: half hip 3.333, 6.167, 6.167, 4.333; half hem 5, 14.333, 14.333, 11.333."""
    measures = SkirtMeasures(
        waist=26 * INCH,
        hip=40 * INCH,
        sweep=90 * INCH,
        length_front=39 * INCH,
        gores=7,
        sharing="baldt",
        centre_gores=cut,
    )
    project = draft_skirt(measures).project
    assert inches(project, "hip") == near(20 / 3, 37 / 6, 37 / 6, 13 / 3)
    assert inches(project, "hem") == near(10, 43 / 3, 43 / 3, 34 / 3)


def test_published_proportions_go_with_their_own_numbers_of_gores_only():
    with pytest.raises(BadInput, match="5 gores, a gore in front, a seam behind or 9 gores"):
        draft_skirt(SkirtMeasures(**INGALLS, gores=7))


@pytest.fixture
def prince_browne():
    """Every Woman's Encyclopaedia 1, c. 1911, pp. 637-638: front gore 5 in at the top, 10 at the hem, 42 in long.

    Turnings: 1 in at the sides, 1/2 in at the waist, 4 1/2 in at the hem. The other gores' widths are invented.
    """
    measures = SkirtMeasures(
        waist=25 * INCH,
        hip=32 * INCH,
        sweep=70 * INCH,
        length_front=42 * INCH,
        gores=5,
        straight_from="waist",
        own_waist=(5 * INCH,) * 3,
        own_hem=(10 * INCH, 15 * INCH, 15 * INCH),
        allowances=Allowances(seam=INCH, centre=INCH, waist=INCH / 2, hem=4.5 * INCH),
    )
    return piece(draft_skirt(measures).project, "front")


def test_prince_brownes_front_gore(prince_browne):
    assert width(prince_browne, "waist") == pytest.approx(5 * INCH, abs=TO)
    assert width(prince_browne, "hem") == pytest.approx(10 * INCH, abs=TO)
    assert middle_length(prince_browne) == pytest.approx(42 * INCH, abs=TO)
    for name in ("back.R", "back.L"):
        assert lean_deg(prince_browne, name) == pytest.approx(math.degrees(math.atan(2.5 / 42)), abs=0.01)


def test_prince_brownes_front_gore_is_cut_47_in_long_and_12_in_wide_at_the_hem(prince_browne):
    cut = Polygon(panels_of(prince_browne)[0].cut_ring)
    level = edge(prince_browne, "hem").start.imag
    across = cut.intersection(LineString([(-1000, level), (1000, level)]))
    down = cut.intersection(LineString([(0, -1000), (0, 2000)]))
    assert across.length == pytest.approx(12 * INCH, abs=TO)
    assert down.length == pytest.approx(47 * INCH, abs=TO)


def test_a_waist_an_inch_larger_leaves_the_front_and_widens_side_and_back_by_a_quarter_inch_at_the_back_edge():
    """The Practical Designer, c. 1915, lesson 120, on five gores."""
    before = draft_skirt(SkirtMeasures(**BENNETT)).project
    after = draft_skirt(SkirtMeasures(**BENNETT, let_out=INCH)).project
    assert piece(after, "front") == piece(before, "front")
    for name, back_edge in (("side", "back"), ("back", "centre")):
        old, new = piece(before, name), piece(after, name)
        assert width(new, "waist") - width(old, "waist") == pytest.approx(INCH / 4, abs=TO)
        assert width(new, "hem") == pytest.approx(width(old, "hem"), abs=1e-3)
        corners = [(edge(one, "waist").start.real, edge(one, "waist").end.real) for one in (old, new)]
        assert corners[0][0] - corners[1][0] == pytest.approx(INCH / 4, abs=TO)
        assert corners[1][1] == pytest.approx(corners[0][1], abs=1e-3)
        assert edge(new, back_edge).length() == pytest.approx(edge(old, back_edge).length(), abs=1e-3)
