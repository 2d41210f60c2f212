"""The small drawing of the step down a seam, top of the seam on the left."""

import numpy as np
from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QPainter, QPen, QPixmap

from app.canvas.shapes import lines, polygon
from app.readings.grades import GRADES, Grades, is_broken, pen_for
from app.theme import current
from core.geometry.paths import Points
from core.seams.readings import SeamReading
from core.seams.runs import Run, graded_runs

_LINE = 1.5
_INSET = 2.0
"""Room for half of the heaviest pen, px."""
_MOST_POINTS = 24


def range_mm(period: float, grades: Grades) -> float:
    """The step at the upper border of the drawing: twice the fair limit, or P/2 if that is less."""
    return min(period / 2, 2 * grades.fair_mm)


def paint_sparkline(painter: QPainter, cell: QRectF, reading: SeamReading, grades: Grades) -> None:
    """Draw the step down a seam within a cell: zero line, band of the good grade, line in its grades.

    Steps beyond the range run along the border. Stretches that are open or not seen are faint.
    """
    theme = current()
    area = cell.adjusted(_INSET, _INSET, -_INSET, -_INSET)
    most = range_mm(reading.period, grades)
    band = min(grades.good_mm / most, 1.0) * area.height() / 2
    middle = area.center().y()
    painter.save()
    painter.setClipRect(cell)
    painter.fillRect(QRectF(area.left(), middle - band, area.width(), 2 * band), theme.colour("good_band"))
    painter.setPen(QPen(theme.colour("edge", 0.6), 1.0))
    painter.drawLine(QPointF(area.left(), round(middle) + 0.5), QPointF(area.right(), round(middle) + 0.5))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    for run in graded_runs(reading, grades.limits_mm):
        painter.setPen(_pen(run))
        points = _points(run, area, reading.line.length, most)
        broken = run.counts and is_broken(GRADES[run.grade])
        painter.drawPolyline(polygon(points)) if broken else painter.drawLines(lines(points))
    painter.restore()


def _pen(run: Run) -> QPen:
    if run.counts:
        return pen_for(GRADES[run.grade], _LINE, cosmetic=False)
    return QPen(current().colour("quiet", 0.45), 1.0, Qt.PenStyle.SolidLine)


def _points(run: Run, area: QRectF, length: float, most: float) -> Points:
    last = len(run.height) - 1
    at = [*range(0, last, -(-last // _MOST_POINTS)), last]
    left, down = area.left(), area.width() / length
    middle, up = area.center().y(), area.height() / 2 / most
    points = np.empty((len(at), 2))
    points[:, 0] = left + run.height[at] * down
    points[:, 1] = middle - run.step[at].clip(-most, most) * up
    return points


class SparklineCache:
    """Sparklines kept as pictures, so that only those whose readings changed are drawn anew."""

    def __init__(self) -> None:
        self._kept: dict[str, tuple[SeamReading, tuple[object, ...], QPixmap]] = {}

    def paint(self, painter: QPainter, cell: QRectF, reading: SeamReading, grades: Grades) -> None:
        """As `paint_sparkline`."""
        sharpness = painter.device().devicePixelRatioF()
        look = (grades, current(), cell.size(), sharpness)
        name = reading.label
        kept = self._kept.get(name)
        if kept is None or kept[0] is not reading or kept[1] != look:
            kept = self._kept[name] = (reading, look, _picture(cell, sharpness, reading, grades))
        painter.drawPixmap(cell.topLeft(), kept[2])


def _picture(cell: QRectF, sharpness: float, reading: SeamReading, grades: Grades) -> QPixmap:
    picture = QPixmap((cell.size() * sharpness).toSize())
    picture.setDevicePixelRatio(sharpness)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    paint_sparkline(painter, QRectF(QPointF(0, 0), cell.size()), reading, grades)
    painter.end()
    return picture
