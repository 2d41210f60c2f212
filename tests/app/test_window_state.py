"""The window comes back as it was left, whatever has become of screen, folders and settings since."""

from pathlib import Path

import pytest
from PySide6.QtCore import QByteArray, QRect, QSettings
from PySide6.QtWidgets import QApplication, QMainWindow, QSplitter, QTabWidget, QWidget

from app.window_state import WindowState, last_folder, note_folder
from windows import empty_profile


@pytest.fixture(autouse=True)
def profile(qapp, tmp_path):
    empty_profile(tmp_path)
    QSettings().clear()


@pytest.fixture
def made(qtbot):
    """Makes windows with a splitter and tabs."""

    def make() -> tuple[QMainWindow, WindowState]:
        window, splitter, tabs = QMainWindow(), QSplitter(), QTabWidget()
        for name in ("one", "two", "three"):
            tabs.addTab(QWidget(), name)
        splitter.addWidget(tabs)
        splitter.addWidget(QWidget())
        window.setCentralWidget(splitter)
        qtbot.addWidget(window)
        state = WindowState(window)
        state.follow({"across": splitter}, {"side": tabs})
        return window, state

    return make


def test_size_splitters_and_tabs_come_back(made):
    window, state = made()
    window.setGeometry(20, 30, 640, 420)
    window.show()
    window.centralWidget().setSizes([200, 440])
    window.centralWidget().widget(0).setCurrentIndex(2)
    sizes = window.centralWidget().sizes()
    state.keep()
    again, its_state = made()
    its_state.restore()
    again.show()
    assert again.size() == window.size()
    assert again.centralWidget().sizes() == sizes
    assert again.centralWidget().widget(0).currentIndex() == 2


def test_the_first_window_is_no_larger_than_its_screen(made):
    window, state = made()
    state.restore()
    room = window.screen().availableSize()
    assert window.width() <= room.width()
    assert window.height() <= room.height()


def test_a_window_whose_screen_is_gone_comes_up_where_it_is_seen(made):
    window, state = made()
    window.setGeometry(9000, 7000, 5000, 4000)
    state.keep()
    again, its_state = made()
    its_state.restore()
    screens = [screen.availableGeometry() for screen in QApplication.screens()]
    assert any(screen.intersects(QRect(again.pos(), again.size())) for screen in screens)
    assert again.width() <= again.screen().availableSize().width()


@pytest.mark.parametrize("junk", ["nonsense", 7, QByteArray(b"\x00\x01 broken"), ["a", "b"]])
def test_broken_settings_are_passed_over(made, junk):
    for name in ("window", "across", "side tab", "folder"):
        QSettings().setValue(name, junk)
    window, state = made()
    state.restore()
    assert window.centralWidget().widget(0).currentIndex() in (0, 1, 2)
    assert last_folder() == Path.home()


def test_the_last_folder_is_where_files_are_looked_for(tmp_path):
    assert last_folder() == Path.home()
    note_folder(tmp_path)
    assert last_folder() == tmp_path
    note_folder(tmp_path / "gone")
    assert last_folder() == Path.home()
