"""The window as a whole: names, keys, wires, the border against the unexpected."""

import sys
from operator import attrgetter

import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QKeySequence, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QComboBox, QDoubleSpinBox, QLabel, QProgressBar

from app.action_table import TABLE
from app.key_sheet import KeySheet
from app.safekeeping.border import guard
from app.start.start_card import StartCard
from conftest import SAMPLES
from core.files.project_file import read_project


def test_every_key_stands_for_one_action(window):
    keys = [QKeySequence(key).toString() for row in TABLE for key in row.keys.split("; ") if key]
    assert len(keys) == len(set(keys))
    assert all(keys)


def test_every_action_is_in_the_menus(window):
    in_menus = {action for menu in window.menuBar().actions() for action in menu.menu().actions()}
    assert set(window.actions_by_id.values()) <= in_menus


def test_every_action_has_something_to_do(window):
    for row in TABLE:
        assert callable(attrgetter(row.slot)(window)), row.id


def test_the_sheet_of_keys_shows_every_key(window, qtbot):
    sheet = KeySheet(window)
    qtbot.addWidget(sheet)
    shown = {label.text() for label in sheet.findChildren(QLabel)}
    assert {row.keys.replace("; ", ", ") for row in TABLE if row.keys} <= shown


def test_whatever_can_be_used_has_an_accessible_name(skirt):
    for kind in (QAbstractButton, QComboBox, QDoubleSpinBox, QProgressBar):
        for widget in skirt.findChildren(kind):
            if not widget.objectName().startswith("qt_") and widget.isVisibleTo(skirt):
                named = widget.accessibleName() or (isinstance(widget, QAbstractButton) and widget.text())
                assert named, widget


def test_picking_a_seam_selects_its_panels_and_opens_the_close_up(skirt):
    skirt.desk.show_garment()
    skirt.desk.table.view.selectRow(2)
    seam = skirt.document.seam
    assert seam >= 0
    assert set(skirt.document.selection) == set(skirt.document.garment.seams[seam].panels)
    assert skirt.desk.pictures.currentWidget() is skirt.desk.places["opened"]
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Escape)
    assert skirt.document.seam == -1


def test_a_click_on_a_number_picks_its_seam(skirt, mouse):
    edge = next(edge for edges in skirt.desk.view.scene_here.edges for edge in edges if edge.badge.isVisible())
    at = skirt.desk.view.viewportTransform().map(edge.badge.pos()) + edge.badge.boundingRect().center()
    mouse.press(at)
    mouse.release(at)
    picked = skirt.document.seam
    view = skirt.desk.view
    badges = {b.index for es in view.scene_here.edges for b in (e.badge for e in es) if _under(view, b, at)}
    assert picked in badges


def _under(view, badge, at: QPointF) -> bool:
    return badge.isVisible() and badge.boundingRect().contains(at - view.viewportTransform().map(badge.pos()))


def test_keys_walk_through_the_seams(skirt):
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_N)
    assert skirt.document.seam == 0
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_N, Qt.KeyboardModifier.ShiftModifier)
    assert skirt.document.seam == len(skirt.document.garment.seams) - 1


def test_the_wheel_zooms_at_the_cursor(skirt):
    view = skirt.desk.view
    at = QPointF(310, 240)
    before, scale = view.viewportTransform().inverted()[0].map(at), view.scale_px
    turn = QWheelEvent(
        at,
        view.viewport().mapToGlobal(at),
        QPoint(),
        QPoint(0, 360),
        Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier,
        Qt.ScrollPhase.NoScrollPhase,
        False,
    )
    QApplication.sendEvent(view.viewport(), turn)
    after = view.viewportTransform().inverted()[0].map(at)
    assert view.scale_px == pytest.approx(scale * 1.25**3)
    assert abs(after.x() - before.x()) * view.scale_px <= 1
    assert abs(after.y() - before.y()) * view.scale_px <= 1


def test_fit_shows_everything(skirt):
    view = skirt.desk.view
    view.true_size()
    assert view.scale_px == pytest.approx(view.physicalDpiX() / 25.4)
    QTest.keyClick(view, Qt.Key.Key_F)
    assert view.seen().contains(view.scene_here.laid_rect())


