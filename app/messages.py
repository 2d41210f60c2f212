"""The bar that speaks to the user without getting in the way: one line, perhaps one thing to do, and a cross."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QToolButton, QWidget

from app.icons import icon
from app.theme import SPACE, TARGET, TIGHT, WIDE, current


class MessageBar(QFrame):
    """Shows the last thing that was said until it is closed or something else is said."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName("Message")
        self._wrong = False
        self._act: Callable[[], None] | None = None
        self._text = QLabel(wordWrap=True, textInteractionFlags=Qt.TextInteractionFlag.TextSelectableByMouse)
        self._text.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self._do = QPushButton(clicked=self._pressed)
        self._close = QToolButton(autoRaise=True, toolTip="Close this message", clicked=self.hide)
        self._close.setAccessibleName("Close this message")
        self._close.setMinimumSize(TARGET, TARGET)
        row = QHBoxLayout(self)
        row.setContentsMargins(WIDE, TIGHT, SPACE, TIGHT)
        row.setSpacing(SPACE)
        for widget in (self._text, self._do, self._close):
            row.addWidget(widget)
        self.show_theme()
        self.hide()

    @property
    def text(self) -> str:
        """What is said; empty while the bar is hidden."""
        return self._text.text() if not self.isHidden() else ""

    def say(self, text: str, offer: str = "", act: Callable[[], None] | None = None) -> None:
        """Say something; `offer` names a button that does `act`."""
        self._speak(text, False, offer, act)

    def warn(self, text: str, offer: str = "", act: Callable[[], None] | None = None) -> None:
        """Say that something went wrong."""
        self._speak(text, True, offer, act)

    def _speak(self, text: str, wrong: bool, offer: str, act: Callable[[], None] | None) -> None:
        self._wrong, self._act = wrong, act
        self._text.setText(text)
        self._text.setAccessibleName(text)
        self._do.setText(offer)
        self._do.setVisible(bool(offer))
        self.show_theme()
        self.show()

    def _pressed(self) -> None:
        self.hide()
        if self._act:
            self._act()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self._close.setIcon(icon("cancel"))
        palette = self.palette()
        palette.setColor(self._text.foregroundRole(), current().colour("warning" if self._wrong else "text"))
        self._text.setPalette(palette)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A plain ground with a mark at its left, in the colour of what is said."""
        theme = current()
        painter = QPainter(self)
        painter.fillRect(self.rect(), theme.colour("raised"))
        painter.fillRect(0, 0, TIGHT, self.height(), theme.colour("warning" if self._wrong else "accent"))
        painter.fillRect(0, self.height() - 1, self.width(), 1, theme.colour("line"))
        painter.end()


class OfferBar(MessageBar):
    """A message that stays as long as it is true, with several things to do."""

    def __init__(self, text: str, offers: dict[str, Callable[[], None]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(text)
        self._text.setText(text)
        self._do.hide()
        self._close.hide()
        for offer, act in offers.items():
            self.layout().addWidget(QPushButton(offer, clicked=act))
