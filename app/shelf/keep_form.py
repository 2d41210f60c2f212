"""Asks what to remember about a cloth that is put on the shelf, and for a picture of it."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFileDialog, QFormLayout, QPushButton, QWidget

from app.pages.entries import Words
from app.pages.form import Note
from app.theme import GRID, SPACE, TARGET, WIDE
from app.window_state import last_folder, note_folder
from app.words import tr
from core.errors import BadInput
from core.files.shelf import OnShelf, put_on_shelf
from core.model.cloth import Cloth


class KeepForm(QDialog):
    """A note and a picture, both as one likes; `kept` gets what lies on the shelf then."""

    def __init__(
        self, shelf: Path, cloth: Cloth, kept: Callable[[OnShelf], None], note: str = "", parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Keep {cloth} on the shelf").format(cloth=cloth.title))
        self.setAccessibleName(tr("Keep on the shelf"))
        self._shelf, self._cloth, self._kept = shelf, cloth, kept
        self._picture: Path | None = None
        self.note = Words(tr("Note"), note)
        self.note.setPlaceholderText(tr("where it is from, what it is for"))
        self.picture = QPushButton(tr("Choose a picture…"), clicked=self._ask_picture)
        self.told = Note()
        form = QFormLayout(self)
        form.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        form.setSpacing(SPACE)
        form.addRow(tr("&Note"), self.note)
        form.addRow(tr("&Picture"), self.picture)
        form.addRow(self.told)
        form.addRow(self._buttons())
        self.setMinimumWidth(110 * GRID)

    def _buttons(self) -> QDialogButtonBox:
        kinds = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(kinds.Ok | kinds.Cancel)
        box.button(kinds.Ok).setText(tr("Keep"))
        for button in (*box.buttons(), self.picture):
            button.setMinimumHeight(TARGET)
        box.accepted.connect(self.keep)
        box.rejected.connect(self.reject)
        return box

    def _ask_picture(self) -> None:
        kinds = tr("Pictures (*.png *.jpg *.jpeg *.tif *.tiff *.webp *.bmp)")
        path, _ = QFileDialog.getOpenFileName(self, tr("A picture of the cloth"), str(last_folder()), kinds)
        if path:
            self._picture = Path(path)
            note_folder(self._picture.parent)
            self.picture.setText(self._picture.name)

    def keep(self) -> None:
        """Put the cloth on the shelf; what is wrong is said in the form."""
        try:
            kept = put_on_shelf(self._shelf, self._cloth, self.note.read(), self._picture)
        except BadInput as error:
            self.told.say(str(error), wrong=True)
            return
        self.accept()
        self._kept(kept)
