"""Which unit the screen shows lengths in: the three actions, one of which is always marked."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtGui import QAction, QActionGroup

from app import units
from core.units import UnitName


class UnitChoice(QObject):
    """Chooses the unit; `shown` is called whenever it has become another one, here or on a page."""

    def __init__(self, actions: dict[str, QAction], shown: Callable[[], None], parent: QObject) -> None:
        super().__init__(parent)
        self._actions = {name: actions[name] for name in units.NAMES}
        self._shown, self._name = shown, units.shown().name
        one_of = QActionGroup(self)
        for action in self._actions.values():
            one_of.addAction(action)
        with QSignalBlocker(self._actions[self._name]):
            self._actions[self._name].setChecked(True)

    def show_mm(self, on: bool) -> None:
        """Show lengths in millimetres."""
        self._choose("mm", on)

    def show_cm(self, on: bool) -> None:
        """Show lengths in centimetres."""
        self._choose("cm", on)

    def show_inches(self, on: bool) -> None:
        """Show lengths in inches."""
        self._choose("in", on)

    def _choose(self, name: UnitName, on: bool) -> None:
        if on and units.shown().name != name:
            units.choose(name)
        self.follow()

    def follow(self) -> None:
        """Mark the unit that is shown now."""
        if self._name == units.shown().name:
            return
        self._name = units.shown().name
        for name, action in self._actions.items():
            action.setChecked(name == self._name)
        self._shown()
