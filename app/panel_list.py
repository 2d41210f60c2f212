"""The list twin of the cloth: every panel with its place, turn, hold and steps, for keys and for screen readers."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import (
    QAbstractTableModel,
    QItemSelection,
    QItemSelectionModel,
    QModelIndex,
    QPersistentModelIndex,
    QSignalBlocker,
    Qt,
)
from PySide6.QtGui import QKeyEvent, QPalette, QShowEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QHeaderView,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QVBoxLayout,
    QWidget,
)

from app.document import Document
from app.edits import Edits, panel_title
from app.figures import DASH, figure, step, unit
from app.length_box import DegreeBox, LengthBox
from app.level_marks import level_in_words
from app.readings.grades import Grades
from app.theme import GRID, SPACE, current
from app.words import later, tr
from core.model.pattern import PanelName
from core.model.project import Placement
from core.seams.levels import Level, levels_of

AnyIndex = QModelIndex | QPersistentModelIndex
PANEL, ACROSS, ALONG, TURN, LIES, WORST = range(6)
ROW_HIGH = 7 * GRID
_NUDGES = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, -1), Qt.Key.Key_Down: (0, 1)}
_HOW = later(
    "Every panel with its place. Enter types a new place or turn; Alt with the arrow keys moves the panel, with Shift "
    "by ten, with Ctrl by a tenth; H holds it, T turns it end for end, M moves it by figures."
)


@dataclass(frozen=True)
class _Head:
    title: str
    units: Callable[[], str]
    meaning: str


HEADS = (
    _Head(later("Panel"), str, later("Every panel that is cut")),
    _Head(later("Across"), unit, later("Where its origin lies across the cloth, from the left selvedge")),
    _Head(later("Along"), unit, later("Where its origin lies along the cloth, from the cut end")),
    _Head(later("Turn"), lambda: "°", later("How far it is turned off the grain, clockwise")),
    _Head(later("Lies"), str, later("Whether it is held, or lies end for end")),
    _Head(later("Worst step"), unit, later("The largest step on any of its seams, and its grade")),
)


class PanelModel(QAbstractTableModel):
    """One row a panel of the document."""

    def __init__(self, document: Document, parent: Any = None) -> None:
        super().__init__(parent)
        self._document = document
        self.names: tuple[PanelName, ...] = ()

    def read_again(self) -> None:
        """Show the document as it stands."""
        names = tuple(self._document.cut.panel_names)
        if names != self.names:
            self.beginResetModel()
            self.names = names
            self.endResetModel()
        elif names:
            self.dataChanged.emit(self.index(0, 0), self.index(len(names) - 1, len(HEADS) - 1))

    def rowCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        """One row a panel."""
        return 0 if parent.isValid() else len(self.names)

    def columnCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        """As many as `HEADS`."""
        return 0 if parent.isValid() else len(HEADS)

    def at(self, row: int) -> Placement:
        """Where the panel of a row lies."""
        return self._document.project.placement(self.names[row])

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows and says."""
        row, column = index.row(), index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return self.text(row, column)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{tr(HEADS[column].title)} {self.text(row, column)} {HEADS[column].units()}".strip()
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return self._steps(self.names[row])
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(column)
        return None

    def text(self, row: int, column: int) -> str:
        """The words or figure in a cell."""
        name, at = self.names[row], self.at(row)
        if column == LIES:
            return (
                ", ".join(word for word, true in ((tr("held"), at.hold), (tr("end for end"), at.turned)) if true)
                or DASH
            )
        if column == WORST:
            return self._worst(name)
        if column == PANEL:
            return panel_title(self._document, name)
        return figure(at.turn_deg, decimals=2) if column == TURN else step(at.u if column == ACROSS else at.v)

    def _worst(self, name: PanelName) -> str:
        steps = [reading.worst[0] for reading in self._readings(name) if reading.worst]
        if not steps:
            return DASH
        return f"{step(max(steps))} {_grade(max(steps))}"

    def _readings(self, name: PanelName) -> list[Any]:
        return [reading for reading in self._document.measurement.read if name in reading.line.panels]

    def _steps(self, name: PanelName) -> str:
        """The seams of a panel, each with its worst step."""
        worst = [(reading.label, reading.worst[0]) for reading in self._readings(name) if reading.worst]
        lines = [f"{label}: {tr('Worst step')} {step(size)} {unit()}, {_grade(size)}" for label, size in worst]
        lines = lines or [tr("No seam with stripes to match")]
        return "\n".join([*lines, *(level_in_words(level) for level in self._levels(name))])

    def _levels(self, name: PanelName) -> tuple[Level, ...]:
        """How far the bars lie from a panel's waist and hem."""
        document = self._document
        return levels_of(document.panels[name], document.cut.cloth_of(name), document.project.placement(name))

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Titles with units, and what they mean."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return f"{tr(HEADS[section].title)}\n{HEADS[section].units()}"
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return _alignment(section)
        return tr(HEADS[section].meaning) if role == Qt.ItemDataRole.ToolTipRole else None

    def flags(self, index: AnyIndex) -> Qt.ItemFlag:
        """Places and turns can be typed, unless the panel is held."""
        flags = super().flags(index)
        typed = index.column() in (ACROSS, ALONG, TURN) and not self.at(index.row()).hold
        return flags | Qt.ItemFlag.ItemIsEditable if typed else flags


def _alignment(column: int) -> Qt.AlignmentFlag:
    """Figures stand on the right, names on the left, marks in the middle."""
    flags = Qt.AlignmentFlag
    side = {PANEL: flags.AlignLeft, LIES: flags.AlignHCenter}.get(column, flags.AlignRight)
    return side | Qt.AlignmentFlag.AlignVCenter


