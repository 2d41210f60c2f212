"""Sewn edges on the cloth, coloured by the step down the seam, with the number where it is worst."""

from bisect import bisect_left, bisect_right
from functools import lru_cache
from typing import NamedTuple

import numpy as np
import shapely
from PySide6.QtCore import QLineF, QPointF, QRectF
from PySide6.QtGui import QFontMetricsF, QPainter, QPainterPath, QPen
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.canvas.panels import PanelItem
from app.canvas.shapes import lines, polygon
from app.figures import step
from app.readings.grades import GRADES, Grade, Grades, colour_of, halo_for, is_broken, pen_for
from app.theme import Size, current
from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.seams.garment import SeamLine
from core.seams.readings import SeamReading
from core.seams.runs import graded_runs
from core.seams.strip import Side, edge_at

STRAYS_MM = 0.05
"""An edge as it is drawn strays from the true one by this much at most: a stroke costs by its points."""
WIDTH_PX, PICKED_PX = 2.2, 3.4
LEAST_MM = 0.05
"""A seam that is worst by less gets no number."""
REACH_PX = 8.0
"""Room round an edge for its pens, px at the smallest scale it is worth drawing."""


class SewnEdge(CanvasItem):
    """One side of a seam, drawn on its panel; `index` is the seam's place among the garment's."""

    def __init__(self, index: int, side: Side, line: SeamLine, parent: PanelItem) -> None:
        super().__init__(parent)
        self.index = index
        self._owner = parent
        self._height = line.height
        self._points, self._inward = edge_at(line, side, line.height)
        simple = np.column_stack(self._along(self._points, np.array(_sparse(line))))
        self._corners, self._known = [QPointF(*point) for point in simple.tolist()], lines(simple)
        self._strokes: dict[Grade, tuple[list[QLineF], QPainterPath]] = {}
        self._picked = False
        self._extent = polygon(self._points).boundingRect()
        self._box = QRectF()
        self.setZValue(1)
        self.badge = StepBadge(index)

    def show_reading(self, reading: SeamReading | None, stretches: "list[Stretch]") -> None:
        """Show a seam's reading, and those of its stretches that count."""
        self._strokes = self._drawn(stretches)
        worst = reading.worst if reading else None
        if worst is None or worst[0] < LEAST_MM:
            self.badge.show_nothing()
        else:
            at, inward = (QPointF(*self._along(values, worst[1])) for values in (self._points, self._inward))
            to = self._owner.transform()
            way = to.map(inward) - to.map(QPointF())
            self.badge.show_step(worst[0], to.map(at), way, self._owner.width_at(at.y()))
        self.update()

    def _along(self, values: Points, height: Floats | float) -> tuple[Floats, Floats]:
        """Values of shape (n, 2) given at the seam's heights, at other heights: both columns."""
        return np.interp(height, self._height, values[:, 0]), np.interp(height, self._height, values[:, 1])

    def pick(self, picked: bool) -> None:
        """Show whether the seam is the one picked."""
        if picked != self._picked:
            self._picked = picked
            self.badge.pick(picked)
            self.update()

    def set_reach(self, scale_px: float) -> None:
        """Make room for pens of a fixed width on the screen."""
        self.prepareGeometryChange()
        reach = REACH_PX / scale_px
        self._box = self._extent.adjusted(-reach, -reach, reach, reach)
        self.badge.set_scale(scale_px)

    def boundingRect(self) -> QRectF:
        """The edge and its pens, in the panel's frame."""
        return self._box

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """A halo under every stretch, then the stretch in its grade."""
        width = PICKED_PX if self._picked else WIDTH_PX
        for grade, (parts, _) in self._strokes.items():
            painter.setPen(halo_for(grade, width))
            painter.drawLines(parts)
        for grade, (parts, whole) in self._strokes.items():
            painter.setPen(pen_for(grade, width))
            painter.drawPath(whole) if is_broken(grade) else painter.drawLines(parts)

    def _drawn(self, stretches: "list[Stretch]") -> dict[Grade, tuple[list[QLineF], QPainterPath]]:
        """For each grade all stretches that have it: as lines, and as a path if they are drawn broken."""
        ends = np.array([end for stretch in stretches for end in (stretch.top, stretch.bottom)])
        points = list(map(QPointF, *map(np.ndarray.tolist, self._along(self._points, ends))))
        drawn: dict[Grade, tuple[list[QLineF], QPainterPath]] = {}
        for stretch, top, bottom in zip(stretches, points[::2], points[1::2], strict=True):
            parts, whole = drawn.setdefault(stretch.grade, ([], QPainterPath()))
            between = self._corners[stretch.between]
            if is_broken(stretch.grade):
                whole.addPolygon([top, *between, bottom])
            parts.append(QLineF(top, between[0] if between else bottom))
            if between:
                parts += self._known[stretch.between][:-1]
                parts.append(QLineF(between[-1], bottom))
        return drawn


