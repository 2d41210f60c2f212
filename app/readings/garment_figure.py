"""The garment's figure, and how many seams are of each grade."""

from collections import Counter

from PySide6.QtCore import QPointF, QRect, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QWidget

from app.figures import DASH, fine, step, unit
from app.readings.grades import GRADES, Grades, paint_mark
from app.theme import GRID, ROOMY, SPACE, TIGHT, Size, current
from app.words import tr
from core.seams.readings import Measurement


class GarmentFigure(QWidget):
    """The garment's figure, and how many seams are of each grade; its marks are the key to the table's."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.measurement: Measurement | None = None
        self._grades = Grades()
        self._shown = self._grades, self.counts(), self._number()
        self._proof = ""
        self.setFixedHeight(13 * GRID)
        self.setAccessibleName(tr("Figure of the garment"))
        self.setToolTip(
            tr(
                "The root of the mean squared step over all seams, each weighted by how much it shows.\n"
                "Beside it: how many seams have their worst step in each grade."
            )
        )

    def show_measurement(self, measurement: Measurement | None, grades: Grades) -> None:
        """Show another measurement, judged by these grades."""
        before, self.measurement, self._grades = self._shown, measurement, grades
        self._shown = grades, self.counts(), self._number() + self.parts()
        if before[:2] != self._shown[:2] or self.parts():
            self.update()
        elif before[2] != self._shown[2]:
            self.update(self._area().adjusted(0, 0, -self.width() // 2, 0))

    def show_proof(self, words: str) -> None:
        """Say beside the figure how near it is to the best there can be."""
        if words != self._proof:
            self._proof = words
            self.update()
            self.speak()

    def speak(self) -> None:
        """Say the figure to those who listen instead of looking."""
        rms = self.measurement.rms_mm if self.measurement else None
        words = (
            tr("{fine} {unit} rms").format(fine=fine(rms), unit=unit())
            if rms is not None
            else tr("no stripes to match")
        )
        self.setAccessibleDescription(", ".join(part for part in (words, self.parts(), self._proof) if part))

    def counts(self) -> Counter[str]:
        """How many seams have their worst step, of stripes or of bars, in each grade."""
        found = self.measurement
        both = zip(found.seams, found.crosswise, strict=True) if found else ()
        worst = ([reading.worst[0] for reading in seam if reading and reading.worst] for seam in both)
        return Counter(self._grades.grade_of(max(steps)) for steps in worst if steps)

    def parts(self) -> str:
        """The figure of the stripes and that of the bars, where the cloth has both."""
        if self.measurement is None or (bars := self.measurement.rms_of("crosswise")) is None:
            return ""
        return tr("stripes {0}, bars {1}").format(fine(self.measurement.rms_of("lengthwise")), fine(bars))

    def paintEvent(self, event: QPaintEvent) -> None:
        """Caption, figure, and the seams by grade."""
        theme, painter = current(), QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), theme.colour("window"))
        area = self._area()
        self._paint_figure(painter, area)
        if event.rect().right() > area.center().x():
            self._paint_counts(painter, area)

    def _area(self) -> QRect:
        return self.rect().adjusted(SPACE, SPACE, -SPACE, -SPACE)

    def _number(self) -> str:
        return fine(self.measurement.rms_mm if self.measurement else None)

    def _paint_figure(self, painter: QPainter, area: QRect) -> None:
        theme = current()
        painter.setFont(theme.font(Size.SMALL))
        painter.setPen(theme.colour("quiet"))
        top = area.adjusted(0, 0, -3 * self._count_wide(painter.fontMetrics()) - SPACE, 0)
        caption = self._caption(painter.fontMetrics(), top.width())
        painter.drawText(top, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop, caption)
        painter.setFont(theme.font(Size.LARGE, bold=True))
        painter.setPen(theme.colour("text"))
        number = self._number()
        painter.drawText(area, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, number)
        if number != DASH:
            after = painter.fontMetrics().horizontalAdvance(number) + TIGHT
            painter.setFont(theme.font())
            painter.setPen(theme.colour("quiet"))
            low = area.adjusted(after, 0, 0, -2)
            painter.drawText(low, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, unit())
            low.setLeft(low.left() + painter.fontMetrics().horizontalAdvance(unit()) + ROOMY)
            painter.setFont(theme.font(Size.SMALL))
            painter.drawText(low, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignBottom, self._proof)

    def _caption(self, metrics: QFontMetrics, room: int) -> str:
        """What the figure is, and of what parts it is made; the parts alone where there is no room for both."""
        both = "  ·  ".join(part for part in (tr("Whole garment, rms"), self.parts()) if part)
        fits = not self.parts() or metrics.horizontalAdvance(both) <= room
        return metrics.elidedText(both if fits else self.parts(), Qt.TextElideMode.ElideRight, room)

    def _count_captions(self) -> tuple[str, ...]:
        limits = (_limit(self._grades.good_mm), _limit(self._grades.fair_mm))
        return (*(tr("to {limit}").format(limit=limit) for limit in limits), tr("more"))

    def _count_wide(self, metrics: QFontMetrics) -> int:
        """The room of one grade's count, px."""
        return max(metrics.horizontalAdvance(caption) for caption in self._count_captions()) + ROOMY

    def _paint_counts(self, painter: QPainter, area: QRect) -> None:
        theme, counts = current(), self._shown[1]
        painter.setFont(theme.font(Size.SMALL))
        wide = self._count_wide(painter.fontMetrics())
        left = area.right() - 3 * wide
        for place, (grade, caption) in enumerate(zip(GRADES, self._count_captions(), strict=True)):
            box = QRect(left + place * wide, area.top(), wide, area.height())
            painter.setFont(theme.font(Size.SMALL))
            painter.setPen(theme.colour("quiet"))
            painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignTop, caption)
            painter.setFont(theme.font(Size.LARGE))
            painter.setPen(theme.colour("text"))
            number = str(counts[grade]) if self.measurement and self.measurement.read else DASH
            painter.drawText(box, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom, number)
            across = painter.fontMetrics().horizontalAdvance(number) + SPACE + TIGHT
            paint_mark(
                painter, grade, QPointF(box.right() - across, box.bottom() - painter.fontMetrics().ascent() / 2 + 1)
            )


def _limit(mm: float) -> str:
    """Where a grade ends, with its unit."""
    return tr("{mm:g} mm").format(mm=mm) if unit() == "mm" else f"{step(mm)} {unit()}"
