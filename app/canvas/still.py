"""The still picture: what does not move in a drag is drawn once, so that a frame costs only what moves."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QRectF
from PySide6.QtGui import QPainter, QPixmap

from app.canvas.item import CanvasItem
from core.model.pattern import PanelName

if TYPE_CHECKING:
    from app.canvas.view import CanvasView


class StillPicture:
    """A picture of the viewport without some panels and their seams; while it is up, only those draw themselves."""

    def __init__(self, view: "CanvasView") -> None:
        self._view = view
        self._panels: frozenset[PanelName] = frozenset()
        self._picture: QPixmap | None = None

    def hold(self, moving: frozenset[PanelName]) -> None:
        """Take the picture without the panels that are about to move, unless it is up already."""
        if self._picture is None or moving != self._panels:
            self.drop()
            self._panels = moving
            self._picture = self._taken(self._view.scene_here.moving_with(moving))

    def drop(self) -> None:
        """Let everything draw itself again."""
        if self._picture is not None:
            self._picture = None
            self._leave_out(set())
            self._view.viewport().update()

    def suits(self, moved: frozenset[PanelName]) -> bool:
        """Whether the picture still holds when these panels have moved."""
        return moved <= self._panels

    def draw(self, painter: QPainter) -> bool:
        """Draw the picture on the viewport; returns whether there is one."""
        if self._picture is None:
            return False
        painter.save()
        painter.resetTransform()
        painter.drawPixmap(0, 0, self._picture)
        painter.restore()
        return True

    def _taken(self, moving: set[CanvasItem]) -> QPixmap:
        port, ratio = self._view.viewport().rect(), self._view.devicePixelRatioF()
        picture = QPixmap(port.size() * ratio)
        picture.setDevicePixelRatio(ratio)
        self._leave_out(moving)
        painter = QPainter(picture)
        painter.setRenderHints(self._view.renderHints())
        self._view.render(painter, QRectF(port), port)
        painter.end()
        self._leave_out(self._items() - moving)
        return picture

    def _leave_out(self, left_out: set[CanvasItem]) -> None:
        for item in self._items():
            item.leave_out(item in left_out)

    def _items(self) -> set[CanvasItem]:
        return {item for item in self._view.scene_here.items() if isinstance(item, CanvasItem)}
