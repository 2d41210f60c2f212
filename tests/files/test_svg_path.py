"""SVG path data against svgpathtools, a general-purpose library."""

import math

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import LineString, Point
from svgpathtools import parse_path

from core.errors import BadInput
from core.files.svg_path import subpaths_of
from core.geometry.beziers import flattened, path_data

number = st.integers(-4000, 4000).map(lambda n: n / 8)


def points_of(path, count=400):
    return [path.point(t) for t in np.linspace(0, 1, count)]


def curve_length(subpath):
    return sum(part.length(error=1e-7) for part in parse_path(path_data(subpath.segments)))


def farthest(drawn, path):
    line = LineString(drawn)
    return max(line.distance(Point(p.real, p.imag)) for p in points_of(path))


@given(
    start=st.tuples(number, number),
    radii=st.tuples(st.integers(8, 4000), st.integers(8, 4000)).map(lambda r: (r[0] / 8, r[1] / 8)),
    tilt=st.integers(-180, 180),
    large=st.booleans(),
    positive=st.booleans(),
    step=st.tuples(number, number).filter(lambda s: math.hypot(*s) > 1),
)
def test_arcs_become_cubics_within_five_thousandths_of_a_millimetre(start, radii, tilt, large, positive, step):
    data = f"M {start[0]} {start[1]} a {radii[0]} {radii[1]} {tilt} {large:d} {positive:d} {step[0]} {step[1]}"
    (subpath,) = subpaths_of(data, 1.0)
    assert not subpath.closed
    assert farthest(flattened(subpath.segments), parse_path(data)[0]) < 0.005


def test_an_arc_is_as_long_as_it_is_on_paper():
    (subpath,) = subpaths_of("M 500 0 A 500 500 0 0 1 0 500", 1.0)
    assert curve_length(subpath) == pytest.approx(math.pi * 250, abs=1e-3)


def test_arcs_are_finer_where_the_drawing_is_enlarged():
    small, large = (subpaths_of("M 5 0 A 5 5 0 0 1 0 5", scale)[0] for scale in (1.0, 400.0))
    assert len(large.segments) > len(small.segments)


def test_an_arc_that_does_not_reach_is_enlarged_and_one_without_radius_is_straight():
    (subpath,) = subpaths_of("M 0 0 A 10 10 0 0 1 100 0", 1.0)
    assert curve_length(subpath) == pytest.approx(math.pi * 50, abs=1e-3)
    (straight,) = subpaths_of("M 0 0 A 0 10 0 0 1 100 0", 1.0)
    assert straight.segments == (((0, 0), (100, 0)),)


EVERY_COMMAND = (
    "m 10,20 l 30-5 40 10 h 20 H 90 v 15 V 80 c 5 10 15 10 20 0 s 15-12 20 0 S 160 60 150 40 "
    "q 10-20 20 0 t 20 0 T 240 90 C 250 100 260 120 270 100 Q 280 90 290 100 "
    "a25,10 30 1129,4A 20 20 0 0 0 300 50 L 1e1.5"
)


def test_all_commands_absolute_and_relative_draw_what_the_reference_draws():
    (subpath,) = subpaths_of(EVERY_COMMAND, 1.0)
    path = parse_path(EVERY_COMMAND)
    drawn = flattened(subpath.segments)
    assert max(farthest([drawn[0], *drawn], part) for part in path) < 0.005
    assert curve_length(subpath) == pytest.approx(sum(part.length(error=1e-6) for part in path), abs=0.005)


def test_a_closed_part_is_followed_by_one_that_starts_where_it_started():
    parts = subpaths_of("M 10 10 h 20 v 20 z l 5 -5 M 100 100 L 120 100 120 120 Z m 5 5 h 3", 1.0)
    assert [part.closed for part in parts] == [True, False, True, False]
    assert parts[1].segments == (((10, 10), (15, 5)),)
    assert parts[3].segments == (((105, 105), (108, 105)),)


@pytest.mark.parametrize(
    ("data", "says"),
    [
        ("L 1 2", "'L'"),
        ("10 20", "where a command belongs"),
        ("M 1 2 X 3", "'X'"),
        ("M 1 2 L 3", "'nothing' for a number"),
        ("M 1 2 C 1 2 3 4 z", "for a number"),
        ("M 1 2 A 1 1 0 2 0 3 3", "for a number"),
        ("M 1 2 L 1e999 3", "too large"),
        ("M 1 2 L nan 3", "for a number"),
        ("M 0 0 h 5 z 7", "where a command belongs"),
    ],
)
def test_broken_path_data_is_told_in_one_line(data, says):
    with pytest.raises(BadInput) as caught:
        subpaths_of(data, 1.0)
    assert says in str(caught.value)
    assert "\n" not in str(caught.value)