def test_the_middle_button_pans(skirt, mouse):
    before = skirt.desk.view.seen().topLeft()
    mouse.drag(QPointF(200, 200), QPointF(50, -30), button=Qt.MouseButton.MiddleButton)
    moved = (skirt.desk.view.seen().topLeft() - before) * skirt.desk.view.scale_px
    assert moved.x() == pytest.approx(-50, abs=2)
    assert moved.y() == pytest.approx(30, abs=2)


def test_only_the_panels_of_the_cloth_shown_are_there(window, tmp_path, harbour_skirt):
    text = harbour_skirt.read_text(encoding="utf-8")
    other = text.replace('"cloths": [', '"cloths": [{"id": "calico", "name": "Calico", "width": 900.0},', 1)
    at = other.index('"id": "back"')
    other = other[:at] + other[at:].replace('"cloth": "ticking"', '"cloth": "calico"', 1)
    path = tmp_path / "two cloths.stripewright"
    path.write_text(other, encoding="utf-8")
    project = read_project(path)
    window.filing.open_path(path)
    chooser = window.desk.inspector.cloths
    assert not chooser.isHidden()
    for index in range(chooser.count()):
        chooser.setCurrentIndex(index)
        chooser.activated.emit(index)
        shown = set(window.desk.view.scene_here.panels)
        assert shown == {name for name in project.panel_names if project.cloth_of(name).id == chooser.currentData()}
        assert shown


def test_the_unexpected_is_one_line_and_the_work_is_still_there(skirt, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    guard(skirt)
    kept = skirt.document.kept
    try:
        raise RuntimeError("an\nodd thing")
    except RuntimeError as error:
        sys.excepthook(type(error), error, error.__traceback__)
    assert "RuntimeError: an odd thing" in skirt.messages.text
    assert "still here" in skirt.messages.text
    assert skirt.document.kept is kept


def test_light_and_dark_dress_the_same_window(skirt):
    light = skirt.desk.view.backgroundBrush().color()
    skirt.actions_by_id["dark"].setChecked(True)
    dark = skirt.desk.view.backgroundBrush().color()
    assert dark.lightness() < light.lightness()
    skirt.actions_by_id["dark"].setChecked(False)
    assert skirt.desk.view.backgroundBrush().color() == light


def test_without_a_project_the_window_offers_what_to_do_next(window):
    assert window.pages.currentWidget() is window.start
    texts = {button.text() for button in window.start.findChildren(QAbstractButton)}
    assert {"Open a project…", "Harbour skirt", "Pier parasol"} <= texts


def test_a_sample_opens_side_by_side_needs_no_saving_and_says_what_comes_next(window, qtbot):
    card = next(one for one in window.start.findChildren(QAbstractButton) if one.text() == "Harbour skirt")
    QTest.mouseClick(card, Qt.MouseButton.LeftButton)
    document = window.document
    assert set(document.kept.placements) == set(document.kept.panel_names)
    assert window.desk.status.faults.text() == "Can be cut as it lies"
    assert not window.isWindowModified()
    document.undo.undo()
    assert not document.kept.placements
    match = next(one for one in window.messages.findChildren(QAbstractButton) if one.text() == "Match stripes")
    QTest.mouseClick(match, Qt.MouseButton.LeftButton)
    qtbot.waitUntil(lambda: not window.jobs.busy, timeout=60_000)
    assert document.measurement.rms_mm < 1.3


def test_every_sample_says_what_it_shows_and_shows_its_cloth(window):
    cards = window.start.findChildren(StartCard)
    list(window.start.show_cloths())
    samples = [card for card in cards if not card.picture.isNull()]
    assert len(samples) == len(list(SAMPLES.glob("*.stripewright")))
    assert all(card.accessibleDescription() for card in cards)


@pytest.mark.parametrize("path", sorted(SAMPLES.glob("*.stripewright")), ids=lambda path: path.stem)
def test_no_sample_opens_on_a_heap(window, path):
    window.open_sample(path)
    assert not window.desk.unplaced.isVisible()
    assert not window.desk.heaped.isVisible()
    assert "overlap" not in window.desk.status.faults.text()
