"""The others follow a hand: they take the best places that are left, and nothing else changes."""

import msgspec
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.matching.follow import Followers
from core.matching.solve import match
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import measure
from garments import EVERY_KIND, repeat, ring
from oracle import seam_figures

BARS = repeat("even", 45.0)

PLAIDS = [
    {"crosswise": BARS},
    {"crosswise": BARS, "shape": "pairs", "match": {"crosswise_weight": 3.0}},
    {"crosswise": repeat("uneven", 31.0), "shape": "branch", "weft_skew_percent": 2.0, "skew": 8.0},
    {"crosswise": BARS, "repeat": None, "tolerance": 1.0},
    {"crosswise": BARS, "bow_percent": 1.5},
    {"crosswise": BARS, "shape": "fold", "match": {"centre": {"panel": "front", "on": "lead"}}},
]


def laid(project: Project) -> Project:
    """Every panel somewhere, as a hand would leave them."""
    return project.placed({n: Placement(u=97.3 * i, v=5.0 * i) for i, n in enumerate(project.panel_names)})


def moved(project: Project, panel: str, du: float, turn_deg: float = 0.0, dv: float = 0.0) -> dict[str, Placement]:
    at = project.placement(panel)
    return {panel: msgspec.structs.replace(at, u=at.u + du, v=at.v + dv, turn_deg=at.turn_deg + turn_deg)}


def followed(project: Project, hand: dict[str, Placement]) -> Project:
    others = Followers(project, Garment.of(project), hand).places(hand)
    return project.placed(hand).placed(others)


def held(project: Project, *panels: str) -> Project:
    return project.placed({n: msgspec.structs.replace(project.placement(n), hold=True) for n in panels})


@settings(max_examples=8, deadline=None)
@given(
    kind=st.sampled_from(EVERY_KIND[:-1]),
    seed=st.integers(1, 50),
    which=st.integers(0, 5),
    du=st.floats(-60, 60),
    solved=st.booleans(),
)
def test_the_figure_is_never_worse_and_only_u_and_turns_of_the_others_change(kind, seed, which, du, solved):
    project = laid(ring(seed, **kind))
    project = match(project).project if solved else project
    hand = moved(project, project.panel_names[which], du)
    after = followed(project, hand)
    assert measure(after).rms_mm <= measure(project.placed(hand)).rms_mm + 1e-6
    limit, period = project.cloths[0].grain_tolerance_deg, project.cloths[0].repeat.period
    for name in project.panel_names:
        was, now = project.placement(name), after.placement(name)
        if name in hand:
            assert now == hand[name]
            continue
        assert (now.v, now.turned, now.hold) == (was.v, was.turned, was.hold)
        assert abs(now.u - was.u) <= period / 2 + 1e-5
        assert abs(now.turn_deg) <= limit + 1e-5


@pytest.mark.parametrize("kind", EVERY_KIND, ids=str)
def test_it_comes_as_low_as_the_whole_match_with_the_moved_panel_held(kind):
    project = laid(ring(4, **kind))
    hand = moved(project, project.panel_names[1], 7.0, 0.1)
    best = match(held(project.placed(hand), *hand)).rms_mm
    assert measure(followed(project, hand)).rms_mm == pytest.approx(best, rel=0.05, abs=0.01)


@pytest.mark.parametrize("kind", PLAIDS, ids=str)
def test_on_barred_cloth_stripes_and_bars_come_as_low_as_the_whole_match_together(kind):
    project = laid(ring(4, number=6, **kind))
    hand = moved(project, project.panel_names[1], 7.0, 0.1, 16.0)
    placed = project.placed(hand)
    best = match(held(placed, *hand)).rms_mm
    after = followed(project, hand)
    assert measure(after).rms_mm == pytest.approx(best, rel=0.05, abs=0.01)
    assert measure(after).rms_mm < 0.8 * measure(placed).rms_mm
    cloth = project.cloths[0]
    for name in set(project.panel_names) - set(hand):
        was, now = project.placement(name), after.placement(name)
        assert (now.turned, now.hold) == (was.turned, was.hold)
        assert abs(now.turn_deg) <= cloth.grain_tolerance_deg + 1e-5
        assert abs(now.v - was.v) <= cloth.crosswise.period / 2 + (2.0 if cloth.bow_per_mm or cloth.skew else 1e-5)


