"""A vector page written by reportlab comes in at the size at which it prints (ISO 32000: a point is 1/72 inch)."""

import io

import pypdfium2
import pytest
from reportlab.lib.units import mm
from reportlab.pdfgen import canvas
from shapely.geometry import LineString, Point
from svgpathtools import CubicBezier

from core.errors import BadInput
from core.files.pattern_in import drawing_in

WIDTH, HEIGHT = 600 * mm, 900 * mm


def pdf(*pages, rotation=0):
    out = io.BytesIO()
    sheet = canvas.Canvas(out, pagesize=(WIDTH, HEIGHT))
    for draw in pages:
        draw(sheet)
        sheet.showPage()
    sheet.save()
    return out.getvalue() if rotation == 0 else turned(out.getvalue(), rotation)


def turned(data, rotation):
    out = io.BytesIO()
    document = pypdfium2.PdfDocument(data)
    document[0].set_rotation(rotation)
    document.save(out)
    document.close()
    return out.getvalue()


def gore(sheet):
    """A gore drawn in mm with y upwards from the lower left corner, as PDF has it."""
    path = sheet.beginPath()
    path.moveTo(200 * mm, 800 * mm)
    path.lineTo(300 * mm, 800 * mm)
    path.lineTo(360 * mm, 200 * mm)
    path.curveTo(300 * mm, 180 * mm, 200 * mm, 180 * mm, 140 * mm, 200 * mm)
    path.close()
    sheet.drawPath(path)


def test_points_become_millimetres_with_y_downwards():
    (outline,) = drawing_in(pdf(gore)).outlines
    assert outline.closed
    line = LineString(outline.points)
    for x, y in [(200, 100), (300, 100), (360, 700), (140, 700)]:
        assert line.distance(Point(x, y)) < 0.01
    hem = CubicBezier(360 + 700j, 300 + 720j, 200 + 720j, 140 + 700j)
    assert max(line.distance(Point(hem.point(n / 50).real, hem.point(n / 50).imag)) for n in range(51)) < 0.01


def test_the_page_size_is_known():
    assert drawing_in(pdf(gore)).page == pytest.approx((600, 900), abs=0.01)
    assert drawing_in(pdf(gore, rotation=90)).page == pytest.approx((900, 600), abs=0.01)


@pytest.mark.parametrize(
    ("rotation", "corner"), [(0, (200, 100)), (90, (800, 200)), (180, (400, 800)), (270, (100, 400))]
)
def test_a_turned_page_comes_in_as_it_is_shown(rotation, corner):
    (outline,) = drawing_in(pdf(gore, rotation=rotation)).outlines
    assert LineString(outline.points).distance(Point(*corner)) < 0.01


def test_transforms_and_forms_are_followed():
    def draw(sheet):
        sheet.beginForm("piece")
        sheet.rect(0, 0, 100 * mm, 50 * mm)
        sheet.endForm()
        sheet.translate(100 * mm, 200 * mm)
        sheet.rotate(90)
        sheet.scale(2, 1)
        sheet.doForm("piece")

    (outline,) = drawing_in(pdf(draw)).outlines
    assert outline.box == pytest.approx((50, 500, 100, 700), abs=0.01)


def test_the_page_asked_for_is_read_and_text_is_said_to_be_left_out():
    def other(sheet):
        sheet.rect(10 * mm, 10 * mm, 30 * mm, 40 * mm)
        sheet.drawString(50, 50, "Front")

    data = pdf(gore, other)
    found = drawing_in(data, page=2)
    assert found.outlines[0].box == pytest.approx((10, 850, 40, 890), abs=0.01)
    assert "1 x text left out" in str(found.findings[0])
    with pytest.raises(BadInput, match="there is no page 3"):
        drawing_in(data, page=3)


def test_a_page_of_text_alone_has_no_pattern():
    with pytest.raises(BadInput, match="draws no lines"):
        drawing_in(pdf(lambda sheet: sheet.drawString(50, 50, "Front")))
