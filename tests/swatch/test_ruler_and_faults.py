"""What is measured by ruler, and how far a cloth is from straight."""

import math

import msgspec
import numpy as np
import pytest

from core.errors import BadInput
from core.model.cloth import Cloth, Remnant, Repeat, Stripe
from core.swatch.faults import (
    bow_at_edge_percent,
    bow_percent,
    fault_warnings,
    lean_if_squared_across,
    lean_mm_per_m,
    skew_angle_deg,
    skew_percent,
    square_skew_percent,
)
from core.swatch.ruler import Count, counted_repeat, narrowest, shrinkage_of, shrunk_repeat, washed

TICKING = Repeat(width=24.0, origin=3.5, stripes=(Stripe(name="navy", at=12.0, width=6.0, colour="#23304d"),))
CLOTH = Cloth(
    id="main", width=1500, selvedge=(15, 15), length=4000, flaws=((200.0, 900.0, 260.0, 940.0),), repeat=TICKING
)


def test_the_repeat_by_ruler_is_the_mean_of_long_counts():
    counted = counted_repeat([Count(40, 964.0, 100), Count(40, 966.0, 1100), Count(40, 968.0, 2100)])
    assert counted.width_mm == pytest.approx(24.15)
    assert counted.spread_mm == pytest.approx(0.05)  # 24.10, 24.15, 24.20
    assert counted.width_sd_mm == pytest.approx(0.05 / math.sqrt(3))
    assert counted.drift_mm_per_m == pytest.approx(0.05)
    assert counted.off_after(10) == pytest.approx(0.5 / math.sqrt(3))


def test_mean_and_drift_agree_with_a_weighted_line():
    rng = np.random.default_rng(4)
    counts = [
        Count(int(n), float(n * rng.normal(24, 0.05)), float(at))
        for n, at in zip((10, 20, 40, 35), range(0, 4000, 1000), strict=True)
    ]
    repeats = np.array([count.repeats for count in counts])
    slope, _ = np.polyfit([count.at_mm for count in counts], [count.width_mm for count in counts], 1, w=repeats)
    counted = counted_repeat(counts)
    assert counted.drift_mm_per_m == pytest.approx(1000 * slope)
    assert counted.width_mm == pytest.approx(np.average([c.width_mm for c in counts], weights=repeats**2))


def test_one_count_says_nothing_of_its_spread():
    counted = counted_repeat([Count(30, 720.0)])
    assert counted.width_mm == 24
    assert counted.spread_mm is counted.width_sd_mm is counted.drift_mm_per_m is counted.off_after(3) is None


def test_a_missed_repeat_is_pointed_out():
    with pytest.raises(BadInput, match=r"count 2 .* about 10 repeats"):
        counted_repeat([Count(10, 240.0), Count(9, 240.0), Count(10, 240.2)])
    for wrong in ((0, 10.0), (3, 0.0), (3, math.nan)):
        with pytest.raises(BadInput):
            Count(*wrong)
    with pytest.raises(BadInput):
        counted_repeat([])


def test_the_narrowest_width_and_the_broadest_selvedges_count():
    assert narrowest([(1502, 14, 15), (1496, 13, 16), (1500, 15, 15)]) == (1496, (15, 16))
    for wrong in ([], [(20, 10, 10)], [(1500, -1, 10)]):
        with pytest.raises(BadInput):
            narrowest(wrong)


def test_a_washed_square_makes_the_repeat_and_the_cloth_smaller():
    shrinkage = shrinkage_of((500, 500), (490, 475))
    assert (shrinkage.across_percent, shrinkage.along_percent) == pytest.approx((2, 5))
    repeat = shrunk_repeat(TICKING, shrinkage)
    assert (repeat.width, repeat.origin) == pytest.approx((23.52, 3.43))
    assert (repeat.stripes[0].at, repeat.stripes[0].width) == pytest.approx((11.76, 5.88))
    cloth = washed(msgspec.structs.replace(CLOTH, skew_mm_per_m=10.0), shrinkage)
    assert (cloth.width, cloth.length) == pytest.approx((1470, 3800))
    assert cloth.flaws[0] == pytest.approx((196, 855, 254.8, 893))
    assert cloth.skew_mm_per_m == pytest.approx(10 * 0.98 / 0.95)
    assert cloth.repeat == repeat
    ring = ((0.0, 0.0), (1500.0, 0.0), (0.0, 2000.0))
    left = washed(msgspec.structs.replace(CLOTH, remnant=Remnant(outline=ring, holes=(ring,))), shrinkage).remnant
    assert np.array(left.outline) == pytest.approx(np.array([(0, 0), (1470, 0), (0, 1900)]))
    assert left.holes == (left.outline,)
    for before, after in (((0, 500), (490, 475)), ((500, 500), (100, 475)), ((500, 500), (700, 475))):
        with pytest.raises(BadInput):
            shrinkage_of(before, after)


