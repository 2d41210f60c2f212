"""The turning handle: a small arc above the selected panel, as wide as the cloth's grain tolerance."""

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.canvas.upright import UprightPicture
from app.figures import figure, step, unit
from app.theme import Size, current
from app.words import tr

RADIUS_PX = 84.0
SWEEP = math.radians(34)
"""The arc's half opening: the knob at its end is turned as far as the cloth allows."""
LIFT_PX = 36.0
"""How far above the panel the arc's crown lies."""
KNOB_PX = 6.5
PLATE_PX = 150
"""Room for the figures above the arc."""
REACH_PX = 15.0
"""A press this near to the knob takes hold of it."""
GRAIN_SHARE = 0.06
"""A turn smaller than this share of the tolerance settles on the grain."""


class TurnHandle(CanvasItem):
    """Shows and takes the turn of one panel; the turn is geared up, since tolerances are a fraction of a degree."""

    def __init__(self) -> None:
        super().__init__()
        self.limit_deg, self.turn_deg, self._per_deg_mm = 0.0, 0.0, 0.0
        self._picture = UprightPicture()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(20)
        self.hide()

    def attach(self, top: QPointF, turn_deg: float, limit_deg: float, per_deg_mm: float) -> None:
        """Show the handle above a point on the cloth; a degree is `per_deg_mm` over the panel's length."""
        self._per_deg_mm = per_deg_mm
        self.setPos(top)
        self.limit_deg, self.turn_deg = limit_deg, turn_deg
        self.setVisible(limit_deg > 0)
        self.update()

    def boundingRect(self) -> QRectF:
        """Arc, knob and figure, px from the attachment."""
        half = max(RADIUS_PX * math.sin(SWEEP) + 12, PLATE_PX / 2 + 2)
        return QRectF(-half, -LIFT_PX - 30, 2 * half, LIFT_PX + 30)

    def knob(self) -> QPointF:
        """Middle of the knob, px from the attachment."""
        return self._on_arc(min(max(self.turn_deg / self.limit_deg, -1), 1)) if self.limit_deg else QPointF()

    def holds(self, at: QPointF) -> bool:
        """Whether a position, px from the attachment, takes hold of the knob."""
        away = at - self.knob()
        return self.isVisible() and math.hypot(away.x(), away.y()) <= REACH_PX

    def turn_of(self, at: QPointF) -> float:
        """The turn that a position, px from the attachment, stands for, degrees; not limited."""
        return math.atan2(at.x(), RADIUS_PX - LIFT_PX - at.y()) / SWEEP * self.limit_deg

    def near_grain(self, turn_deg: float) -> bool:
        """Whether a turn is so small that the straight grain is meant."""
        return abs(turn_deg) < GRAIN_SHARE * self.limit_deg

    def _on_arc(self, share: float, lift: float = 0.0) -> QPointF:
        angle, radius = share * SWEEP, RADIUS_PX + lift
        return QPointF(radius * math.sin(angle), RADIUS_PX - LIFT_PX - radius * math.cos(angle))

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Arc over a halo, ticks at the grain and the limits, knob, figure."""
        self._picture.put(painter, self.boundingRect(), (current(), self._words(), self.turn_deg), self._draw_all)

    def _draw_all(self, painter: QPainter) -> None:
        theme = current()
        accent = theme.colour("chosen")
        box = QRectF(-RADIUS_PX, -LIFT_PX, 2 * RADIUS_PX, 2 * RADIUS_PX)
        start, sweep = round((90 - math.degrees(SWEEP)) * 16), round(2 * math.degrees(SWEEP) * 16)
        for pen in (QPen(theme.colour("halo"), 5), QPen(accent, 1.5)):
            painter.setPen(pen)
            painter.drawArc(box, start, sweep)
            for share in (-1.0, 0.0, 1.0):
                painter.drawLine(self._on_arc(share, -4), self._on_arc(share, 4))
        painter.setPen(QPen(theme.colour("halo"), 2))
        painter.setBrush(accent)
        painter.drawEllipse(self.knob(), KNOB_PX, KNOB_PX)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        self._paint_figure(painter)

    def _paint_figure(self, painter: QPainter) -> None:
        theme = current()
        plate = QRectF(-PLATE_PX / 2, -8, PLATE_PX, 17).translated(self._on_arc(0.0, 17))
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("halo", 0.9))
        painter.drawRoundedRect(plate, 4, 4)
        painter.setPen(theme.colour("ink"))
        painter.setFont(theme.font(Size.SMALL))
        painter.drawText(plate, Qt.AlignmentFlag.AlignCenter, self._words())

    def _words(self) -> str:
        """The turn, and how far off the grain it is over the panel's length, of how much is allowed."""
        off, most = (step(abs(turn) * self._per_deg_mm) for turn in (self.turn_deg, self.limit_deg))
        return tr("{turn}   {off} of {most} {unit}").format(
            turn=_degrees(self.turn_deg), off=off, most=most, unit=unit()
        )


def _degrees(turn_deg: float) -> str:
    return f"{figure(turn_deg, signed=True, decimals=2)}°" if turn_deg else "0°"
