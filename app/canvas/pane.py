"""The canvas with its rulers."""

from PySide6.QtWidgets import QGridLayout, QWidget

from app.canvas.rulers import Ruler, RulerCorner
from app.canvas.view import CanvasView
from app.document import Document
from app.edits import Edits


class CanvasPane(QWidget):
    """View and rulers side by side."""

    def __init__(self, document: Document, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.view = CanvasView(document, edits)
        layout = QGridLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        self.rulers = RulerCorner(), Ruler(self.view, across=True), Ruler(self.view, across=False)
        for ruler, row, column in zip(self.rulers, (0, 0, 1), (0, 1, 0), strict=True):
            layout.addWidget(ruler, row, column)
        layout.addWidget(self.view, 1, 1)
        self.setFocusProxy(self.view)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        for ruler in self.rulers:
            ruler.show_unit()
        self.view.show_unit()
