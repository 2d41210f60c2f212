"""What is painted over a picture of cloth: what was found in it, the part that counts, marks and their magnifier."""

from collections.abc import Callable
from itertools import pairwise

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPainterPath, QPen, QPolygonF

from app.theme import GRID, SPACE, Size, current
from core.swatch.scale import Point
from core.swatch.swatch import Swatch

LENS, _LARGER = 36 * GRID, 6
"""Side of the magnifier, px, and how many times larger than a pixel of the picture it shows it."""
_CURVE_HIGH = 18 * GRID

Part = tuple[float, float, float, float]
"""Left, top, right, bottom, px of the file."""
Shown = Callable[[Point], QPointF]
"""Where a place of the file, px, is shown in the view."""


def paint_lens(painter: QPainter, image: QImage, place: QPointF, corner: QPointF) -> None:
    """The picture round a place of it, px, enlarged, in a square whose upper left corner lies at `corner`."""
    lens = QRectF(corner.x(), corner.y(), LENS, LENS)
    wide = LENS / _LARGER
    painter.fillRect(lens, current().colour("surface"))
    painter.drawImage(lens, image, QRectF(place.x() - wide / 2, place.y() - wide / 2, wide, wide))
    for colour, width in (("halo", 3.0), ("ink", 1.0)):
        painter.setPen(QPen(current().colour(colour), width))
        for way in (QPointF(LENS / 2, 0), QPointF(0, LENS / 2)):
            painter.drawLine(lens.center() - way, lens.center() + way)
    painter.setPen(QPen(current().colour("edge"), 2.0))
    painter.drawRect(lens)


def paint_found(painter: QPainter, swatch: Swatch, shown: Shown) -> None:
    """Lines where repeats start, and the lightness across each repeat as a curve between them."""
    lines = [(shown(tuple(a)), shown(tuple(b))) for a, b in swatch.starts_px]
    curve = QPolygonF()
    light = swatch.profile_srgb[::4].mean(axis=1)
    for (a, b), (c, d) in pairwise(lines):
        down = b - a
        down /= max((down.x() ** 2 + down.y() ** 2) ** 0.5, 1e-9)
        start, across = (a + b) / 2, (c + d - a - b) / 2
        for index, value in enumerate(light):
            curve.append(start + across * (index + 0.5) / len(light) + down * _CURVE_HIGH * (0.5 - float(value)))
    for colour, wide in (("halo", 5.0), ("chosen", 2.0)):
        painter.setPen(QPen(current().colour(colour), wide))
        painter.drawPolyline(curve)
    for colour, wide, style in (("halo", 3.0, Qt.PenStyle.SolidLine), ("chosen", 1.5, Qt.PenStyle.DashLine)):
        painter.setPen(QPen(current().colour(colour), wide, style))
        for a, b in lines:
            painter.drawLine(a, b)


def paint_part(painter: QPainter, part: Part, shown: Shown, room: QRectF) -> None:
    """What does not count, veiled, and a frame round what does."""
    frame = QRectF(shown(part[:2]), shown(part[2:]))
    veil = QPainterPath()
    veil.addRect(room)
    veil.addRect(frame)
    painter.fillPath(veil, current().colour("surface", 0.6))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    for colour, wide in (("halo", 4.0), ("chosen", 2.0)):
        painter.setPen(QPen(current().colour(colour), wide))
        painter.drawRect(frame)


def paint_marks(painter: QPainter, places: list[QPointF]) -> None:
    """The marks, numbered, and the lines between them."""
    painter.setFont(current().font(Size.SMALL, bold=True))
    outline = QPolygonF(places + places[:1] if len(places) > 2 else places)
    for colour, wide in (("halo", 4.0), ("ink", 1.5)):
        painter.setPen(QPen(current().colour(colour), wide))
        painter.drawPolyline(outline)
        for place in places:
            painter.drawEllipse(place, SPACE, SPACE)
            painter.drawPoint(place)
    for number, place in enumerate(places, start=1):
        spot = QRectF(place.x() + SPACE, place.y() + SPACE, 5 * GRID, 5 * GRID)
        painter.fillRect(spot, QColor(current().colour("halo")))
        painter.drawText(spot, Qt.AlignmentFlag.AlignCenter, str(number))
