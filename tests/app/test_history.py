"""Undo back to the start and redo to the end."""

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app.document import Document
from core.files.project_file import project_from_bytes, project_to_bytes, read_project


def test_undo_to_the_start_and_redo_to_the_end_give_equal_projects(window, harbour_skirt, mouse):
    window.filing.open_sample(harbour_skirt)
    document = window.document
    start = read_project(harbour_skirt)
    window.edits.spread_new()
    mouse.drag(mouse.on("side.R"), QPointF(33, 8))
    QTest.keyClick(window.desk.view, Qt.Key.Key_Right)
    QTest.keyClick(window.desk.view, Qt.Key.Key_BracketRight)
    QTest.keyClick(window.desk.view, Qt.Key.Key_H)
    window.edits.type_place("front.L", "u", 601.25)
    end = document.kept
    while document.undo.canUndo():
        document.undo_step()
    assert document.kept == start
    assert project_to_bytes(document.kept) == project_to_bytes(start)
    while document.undo.canRedo():
        document.redo_step()
    assert document.kept == end
    assert project_from_bytes(project_to_bytes(document.kept)) == end


def test_undo_during_a_drag_drops_the_drag_first(skirt, mouse):
    document, start = skirt.document, QPointF(mouse.on("side.R"))
    spread, count = document.kept, document.undo.count()
    skirt.edits.type_place("front.L", "u", 601.25)
    mouse.press(start)
    mouse.move(start + QPointF(40, 0))
    document.undo_step()
    mouse.move(start + QPointF(60, 0))
    mouse.release(start + QPointF(60, 0))
    assert document.kept == spread
    assert document.undo.index() == count
    assert document.project is document.kept


def test_a_change_to_what_is_already_there_is_no_step(skirt):
    count = skirt.document.undo.count()
    at = skirt.document.kept.placement("side.R")
    skirt.document.place("nothing", {"side.R": at})
    assert skirt.document.undo.count() == count


def test_nothing_but_commands_changes_the_project(skirt):
    document = skirt.document
    kept = document.kept
    document.try_placements({"side.R": document.kept.placement("side.L")})
    assert document.kept is kept
    document.cancel_trial()
    assert document.project is kept


def test_readings_are_kept_in_step_with_the_project_through_history(skirt):
    from core.seams.readings import measure

    document = skirt.document
    skirt.edits.type_place("side.R", "u", 512.3)
    skirt.edits.type_turn("back.L", 0.3)
    for step in (document.undo_step, document.undo_step, document.redo_step):
        step()
        assert document.measurement.rms_mm == pytest.approx(measure(document.kept).rms_mm, abs=1e-12)


def test_a_document_with_other_pieces_is_measured_afresh(qapp, harbour_skirt, pier_parasol):
    document = Document()
    document.open(read_project(harbour_skirt))
    document.select(("side.R",))
    document.change("Other pieces", read_project(pier_parasol))
    assert document.selection == ()
    assert set(document.garment.panels) == set(document.kept.panel_names)
    document.undo_step()
    assert "side.R" in document.garment.panels
