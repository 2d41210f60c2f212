from collections.abc import Iterator

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from app.canvas.view import CanvasView
from windows import whole_window


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch) -> Iterator["Window"]:  # noqa: F821
    """A whole window on an empty profile; nothing of it may be left when the test is over."""
    with whole_window(qtbot, tmp_path, monkeypatch, 1400, 900) as window:
        yield window


@pytest.fixture
def skirt(window, harbour_skirt, qtbot):
    """The window with the ten-panel skirt, its panels spread out and matched to nothing yet."""
    assert window.filing.open_sample(harbour_skirt)
    window.edits.spread_new()
    qtbot.wait(1)
    return window


class Mouse:
    """Real mouse events on the view's viewport."""

    def __init__(self, view: CanvasView) -> None:
        self.view = view

    def send(self, kind, at, button, buttons, keys=Qt.KeyboardModifier.NoModifier) -> None:
        at = QPointF(at)
        place = self.view.viewport().mapToGlobal(at)
        QApplication.sendEvent(self.view.viewport(), QMouseEvent(kind, at, place, button, buttons, keys))

    def press(self, at, button=Qt.MouseButton.LeftButton, keys=Qt.KeyboardModifier.NoModifier) -> None:
        self.send(QEvent.Type.MouseButtonPress, at, button, button, keys)

    def move(self, at, button=Qt.MouseButton.LeftButton, keys=Qt.KeyboardModifier.NoModifier) -> None:
        self.send(QEvent.Type.MouseMove, at, Qt.MouseButton.NoButton, button, keys)

    def release(self, at, button=Qt.MouseButton.LeftButton, keys=Qt.KeyboardModifier.NoModifier) -> None:
        self.send(QEvent.Type.MouseButtonRelease, at, button, Qt.MouseButton.NoButton, keys)

    def drag(self, start, by, steps=6, keys=Qt.KeyboardModifier.NoModifier, button=Qt.MouseButton.LeftButton) -> None:
        start, by = QPointF(start), QPointF(by)
        self.press(start, button)
        for step in range(1, steps + 1):
            self.move(start + by * (step / steps), button, keys)
        self.release(start + by, button, keys)

    def on(self, panel: str) -> QPoint:
        """A place of the viewport on a panel, clear of its name and numbers."""
        item = self.view.scene_here.panels[panel]
        box = item.outline().boundingRect()
        at = QPointF(box.center().x() + 0.08 * box.width(), box.top() + 0.8 * box.height())
        return self.view.mapFromScene(at)


@pytest.fixture
def mouse(window) -> Mouse:
    return Mouse(window.desk.view)
