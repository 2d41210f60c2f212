"""Unsaved work is kept beside the work, never in its way, and offered when its window is gone."""

import os
import sys
from datetime import date

import msgspec
import pytest
from PySide6.QtTest import QTest

from app.safekeeping.border import guard
from app.safekeeping.folders import recovery_folder
from app.safekeeping.keeper import Keeper
from app.safekeeping.recovery import LEFT, PUT_AWAY, Origin, OwnFile, find_orphans
from app.safekeeping.rescued_bar import in_words
from app.safekeeping.stamp import stamp_of
from core.errors import BadInput
from core.files.project_file import project_to_bytes, read_project


def change_outside(path) -> None:
    text = path.read_text(encoding="utf-8")
    path.write_text(text.replace('"title": "', '"title": "Other ', 1), encoding="utf-8")


def left_behind(project, folder, name="1-a", **origin) -> None:
    """A recovery file as a process leaves it that is killed, with its lock still there."""
    own = OwnFile(folder)
    own._name = name
    own.write(project, Origin(**{"title": "my skirt", "changes": 12, "when": "2026-03-04T14:32:05", **origin}))
    lock = own.path.with_suffix(".lock").read_bytes()
    own.close()
    own.path.with_suffix(".lock").write_bytes(lock)
    os.utime(own.path.with_suffix(".lock"), (1, 1))


def test_a_change_is_kept_and_saving_ends_it(changed):
    assert changed.keeper.rescue()
    kept = changed.keeper.path
    assert kept.parent == recovery_folder()
    assert read_project(kept) == changed.document.kept
    origin = msgspec.json.decode(kept.with_suffix(".json").read_bytes(), type=Origin)
    assert (origin.title, origin.path, origin.changes) == ("my skirt", str(changed.document.path), 1)
    assert origin.pid == os.getpid()
    assert changed.filing.save()
    changed.keeper.rescue()
    assert not kept.exists()
    assert not kept.with_suffix(".json").exists()


def test_it_is_kept_without_being_asked_and_never_beside_the_users_file(changed, own_copy, qtbot):
    before = sorted(own_copy.parent.iterdir())
    changed.keeper.set_interval(0.02)
    qtbot.waitUntil(changed.keeper.path.exists, timeout=60_000)
    assert [path for path in sorted(own_copy.parent.iterdir()) if path not in before] == [own_copy.parent / "data"]


def test_what_is_saved_or_unchanged_is_not_kept(desk, own_copy):
    desk.filing.open_path(own_copy)
    assert desk.keeper.rescue()
    assert not desk.keeper.path.parent.exists()


def test_taking_all_changes_back_ends_it_too(changed):
    changed.keeper.rescue()
    changed.document.undo_step()
    changed.keeper.rescue()
    assert not changed.keeper.path.exists()


def test_nothing_is_written_while_nothing_changes(changed):
    changed.keeper.rescue()
    written = changed.keeper.path.stat().st_ino
    changed.keeper.rescue()
    assert changed.keeper.path.stat().st_ino == written
    changed.edits.type_place("side.R", "u", 500.0)
    changed.keeper.rescue()
    assert changed.keeper.path.stat().st_ino != written


def test_a_window_that_lives_keeps_its_own(changed):
    changed.keeper.rescue()
    assert find_orphans(recovery_folder()) == []


def test_two_windows_do_not_share_a_file(changed):
    other = Keeper(changed.document, changed.filing.disk)
    assert other.path != changed.keeper.path
    assert changed.keeper.rescue()
    assert other.rescue()
    other.close()
    assert not other.path.exists()
    assert changed.keeper.path.exists()


def test_a_lock_counts_for_its_owner_not_for_its_process_number(tmp_path, harbour_skirt):
    """The lock left behind names this very process, which is alive: its number was used again."""
    left_behind(read_project(harbour_skirt), tmp_path)
    assert str(os.getpid()).encode() in (tmp_path / "1-a.lock").read_bytes()
    orphans = find_orphans(tmp_path)
    assert len(orphans) == 1
    assert find_orphans(tmp_path) == []  # held while it is offered
    orphans[0].let_go()
    assert len(find_orphans(tmp_path)) == 1


def test_bringing_back_gives_the_work_its_file_and_its_unsaved_mark(desk, own_copy):
    project = read_project(own_copy)
    left_behind(msgspec.structs.replace(project, title="Changed"), recovery_folder(), path=str(own_copy))
    desk.rescued.look()
    assert desk.rescued.isVisibleTo(desk)
    assert desk.rescued.words.text() == (
        "The program ended before this was saved: my skirt from 2026-03-04, 14:32, 12 changes not saved."
    )
    desk.rescued.back.click()
    assert desk.document.kept.title == "Changed"
    assert desk.document.path == own_copy
    assert desk.unsaved
    assert not desk.rescued.isVisibleTo(desk)
    assert list(recovery_folder().glob("*.stripewright")) == [desk.keeper.path]
    assert msgspec.json.decode(desk.keeper.path.with_suffix(".json").read_bytes())["changes"] >= 12


def test_work_whose_file_is_gone_comes_back_without_one(desk, harbour_skirt, tmp_path):
    left_behind(read_project(harbour_skirt), recovery_folder(), path=str(tmp_path / "gone.stripewright"))
    desk.rescued.look()
    desk.rescued.back.click()
    assert desk.document.path is None
    assert desk.unsaved


