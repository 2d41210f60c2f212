"""What everything on the canvas has in common: it can be left out while a picture stands for it."""

from PySide6.QtGui import QPainter
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem, QWidget


class CanvasItem(QGraphicsItem):
    """An item that draws itself unless it is left out; what lies on it draws itself all the same."""

    def __init__(self, parent: QGraphicsItem | None = None) -> None:
        super().__init__(parent)
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresParentOpacity)

    def leave_out(self, left_out: bool) -> None:
        """Leave the item out, or not: what can't be seen is passed over without being asked where it lies."""
        self.setOpacity(0.0 if left_out else 1.0)

    def paint(self, painter: QPainter, option: QStyleOptionGraphicsItem, widget: QWidget | None = None) -> None:
        """Draw the item."""
        self.draw(painter, option)

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Draw the item in its own frame."""
        raise NotImplementedError
