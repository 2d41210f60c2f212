"""The garment picture: all panels sewn in the order they are worn, front and back, with their true stripes."""

import math
from itertools import pairwise

import numpy as np
from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import (
    QBrush,
    QColor,
    QHelpEvent,
    QImage,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QPixmap,
    QPolygonF,
    QTransform,
)
from PySide6.QtWidgets import QSizePolicy, QToolTip, QWidget

from app.canvas.cloth import paint_bands
from app.canvas.panels import transform_of
from app.figures import step, unit
from app.level_marks import level_in_words, mark_of, paint_marks
from app.pictures.worn_layout import LaidPanel, LaidRow, lay_out
from app.readings.grades import GRADES, Grades, halo_for, pen_for
from app.stripe_colours import pixels_of
from app.theme import GRID, SPACE, WIDE, Size, current
from app.words import later, tr
from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.model.cloth import Cloth, Repeat
from core.model.panel import Panel
from core.model.project import Placement, Project
from core.seams.garment import Garment, SeamLine
from core.seams.levels import Level, find_levels
from core.seams.readings import Measurement, SeamReading
from core.seams.runs import graded_runs
from core.seams.strip import Side, edge_points
from core.seams.stripes import Across

_PARTS = {"front": later("Front"), "back": later("Back")}
EMPTY = later("Open a project to see its panels as they are worn.")
_TITLE = 6 * GRID
_SEAM_PX = 1.6