class Stretch(NamedTuple):
    """A stretch of a seam of one grade: from which height to which, mm, and the places `between` these among those of
    the seam's heights that serve to draw its edges."""

    grade: Grade
    top: float
    bottom: float
    between: slice


def stretches_of(line: SeamLine, reading: SeamReading | None, grades: Grades) -> list[Stretch]:
    """The stretches of a seam that count, from its top on."""
    runs = [run for run in graded_runs(reading, grades.limits_mm) if run.counts] if reading else []
    return [_stretch(_sparse(line), GRADES[run.grade], *run.height[[0, -1]].tolist()) for run in runs]


def _stretch(sparse: list[float], grade: Grade, top: float, bottom: float) -> Stretch:
    return Stretch(grade, top, bottom, slice(bisect_right(sparse, top), bisect_left(sparse, bottom)))


@lru_cache(maxsize=256)
def _sparse(line: SeamLine) -> list[float]:
    """Those of a seam's heights that serve to draw its two edges."""
    places = np.arange(len(line.height))
    kept: set[float] = set()
    for points in (line.a, line.b):
        simple = shapely.linestrings(np.column_stack([points, places])).simplify(STRAYS_MM)
        kept |= set(shapely.get_coordinates(simple, include_z=True)[:, 2].tolist())
    return line.height[np.array(sorted(kept), dtype=np.intp)].tolist()


class StepBadge(CanvasItem):
    """The worst step of a seam, mm, on a plate beside its edge, above all panels; always upright.

    A click picks the seam.
    """

    def __init__(self, index: int) -> None:
        super().__init__()
        self.index = index
        self.step_mm, self.picked = 0.0, False
        self._text, self._grade, self._crowded = "", GRADES[0], False
        self._inward, self._room_mm, self._scale_px = QPointF(), 0.0, 1.0
        self._box = QRectF()
        self._font, self._bold = current().font(Size.SMALL), current().font(Size.SMALL, bold=True)
        self._metrics = QFontMetricsF(self._bold)
        self._wide, self._high = 8.0, self._metrics.height()
        self._baseline = QPointF()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(10)

    def show_step(self, step_mm: float, at: QPointF, inward: QPointF, room_mm: float) -> None:
        """Show a step at a point on the cloth; `inward` is a unit vector into the panel, which is `room_mm` wide."""
        self._take(step(step_mm))
        self.step_mm = step_mm
        self._grade = Grades().grade_of(step_mm)
        self._inward, self._room_mm = inward, room_mm
        self.setPos(at)
        self.set_scale(self._scale_px)
        self.setVisible(not self._crowded)
        self.update()

    def show_nothing(self) -> None:
        """Be away: there is no step to show."""
        self.step_mm = 0.0
        self.hide()

    def make_room(self, crowded: bool) -> None:
        """Be away while there is no room here."""
        self._crowded = crowded
        self.setVisible(self.step_mm > 0 and not crowded)

    def _take(self, text: str) -> None:
        if text != self._text:
            self._text, self._wide = text, self._metrics.horizontalAdvance(text) + 8

    def set_scale(self, scale_px: float) -> None:
        """Lie beside the edge at a scale, px per mm: inside the panel, or outside where it is too narrow."""
        self.prepareGeometryChange()
        self._scale_px = scale_px
        wide, high = self._wide, self._high
        inside = self._room_mm * scale_px > 2 * wide + 12
        away = self._inward * ((wide / 2 + 5) if inside else -(wide / 2 + 7))
        self._box = QRectF(-wide / 2, -high / 2, wide, high).translated(away)
        self._baseline = self._box.topLeft() + QPointF(4, self._metrics.ascent())

    def pick(self, picked: bool) -> None:
        """Show whether the seam is the one picked."""
        self.picked = picked
        self.update()

    def boundingRect(self) -> QRectF:
        """The plate, px."""
        return self._box.adjusted(-1, -1, 1, 1)

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Plate with a border in the grade's colour, and the figure in ink."""
        theme = current()
        painter.setPen(QPen(colour_of(self._grade), 2 if self.picked else 1))
        painter.setBrush(theme.colour("halo", 0.94))
        painter.drawRoundedRect(self._box, 3, 3)
        painter.setPen(theme.colour("ink"))
        painter.setFont(self._bold if self.picked else self._font)
        painter.drawText(self._baseline, self._text)
