"""Where panels overlap: what they have in common hatched, their cut lines outlined, on top of everything."""

from collections.abc import Callable, Iterable, Set

import shapely
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.canvas.shapes import polygon
from app.theme import current
from core.lay.lying import Lying
from core.model.pattern import PanelName

EDGE_PX = 2.0
_BARE = QBrush(Qt.BrushStyle.NoBrush)
STRAYS_MM = 0.25
"""An outline with fewer points strays from the true one by this much at most."""


class ClashItem(CanvasItem):
    """Shows the overlaps of a cloth's panels. It is drawn anew with every move, also over a still picture."""

    def __init__(self) -> None:
        super().__init__()
        self._outlines: dict[PanelName, QPolygonF] = {}
        self._common: list[QPolygonF] = []
        self._box = QRectF()
        self.setZValue(3)

    @property
    def shown(self) -> int:
        """How many panels are marked."""
        return len(self._outlines)

    def show_clashes(self, lying: Lying, outline_of: Callable[[PanelName], QPolygonF]) -> None:
        """Show what overlaps now; `outline_of` gives a panel's cut line as it is drawn."""
        if not (lying.clashes or self._outlines):
            return
        self._outlines = {name: outline_of(name) for name in sorted(lying.overlapping)}
        parts = shapely.get_parts(list(lying.clashes.values()))
        self._common = [polygon(shapely.get_coordinates(part.simplify(STRAYS_MM))) for part in parts]
        self._surround()

    def follow(self, moved: Set[PanelName], outline_of: Callable[[PanelName], QPolygonF]) -> None:
        """Have the outlines of marked panels go with them until it is known again what overlaps."""
        if here := moved & self._outlines.keys():
            self._outlines |= {name: outline_of(name) for name in here}
            self._surround()

    def _surround(self) -> None:
        self.prepareGeometryChange()
        self._box = QRectF()
        for outline in self._outlines.values():
            self._box |= outline.boundingRect()

    def boundingRect(self) -> QRectF:
        """The box of all panels that overlap, mm."""
        return self._box

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Outlines on a halo, broken, and the hatch; only what is narrow is smoothed."""
        colour = current().colour("flaw")
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        _draw(painter, self._outlines.values(), _pen_of(current().colour("halo"), 2 * EDGE_PX))
        _draw(painter, self._common, QPen(Qt.PenStyle.NoPen), QBrush(current().colour("halo", 0.7)))
        hatch = QBrush(colour, Qt.BrushStyle.DiagCrossPattern)
        hatch.setTransform(painter.worldTransform().inverted()[0])
        _draw(painter, self._common, QPen(Qt.PenStyle.NoPen), hatch)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        _draw(painter, self._outlines.values(), _pen_of(colour, EDGE_PX, broken=True))
        _draw(painter, self._common, _pen_of(colour, EDGE_PX / 2))


def _draw(painter: QPainter, shapes: Iterable[QPolygonF], pen: QPen, brush: QBrush = _BARE) -> None:
    painter.setPen(pen)
    painter.setBrush(brush)
    for shape in shapes:
        painter.drawPolygon(shape)


def _pen_of(colour: QColor, width: float, broken: bool = False) -> QPen:
    pen = QPen(colour, width)
    pen.setCosmetic(True)
    pen.setJoinStyle(Qt.PenJoinStyle.BevelJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    if broken:
        pen.setDashPattern([5.0, 2.5])
    return pen
