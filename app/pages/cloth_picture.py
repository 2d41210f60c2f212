"""A cloth as it lies before one: the whole of its width, and three repeats large with what is matched marked."""

import msgspec
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPaintEvent, QPen, QResizeEvent
from PySide6.QtWidgets import QFrame, QGraphicsScene, QGraphicsView, QSizePolicy, QWidget

from app.canvas.cloth import ClothItem, paint_stripes
from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, SPACE, TIGHT, WIDE, Size, current
from core.model.cloth import Cloth, Repeat

REPEATS = 3
_SHOWN = 0.22
"""Share of its width that is shown of its length."""


class WholeCloth(QGraphicsView):
    """The cloth's whole width from its cut end on: stripes, selvedges, flaws."""

    def __init__(self) -> None:
        super().__init__()
        self.setScene(QGraphicsScene(self))
        self.setAccessibleName("The cloth across its width")
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setInteractive(False)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.setRenderHint(QPainter.RenderHint.Antialiasing)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setMinimumHeight(24 * GRID)
        for policy in (self.setHorizontalScrollBarPolicy, self.setVerticalScrollBarPolicy):
            policy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)

    def show_cloth(self, cloth: Cloth) -> None:
        """Show a cloth, as far down as its last flaw at least."""
        ends = [v + 100 for flaw in cloth.flaw_outlines for _, v in flaw]
        wanted = max(_SHOWN * cloth.width, *ends, 0.0)
        self.scene().clear()
        self.scene().addItem(ClothItem(cloth, wanted if cloth.length is None else min(wanted, cloth.length)))
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


class RepeatPicture(QWidget):
    """Three repeats with their stripes named, the axis that is matched, the repeat and its true period."""

    def __init__(self) -> None:
        super().__init__()
        self._cloth: Cloth | None = None
        self._unit = MM
        self._faded = False
        self.setAccessibleName("Three repeats of the stripes")
        self.setMinimumHeight(44 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def sizeHint(self) -> QSize:
        """Wide enough for names."""
        return QSize(160 * GRID, 60 * GRID)

    def show_cloth(self, cloth: Cloth, unit: LengthUnit) -> None:
        """Show a cloth's repeat, lengths in a unit."""
        self._cloth, self._unit, self._faded = cloth, unit, False
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
        if self._cloth and self._cloth.repeat:
            self._paint_repeat(painter, self._cloth, self._cloth.repeat)
        else:
            painter.setPen(current().colour("quiet"))
            painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter, "A plain cloth: there is nothing to match.")
        painter.end()

    def _paint_repeat(self, painter: QPainter, cloth: Cloth, repeat: Repeat) -> None:
        metrics = QFontMetricsF(painter.font())
        line = metrics.height() + TIGHT
        strip = QRectF(self.rect()).adjusted(WIDE, SPACE + line, -WIDE, -2 * line - 3 * SPACE)
        scale = strip.width() / (REPEATS * repeat.width)
        painter.save()
        painter.setClipRect(strip)
        painter.translate(strip.topLeft())
        painter.scale(scale, scale)
        painter.translate(-repeat.origin, 0)
        straight = msgspec.structs.replace(cloth, skew_mm_per_m=0.0)
        shown = QRectF(repeat.origin, 0, REPEATS * repeat.width, strip.height() / scale)
        paint_stripes(painter, straight, shown, max(scale, 100.0))
        painter.restore()
        painter.setPen(current().colour("edge"))
        painter.drawRect(strip)
        self._paint_names(painter, metrics, repeat, strip, scale)
        self._paint_axis(painter, metrics, repeat, strip, scale)
        self._paint_spans(painter, metrics, repeat, strip, scale)

    def _paint_names(
        self, painter: QPainter, metrics: QFontMetricsF, repeat: Repeat, strip: QRectF, scale: float
    ) -> None:
        """Names of stripes above the first repeat, as far as there is room."""
        free_from = strip.left()
        for stripe in sorted(repeat.stripes, key=lambda stripe: stripe.at):
            x, wide = strip.left() + stripe.at * scale, metrics.horizontalAdvance(stripe.name)
            if x - wide / 2 >= free_from - TIGHT:
                painter.setPen(current().colour("text"))
                painter.drawText(QPointF(x - wide / 2, strip.top() - TIGHT - metrics.descent()), stripe.name)
                free_from = x + wide / 2 + SPACE

    def _paint_axis(
        self, painter: QPainter, metrics: QFontMetricsF, repeat: Repeat, strip: QRectF, scale: float
    ) -> None:
        theme = current()
        x = strip.left() + ((repeat.axis % repeat.width) + repeat.width) * scale
        ends = QLineF(x, strip.top() - TIGHT, x, strip.bottom() + TIGHT)
        painter.setPen(QPen(theme.colour("halo"), 4.0))
        painter.drawLine(ends)
        pen = QPen(theme.colour("chosen"), 2.0)
        pen.setDashPattern([6, 2, 1, 2])
        painter.setPen(pen)
        painter.drawLine(ends)
        text = "axis" if repeat.even else "middle of the lead stripe"
        painter.setPen(theme.colour("text"))
        wide = metrics.horizontalAdvance(text)
        painter.drawText(QPointF(x - wide / 2, strip.top() - TIGHT - metrics.descent()), text)

    def _paint_spans(
        self, painter: QPainter, metrics: QFontMetricsF, repeat: Repeat, strip: QRectF, scale: float
    ) -> None:
        unit = self._unit
        spans = [(0.0, repeat.width, f"repeat {unit.told(repeat.width)}")]
        if repeat.period < repeat.width - 1e-6:
            spans.append((repeat.width, repeat.period, f"true period {unit.told(repeat.period)}"))
        y = strip.bottom() + 2 * SPACE
        for start, wide, text in spans:
            left, right = strip.left() + start * scale, strip.left() + (start + wide) * scale
            painter.setPen(QPen(current().colour("text"), 1.0))
            painter.drawLines([QLineF(left, y, right, y), *(QLineF(x, y - TIGHT, x, y + TIGHT) for x in (left, right))])
            middle = (left + right) / 2 - metrics.horizontalAdvance(text) / 2
            painter.drawText(QPointF(max(middle, left), y + TIGHT + metrics.ascent()), text)
