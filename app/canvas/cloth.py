"""The cloth as the desk: its true stripes, selvedges, flaws and cut end."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.stripe_colours import PLAIN, colour_of_kind
from app.theme import Theme, current
from core.lay.remnant import missing_outlines
from core.model.cloth import Cloth, Repeat, Way
from core.seams.bands import bands_in

FINEST_PX = 2.5
"""A repeat narrower than this on the screen is painted as its average colour."""


class ClothItem(CanvasItem):
    """One cloth from its cut end down to `shown_mm`; only what is exposed is painted, so it is exact everywhere."""

    def __init__(self, cloth: Cloth, shown_mm: float) -> None:
        super().__init__()
        self.cloth = cloth
        self.shown_mm = shown_mm
        self._lacking = _joined(missing_outlines(cloth))
        self._flaws = [_joined([outline]) for outline in cloth.flaw_outlines]
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemUsesExtendedStyleOption)
        self.setZValue(-10)

    def boundingRect(self) -> QRectF:
        """The whole cloth, mm."""
        return QRectF(0, 0, self.cloth.width, self.shown_mm)

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Ground, stripes, selvedges, flaws, ends."""
        scale = painter.worldTransform().m11()
        pixel = 1 / scale
        exposed = option.exposedRect.adjusted(-pixel, -pixel, pixel, pixel) & self.boundingRect()
        if exposed.isEmpty():
            return
        theme = current()
        paint_stripes(painter, self.cloth, exposed, scale)
        self._paint_selvedges(painter, exposed, theme)
        for place in (*self._flaws, self._lacking):
            if place.intersects(exposed):
                self._paint_flaw(painter, place, theme)
        self._paint_ends(painter, theme)

    def _paint_selvedges(self, painter: QPainter, exposed: QRectF, theme: Theme) -> None:
        left, right = self.cloth.usable
        tint = theme.colour("halo", 0.62)
        for low, high in ((0.0, left), (right, self.cloth.width)):
            painter.fillRect(QRectF(low, exposed.top(), high - low, exposed.height()) & exposed, tint)
        painter.setPen(_hair(theme.colour("ink", 0.55)))
        painter.drawLines([QLineF(u, exposed.top(), u, exposed.bottom()) for u in (left, right)])

    def _paint_flaw(self, painter: QPainter, place: QPainterPath, theme: Theme) -> None:
        colour = theme.colour("flaw")
        hatch = QBrush(colour, Qt.BrushStyle.BDiagPattern)
        hatch.setTransform(painter.worldTransform().inverted()[0])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("halo", 0.7))
        painter.drawPath(place)
        painter.setPen(_hair(colour))
        painter.setBrush(hatch)
        painter.drawPath(place)
        painter.setBrush(Qt.BrushStyle.NoBrush)

    def _paint_ends(self, painter: QPainter, theme: Theme) -> None:
        ink = theme.colour("ink")
        painter.setPen(_hair(ink, 2.0))
        painter.drawLine(QLineF(0, 0, self.cloth.width, 0))
        end = _hair(ink, 2.0) if self.cloth.end is not None else _hair(theme.colour("ink", 0.5))
        if self.cloth.end is None:
            end.setDashPattern([2, 6])
        painter.setPen(end)
        painter.drawLine(QLineF(0, self.shown_mm, self.cloth.width, self.shown_mm))


def _joined(outlines: Iterable[Iterable[Sequence[float]]]) -> QPainterPath:
    """Simple outlines that may touch, as one shape without borders inside."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    for outline in outlines:
        path.addPolygon(QPolygonF([QPointF(*point) for point in outline]))
        path.closeSubpath()
    return path.simplified()


def paint_stripes(painter: QPainter, cloth: Cloth, part: QRectF, scale: float) -> None:
    """Paint the exposed part of a cloth, mm, its bars over its stripes; `scale` is px per mm."""
    lowest = cloth.repeat or cloth.crosswise
    painter.fillRect(part, QColor(lowest.ground if lowest else PLAIN))
    painter.setPen(Qt.PenStyle.NoPen)
    for way in cloth.ways:
        repeat = cloth.repeat_of(way)
        if repeat and repeat.width * scale < FINEST_PX:
            painter.fillRect(part, average_colour(repeat, over=way == "crosswise"))
        else:
            paint_bands(painter, cloth, way, part)
    painter.setBrush(Qt.BrushStyle.NoBrush)


def paint_bands(painter: QPainter, cloth: Cloth, way: Way, part: QRectF) -> None:
    """All stripes of one way, cut at the exposed part."""
    straight = not cloth.skew if way == "lengthwise" else not (cloth.weft_skew or cloth.bow_per_mm)
    painter.save()
    painter.setClipRect(part, Qt.ClipOperation.IntersectClip)
    for bands in bands_in(cloth, way, (part.left(), part.top(), part.right(), part.bottom())):
        painter.setBrush(QColor(bands.stripe.colour))
        if straight:
            corners = bands.outlines[:, 0::2].reshape(-1, 4)
            painter.drawRects(
                [QRectF(QPointF(a, b), QPointF(c, d)).normalized() & part for a, b, c, d in corners.tolist()]
            )
        else:
            draw = painter.drawConvexPolygon if bands.outlines.shape[1] == 4 else painter.drawPolygon
            for outline in bands.outlines.tolist():
                draw([QPointF(u, v) for u, v in outline])
    painter.restore()


def average_colour(repeat: Repeat, over: bool = False) -> QColor:
    """The colour that a repeat has from afar; of bars `over` something else, its ground is seen through."""
    bands = [(colour_of_kind(repeat, kind), b - a, kind) for a, b, kind in repeat.bands]
    shown = [(colour, wide) for colour, wide, kind in bands if kind >= 0 or not over]
    covered = sum(wide for _, wide in shown)
    mixed = [sum(getattr(colour, hue)() * wide for colour, wide in shown) for hue in ("redF", "greenF", "blueF")]
    return QColor.fromRgbF(*(min(value / covered, 1.0) for value in mixed), min(covered / repeat.width, 1.0))


def _hair(colour: QColor, width: float = 1.0) -> QPen:
    pen = QPen(colour, width)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen
