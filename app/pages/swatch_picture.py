"""A picture of cloth with the marks that tell its scale and, once found, where repeats start and their profile."""

from collections.abc import Sequence
from itertools import pairwise

import numpy as np
import numpy.typing as npt
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QColor, QImage, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.theme import GRID, SPACE, Size, current
from core.swatch.scale import Point
from core.swatch.swatch import Swatch

_LENS, _LARGER = 36 * GRID, 6
"""Side of the magnifier, px, and how many times larger than a pixel of the picture it shows it."""

_NUMBERS = ("1", "2", "3", "4")
_CURVE_HIGH = 18 * GRID
_NEAR = 3 * GRID
_STEPS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}


class SwatchPicture(QWidget):
    """Shows a picture as large as there is room; a click marks a place, or moves the mark that is near.

    Arrow keys move the mark touched last by a pixel of the picture, with Shift by ten, and the keys 1 to
    4 choose a mark. While it is moved it is seen through a magnifier.
    """

    marked = Signal()
    """The marks have changed."""

    def __init__(self, name: str = "Picture of the cloth") -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.setAccessibleDescription("Click to mark places; arrow keys move the last mark by a pixel.")
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(60 * GRID)
        self._image, self._size = QImage(), (1, 1)
        self._marks: list[Point] = []
        self._needed, self._touched, self._held = 0, 0, False
        self._swatch: Swatch | None = None

    @property
    def marks(self) -> tuple[Point, ...]:
        """The places marked, px of the file."""
        return tuple(self._marks)

    def show_picture(self, srgb: npt.NDArray[np.uint8], factor: int) -> None:
        """Show pixels (height, width, 3), each of which is `factor` pixels of the file wide."""
        height, width = srgb.shape[:2]
        self._image = QImage(srgb.tobytes(), width, height, 3 * width, QImage.Format.Format_RGB888).copy()
        self._size = (width * factor, height * factor)
        self._marks, self._swatch = [], None
        self.update()

    def ask_marks(self, number: int) -> None:
        """Take so many marks."""
        self._needed = number
        del self._marks[number:]
        self.setCursor(Qt.CursorShape.CrossCursor if number else Qt.CursorShape.ArrowCursor)
        self.update()

    def show_marks(self, marks: Sequence[Point]) -> None:
        """Put the marks elsewhere, without saying so."""
        self._marks = list(marks)
        self.update()

    def show_swatch(self, swatch: Swatch | None) -> None:
        """Show what was found, or nothing any more."""
        self._swatch = swatch
        self.update()

    # --- marking

    def _room(self) -> QRectF:
        """Where the picture is drawn."""
        room = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        scale = min(room.width() / self._size[0], room.height() / self._size[1])
        wide, high = self._size[0] * scale, self._size[1] * scale
        return QRectF(room.center().x() - wide / 2, room.center().y() - high / 2, wide, high)

    def _shown(self, place: Point) -> QPointF:
        room = self._room()
        return QPointF(
            room.left() + place[0] * room.width() / self._size[0], room.top() + place[1] * room.height() / self._size[1]
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Mark a place, or take hold of a mark."""
        if self._image.isNull() or not self._needed or event.button() != Qt.MouseButton.LeftButton:
            return
        near = [
            index
            for index, mark in enumerate(self._marks)
            if (self._shown(mark) - event.position()).manhattanLength() < _NEAR
        ]
        if near:
            self._touched = near[0]
        elif len(self._marks) < self._needed:
            self._touched = len(self._marks)
            self._marks.append((0.0, 0.0))
        else:
            return
        self._held = True
        self._move(event.position())

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the mark that is held."""
        if self._held:
            self._move(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the mark."""
        self._held = False
        self.update()

    def _move(self, to: QPointF) -> None:
        room = self._room()
        x = (to.x() - room.left()) * self._size[0] / room.width()
        y = (to.y() - room.top()) * self._size[1] / room.height()
        self._put(x, y)

    def _put(self, x: float, y: float) -> None:
        if self._touched < len(self._marks):
            self._marks[self._touched] = (min(max(x, 0.0), self._size[0]), min(max(y, 0.0), self._size[1]))
            self.marked.emit()
            self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the mark touched last."""
        step = _STEPS.get(Qt.Key(event.key()))
        if event.text() in _NUMBERS[: len(self._marks)]:
            self._touched = _NUMBERS.index(event.text())
            self.update()
            return
        if step is None or self._touched >= len(self._marks):
            super().keyPressEvent(event)
            return
        far = 10 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
        x, y = self._marks[self._touched]
        self._put(x + far * step[0], y + far * step[1])

    # --- painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """The picture, what was found in it, the marks."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), current().colour("surface"))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setRenderHint(QPainter.RenderHint.SmoothPixmapTransform)
        if self._image.isNull():
            painter.setFont(current().font(Size.NORMAL))
            painter.setPen(current().colour("quiet"))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "The picture appears here.")
        else:
            painter.drawImage(self._room(), self._image)
            painter.setClipRect(self._room())
            if self._swatch:
                self._paint_found(painter, self._swatch)
            painter.setClipping(False)
            self._paint_marks(painter)
            if self._touched < len(self._marks) and (self._held or self.hasFocus()):
                self._paint_lens(painter, self._marks[self._touched])
        painter.end()

    def _paint_lens(self, painter: QPainter, mark: Point) -> None:
        """The picture round a mark, enlarged, in the upper corner away from it."""
        right = self._shown(mark).x() < self.width() / 2
        lens = QRectF(self.width() - _LENS - SPACE if right else SPACE, SPACE, _LENS, _LENS)
        x, y = (place * self._image.width() / self._size[0] for place in mark)
        wide = _LENS / _LARGER
        painter.fillRect(lens, current().colour("surface"))
        painter.drawImage(lens, self._image, QRectF(x - wide / 2, y - wide / 2, wide, wide))
        for colour, width in (("halo", 3.0), ("ink", 1.0)):
            painter.setPen(QPen(current().colour(colour), width))
            for way in (QPointF(_LENS / 2, 0), QPointF(0, _LENS / 2)):
                painter.drawLine(lens.center() - way, lens.center() + way)
        painter.setPen(QPen(current().colour("edge"), 2.0))
        painter.drawRect(lens)

    def _paint_found(self, painter: QPainter, swatch: Swatch) -> None:
        """Lines where repeats start, and the lightness across each repeat as a curve between them."""
        lines = [(self._shown(tuple(a)), self._shown(tuple(b))) for a, b in swatch.starts_px]
        curve = QPolygonF()
        light = swatch.profile_srgb[::4].mean(axis=1)
        for (a, b), (c, d) in pairwise(lines):
            down = b - a
            down /= max((down.x() ** 2 + down.y() ** 2) ** 0.5, 1e-9)
            start, across = (a + b) / 2, (c + d - a - b) / 2
            for index, value in enumerate(light):
                curve.append(start + across * (index + 0.5) / len(light) + down * _CURVE_HIGH * (0.5 - float(value)))
        for colour, wide in (("halo", 5.0), ("chosen", 2.0)):
            painter.setPen(QPen(current().colour(colour), wide))
            painter.drawPolyline(curve)
        for colour, wide, style in (("halo", 3.0, Qt.PenStyle.SolidLine), ("chosen", 1.5, Qt.PenStyle.DashLine)):
            painter.setPen(QPen(current().colour(colour), wide, style))
            for a, b in lines:
                painter.drawLine(a, b)

    def _paint_marks(self, painter: QPainter) -> None:
        painter.setFont(current().font(Size.SMALL, bold=True))
        places = [self._shown(mark) for mark in self._marks]
        outline = QPolygonF(places + places[:1] if len(places) > 2 else places)
        for colour, wide in (("halo", 4.0), ("ink", 1.5)):
            painter.setPen(QPen(current().colour(colour), wide))
            painter.drawPolyline(outline)
            for place in places:
                painter.drawEllipse(place, SPACE, SPACE)
                painter.drawPoint(place)
        for number, place in enumerate(places, start=1):
            spot = QRectF(place.x() + SPACE, place.y() + SPACE, 5 * GRID, 5 * GRID)
            painter.fillRect(spot, QColor(current().colour("halo")))
            painter.drawText(spot, Qt.AlignmentFlag.AlignCenter, str(number))
