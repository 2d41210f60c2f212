"""Edges sewn together on the sewing page: by lists, by the mouse, as a ring; seams changed; findings trued."""

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication, QPushButton

from core.files.project_file import read_project
from core.geometry.polyline import length, points_at
from core.geometry.transform import placed
from core.model.validate import validate
from core.seams.garment import Garment
from core.seams.walk import walk


def choose(box, ref: str) -> None:
    box.setCurrentIndex(box.findData(ref))
    assert box.currentData() == ref


def seam_item(window, name: str):
    tree = window.desk.sewing.tree
    return next(tree.topLevelItem(i) for i in range(tree.topLevelItemCount()) if tree.topLevelItem(i).text(0) == name)


def on_edge(window, ref: str, share: float = 0.5) -> QPoint:
    """A place of the viewport on an edge."""
    panel, edge = ref.split("/")
    line = window.document.garment.panels[panel].net[edge]
    at = window.document.project.placement(panel)
    (spot,) = placed(points_at(line, [share * length(line)]), at.u, at.v, at.turn_deg, at.turned)
    return window.desk.view.mapFromScene(QPointF(*spot))


def mouse(window, kind, at, button=Qt.MouseButton.NoButton, buttons=Qt.MouseButton.NoButton) -> None:
    port = window.desk.view.viewport()
    place = QPointF(at)
    event = QMouseEvent(kind, place, port.mapToGlobal(place), button, buttons, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(port, event)


def click(window, at) -> None:
    left = Qt.MouseButton.LeftButton
    mouse(window, QEvent.Type.MouseMove, at)
    mouse(window, QEvent.Type.MouseButtonPress, at, left, left)
    mouse(window, QEvent.Type.MouseButtonRelease, at, left)


# --- making seams


def test_two_edges_from_the_lists_make_a_seam_and_it_can_be_taken_back(unsewn, qtbot):
    page, document = unsewn.desk.sewing, unsewn.document
    before = document.kept
    choose(page.bar.one, "side-front.R/front")
    choose(page.bar.other, "front.R/back")
    qtbot.mouseClick(page.bar.sew_button, Qt.MouseButton.LeftButton)
    (seam,) = document.kept.seams
    assert {seam.a, seam.b} == {"front.R/back", "side-front.R/front"}
    assert seam.both_sides
    assert page.tree.seam == seam.name
    assert document.reading.line.sewn.seam == seam
    document.undo_step()
    assert document.kept == before


def test_the_second_list_suggests_the_edge_of_the_nearest_length_that_runs_the_other_way(unsewn):
    page = unsewn.desk.sewing
    for one, other in (
        ("side-front.R/front", "front.R/back"),
        ("front.R/centre", "front.L/centre"),
        ("back.L/front", "side-back.L/back"),
        ("back.L/centre", "back.R/centre"),
    ):
        choose(page.bar.one, one)
        assert page.bar.other.read() == other


def test_by_keyboard_alone(unsewn, qtbot):
    bar = unsewn.desk.sewing.bar
    bar.one.setFocus()
    qtbot.keyClick(bar.one, Qt.Key.Key_Down)
    bar.sew_button.setFocus()
    qtbot.keyClick(bar.sew_button, Qt.Key.Key_Space)
    assert len(unsewn.document.kept.seams) == 1


def test_a_ring_of_gores_is_sewn_in_one_step(unsewn, qtbot, harbour_skirt):
    qtbot.mouseClick(unsewn.desk.sewing.bar.ring_button, Qt.MouseButton.LeftButton)
    sample = read_project(harbour_skirt)
    assert sorted((s.a, s.b) for s in unsewn.document.kept.sewn) == sorted((s.a, s.b) for s in sample.sewn)
    assert unsewn.document.undo.undoText() == "Sew a ring"
    unsewn.document.undo_step()
    assert unsewn.document.kept.seams == ()


def test_edges_clicked_on_the_cloth_are_sewn_together(unsewn):
    unsewn.desk.pick_edges()
    QApplication.processEvents()
    kept, selected = unsewn.document.kept, unsewn.document.selection
    click(unsewn, on_edge(unsewn, "front.R/centre"))
    assert unsewn.desk.sewing.picker.first == "front.R/centre"
    assert (unsewn.document.kept, unsewn.document.selection) == (kept, selected)
    click(unsewn, on_edge(unsewn, "front.L/centre"))
    (seam,) = unsewn.document.kept.seams
    assert {seam.a, seam.b} == {"front.R/centre", "front.L/centre"}
    click(unsewn, on_edge(unsewn, "front.L/centre"))
    assert "sewn already" in unsewn.messages.text
    assert unsewn.desk.sewing.picker.first is None


def test_the_edge_under_the_cursor_lights_up_and_escape_ends_picking(unsewn, qtbot):
    unsewn.desk.pick_edges()
    QApplication.processEvents()
    at = on_edge(unsewn, "back.R/hem")
    before = unsewn.desk.view.grab().toImage()
    mouse(unsewn, QEvent.Type.MouseMove, at)
    assert unsewn.desk.view.grab().toImage() != before
    qtbot.keyClick(unsewn.desk.view, Qt.Key.Key_Escape)
    assert not unsewn.desk.sewing.picker.on
    assert not unsewn.desk.sewing.bar.pick_button.isChecked()
    assert unsewn.desk.view.grab().toImage() == before


def test_leaving_the_page_ends_picking_and_panels_move_again(unsewn):
    unsewn.desk.pick_edges()
    unsewn.desk.show_closeup()
    QApplication.processEvents()
    assert not unsewn.desk.sewing.picker.on
    click(unsewn, on_edge(unsewn, "front.R/centre"))
    assert unsewn.document.selection == ("front.R",)


# --- changing seams


def test_every_key_of_a_seam_is_changed_as_one_step(gores, qtbot):
    page, document = gores.desk.sewing, gores.document
    page.tree.setCurrentItem(seam_item(gores, "s0"))
    form = page.form
    steps = document.undo.count()
    form.name.setText("side front")
    form.name.editingFinished.emit()
    form.weight.setValue(2.5)
    choose(form.join, "top")
    form.seen.tick.click()
    form.seen.end.setValue(500)
    form.open.tick.click()
    form.open.end.setValue(180)
    seam = document.kept.seams[0]
    assert (seam.name, seam.weight, seam.join) == ("side front", 2.5, "top")
    assert seam.seen == (0.0, 500.0)
    assert seam.open == (0.0, 180.0)
    validate(document.kept)
    assert page.tree.seam == "side front"
    while document.undo.index() > steps:
        document.undo_step()
    assert document.kept.seams[0].name == "s0"


def test_a_name_that_another_seam_has_is_refused_and_shown_no_more(gores):
    page = gores.desk.sewing
    page.tree.setCurrentItem(seam_item(gores, "s0"))
    kept = gores.document.kept
    page.form.name.setText("s1")
    page.form.name.editingFinished.emit()
    assert gores.document.kept is kept
    assert "'s1' stands 2 times" in gores.messages.text
    assert page.form.name.text() == "s0"


def test_both_sides_can_be_switched_only_where_there_is_a_mirror_image(gores):
    page, document = gores.desk.sewing, gores.document
    page.tree.setCurrentItem(seam_item(gores, "s0"))
    assert page.form.both.isEnabled()
    page.form.both.click()
    assert len(document.kept.sewn) == 3
    page.sew("c.R/r", "c.L/r")
    assert document.kept.seams[-1].name == "centre front"
    assert not page.form.both.isEnabled()


def test_delete_takes_the_chosen_seam_out(gores, qtbot):
    page = gores.desk.sewing
    page.tree.setFocus()
    page.tree.setCurrentItem(seam_item(gores, "s1"))
    qtbot.keyClick(page.tree, Qt.Key.Key_Delete)
    assert [seam.name for seam in gores.document.kept.seams] == ["s0"]
    assert gores.document.undo.undoText() == "Remove seam s1"


def test_a_seam_picked_elsewhere_is_the_one_shown(gores):
    index = next(i for i, line in enumerate(gores.document.garment.seams) if line.sewn.label == "s1 L")
    gores.document.pick_seam(index)
    assert gores.desk.sewing.tree.seam == "s1"
    assert gores.desk.sewing.form.name.text() == "s1"
    assert gores.document.seam == index


# --- findings


@pytest.mark.parametrize("method", ["Share the difference at the bottom", "Lengthen the shorter edge at the top"])
def test_a_finding_is_trued_by_the_method_chosen_as_one_step(gores, qtbot, method):
    page, document = gores.desk.sewing, gores.document
    item = seam_item(gores, "s0")
    page.tree.setCurrentItem(item.child(0))
    assert "l is 9.0 mm longer" in page.finding.what.text()
    steps, before = document.undo.count(), document.kept
    page.finding.method.setCurrentText(method)
    qtbot.mouseClick(page.finding.do, Qt.MouseButton.LeftButton)
    assert document.undo.count() == steps + 1
    a, b = Garment.of(document.kept).seams[0].edge_lengths
    assert a == pytest.approx(b, abs=0.1)
    assert page.tree.seam == "s0"
    document.undo_step()
    assert document.kept == before


def test_findings_go_as_they_are_trued(gores, qtbot):
    page, document = gores.desk.sewing, gores.document
    for _ in range(20):
        found = [f for f in walk(document.kept, document.garment) if f.remedies]
        if not found:
            break
        items = [page.tree.topLevelItem(i) for i in range(page.tree.topLevelItemCount())]
        item = next(item for item in items if item.childCount())
        page.tree.setCurrentItem(item.child(0))
        qtbot.mouseClick(page.finding.do, Qt.MouseButton.LeftButton)
    assert walk(document.kept, document.garment) == ()
    assert page.figure.text() == "4 seams, nothing to look at"


def test_the_page_reads_nothing_while_it_is_away(gores, monkeypatch):
    gores.desk.show_closeup()
    QApplication.processEvents()
    monkeypatch.setattr("app.sewing.page.walk", lambda *_: pytest.fail("walked while the page was away"))
    gores.document.change("x", gores.document.kept.placed({}))
    gores.desk.sewing.follow()


def test_light_and_dark_and_an_empty_window_show_without_a_word_from_qt(gores):
    for dark in (True, False):
        gores.set_dark(dark)
        assert not gores.grab().isNull()


def test_a_garment_without_seams_offers_to_sew(unsewn, qtbot):
    unsewn.desk.show_closeup()
    QApplication.processEvents()
    offer = unsewn.desk.table.findChild(QPushButton)
    qtbot.mouseClick(offer, Qt.MouseButton.LeftButton)
    assert unsewn.desk.side.currentWidget() is unsewn.desk.places["sewing"]
