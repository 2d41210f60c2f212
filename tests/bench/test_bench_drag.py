"""Frame time of a drag. Run: pytest tests/bench/test_bench_drag.py --benchmark-only --benchmark-enable.

A frame is from the mouse's move to the end of the repaint that it causes. Aims on a machine that does nothing else:
under 8 ms with ten panels, with or without the close-up, under 16 ms with 48, and where the others follow. On a machine
that is shared add --benchmark-timer=time.thread_time.
"""

import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from itertools import count
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPointF, QSettings, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from app.document import Document
from app.workbench import application
from garments import ring


@pytest.fixture
def profile(tmp_path) -> None:
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(tmp_path))


def mouse(view, kind: QEvent.Type, at: QPointF) -> None:
    button = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseMove else Qt.MouseButton.LeftButton
    place, keys = view.viewport().mapToGlobal(at), Qt.KeyboardModifier.NoModifier
    event = QMouseEvent(kind, at, place, button, Qt.MouseButton.LeftButton, keys)
    QApplication.sendEvent(view.viewport(), event)


def grab(view, panel: str) -> QPointF:
    box = view.scene_here.panels[panel].outline().boundingRect()
    at = QPointF(view.mapFromScene(QPointF(box.center().x(), box.bottom() - 0.2 * box.height())))
    mouse(view, QEvent.Type.MouseButtonPress, at)
    return at


def drag_frames(benchmark, view, document: Document, panel: str = "front.R") -> None:
    """From the mouse's move to the end of the repaint that it causes, over and over."""
    start, number, kept = grab(view, panel), count(), document.kept

    def frame() -> None:
        step = next(number)
        mouse(view, QEvent.Type.MouseMove, start + QPointF(5 + step % 60, 3 + step % 40))
        QApplication.processEvents()

    benchmark.pedantic(frame, rounds=150, iterations=1, warmup_rounds=10)
    assert document.trying
    assert document.kept is kept
    document.cancel_trial()


@pytest.fixture
def skirt(qtbot, profile, harbour_skirt: Path):
    from app.window import Window

    application()
    window = Window()
    window.resize(1440, 900)
    window.show()
    qtbot.waitExposed(window)
    window.filing.open_sample(harbour_skirt)
    window.edits.spread_new()
    QApplication.processEvents()
    yield window
    window.document.undo.setClean()
    window.close()
    window.deleteLater()


def test_the_canvas_with_ten_panels(benchmark, skirt):
    """The canvas alone: panels, seams, rulers."""
    skirt.desk.right.hide()
    skirt.desk.inspector.hide()
    QApplication.processEvents()
    drag_frames(benchmark, skirt.desk.view, skirt.document)


def test_the_whole_window_with_ten_panels(benchmark, skirt):
    """Canvas, seam table, strip and status bar."""
    drag_frames(benchmark, skirt.desk.view, skirt.document)


def test_the_whole_window_with_the_close_up(benchmark, skirt):
    """The same with the close-up of a seam that moves."""
    skirt.document.pick_seam(0)
    QApplication.processEvents()
    drag_frames(benchmark, skirt.desk.view, skirt.document)


def test_the_whole_window_with_the_others_following(benchmark, skirt):
    """All ten panels move: nine are solved again for every frame."""
    skirt.edits.set_following(True)
    drag_frames(benchmark, skirt.desk.view, skirt.document)


def test_the_whole_window_with_the_others_following_and_the_close_up(benchmark, skirt):
    """All that can be shown at once."""
    skirt.edits.set_following(True)
    skirt.document.pick_seam(0)
    QApplication.processEvents()
    drag_frames(benchmark, skirt.desk.view, skirt.document)


@pytest.fixture
def many(skirt):
    """A made-up garment of 48 unlike gores in a ring."""
    skirt.document.open(ring(1, 48))
    skirt.edits.spread_out()
    QApplication.processEvents()
    return skirt


def test_the_whole_window_with_48_panels(benchmark, many):
    """Canvas, seam table, strip and status bar."""
    drag_frames(benchmark, many.desk.view, many.document, "g0")


def test_the_whole_window_with_48_panels_and_the_close_up(benchmark, many):
    """The same with the close-up of a seam that moves."""
    many.document.pick_seam(0)
    QApplication.processEvents()
    drag_frames(benchmark, many.desk.view, many.document, "g0")