def _grade(step_mm: float) -> str:
    """A step's grade in a word."""
    return {"good": tr("good"), "fair": tr("fair"), "poor": tr("poor")}[Grades().grade_of(step_mm)]


class _Typing(QStyledItemDelegate):
    """Fields for places and turns, as in the strip above the cloth."""

    def __init__(self, model: PanelModel, edits: Edits, parent: QWidget) -> None:
        super().__init__(parent)
        self._model, self._edits = model, edits

    def createEditor(self, parent: QWidget, option: QStyleOptionViewItem, index: AnyIndex) -> QWidget:
        """A field of the right kind."""
        head = HEADS[index.column()]
        box = (
            DegreeBox(tr("Turn, °"), tr(head.meaning))
            if index.column() == TURN
            else LengthBox(tr(head.title), tr(head.meaning))
        )
        box.setParent(parent)
        box.setAutoFillBackground(True)
        return box

    def setEditorData(self, editor: QWidget, index: AnyIndex) -> None:
        """Begin with what stands there."""
        at = self._model.at(index.row())
        editor.setValue({ACROSS: at.u, ALONG: at.v, TURN: at.turn_deg}[index.column()])
        editor.selectAll()

    def setModelData(self, editor: QWidget, model: Any, index: AnyIndex) -> None:
        """Keep what was typed, as one undo step."""
        editor.interpretText()
        name = self._model.names[index.row()]
        if index.column() == TURN:
            self._edits.type_turn(name, editor.value())
        else:
            self._edits.type_place(name, "u" if index.column() == ACROSS else "v", editor.value())


class PanelTable(QTableView):
    """Whole rows; Enter types into a cell, Alt with the arrow keys moves the selected panels."""

    def __init__(self, model: PanelModel, edits: Edits, parent: QWidget) -> None:
        super().__init__(parent)
        self._edits = edits
        self.setModel(model)
        self.setItemDelegate(_Typing(model, edits, self))
        self.setAccessibleName(tr("Panels"))
        self.setAccessibleDescription(tr(_HOW))
        self.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.setSelectionMode(QAbstractItemView.SelectionMode.ExtendedSelection)
        self.setEditTriggers(QAbstractItemView.EditTrigger.EditKeyPressed | QAbstractItemView.EditTrigger.DoubleClicked)
        self.setTabKeyNavigation(False)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.setTextElideMode(Qt.TextElideMode.ElideMiddle)  # the side of a pair stands at the end of a name
        self.setFrameShape(QTableView.Shape.NoFrame)
        self.verticalHeader().hide()
        self.verticalHeader().setDefaultSectionSize(ROW_HIGH)
        header = self.horizontalHeader()
        header.setAccessibleName(tr("Columns"))
        header.setHighlightSections(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(PANEL, QHeaderView.ResizeMode.Stretch)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """As every table; Alt and an arrow key move panels, Enter types into the cell."""
        keys = event.modifiers()
        if event.key() in _NUDGES and keys & Qt.KeyboardModifier.AltModifier:
            fine, coarse = keys & Qt.KeyboardModifier.ControlModifier, keys & Qt.KeyboardModifier.ShiftModifier
            size = 0.1 if fine else 10.0 if coarse else 1.0
            self._edits.nudge(*(size * way for way in _NUDGES[event.key()]))
        elif event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.state() != self.State.EditingState:
            self.edit(self.currentIndex())
        else:
            super().keyPressEvent(event)


class PanelList(QWidget):
    """Follows the document while it is seen; the selection is the document's, both ways."""

    def __init__(self, document: Document, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("List of panels"))
        self._document = document
        self.model = PanelModel(document, self)
        self.table = PanelTable(self.model, edits, self)
        column = QVBoxLayout(self)
        column.setContentsMargins(SPACE, SPACE, SPACE, SPACE)
        column.addWidget(self.table)
        self.table.selectionModel().selectionChanged.connect(self._tell)
        document.project_changed.connect(self.follow)
        document.placements_changed.connect(self.follow)
        document.selection_changed.connect(self._show_selected)
        self.show_theme()

    def showEvent(self, event: QShowEvent) -> None:
        """Read what has changed while it was away."""
        super().showEvent(event)
        self.follow()

    def follow(self) -> None:
        """Show the document as it stands, if anybody sees it."""
        if self.isVisible():
            self.model.read_again()
            self._show_selected()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self.model.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(HEADS) - 1)
        self.follow()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        palette = self.table.palette()
        palette.setColor(QPalette.ColorRole.Highlight, current().colour("selected"))
        palette.setColor(QPalette.ColorRole.HighlightedText, current().colour("text"))
        self.table.setPalette(palette)

    def _chosen(self) -> tuple[PanelName, ...]:
        rows = sorted(index.row() for index in self.table.selectionModel().selectedRows())
        here = self.table.currentIndex().row()
        names = [self.model.names[row] for row in rows if row != here]
        return (*names, self.model.names[here]) if here in rows else tuple(names)

    def _tell(self) -> None:
        self._document.select(self._chosen())

    def _show_selected(self) -> None:
        chosen = self._document.selection
        if not self.isVisible() or set(chosen) == set(self._chosen()):
            return
        marks, wanted = self.table.selectionModel(), QItemSelection()
        for row in (self.model.names.index(name) for name in chosen if name in self.model.names):
            wanted.select(self.model.index(row, 0), self.model.index(row, len(HEADS) - 1))
        flags = QItemSelectionModel.SelectionFlag
        with QSignalBlocker(marks):
            marks.select(wanted, flags.ClearAndSelect)
            if chosen and chosen[-1] in self.model.names:
                here = self.model.index(self.model.names.index(chosen[-1]), max(self.table.currentIndex().column(), 0))
                marks.setCurrentIndex(here, flags.NoUpdate)
                self.table.scrollTo(here)
        self.table.viewport().update()
