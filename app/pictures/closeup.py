"""The close-up: a seam opened flat, with both sides' stripes as they will meet once it is sewn and pressed."""

from PySide6.QtCore import QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import (
    QFontMetrics,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPainterPath,
    QPaintEvent,
    QPen,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.figures import seam_in_words, what_can_meet
from app.pictures.closeup_marks import Marks
from app.pictures.closeup_rooms import Rooms
from app.pictures.opened_seam import OpenedSeam, View
from app.readings.grades import Grades
from app.theme import GRID, SPACE, TIGHT, WIDE, Size, current
from app.words import later, tr
from core.model.project import Project
from core.seams.readings import SeamReading

EMPTY = later("Pick a seam in the table to see it as it will be sewn.")
LARGEST_SCALE = 40.0
"""px per mm; a thread is then some ten px wide."""
LOW_PX = 80 * GRID
"""Lower than this, the close-up leaves the seam's readings to the table, so that the cloth has room."""
_MARGIN_MM = 12.0
SAME_LENGTH_MM = 5.0
"""A seam that is altered by less than this is still looked at in the same window."""
_ZOOM_STEP = 1.2
_KEY_STEP = 10 * GRID


class CloseUp(QWidget):
    """Shows one seam through a window that scrolls along its height and zooms, and the whole of it on the left."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._project: Project | None = None
        self._seam: OpenedSeam | None = None
        self._grades = Grades()
        self._view: View | None = None
        self._chosen = False
        self._grip: tuple[str, float, float] | None = None
        self.setMinimumSize(76 * GRID, 60 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAccessibleName(tr("Close-up of a seam"))
        self.setAccessibleDescription(tr(EMPTY))

    def sizeHint(self) -> QSize:
        """Room for the strip, the window and the crossings."""
        return QSize(140 * GRID, 150 * GRID)

    @property
    def view(self) -> View | None:
        """What part of the seam is shown; None while there is none."""
        return self._view

    def show_seam(self, project: Project | None, reading: SeamReading | None) -> None:
        """Show a seam as the project places its panels, or nothing. The same seam stays in the same window."""
        same = reading is not None and self._seam is not None and _same(reading, self._seam.reading)
        self._project = project
        self._seam = OpenedSeam.of(project, reading) if project and reading else None
        if not same:
            self._view, self._chosen = self._first_view(), False
        self.setAccessibleDescription(" ".join(self._words()) if reading else tr(EMPTY))
        self.update()

    def set_grades(self, grades: Grades) -> None:
        """Judge steps by other limits."""
        self._grades = grades
        self.update()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        if self._seam:
            self.setAccessibleDescription(" ".join(self._words()))
        self.update()

    def fit(self) -> None:
        """Show the whole seam."""
        if self._seam:
            self._look(View(-_MARGIN_MM, self._fitting_scale()))

    def zoom(self, factor: float, y: float) -> None:
        """Magnify about a place `y` px below the window's upper border."""
        if self._view:
            scale = min(max(self._view.scale * factor, self._fitting_scale()), LARGEST_SCALE)
            self._look(View(self._view.height(y) - y / scale, scale))

    def scroll_to(self, height_mm: float) -> None:
        """Bring a height to the middle of the window."""
        if self._view:
            self._look(View(height_mm - self._rooms().cloth.height() / 2 / self._view.scale, self._view.scale))

    # Views

    def _first_view(self) -> View | None:
        """A magnified window about the worst step."""
        if self._seam is None:
            return None
        reading, cloth = self._seam.reading, self._rooms().cloth
        half_mm = min(max(1.5 * reading.period, 20.0), 60.0)
        scale = min(max(cloth.width() / 2 / half_mm, self._fitting_scale()), LARGEST_SCALE)
        middle = reading.worst[1] if reading.worst else reading.line.length / 2
        return self._kept_inside(View(middle - cloth.height() / 2 / scale, scale))

    def _fitting_scale(self) -> float:
        length = self._seam.reading.line.length if self._seam else 1.0
        return max(self._rooms().cloth.height(), 1) / (length + 2 * _MARGIN_MM)

    def _kept_inside(self, view: View) -> View:
        length = self._seam.reading.line.length if self._seam else 0.0
        most = length + _MARGIN_MM - self._rooms().cloth.height() / view.scale
        return View(max(min(view.top_mm, most), -_MARGIN_MM), view.scale)

    def _look(self, view: View) -> None:
        self._view, self._chosen = self._kept_inside(view), True
        self.update()

    def _rooms(self) -> Rooms:
        area = self.rect().adjusted(WIDE - TIGHT, self._heading_height(), -(WIDE - TIGHT), -SPACE)
        return Rooms.of(area)

    def _overview_view(self, room: QRect) -> View:
        length = self._seam.reading.line.length if self._seam else 1.0
        return View(-_MARGIN_MM, room.height() / (length + 2 * _MARGIN_MM))

    # Words

    def _words(self) -> tuple[str, str, str]:
        """Name, readings, and what can't meet."""
        if self._seam is None:
            return "", "", ""
        reading = self._seam.reading
        return reading.label, seam_in_words(reading), what_can_meet(reading)

    def _heading_boxes(self) -> list[tuple[str, str, Size, QRect]]:
        """Text, colour role, size and place of every line of the heading."""
        boxes, top, low = [], SPACE, self.height() < LOW_PX
        roles = (("text", Size.NORMAL if low else Size.LARGE), ("quiet", Size.NORMAL), ("warning", Size.NORMAL))
        for text, (role, size) in zip(self._words(), roles, strict=True):
            if text and not (low and role == "quiet"):
                room = QRect(WIDE - TIGHT, top, max(self.width() - 2 * WIDE + SPACE, 1), 1000)
                font = current().font(size, bold=role == "text")
                box = QFontMetrics(font).boundingRect(room, Qt.TextFlag.TextWordWrap, text)
                boxes.append((text, role, size, QRect(room.left(), top, room.width(), box.height())))
                top += box.height() + TIGHT
        return boxes

    def _heading_height(self) -> int:
        boxes = self._heading_boxes()
        return boxes[-1][3].bottom() + SPACE if boxes else 0

    # Painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """The heading, the opened seam, and all that is written beside it."""
        painter = QPainter(self)
        painter.fillRect(self.rect(), current().colour("surface"))
        if self._seam is None or self._view is None:
            self._paint_empty(painter)
        else:
            self._paint_heading(painter)
            self._paint_seam(painter, self._seam, self._view)
        if self.hasFocus():
            painter.setPen(QPen(current().colour("accent"), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))

    def _paint_empty(self, painter: QPainter) -> None:
        painter.setPen(current().colour("quiet"))
        area = self.rect().adjusted(WIDE, WIDE, -WIDE, -WIDE)
        painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, tr(EMPTY))

    def _paint_heading(self, painter: QPainter) -> None:
        for text, role, size, box in self._heading_boxes():
            painter.setFont(current().font(size, bold=role == "text"))
            painter.setPen(current().colour(role))
            painter.drawText(box, Qt.TextFlag.TextWordWrap, text)

    def _paint_seam(self, painter: QPainter, seam: OpenedSeam, view: View) -> None:
        rooms = self._rooms()
        if rooms.cloth.height() < 1:
            return
        marks = Marks(seam.reading, self._grades, rooms, view, self._project.heights if self._project else None)
        self._paint_cloth(painter, seam, rooms.cloth, view)
        marks.paint(painter)
        if rooms.overview.width():
            whole = self._overview_view(rooms.overview)
            self._paint_cloth(painter, seam, rooms.overview, whole)
            marks.paint_grades(painter, rooms.overview, whole)
            self._paint_window(painter, rooms, whole, view)

    def _paint_cloth(self, painter: QPainter, seam: OpenedSeam, room: QRect, view: View) -> None:
        ratio = self.devicePixelRatioF()
        fine = View(view.top_mm, view.scale * ratio)
        half = round(room.width() // 2 * ratio)
        image = seam.image(fine, half, round(room.width() * ratio), round(room.height() * ratio))
        image.setDevicePixelRatio(ratio)
        outline = seam.outline(view, QPointF(room.left() + room.width() // 2, room.top()))
        painter.save()
        painter.setClipRect(room)
        painter.drawImage(QPointF(room.topLeft()), image)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        outside = QPainterPath(outline)
        outside.setFillRule(Qt.FillRule.OddEvenFill)
        outside.addRect(QRectF(room).adjusted(-1, -1, 1, 1))
        painter.fillPath(outside, current().colour("surface"))
        painter.strokePath(outline, QPen(current().colour("text", 0.8), 1.0))
        painter.restore()

    def _paint_window(self, painter: QPainter, rooms: Rooms, whole: View, view: View) -> None:
        """Outline, on the strip, of what the window shows."""
        room = rooms.overview
        top, bottom = whole.y(view.top_mm), whole.y(view.height(rooms.cloth.height()))
        box = QRectF(room.left() - 2, room.top() + top, room.width() + 4, bottom - top)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(current().colour("halo"), 4.0))
        painter.drawRect(box)
        painter.setPen(QPen(current().colour("accent"), 2.0))
        painter.drawRect(box)

    # Hands

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the window inside the seam, and about the worst step until the user has chosen another one."""
        if self._view and self._chosen:
            self._look(View(self._view.top_mm, max(self._view.scale, self._fitting_scale())))
        elif self._view:
            self._view = self._first_view()

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom at the cursor; with Shift, scroll along the height."""
        if event.modifiers() & Qt.KeyboardModifier.ShiftModifier and self._view:
            turn = event.angleDelta().y() or event.angleDelta().x()
            self._look(View(self._view.top_mm - turn / 2 / self._view.scale, self._view.scale))
            return
        self.zoom(_ZOOM_STEP ** (event.angleDelta().y() / 120), event.position().y() - self._rooms().cloth.top())
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take hold of the cloth, or go to a place on the strip."""
        if event.button() != Qt.MouseButton.LeftButton or self._view is None:
            return
        on_strip = self._rooms().overview.contains(event.position().toPoint())
        self._grip = ("strip" if on_strip else "cloth", event.position().y(), self._view.top_mm)
        if on_strip:
            self._go_to(event.position().y())
        else:
            self.setCursor(Qt.CursorShape.ClosedHandCursor)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """Scroll."""
        if self._grip is None or self._view is None:
            return
        what, pressed_y, top = self._grip
        if what == "strip":
            self._go_to(event.position().y())
        else:
            self._look(View(top - (event.position().y() - pressed_y) / self._view.scale, self._view.scale))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        """Let go."""
        self._grip = None
        self.unsetCursor()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """Show the whole seam."""
        self.fit()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Arrows and Page keys scroll, Home and End go to the ends, plus and minus zoom, 0 shows the whole seam."""
        if not self._press(event.key()):
            super().keyPressEvent(event)

    def _press(self, key: int) -> bool:
        if self._view is None or self._seam is None:
            return False
        page = self._rooms().cloth.height()
        by = {
            Qt.Key.Key_Up: -_KEY_STEP,
            Qt.Key.Key_Down: _KEY_STEP,
            Qt.Key.Key_PageUp: -page,
            Qt.Key.Key_PageDown: page,
        }
        to = {Qt.Key.Key_Home: 0.0, Qt.Key.Key_End: self._seam.reading.line.length}
        about = {Qt.Key.Key_Plus: _ZOOM_STEP, Qt.Key.Key_Equal: _ZOOM_STEP, Qt.Key.Key_Minus: 1 / _ZOOM_STEP}
        if key in by:
            self._look(View(self._view.top_mm + by[key] / self._view.scale, self._view.scale))
        elif key in to:
            self.scroll_to(to[key])
        elif key in about:
            self.zoom(about[key], page / 2)
        elif key == Qt.Key.Key_0:
            self.fit()
        return key in by or key in to or key in about or key == Qt.Key.Key_0

    def _go_to(self, y: float) -> None:
        room = self._rooms().overview
        self.scroll_to(self._overview_view(room).height(y - room.top()))


def _same(one: SeamReading, other: SeamReading) -> bool:
    """Whether two readings are of one seam, be it eased or its line moved."""
    return one.line.sewn == other.line.sewn and abs(one.line.length - other.line.length) < SAME_LENGTH_MM
