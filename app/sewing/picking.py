"""Picking edges on the cloth with the mouse: the edge under the cursor lights up, a click takes it."""

from PySide6.QtCore import QEvent, QObject, QPointF, QRectF, Qt, Signal
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QToolTip, QWidget

from app.canvas.shapes import polygon
from app.canvas.view import CanvasView
from app.document import Document
from app.sewing.words import edge_title
from app.theme import current
from core.model.pattern import EdgeRef
from core.seams.nearest import EdgesOnCloth

REACH_PX = 14.0
"""An edge is picked from this close."""


class EdgePicker(QObject):
    """While it is on, clicks on the cloth pick edges; panels stay where they are. Escape ends it."""

    picked = Signal(str)
    """An edge was clicked."""
    ended = Signal()
    """Picking was ended with Escape."""

    def __init__(self, document: Document, view: CanvasView, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._view = document, view
        self.on = False
        self._edges: EdgesOnCloth | None = None
        self._marks: list[EdgeMark] = []
        self._under: EdgeRef | None = None
        self.first: EdgeRef | None = None
        document.project_changed.connect(self._forget_scene)
        document.placements_changed.connect(self._forget_places)
        view.viewport().installEventFilter(self)
        view.installEventFilter(self)

    def switch(self, on: bool) -> None:
        """Begin or end picking."""
        self.on, self._under = on, None
        self.show_first(None)
        shape = Qt.CursorShape.CrossCursor if on else Qt.CursorShape.ArrowCursor
        self._view.viewport().setCursor(shape)
        if on:
            self._view.setFocus()

    def show_first(self, ref: EdgeRef | None) -> None:
        """Keep an edge lit while the other one is sought."""
        self.first = ref
        self._light()

    def edge_at(self, at: QPointF) -> EdgeRef | None:
        """The edge near a place on the viewport, px."""
        place = self._view.mapToScene(at.toPoint())
        return self._lines().nearest(place.x(), place.y(), REACH_PX / self._view.scale_px)

    def _lines(self) -> EdgesOnCloth:
        cloth = self._view.scene_here.cloth.id
        if self._edges is None or self._cloth != cloth:
            self._cloth = cloth
            self._edges = EdgesOnCloth.of(self._document.project, self._document.garment, cloth)
        return self._edges

    def _forget_places(self) -> None:
        self._edges = None
        self._light()

    def _forget_scene(self) -> None:
        """The scene has been drawn afresh: its items are gone."""
        self._edges, self._marks, self._under, self.first = None, [], None, None

    # --- the mouse

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Take what belongs to picking; wheel and middle button stay the view's."""
        if not self.on:
            return False
        if watched is self._view:
            return self._take_key(event)
        if event.type() == QEvent.Type.MouseMove and event.buttons() == Qt.MouseButton.NoButton:
            self._hover(event)
            return True
        if event.type() in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonDblClick):
            return self._press(event)
        return False

    def _take_key(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent) and event.key() == Qt.Key.Key_Escape:
            self.ended.emit()
            return True
        return False

    def _hover(self, event: QMouseEvent) -> None:
        under = self.edge_at(event.position())
        place = self._view.mapToScene(event.position().toPoint())
        self._view.cursor_moved.emit(place, under.partition("/")[0] if under else None)
        if under != self._under:
            self._under = under
            self._light()
            title = edge_title(self._document.project, under) if under else ""
            QToolTip.showText(event.globalPosition().toPoint(), title, self._view.viewport())
        shape = Qt.CursorShape.PointingHandCursor if under else Qt.CursorShape.CrossCursor
        self._view.viewport().setCursor(shape)

    def _press(self, event: QMouseEvent) -> bool:
        if event.button() != Qt.MouseButton.LeftButton:
            return False
        under = self.edge_at(event.position())
        if under:
            self.picked.emit(under)
        return True

    def _light(self) -> None:
        """Light the edge under the cursor, and the one that was picked first."""
        scene = self._view.scene_here
        for mark in self._marks:
            scene.removeItem(mark)
        lit = dict.fromkeys(ref for ref in (self.first, self._under) if ref and self.on)
        lines = self._lines().lines if lit else {}
        self._marks = [EdgeMark(polygon(lines[ref]), ref == self.first) for ref in lit if ref in lines]
        for mark in self._marks:
            scene.addItem(mark)


class EdgeMark(QGraphicsItem):
    """An edge lit up: a wide line over a light halo, solid once it is picked."""

    def __init__(self, line: QPolygonF, picked: bool) -> None:
        super().__init__()
        self._line, self._picked = line, picked
        self.setZValue(20)
        self.setAcceptedMouseButtons(Qt.MouseButton.NoButton)

    def boundingRect(self) -> QRectF:
        """The edge with room for its pens, mm."""
        return self._line.boundingRect().adjusted(-60, -60, 60, 60)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Halo, then the line."""
        style = Qt.PenStyle.SolidLine if self._picked else Qt.PenStyle.DashLine
        for role, width, how in (("halo", 9.0, Qt.PenStyle.SolidLine), ("chosen", 4.5, style)):
            pen = QPen(current().colour(role), width, how)
            pen.setCosmetic(True)
            painter.setPen(pen)
            painter.drawPolyline(self._line)
