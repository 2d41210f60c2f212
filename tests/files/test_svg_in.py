"""SVG drawings written by hand come in at the size and place at which they stand on paper."""

import math

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from core.errors import BadInput
from core.files.pattern_in import drawing_in
from core.files.project_file import read_project
from core.model.panel import panels_of

SVG = '<svg xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink" {}>{}</svg>'
A4 = 'width="210mm" height="297mm" viewBox="0 0 210 297"'


def outlines(body, head=A4, units=None):
    return drawing_in(SVG.format(head, body).encode(), units).outlines


def box(outline):
    return pytest.approx(outline.box, abs=0.01)


@pytest.mark.parametrize(
    ("head", "mm"),
    [
        (A4, 1.0),
        ('width="21cm" height="29.7cm" viewBox="0 0 2100 2970"', 0.1),
        ('width="8.5in" height="11in" viewBox="0 0 8.5 11"', 25.4),
        ('width="72pt" height="144pt" viewBox="0 0 72 144"', 25.4 / 72),
        ('width="96px" height="96px"', 25.4 / 96),
        ('width="100" height="100" viewBox="0 0 50 50"', 2 * 25.4 / 96),
        ('viewBox="0 0 500 500"', 25.4 / 96),
    ],
)
def test_units_and_view_boxes_give_millimetres(head, mm):
    (square,) = outlines('<path d="M 2 3 H 6 V 8 H 2 Z"/>', head)
    assert box(square) == (2 * mm, 3 * mm, 6 * mm, 8 * mm)


def test_a_view_box_that_does_not_start_at_zero_and_has_another_shape_is_centred():
    head = 'width="200mm" height="100mm" viewBox="-10 -10 20 20"'
    (square,) = outlines('<rect x="-10" y="-10" width="20" height="20"/>', head)
    assert box(square) == (50, 0, 150, 100)
    (wide,) = outlines('<rect x="-10" y="-10" width="20" height="20"/>', head + ' preserveAspectRatio="none"')
    assert box(wide) == (0, 0, 200, 100)


def test_stated_units_override_what_the_file_says():
    (square,) = outlines('<rect x="1" y="1" width="2" height="2"/>', 'width="96" height="96"', units="in")
    assert box(square) == (25.4, 25.4, 76.2, 76.2)


def test_transforms_nest():
    body = (
        '<g transform="translate(100,100)"><g transform="rotate(90) scale(2, 3)">'
        '<path transform="matrix(1 0 0 1 5 0)" d="M 0 0 H 10 V 10 H 0 Z"/></g></g>'
    )
    (shape,) = outlines(body)
    assert box(shape) == (70, 110, 100, 130)


def test_turning_about_a_point_and_skewing():
    (turned,) = outlines('<rect transform="rotate(180 50 50)" x="10" y="20" width="5" height="5"/>')
    assert box(turned) == (85, 75, 90, 80)
    (skewed,) = outlines('<rect transform="skewX(45)" x="0" y="0" width="10" height="20"/>')
    assert box(skewed) == (0, 0, 30, 20)
    (down,) = outlines('<rect transform="skewY(45)" x="0" y="0" width="10" height="20"/>')
    assert box(down) == (0, 0, 10, 30)


def test_every_shape_encloses_its_area():
    body = (
        '<rect x="0" y="0" width="40" height="20" rx="5"/><circle cx="80" cy="30" r="20"/>'
        '<ellipse cx="150" cy="30" rx="30" ry="10"/><polygon points="0,100 50,100 50,150"/>'
        '<polyline points="100,100 150,100 150,150 100,100"/>'
        '<line x1="0" y1="200" x2="30" y2="200"/><line x1="30" y1="200" x2="30" y2="240"/>'
        '<line x1="30" y1="240" x2="0" y2="200"/>'
    )
    areas = [abs(outline.area_mm2) for outline in outlines(body)]
    expected = [800 - (4 - math.pi) * 25, math.pi * 400, math.pi * 300, 1250, 1250, 600]
    assert areas == pytest.approx(expected, rel=3e-4)


def test_a_round_outline_stays_round_under_a_large_scale():
    (circle,) = outlines('<circle transform="scale(1000)" cx="0.3" cy="0.3" r="0.25"/>', 'width="9in" height="9in"')
    radius = 250 * 25.4 / 96
    rims = np.hypot(*(circle.points - 300 * 25.4 / 96).T)
    assert np.abs(rims - radius).max() < 0.005


def test_copies_and_symbols_come_in_where_they_are_put():
    body = (
        '<defs><rect id="r" width="10" height="20"/>'
        '<symbol id="s" viewBox="0 0 10 10"><path d="M0 0H10V10H0Z"/></symbol>'
        '<path id="unused" d="M0 0H99V99H0Z"/></defs>'
        '<use href="#r" x="30" y="40" transform="translate(1 1)"/>'
        '<use xlink:href="#s" x="100" y="100" width="50" height="50"/>'
        '<svg x="10" y="200" width="20" height="20" viewBox="0 0 2 2"><rect width="1" height="1"/></svg>'
    )
    assert [outline.box for outline in outlines(body)] == [
        pytest.approx((31, 41, 41, 61)),
        pytest.approx((100, 100, 150, 150)),
        pytest.approx((10, 200, 20, 210)),
    ]


