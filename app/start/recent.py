"""The files opened or saved lately, kept in the settings, and the samples that come with the program."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QSettings, Signal
from PySide6.QtWidgets import QMenu

from app.mnemonics import plain, tell_apart
from app.resources import resource
from app.window_state import note_folder
from app.words import later, tr
from core.files.suffixes import SUFFIX

KEPT = 8
"""So many recent files are remembered."""
Opening = Callable[[Path], object]
"""Opens a file."""
FIRST = "harbour-skirt"
_SHOWN = {
    "harbour-skirt": later("Ten gores from ticking: the whole job, to begin with"),
    "boathouse-plaid": later("Stripes and bars matched together"),
    "ferry-apron": later("Too little cloth, and what would make it do"),
    "pier-parasol": later("An uneven awning stripe, gores end for end"),
    "skylight-skirt": later("A remnant with a corner missing"),
}


class Recent(QObject):
    """The recent files, the last one first."""

    changed = Signal()

    def paths(self) -> list[Path]:
        """Those that are still there."""
        known = QSettings().value("recent", [])
        names = [known] if isinstance(known, str) else known or []
        return [path for name in names if (path := Path(name)).is_file()]

    def remember(self, path: Path) -> None:
        """A file was opened or saved just now."""
        path = path.resolve()
        note_folder(path.parent)
        names = [str(path), *(str(other) for other in self.paths() if other != path)]
        QSettings().setValue("recent", names[:KEPT])
        self.changed.emit()

    def fill(self, menu: QMenu, opening: Opening) -> None:
        """List them in a menu."""
        menu.clear()
        for path in self.paths():
            menu.addAction(plain(path.name), lambda path=path: opening(path)).setToolTip(str(path))
        tell_apart(menu)
        menu.setEnabled(bool(menu.actions()))


def fill_samples(menu: QMenu, opening: Opening) -> None:
    """List the sample projects in a menu."""
    for path in samples():
        menu.addAction(sample_title(path), lambda path=path: opening(path))


def samples() -> list[Path]:
    """The sample projects that come with the program, the one to begin with first."""
    found = sorted(resource("sample_projects", ".").glob(f"*{SUFFIX}"))
    return sorted(found, key=lambda path: path.stem != FIRST)


def what_it_shows(path: Path) -> str:
    """What is to be learnt from a sample, one line; empty for one that is not known here."""
    return tr(_SHOWN[path.stem]) if path.stem in _SHOWN else ""


def sample_title(path: Path) -> str:
    """What a sample is called."""
    return path.stem.replace("-", " ").capitalize()
