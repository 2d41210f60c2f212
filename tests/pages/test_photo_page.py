"""The way in from a photograph: corners marked or typed, outlines traced behind the page, pieces made of them."""

import numpy as np
import pytest
from PIL import Image, ImageDraw
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.pages.import_page import ImportPage
from app.pages.photo_page import PhotoPage
from core.files.photo_in import read_photo
from core.swatch.scale import Corners
from pages_hands import clicked, typed

PX_PER_MM = 2.0
SHEET = [(60, 80), (60 + 594, 80), (60 + 594, 80 + 420), (60, 80 + 420)]
"""Corners of an A4 sheet lying across, 2 px to the mm."""
GORE = [(820, 100), (1000, 100), (1140, 900), (700, 900)]


@pytest.fixture
def photograph(tmp_path):
    image = Image.new("L", (1300, 1000), 60)
    draw = ImageDraw.Draw(image)
    for shape in (SHEET, GORE):
        draw.polygon(shape, fill=215)
    path = tmp_path / "table.png"
    image.convert("RGB").save(path)
    return path


def until_idle(page, qtbot):
    qtbot.waitUntil(lambda: not page.jobs.busy, timeout=60_000)


@pytest.fixture
def page(window, photograph, qtbot) -> PhotoPage:
    window.actions_by_id["photograph"].trigger()
    page = window.ways.page
    assert "Open a photograph" in page.verdict.text()
    page.open(photograph)
    assert page.jobs.busy
    until_idle(page, qtbot)
    yield page
    window.ways.leave_all()


def place(page, corner) -> QPoint:
    return page.photo._shown(corner).toPoint()


def mark(page) -> None:
    for corner in SHEET:
        QTest.mouseClick(page.photo, Qt.MouseButton.LeftButton, pos=place(page, corner))


def test_corners_are_marked_corrected_by_keys_and_numbers_and_the_outline_is_traced(page, window, photograph, qtbot):
    assert "Mark 4 more corners" in page.verdict.text()
    mark(page)
    assert "Now trace" in page.verdict.text()
    assert np.allclose(page.photo.marks, SHEET, atol=3)
    QTest.keyClick(page.photo, Qt.Key.Key_2)
    before = page.photo.marks[1]
    QTest.keyClick(page.photo, Qt.Key.Key_Right)
    assert page.photo.marks[1] == (before[0] + 1, before[1])
    for row, corner in zip(page.form.places.rows, SHEET, strict=True):
        for entry, value in zip(row, corner, strict=True):
            typed(entry, str(value))
    assert np.allclose(page.photo.marks, SHEET)
    clicked(page.form.trace)
    until_idle(page, qtbot)
    assert "1 outline traced" in page.verdict.text()
    assert "mm of the traced one" in page.findings.list.item(0).text()
    wanted = read_photo(photograph, Corners(tuple(SHEET), 297, 210)).outlines[0]
    clicked(page.make)
    pieces = window.ways.page
    assert isinstance(pieces, ImportPage)
    assert abs(pieces._pieces.drawing.outlines[0].area_mm2) == pytest.approx(abs(wanted.area_mm2))
    edges = {edge.name for edge in pieces.project.pieces[0].edges}
    assert edges == {"waist", "right", "hem", "left"}
    assert abs(wanted.area_mm2) == pytest.approx((180 + 440) / 2 * 800 / PX_PER_MM**2, rel=0.01)
    QTest.keyClick(pieces, Qt.Key.Key_Escape)
    assert window.ways.page is page


def test_what_can_not_be_traced_is_said_and_leads_on(page, qtbot, tmp_path):
    for row_mark in (SHEET[0], SHEET[1], SHEET[3], SHEET[2]):
        QTest.mouseClick(page.photo, Qt.MouseButton.LeftButton, pos=place(page, row_mark))
    clicked(page.form.trace)
    assert "go round no rectangle" in page.verdict.text()
    assert not page.make.isEnabled()
    broken = tmp_path / "broken.png"
    broken.write_bytes(b"nothing")
    page.open(broken)
    until_idle(page, qtbot)
    assert "no picture" in page.verdict.text()
    assert str(tmp_path) not in page.verdict.text()


def test_a_mark_that_is_moved_is_seen_enlarged(page):
    mark(page)
    page.photo.setFocus()
    before = page.photo.grab().toImage()
    page.photo.clearFocus()
    after = page.photo.grab().toImage()
    assert before != after


def test_leaving_while_a_picture_is_read_leaves_nothing_behind(page, window, photograph):
    page.open(photograph)
    QTest.keyClick(page, Qt.Key.Key_Escape)
    assert window.ways.page is None
