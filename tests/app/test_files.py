"""Opening and saving from the window."""

import os

import pytest
from PySide6.QtCore import QMimeData, QPointF, Qt, QUrl
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QApplication, QFileDialog, QMessageBox

from app.start.recent import sample_title, samples
from core.files.project_file import read_project, write_project

Buttons = QMessageBox.StandardButton


@pytest.fixture
def own_copy(tmp_path, harbour_skirt):
    path = tmp_path / "my skirt.stripewright"
    write_project(path, read_project(harbour_skirt))
    return path


def test_a_sample_is_opened_as_a_copy(window, harbour_skirt):
    assert window.filing.open_sample(harbour_skirt)
    assert window.document.path is None
    assert not window.isWindowModified()
    assert "Harbour" in window.windowTitle()


def test_the_samples_are_offered(window):
    assert {"Harbour skirt", "Pier parasol"} <= {sample_title(path) for path in samples()}


def test_a_change_marks_the_window_and_saving_unmarks_it(window, own_copy):
    assert window.filing.open_path(own_copy)
    assert window.windowTitle() == "my skirt[*] – Stripewright"
    window.edits.spread_new()
    assert window.isWindowModified()
    assert window.filing.save()
    assert not window.isWindowModified()
    assert read_project(own_copy) == window.document.kept
    window.document.undo_step()
    assert window.isWindowModified()


def test_saving_as_gives_the_project_a_file_with_the_right_suffix(window, harbour_skirt, tmp_path, monkeypatch):
    window.filing.open_sample(harbour_skirt)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(tmp_path / "new name"), ""))
    assert window.filing.save()
    assert window.document.path == tmp_path / "new name.stripewright"
    assert read_project(window.document.path) == window.document.kept
    assert window.recent.paths()[0] == window.document.path


@pytest.mark.parametrize(("answer", "saved"), [(Buttons.Save, True), (Buttons.Cancel, False)])
def test_a_name_without_its_ending_does_not_save_over_a_file_unasked(window, own_copy, monkeypatch, answer, saved):
    """The dialog asks before a file is saved over, but it can't know of the ending that is added afterwards."""
    other, asked = own_copy.with_name("other.stripewright"), []
    other.write_bytes(b"another's work")
    window.filing.open_path(own_copy)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: (str(other.with_suffix("")), ""))
    monkeypatch.setattr(QMessageBox, "question", lambda *args: asked.append(args[2]) or answer)
    assert window.filing.save_as() is saved
    assert asked == ["other.stripewright is there already. Save over it?"]
    assert (other.read_bytes() != b"another's work") is saved
    assert window.document.path == (other if saved else own_copy)


def test_a_dialog_that_is_left_saves_nothing(window, own_copy, monkeypatch):
    window.filing.open_path(own_copy)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", lambda *_: ("", ""))
    assert not window.filing.save_as()
    assert window.document.path == own_copy


def test_a_file_with_another_ending_is_saved_where_it_was_opened(window, own_copy):
    path = own_copy.rename(own_copy.with_suffix(".json"))
    window.filing.open_path(path)
    window.edits.spread_new()
    assert window.filing.save()
    assert read_project(path) == window.document.kept
    assert list(path.parent.glob("*.stripewright")) == []


def test_a_broken_file_is_one_line_and_the_open_project_stays(window, own_copy, tmp_path):
    window.filing.open_path(own_copy)
    kept = window.document.kept
    broken = tmp_path / "broken.stripewright"
    broken.write_text('{"format": "stripewright-project", "version": 1, "cloths": []}')
    assert not window.filing.open_path(broken)
    assert window.document.kept is kept
    assert "broken.stripewright" in window.messages.text
    assert "\n" not in window.messages.text


def test_a_place_that_cannot_be_written_to_is_one_line_and_nothing_is_lost(window, own_copy):
    window.filing.open_path(own_copy)
    window.edits.spread_new()
    window.document.path = own_copy / "under a file.stripewright"
    assert not window.filing.save()
    assert "could not be saved" in window.messages.text
    assert window.isWindowModified()
    window.document.path = own_copy
    assert window.filing.save()
    assert window.messages.text == ""


def test_a_file_that_may_not_be_written_to_is_left_alone(window, own_copy, monkeypatch):
    """What root may do is no measure: the right to write is what is asked for."""
    before = own_copy.read_bytes()
    window.filing.open_path(own_copy)
    window.edits.spread_new()
    monkeypatch.setattr(os, "access", lambda path, mode: False)
    assert not window.filing.save()
    assert "it is read-only" in window.messages.text
    assert own_copy.read_bytes() == before
    monkeypatch.undo()


def test_a_link_stays_a_link_and_what_it_leads_to_is_saved(window, own_copy, tmp_path):
    link = tmp_path / "link.stripewright"
    link.symlink_to(own_copy)
    window.filing.open_path(link)
    window.edits.spread_new()
    assert window.filing.save()
    assert link.is_symlink()
    assert read_project(own_copy) == window.document.kept


@pytest.mark.parametrize(("answer", "leaves"), [(Buttons.Save, True), (Buttons.Discard, True), (Buttons.Cancel, False)])
def test_leaving_unsaved_work_asks(window, own_copy, monkeypatch, answer, leaves):
    window.filing.open_path(own_copy)
    window.edits.spread_new()
    asked = []
    monkeypatch.setattr(QMessageBox, "question", lambda *args: asked.append(args[2]) or answer)
    assert window.close() is leaves
    assert asked == ["Save the changes to my skirt?"]
    saved = read_project(own_copy) == window.document.kept
    assert saved is (answer == Buttons.Save)


@pytest.mark.parametrize("ending", [".stripewright", ".STRIPEWRIGHT"])
def test_a_dropped_project_is_opened(window, own_copy, ending):
    own_copy = own_copy.rename(own_copy.with_suffix(ending))
    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(own_copy))])
    where, buttons = QPointF(300, 300), Qt.MouseButton.LeftButton
    entered = QDragEnterEvent(where.toPoint(), Qt.DropAction.CopyAction, data, buttons, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(window, entered)
    assert entered.isAccepted()
    dropped = QDropEvent(where, Qt.DropAction.CopyAction, data, buttons, Qt.KeyboardModifier.NoModifier)
    QApplication.sendEvent(window, dropped)
    assert window.document.path == own_copy


def test_recent_files_that_are_gone_are_not_offered(window, own_copy):
    window.filing.open_path(own_copy)
    assert window.recent.paths() == [own_copy.resolve()]
    window.document.undo.setClean()
    (entry,) = window.recent_menu.actions()
    own_copy.unlink()
    assert window.recent.paths() == []
    entry.trigger()
    assert "my skirt.stripewright" in window.messages.text
    assert window.recent_menu.actions() == []
