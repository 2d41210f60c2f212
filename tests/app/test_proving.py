"""The proof of a match in the background: it says how near the figure is, moves nothing, and makes way."""

import time

import msgspec
import pytest
from PySide6.QtCore import QPointF

from core.errors import CannotBeHad
from core.matching.bound import prove
from core.matching.solve import match


@pytest.fixture
def matched(skirt, qtbot):
    """The skirt matched, its proof about to begin."""
    skirt.proving._due.setInterval(1)
    with qtbot.waitSignal(skirt.errands.matched, timeout=60_000):
        skirt.actions_by_id["match"].trigger()
    return skirt


def until_told(window, qtbot) -> str:
    qtbot.waitUntil(lambda: window.proving.words.startswith("proved"), timeout=60_000)
    return window.proving.words


@pytest.fixture
def endless(monkeypatch) -> list[float]:
    """Proofs go on until they are stopped; when they last asked whether to."""
    told: list[float] = []

    def never(project, result, progress, seconds):
        while progress(0.5, "proving"):
            told.append(time.monotonic())
            time.sleep(0.002)

    monkeypatch.setattr("core.matching.bound.prove", never)
    return told


@pytest.fixture
def unprovable(monkeypatch) -> None:
    """Nothing can be proved."""

    def never(project, result, progress, seconds):
        raise CannotBeHad("bowed bars can't be bounded")

    monkeypatch.setattr("core.matching.bound.prove", never)


def test_the_matched_figure_says_how_near_it_is_and_no_panel_moves(matched, mouse, qtbot):
    kept, rms = matched.document.kept, matched.document.measurement.rms_mm
    words = until_told(matched, qtbot)
    assert matched.document.kept is kept
    solved = match(kept)
    bound = prove(kept, solved)
    assert bound.status == "proved"
    assert words == f"proved within {100 * (rms - bound.lower_bound_mm) / rms:.1f} %"
    assert matched.desk.status.proof.text() == words
    assert words in matched.desk.table.figure.accessibleDescription()
    matched.actions_by_id["settle"].setChecked(False)
    mouse.drag(mouse.on("side.R"), QPointF(31, 4))
    assert matched.desk.status.proof.text() == ""
    matched.document.undo_step()
    assert matched.desk.status.proof.text() == words
    matched.edits.spread_out()
    assert matched.desk.status.proof.text() == words
    matched.document.select(("side.R",))
    matched.edits.switch_hold()
    assert matched.proving.words == ""


def test_a_change_ends_it_at_once(endless, matched, qtbot):
    qtbot.waitUntil(lambda: matched.proving._runner.busy, timeout=60_000)
    assert matched.desk.status.proof.text() == "proving…"
    assert matched.actions_by_id["lay"].isEnabled()
    matched.document.select(("side.R",))
    matched.edits.switch_hold()
    assert not matched.proving.busy
    assert matched.desk.status.proof.text() == ""


def test_it_makes_way_for_another_job_and_comes_back_after_it(endless, matched, qtbot):
    qtbot.waitUntil(lambda: matched.proving._runner.busy, timeout=60_000)
    with qtbot.waitSignal(matched.jobs.ended, timeout=60_000):
        matched.jobs.run("Work", lambda _: time.sleep(0.05), lambda _: None)
        assert not matched.proving.busy
    qtbot.waitUntil(lambda: matched.proving._runner.busy, timeout=60_000)


def test_it_rests_while_a_hand_drags(endless, matched, mouse, qtbot):
    told = endless
    qtbot.waitUntil(lambda: len(told) > 3, timeout=60_000)
    start = QPointF(mouse.on("side.R"))
    mouse.press(start)
    mouse.move(start + QPointF(20, 0))
    qtbot.wait(80)
    count = len(told)
    qtbot.wait(80)
    assert len(told) == count
    matched.desk.view._end_gesture(keep=False)
    qtbot.waitUntil(lambda: len(told) > count, timeout=60_000)


def test_a_match_that_cannot_be_proved_is_left_be(unprovable, matched, qtbot):
    qtbot.waitUntil(lambda: matched.proving._wanted is None, timeout=60_000)
    assert matched.desk.status.proof.text() == ""
    assert not matched.proving.busy


def test_what_was_said_goes_when_a_hand_moves_a_panel_and_a_warning_stays(skirt):
    document, messages = skirt.document, skirt.messages
    place = document.project.placement("front.R")
    messages.say("Matched.")
    document.try_placements({"front.R": msgspec.structs.replace(place, u=place.u + 1)})
    assert messages.text == ""
    messages.warn("Too short.")
    document.try_placements({"front.R": msgspec.structs.replace(place, u=place.u + 2)})
    assert messages.text == "Too short."
    document.cancel_trial()
