"""Cut to net and back. Areas and outlines are compared with shapely's mitred buffers, which work on whole polygons."""

import itertools
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon

from core.errors import BadInput
from core.geometry.offset import filled_bend, offset_edges, shifted
from core.geometry.paths import Points, flatten
from core.geometry.polyline import length

INCH = 25.4


def outline(*corners: tuple[float, float]) -> list[Points]:
    points = [np.array(corner, dtype=float) for corner in corners]
    return [np.vstack(pair) for pair in zip(points, points[1:] + points[:1], strict=True)]


def ring(edges: list[Points]) -> Polygon:
    return Polygon(np.concatenate([edge[:-1] for edge in edges]))


def moved_back(edges: list[Points], distances: list[float]) -> list[Points]:
    return offset_edges(offset_edges(edges, distances), [-by for by in distances])


def farthest_apart(first: list[Points], second: list[Points]) -> float:
    return ring(first).exterior.hausdorff_distance(ring(second).exterior)


def width_at(edges: list[Points], y: float) -> float:
    crossed = []
    for edge in edges:
        for (x0, y0), (x1, y1) in itertools.pairwise(edge):
            if (y0 - y) * (y1 - y) < 0:
                crossed.append(x0 + (x1 - x0) * (y - y0) / (y1 - y0))
    return max(crossed) - min(crossed)


def gore(top: float, hem: float, long: float) -> list[Points]:
    return outline((-top / 2, 0), (top / 2, 0), (hem / 2, long), (-hem / 2, long))


CONVEX = outline((0, 0), (90, -8), (160, 300), (-40, 320))
CONCAVE = outline((0, 0), (120, 0), (120, 80), (70, 90), (75, 150), (140, 160), (150, 300), (-10, 290))
STAR = outline(
    *(((100 - 40 * (k % 2)) * math.cos(k * 0.628), (100 - 40 * (k % 2)) * math.sin(k * 0.628)) for k in range(10))
)
CURVED = [
    flatten("M -40 0 Q 0 9 40 0"),
    flatten("M 40 0 C 60 100 70 300 150 800"),
    flatten("M 150 800 Q 0 850 -150 800"),
    flatten("M -150 800 C -70 300 -60 100 -40 0"),
]


@pytest.mark.parametrize("edges", [CONVEX, CONCAVE, STAR, CURVED], ids=["convex", "concave", "star", "curved"])
@pytest.mark.parametrize("by", [12.0, 5.5, -7.0])
def test_one_allowance_all_round_is_shapely_s_mitred_buffer(edges, by):
    moved = ring(offset_edges(edges, [by] * len(edges)))
    expected = ring(edges).buffer(by, join_style="mitre", mitre_limit=8)
    assert moved.is_valid
    assert moved.area == pytest.approx(expected.area, abs=0.5)
    assert moved.exterior.hausdorff_distance(expected.exterior) < 0.05


@pytest.mark.parametrize("edges", [CONVEX, CONCAVE, STAR, CURVED], ids=["convex", "concave", "star", "curved"])
def test_every_edge_keeps_its_own_allowance(edges):
    distances = [10.0 + 3 * (index % 3) for index in range(len(edges))]
    for edge, moved, by in zip(edges, offset_edges(edges, distances), distances, strict=True):
        line = Polygon(np.vstack([edge, edge[::-1]])).boundary if len(edge) > 2 else None
        middle = moved[1:-1] if len(moved) > 2 else moved.mean(axis=0)[None]
        if line is not None:
            assert all(abs(line.distance(Point(point)) - by) < 0.03 for point in middle)
        else:
            step = (edge[1] - edge[0]) / np.hypot(*(edge[1] - edge[0]))
            out = np.array([step[1], -step[0]])
            assert (moved - edge[0]) @ out == pytest.approx(by)


def test_edges_follow_each_other_without_a_gap():
    moved = offset_edges(CURVED, [12, 15, 40, 15])
    for edge, after in zip(moved, moved[1:] + moved[:1], strict=True):
        assert np.array_equal(edge[-1], after[0])


def test_fifteen_mm_on_both_edges_of_a_leaning_gore_widen_it_by_more_than_thirty():
    """Plane trigonometry: 2 a / cos t; 15 mm at 8.711 degrees (Bennett's side gore, 1914) give 30.35 mm."""
    lean = math.tan(math.radians(8.711))
    edges = gore(127, 127 + 2 * 900 * lean, 900)
    moved = offset_edges(edges, [10, 15, 40, 15])
    assert width_at(moved, 450) - width_at(edges, 450) == pytest.approx(30.35, abs=0.005)


def test_turnings_of_a_front_gore():
    """Prince Browne, Every Woman's Encyclopaedia 1, c. 1911, pp. 637-638: 5 in at the top, 10 in at the hem, 42 in
    long; turnings 1 in at the sides, 1/2 in at the waist, 4 1/2 in at the hem: cut 47 in long and 12 in at the hem."""
    edges = gore(5 * INCH, 10 * INCH, 42 * INCH)
    moved = offset_edges(edges, [0.5 * INCH, INCH, 4.5 * INCH, INCH])
    low, high = ring(moved).bounds[1], ring(moved).bounds[3]
    assert (high - low) / INCH == pytest.approx(47)
    assert width_at(moved, 42 * INCH - 1e-6) / INCH == pytest.approx(10 + 2 / math.cos(math.atan(2.5 / 42)), abs=1e-6)
    assert width_at(moved, 42 * INCH - 1e-6) / INCH == pytest.approx(12, abs=0.01)


def test_nothing_is_added_on_a_fold():
    edges = outline((0, 0), (60, 5), (110, 700), (0, 720))
    moved = offset_edges(edges, [12, 15, 40, 0])
    assert np.abs(moved[3][:, 0]).max() == 0
    assert moved[3][0, 1] > 720 + 39
    assert moved[3][-1, 1] < -11


@pytest.mark.parametrize("lean", [0.0, 3.0, -3.0, 9.0, -9.0])
@pytest.mark.parametrize("allowances", [(15.0, 40.0), (40.0, 15.0)])
def test_edges_that_run_on_into_each_other_meet_in_a_square_step(lean, allowances):
    edges = outline((0, 0), (100, 0), (100 + lean, 200), (100, 400), (0, 400))
    distances = [10.0, *allowances, 15.0, 15.0]
    moved = offset_edges(edges, distances)
    wide = 1 if allowances[0] > allowances[1] else 2
    step = moved[1][-2:] if wide == 1 else moved[2][:2]
    way = (edges[wide][1] - edges[wide][0]) / np.hypot(*(edges[wide][1] - edges[wide][0]))
    assert abs((step[1] - step[0]) @ way) < 1e-9
    turn = 2 * math.atan(abs(lean) / 200)
    assert length(step) == pytest.approx(40 - 15 / math.cos(turn))
    assert ring(moved).is_valid
    back = offset_edges(moved, [-by for by in distances])
    assert all(np.allclose(old[[0, -1]], new[[0, -1]], atol=1e-6) for old, new in zip(edges, back, strict=True))


def test_a_small_turn_is_mitred_where_the_mitre_spares_both_allowances():
    edges = outline((0, 0), (100, 0), (120, 100), (100, 200), (0, 200))
    moved = offset_edges(edges, [10.0, 15.0, 15.5, 10.0, 10.0])
    assert len(moved[1]) == 2
    assert len(moved[2]) == 2


def test_a_corner_too_sharp_to_mitre_is_cut_off_square():
    edges = outline((0, 0), (5, 0), (0, 100))
    moved = offset_edges(edges, [10.0, 10.0, 10.0])
    tip = ring(edges).exterior.distance(Point(ring(moved).exterior.coords[0]))
    assert ring(moved).is_valid
    assert ring(moved).contains(ring(edges))
    assert ring(moved).bounds[3] < 100 + 8 * 10 + 1
    assert tip >= 10 - 1e-9


def test_a_sharp_corner_within_an_edge_is_mitred_as_well():
    edge = np.array([[0.0, 0.0], [50.0, 0.0], [50.0, 80.0]])
    assert shifted(edge, 10.0).tolist() == [[0.0, -10.0], [60.0, -10.0], [60.0, 80.0]]


def test_a_dip_narrower_than_the_allowance_is_drawn_straight_across():
    dip = np.array([[0.0, 0.0], [45.0, 0.0], [50.0, 12.0], [55.0, 0.0], [100.0, 0.0]])
    edges = [dip, *outline((100, 0), (100, 100), (0, 100), (0, 0))[:3]]
    moved = ring(offset_edges(edges, [15.0, 5.0, 5.0, 5.0]))
    assert moved.is_valid
    assert moved.bounds[1] == pytest.approx(-15)
    place, by = filled_bend(dip, 15.0)
    assert place.tolist() == [50.0, 12.0]
    assert by == pytest.approx(Point(50, 12).distance(moved.exterior) - 15, abs=1e-6)


def test_bends_wider_than_the_allowance_are_followed():
    assert all(filled_bend(edge, 15.0) is None for edge in CURVED)


@pytest.mark.parametrize(
    ("edges", "distances", "told"),
    [
        (CONCAVE, [40.0] * 8, "edge 'e4'"),
        (outline((0, 0), (100, 0), (100, 90), (90, 100), (0, 100)), [-30.0] * 5, "edge 'e3'"),
        (outline((0, 0), (100, 0), (100, 20), (0, 20)), [-5.0, -5.0, -25.0, -5.0], "smaller allowances"),
        (outline((0, 0), (100, 0), (100, 20), (0, 20)), [-55.0] * 4, "smaller allowances"),
        (
            outline((0, 0), (40, 0), (40, 80), (44, 80), (44, 0), (90, 0), (90, 100), (0, 100)),
            [8.0] * 8,
            "smaller allowances",
        ),
    ],
    ids=["slot floor", "bevelled corner", "one side eats the other", "all inside out", "slot"],
)
def test_an_allowance_wider_than_a_feature_is_refused_in_one_line(edges, distances, told):
    with pytest.raises(BadInput) as refused:
        offset_edges(edges, distances, [f"e{index + 1}" for index in range(len(edges))])
    assert told in str(refused.value)
    assert "\n" not in str(refused.value)


sizes, bends, flares, side = st.floats(30, 80), st.floats(-15, 25), st.floats(20, 150), st.floats(8, 25)


@settings(max_examples=100, deadline=None)
@given(
    half=sizes,
    bend=bends,
    other=bends,
    flare=flares,
    more=flares,
    dip=st.floats(-1.5, 3),
    by=st.tuples(st.floats(5, 20), side, st.floats(5, 50), side),
)
def test_out_and_in_gives_a_gore_back(half, bend, other, flare, more, dip, by):
    right, left = half + flare, -half - more
    sag = (right - left) / 2 * math.tan((math.atan(flare / 600) + math.atan(more / 600)) / 2)
    edges = [
        flatten(f"M {-half} 0 Q 0 {2 * dip} {half} 0"),
        flatten(f"M {half} 0 C {half + bend} 200 {half + flare / 2 + bend} 500 {right} 800"),
        flatten(f"M {right} 800 Q {(right + left) / 2} {800 + sag} {left} 800"),
        flatten(f"M {left} 800 C {-half - more / 2 + other} 500 {-half + other} 200 {-half} 0"),
    ]
    out = offset_edges(edges, list(by))
    assert ring(out).contains(ring(edges))
    back = moved_back(edges, list(by))
    assert farthest_apart(edges, back) < 0.05
    for edge, again in zip(edges, back, strict=True):
        assert length(again) == pytest.approx(length(edge), abs=0.05)
        assert np.abs(again[[0, -1]] - edge[[0, -1]]).max() < 0.05


@settings(max_examples=150, deadline=None)
@given(
    radii=st.lists(st.floats(20, 200), min_size=4, max_size=24),
    by=st.lists(st.sampled_from([0.0, 3.0, 8.0, 15.0, 40.0]), min_size=4, max_size=4),
    sign=st.sampled_from([1, -1]),
)
def test_an_outline_however_odd_is_moved_soundly_or_refused(radii, by, sign):
    angles = np.linspace(0, 2 * math.pi, len(radii), endpoint=False)
    corners = np.stack([np.array(radii) * np.cos(angles), np.array(radii) * np.sin(angles)], axis=1)
    starts = np.linspace(0, len(radii), 5).astype(int)
    closed = np.vstack([corners, corners[:1]])
    edges = [closed[a : b + 1] for a, b in itertools.pairwise(starts)]
    try:
        moved = offset_edges(edges, [sign * distance for distance in by])
    except BadInput:
        return
    outer, inner = (ring(moved), ring(edges)) if sign > 0 else (ring(edges), ring(moved))
    assert ring(moved).is_valid
    assert outer.buffer(0.03).contains(inner)
