"""Small upright pictures on the canvas that are drawn once and then only put down again."""

from collections.abc import Callable, Hashable

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPixmap

MARGIN_PX = 2


class UprightPicture:
    """What an item that keeps its size looks like, until it looks otherwise."""

    def __init__(self) -> None:
        self._look: Hashable = None
        self._picture = QPixmap()

    def put(self, painter: QPainter, box: QRectF, look: Hashable, draw: Callable[[QPainter], None]) -> None:
        """Put down what `draw` draws inside a box, px from the item; it is asked again only when box, `look` or the
        screen's sharpness are others. The picture comes to lie on whole pixels, which keeps it sharp."""
        ratio = painter.device().devicePixelRatioF()
        look = look, ratio, box.getRect()
        area = box.toAlignedRect().adjusted(-MARGIN_PX, -MARGIN_PX, MARGIN_PX, MARGIN_PX)
        if look != self._look:
            self._look, self._picture = look, QPixmap(area.size() * ratio)
            self._picture.setDevicePixelRatio(ratio)
            self._picture.fill(Qt.GlobalColor.transparent)
            inner = QPainter(self._picture)
            inner.setRenderHints(painter.renderHints())
            inner.translate(-area.topLeft())
            draw(inner)
            inner.end()
        at = painter.worldTransform().map(QPointF(area.topLeft()))
        off = QPointF(round(at.x() * ratio) / ratio, round(at.y() * ratio) / ratio) - at
        painter.drawPixmap(QPointF(area.topLeft()) + off, self._picture)
