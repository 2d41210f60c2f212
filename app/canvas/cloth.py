"""The cloth as the desk: its true stripes, selvedges, flaws and cut end."""

import math

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPolygonF
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.stripe_colours import PLAIN
from app.theme import Theme, current
from core.lay.remnant import missing_outlines
from core.model.cloth import Cloth, Repeat, Stripe

FINEST_PX = 2.5
"""A repeat narrower than this on the screen is painted as its average colour."""


class ClothItem(CanvasItem):
    """One cloth from its cut end down to `shown_mm`; only what is exposed is painted, so it is exact everywhere."""

    def __init__(self, cloth: Cloth, shown_mm: float) -> None:
        super().__init__()
        self.cloth = cloth
        self.shown_mm = shown_mm
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
        for outline in (*self.cloth.flaw_outlines, *missing_outlines(self.cloth)):
            self._paint_flaw(painter, QPolygonF([QPointF(*point) for point in outline]), exposed, theme)
        self._paint_ends(painter, theme)

    def _paint_selvedges(self, painter: QPainter, exposed: QRectF, theme: Theme) -> None:
        left, right = self.cloth.usable
        tint = theme.colour("halo", 0.62)
        for low, high in ((0.0, left), (right, self.cloth.width)):
            painter.fillRect(QRectF(low, exposed.top(), high - low, exposed.height()) & exposed, tint)
        painter.setPen(_hair(theme.colour("ink", 0.55)))
        painter.drawLines([QLineF(u, exposed.top(), u, exposed.bottom()) for u in (left, right)])

    def _paint_flaw(self, painter: QPainter, outline: QPolygonF, exposed: QRectF, theme: Theme) -> None:
        part = outline.intersected(QPolygonF(exposed))
        if part.isEmpty():
            return
        colour = theme.colour("flaw")
        hatch = QBrush(colour, Qt.BrushStyle.BDiagPattern)
        hatch.setTransform(painter.worldTransform().inverted()[0])
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("halo", 0.7))
        painter.drawPolygon(part)
        painter.setPen(_hair(colour))
        painter.setBrush(hatch)
        painter.drawPolygon(part)
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


def paint_stripes(painter: QPainter, cloth: Cloth, part: QRectF, scale: float) -> None:
    """Paint the exposed part of a cloth, mm; `scale` is px per mm."""
    repeat = cloth.repeat
    if repeat is None:
        painter.fillRect(part, QColor(PLAIN))
        return
    if repeat.width * scale < FINEST_PX:
        painter.fillRect(part, average_colour(repeat))
        return
    painter.fillRect(part, QColor(repeat.ground))
    painter.setPen(Qt.PenStyle.NoPen)
    for stripe in repeat.stripes:
        painter.setBrush(QColor(stripe.colour))
        if cloth.skew == 0:
            painter.drawRects(_upright(repeat, stripe, part))
        else:
            painter.save()
            painter.setClipRect(part, Qt.ClipOperation.IntersectClip)
            for band in _leaning(cloth.skew, repeat, stripe, part):
                painter.drawConvexPolygon(band)
            painter.restore()
    painter.setBrush(Qt.BrushStyle.NoBrush)


def average_colour(repeat: Repeat) -> QColor:
    """The colour that a repeat has from afar."""
    parts = [
        (QColor(repeat.ground if kind < 0 else repeat.kinds[kind][0].colour), b - a) for a, b, kind in repeat.bands
    ]
    mixed = [sum(getattr(colour, hue)() * wide for colour, wide in parts) for hue in ("redF", "greenF", "blueF")]
    return QColor.fromRgbF(*(min(value / repeat.width, 1.0) for value in mixed))


def _starts(repeat: Repeat, stripe: Stripe, low: float, high: float) -> list[float]:
    """Across-coordinates at which copies of a stripe begin that can be seen between two."""
    first = repeat.origin + stripe.at - stripe.width / 2
    count = range(math.floor((low - first - stripe.width) / repeat.width), math.ceil((high - first) / repeat.width) + 1)
    return [first + j * repeat.width for j in count]


def _upright(repeat: Repeat, stripe: Stripe, part: QRectF) -> list[QRectF]:
    bands = []
    for start in _starts(repeat, stripe, part.left(), part.right()):
        left, right = max(start, part.left()), min(start + stripe.width, part.right())
        if right > left:
            bands.append(QRectF(left, part.top(), right - left, part.height()))
    return bands


def _leaning(skew: float, repeat: Repeat, stripe: Stripe, part: QRectF) -> list[QPolygonF]:
    at_top, at_bottom = skew * part.top(), skew * part.bottom()
    low, high = part.left() - max(at_top, at_bottom), part.right() - min(at_top, at_bottom)
    bands = []
    for start in _starts(repeat, stripe, low, high):
        end = start + stripe.width
        corners = ((start + at_top, part.top()), (end + at_top, part.top()))
        corners += ((end + at_bottom, part.bottom()), (start + at_bottom, part.bottom()))
        bands.append(QPolygonF([QPointF(*corner) for corner in corners]))
    return bands


def _hair(colour: QColor, width: float = 1.0) -> QPen:
    pen = QPen(colour, width)
    pen.setCosmetic(True)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen
