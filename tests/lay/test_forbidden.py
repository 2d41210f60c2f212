"""Forbidden intervals against shapely: inside them two shapes overlap, outside they don't."""

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import intersection
from shapely.geometry import Polygon

from core.lay.forbidden import forbidden, merged
from core.lay.shapes import Shape, eased

NEAR_MM = 1e-3


@st.composite
def outlines(draw) -> np.ndarray:
    """Star-shaped outlines, many of them far from convex."""
    count = draw(st.integers(3, 11))
    part = st.floats(0.05, 1.0)
    steps = np.array(draw(st.lists(part, min_size=count, max_size=count)))
    radii = np.array(draw(st.lists(st.floats(8.0, 100.0), min_size=count, max_size=count)))
    angles = draw(st.floats(0, 6.28)) + np.cumsum(steps) / steps.sum() * 2 * np.pi
    return np.stack([radii * np.cos(angles), radii * np.sin(angles)], axis=1)


def overlap_mm2(fixed: np.ndarray, moving: np.ndarray, across: float, along: float) -> float:
    """On a grid: without one, outlines that lie on each other but for the last digit are said not to meet."""
    return intersection(Polygon(fixed), Polygon(moving + np.array([across, along])), grid_size=1e-7).area


@given(outlines(), outlines(), st.floats(-150, 150), st.lists(st.floats(-250, 250), min_size=4, max_size=4))
@settings(max_examples=150, deadline=None)
def test_inside_the_intervals_shapes_overlap_and_outside_they_do_not(fixed, moving, across, places) -> None:
    if not (Polygon(fixed).is_valid and Polygon(moving).is_valid):
        return
    low, high = (ends[0] for ends in forbidden(Shape.of(fixed), Shape.of(moving), np.array([across])))
    finite = np.isfinite(low)
    tried = [*places, *(low[finite] - NEAR_MM), *(high[finite] + NEAR_MM), *((low[finite] + high[finite]) / 2)]
    for along in tried:
        if np.abs(np.concatenate([low[finite], high[finite]]) - along).min(initial=1.0) < NEAR_MM / 2:
            continue
        inside = bool(((low < along) & (along < high)).any())
        assert inside == (overlap_mm2(fixed, moving, across, along) > 1e-12), (along, low, high)


def test_a_square_in_a_bracket_may_lie_inside_it() -> None:
    bracket = np.array([[0, 0], [60, 0], [60, 10], [10, 10], [10, 50], [60, 50], [60, 60], [0, 60]], dtype=float)
    square = np.array([[0, 0], [20, 0], [20, 20], [0, 20]], dtype=float)
    low, high = forbidden(Shape.of(bracket), Shape.of(square), np.array([30.0, 0.0, 60.0]))
    assert low[0].tolist() == [-20.0, 30.0]
    assert high[0].tolist() == [10.0, 60.0]
    assert (low[1, 0], high[1, 0]) == (-20.0, 60.0)
    assert not np.isfinite(low[2]).any()


@settings(deadline=None)
@given(st.lists(st.tuples(st.integers(0, 3), st.integers(-50, 50), st.integers(1, 30)), max_size=12))
def test_merged_intervals_cover_what_the_single_ones_covered(entries) -> None:
    row = np.array([entry[0] for entry in entries], dtype=np.intp)
    start = np.array([entry[1] for entry in entries], dtype=float)
    low, high = merged(start, start + np.array([entry[2] for entry in entries], dtype=float), row, 4)
    for place in np.arange(-51.25, 81, 0.5):
        for r in range(4):
            single = any(e[0] == r and e[1] < place < e[1] + e[2] for e in entries)
            assert single == bool(((low[r] < place) & (place < high[r])).any())


@pytest.mark.parametrize("tolerance", [0.02, 0.5])
def test_an_eased_shape_covers_the_shape_and_little_more(tolerance: float) -> None:
    x = np.linspace(-200, 200, 321)
    hem = np.stack([x, 800 - 0.001 * x**2], axis=1)
    ring = np.concatenate([hem[::-1], [[-40.0, 0.0], [40.0, 0.0]]])
    shape = Shape.of(ring)
    fewer = eased(shape, tolerance)
    assert len(fewer.cuts) < len(shape.cuts) / 2
    parts = []
    for k in range(len(fewer.cuts) - 1):
        (a, b), run = fewer.cuts[k : k + 2], fewer.cuts[k + 1] - fewer.cuts[k]
        low, high = fewer.low[k, 0], fewer.high[k, 0]
        low_b, high_b = low + fewer.low_rate[k, 0] * run, high + fewer.high_rate[k, 0] * run
        parts.append(Polygon([(a, low), (b, low_b), (b, high_b), (a, high)]))
    assert sum(Polygon(ring).intersection(part).area for part in parts) == pytest.approx(Polygon(ring).area, rel=1e-12)
    assert sum(part.area for part in parts) < Polygon(ring).area + 2 * tolerance * 400
