"""A whole window of the workbench on an empty profile, for the tests that drive one."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest
import shiboken6
from PySide6.QtCore import QEvent, QSettings, QThread
from PySide6.QtWidgets import QApplication, QMessageBox

from app import units
from app.workbench import application

ON_X_SERVER = [
    pytest.mark.window,
    pytest.mark.skipif(not os.environ.get("DISPLAY"), reason="needs an X server"),
    pytest.mark.skipif(not shutil.which("xdotool"), reason="needs xdotool"),
]
"""Marks of a test that drives a real window from outside."""


def empty_profile(folder: Path) -> None:
    """Settings in a folder of the test, nothing remembered of those before, and the application."""
    QSettings.setDefaultFormat(QSettings.Format.IniFormat)
    QSettings.setPath(QSettings.Format.IniFormat, QSettings.Scope.UserScope, str(folder / "settings"))
    units.forget()
    application()
    units.forget()


@contextmanager
def whole_window(qtbot, folder: Path, monkeypatch, width: int, height: int) -> Iterator["Window"]:  # noqa: F821
    """A shown window; nothing of it may be left afterwards."""
    from app.window import Window

    monkeypatch.setenv("XDG_DATA_HOME", str(folder / "data"))
    empty_profile(folder)
    window = Window()
    window.resize(width, height)
    window.show()
    qtbot.waitExposed(window)
    yield window
    monkeypatch.setattr(QMessageBox, "question", lambda *_: QMessageBox.StandardButton.Discard)
    window.close()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not window.findChildren(QThread)
    window.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not shiboken6.isValid(window)