def test_a_matched_plaid_moves_along_the_cloth_with_the_hand_and_keeps_both_figures():
    project = match(laid(ring(2, 10, tolerance=1.0, crosswise=BARS))).project
    before = measure(project)
    for du, dv in ((0.0, 3.0), (2.0, 11.0), (9.0, -20.0)):
        after = measure(followed(project, moved(project, "g3", du, 0.0, dv)))
        assert after.rms_mm == pytest.approx(before.rms_mm, rel=2e-3)
        for way in ("lengthwise", "crosswise"):
            assert after.rms_of(way) == pytest.approx(before.rms_of(way), rel=5e-3)


def test_turns_stay_while_a_matched_plaid_is_moved_as_one():
    project = match(laid(ring(2, 6, tolerance=1.0, crosswise=BARS))).project
    for du, dv in ((0.0, 9.0), (4.0, 20.0)):
        after = followed(project, moved(project, "g3", du, 0.0, dv))
        for name in project.panel_names:
            assert after.placement(name).turn_deg == pytest.approx(project.placement(name).turn_deg, abs=0.05)


def test_a_matched_garment_moves_along_with_the_hand_and_keeps_its_figure():
    project = match(laid(ring(2, 10, tolerance=1.0))).project
    before = measure(project).rms_mm
    for du in (0.4, 3.0, 11.0, 27.0):
        after = followed(project, moved(project, "g3", du))
        assert measure(after).rms_mm == pytest.approx(before, rel=2e-3)
    squares = sum(w.weight * rms**2 for w, (rms, _) in zip(project.seams, seam_figures(after).values(), strict=True))
    total = sum(seam.weight for seam in project.seams)
    assert (squares / total) ** 0.5 == pytest.approx(measure(after).rms_mm, abs=0.01)


def test_held_cut_and_unplaced_panels_stay_and_those_beyond_them_do_too():
    project = match(laid(ring(5, 10, shape="chain", tolerance=1.0))).project
    project = msgspec.structs.replace(held(project, "g2"), done=("g6",))
    project = msgspec.structs.replace(
        project, placements={name: at for name, at in project.placements.items() if name != "g9"}
    )
    hand = moved(project, "g4", 5.0)
    followers = Followers(project, Garment.of(project), hand)
    assert set(followers.panels) == {"g3", "g5"}
    assert set(followers.places(hand)) == {"g3", "g5"}


def test_the_mirrored_panel_follows_the_one_in_the_hand_as_its_mirror_image():
    project = match(laid(ring(3, 10, shape="pairs", tolerance=1.0))).project
    after = followed(project, moved(project, "g1.R", 4.0, 0.2))
    right, left = after.placement("g1.R"), after.placement("g1.L")
    repeat = project.cloths[0].repeat
    assert left.turn_deg == pytest.approx(-right.turn_deg, abs=1e-5)
    apart = (left.u + right.u - 2 * repeat.c) % repeat.period
    assert min(apart, repeat.period - apart) == pytest.approx(0, abs=1e-4)


def test_the_answer_depends_on_where_the_hand_is_and_not_on_the_way_there():
    project = match(laid(ring(6, 8))).project
    garment, hand = Garment.of(project), moved(project, "g2", 9.0)
    followers = Followers(project, garment, hand)
    for du in (1.0, -30.0, 4.0):
        followers.places(moved(project, "g2", du))
    assert followers.places(hand) == Followers(project, garment, hand).places(hand)


def test_many_panels_in_one_hand_leave_the_rest_to_follow():
    project = match(laid(ring(7, 8, tolerance=1.0))).project
    hand = {**moved(project, "g1", 5.0), **moved(project, "g2", -2.0), **moved(project, "g6", 1.0)}
    after = followed(project, hand)
    assert measure(after).rms_mm < measure(project.placed(hand)).rms_mm
    assert all(after.placement(name) == at for name, at in hand.items())


def test_a_garment_all_in_the_hand_has_nobody_to_follow():
    project = laid(ring(1, 4))
    hand = {name: project.placement(name) for name in project.panel_names}
    assert Followers(project, Garment.of(project), hand).places(hand) == {}