def test_what_is_put_away_is_not_offered_again_and_the_last_few_are_left(desk, harbour_skirt):
    folder, project = recovery_folder(), read_project(harbour_skirt)
    for number in range(LEFT + 2):
        left_behind(project, folder, f"{number}-a")
    desk.rescued.look()
    for _ in range(LEFT + 2):
        assert desk.rescued.isVisibleTo(desk)
        desk.rescued.away.click()
    assert not desk.rescued.isVisibleTo(desk)
    assert sorted(path.name for path in folder.iterdir()) == [PUT_AWAY]
    assert len(list((folder / PUT_AWAY).glob("*.stripewright"))) == LEFT
    assert len(list((folder / PUT_AWAY).iterdir())) == 2 * LEFT  # each with what it was
    desk.rescued.look()
    assert not desk.rescued.isVisibleTo(desk)


def test_what_is_not_decided_on_is_offered_at_the_next_start(desk, harbour_skirt):
    left_behind(read_project(harbour_skirt), recovery_folder())
    desk.rescued.look()
    desk.rescued.let_go()
    assert len(find_orphans(recovery_folder())) == 1


def test_a_recovery_file_that_is_broken_is_one_line_and_stays(desk, harbour_skirt):
    left_behind(read_project(harbour_skirt), recovery_folder())
    path = recovery_folder() / "1-a.stripewright"
    path.write_bytes(path.read_bytes()[:400])
    path.with_suffix(".json").write_bytes(b'{"title": 3')
    desk.rescued.look()
    assert "Untitled" in desk.rescued.words.text()
    desk.rescued.back.click()
    assert str(path) in desk.messages.text
    assert "\n" not in desk.messages.text
    assert path.exists()
    assert desk.document.is_empty


@pytest.mark.parametrize(
    ("changes", "when", "said"),
    [
        (1, "2026-03-04T14:32:05", "skirt from 14:32, 1 change not saved."),
        (0, "2026-03-03T09:05:00", "skirt from 2026-03-03, 09:05."),
        (2, "no time", "skirt, 2 changes not saved."),
    ],
)
def test_the_offer_says_what_is_known(changes, when, said):
    assert in_words(Origin("skirt", changes=changes, when=when), date(2026, 3, 4)).endswith(f"saved: {said}")


def test_a_folder_that_cannot_be_written_to_is_one_quiet_line_once(changed, qtbot, tmp_path):
    (tmp_path / "a file").write_text("")
    keeper, said = Keeper(changed.document, changed.filing.disk, folder=tmp_path / "a file" / "under it"), []
    keeper.failed.connect(said.append)
    for u in (500.0, 510.0, 520.0):
        changed.edits.type_place("side.R", "u", u)
        assert not keeper.rescue()
        QTest.qWait(1)
    keeper.close()
    assert len(said) == 1
    assert "a file" in said[0]
    assert "\n" not in said[0]


def test_a_full_disk_leaves_what_was_kept_before(tmp_path, harbour_skirt, monkeypatch):
    project, own = read_project(harbour_skirt), OwnFile(tmp_path)
    own.write(project, Origin("skirt"))
    monkeypatch.setattr(os, "fsync", lambda _: (_ for _ in ()).throw(OSError(28, "No space left on device")))
    with pytest.raises(BadInput, match="No space left"):
        own.write(msgspec.structs.replace(project, title="Other"), Origin("skirt"))
    assert own.path.read_bytes() == project_to_bytes(project)
    assert sorted(path.suffix for path in tmp_path.iterdir()) == [".json", ".lock", ".stripewright"]
    own.close()


def test_the_unexpected_finds_the_work_kept_before_a_word_is_said(changed, monkeypatch):
    monkeypatch.setattr(sys, "excepthook", sys.excepthook)
    guard(changed)
    changed.edits.type_place("side.R", "u", 512.5)
    sys.excepthook(RuntimeError, RuntimeError("an odd thing"), None)
    assert read_project(changed.keeper.path) == changed.document.kept
    assert "kept on disk" in changed.messages.text
    assert changed.messages._do.text() == "Save as…"


def test_closing_leaves_nothing_and_leaving_as_it_is_leaves_the_work(changed):
    folder = changed.keeper.path.parent
    changed.keeper.rescue()
    changed.keeper.close(forget=False)
    assert [orphan.read() for orphan in find_orphans(folder)] == [changed.document.kept]
    changed.edits.type_place("side.R", "u", 512.5)
    changed.keeper.rescue()
    assert find_orphans(folder) == []
    changed.keeper.close()
    assert list(folder.iterdir()) == []


def test_the_window_keeps_and_offers(window, own_copy, harbour_skirt):
    stamp = stamp_of(own_copy)
    left_behind(read_project(harbour_skirt), recovery_folder(), path=str(own_copy), stamp=stamp)
    window.rescued.look()
    assert window.rescued.isVisible()
    window.rescued.back.click()
    assert not window.rescued.isVisible()
    assert window.isWindowModified()
    assert window.windowTitle() == "my skirt[*] – Stripewright"
    assert window.pages.currentWidget() is window.desk
    change_outside(own_copy)
    window.keeper.beat.emit()
    assert "changed by something else" in window.messages.text
