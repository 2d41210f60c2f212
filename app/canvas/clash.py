"""Where panels overlap: what they have in common hatched, their cut lines outlined, on top of everything."""

import shapely
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyleOptionGraphicsItem
from shapely.geometry import Polygon

from app.canvas.item import CanvasItem
from app.canvas.panels import polygon
from app.theme import current
from core.lay.lying import Lying
from core.model.pattern import PanelName

EDGE_PX = 2.0
STRAYS_MM = 0.25
"""An outline with fewer points strays from the true one by this much at most."""


class ClashItem(CanvasItem):
    """Shows the overlaps of a cloth's panels. It is drawn anew with every move, also over a still picture."""

    def __init__(self) -> None:
        super().__init__()
        self._outlines: list[QPolygonF] = []
        self._known: dict[PanelName, tuple[Polygon, QPolygonF]] = {}
        self._common: list[QPolygonF] = []
        self._box = QRectF()
        self.setZValue(3)

    @property
    def shown(self) -> int:
        """How many panels are marked."""
        return len(self._outlines)

    def show_clashes(self, lying: Lying) -> None:
        """Show what overlaps now."""
        if not (lying.clashes or self._outlines):
            return
        self.prepareGeometryChange()
        self._known = {name: self._outline(name, lying.shapes[name]) for name in sorted(lying.overlapping)}
        self._outlines = [outline for _, outline in self._known.values()]
        parts = shapely.get_parts(list(lying.clashes.values()))
        self._common = [polygon(shapely.get_coordinates(part.simplify(STRAYS_MM))) for part in parts]
        self._box = QRectF()
        for outline in self._outlines:
            self._box |= outline.boundingRect()

    def _outline(self, name: PanelName, shape: Polygon) -> tuple[Polygon, QPolygonF]:
        """A panel's cut line with fewer points; the one drawn before where it lies as it did."""
        known = self._known.get(name)
        if known and known[0] is shape:
            return known
        return shape, polygon(shapely.get_coordinates(shape.simplify(STRAYS_MM)))

    def boundingRect(self) -> QRectF:
        """The box of all panels that overlap, mm."""
        return self._box

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Outlines on a halo, broken, and the hatch."""
        halo, colour = current().colour("halo"), current().colour("flaw")
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in (_pen_of(halo, 2 * EDGE_PX), _pen_of(colour, EDGE_PX, broken=True)):
            painter.setPen(pen)
            for outline in self._outlines:
                painter.drawPolygon(outline)
        hatch = QBrush(colour, Qt.BrushStyle.DiagCrossPattern)
        hatch.setTransform(painter.worldTransform().inverted()[0])
        painter.setPen(_pen_of(colour, EDGE_PX / 2))
        for brush in (QBrush(current().colour("halo", 0.7)), hatch):
            painter.setBrush(brush)
            for part in self._common:
                painter.drawPolygon(part)
        painter.setBrush(Qt.BrushStyle.NoBrush)


def _pen_of(colour: QColor, width: float, broken: bool = False) -> QPen:
    pen = QPen(colour, width)
    pen.setCosmetic(True)
    if broken:
        pen.setDashPattern([5.0, 2.5])
    return pen
