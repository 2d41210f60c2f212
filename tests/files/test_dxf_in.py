"""DXF drawings written by ezdxf come in within a hundredth of a millimetre."""

import io
import math

import ezdxf
import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon

from core.errors import BadInput
from core.files.pattern_in import drawing_in

NEAR_MM = 0.01


def content(document):
    text = io.StringIO()
    document.write(text)
    return text.getvalue().encode()


def drawing(draw, units=4):
    document = ezdxf.new()
    document.header["$INSUNITS"] = units
    draw(document.modelspace())
    return drawing_in(content(document))


def off(outline, points):
    """The largest distance from points to an outline; points have y upwards, as in the file."""
    line = LineString(outline.points)
    return max(line.distance(Point(x, -y)) for x, y in points)


def test_loose_lines_arcs_and_splines_are_chained_to_one_outline():
    control = [(20, 620), (0, 600), (-10, 500), (-20, 300), (0, 0)]

    def draw(space):
        space.add_line((100, 0), (140, 500))
        space.add_open_spline(control, degree=3)
        space.add_arc((20, 500), 120, 0, 90)
        space.add_line((100, 0), (0, 0))

    (outline,) = drawing(draw).outlines
    assert outline.closed
    spline = ezdxf.math.BSpline(control, order=4)
    known = [(100, 0), (0, 0), (140, 500), *[(p.x, p.y) for p in spline.approximate(200)]]
    known += [(20 + 120 * math.cos(t), 500 + 120 * math.sin(t)) for t in np.linspace(0, math.pi / 2, 100)]
    assert off(outline, known) < NEAR_MM
    assert Polygon(outline.points).is_valid


def test_bulges_are_arcs():
    def draw(space):
        space.add_lwpolyline([(0, 0, 1), (100, 0, 0), (100, 80, -0.5), (0, 80, 0)], format="xyb", close=True)

    (outline,) = drawing(draw).outlines
    half = [(50 + 50 * math.cos(t), 50 * math.sin(t)) for t in np.linspace(math.pi, 2 * math.pi, 100)]
    (middle, _, _, radius) = ezdxf.math.bulge_to_arc((100, 80), (0, 80), -0.5)
    hollow = [(middle.x, middle.y + s * radius) for s in (-1, 1)]
    assert off(outline, half) < NEAR_MM
    assert min(off(outline, [point]) for point in hollow) < NEAR_MM
    assert outline.box == pytest.approx((0, -80, 100, 50), abs=NEAR_MM)
    sagitta = 0.5 * 50
    segment = radius**2 * 2 * math.atan(0.5) - (radius - sagitta) * 50
    assert abs(outline.area_mm2) == pytest.approx(8000 + math.pi * 1250 - segment, abs=1)


def test_old_polylines_circles_and_ellipses():
    def draw(space):
        space.add_polyline2d([(0, 0), (100, 0), (100, 50), (0, 50)], close=True)
        space.add_circle((300, 0), 400)
        space.add_ellipse((0, 1000), (200, 100), 0.5)
        space.add_polyline3d([(900, 0, 5), (1000, 0, 5), (1000, 50, 9)], close=True)

    areas = [abs(outline.area_mm2) for outline in drawing(draw).outlines]
    long = math.hypot(200, 100)
    assert areas == pytest.approx([5000, math.pi * 160000, math.pi * long * long / 2, 2500], rel=1e-4)


def test_large_arcs_keep_within_a_hundredth():
    (circle,) = drawing(lambda space: space.add_circle((0, 0), 3000)).outlines
    assert np.abs(np.hypot(*circle.points.T) - 3000).max() < NEAR_MM


def test_a_rational_spline_follows_its_curve():
    arc = ezdxf.math.rational_bspline_from_arc(radius=500, start_angle=10, end_angle=170)

    def draw(space):
        space.add_spline().apply_construction_tool(arc)
        space.add_line(arc.control_points[0], arc.control_points[-1])

    (outline,) = drawing(draw).outlines
    assert (
        off(outline, [(500 * math.cos(t), 500 * math.sin(t)) for t in np.radians(np.linspace(10, 170, 300))]) < NEAR_MM
    )


def test_entities_with_a_mirrored_plane_lie_where_they_are_seen():
    def draw(space):
        space.add_lwpolyline([(0, 0), (100, 0), (100, 50)], close=True, dxfattribs={"extrusion": (0, 0, -1)})

    (outline,) = drawing(draw).outlines
    assert outline.box == pytest.approx((-100, -50, 0, 0))


def test_inserted_blocks_are_drawn_where_they_come_to_lie():
    def draw(space):
        block = space.doc.blocks.new("GORE")
        block.add_lwpolyline([(0, 0), (100, 0), (100, 50)], close=True)
        space.add_blockref("GORE", (500, 20), dxfattribs={"rotation": 90, "xscale": 2, "yscale": 2})

    (outline,) = drawing(draw).outlines
    assert outline.box == pytest.approx((400, -220, 500, -20))


@pytest.mark.parametrize(("units", "mm"), [(1, 25.4), (2, 304.8), (4, 1.0), (5, 10.0), (6, 1000.0), (14, 100.0)])
def test_the_header_says_the_unit(units, mm):
    (circle,) = drawing(lambda space: space.add_circle((0, 0), 3), units=units).outlines
    assert circle.box[2] == pytest.approx(3 * mm, abs=NEAR_MM)


