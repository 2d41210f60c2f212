"""Strips on the straight grain and on the bias, against the arithmetic of the trade."""

import math

import numpy as np
import pytest
from shapely.geometry import Polygon

from core.derive.findings import find_odd
from core.derive.strips import bias_selvedge_mm, longest_bias_mm, strip_pieces
from core.model.cloth import Cloth
from core.model.panel import panels_of
from core.model.project import Strip
from skirts import changed, full_skirt

INCH = 25.4


def strip(**keys: object) -> Strip:
    return Strip(**{"id": "s", "length": 500.0, "width": 40.0, "number": 1, "cloth": "main", **keys})


def outline(one: Strip) -> Polygon:
    (panel,) = panels_of(strip_pieces(one)[0])
    return Polygon(panel.cut_ring)


def test_a_straight_strip_is_a_rectangle_along_the_cloth():
    assert outline(strip()).bounds == (0, 0, 40, 500)
    assert outline(strip()).area == pytest.approx(500 * 40)


def test_an_allowance_goes_all_round():
    assert outline(strip(allowance=6)).area == pytest.approx(512 * 52)


def test_a_bias_strip_takes_root_two_of_its_width_of_selvedge():
    (x0, y0, x1, y1) = outline(strip(grain="bias")).bounds
    assert x1 - x0 == pytest.approx(500 / math.sqrt(2), abs=1e-5)
    assert y1 - y0 == pytest.approx(500 / math.sqrt(2) + 40 * math.sqrt(2), abs=1e-5)
    assert bias_selvedge_mm(40) == pytest.approx(56.57, abs=0.005)


def test_a_bias_strip_keeps_its_width_square_across():
    (panel,) = panels_of(strip_pieces(strip(grain="bias"))[0])
    along = np.array([1, 1]) / math.sqrt(2)
    across = panel.net_ring @ np.array([along[1], -along[0]])
    assert np.ptp(across) == pytest.approx(40, abs=1e-5)
    assert math.dist(*panel.net["upper side"]) == pytest.approx(500, abs=1e-5)


def test_a_bias_strip_across_54_inches_of_cloth_is_76_37_inches_long():
    """Arithmetic: 54 in times the square root of two."""
    cloth = Cloth(id="main", width=54 * INCH + 20, selvedge=(10, 10))
    assert longest_bias_mm(cloth) / INCH == pytest.approx(76.37, abs=0.005)
    (x0, _, x1, _) = outline(strip(grain="bias", length=longest_bias_mm(cloth))).bounds
    assert (x1 - x0) / INCH == pytest.approx(54, abs=1e-5)


def test_a_square_of_36_inches_holds_648_inches_of_two_inch_bias():
    """Arithmetic: a bias strip covers its length times its width, whatever the slant of its ends."""
    assert outline(strip(grain="bias", length=648 * INCH, width=2 * INCH)).area == pytest.approx(
        (36 * INCH) ** 2, rel=1e-7
    )


def test_a_placket_strip_and_a_belt():
    """Ingalls c. 1911: a placket strip is twice the depth long, cut 2 1/2 in wide; a belt is the waist and 1 in."""
    depth, waist = 10 * INCH, 28 * INCH
    placket, belt = strip(length=2 * depth, width=2.5 * INCH), strip(length=waist + INCH, width=4 * INCH)
    assert outline(placket).bounds[2:] == pytest.approx((63.5, 508.0))
    assert outline(belt).bounds[3] == pytest.approx(736.6)


def test_every_copy_of_a_strip_is_a_piece():
    assert [piece.id for piece in strip_pieces(strip(number=3))] == ["s 1", "s 2", "s 3"]
    assert [piece.id for piece in strip_pieces(strip())] == ["s"]


def test_a_bias_strip_longer_than_the_cloth_gives_is_found():
    project = full_skirt()
    assert find_odd(project) == ()
    long = changed(project, strips=(strip(cloth="sateen", grain="bias", length=2500),))
    (finding,) = find_odd(long)
    assert "1957 mm in one length" in str(finding)
