"""The page that reads a repeat from a picture: marks, the repeat found, corrections by hand, one undo step."""

import pytest
from PIL import Image
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest

from app.pages.swatch_form import CORNERS, DPI
from swatch.made import Made, picture, plaid

CLOTH = Made(20, ((5, 5, "#23304d"), (13, 2, "#b8282e")), size=(600, 400), angle_deg=1.5, noise=4, even=False)


@pytest.fixture
def page(skirt, tmp_path):
    path = tmp_path / "cloth.png"
    Image.fromarray(picture(CLOTH)).save(path)
    skirt.ways.repeat_from_picture()
    page = skirt.ways.page
    page.open(path)
    return page


def click(page, x: float, y: float) -> None:
    place = page.photo._shown((x, y))
    QTest.mouseClick(page.photo, Qt.MouseButton.LeftButton, pos=QPoint(round(place.x()), round(place.y())))


def by_resolution(page) -> None:
    page.form.way.entry.show_value(DPI)
    page.form.dpi.entry.show_value(127.0)
    page.form.find.click()


def test_two_marks_on_a_ruler_give_the_scale(page):
    assert not page.form.find.isEnabled()
    for x in (50, 550):
        click(page, x, 200)
    page.form.apart.entry.setText("10 cm")
    page.form.find.click()
    assert page.form.width.entry.read() == pytest.approx(20, abs=0.15)
    assert page.make.isEnabled()


