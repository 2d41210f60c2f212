"""A cloth as it lies before one, the whole of its width."""

from PySide6.QtCore import QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QPainter, QPixmap, QResizeEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QSizePolicy

from app.canvas.cloth import ClothItem
from app.theme import GRID, current
from app.words import tr
from core.model.cloth import Cloth

_SHOWN = 0.22
"""Share of its width that is shown of its length."""


class WholeCloth(QGraphicsView):
    """The cloth's whole width from its cut end on: stripes, selvedges, flaws."""

    def __init__(self) -> None:
        super().__init__()
        self.setScene(QGraphicsScene(self))
        self.setAccessibleName(tr("The cloth across its width"))
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setInteractive(False)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(24 * GRID)
        for policy in (self.setHorizontalScrollBarPolicy, self.setVerticalScrollBarPolicy):
            policy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def show_cloth(self, cloth: Cloth, wanted_mm: float = 0.0) -> None:
        """Show a cloth, as far down as is wanted, and to its last flaw and the end of a remnant at least."""
        self.scene().clear()
        self.scene().addItem(_item(cloth, wanted_mm))
        self.scene().setSceneRect(self.scene().itemsBoundingRect())
        self._fit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show the whole width."""
        super().resizeEvent(event)
        self._fit()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.setBackgroundBrush(current().colour("desk"))

    def _fit(self) -> None:
        rect = self.sceneRect()
        margin = rect.width() / 60
        self.fitInView(rect.adjusted(-margin, -margin, margin, margin), Qt.AspectRatioMode.KeepAspectRatio)


def whole_pixmap(cloth: Cloth, size: QSize, ratio: float) -> QPixmap:
    """A cloth as `WholeCloth` shows it, on nothing, for a screen that has `ratio` pixels to one of the size's."""
    scene, item = QGraphicsScene(), _item(cloth, 0.0)
    scene.addItem(item)
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    scene.render(painter, QRectF(QPointF(), QSizeF(size)), item.boundingRect())
    painter.end()
    return pixmap


def _item(cloth: Cloth, wanted_mm: float) -> ClothItem:
    """A cloth as far down as is wanted, and to its last flaw and the end of a remnant at least."""
    ends = [v + 100 for flaw in cloth.flaw_outlines for _, v in flaw]
    ends += [cloth.end or 0.0] if cloth.remnant else []
    wanted = max(_SHOWN * cloth.width, wanted_mm, *ends, 0.0)
    return ClothItem(cloth, wanted if cloth.end is None else min(wanted, cloth.end))
