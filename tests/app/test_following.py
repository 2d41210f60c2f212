"""The other panels follow the one in the hand, if that is asked for."""

from types import SimpleNamespace

import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app import following
from app.edits import Edits
from core.matching.solve import match
from core.seams.readings import measure
from core.seams.stripes import wrapped
from garments import repeat, ring


@pytest.fixture
def asked(skirt):
    """The ten-panel skirt, settling off, the others asked to follow."""
    assert not skirt.actions_by_id["follow"].isChecked()
    skirt.actions_by_id["settle"].setChecked(False)
    skirt.actions_by_id["follow"].trigger()
    return skirt


def test_a_drag_takes_the_others_along_and_is_one_step_or_taken_back(asked, mouse):
    document, count = asked.document, asked.document.undo.count()
    kept, start = document.kept, QPointF(mouse.on("side.R"))
    mouse.press(start)
    mouse.move(start + QPointF(20, 3))
    shown = document.project
    moved = [n for n in kept.panel_names if kept.placement(n) != shown.placement(n)]
    assert set(moved) == set(kept.panel_names)
    hand_only = kept.placed({"side.R": shown.placement("side.R")})
    assert document.measurement.rms_mm < measure(hand_only).rms_mm
    assert document.measurement.rms_mm == pytest.approx(measure(shown).rms_mm)
    mouse.release(start + QPointF(20, 3))
    assert document.kept == shown
    assert document.undo.count() == count + 1
    document.undo_step()
    assert document.kept == kept
    mouse.press(start)
    mouse.move(start + QPointF(20, 3))
    QTest.keyClick(asked.desk.view, Qt.Key.Key_Escape)
    mouse.release(start + QPointF(20, 3))
    assert document.project is document.kept
    asked.actions_by_id["follow"].trigger()
    mouse.drag(start, QPointF(30, 5))
    assert [n for n in kept.panel_names if kept.placement(n) != document.kept.placement(n)] == ["side.R"]


def test_on_barred_cloth_the_others_follow_along_the_cloth_too(window, mouse):
    project = match(ring(2, 6, tolerance=1.0, crosswise=repeat("even", 45.0))).project
    window.document.open(project)
    window.edits.spread_out()
    document = window.document
    window.actions_by_id["settle"].setChecked(False)
    window.actions_by_id["follow"].trigger()
    kept, before = document.kept, document.measurement
    mouse.drag(mouse.on("g3"), QPointF(0, 9.0 * window.desk.view.scale_px))
    along = {name: document.kept.placement(name).v - kept.placement(name).v for name in kept.panel_names}
    assert along["g3"] > 4
    assert all(abs(wrapped(v - along["g3"], 45.0)) < 1.5 for v in along.values())
    for way in ("lengthwise", "crosswise"):
        assert document.measurement.rms_of(way) == pytest.approx(before.rms_of(way), rel=0.01)


def test_held_panels_and_panels_ticked_as_cut_stay(asked, mouse):
    document = asked.document
    document.select(("back.R",))
    asked.edits.switch_hold()
    asked.desk.cut_list.tick(("back.L",), True)
    kept = document.kept
    mouse.drag(mouse.on("side.R"), QPointF(25, 0))
    assert document.kept.placement("back.R") == kept.placement("back.R")
    assert document.kept.placement("back.L") == kept.placement("back.L")
    assert document.kept.placement("front.R") != kept.placement("front.R")


def test_moves_that_come_faster_than_solving_skip_it_and_the_last_one_does_not(asked, mouse, monkeypatch):
    solved = []
    real = following.Following._solve
    monkeypatch.setattr(following.Following, "_solve", lambda self, hand: (solved.append(hand), real(self, hand)))
    clock = SimpleNamespace(perf_counter=iter([0.0, 50.0, *[60.0 + i for i in range(6)]]).__next__)
    monkeypatch.setattr(following, "time", clock)
    mouse.drag(mouse.on("side.R"), QPointF(30, 0), steps=6)
    assert len(solved) == 2
    hand = {"side.R": asked.document.kept.placement("side.R")}
    assert solved[-1] == hand


def test_nudges_and_typed_places_take_the_others_along_too(asked):
    document, edits = asked.document, asked.edits
    assert isinstance(edits, Edits)
    for change in (
        lambda: edits.nudge(5, 0),
        lambda: edits.move_by(4.5, 0, 0.05),
        lambda: edits.turn_by(1),
        lambda: edits.type_place("side.R", "u", document.kept.placement("side.R").u + 7),
        lambda: edits.type_turn("side.R", 0.1),
    ):
        document.select(("side.R",))
        kept = document.kept
        change()
        assert document.kept.placement("front.L").u != kept.placement("front.L").u
        document.undo_step()
        assert document.kept == kept
