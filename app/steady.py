"""A label for words that change with every move of the mouse."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QFont, QResizeEvent
from PySide6.QtWidgets import QLabel, QSizePolicy, QWidget


class SteadyLabel(QWidget):
    """Shows words; the layout round it is asked anew only when they need more room than any before them."""

    def __init__(self, name: str, alignment: Qt.AlignmentFlag = Qt.AlignmentFlag.AlignVCenter) -> None:
        super().__init__()
        self._label = QLabel(self, accessibleName=name, alignment=alignment)
        self._room = QSize()
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Fixed)

    def text(self) -> str:
        """The words."""
        return self._label.text()

    def setText(self, text: str) -> None:
        """Show other words."""
        if text != self._label.text():
            self._label.setText(text)
            self._make_room()

    def show_in(self, font: QFont) -> None:
        """Show the words in another font."""
        self._label.setFont(font)
        self._make_room()

    def _make_room(self) -> None:
        room = self._room.expandedTo(self._label.sizeHint().grownBy(self.contentsMargins()))
        if room != self._room:
            self._room = room
            self.updateGeometry()

    def sizeHint(self) -> QSize:
        """Room for the longest words so far."""
        return self._room

    def minimumSizeHint(self) -> QSize:
        """Words are cut off before anything else is pushed out of the window."""
        return QSize(0, self._room.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the label as large as this widget."""
        self._label.setGeometry(self.contentsRect())
