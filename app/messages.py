"""The bar that speaks to the user without getting in the way: one line, perhaps one thing to do, and a cross."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QPainter, QPaintEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QSizePolicy, QToolButton, QWidget

from app.icons import icon
from app.theme import SPACE, TARGET, TIGHT, WIDE, current
from app.words import tr

MARGIN_PX = 36
WIDEST_PX = 900


class Bar(QFrame):
    """A line of words with buttons at its right, marked by a stripe of colour at its left."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.wrong = False
        self.words = QLabel(wordWrap=True)
        self.words.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.row = QHBoxLayout(self)
        self.row.setContentsMargins(WIDE, TIGHT, SPACE, TIGHT)
        self.row.setSpacing(SPACE)
        self.row.addWidget(self.words)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        palette = self.words.palette()
        palette.setColor(self.words.foregroundRole(), current().colour("warning" if self.wrong else "text"))
        self.words.setPalette(palette)
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """A plain ground with a hairline round it, and the stripe at its left."""
        theme = current()
        painter = QPainter(self)
        painter.setPen(theme.colour("line"))
        painter.setBrush(theme.colour("raised"))
        painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.fillRect(0, 0, TIGHT, self.height(), theme.colour("warning" if self.wrong else "accent"))
        painter.end()


class MessageBar(Bar):
    """Floats at the bottom of its parent and shows what was said last until it is closed or something else is said."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Message"))
        self._act: Callable[[], None] | None = None
        self._do = QPushButton(clicked=self._pressed)
        self._close = QToolButton(autoRaise=True, toolTip=tr("Close this message"), clicked=self.hide)
        self._close.setAccessibleName(tr("Close this message"))
        for button in (self._do, self._close):
            button.setMinimumSize(TARGET, TARGET)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            self.row.addWidget(button)
        parent.installEventFilter(self)
        self.show_theme()
        self.hide()

    @property
    def text(self) -> str:
        """What is said; empty while the bar is hidden."""
        return "" if self.isHidden() else self.words.text()

    def say(self, text: str, offer: str = "", act: Callable[[], object] | None = None) -> None:
        """Say something; `offer` names a button that does `act`."""
        self._speak(text, False, offer, act)

    def warn(self, text: str, offer: str = "", act: Callable[[], object] | None = None) -> None:
        """Say that something went wrong."""
        self._speak(text, True, offer, act)

    def give_way(self) -> None:
        """Go when a hand goes on working: what was said is of before. A warning stays until it is closed."""
        if not self.wrong:
            self.hide()

    def _speak(self, text: str, wrong: bool, offer: str, act: Callable[[], object] | None) -> None:
        self.wrong, self._act = wrong, act
        self.words.setText(text)
        self.words.setAccessibleName(text)
        self._do.setText(offer)
        self._do.setVisible(bool(offer))
        self.show_theme()
        self._float()
        self.show()
        self.raise_()

    def _pressed(self) -> None:
        self.hide()
        if self._act:
            self._act()

    def _float(self) -> None:
        """Lie at the bottom, as wide as the words need and the parent allows."""
        room = self.parentWidget().rect().adjusted(MARGIN_PX, 0, -MARGIN_PX, -MARGIN_PX)
        buttons = self.sizeHint().width() - self.words.sizeHint().width()
        words = self.words.fontMetrics().horizontalAdvance(self.words.text()) + WIDE
        wide = min(words + buttons, room.width(), WIDEST_PX)
        high = self.heightForWidth(wide)
        self.setGeometry(room.left(), room.bottom() - high, wide, high)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Stay at the bottom when the parent changes its size."""
        if event.type() == QEvent.Type.Resize and not self.isHidden():
            self._float()
        return False

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self._close.setIcon(icon("cancel"))
        super().show_theme()


class OfferBar(Bar):
    """A message that stays as long as it is true, with several things to do."""

    def __init__(self, text: str, offers: dict[str, Callable[[], None]], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(text)
        self.words.setText(text)
        for offer, act in offers.items():
            button = QPushButton(offer, clicked=act)
            button.setMinimumHeight(TARGET)
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            self.row.addWidget(button)
        self.show_theme()
