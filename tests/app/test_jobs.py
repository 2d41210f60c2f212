"""Match, Lay and Papers in the background."""

import threading
import time
from importlib import import_module

import pytest
from PySide6.QtCore import Qt, QThread
from PySide6.QtTest import QTest

from app.errands import matched
from app.jobs import JobRunner
from cloths import project_of, rectangle
from core.errors import CannotBeHad, Stopped
from core.lay.lay import quick_lay
from core.papers.choices import PaperChoices
from core.progress import silent
from core.seams.readings import measure
from core.shifting.wish import ShiftWish


@pytest.fixture
def runner(qtbot):
    runner = JobRunner()
    yield runner
    runner.close()


def until_stopped(progress) -> None:
    """Work that ends when it is told to."""
    while progress(0.5, "working"):
        time.sleep(0.002)
    raise Stopped("stopped")


def test_a_result_is_handed_over_in_the_thread_of_the_screen(runner, qtbot):
    got = []
    with qtbot.waitSignal(runner.ended, timeout=60_000):
        runner.run("Count", lambda _: threading.get_ident(), lambda it: got.append((it, threading.get_ident())))
    worker, here = got[0]
    assert here == threading.get_ident()
    assert worker != here


def test_progress_is_told(runner, qtbot):
    def work(progress) -> None:
        for share in (0.25, 0.5, 0.75):
            progress(share, "working")
            time.sleep(0.06)

    told = []
    runner.progressed.connect(lambda share, note: told.append((share, note)))
    with qtbot.waitSignal(runner.ended, timeout=60_000):
        runner.run("Work", work, lambda _: None)
    assert told == [(0.25, "working"), (0.5, "working"), (0.75, "working")]


def test_cancel_frees_the_screen_within_a_tenth_of_a_second(runner, qtbot):
    got = []
    runner.run("Work", until_stopped, got.append)
    qtbot.wait(30)
    began = time.thread_time()
    with qtbot.waitSignal(runner.ended, timeout=60_000):
        runner.cancel()
    assert time.thread_time() - began < 0.1
    assert not runner.busy
    runner.close()
    qtbot.wait(10)
    assert got == []


def test_work_that_is_ended_early_is_kept(runner, qtbot):
    def work(progress) -> str:
        while progress(0.5, "working"):
            time.sleep(0.002)
        return "the best so far"

    got = []
    with qtbot.waitSignal(runner.ended, timeout=60_000):
        runner.run("Work", work, got.append, can_stop=True)
        assert runner.can_stop
        qtbot.wait(30)
        runner.finish_early()
        assert runner.busy
    assert got == ["the best so far"]
    assert not runner.can_stop


def test_a_new_job_may_start_while_a_cancelled_one_is_still_ending(runner, qtbot):
    release, got = threading.Event(), []

    def stubborn(_) -> str:
        release.wait(2)
        return "old"

    runner.run("Old", stubborn, got.append)
    runner.cancel()
    with qtbot.waitSignal(runner.ended, timeout=60_000):
        runner.run("New", lambda _: "new", got.append)
    release.set()
    runner.close()
    qtbot.wait(10)
    assert got == ["new"]


@pytest.mark.parametrize(
    ("error", "line"),
    [
        (CannotBeHad("the panels don't fit"), "the panels don't fit"),
        (ZeroDivisionError("a\nb"), "Something went wrong inside the program (ZeroDivisionError: a b)"),
    ],
)
def test_what_goes_wrong_is_one_line(runner, qtbot, error, line):
    def work(_) -> None:
        raise error

    with qtbot.waitSignal(runner.failed, timeout=60_000) as failed:
        runner.run("Work", work, lambda _: None)
    assert failed.args == [line]
    assert not runner.busy


def test_no_thread_is_left_after_close(qtbot):
    runner = JobRunner()
    runner.run("Work", until_stopped, lambda _: None)
    runner.close()
    qtbot.waitUntil(lambda: not runner.findChildren(QThread), timeout=60_000)


def test_match_is_one_step_and_lets_all_panels_be_seen(window, harbour_skirt, qtbot):
    window.filing.open_sample(harbour_skirt)
    before = window.document.measurement.rms_mm
    with qtbot.waitSignal(window.jobs.ended, timeout=60_000):
        window.actions_by_id["match"].trigger()
        assert not window.desk.status.job.isHidden()
        assert not window.actions_by_id["lay"].isEnabled()
    document = window.document
    assert document.undo.count() == 1
    assert document.undo.undoText() == "Match stripes"
    assert document.measurement.rms_mm < before
    assert document.measurement.rms_mm == pytest.approx(measure(document.kept).rms_mm)
    assert window.desk.unplaced.isHidden()
    assert window.desk.status.faults.text() == "Can be cut as it lies"
    assert window.messages.text.startswith("Matched")
    assert window.desk.status.job.isHidden()
    document.undo_step()
    assert document.measurement.rms_mm == before


def test_a_match_of_a_project_that_changed_meanwhile_is_put_aside(skirt, qtbot, monkeypatch):
    go = threading.Event()

    def slow(project, garment, progress):
        go.wait(5)
        return matched(project, garment, silent)

    monkeypatch.setattr("app.errands.matched", slow)
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.errands.match()
        skirt.edits.type_place("side.R", "u", 512.3)
        changed = skirt.document.kept
        go.set()
    assert skirt.document.kept is changed
    assert "put aside" in skirt.messages.text


def test_a_lay_can_be_cancelled_from_the_status_bar(skirt, qtbot):
    kept = skirt.document.kept
    skirt.errands.lay()
    qtbot.wait(150)
    assert skirt.jobs.busy
    began = time.thread_time()
    QTest.mouseClick(skirt.desk.status.job.stop, Qt.MouseButton.LeftButton)
    assert time.thread_time() - began < 0.1
    assert not skirt.jobs.busy
    assert skirt.desk.status.job.isHidden()
    assert skirt.document.kept is kept


def test_a_lay_that_finds_nothing_shorter_changes_nothing(skirt, qtbot):
    skirt.document.place("Lay", dict(quick_lay(skirt.document.cut).project.placements))
    steps = skirt.document.undo.count()
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.errands.lay()
        skirt.jobs.finish_early()
    assert skirt.document.undo.count() == steps
    assert skirt.messages.text == "Nothing shorter was found than how the panels lie."


def test_a_lay_can_be_ended_with_the_best_so_far(skirt, qtbot):
    skirt.edits.type_place("side.R", "v", -900.0)  # off the cloth, so that any lay is better
    kept = skirt.document.kept
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.errands.lay()
        assert skirt.actions_by_id["stop-lay"].isEnabled()
        QTest.mouseClick(skirt.desk.status.job.keep, Qt.MouseButton.LeftButton)
        assert not skirt.desk.status.job.keep.isEnabled()
    assert skirt.document.kept != kept
    assert skirt.desk.status.faults.text() == "Can be cut as it lies"
    assert skirt.messages.text.startswith("Stopped early")
    assert not skirt.actions_by_id["stop-lay"].isEnabled()


def test_only_a_lay_offers_to_keep_the_best(skirt, qtbot):
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.errands.match()
        assert skirt.desk.status.job.keep.isHidden()
        assert not skirt.actions_by_id["stop-lay"].isEnabled()


def test_papers_are_written_where_they_were_asked_for(skirt, qtbot, tmp_path):
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.errands.papers(tmp_path / "papers", PaperChoices(parts=frozenset({"cutting papers", "lists"})))
    written = sorted(path.name for path in (tmp_path / "papers").iterdir())
    assert "positions.csv" in written
    assert any(name.endswith(".pdf") for name in written)
    assert str(tmp_path / "papers") in skirt.messages.text


def test_closing_while_a_job_runs_leaves_no_thread(skirt, qtbot, monkeypatch):
    skirt.errands.lay()
    qtbot.wait(50)
    skirt.document.undo.setClean()
    assert skirt.close()
    assert all(job.isFinished() for job in skirt.findChildren(QThread))


def test_a_stash_too_short_is_told_with_what_is_left_over_and_what_was_tried(window, qtbot):
    project = project_of([rectangle("a", 500, 320), rectangle("b", 500, 280)], 600, length=580, one_way=True)
    window.document.open(project)
    with qtbot.waitSignal(window.jobs.ended, timeout=60_000):
        window.errands.lay()
    told = window.messages.text
    assert "the lay takes 600.0 mm, the cloth has 580.0 mm: 20.0 mm are missing" in told
    assert "Left over: b." in told
    assert "Tried, and still too long: panels end for end, if the cloth allows it" in told


LONG = {
    "core.matching.solve.match": lambda errands, _: errands.match(),
    "core.matching.advice.advise": lambda errands, _: errands.advise(lambda _: None),
    "core.shifting.shift.shift_lines": lambda errands, _: errands.shift(ShiftWish()),
    "core.lay.lay.lay": lambda errands, _: errands.lay(),
    "core.lay.leftover.leftover": lambda errands, _: errands.keep_left("ticking"),
    "core.papers.papers.write_papers": lambda errands, folder: errands.papers(folder, PaperChoices()),
}
"""What may take long, and what has it done."""


@pytest.mark.parametrize("entry", LONG)
def test_what_takes_long_never_runs_in_the_thread_of_the_screen(skirt, qtbot, monkeypatch, tmp_path, entry):
    ran_in = []

    def stand_in(*_, **__):
        ran_in.append(threading.get_ident())
        raise CannotBeHad("it is not asked for here")

    import_module(entry.rpartition(".")[0])
    monkeypatch.setattr(entry, stand_in)
    with qtbot.waitSignal(skirt.jobs.failed, timeout=60_000):
        LONG[entry](skirt.errands, tmp_path)
    assert len(ran_in) == 1
    assert ran_in[0] != threading.get_ident()
