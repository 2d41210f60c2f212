"""A button of the start page: a picture at its left, what it does, and a quiet line that says more."""

from collections.abc import Callable

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QFont, QFontMetrics, QIcon, QPainter, QPaintEvent, QPixmap
from PySide6.QtWidgets import QPushButton, QStyle, QStyleOptionButton, QStylePainter

from app.theme import GRID, ROOMY, SPACE, Size, current

WIDE_PX, TALL_PX = 340, 52
PICTURE = QSize(14 * GRID, 9 * GRID)
"""The room for a picture, px; an icon stands in its middle."""


class StartCard(QPushButton):
    """One way to begin. What it needs is made when it is pressed."""

    def __init__(self, text: str, more: str, act: Callable[[], object]) -> None:
        super().__init__(text)
        self._more = more
        self.picture = QPixmap()
        self.setMinimumSize(WIDE_PX, TALL_PX)
        self.setCursor(Qt.CursorShape.PointingHandCursor)
        self.setAccessibleDescription(more)
        self.clicked.connect(lambda _=False: act())

    def sizeHint(self) -> QSize:
        """Room for both lines."""
        wide = max(QFontMetrics(_font(bold)).horizontalAdvance(words) for words, bold in self._lines())
        return QSize(max(WIDE_PX, wide + PICTURE.width() + 4 * ROOMY), TALL_PX)

    def _lines(self) -> tuple[tuple[str, bool], ...]:
        """What stands on it, and whether it is bold."""
        return (self.text(), True), (self._more, False)

    def show_picture(self, picture: QPixmap) -> None:
        """Take a picture in the place of an icon."""
        self.picture = picture
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The button as the desktop draws it, and what stands on it."""
        painter, option = QStylePainter(self), QStyleOptionButton()
        self.initStyleOption(option)
        option.text, option.icon = "", QIcon()
        painter.drawControl(QStyle.ControlElement.CE_PushButton, option)
        inside = self.rect().adjusted(ROOMY, SPACE, -ROOMY, -SPACE)
        self._paint_picture(painter, QRect(inside.topLeft(), QSize(PICTURE.width(), inside.height())))
        self._paint_words(painter, inside.adjusted(PICTURE.width() + ROOMY, 0, 0, 0))

    def _paint_picture(self, painter: QPainter, room: QRect) -> None:
        if self.picture.isNull():
            icon = QRect(0, 0, 6 * GRID, 6 * GRID)
            icon.moveCenter(room.center())
            self.icon().paint(painter, icon)
            return
        place = QRect(room.topLeft(), PICTURE)
        place.moveCenter(room.center())
        painter.drawPixmap(place, self.picture)

    def _paint_words(self, painter: QPainter, room: QRect) -> None:
        half = QSize(room.width(), room.height() // 2)
        for words, bold in self._lines():
            painter.setFont(_font(bold))
            painter.setPen(current().colour("text" if bold else "quiet"))
            place = QRect(room.topLeft(), half)
            fitting = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideMiddle, place.width())
            painter.drawText(place, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter, fitting)
            room = room.translated(0, half.height())


def _font(bold: bool) -> QFont:
    return current().font(Size.NORMAL if bold else Size.SMALL, bold)
