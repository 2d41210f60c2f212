"""What is written on and beside the opened seam: heights, steps, crossings, panels, stretches that don't count."""

from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QFontMetrics, QPainter, QPen

from app.figures import step, unit
from app.pictures.closeup_rooms import CAPTIONS, Rooms, between, spread_out
from app.pictures.opened_seam import View
from app.readings.grades import GRADES, Grades, halo_for, paint_mark, pen_for
from app.ruler_scale import divided, ruled
from app.theme import GRID, SPACE, TIGHT, Size, current
from app.words import later, tr
from core.seams.readings import Crossing, SeamReading
from core.seams.runs import graded_runs

_LABEL = 18.0
"""Least distance between two labels, px."""
_TICK = 13.0
RIGHT = Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
LEFT = Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignVCenter


@dataclass(frozen=True)
class Marks:
    """Paints all marks for one reading, seen through `view`."""

    reading: SeamReading
    grades: Grades
    rooms: Rooms
    view: View
    heights: tuple[float, ...] | None

    def paint(self, painter: QPainter) -> None:
        """Everything but the cloth itself."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_uncounted(painter)
        self._paint_seam(painter)
        self._paint_captions(painter)
        self._paint_ruler(painter)
        self._paint_readings(painter)
        self._paint_crossings(painter)

    def paint_grades(self, painter: QPainter, area: QRect, view: View) -> None:
        """Draw the seam itself in its grades down the middle of an area."""
        x = QRectF(area).center().x()
        for run in graded_runs(self.reading, self.grades.limits_mm):
            top, bottom = (QPointF(x, area.top() + view.y(float(height))) for height in (run.height[0], run.height[-1]))
            if run.counts:
                for pen in (halo_for, pen_for):
                    painter.setPen(pen(GRADES[run.grade], cosmetic=False))
                    painter.drawLine(top, bottom)

    def _y(self, height: float) -> float:
        return self.rooms.cloth.top() + self.view.y(height)

    @property
    def _seam_x(self) -> float:
        return self.rooms.cloth.left() + self.rooms.cloth.width() // 2

    def _paint_seam(self, painter: QPainter) -> None:
        cloth = QRectF(self.rooms.cloth)
        ends = max(self._y(0), cloth.top()), min(self._y(self.reading.line.length), cloth.bottom())
        top, bottom = (QPointF(self._seam_x, y) for y in ends)
        painter.setPen(QPen(current().colour("halo", 0.55), 3.0))
        painter.drawLine(top, bottom)
        painter.setPen(QPen(current().colour("ink", 0.8), 1.0))
        painter.drawLine(top, bottom)

    def _paint_uncounted(self, painter: QPainter) -> None:
        """Veil what is open or not seen, and say which."""
        line, theme, cloth = self.reading.line, current(), self.rooms.cloth
        painter.save()
        painter.setClipRect(cloth)
        for start, end in _stretches(line.height, ~line.counted_parts):
            box = QRectF(cloth.left(), self._y(start), cloth.width(), self._y(end) - self._y(start))
            painter.fillRect(box, theme.colour("surface", 0.55))
            middle = (start + end) / 2
            is_open = line.sewn.seam.open is not None and line.sewn.seam.open[0] <= middle <= line.sewn.seam.open[1]
            seen = box.intersected(QRectF(cloth))
            if seen.height() > _LABEL:
                _paint_pill(painter, QPointF(seen.center()), tr("open") if is_open else tr("not seen"))
        painter.restore()

    def _paint_captions(self, painter: QPainter) -> None:
        rooms, theme = self.rooms, current()
        painter.setFont(theme.font(Size.SMALL))
        for room, title in ((rooms.ruler, tr("Down")), (rooms.readings, tr("Step"))):
            _paint_caption(painter, room.adjusted(-SPACE, 0, -SPACE - 2, 0), title, unit(), right=True)
        names = self.reading.line.panels
        half = rooms.cloth.width() // 2
        left = QRect(rooms.cloth.left(), rooms.cloth.top(), half - SPACE, 0)
        right = QRect(rooms.cloth.left() + half + SPACE, rooms.cloth.top(), half - SPACE, 0)
        _paint_caption(painter, left, names[0], tr("left side"), right=True)
        _paint_caption(painter, right, names[1], tr("right side"), right=False)
        if rooms.crossings.width():
            columns = _crossing_columns(rooms.crossings)
            _paint_caption(painter, columns[0], tr("Crossing"), tr("stripe"), right=False)
            _paint_caption(painter, columns[2], tr("Step"), unit(), right=True)
            _paint_caption(painter, columns[3], tr("Along"), unit(), right=True)

    def _paint_ruler(self, painter: QPainter) -> None:
        room, theme = self.rooms.ruler, current()
        edge = room.right() - TIGHT
        painter.setFont(theme.font(Size.SMALL))
        apart, parts = divided(self.view.scale, 44.0)
        painter.setPen(QPen(theme.colour("edge", 0.6), 1.0))
        fine = [self._y(height) for height in self._shown_multiples(apart / parts)]
        painter.drawLines([QLineF(edge - 3, y, edge, y) for y in fine])
        for height in self._shown_multiples(apart):
            y = self._y(height)
            painter.setPen(QPen(theme.colour("edge"), 1.0))
            painter.drawLine(QPointF(edge - 6, y), QPointF(edge, y))
            if between(room, y, 7.0):
                painter.setPen(theme.colour("quiet"))
                painter.drawText(
                    QRectF(room.left(), y - 10, room.width() - SPACE - TIGHT - 2, 20), RIGHT, ruled(height)
                )

    def _shown_multiples(self, apart: float) -> list[float]:
        low = max(0.0, self.view.top_mm)
        high = min(self.reading.line.length, self.view.height(self.rooms.cloth.height()))
        return [float(number) * apart for number in range(int(np.ceil(low / apart)), int(np.floor(high / apart)) + 1)]

    def _paint_readings(self, painter: QPainter) -> None:
        """Steps at the heights of the readings, each with the mark of its grade."""
        room, theme = self.rooms.readings, current()
        last = room.top() - _LABEL
        painter.setFont(theme.font())
        for reading in self.reading.readings(self.heights):
            y = self._y(reading.at_mm)
            if not between(room, y, 8.0) or y - last < _LABEL:
                continue
            last = y
            painter.setPen(QPen(theme.colour("edge"), 1.0))
            painter.drawLine(QPointF(room.right() - 3, y), QPointF(room.right() + 1, y))
            painter.setPen(theme.colour("text" if reading.counts else "quiet"))
            painter.drawText(
                QRectF(room.left(), y - 10, room.width() - SPACE - 2, 20), RIGHT, step(reading.step_mm, True)
            )
            if reading.counts:
                paint_mark(painter, self.grades.grade_of(reading.step_mm), QPointF(room.left() + TIGHT + 1, y), 3.5)

    def _paint_crossings(self, painter: QPainter) -> None:
        cloth = self.rooms.cloth
        shown = [cross for cross in self.reading.crossings if between(cloth, self._label_y(cross))]
        shown.sort(key=self._label_y)
        painter.save()
        painter.setClipRect(cloth)
        for crossing in shown:
            self._paint_tick(painter, crossing)
        painter.restore()
        if self.rooms.crossings.width():
            self._paint_labels(painter, self._with_room(shown))

    def _label_y(self, crossing: Crossing) -> float:
        """Where a crossing's label belongs: between its ends, or at the left one if they lie far apart."""
        ends = (crossing.a_at_mm, crossing.b_at_mm if self._neighbours(crossing) else crossing.a_at_mm)
        return self._y(sum(ends) / 2)

    def _with_room(self, shown: list[Crossing]) -> list[Crossing]:
        """As many crossings as have room beside the seam, those of the lead stripe first."""
        room = int(self.rooms.crossings.height() / _LABEL)
        lead = next(kind for kind in self.reading.repeat.kinds if self.reading.repeat.lead_stripe in kind)[0].name
        if len(shown) > room:
            leading = [crossing for crossing in shown if crossing.stripe == lead]
            shown = leading[:: -(-len(leading) // room)] if leading else shown[:: -(-len(shown) // room)]
        return shown

    def _paint_tick(self, painter: QPainter, crossing: Crossing) -> None:
        """Where the stripe meets the seam on either side; the way between, if the two are near neighbours."""
        x, a, b = self._seam_x, self._y(crossing.a_at_mm), self._y(crossing.b_at_mm)
        left, right = [QPointF(x - _TICK, a), QPointF(x, a)], [QPointF(x, b), QPointF(x + _TICK, b)]
        lines = [left + right] if self._neighbours(crossing) else [left, right]
        grade = self.grades.grade_of(crossing.step_mm)
        for pen in (halo_for, pen_for):
            painter.setPen(pen(grade, cosmetic=False))
            for points in lines:
                painter.drawPolyline(points)

    def _neighbours(self, crossing: Crossing) -> bool:
        """Whether the two ends plainly belong together: nearer than half the way to the stripe's next crossing."""
        steepest = max(abs(change) for change in self.reading.net_changes) / self.reading.line.length
        return abs(crossing.along_gap_mm) * steepest < self.reading.period / 2

    def _paint_labels(self, painter: QPainter, shown: list[Crossing]) -> None:
        room, theme = self.rooms.crossings, current()
        half = _LABEL / 2
        wanted = [self._label_y(crossing) for crossing in shown]
        places = spread_out(wanted, _LABEL, room.top() + half, room.bottom() - half)
        columns = _crossing_columns(room)
        painter.setFont(theme.font())
        for crossing, at, y in zip(shown, wanted, places, strict=True):
            painter.setPen(QPen(theme.colour("edge"), 1.0))
            left = room.left() + 1
            painter.drawPolyline(
                [QPointF(left, at), QPointF(left + 3, at), QPointF(left + 11, y), QPointF(left + 14, y)]
            )
            painter.setPen(theme.colour("text"))
            texts = (crossing.stripe, step(crossing.step_mm, True), step(crossing.along_gap_mm, True))
            for column, text, side in zip(
                (columns[0], columns[2], columns[3]), texts, (LEFT, RIGHT, RIGHT), strict=True
            ):
                text = painter.fontMetrics().elidedText(text, Qt.TextElideMode.ElideRight, column.width())
                painter.drawText(QRectF(column.left(), y - 10, column.width(), 20), side, text)
            paint_mark(painter, self.grades.grade_of(crossing.step_mm), QPointF(columns[1].center().x() + 0.5, y), 3.5)


_FIGURES = ((40, later("Step")), (52, later("Along")))
"""The columns of figures beside a crossing: at least so wide, px, and as wide as their titles."""


def _crossing_columns(room: QRect) -> tuple[QRect, QRect, QRect, QRect]:
    """Stripe, mark, step and along-gap, left to right."""
    metrics = QFontMetrics(current().font(Size.SMALL))
    step, along = (max(least, metrics.horizontalAdvance(tr(title)) + GRID) for least, title in _FIGURES)
    mark, lead = 14, 18
    top, height, right = room.top(), room.height(), room.right() + 1
    name = QRect(room.left() + lead, top, room.width() - lead - mark - step - along, height)
    return (
        name,
        QRect(right - along - step - mark, top, mark, height),
        QRect(right - along - step, top, step, height),
        QRect(right - along, top, along, height),
    )


def _paint_caption(painter: QPainter, below: QRect, title: str, unit: str, right: bool) -> None:
    """A title and its unit above a part."""
    side = Qt.AlignmentFlag.AlignRight if right else Qt.AlignmentFlag.AlignLeft
    box = QRect(below.left(), below.top() - CAPTIONS, below.width(), CAPTIONS - TIGHT)
    title = painter.fontMetrics().elidedText(title, Qt.TextElideMode.ElideMiddle, box.width())
    painter.setPen(current().colour("text"))
    painter.drawText(box, side | Qt.AlignmentFlag.AlignTop, title)
    painter.setPen(current().colour("quiet"))
    painter.drawText(box, side | Qt.AlignmentFlag.AlignBottom, unit)


def _paint_pill(painter: QPainter, centre: QPointF, text: str) -> None:
    """A word on the cloth, on a plain ground of its own."""
    painter.setFont(current().font(Size.SMALL))
    box = QRectF(painter.fontMetrics().boundingRect(text)).adjusted(-SPACE, -2, SPACE, 2)
    box.moveCenter(centre)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(current().colour("surface"))
    painter.drawRoundedRect(box, TIGHT, TIGHT)
    painter.setPen(current().colour("text"))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def _stretches(height: np.ndarray, flags: np.ndarray) -> list[tuple[float, float]]:
    """From which height to which flags between heights are set."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], flags, [False]]).astype(int)))
    return [(float(height[i]), float(height[j])) for i, j in zip(edges[::2], edges[1::2], strict=True)]