def test_skew_by_astm_d3882():
    # ASTM D3882: percent = 100 x distance / width; one edge 45 mm ahead on 1500 mm is 3.00 %, 1.718 degrees.
    assert skew_percent(45, 1500) == pytest.approx(3.00)
    assert skew_angle_deg(3.00) == pytest.approx(1.718, abs=5e-4)


def test_bow_by_astm_d3882():
    # ASTM D3882: percent = 100 x distance / width; a parabola of 2 % bow slopes 8 % (4.57 degrees) at the edge.
    assert bow_percent(30, 1500) == pytest.approx(2.00)
    assert bow_at_edge_percent(2.00) == pytest.approx(8.00)
    assert skew_angle_deg(bow_at_edge_percent(2.00)) == pytest.approx(4.57, abs=5e-3)
    across = np.linspace(0, 1500, 100001)
    thread = 4 * 30 * (across / 1500) * (1 - across / 1500)
    assert 100 * np.gradient(thread, across)[0] == pytest.approx(8.00, abs=0.01)


def test_skew_of_a_washed_square_by_aatcc_tm179():
    # AATCC TM179 (from memory): 100 x 2 (AC - BD) / (AC + BD); a 250 mm square sheared 3 %: 358.90, 348.29 and 2.999 %.
    corners = {"A": (0, 0), "B": (250, 0), "C": (250 + 7.5, 250), "D": (7.5, 250)}
    ac, bd = math.dist(corners["A"], corners["C"]), math.dist(corners["B"], corners["D"])
    assert (ac, bd) == pytest.approx((358.90, 348.29), abs=0.01)
    assert square_skew_percent(ac, bd) == pytest.approx(2.999, abs=1e-3)
    assert square_skew_percent(bd, ac) == pytest.approx(-2.999, abs=1e-3)


def test_stripes_on_a_skewed_cloth_lean_only_when_it_is_laid_square_to_its_crosswise_threads():
    ahead, width = 45.0, 1500.0
    across, along = np.array([width, ahead]), np.array([0.0, 1.0])
    turn = -math.atan2(across[1], across[0])
    rotated = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    assert (rotated @ across)[1] == pytest.approx(0, abs=1e-9)
    u, v = rotated @ along
    assert lean_if_squared_across(skew_percent(ahead, width)) == pytest.approx(1000 * u / v)
    assert lean_mm_per_m(-6, 2000) == -3


def test_warnings_tell_skew_bow_and_lean_apart():
    assert fault_warnings(CLOTH, bow=0.5, skew=1.0) == ()
    leaning = msgspec.structs.replace(CLOTH, skew_mm_per_m=10.0)
    (lean,) = fault_warnings(leaning)
    assert "lean +0.57 degrees, more than panels may turn (0.25)" in lean
    bow, skew = sorted(fault_warnings(CLOTH, bow=2.0, skew=3.0), key=lambda text: "skewed" in text)
    assert "bowed by 2.0 %, 8.0 % at the edges" in bow
    assert "skewed by 3.0 % (1.72 degrees)" in skew


def test_figures_that_can_t_be_are_refused():
    for wrong in (
        lambda: skew_percent(45, 0),
        lambda: skew_percent(1000, 1500),
        lambda: bow_percent(math.nan, 1500),
        lambda: square_skew_percent(0, 10),
        lambda: square_skew_percent(10, 100),
        lambda: lean_mm_per_m(10, 5),
        lambda: lean_mm_per_m(500, 1000),
    ):
        with pytest.raises(BadInput):
            wrong()
