"""The picture of a whole cloth on which an outline is drawn corner by corner, or one of its corners is dragged."""

from PySide6.QtCore import QEvent, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPen, QPolygonF

from app.pages.cloth_picture import WholeCloth
from app.theme import GRID, current
from app.words import tr
from core.model.cloth import Cloth, Point

_NEAR = 3 * GRID
_LEAST = 3
_DEEP = 0.8
"""Share of its width that is shown of an endless cloth while there is an outline to draw on it."""


class OutlineHands(WholeCloth):
    """`drawn` brings the corners (u, v), mm, of an outline that was drawn or changed; `given_up` says there is none."""

    drawn = Signal(object)
    given_up = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleDescription(tr("Corners of an outline can be dragged here, and typed in the form"))
        self.setFocusPolicy(Qt.FocusPolicy.ClickFocus)
        self.setMouseTracking(True)
        self._points: list[Point] = []
        self._new: list[Point] = []
        self._drawing, self._held, self._at = False, -1, QPointF()
        self._cloth = Cloth(id="main", width=1400.0)

    def show_cloth(self, cloth: Cloth, wanted_mm: float = 0.0) -> None:
        """Show a cloth, further down while an outline is chosen."""
        self._cloth = cloth
        deep = cloth.end or _DEEP * cloth.width
        super().show_cloth(cloth, max(wanted_mm, deep if self._points else 0.0))

    def show_outline(self, points: tuple[Point, ...]) -> None:
        """Show the corners of an outline; none where there are none."""
        changed = bool(points) != bool(self._points)
        self._points = list(points)
        if changed:
            self.show_cloth(self._cloth)
        self.viewport().update()

    def draw(self, on: bool) -> None:
        """Let clicks set the corners of a new outline, or let go of it."""
        self._drawing, self._new = on, []
        self.viewport().setCursor(Qt.CursorShape.CrossCursor if on else Qt.CursorShape.ArrowCursor)
        if on:
            self.setFocus()
        self.viewport().update()

    # --- hands

    def _place(self, at: QPointF) -> Point:
        """The place on the cloth under a place in the view, to a tenth of a millimetre, inside the cloth."""
        point, box = self.mapToScene(at.toPoint()), self.sceneRect()
        u = min(max(point.x(), 0.0), self._cloth.width)
        return round(u, 1), round(min(max(point.y(), 0.0), box.bottom()), 1)

    def _near(self, point: Point, at: QPointF) -> bool:
        return (QPointF(self.mapFromScene(QPointF(*point))) - at).manhattanLength() <= _NEAR

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Set a corner, close the outline, or take hold of a corner."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        at = event.position()
        if not self._drawing:
            self._held = next((index for index, point in enumerate(self._points) if self._near(point, at)), -1)
        elif len(self._new) >= _LEAST and self._near(self._new[0], at):
            self._close()
        elif not self._new or not self._near(self._new[-1], at):
            self._new.append(self._place(at))
        self.viewport().update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Move the corner that is held, or the line to the next one."""
        self._at = event.position()
        if self._held >= 0:
            self._points[self._held] = self._place(self._at)
        if self._held >= 0 or self._drawing:
            self.viewport().update()

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go of the corner."""
        held, self._held = self._held, -1
        if held >= 0:
            self.drawn.emit(tuple(self._points))

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Close the outline."""
        if self._drawing and len(self._new) >= _LEAST:
            self._close()

    def event(self, event: QEvent) -> bool:
        """While an outline is drawn, Esc and Enter are this picture's."""
        if event.type() == QEvent.Type.ShortcutOverride and self._drawing:
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Enter closes the outline, Esc gives it up, Backspace takes the last corner back."""
        key = event.key()
        if self._drawing and key in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and len(self._new) >= _LEAST:
            self._close()
        elif self._drawing and key == Qt.Key.Key_Escape:
            self.given_up.emit()
        elif self._drawing and key == Qt.Key.Key_Backspace and self._new:
            self._new.pop()
            self.viewport().update()
        else:
            super().keyPressEvent(event)

    def _close(self) -> None:
        points = tuple(self._new)
        self.draw(False)
        self.drawn.emit(points)

    # --- painting

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """The outline chosen with its corners, or as much of a new one as there is."""
        painter.save()
        painter.resetTransform()
        shown = self._new if self._drawing else self._points
        places = [QPointF(self.mapFromScene(QPointF(*point))) for point in shown]
        ends = [self._at] if self._drawing and self._new else places[:1]
        for colour, wide in (("halo", 5.0), ("chosen", 2.0)):
            painter.setPen(QPen(current().colour(colour), wide))
            painter.drawPolyline(QPolygonF([*places, *ends]))
        painter.setPen(QPen(current().colour("chosen"), 1.5))
        painter.setBrush(current().colour("halo"))
        for place in places:
            painter.drawRect(QRectF(place.x() - GRID, place.y() - GRID, 2 * GRID, 2 * GRID))
        painter.restore()
