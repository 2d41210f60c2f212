"""Asks how far stitching lines may be moved."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QWidget

from app.length_box import LengthBox
from app.pages.entries import Choice
from app.pages.form import add_row
from app.theme import GRID, SPACE, TARGET, WIDE
from app.words import tr
from core.shifting.wish import LARGEST_CAP_MM, ShiftWish

LEAST_CAP_MM = 0.1


class ShiftForm(QDialog):
    """The most a line is moved, and what becomes of its ends."""

    def __init__(self, wish: ShiftWish, wanted: Callable[[ShiftWish], None], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Shift stitching lines"))
        self.setAccessibleName(tr("Shift stitching lines"))
        self._wanted = wanted
        self.cap = LengthBox(tr("Move by at most"), tr("Measured from the lines as they were drawn"), LEAST_CAP_MM)
        self.cap.setMaximum(LARGEST_CAP_MM)
        self.cap.setValue(wish.cap_mm)
        self.cap.setFixedWidth(35 * GRID)
        choices = ((tr("may move too"), "free"), (tr("stay where they are"), "kept"))
        self.ends = Choice(tr("Ends of a line"), choices, wish.ends)
        words = QLabel(
            tr(
                "Moves the stitching lines between panels, one edge out and the other in by as much, so that the "
                "stripes meet better. Places and turns are chosen anew with them. The girth and the lengths of the "
                "edges stay as they are; mirrored panels change alike."
            ),
            wordWrap=True,
        )
        words.setMinimumWidth(100 * GRID)
        form = QFormLayout(self)
        form.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        form.setSpacing(SPACE)
        form.addRow(words)
        add_row(form, tr("&Move by at most"), self.cap)
        add_row(form, tr("&Ends of a line"), self.ends)
        form.addRow(self._buttons())
        self.cap.selectAll()

    def _buttons(self) -> QDialogButtonBox:
        kinds = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(kinds.Ok | kinds.Cancel)
        box.button(kinds.Ok).setText(tr("Shift"))
        for button in box.buttons():
            button.setMinimumHeight(TARGET)
        box.accepted.connect(self._shift)
        box.rejected.connect(self.reject)
        return box

    def _shift(self) -> None:
        self.cap.interpretText()
        self.accept()
        self._wanted(ShiftWish(self.cap.value(), self.ends.read()))
