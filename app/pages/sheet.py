"""The sheet of a drawing: its outlines to choose pieces from, and two marks on a line whose length is known."""

import math
from collections.abc import Collection, Sequence

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPainterPath, QPen, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QGraphicsPathItem, QGraphicsScene, QGraphicsView, QSizePolicy

from app.canvas.shapes import polygon
from app.theme import GRID, Size, current
from app.words import later, tr
from core.files.outlines import Drawing, Outline

SNAP_PX = 12.0
"""A mark goes to a corner of a line this close to where one clicks."""
_ZOOM = 1.25
_NEAREST, _FARTHEST = 40.0, 0.01
_EMPTY = later("Open a drawing: its outlines appear here.")


class Sheet(QGraphicsView):
    """Click an outline to take it or leave it; wheel zooms at the cursor, dragging moves the sheet, 0 shows it all."""

    clicked = Signal(int)
    """The outline that was clicked, by its place in the drawing."""
    marked = Signal(object)
    """Distance between both marks on the sheet, mm; None while there are fewer than two."""

    def __init__(self) -> None:
        super().__init__()
        self.setScene(QGraphicsScene(self))
        self.setAccessibleName(tr("The sheet"))
        self.setAccessibleDescription(tr("Outlines are chosen by a click, or in the list of outlines"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumSize(60 * GRID, 40 * GRID)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.AnchorUnderMouse)
        for policy in (self.setHorizontalScrollBarPolicy, self.setVerticalScrollBarPolicy):
            policy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.marking = False
        self.marks: list[QPointF] = []
        self._items: list[QGraphicsPathItem] = []
        self._corners = np.zeros((0, 2))
        self._taken: frozenset[int] = frozenset()
        self._current = -1
        self._names: dict[int, str] = {}
        self._zoomed = False
        self._pressed: QPointF | None = None
        self._moved = False

    # --- showing

    def show_drawing(self, drawing: Drawing | None) -> None:
        """Show another drawing, or none."""
        self.scene().clear()
        self._items, self.marks = [], []
        outlines = drawing.outlines if drawing else ()
        for outline in outlines:
            item = QGraphicsPathItem(_path(outline))
            self._items.append(item)
            self.scene().addItem(item)
        ends = [point for outline in outlines for segment in outline.segments for point in (segment[0], segment[-1])]
        self._corners = np.array(ends, dtype=float).reshape(-1, 2)
        box = self.scene().itemsBoundingRect()
        far = max(box.width(), box.height(), 1.0)
        self.scene().setSceneRect(box.adjusted(-far, -far, far, far))
        self._zoomed = False
        self.fit()
        self.marked.emit(None)

    def show_taken(self, taken: Collection[int], here: int, names: dict[int, str]) -> None:
        """Show which outlines become pieces, under which names, and which of them is looked at."""
        self._taken, self._current, self._names = frozenset(taken), here, names
        self.show_theme()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        theme = current()
        self.setBackgroundBrush(theme.colour("surface"))
        for index, item in enumerate(self._items):
            taken, here = index in self._taken, index == self._current
            pen = QPen(theme.colour("accent" if taken else "edge"), 2.5 if here and taken else 1.5 if taken else 1.0)
            pen.setCosmetic(True)
            item.setPen(pen)
            item.setBrush(theme.colour("selected") if taken else Qt.BrushStyle.NoBrush)
            item.setZValue(0 if taken else 1)
        self.viewport().update()

    def fit(self) -> None:
        """Show the whole sheet."""
        box = self.scene().itemsBoundingRect()
        if not box.isEmpty():
            margin = 0.04 * max(box.width(), box.height())
            self.fitInView(box.adjusted(-margin, -margin, margin, margin), Qt.AspectRatioMode.KeepAspectRatio)

    def mark(self, on: bool) -> None:
        """Let clicks mark the ends of a line, or take outlines again."""
        self.marking, self.marks = on, []
        self.viewport().setCursor(Qt.CursorShape.CrossCursor if on else Qt.CursorShape.ArrowCursor)
        self.viewport().update()
        self.marked.emit(None)

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """Names and marks, in px so that they are as large at any scale."""
        theme = current()
        painter.save()
        painter.resetTransform()
        painter.setFont(theme.font(Size.SMALL))
        painter.setPen(theme.colour("text"))
        for index, name in self._names.items():
            at = self.mapFromScene(self._items[index].boundingRect().center())
            painter.drawText(QRectF(at.x() - 100, at.y() - 10, 200, 20), Qt.AlignmentFlag.AlignCenter, name)
        self._draw_marks(painter)
        if not self._items:
            painter.setPen(theme.colour("quiet"))
            painter.setFont(theme.font())
            painter.drawText(QRectF(self.viewport().rect()), Qt.AlignmentFlag.AlignCenter, tr(_EMPTY))
        painter.restore()

    def _draw_marks(self, painter: QPainter) -> None:
        places = [QPointF(self.mapFromScene(mark)) for mark in self.marks]
        for colour, width in (("halo", 5.0), ("warning", 2.0)):
            painter.setPen(QPen(current().colour(colour), width))
            for at in places:
                painter.drawLine(at - QPointF(8, 0), at + QPointF(8, 0))
                painter.drawLine(at - QPointF(0, 8), at + QPointF(0, 8))
            if len(places) == 2:
                painter.drawLine(*places)

    # --- hands

    def outline_at(self, at: QPointF) -> int | None:
        """The smallest closed outline that a place on the sheet lies in, mm."""
        here = [index for index, item in enumerate(self._items) if item.path().contains(at)]
        return min(here, key=lambda index: _area(self._items[index].boundingRect()), default=None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """A click, or the beginning of a drag."""
        self._pressed = event.position()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the sheet under the hand."""
        if self._pressed is None or not event.buttons():
            return
        by = event.position() - self._pressed
        if self._zoomed or by.manhattanLength() > GRID:
            self._zoomed = True
            self._pressed = event.position()
            for bar, step in ((self.horizontalScrollBar(), by.x()), (self.verticalScrollBar(), by.y())):
                bar.setValue(bar.value() - round(step))
            self._moved = True

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Take the outline that was clicked, or set a mark."""
        moved, self._moved = self._moved, False
        pressed, self._pressed = self._pressed, None
        if moved or pressed is None or event.button() != Qt.MouseButton.LeftButton:
            return
        at = self.mapToScene(event.position().toPoint())
        if self.marking:
            self._set_mark(at)
        elif (index := self.outline_at(at)) is not None:
            self.clicked.emit(index)

    def _set_mark(self, at: QPointF) -> None:
        self.show_marks([*(self.marks if len(self.marks) < 2 else []), self._snapped(at)])

    def show_marks(self, marks: Sequence[QPointF]) -> None:
        """Show up to two marks, mm on the sheet."""
        self.marks = list(marks)
        self.viewport().update()
        if len(self.marks) == 2:
            between = self.marks[1] - self.marks[0]
            self.marked.emit(math.hypot(between.x(), between.y()))
        else:
            self.marked.emit(None)

    def _snapped(self, at: QPointF) -> QPointF:
        if not len(self._corners):
            return at
        away = np.hypot(*(self._corners - (at.x(), at.y())).T)
        nearest = int(np.argmin(away))
        return QPointF(*self._corners[nearest]) if away[nearest] * self.transform().m11() <= SNAP_PX else at

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the cursor."""
        self._zoom(_ZOOM ** (event.angleDelta().y() / 120))
        event.accept()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Plus and minus zoom, 0 shows the whole sheet."""
        factors = {Qt.Key.Key_Plus: _ZOOM, Qt.Key.Key_Equal: _ZOOM, Qt.Key.Key_Minus: 1 / _ZOOM}
        if event.key() in factors:
            self._zoom(factors[Qt.Key(event.key())])
        elif event.key() == Qt.Key.Key_0:
            self._zoomed = False
            self.fit()
        else:
            super().keyPressEvent(event)

    def _zoom(self, factor: float) -> None:
        scale = self.transform().m11() * factor
        if _FARTHEST < scale < _NEAREST:
            self._zoomed = True
            self.scale(factor, factor)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the whole sheet, unless one has gone nearer."""
        super().resizeEvent(event)
        if not self._zoomed:
            self.fit()


def _path(outline: Outline) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon(polygon(outline.points))
    if outline.closed:
        path.closeSubpath()
    return path


def _area(box: QRectF) -> float:
    return box.width() * box.height()
