"""The table of seams as it is drawn: whole rows, figures aligned at the point, marks, small drawings."""

from PySide6.QtCore import QModelIndex, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetrics, QKeyEvent, QPainter, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app.readings.grades import paint_mark
from app.readings.seam_model import (
    AT,
    COLUMNS,
    DRAWING,
    DRIFT,
    FIGURES,
    GROUP,
    RMS,
    SEAM,
    WAY_TITLES,
    WORST,
    SeamModel,
    alignment_of,
    kind_of,
    way_of,
)
from app.readings.sparkline import SparklineCache
from app.theme import GRID, SPACE, TIGHT, Size, current
from app.units import shown
from app.words import tr
from core.model.pattern import SewnSeam

ROW_HEIGHT = 8 * GRID
_MARK_ROOM = 4 * GRID
_WIDEST = {"mm": ("00.0", "00000", "+000.0"), "cm": ("0.00", "000.0", "+00.00"), "in": ("0.000", "00 00/00", "+0.000")}
"""Steps, heights and drifts in each unit."""
_NAME_ROOM = 36 * GRID
_DRAWING_ROOM = (22 * GRID, 40 * GRID)
_SMALL_DRAWING = 11 * GRID
"""The least room of a drawing where there are two of them."""


class SeamView(QTableView):
    """The table itself: whole rows, figures aligned at the point. Escape leaves the row."""

    left = Signal()
    way_clicked = Signal(str)
    """A figure of the stripes, or of the bars, was clicked, where there are both."""

    def __init__(self, model: SeamModel, parent: QWidget) -> None:
        super().__init__(parent)
        self.setModel(model)
        self.setItemDelegate(_SeamDelegate(model, self))
        self.setAccessibleName(tr("Seams"))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalHeader(_Headings(model, self))
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HEIGHT)
        self._model = model
        self._size_columns()
        self._arrange()
        model.modelReset.connect(self._arrange)
        self.clicked.connect(self._tell_way)
        self.setSortingEnabled(True)
        self.horizontalHeader().setSortIndicator(-1, Qt.SortOrder.AscendingOrder)
        self.horizontalHeader().setSortIndicatorClearable(True)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """As every table, and Escape leaves the row."""
        if event.key() == Qt.Key.Key_Escape and self.currentIndex().isValid():
            self.left.emit()
        else:
            super().keyPressEvent(event)

    def _tell_way(self, index: QModelIndex) -> None:
        if self._model.both_ways and index.column() != SEAM:
            self.way_clicked.emit(way_of(index.column()))

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._size_columns()
        self._arrange()

    def _size_columns(self) -> None:
        header = self.horizontalHeader()
        header.setMinimumSectionSize(10 * GRID)
        wide = QFontMetrics(current().font()).horizontalAdvance
        room = TIGHT + SPACE
        header.setSectionResizeMode(SEAM, QHeaderView.ResizeMode.Stretch)
        narrow, high, drifting = (wide(text) + room for text in _WIDEST[shown().name])
        self._widths = {RMS: narrow, WORST: narrow + _MARK_ROOM, AT: high, DRIFT: drifting}

    def _arrange(self) -> None:
        """Show the columns that say something and have room, and give the drawings what the names can spare."""
        both, header = self._model.both_ways, self.horizontalHeader()
        ways, least = (2, _SMALL_DRAWING) if both else (1, _DRAWING_ROOM[0])
        room = (self.viewport().width() - _NAME_ROOM) // ways
        told = FIGURES if not both or sum(self._widths.values()) + least <= room else (RMS, WORST)
        drawing = room - sum(self._widths[column] for column in told)
        widths = {**self._widths, DRAWING: max(least, min(drawing, _DRAWING_ROOM[1]))}
        for column, width in widths.items():
            left_out = column not in (*told, DRAWING)
            self.setColumnHidden(column, left_out)
            self.setColumnHidden(column + GROUP, left_out or not both)
            header.resizeSection(column, width)
            header.resizeSection(column + GROUP, width)
        self.updateGeometries()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Show as much as there is room for."""
        self._arrange()
        super().resizeEvent(event)


class _Headings(QHeaderView):
    """Titles over units, flat, with a small arrow where the rows are sorted; stripes and bars over theirs."""

    def __init__(self, model: SeamModel, parent: QWidget) -> None:
        super().__init__(Qt.Orientation.Horizontal, parent)
        self._model = model
        self.setSectionsClickable(True)
        self.setAccessibleName(tr("Columns"))

    def sizeHint(self) -> QSize:
        """Two lines of small type, three where there are stripes and bars."""
        line = QFontMetrics(current().font(Size.SMALL)).height()
        return QSize(super().sizeHint().width(), (3 if self._model.both_ways else 2) * line + 2 * TIGHT)

    def paintSection(self, painter: QPainter, rect: QRect, section: int) -> None:
        """One heading."""
        theme, column = current(), COLUMNS[section]
        painter.fillRect(rect, theme.colour("window"))
        painter.fillRect(QRect(rect.left(), rect.bottom(), rect.width(), 1), theme.colour("line"))
        painter.setFont(theme.font(Size.SMALL))
        inner = _inner(rect, section).adjusted(0, TIGHT, 0, -TIGHT)
        if self._model.both_ways:
            inner.setTop(inner.top() + painter.fontMetrics().height())
            if section != SEAM:
                self._paint_way(painter, rect, section)
        side = alignment_of(section) & Qt.AlignmentFlag.AlignHorizontal_Mask
        painter.setPen(theme.colour("text"))
        painter.drawText(inner, side | Qt.AlignmentFlag.AlignTop, tr(column.title))
        if painter.fontMetrics().horizontalAdvance(column.unit) <= inner.width():
            painter.setPen(theme.colour("quiet"))
            painter.drawText(inner, side | Qt.AlignmentFlag.AlignBottom, column.unit)
        if section == self.sortIndicatorSection():
            self._paint_arrow(painter, inner, section)

    def _paint_way(self, painter: QPainter, rect: QRect, section: int) -> None:
        """What is read, underlined, over all columns of it: as much of that as falls on one of them."""
        theme = current()
        first = RMS if way_of(section) == "lengthwise" else RMS + GROUP
        last = first + DRAWING - RMS
        left = self.sectionViewportPosition(first) + SPACE
        right = self.sectionViewportPosition(last) + self.sectionSize(last) - SPACE
        group = QRect(left, rect.top() + TIGHT, right - left, painter.fontMetrics().height())
        painter.save()
        painter.setClipRect(rect)
        painter.fillRect(QRect(left, group.bottom(), group.width(), 1), theme.colour("edge"))
        painter.setPen(theme.colour("text"))
        painter.drawText(group, Qt.AlignmentFlag.AlignHCenter, tr(WAY_TITLES[way_of(section)]))
        painter.restore()

    def _paint_arrow(self, painter: QPainter, inner: QRect, section: int) -> None:
        wide = painter.fontMetrics().horizontalAdvance(tr(COLUMNS[section].title)) + SPACE
        at_left = alignment_of(section) & Qt.AlignmentFlag.AlignLeft
        x = inner.left() + wide if at_left else inner.right() - wide
        y = inner.top() + painter.fontMetrics().height() / 2
        up = -1 if self.sortIndicatorOrder() == Qt.SortOrder.AscendingOrder else 1
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(current().colour("accent"))
        painter.drawPolygon([QPointF(x - 3.5, y - 2 * up), QPointF(x + 3.5, y - 2 * up), QPointF(x, y + 2.5 * up)])


class _SeamDelegate(QStyledItemDelegate):
    """Paints a cell: chosen row, name with its side, figures, grade mark, small drawing."""

    def __init__(self, model: SeamModel, parent: QWidget) -> None:
        super().__init__(parent)
        self._model = model
        self._drawings = SparklineCache()

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex) -> QSize:
        """Rows of one height."""
        return QSize(super().sizeHint(option, index).width(), ROW_HEIGHT)

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex) -> None:
        """One cell."""
        row, column, rect = index.row(), index.column(), option.rect
        self._paint_ground(painter, option, column)
        inner = _inner(rect, column)
        if column == SEAM:
            self._paint_name(painter, inner, self._model.sewn(row))
        elif kind_of(column) == DRAWING and (reading := self._model.reading(row, column)) is not None:
            area = QRectF(inner.adjusted(-2, 2, 2, -2))
            self._drawings.paint(painter, area, reading, self._model.grades)
        else:
            painter.setPen(current().colour("text"))
            painter.drawText(inner, alignment_of(column), self._model.text(row, column))
            if kind_of(column) == WORST and (grade := self._model.grade(row, column)):
                paint_mark(painter, grade, QPointF(inner.left() + TIGHT, inner.center().y() + 0.5))

    def _paint_ground(self, painter: QPainter, option: QStyleOptionViewItem, column: int) -> None:
        theme, rect = current(), option.rect
        left, top, bottom, width = rect.left(), rect.top(), rect.bottom(), rect.width()
        if not option.state & QStyle.StateFlag.State_Selected:
            painter.fillRect(left, bottom, width, 1, theme.colour("line"))
            return
        focus = option.widget is not None and option.widget.hasFocus()
        painter.fillRect(rect, theme.colour("selected"))
        painter.fillRect(left, bottom, width, 1, theme.colour("accent" if focus else "line"))
        if focus:
            painter.fillRect(left, top, width, 1, theme.colour("accent"))
        if column == SEAM:
            painter.fillRect(left, top, 3, rect.height(), theme.colour("accent"))

    def _paint_name(self, painter: QPainter, rect: QRect, sewn: SewnSeam) -> None:
        metrics, side = painter.fontMetrics(), f" {sewn.side}" if sewn.side else ""
        room = rect.width() - metrics.horizontalAdvance(side)
        name = metrics.elidedText(sewn.seam.name, Qt.TextElideMode.ElideRight, room)
        painter.setPen(current().colour("text"))
        painter.drawText(rect, alignment_of(SEAM), name)
        painter.setPen(current().colour("quiet"))
        painter.drawText(rect.adjusted(metrics.horizontalAdvance(name), 0, 0, 0), alignment_of(SEAM), side)


def _inner(cell: QRect, column: int) -> QRect:
    """A cell without its margins: figures need less on their left than words."""
    return cell.adjusted(SPACE if kind_of(column) in (SEAM, DRAWING) else TIGHT, 0, -SPACE, 0)
