"""Asks by how much the selected panels are to be moved and turned."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QWidget

from app.edits import Edits
from app.length_box import DegreeBox, LengthBox
from app.pages.form import add_row
from app.theme import SPACE, TARGET, WIDE
from app.words import tr


class MoveForm(QDialog):
    """Across, along and turn, all counted from where the panels lie."""

    def __init__(self, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Move by"))
        self.setAccessibleName(tr("Move by"))
        self._edits = edits
        self.across = LengthBox(tr("Across"), tr("To the right selvedge; with a minus sign to the left one"))
        self.along = LengthBox(tr("Along"), tr("Away from the cut end; with a minus sign towards it"))
        self.turn = DegreeBox(
            tr("Turn, °"), tr("Clockwise, about the middle of each panel, inside the grain tolerance")
        )
        form = QFormLayout(self)
        form.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        form.setSpacing(SPACE)
        words = QLabel(tr("Counted from where the panels lie. A minus sign means left, up, or anticlockwise."))
        words.setWordWrap(True)
        form.addRow(words)
        for caption, field in ((tr("&Across"), self.across), (tr("A&long"), self.along), (tr("&Turn"), self.turn)):
            field.setFixedWidth(140)
            add_row(form, caption, field)
        form.addRow(self._buttons())
        self.across.selectAll()

    def _buttons(self) -> QDialogButtonBox:
        choices = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(choices.Ok | choices.Cancel)
        box.button(choices.Ok).setText(tr("Move"))
        for button in box.buttons():
            button.setMinimumHeight(TARGET)
        box.accepted.connect(self._move)
        box.rejected.connect(self.reject)
        return box

    def _move(self) -> None:
        for field in (self.across, self.along, self.turn):
            field.interpretText()
        self._edits.move_by(self.across.value(), self.along.value(), self.turn.value())
        self.accept()
