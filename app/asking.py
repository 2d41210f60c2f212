"""What actions of the window ask before anything is done, or ask of the cloth that is shown."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from app.key_sheet import KeySheet

if TYPE_CHECKING:
    from app.window import Window


class Asking(QObject):
    """Brings up small dialogs over the window."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self._window = window

    def move(self) -> None:
        """Ask how far the selected panels are to be moved and turned."""
        from app.move_form import MoveForm

        MoveForm(self._window.edits, self._window).open()

    def what_counts(self) -> None:
        """Ask what counts when stripes are matched."""
        from app.match_form import MatchForm

        MatchForm(self._window.document, self._window).open()

    def from_shelf(self) -> None:
        """Take a cloth from the shelf, as one more or in the place of the one shown."""
        self._window.ways.from_shelf(self._shown_cloth())

    def keep_left(self) -> None:
        """Put what is left of the cloth shown on the shelf."""
        self._window.errands.keep_left(self._shown_cloth())

    def _shown_cloth(self) -> str:
        return self._window.desk.inspector.cloths.currentData()

    def keys(self) -> None:
        """Show the sheet of keys."""
        KeySheet(self._window).show()
