import os

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from app.pages.page import Page
from windows import empty_profile, whole_window

HERE = Path(__file__).parent


def pytest_collection_modifyitems(items) -> None:
    """A warning of Qt fails a test, but for what this platform can't do."""
    for item in items:
        if HERE in item.path.parents:
            item.add_marker(pytest.mark.qt_log_level_fail("WARNING"))
            item.add_marker(pytest.mark.qt_log_ignore("propagateSizeHints"))


@pytest.fixture
def profile(tmp_path) -> None:
    """An empty profile."""
    empty_profile(tmp_path)


@pytest.fixture
def shown(qtbot, profile) -> Iterator[Callable[[Page], Page]]:
    """Shows a page for itself, as wide and high as it is in a small window."""
    pages = []

    def show(page: Page) -> Page:
        pages.append(page)
        page.resize(1280, 660)
        page.show()
        qtbot.waitExposed(page)
        return page

    yield show
    for page in pages:
        page.close()
        page.deleteLater()
    QApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete)
    assert not QApplication.allWidgets()


@pytest.fixture
def window(qtbot, tmp_path, monkeypatch) -> Iterator["Window"]:  # noqa: F821
    """A whole window on an empty profile; nothing of it may be left when the test is over."""
    with whole_window(qtbot, tmp_path, monkeypatch, 1280, 720) as window:
        yield window
    assert not [widget for widget in QApplication.allWidgets() if isinstance(widget, Page)]
