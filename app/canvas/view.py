"""The view on the cloth: zoom, pan and fit, and the mouse and keys that move panels."""

from PySide6.QtCore import QEvent, QPointF, QRect, QRectF, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QMouseEvent,
    QNativeGestureEvent,
    QPainter,
    QPen,
    QPolygonF,
    QResizeEvent,
    QTransform,
    QWheelEvent,
)
from PySide6.QtWidgets import QFrame, QGraphicsView, QWidget

from app.canvas.gestures import ADDING, Band, Gesture, MovePanels, Pan, TurnPanel
from app.canvas.handles import TurnHandle
from app.canvas.ready import Readiness
from app.canvas.scene import ClothScene
from app.canvas.still import StillPicture
from app.document import Document
from app.edits import Edits
from app.theme import current
from app.words import tr
from core.model.pattern import PanelName

LEAST_PX, MOST_PX = 0.02, 40.0
"""Limits of the scale, px per mm."""
ZOOM_STEP = 1.25
FIT_MARGIN_PX = 64
FOCUS_PX = 2
"""Width of the line round the view that has the keys."""

_ARROWS = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, -1),
    Qt.Key.Key_Down: (0, 1),
}
_ZOOMS = {Qt.Key.Key_Plus: 1, Qt.Key.Key_Equal: 1, Qt.Key.Key_Minus: -1}