class GarmentPicture(QWidget):
    """Rows of panels at a common scale, every seam in the grades of its step."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self._measurement: Measurement | None = None
        self._levels: tuple[Level, ...] = ()
        self._grades = Grades()
        self._laid_for: Garment | None = None
        self._rows: tuple[LaidRow, ...] = ()
        self._outlines: dict[str, QPainterPath] = {}
        self._pictures: dict[str, tuple[tuple[object, ...], QPoint, QPixmap]] = {}
        self._edges: dict[str, tuple[SeamReading, tuple[object, ...], QPoint, QPixmap]] = {}
        self.setMinimumSize(60 * GRID, 50 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(tr("The garment as worn"))
        self.setAccessibleDescription(tr(EMPTY))

    def sizeHint(self) -> QSize:
        """Room for two rows."""
        return QSize(130 * GRID, 150 * GRID)

    def show_garment(self, project: Project | None, measurement: Measurement | None) -> None:
        """Show a project's panels with the stripes of its placements."""
        self._project, self._measurement = project, measurement
        garment = measurement.garment if project and measurement else None
        self._levels = find_levels(project, garment) if project and garment else ()
        if garment is not self._laid_for:
            self._laid_for = garment
            self._pictures, self._edges = {}, {}
            self._rows = lay_out(project, garment) if project and garment else ()
            self._outlines = {name: _path(panel.net_ring) for name, panel in garment.panels.items()} if garment else {}
            self.setAccessibleDescription("; ".join(_title(row) for row in self._rows) or tr(EMPTY))
        self.update()

    def set_grades(self, grades: Grades) -> None:
        """Judge steps by other limits."""
        self._grades = grades
        self.update()

    def panel_at(self, point: QPointF) -> str | None:
        """The name of the panel shown at a place of the widget."""
        for transform, laid in self._laid():
            local = (_local(laid) * transform).inverted()[0].map(point)
            if self._outlines[laid.panel.name].contains(local):
                return laid.panel.name
        return None

    # Where things lie

    def _boxes(self) -> tuple[float, list[QRectF]]:
        """Scale, px per mm, and the place of every row below its title: one below the other or side by side."""
        area = self.rect().adjusted(WIDE, SPACE, -WIDE, -SPACE)
        widths, heights = [row.width for row in self._rows], [row.height for row in self._rows]
        number = len(self._rows)
        below = min(area.width() / max(widths), (area.height() - number * (_TITLE + SPACE)) / sum(heights))
        beside = min((area.width() - (number - 1) * WIDE) / sum(widths), (area.height() - _TITLE) / max(heights))
        scale = max(below, beside, 1e-3)
        if below >= beside:
            return scale, self._stacked(QRectF(area), scale)
        return scale, self._abreast(QRectF(area), scale)

    def _stacked(self, area: QRectF, scale: float) -> list[QRectF]:
        gap = _TITLE + SPACE
        spare = area.height() - sum(row.height * scale + gap for row in self._rows)
        boxes, top = [], area.top() + spare / 2
        for row in self._rows:
            width = row.width * scale
            boxes.append(QRectF(area.center().x() - width / 2, top + _TITLE, width, row.height * scale))
            top = boxes[-1].bottom() + SPACE
        return boxes

    def _abreast(self, area: QRectF, scale: float) -> list[QRectF]:
        spare = area.width() - sum(row.width * scale for row in self._rows)
        gap = spare / len(self._rows)
        tallest = max(row.height for row in self._rows) * scale
        top = area.center().y() - (tallest + _TITLE) / 2 + _TITLE
        boxes, left = [], area.left() + gap / 2
        for row in self._rows:
            boxes.append(QRectF(left, top, row.width * scale, row.height * scale))
            left = boxes[-1].right() + gap
        return boxes

    def _laid(self) -> list[tuple[QTransform, LaidPanel]]:
        """Every panel with the transform from its row's mm to the widget."""
        if not self._rows:
            return []
        scale, boxes = self._boxes()
        return [
            (QTransform(scale, 0, 0, scale, box.left(), box.top()), panel)
            for box, row in zip(boxes, self._rows, strict=True)
            for panel in row.panels
        ]

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """Panels, their seams, and which row is which."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), current().colour("surface"))
        if not self._rows or self._project is None:
            painter.setPen(current().colour("quiet"))
            words = self.rect().adjusted(WIDE, WIDE, -WIDE, -WIDE)
            painter.drawText(words, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, tr(EMPTY))
            return
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        laid = self._laid()
        for transform, panel in laid:
            self._paint_panel(painter, self._project, _local(panel) * transform, panel.panel)
        self._paint_seams(painter, laid)
        places = {panel.panel.name: (panel.panel, _local(panel) * transform) for transform, panel in laid}
        paint_marks(painter, (mark_of(level, *places[level.panel]) for level in self._levels))
        self._paint_titles(painter)

    def _paint_panel(self, painter: QPainter, project: Project, transform: QTransform, panel: Panel) -> None:
        """Draw a panel, anew only if it lies or looks otherwise than before."""
        placement, cloth = project.placement(panel.name), project.cloth_of(panel.name)
        look = (placement, cloth, transform, current(), self.devicePixelRatioF())
        kept = self._pictures.get(panel.name)
        if kept is None or kept[0] != look:
            outline = transform.map(self._outlines[panel.name])
            kept = self._pictures[panel.name] = (look, *self._picture(cloth, placement, transform, outline))
        painter.drawPixmap(kept[1], kept[2])

    def _picture(
        self, cloth: Cloth, placement: Placement, transform: QTransform, outline: QPainterPath
    ) -> tuple[QPoint, QPixmap]:
        """A panel's picture and where its upper left corner belongs."""
        ratio = self.devicePixelRatioF()
        corner, picture = _blank(outline.boundingRect().adjusted(-1, -1, 1, 1), ratio)
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(-corner)
        if cloth.repeat is None:
            ground = QColor(cloth.crosswise.ground) if cloth.crosswise else current().colour("raised")
            painter.fillPath(outline, ground)
        else:
            across = Across.of(placement, cloth)
            stripes = QBrush(striped(cloth.repeat, across, transform, corner, picture.size(), ratio))
            stripes.setTransform(QTransform(1 / ratio, 0, 0, 1 / ratio, corner.x(), corner.y()))
            painter.fillPath(outline, stripes)
        if cloth.crosswise is not None:
            _paint_bars(painter, cloth, transform_of(placement).inverted()[0] * transform, outline)
        painter.strokePath(outline, QPen(current().colour("text", 0.7), 1.0))
        painter.end()
        return corner, picture

    def _paint_seams(self, painter: QPainter, laid: list[tuple[QTransform, LaidPanel]]) -> None:
        """Each seam once where its two panels lie side by side, else on both of its edges: the way that is worse."""
        if self._measurement is None:
            return
        places = {panel.panel.name: (transform, panel) for transform, panel in laid}
        beside = {pair for row in self._rows for pair in pairwise(row.row.panels)}
        for reading in self._measurement.worse:
            if reading is None:
                continue
            a, b = reading.line.panels
            self._paint_edge(painter, reading, "a", *places[a])
            if (a, b) not in beside:
                self._paint_edge(painter, reading, "b", *places[b])

    def _paint_edge(
        self, painter: QPainter, reading: SeamReading, side: Side, transform: QTransform, laid: LaidPanel
    ) -> None:
        name, to_widget = f"{reading.line.sewn.label}/{side}", _local(laid) * transform
        look = (self._grades, to_widget, current(), self.devicePixelRatioF())
        kept = self._edges.get(name)
        if kept is None or kept[0] is not reading or kept[1] != look:
            kept = self._edges[name] = (reading, look, *self._edge_picture(reading, side, to_widget))
        painter.drawPixmap(kept[2], kept[3])

    def _edge_picture(self, reading: SeamReading, side: Side, to_widget: QTransform) -> tuple[QPoint, QPixmap]:
        """An edge in its grades, and where its upper left corner belongs."""
        runs = [run for run in graded_runs(reading, self._grades.limits_mm) if run.counts]
        lines = [_mapped(_few_points(reading.line, side, run.height), to_widget) for run in runs]
        box = QPolygonF([point for line in lines for point in line]).boundingRect()
        corner, picture = _blank(box.adjusted(-4, -4, 4, 4), self.devicePixelRatioF())
        painter = QPainter(picture)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.translate(-corner)
        for run, line in zip(runs, lines, strict=True):
            for pen in (halo_for, pen_for):
                painter.setPen(pen(GRADES[run.grade], _SEAM_PX, cosmetic=False))
                painter.drawPolyline(line)
        painter.end()
        return corner, picture

    def _paint_titles(self, painter: QPainter) -> None:
        painter.setFont(current().font(Size.SMALL))
        painter.setPen(current().colour("quiet"))
        for box, row in zip(self._boxes()[1], self._rows, strict=True):
            middle = round(box.center().x())
            place = QRect(middle - self.width() // 2, round(box.top()) - _TITLE, self.width(), _TITLE - GRID)
            painter.drawText(place, Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignBottom, _title(row))

    def event(self, event: QEvent) -> bool:
        """Tell which panel is under the cursor, and how its seams are."""
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            name = self.panel_at(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), self._told(name) if name else "", self)
            return True
        return super().event(event)

    def _told(self, name: str) -> str:
        read = self._measurement.read if self._measurement else ()
        seams = [
            tr("{label}: rms {step} {unit}").format(label=r.label, step=step(r.rms_mm), unit=unit())
            for r in read
            if name in r.line.panels
        ]
        levels = [level_in_words(level) for level in self._levels if level.panel == name]
        return "\n".join([name, *seams, *levels])


