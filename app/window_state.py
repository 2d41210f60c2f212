"""What the window looked like when it was left, and where files were last, kept in the settings."""

from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings, QSize
from PySide6.QtWidgets import QMainWindow, QSplitter, QTabWidget

FIRST_SIZE = QSize(1440, 900)
_FOLDER = "folder"


class WindowState:
    """Size and place of a window, and the splitters and tabs in it that it is told to follow."""

    def __init__(self, window: QMainWindow) -> None:
        self._window = window
        self._splitters: dict[str, QSplitter] = {}
        self._tabs: dict[str, QTabWidget] = {}

    def keep(self) -> None:
        """Remember how it all stands."""
        settings = QSettings()
        settings.setValue("window", self._window.saveGeometry())
        for name, splitter in self._splitters.items():
            settings.setValue(name, splitter.saveState())
        for name, tabs in self._tabs.items():
            settings.setValue(f"{name} tab", tabs.currentIndex())

    def restore(self) -> None:
        """Bring the window back, onto a screen that is there; the first time, as large as is usual and fits there."""
        room = self._window.screen().availableSize()
        if not self._window.restoreGeometry(_state("window")):
            self._window.resize(FIRST_SIZE.boundedTo(room))
        self._window.resize(self._window.size().boundedTo(room))

    def follow(self, splitters: dict[str, QSplitter], tabs: dict[str, QTabWidget]) -> None:
        """Bring splitters and tabs back as they were, by their names in the settings, and remember them from now on."""
        self._splitters |= splitters
        self._tabs |= tabs
        for name, splitter in splitters.items():
            splitter.restoreState(_state(name))
        for name, pages in tabs.items():
            index = _number(f"{name} tab")
            if 0 <= index < pages.count():
                pages.setCurrentIndex(index)


def _state(name: str) -> QByteArray:
    """A state that was kept; an empty one where something else stands there."""
    value = QSettings().value(name)
    return value if isinstance(value, QByteArray) else QByteArray()


def _number(name: str) -> int:
    try:
        return int(QSettings().value(name, 0))
    except (TypeError, ValueError):
        return 0


def last_folder() -> Path:
    """Where a file was opened or written last; the user's own folder before that, or if it is gone."""
    value = QSettings().value(_FOLDER)
    folder = Path(value) if isinstance(value, str) and value else Path.home()
    return folder if folder.is_dir() else Path.home()


def note_folder(folder: Path) -> None:
    """Look here first the next time."""
    QSettings().setValue(_FOLDER, str(folder))
