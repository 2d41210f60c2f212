"""Asks by how much the selected panels are to be moved and turned."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QWidget

from app.edits import Edits
from app.length_box import DegreeBox, LengthBox
from app.theme import SPACE, TARGET, WIDE


class MoveForm(QDialog):
    """Across, along and turn, all counted from where the panels lie."""

    def __init__(self, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle("Move by")
        self.setAccessibleName("Move by")
        self._edits = edits
        self.across = LengthBox("Across", "To the right selvedge; with a minus sign to the left one")
        self.along = LengthBox("Along", "Away from the cut end; with a minus sign towards it")
        self.turn = DegreeBox("Turn, °", "Clockwise, about the middle of each panel, inside the grain tolerance")
        form = QFormLayout(self)
        form.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        form.setSpacing(SPACE)
        words = QLabel("Counted from where the panels lie. A minus sign means left, up, or anticlockwise.")
        words.setWordWrap(True)
        form.addRow(words)
        for caption, field in (("&Across", self.across), ("A&long", self.along), ("&Turn", self.turn)):
            field.setFixedWidth(140)
            form.addRow(caption, field)
        form.addRow(self._buttons())
        self.across.selectAll()

    def _buttons(self) -> QDialogButtonBox:
        choices = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(choices.Ok | choices.Cancel)
        box.button(choices.Ok).setText("Move")
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
