"""A picture of cloth with the marks that tell its scale and, once found, where repeats start and their profile."""

from collections.abc import Sequence

import numpy as np
import numpy.typing as npt
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import (
    QImage,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.pages.swatch_painting import LENS, Part, paint_found, paint_lens, paint_marks, paint_part
from app.theme import GRID, SPACE, Size, current
from app.words import tr
from core.swatch.scale import Point
from core.swatch.swatch import Swatch

_ZOOM_KEYS = {"+": 1.25, "=": 1.25, "-": 0.8}
_NUMBERS = ("1", "2", "3", "4")
_CHOOSE_KEYS = (Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Space)
_ZOOM, _NEAREST = 1.25, 40.0
_LEAST_PART = 8
"""A part of the picture is at least so many pixels wide and high; a shorter drag is a slip of the hand."""
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
    4 choose a mark. While it is moved it is seen through a magnifier. Ctrl with the wheel, or + and -, come nearer, 0
    shows all, the middle button, or Ctrl with the arrow keys, moves the picture. Enter marks the middle of what is
    shown. While a part is asked for, a drag gives it, and Enter makes it what is shown.
    """

    marked = Signal()
    """The marks have changed."""
    part_dragged = Signal(object)
    """A part of the picture was given by a drag: left, top, right, bottom, px of the file."""

    def __init__(self, name: str = "") -> None:
        super().__init__()
        self.setAccessibleName(name or tr("Picture of the cloth"))
        self.setAccessibleDescription(
            tr(
                "Click to mark places; arrow keys move the last mark by a pixel. + and - come nearer and go further "
                "off, Ctrl with arrow keys moves the picture, Enter marks the middle of what is shown, or makes it "
                "the part that counts."
            )
        )
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(60 * GRID)
        self._image, self._size = QImage(), (1, 1)
        self._marks: list[Point] = []
        self._needed, self._touched, self._held = 0, 0, False
        self._swatch: Swatch | None = None
        self._zoom, self._moved = 1.0, QPointF()
        self._pulled: QPointF | None = None
        self._asks_part = False
        self._corner: Point | None = None
        self._part: Part | None = None

    @property
    def marks(self) -> tuple[Point, ...]:
        """The places marked, px of the file."""
        return tuple(self._marks)

    def show_picture(self, srgb: npt.NDArray[np.uint8], factor: int) -> None:
        """Show pixels (height, width, 3), each of which is `factor` pixels of the file wide."""
        height, width = srgb.shape[:2]
        self._image = QImage(srgb.tobytes(), width, height, 3 * width, QImage.Format.Format_RGB888).copy()
        self._size = (width * factor, height * factor)
        self._marks, self._swatch, self._part = [], None, None
        self.fit()

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

    def ask_part(self, on: bool) -> None:
        """Let a drag give a part of the picture, or set marks again."""
        self._asks_part, self._corner = on, None
        self.setCursor(Qt.CursorShape.CrossCursor if on or self._needed else Qt.CursorShape.ArrowCursor)

    def show_part(self, part: Part | None) -> None:
        """Show which part of the picture counts; None: all of it."""
        self._part = part
        self.update()

    # --- coming nearer

    def fit(self) -> None:
        """Show the whole picture."""
        self._zoom, self._moved = 1.0, QPointF()
        self.update()

    def zoom(self, factor: float, at: QPointF | None = None) -> None:
        """Come nearer or go further off; the place `at` in the view stays where it is."""
        at = QRectF(self.rect()).center() if at is None else at
        before = self._zoom
        self._zoom = min(max(before * factor, 1.0), _NEAREST)
        away = at - QRectF(self.rect()).center() - self._moved
        self._moved = QPointF() if self._zoom == 1.0 else self._moved + away * (1 - self._zoom / before)
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """With Ctrl: zoom at the cursor."""
        if event.modifiers() & Qt.KeyboardModifier.ControlModifier and not self._image.isNull():
            self.zoom(_ZOOM ** (event.angleDelta().y() / 120), event.position())
            event.accept()
        else:
            super().wheelEvent(event)

    # --- marking

    def _room(self) -> QRectF:
        """Where the picture is drawn."""
        room = QRectF(self.rect()).adjusted(1, 1, -1, -1)
        scale = min(room.width() / self._size[0], room.height() / self._size[1])
        wide, high = self._size[0] * scale * self._zoom, self._size[1] * scale * self._zoom
        middle = room.center() + self._moved
        return QRectF(middle.x() - wide / 2, middle.y() - high / 2, wide, high)

    def _shown(self, place: Point) -> QPointF:
        room = self._room()
        return QPointF(
            room.left() + place[0] * room.width() / self._size[0], room.top() + place[1] * room.height() / self._size[1]
        )

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Mark a place, or take hold of a mark."""
        if event.button() == Qt.MouseButton.MiddleButton:
            self._pulled = event.position()
        if self._image.isNull() or event.button() != Qt.MouseButton.LeftButton:
            return
        if self._asks_part:
            self._corner = self._place(event.position())
        elif self._needed:
            self._press_mark(event)

    def _press_mark(self, event: QMouseEvent) -> None:
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
        """Move the mark that is held, pull the part open, or move the picture."""
        if self._pulled is not None:
            self._moved += event.position() - self._pulled
            self._pulled = event.position()
            self.update()
        elif self._corner is not None:
            self.show_part(_between(self._corner, self._place(event.position())))
        elif self._held:
            self._move(event.position())

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the mark, the part or the picture."""
        self._held, self._pulled = False, None
        if self._corner is not None:
            part = _between(self._corner, self._place(event.position()))
            self._corner = None
            large = min(part[2] - part[0], part[3] - part[1]) >= _LEAST_PART
            self.part_dragged.emit(part if large else None)
        self.update()

    def _place(self, at: QPointF) -> Point:
        """The place in the picture under a place in the view, px of the file."""
        room = self._room()
        x = (at.x() - room.left()) * self._size[0] / room.width()
        y = (at.y() - room.top()) * self._size[1] / room.height()
        return self._inside(x, y)

    def _inside(self, x: float, y: float) -> Point:
        return min(max(x, 0.0), self._size[0]), min(max(y, 0.0), self._size[1])

    def _move(self, to: QPointF) -> None:
        self._put(*self._place(to))

    def _put(self, x: float, y: float) -> None:
        if self._touched < len(self._marks):
            self._marks[self._touched] = self._inside(x, y)
            self.marked.emit()
            self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Move the mark touched last or the picture; mark a place or give the part; come nearer, go further off."""
        step = _STEPS.get(Qt.Key(event.key()))
        if event.text() in _ZOOM_KEYS:
            self.zoom(_ZOOM_KEYS[event.text()])
        elif event.text() == "0":
            self.fit()
        elif event.key() in _CHOOSE_KEYS and not self._image.isNull() and (self._asks_part or self._needed):
            self._choose_shown()
        elif event.text() and event.text() in _NUMBERS[: len(self._marks)]:
            self._touched = _NUMBERS.index(event.text())
            self.update()
        elif step and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._pan(step)
        elif step and self._touched < len(self._marks):
            far = 10 if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
            x, y = self._marks[self._touched]
            self._put(x + far * step[0], y + far * step[1])
        else:
            super().keyPressEvent(event)

    def _pan(self, step: tuple[int, int]) -> None:
        """Look further to one side: the picture moves the other way, as far as some of it stays in the middle."""
        room = self._room()
        far = QPointF(step[0] * self.width(), step[1] * self.height()) / 8
        x, y = self._moved.x() - far.x(), self._moved.y() - far.y()
        wide, high = room.width() / 2, room.height() / 2
        self._moved = QPointF(min(max(x, -wide), wide), min(max(y, -high), high))
        self.update()

    def _choose_shown(self) -> None:
        """Make what is shown the part that counts, or mark its middle."""
        if self._asks_part:
            corners = QRectF(self.rect()).topLeft(), QRectF(self.rect()).bottomRight()
            self.part_dragged.emit(_between(*(self._place(corner) for corner in corners)))
            return
        if len(self._marks) < self._needed:
            self._touched = len(self._marks)
            self._marks.append((0.0, 0.0))
            self._move(QRectF(self.rect()).center())

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
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, tr("The picture appears here."))
        else:
            painter.drawImage(self._room(), self._image)
            painter.setClipRect(self._room())
            for swatch in (self._swatch, self._swatch and self._swatch.crosswise):
                if swatch:
                    paint_found(painter, swatch, self._shown)
            painter.setClipping(False)
            if self._part:
                paint_part(painter, self._part, self._shown, self._room())
            paint_marks(painter, [self._shown(mark) for mark in self._marks])
            if self._touched < len(self._marks) and (self._held or self.hasFocus()):
                self._paint_lens(painter, self._marks[self._touched])
        painter.end()

    def _paint_lens(self, painter: QPainter, mark: Point) -> None:
        """The picture round a mark, enlarged, in the upper corner away from it."""
        right = self._shown(mark).x() < self.width() / 2
        x, y = (place * self._image.width() / self._size[0] for place in mark)
        paint_lens(painter, self._image, QPointF(x, y), QPointF(self.width() - LENS - SPACE if right else SPACE, SPACE))


def _between(one: Point, other: Point) -> Part:
    """The upright rectangle between two corners, px to the nearest whole one."""
    (x0, y0), (x1, y1) = one, other
    return (round(min(x0, x1)), round(min(y0, y1)), round(max(x0, x1)), round(max(y0, y1)))