def test_without_a_unit_millimetres_are_taken_and_said_and_stated_units_win():
    found = drawing(lambda space: space.add_circle((0, 0), 3), units=0)
    assert found.outlines[0].box[2] == pytest.approx(3)
    assert "does not say its unit" in str(found.findings[0])
    document = ezdxf.new()
    document.modelspace().add_circle((0, 0), 3)
    assert drawing_in(content(document), "in").outlines[0].box[2] == pytest.approx(76.2)


def sewn_products(pieces, texts=("UNITS: METRIC",), sew=True, name="Front gore"):
    """The open layout: layer 1 boundary, 4 notches, 7 grain line, 14 sew line (ASTM D6673, from memory)."""
    document = ezdxf.new("R12")
    for block_name, half in pieces:
        block = document.blocks.new(block_name)
        block.add_polyline2d(
            [(0, -20), (0, 20), (500, 20 + half), (500, -20 - half)], close=True, dxfattribs={"layer": "1"}
        )
        if sew:
            lean = half / 500
            inset = 10 * math.hypot(1, lean)
            net = [(8, 20 + 8 * lean - inset), (465, 20 + 465 * lean - inset)]
            ring = [(net[0][0], -net[0][1]), net[0], net[1], (net[1][0], -net[1][1])]
            block.add_polyline2d(ring, close=True, dxfattribs={"layer": "14"})
        block.add_line((50, 0), (400, 0), dxfattribs={"layer": "7"})
        block.add_point((200, 20 + half * 0.4), dxfattribs={"layer": "4"})
        block.add_line((100, 0), (200, 0), dxfattribs={"layer": "8"})
        block.add_text(f"Piece Name: {name} {block_name}", dxfattribs={"layer": "1"})
        document.modelspace().add_blockref(block_name, (0, 0))
    for text in texts:
        document.modelspace().add_text(text)
    return content(document)


def test_blocks_of_the_sewn_products_layout_are_pieces_with_their_marks():
    found = drawing_in(sewn_products([("A", 60), ("B", 80)]))
    assert [outline.label for outline in found.outlines] == ["Front gore A", "Front gore B"]
    front = found.outlines[0]
    assert front.closed
    assert Polygon(front.points).area == pytest.approx((40 + 160) / 2 * 500)
    assert front.grain == pytest.approx(np.array(((50, 0), (400, 0))))
    assert front.notches == ((200, -44),)
    assert front.sew
    assert "internal lines were left out" in str(found.findings[0])


def test_inches_are_told_by_the_text_of_the_layout():
    (piece,) = drawing_in(sewn_products([("A", 6)], ["UNITS: ENGLISH"], sew=False)).outlines
    assert piece.box[2] == pytest.approx(500 * 25.4)


def test_blocks_that_are_not_inserted_are_pieces_all_the_same():
    document = ezdxf.new("R12")
    block = document.blocks.new("LOOSE")
    block.add_polyline2d([(0, 0), (100, 0), (100, 50)], close=True, dxfattribs={"layer": "1"})
    assert [outline.label for outline in drawing_in(content(document)).outlines] == ["LOOSE"]


def test_blocks_with_a_base_point_or_in_rows_lie_where_they_are_put():
    def draw(space):
        block = space.doc.blocks.new("GORE", base_point=(10, 0))
        block.add_lwpolyline([(0, 0), (100, 0), (100, 50)], close=True)
        space.add_blockref("GORE", (0, 0))
        row = space.doc.blocks.new("ROW")
        row.add_lwpolyline([(0, 200), (100, 200), (100, 250)], close=True)
        space.add_blockref("ROW", (0, 0), dxfattribs={"column_count": 2, "column_spacing": 300})

    assert [outline.box[0] for outline in drawing(draw).outlines] == pytest.approx([-10, 0, 300])


def nested_blocks(document, depth):
    document.blocks.new("B0").add_line((0, 0), (1, 1))
    for level in range(1, depth):
        block = document.blocks.new(f"B{level}")
        for _ in range(10):
            block.add_blockref(f"B{level - 1}", (0, 0))
    document.modelspace().add_blockref(f"B{depth - 1}", (0, 0))


def test_a_grid_of_countless_inserts_is_refused():
    def draw(space):
        space.doc.blocks.new("EMPTY")
        space.add_blockref(
            "EMPTY",
            (0, 0),
            dxfattribs={"column_count": 32000, "row_count": 32000, "column_spacing": 9, "row_spacing": 9},
        )

    with pytest.raises(BadInput, match="inserted 1024000000 times"):
        drawing(draw)


@pytest.mark.parametrize("depth", [7, 30])
def test_blocks_that_multiply_are_refused(depth):
    document = ezdxf.new()
    nested_blocks(document, depth)
    with pytest.raises(BadInput, match=r"entities|too deep"):
        drawing_in(content(document))


def test_thousands_of_lines_are_chained_quickly_and_exactly():
    def draw(space):
        corners = [(1000 * math.cos(t), 1000 * math.sin(t)) for t in np.linspace(0, 2 * math.pi, 3001)[:-1]]
        for a, b in zip(corners[::-1], corners[:1] + corners[:0:-1], strict=True):
            space.add_line(a, b)

    (outline,) = drawing(draw).outlines
    assert len(outline.segments) == 3000
    assert abs(outline.area_mm2) == pytest.approx(1500 * 1e6 * math.sin(2 * math.pi / 3000), rel=1e-6)