def test_arrow_keys_move_the_last_mark_by_a_pixel(page):
    click(page, 100, 100)
    (x, y) = page.photo.marks[0]
    QTest.keyClick(page.photo, Qt.Key.Key_Right)
    QTest.keyClick(page.photo, Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    assert page.photo.marks[0] == pytest.approx((x + 1, y - 10))


def test_four_corners_are_asked_for(page):
    page.form.way.entry.show_value(CORNERS)
    for x, y in ((50, 50), (550, 50), (550, 350), (50, 350), (300, 200)):
        click(page, x, y)
    assert len(page.photo.marks) == 4
    page.form.wide.entry.show_value(100.0)
    page.form.high.entry.show_value(60.0)
    page.form.find.click()
    assert page.form.width.entry.read() == pytest.approx(20, abs=0.15)


def test_the_repeat_found_is_used_after_correction_and_can_be_undone(page, skirt):
    before = skirt.document.kept
    by_resolution(page)
    assert page.form.width.entry.read() == pytest.approx(20, abs=0.02)
    page.form.width.entry.show_value(20.5)
    page.make.click()
    assert skirt.ways.page is None
    after = skirt.document.kept
    assert after.cloths[0].repeat.width == 20.5
    assert after.cloths[0].repeat.origin == before.cloths[0].repeat.origin
    assert [stripe.width for stripe in after.cloths[0].repeat.stripes] == pytest.approx([5, 2], abs=0.1)
    skirt.document.undo.undo()
    assert skirt.document.kept == before


def test_a_wrong_correction_and_a_picture_without_stripes_are_told(page, tmp_path):
    by_resolution(page)
    page.form.width.entry.setText("nothing")
    assert not page.make.isEnabled()
    plain = tmp_path / "plain.png"
    Image.new("RGB", (300, 200), "#e9e1cf").save(plain)
    page.open(plain)
    by_resolution(page)
    assert "no stripe stands out" in page.verdict.text().lower()
    assert not page.make.isEnabled()
    (tmp_path / "broken.png").write_bytes(b"nothing")
    page.open(tmp_path / "broken.png")
    assert "no picture" in page.form.file_note.text()


def drag(page, start: tuple[float, float], end: tuple[float, float]) -> None:
    places = [QPoint(round(at.x()), round(at.y())) for at in (page.photo._shown(start), page.photo._shown(end))]
    QTest.mousePress(page.photo, Qt.MouseButton.LeftButton, pos=places[0])
    QTest.mouseMove(page.photo, places[1])
    QTest.mouseRelease(page.photo, Qt.MouseButton.LeftButton, pos=places[1])


def test_a_part_of_the_picture_is_dragged_or_typed_and_can_be_let_go(page):
    page.form.part.add_button.click()
    drag(page, (100, 60), (500, 300))
    left, top, right, bottom = page.form.read_part()
    assert (left, top, right, bottom) == pytest.approx((100, 60, 500, 300), abs=3)
    by_resolution(page)
    assert page.form.width.entry.read() == pytest.approx(20, abs=0.1)
    assert page._swatch.repeats == pytest.approx((right - left) * 0.2 / 20, abs=0.3)
    page.form.part.rows[0][2].setText("50")
    assert "no area" in page.form.part.note.text()
    page.form.part.take_out(0)
    assert page.form.read_part() is None
    assert page.form.part.add_button.isVisible()


def test_one_comes_nearer_at_the_cursor_and_marks_stay_on_their_places(page):
    click(page, 150, 200)
    mark = page.photo.marks[0]
    before = page.photo._shown(mark)
    page.photo.zoom(3.0, before)
    after = page.photo._shown(mark)
    assert (after.x(), after.y()) == pytest.approx((before.x(), before.y()), abs=0.01)
    click(page, 250, 210)
    assert page.photo.marks[1] == pytest.approx((250, 210), abs=1)
    QTest.keyClick(page.photo, Qt.Key.Key_0)
    assert page.photo._zoom == 1.0


def test_by_keys_one_comes_nearer_looks_aside_marks_and_chooses_the_part(page):
    photo, control = page.photo, Qt.KeyboardModifier.ControlModifier
    for key in (Qt.Key.Key_Plus, Qt.Key.Key_Plus, Qt.Key.Key_Plus):
        QTest.keyClick(photo, key)
    before = photo._place(photo.rect().center().toPointF())
    QTest.keyClick(photo, Qt.Key.Key_Right, control)
    QTest.keyClick(photo, Qt.Key.Key_Up, control)
    middle = photo._place(photo.rect().center().toPointF())
    assert middle[0] > before[0] + 20
    assert middle[1] < before[1] - 10
    QTest.keyClick(photo, Qt.Key.Key_Return)
    assert photo.marks[0] == pytest.approx(middle, abs=2)
    page.form.part.add_button.click()
    QTest.keyClick(photo, Qt.Key.Key_Return)
    left, top, right, bottom = page.form.read_part()
    assert left < middle[0] < right < 600
    assert top < middle[1] < bottom
    assert right - left < 600 * 0.8
    by_resolution(page)
    assert page.form.width.entry.read() == pytest.approx(20, abs=0.05)


def test_keys_look_no_further_than_the_picture_goes(page):
    for _ in range(40):
        QTest.keyClick(page.photo, Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier)
    assert page.photo._place(page.photo.rect().center().toPointF())[0] == pytest.approx(0, abs=2)
    assert page.photo._room().left() <= page.photo.width() / 2 + 2


def test_stripes_and_bars_of_a_plaid_are_both_shown_corrected_and_used(page, skirt, tmp_path):
    stripes = Made(24, ((6, 5, "#23304d"), (16, 2, "#b8282e")), size=(560, 420), angle_deg=1, noise=3, even=False)
    pixels = plaid(stripes, Made(18, ((4, 3, "#3f7d45"), (12, 1.6, "#b8282e"))), 2.0)
    Image.fromarray(pixels).save(tmp_path / "plaid.png")
    page.open(tmp_path / "plaid.png")
    by_resolution(page)
    form = page.form
    assert form.width.entry.read() == pytest.approx(24, abs=0.02)
    assert form.skew.entry.read() == pytest.approx(2, abs=0.1)
    form.width.entry.show_value(24.5)
    form.way_across.entry.setCurrentIndex(1)
    assert form.width.entry.read() == pytest.approx(18, abs=0.02)
    form.width.entry.show_value(18.25)
    form.skew.entry.show_value(1.5)
    page.make.click()
    cloth = skirt.document.kept.cloths[0]
    assert (cloth.repeat.width, cloth.crosswise.width, cloth.weft_skew_percent) == (24.5, 18.25, 1.5)


def test_what_was_found_may_be_the_bars(page, skirt):
    by_resolution(page)
    page.form.way_across.entry.show_value("crosswise")
    before = skirt.document.kept.cloths[0]
    page.make.click()
    after = skirt.document.kept.cloths[0]
    assert after.repeat == before.repeat
    assert after.crosswise.width == pytest.approx(20, abs=0.02)
