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
        layout.addWidget(RulerCorner(), 0, 0)
        layout.addWidget(Ruler(self.view, across=True), 0, 1)
        layout.addWidget(Ruler(self.view, across=False), 1, 0)
        layout.addWidget(self.view, 1, 1)
        self.setFocusProxy(self.view)
