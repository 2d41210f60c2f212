"""Rulers along the canvas, in the unit of the workbench, that follow its zoom."""

import math

from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QSize, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.canvas.view import CanvasView
from app.ruler_scale import divided, ruled
from app.theme import Size, current
from app.units import shown
from app.words import tr

THICK_PX = 24
ROOM_PX = 56
"""Least distance between two figures."""


class Ruler(QWidget):
    """One ruler: across the cloth (u, along the top) or along it (v, at the left)."""

    def __init__(self, view: CanvasView, across: bool, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._view, self._across = view, across
        self._cursor: float | None = None
        self._scale: QPixmap | None = None
        self.setAccessibleName(tr("Ruler across the cloth") if across else tr("Ruler along the cloth"))
        policy = (QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(*(policy if across else policy[::-1]))
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        view.view_changed.connect(self._draw_afresh)
        view.cursor_moved.connect(self._follow)
        view.cursor_left.connect(self._forget)

    def sizeHint(self) -> QSize:
        """As thick as its figures need."""
        return QSize(THICK_PX, THICK_PX)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._draw_afresh()

    def _draw_afresh(self) -> None:
        self._scale = None
        self.update()

    def changeEvent(self, event: QEvent) -> None:
        """Follow a change of colours."""
        self._draw_afresh()
        super().changeEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Follow a change of length."""
        self._draw_afresh()

    def _follow(self, at: QPointF, _panel: object) -> None:
        self._move_mark(at.x() if self._across else at.y())

    def _forget(self) -> None:
        self._move_mark(None)

    def _move_mark(self, mm: float | None) -> None:
        for place in (self._cursor, mm):
            if place is not None:
                self.update(self._strip(self._to_px(place)))
        self._cursor = mm

    def _strip(self, px: float) -> QRect:
        at = math.floor(px) - 1
        return QRect(at, 0, 4, THICK_PX) if self._across else QRect(0, at, THICK_PX, 4)

    def _to_px(self, mm: float) -> float:
        to = self._view.viewportTransform()
        return mm * to.m11() + to.dx() if self._across else mm * to.m22() + to.dy()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The scale, and where the mouse is."""
        self._scale = self._scale or self._drawn_scale()
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._scale)
        if self._cursor is not None:
            painter.setPen(QPen(current().colour("accent"), 1))
            self._tick(painter, self._to_px(self._cursor), THICK_PX)
        painter.end()

    def _drawn_scale(self) -> QPixmap:
        """Ticks and figures, kept as a picture while the view stays, since the mouse moves over it all the time."""
        ratio, theme, edge = self.devicePixelRatioF(), current(), THICK_PX - 1
        picture = QPixmap(self.size() * ratio)
        picture.setDevicePixelRatio(ratio)
        picture.fill(theme.colour("window"))
        painter = QPainter(picture)
        painter.setFont(theme.font(Size.SMALL))
        self._paint_scale(painter, self.rect())
        painter.setPen(theme.colour("line"))
        painter.drawLine(0, edge, self.width(), edge) if self._across else painter.drawLine(
            edge, 0, edge, self.height()
        )
        painter.end()
        return picture

    def _paint_scale(self, painter: QPainter, part: QRect) -> None:
        scale = self._view.scale_px
        step, parts = divided(scale, ROOM_PX)
        low, high = self._range(part)
        fine = step / parts
        for index in range(math.floor(low / fine), math.ceil(high / fine) + 1):
            at = self._to_px(index * fine)
            painter.setPen(current().colour("edge"))
            self._tick(
                painter, at, 9 if index % parts == 0 else 6 if parts % 2 == 0 and index % (parts // 2) == 0 else 4
            )
            if index % parts == 0:
                painter.setPen(current().colour("quiet"))
                self._figure(painter, at, ruled(index * fine))

    def _range(self, part: QRect) -> tuple[float, float]:
        """From where to where the scale shows in a part of the ruler, mm, with room for a figure on either side."""
        low, high = (part.left(), part.right()) if self._across else (part.top(), part.bottom())
        start, scale = self._to_px(0.0), self._view.scale_px
        return (low - ROOM_PX - start) / scale, (high + ROOM_PX - start) / scale

    def _tick(self, painter: QPainter, px: float, length: int) -> None:
        at, edge = round(px), THICK_PX - 1
        if self._across:
            painter.drawLine(at, edge - length, at, edge)
        else:
            painter.drawLine(edge - length, at, edge, at)

    def _figure(self, painter: QPainter, px: float, text: str) -> None:
        metrics = QFontMetrics(painter.font())
        wide = metrics.horizontalAdvance(text)
        if self._across:
            painter.drawText(QPoint(round(px) - wide // 2, metrics.ascent() - 1), text)
            return
        painter.save()
        painter.translate(metrics.ascent() - 1, round(px) + wide / 2)
        painter.rotate(-90)
        painter.drawText(0, 0, text)
        painter.restore()


class RulerCorner(QWidget):
    """Where the rulers meet: tells their unit."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setFixedSize(THICK_PX, THICK_PX)
        self.show_unit()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self.setAccessibleName(tr("Unit of the rulers: {title}").format(title=shown().title))
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The unit."""
        theme = current()
        painter = QPainter(self)
        painter.setFont(theme.font(Size.SMALL))
        painter.setPen(theme.colour("quiet"))
        painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, shown().name)
        painter.end()
