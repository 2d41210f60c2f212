from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import QEvent
from PySide6.QtWidgets import QApplication

from app.pages.page import Page
from windows import empty_profile, whole_window


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