def _blank(box: QRectF, ratio: float) -> tuple[QPoint, QPixmap]:
    """An empty picture over a box of the widget, and the whole pixel at which it begins."""
    whole = box.toAlignedRect()
    picture = QPixmap(whole.size() * ratio)
    picture.setDevicePixelRatio(ratio)
    picture.fill(Qt.GlobalColor.transparent)
    return whole.topLeft(), picture


def _paint_bars(painter: QPainter, cloth: Cloth, to_picture: QTransform, outline: QPainterPath) -> None:
    """Bars of a cloth within an outline; `to_picture` brings places on the cloth to where they are seen."""
    painter.save()
    painter.setClipPath(outline)
    painter.setTransform(to_picture, True)
    paint_bands(painter, cloth, "crosswise", to_picture.inverted()[0].mapRect(outline.boundingRect()))
    painter.restore()


def striped(
    repeat: Repeat, across: Across, transform: QTransform, corner: QPoint, pixels_wanted: QSize, ratio: float
) -> QImage:
    """A striped panel's cloth from a corner in the widget on, `ratio` pixels per px.

    `transform` brings the panel to the widget.
    """
    back = transform.inverted()[0]
    across_x = (across.x_rate * back.m11() + across.y_rate * back.m12()) / ratio
    across_y = (across.x_rate * back.m21() + across.y_rate * back.m22()) / ratio
    first = back.map(QPointF(corner))
    start = first.x() * across.x_rate + first.y() * across.y_rate + across.start
    width, height = pixels_wanted.width(), pixels_wanted.height()
    rows = start + (np.arange(height) + 0.5) * across_y
    pixel_mm = math.hypot(across_x, across_y)
    pixels = pixels_of(repeat, rows, np.full(height, across_x), np.arange(width) + 0.5, pixel_mm)
    return QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32).copy()


def _local(laid: LaidPanel) -> QTransform:
    """From the panel's frame to its row's."""
    turn = math.radians(laid.turn_deg)
    cos, sin = math.cos(turn), math.sin(turn)
    return QTransform(cos, sin, -sin, cos, laid.x, laid.y)


def _path(ring: Points) -> QPainterPath:
    path = QPainterPath()
    path.addPolygon([QPointF(x, y) for x, y in ring.tolist()])
    path.closeSubpath()
    return path


def _few_points(line: SeamLine, side: Side, heights: Floats) -> Points:
    """The edge between two heights, coarse enough for a picture."""
    few = heights[:: max(1, len(heights) // 12)]
    return edge_points(line, side, np.append(few, heights[-1]))


def _mapped(points: Points, transform: QTransform) -> list[QPointF]:
    return [transform.map(QPointF(x, y)) for x, y in points.tolist()]


def _title(row: LaidRow) -> str:
    names = row.row.panels
    if row.row.part is not None:
        return tr(_PARTS[row.row.part])
    return names[0] if len(names) == 1 else tr("{first} to {last}").format(first=names[0], last=names[-1])
