"""A file that something else changes while it is open is neither overwritten unasked nor read unasked."""

import os

import pytest
from PySide6.QtWidgets import QMessageBox

from app.safekeeping.stamp import DiskCopy, stamp_of
from core.files.project_file import read_project, write_project

Buttons = QMessageBox.StandardButton


def change_outside(path) -> None:
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('"title": "', '"title": "Other ', 1), encoding="utf-8")


def test_it_is_said_once_and_reading_again_is_one_step(changed, own_copy):
    mine = changed.document.kept
    change_outside(own_copy)
    changed.filing.look_at_disk()
    assert "changed by something else" in changed.messages.text
    changed.messages.hide()
    changed.filing.look_at_disk()
    assert changed.messages.text == ""
    assert changed.document.kept is mine
    assert changed.filing.read_again()
    assert changed.document.kept == read_project(own_copy)
    assert not changed.unsaved
    changed.document.undo_step()
    assert changed.document.kept == mine
    assert changed.unsaved
    assert changed.filing.save()


@pytest.mark.parametrize(("answer", "saved"), [(Buttons.Save, True), (Buttons.Cancel, False)])
def test_saving_over_it_asks(changed, own_copy, monkeypatch, answer, saved):
    change_outside(own_copy)
    other, asked = own_copy.read_bytes(), []
    monkeypatch.setattr(QMessageBox, "question", lambda *args: asked.append(args[2]) or answer)
    assert changed.filing.save() is saved
    assert len(asked) == 1
    assert (own_copy.read_bytes() == other) is not saved
    assert changed.unsaved is not saved
    assert changed.filing.save() is saved
    assert len(asked) == (1 if saved else 2)


def test_work_that_was_brought_back_asks_as_well(desk, own_copy):
    stamp, project = stamp_of(own_copy), read_project(own_copy)
    change_outside(own_copy)
    desk.document.begin(project, own_copy)
    desk.filing.disk.note(own_copy, stamp)
    desk.filing.look_at_disk()
    assert "changed by something else" in desk.messages.text


def test_the_same_content_written_again_is_no_change(own_copy):
    disk = DiskCopy()
    disk.note(own_copy, stamp_of(own_copy))
    write_project(own_copy, read_project(own_copy))
    os.utime(own_copy, (1, 1))
    assert not disk.changed()
    assert not disk.news()


def test_a_file_that_is_gone_is_written_anew(changed, own_copy):
    own_copy.unlink()
    changed.filing.look_at_disk()
    assert changed.messages.text == ""
    assert changed.filing.save()
    assert read_project(own_copy) == changed.document.kept


def test_broken_content_is_not_taken(changed, own_copy):
    mine = changed.document.kept
    own_copy.write_text("{")
    assert not changed.filing.read_again()
    assert changed.document.kept is mine
    assert "can't be read again" in changed.messages.text
