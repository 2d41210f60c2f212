"""Three repeats of a cloth, large, with their stripes and bars named and what is matched marked."""

import msgspec
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.canvas.cloth import paint_stripes
from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, SPACE, TIGHT, WIDE, Size, current
from app.words import tr
from core.model.cloth import Cloth, Repeat

REPEATS = 3
BAR_REPEATS = 1.6
"""At least so many repeats of bars are seen where they lie over stripes."""
_BAR_WORDS_WIDE = 30 * GRID


class RepeatPicture(QWidget):
    """Stripes as they lie, bars over them; bars alone are shown turned, so that the cut end is at the left."""

    def __init__(self) -> None:
        super().__init__()
        self._cloth: Cloth | None = None
        self._unit = MM
        self._faded = False
        self.setAccessibleName(tr("Three repeats of the stripes"))
        self.setMinimumHeight(44 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """Wide enough for names."""
        return QSize(160 * GRID, 60 * GRID)

    def show_cloth(self, cloth: Cloth, unit: LengthUnit) -> None:
        """Show a cloth's repeats, lengths in a unit."""
        straight = msgspec.structs.replace(cloth, skew_mm_per_m=0.0, weft_skew_percent=0.0, bow_percent=0.0)
        self._cloth, self._unit, self._faded = straight, unit, False
        self.update()

    def fade(self) -> None:
        """Show that what is seen is not what the fields say now."""
        self._faded = True
        self.update()

    def paintEvent(self, event: QPaintEvent) -> None:
        """The strip and its marks."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), current().colour("surface"))
        painter.setOpacity(0.45 if self._faded else 1.0)
        painter.setFont(current().font(Size.SMALL))
        repeat = self._cloth and (self._cloth.repeat or self._cloth.crosswise)
        if self._cloth and repeat:
            self._paint_repeat(painter, self._cloth, repeat)
        else:
            painter.setPen(current().colour("quiet"))
            told = tr("A plain cloth: there is nothing to match.")
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, told)
        painter.end()

    def _paint_repeat(self, painter: QPainter, cloth: Cloth, repeat: Repeat) -> None:
        line = QFontMetricsF(painter.font()).height() + TIGHT
        bars = cloth.crosswise if cloth.repeat else None
        room = _BAR_WORDS_WIDE if bars else 0
        strip = QRectF(self.rect()).adjusted(WIDE, SPACE + line, -WIDE - room, -2 * line - 3 * SPACE)
        scale = strip.width() / (REPEATS * repeat.width)
        if bars:
            scale = min(scale, strip.height() / (BAR_REPEATS * bars.width))
        self._paint_strip(painter, cloth, strip, scale)
        painter.setPen(current().colour("edge"))
        painter.drawRect(strip)
        free_from = self._paint_names(painter, repeat, strip, scale)
        self._paint_axis(painter, repeat, strip, scale, free_from)
        self._paint_spans(painter, repeat, strip, scale)
        if bars:
            self._paint_bars(painter, bars, strip, scale)
        elif not cloth.repeat:
            _paint_turned(painter, strip)

    def _paint_strip(self, painter: QPainter, cloth: Cloth, strip: QRectF, scale: float) -> None:
        """The cloth from the beginning of its first repeats on."""
        left = cloth.repeat.origin if cloth.repeat else 0.0
        top = cloth.crosswise.origin if cloth.crosswise else 0.0
        wide, high = strip.width() / scale, strip.height() / scale
        painter.save()
        painter.setClipRect(strip)
        painter.translate(strip.topLeft())
        painter.scale(scale, scale)
        if not cloth.repeat:
            painter.setTransform(QTransform(0, 1, 1, 0, 0, 0), True)
            wide, high = high, wide
        painter.translate(-left, -top)
        paint_stripes(painter, cloth, QRectF(left, top, wide, high), max(scale, 100.0))
        painter.restore()

    def _paint_names(self, painter: QPainter, repeat: Repeat, strip: QRectF, scale: float) -> float:
        """Names of stripes above the first repeat, as far as there is room; where the room after them begins."""
        metrics, free_from = QFontMetricsF(painter.font()), strip.left()
        for stripe in sorted(repeat.stripes, key=lambda stripe: stripe.at):
            x, wide = strip.left() + stripe.at * scale, metrics.horizontalAdvance(stripe.name)
            if x - wide / 2 >= free_from - TIGHT:
                painter.setPen(current().colour("text"))
                painter.drawText(QPointF(x - wide / 2, strip.top() - TIGHT - metrics.descent()), stripe.name)
                free_from = x + wide / 2 + SPACE
        return free_from

    def _paint_axis(self, painter: QPainter, repeat: Repeat, strip: QRectF, scale: float, free_from: float) -> None:
        metrics = QFontMetricsF(painter.font())
        x = strip.left() + ((repeat.axis % repeat.width) + repeat.width) * scale
        _axis_line(painter, QLineF(x, strip.top() - TIGHT, x, strip.bottom() + TIGHT))
        text = _axis_words(repeat)
        painter.setPen(current().colour("text"))
        left = max(x - metrics.horizontalAdvance(text) / 2, free_from)
        painter.drawText(QPointF(left, strip.top() - TIGHT - metrics.descent()), text)

    def _paint_spans(self, painter: QPainter, repeat: Repeat, strip: QRectF, scale: float) -> None:
        unit, metrics = self._unit, QFontMetricsF(painter.font())
        spans = [(0.0, repeat.width, tr("repeat {width}").format(width=unit.told(repeat.width)))]
        if repeat.period < repeat.width - 1e-6:
            words = tr("true period {width}").format(width=unit.told(repeat.period))
            spans.append((repeat.width, repeat.period, words))
        y, free_from = strip.bottom() + 2 * SPACE, strip.left()
        for start, wide, text in spans:
            left, right = strip.left() + start * scale, strip.left() + (start + wide) * scale
            painter.setPen(QPen(current().colour("text"), 1.0))
            painter.drawLines([QLineF(left, y, right, y), *(QLineF(x, y - TIGHT, x, y + TIGHT) for x in (left, right))])
            long = metrics.horizontalAdvance(text)
            at = max((left + right) / 2 - long / 2, left, free_from)
            painter.drawText(QPointF(at, y + TIGHT + metrics.ascent()), text)
            free_from = at + long + SPACE

    def _paint_bars(self, painter: QPainter, bars: Repeat, strip: QRectF, scale: float) -> None:
        """At the right: how far one repeat of the bars reaches; through the strip: which line of it is matched."""
        metrics = QFontMetricsF(painter.font())
        x, high = strip.right() + 2 * SPACE, bars.width * scale
        painter.setPen(QPen(current().colour("text"), 1.0))
        ends = (strip.top(), strip.top() + high)
        painter.drawLines([QLineF(x, ends[0], x, ends[1]), *(QLineF(x - TIGHT, y, x + TIGHT, y) for y in ends)])
        room = QRectF(x + SPACE, strip.top(), self.width() - x - SPACE, max(high, 2 * metrics.height()))
        words = tr("bars\n{width}").format(width=self._unit.told(bars.width))
        painter.drawText(room, Qt.AlignmentFlag.AlignVCenter, words)
        y = strip.top() + (bars.axis % bars.width) * scale
        _axis_line(painter, QLineF(strip.left() - TIGHT, y, strip.right() + TIGHT, y))


def _paint_turned(painter: QPainter, strip: QRectF) -> None:
    """Say that bars are shown turned by a quarter."""
    painter.setPen(current().colour("quiet"))
    room = QRectF(strip.left(), strip.bottom() + 2 * SPACE, strip.width(), 2 * strip.height())
    painter.drawText(room, Qt.AlignmentFlag.AlignRight, tr("turned: the cut end is at the left"))


def _axis_words(repeat: Repeat) -> str:
    return tr("axis") if repeat.even else tr("middle of the lead stripe")


def _axis_line(painter: QPainter, line: QLineF) -> None:
    painter.setPen(QPen(current().colour("halo"), 4.0))
    painter.drawLine(line)
    pen = QPen(current().colour("chosen"), 2.0)
    pen.setDashPattern([6, 2, 1, 2])
    painter.setPen(pen)
    painter.drawLine(line)