def test_what_is_hidden_or_no_line_is_left_out_and_said():
    body = (
        '<g style="display: none"><rect width="50" height="50"/></g><text>Front</text><image href="x.png"/>'
        '<clipPath id="c"><rect width="50" height="50"/></clipPath><rect x="1" y="1" width="9" height="9"/>'
    )
    drawing = drawing_in(SVG.format(A4, body).encode())
    assert len(drawing.outlines) == 1
    assert [str(finding.what) for finding in drawing.findings] == ["text was left out", "a picture was left out"]


def test_names_come_from_labels_titles_ids_and_groups_but_not_from_machines():
    body = (
        '<g xmlns:i="http://example.org/editor" i:label="Skirt"><rect id="rect1234" width="9" height="9"/>'
        '<rect id="front" x="20" width="9" height="9"/>'
        '<rect x="40" width="9" height="9"><title>Back gore</title></rect></g>'
    )
    found = outlines(body)
    assert [outline.label for outline in found] == ["Skirt", "front", "Back gore"]
    assert {outline.layer for outline in found} == {"Skirt"}


def test_lines_end_to_end_in_any_order_and_direction_are_one_outline():
    body = '<path d="M 0 0 L 50 0"/><path d="M 60 90 Q 30 100 0 90"/><path d="M 60 90 L 50 0"/><path d="M 0 90 L 0 0"/>'
    (outline,) = outlines(body)
    assert outline.closed
    ring = [
        (0, 0),
        (50, 0),
        (60, 90),
        *[(60 * (1 - t), 90 + 20 * t * (1 - t)) for t in np.linspace(0, 1, 200)],
        (0, 90),
    ]
    assert Polygon(outline.points).symmetric_difference(Polygon(ring)).area < 0.1


def test_neighbouring_outlines_share_a_line():
    body = (
        '<path d="M 50 0 L 0 0 L 0 90 L 50 90"/><path d="M 50 0 L 50 90"/><path d="M 50 0 L 100 0 L 110 90 L 50 90"/>'
    )
    found = outlines(body)
    assert sorted(abs(outline.area_mm2) for outline in found) == pytest.approx([4500, (50 + 60) / 2 * 90])


def test_a_small_gap_is_closed_and_reported_and_a_wide_one_is_not():
    drawing = drawing_in(SVG.format(A4, '<path d="M 0 0 L 100 0 L 100 100 L 0 100 L 0 0.3"/>').encode())
    assert drawing.outlines[0].closed
    assert "a gap of 0.30 mm at (0.0, 0.3) was closed" in str(drawing.findings[0])
    assert not outlines('<path d="M 0 0 L 100 0 L 100 100 L 0 100 L 0 0.8"/>')[0].closed


def test_marks_are_told_by_their_names():
    body = (
        '<path id="front" d="M 10 10 H 110 V 210 H 10 Z"/><path id="grain" d="M 60 50 V 150"/>'
        '<g id="notches"><path d="M 110 100 h -6"/><path d="M 10 60 h 6"/></g>'
        '<path id="fold" d="M 10 10 V 210"/><path id="stitching" d="M 10 22 H 98 V 170 H 10 Z"/>'
    )
    (front,) = outlines(body)
    assert np.allclose(front.grain, ((60, 50), (60, 150)))
    assert np.allclose(front.notches, ((110, 100), (10, 60)))
    assert np.allclose(front.mirror, ((10, 10), (10, 210)))
    assert Polygon([segment[0] for segment in front.sew]).area == pytest.approx(88 * 148)


def test_a_panel_written_as_svg_path_comes_in_as_it_was(harbour_skirt):
    for piece in read_project(harbour_skirt).pieces:
        data = " ".join(edge.path if n == 0 else edge.path.split(" ", 3)[3] for n, edge in enumerate(piece.edges))
        (outline,) = outlines(f'<path d="{data} Z"/>', 'width="500mm" height="900mm" viewBox="-250 -10 500 900"')
        shift = np.array([250, 10])
        original = LineString(np.vstack([panels_of(piece)[0].net_ring, panels_of(piece)[0].net_ring[:1]]) + shift)
        assert original.hausdorff_distance(LineString(outline.points)) < 0.01
        assert len(outline.segments) >= len(piece.edges)


def test_numbers_without_end_are_refused():
    for value in ("nan", "inf", "1e308", "1e9"):
        with pytest.raises(BadInput):
            outlines(f'<rect width="{value}" height="10"/>')
