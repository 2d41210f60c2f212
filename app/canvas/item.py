"""What everything on the canvas has in common: it can be left out while a picture stands for it."""

from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget


class CanvasItem(QGraphicsItem):
    """An item that draws itself unless it is left out."""

    left_out = False

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draw the item, or nothing."""
        if not self.left_out:
            self.draw(painter, option)

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Draw the item in its own frame."""
        raise NotImplementedError
