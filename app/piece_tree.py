"""Every piece to cut, by cloth, to be ticked off; open a piece for its single panels."""

from collections import defaultdict
from collections.abc import Sequence

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QSize, Qt, Signal
from PySide6.QtGui import QPainter, QPalette
from PySide6.QtWidgets import (
    QHeaderView,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTreeWidget,
    QTreeWidgetItem,
    QWidget,
)

from app.theme import GRID, Size, current
from app.words import later, tr
from core.derive.changes import ListRow
from core.model.pattern import PanelName
from core.model.project import Project

AnyIndex = QModelIndex | QPersistentModelIndex

PIECE, NUMBER, MIRRORED, GRAIN = range(4)
_HEADS = (later("Piece"), later("Number"), later("Mirrored"), later("Grain"))
_TIPS = (
    later("Tick off what is cut"),
    later("How often the piece is cut"),
    later("How many of them are cut mirrored"),
    later("Straight, or on the bias"),
)
_GRAINS = {"straight": later("straight"), "bias": later("bias")}
_DATA = Qt.ItemDataRole.UserRole
ROW_HIGH = 7 * GRID


class PieceTree(QTreeWidget):
    """Rows of the cut list. Says what is ticked, and which row is the current one."""

    ticked = Signal(tuple, bool)
    """These panels are cut, or not."""
    chosen = Signal(object)
    """This row of the list, or None on a cloth."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._shown: list[tuple[str, ListRow]] = []
        self.setAccessibleName(tr("Pieces to cut"))
        self.setHeaderLabels([tr(head) for head in _HEADS])
        for column, tip in enumerate(_TIPS):
            self.headerItem().setToolTip(column, tr(tip))
        for column in (NUMBER, MIRRORED, GRAIN):
            self.headerItem().setTextAlignment(column, Qt.AlignmentFlag.AlignRight)
        self.header().setStretchLastSection(False)
        self.header().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.header().setSectionResizeMode(PIECE, QHeaderView.ResizeMode.Stretch)
        self.setFrameShape(QTreeWidget.Shape.NoFrame)
        self.setUniformRowHeights(True)
        self.setItemDelegate(_Boxes(self))
        self.itemChanged.connect(self._tick)
        self.currentItemChanged.connect(lambda: self.chosen.emit(self.row))

    @property
    def row(self) -> ListRow | None:
        """The row of the list that is the current one, or that its panel belongs to."""
        item = self.currentItem()
        while item and item.parent() and item.parent().parent():
            item = item.parent()
        found = item.data(NUMBER, _DATA) if item else None
        return found if isinstance(found, ListRow) else None

    @property
    def panels(self) -> tuple[PanelName, ...]:
        """The panels of the current row."""
        item = self.currentItem()
        return tuple(item.data(PIECE, _DATA) or ()) if item else ()

    def show_rows(self, project: Project, rows: Sequence[ListRow]) -> None:
        """Show the list; what is open and which row is current stay so.

        Where only ticks have changed no item is made anew: this is called while an item is being ticked.
        """
        shown = [(project.cloth(row.piece.cloth).title, row) for row in rows]
        if shown == self._shown:
            self._show_ticks(project)
        else:
            self._shown = shown
            self._build(project, rows)

    def _build(self, project: Project, rows: Sequence[ListRow]) -> None:
        kept, opened = self.panels, {item.data(PIECE, _DATA) for item in self._all() if item.isExpanded()}
        blocked = self.blockSignals(True)
        self.clear()
        by_cloth: dict[str, list[ListRow]] = defaultdict(list)
        for row in rows:
            by_cloth[row.piece.cloth].append(row)
        for cloth in project.cloths:
            if cloth.id in by_cloth:
                self._add_cloth(project, cloth.title, by_cloth[cloth.id])
        for item in self._all():
            item.setExpanded(item.parent() is None or item.data(PIECE, _DATA) in opened)
        self.setCurrentItem(next((item for item in self._all() if kept and item.data(PIECE, _DATA) == kept), None))
        self.blockSignals(blocked)
        self.chosen.emit(self.row)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        palette = self.palette()
        palette.setColor(QPalette.ColorRole.Highlight, current().colour("selected"))
        palette.setColor(QPalette.ColorRole.HighlightedText, current().colour("text"))
        self.setPalette(palette)

    def _all(self) -> list[QTreeWidgetItem]:
        found, waiting = [], [self.topLevelItem(index) for index in range(self.topLevelItemCount())]
        while waiting:
            item = waiting.pop(0)
            found.append(item)
            waiting += [item.child(index) for index in range(item.childCount())]
        return found

    def _add_cloth(self, project: Project, title: str, rows: Sequence[ListRow]) -> None:
        head = QTreeWidgetItem(self, [title, str(sum(row.piece.number for row in rows))])
        head.setFont(PIECE, current().font(Size.NORMAL, bold=True))
        head.setFlags(Qt.ItemFlag.ItemIsEnabled | Qt.ItemFlag.ItemIsSelectable)
        self._size(head)
        for row in rows:
            self._add_row(project, head, row)

    def _add_row(self, project: Project, head: QTreeWidgetItem, row: ListRow) -> None:
        piece = row.piece
        mirrored = str(piece.number // 2) if piece.mirrored else "–"
        item = QTreeWidgetItem(head, [piece.name, str(piece.number), mirrored, tr(_GRAINS[piece.grain])])
        item.setToolTip(PIECE, piece.name)
        item.setData(NUMBER, _DATA, row)
        self._mark(project, item, row.panels)
        if len(row.panels) > 1:
            for number, panel in enumerate(row.panels, 1):
                child = QTreeWidgetItem(item, [f"{piece.name} {_which(row, number, panel)}"])
                child.setToolTip(PIECE, child.text(PIECE))
                self._mark(project, child, (panel,))

    def _mark(self, project: Project, item: QTreeWidgetItem, panels: tuple[PanelName, ...]) -> None:
        """Give a row its panels and its tick."""
        item.setData(PIECE, _DATA, panels)
        item.setCheckState(PIECE, _state(project, panels))
        self._size(item)

    def _show_ticks(self, project: Project) -> None:
        blocked = self.blockSignals(True)
        for item in self._all():
            if panels := item.data(PIECE, _DATA):
                item.setCheckState(PIECE, _state(project, tuple(panels)))
        self.blockSignals(blocked)
        self.viewport().update()

    def _size(self, item: QTreeWidgetItem) -> None:
        item.setSizeHint(PIECE, QSize(0, ROW_HIGH))
        for column in (NUMBER, MIRRORED, GRAIN):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)

    def _tick(self, item: QTreeWidgetItem, column: int) -> None:
        if column == PIECE and (panels := item.data(PIECE, _DATA)):
            self.ticked.emit(tuple(panels), item.checkState(PIECE) == Qt.CheckState.Checked)


def _which(row: ListRow, number: int, panel: PanelName) -> str:
    """What tells one panel of a row from the others: its number, or its side, or both."""
    if not row.piece.mirrored:
        return str(number)
    return panel[-1] if row.piece.number == 2 else f"{(number + 1) // 2} {panel[-1]}"


def _state(project: Project, panels: tuple[PanelName, ...]) -> Qt.CheckState:
    """The tick of some panels: all are cut, part of them, or none."""
    count = sum(panel in project.done for panel in panels)
    if count == len(panels):
        return Qt.CheckState.Checked
    return Qt.CheckState.PartiallyChecked if count else Qt.CheckState.Unchecked


class _Boxes(QStyledItemDelegate):
    """Outlines the boxes to tick, so that empty ones are seen on a dark ground too."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: AnyIndex) -> None:
        """The cell as ever, then the outline of its box."""
        super().paint(painter, option, index)
        if index.data(Qt.ItemDataRole.CheckStateRole) is not None:
            here = QStyleOptionViewItem(option)
            self.initStyleOption(here, index)
            box = option.widget.style().subElementRect(_BOX, here, option.widget)
            painter.setPen(current().colour("edge"))
            painter.drawRect(box.adjusted(0, 0, -1, -1))


_BOX = QStyle.SubElement.SE_ItemViewItemCheckIndicator