class CanvasView(QGraphicsView):
    """The desk. Positions in its signals are u and v on the cloth, mm."""

    cursor_moved = Signal(QPointF, object)
    """Where the mouse is, and the panel under it or None."""
    cursor_left = Signal()
    view_changed = Signal()
    """The scale or the part of the cloth that is seen is another."""

    def __init__(self, document: Document, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.document, self.edits = document, edits
        self.settles = True
        self._gesture: Gesture | None = None
        self._space = False
        self._follows_size = True
        self._scene = ClothScene(document)
        self.setScene(self._scene)
        self.still = StillPicture(self)
        self._ready = Readiness(document, self)
        self._dress()
        document.project_changed.connect(self.fit)
        document.placements_changed.connect(self._follow)
        for changed in (document.project_changed, document.selection_changed, document.seam_changed, self.view_changed):
            changed.connect(self.still.drop)

    def _dress(self) -> None:
        self.setAccessibleName(tr("Cloth"))
        self.setAccessibleDescription(
            tr("The cloth with its panels; Tab goes through the panels, arrow keys move them")
        )
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setTransformationAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setResizeAnchor(QGraphicsView.ViewportAnchor.NoAnchor)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.show_theme()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.setBackgroundBrush(current().colour("desk"))
        self.still.drop()
        self.viewport().update()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._scene.show_unit()
        self.still.drop()
        self.viewport().update()

    def drawBackground(self, painter: QPainter, rect: QRectF) -> None:
        """The still picture while panels move, else the bare desk."""
        if not self.still.draw(painter):
            super().drawBackground(painter, rect)

    def drawForeground(self, painter: QPainter, rect: QRectF) -> None:
        """A line round the view while it has the keys."""
        if self.hasFocus():
            painter.save()
            painter.resetTransform()
            painter.setPen(QPen(current().colour("accent"), 2 * FOCUS_PX))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.viewport().rect())
            painter.restore()

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Show that the keys are the cloth's now."""
        super().focusInEvent(event)
        self.viewport().update()

    def _follow(self, moved: frozenset[PanelName]) -> None:
        if not self.still.suits(moved):
            self.still.drop()
        if not self.document.trying:
            self.viewport().update()  # many panels that move far at once leave parts of their old pictures behind

    # --- scale and place

    @property
    def scale_px(self) -> float:
        """Px per mm."""
        return self.transform().m11()

    @property
    def scene_here(self) -> ClothScene:
        """The scene, with its own type."""
        return self._scene

    @property
    def handle(self) -> TurnHandle:
        """The turning handle."""
        return self._scene.handle

    def handle_at(self) -> QPointF:
        """Where the turning handle is attached, on the viewport, px."""
        return self.viewportTransform().map(self.handle.pos())

    def seen(self) -> QRectF:
        """The part of the cloth's plane that is seen, mm."""
        return self.mapToScene(self.viewport().rect()).boundingRect()

    def show_cloth(self, cloth_id: str) -> None:
        """Show another cloth of the project, whole."""
        self._scene.show_cloth(cloth_id)
        self.fit()

    def set_scale(self, scale_px: float, at: QPointF | None = None) -> None:
        """Set the scale, px per mm, leaving what lies at a viewport position (or the middle) where it is."""
        at = at if at is not None else QPointF(self.viewport().rect().center())
        scale_px = min(max(scale_px, LEAST_PX), MOST_PX)
        before = self._to_scene(at)
        self.setTransform(QTransform.fromScale(scale_px, scale_px))
        self._scene.set_scale(scale_px)
        away = self.viewportTransform().map(before) - at
        self.pan_by(round(away.x()), round(away.y()))

    def _to_scene(self, at: QPointF) -> QPointF:
        return self.viewportTransform().inverted()[0].map(at)

    def pan_by(self, dx: int, dy: int) -> None:
        """Move the view by whole px."""
        self._follows_size = False
        self.horizontalScrollBar().setValue(self.horizontalScrollBar().value() + dx)
        self.verticalScrollBar().setValue(self.verticalScrollBar().value() + dy)
        self.view_changed.emit()

    def zoom(self, steps: float, at: QPointF | None = None) -> None:
        """Zoom in by steps, or out by negative ones."""
        self.set_scale(self.scale_px * ZOOM_STEP**steps, at)

    def zoom_in(self) -> None:
        """Zoom in at the middle."""
        self.zoom(1)

    def zoom_out(self) -> None:
        """Zoom out at the middle."""
        self.zoom(-1)

    def fit(self) -> None:
        """Show the whole cloth and all panels."""
        self.fit_rect(self._scene.laid_rect())
        self._follows_size = True

    def keep_all_seen(self) -> None:
        """Show everything again if some has gone out of sight, unless the user has chosen a part."""
        if self._follows_size and not self.seen().contains(self._scene.laid_rect()):
            self.fit()

    def fit_again(self) -> None:
        """Show everything as large as it goes, unless the user has chosen a part."""
        if self._follows_size:
            self.fit()

    def fit_width(self) -> None:
        """Show the whole width of the cloth, from its cut end on."""
        cloth, port = self._scene.cloth_rect(), self.viewport().rect()
        scale = max(port.width() - 2 * FIT_MARGIN_PX, 50) / max(cloth.width(), 1.0)
        self.fit_rect(QRectF(cloth.left(), cloth.top(), cloth.width(), (port.height() - 2 * FIT_MARGIN_PX) / scale))

    def fit_selection(self) -> None:
        """Show the selected panels as large as they go, or everything if none is selected."""
        rect = self._scene.rect_of(self.document.selection)
        if rect.isEmpty():
            self.fit()
        else:
            self.fit_rect(rect)

    def true_size(self) -> None:
        """Show a millimetre as a millimetre on this screen."""
        self.set_scale(self.physicalDpiX() / 25.4)

    def fit_rect(self, rect: QRectF) -> None:
        """Show a rectangle, mm, with a margin."""
        port = self.viewport().rect()
        wide, high = (max(side - 2 * FIT_MARGIN_PX, 50) for side in (port.width(), port.height()))
        self.set_scale(min(wide / max(rect.width(), 1.0), high / max(rect.height(), 1.0)))
        away = self.viewportTransform().map(rect.center()) - QPointF(port.center())
        self.pan_by(round(away.x()), round(away.y()))

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep everything in view until the user has chosen a part."""
        super().resizeEvent(event)
        self.fit_again()
        self.view_changed.emit()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the cursor; with Shift, move along the cloth."""
        turn = event.angleDelta().y() or event.angleDelta().x()
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier:
            self.pan_by(0, -turn)
        else:
            self.zoom(turn / 120, event.position())
        event.accept()

    def viewportEvent(self, event: QEvent) -> bool:
        """Pinching zooms at the fingers."""
        if isinstance(event, QNativeGestureEvent) and event.gestureType() == Qt.NativeGestureType.ZoomNativeGesture:
            self.set_scale(self.scale_px * (1 + event.value()), event.position())
            return True
        if event.type() == QEvent.Type.Leave:
            self.cursor_left.emit()
        return super().viewportEvent(event)

    # --- mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Begin what the hand wants: pan, turn, drag, pick a seam, or a rubber band."""
        if self._gesture:
            return
        at = event.position()
        if event.button() == Qt.MouseButton.MiddleButton or self._space:
            self._gesture = Pan(self, at)
        elif event.button() == Qt.MouseButton.LeftButton:
            self.document.cancel_trial()
            self._gesture = self._grab(at, event.modifiers())

    def _grab(self, at: QPointF, keys: Qt.KeyboardModifier) -> Gesture | None:
        place = self._to_scene(at)
        if self.handle.holds(at - self.handle_at()):
            return TurnPanel(self, at, self.document.selection[-1])
        seam = self._scene.seam_at(place, self.viewportTransform())
        if seam is not None:
            self.document.pick_seam(seam)
            return None
        name = self._scene.panel_at(place)
        if name is None:
            self.document.pick_seam(-1)
            return Band(self, at, keys)
        return self._grab_panel(at, name, keys)

    def _grab_panel(self, at: QPointF, name: PanelName, keys: Qt.KeyboardModifier) -> Gesture | None:
        selection = self.document.selection
        if keys & ADDING:
            rest = tuple(other for other in selection if other != name)
            self.document.select(rest if name in selection else (*selection, name))
            return None
        rest = tuple(other for other in selection if other != name)
        self.document.select((*rest, name) if name in selection else (name,))
        if self.document.kept.placement(name).hold:
            self.edits.tell_held((name,))
            return None
        return MovePanels(self, at, name)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Carry on with the gesture, or tell where the mouse is."""
        at = event.position()
        if self._gesture:
            self._gesture.move(at, event.modifiers())
        else:
            self._show_cursor(at)
            self._ready.begin()
        place = self._to_scene(at)
        self.cursor_moved.emit(place, self._scene.panel_at(place))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Keep what the gesture did."""
        if self._gesture and event.buttons() == Qt.MouseButton.NoButton:
            self._end_gesture(keep=True)

    def _end_gesture(self, keep: bool) -> None:
        gesture, self._gesture = self._gesture, None
        self.still.drop()
        if gesture and keep:
            gesture.finish()
        elif gesture:
            gesture.cancel()
        self._show_cursor(QPointF(self.viewport().mapFromGlobal(self.cursor().pos())))

    def _show_cursor(self, at: QPointF) -> None:
        self.viewport().setCursor(self._cursor_at(at))

    def _cursor_at(self, at: QPointF) -> Qt.CursorShape:
        if self._space:
            return Qt.CursorShape.OpenHandCursor
        if self.handle.holds(at - self.handle_at()):
            return Qt.CursorShape.SizeHorCursor
        name = self._scene.panel_at(self._to_scene(at))
        if name is None:
            return Qt.CursorShape.ArrowCursor
        held = self.document.project.placement(name).hold
        return Qt.CursorShape.ForbiddenCursor if held else Qt.CursorShape.SizeAllCursor

    # --- keys

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows nudge, Escape takes back a gesture or the selection, Space pans; plus, minus and 0 zoom and fit."""
        if event.key() == Qt.Key.Key_Escape:
            self._escape()
        elif event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = True
            self.viewport().setCursor(Qt.CursorShape.OpenHandCursor)
        elif event.key() in _ARROWS and not self._gesture:
            self._nudge(_ARROWS[event.key()], event.modifiers())
        elif event.key() in _ZOOMS:
            self.zoom(_ZOOMS[event.key()])
        elif event.key() == Qt.Key.Key_0:
            self.fit()
        elif event.key() != Qt.Key.Key_Space:
            event.ignore()

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        """Letting Space go ends the panning hand."""
        if event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._space = False
            self._show_cursor(QPointF(self.viewport().mapFromGlobal(self.cursor().pos())))

    def focusOutEvent(self, event: QFocusEvent) -> None:
        """A key that is let go elsewhere is let go here too."""
        self._space = False
        super().focusOutEvent(event)
        self.viewport().update()

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab goes from panel to panel, and after the last to the next widget."""
        names = list(self._scene.panels)
        here = names.index(self.document.current) if self.document.current in names else -1 if forward else len(names)
        there = here + (1 if forward else -1)
        if not 0 <= there < len(names):
            return super().focusNextPrevChild(forward)
        self.document.select((names[there],))
        self._reveal(names[there])
        return True

    def _reveal(self, name: PanelName) -> None:
        """Bring a panel into view if it lies outside."""
        box = self._scene.rect_of((name,))
        if not self.seen().intersects(box):
            away = self.viewportTransform().map(box.center()) - QPointF(self.viewport().rect().center())
            self.pan_by(round(away.x()), round(away.y()))

    def _escape(self) -> None:
        if self._gesture:
            self._end_gesture(keep=False)
        else:
            self.document.select(())
            self.document.pick_seam(-1)

    def _nudge(self, way: tuple[int, int], keys: Qt.KeyboardModifier) -> None:
        if not self.document.selection:
            self.pan_by(40 * way[0], 40 * way[1])
            return
        fine = keys & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.AltModifier)
        step = 10.0 if keys & Qt.KeyboardModifier.ShiftModifier else 0.1 if fine else 1.0
        self.edits.nudge(step * way[0], step * way[1])

    def panels_in(self, frame: QRect) -> tuple[PanelName, ...]:
        """The panels that a frame on the viewport, px, touches."""
        return self._scene.panels_touching(QPolygonF(self.mapToScene(frame)))
