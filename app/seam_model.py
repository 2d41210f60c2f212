"""The rows of the seam table: one a seam, kept in place while panels move, sorted when asked."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from app.figures import drift, figure, length, seam_in_words, step, unit, what_can_meet
from app.grades import Grade, Grades
from app.units import shown
from app.words import later, tr
from core.model.pattern import SewnSeam
from core.seams.readings import Measurement, SeamReading

AnyIndex = QModelIndex | QPersistentModelIndex


@dataclass(frozen=True)
class Column:
    """A column of figures: what it is called, what it means, where its value comes from, how it is written."""

    title: str
    meaning: str
    value: Callable[[SeamReading], float | None]
    show: Callable[[float | None], str] = step
    units: Callable[[], str] = unit

    @property
    def unit(self) -> str:
        """The unit in which it is shown."""
        return self.units()

    @property
    def heading(self) -> str:
        """Title and, below it, the unit."""
        return f"{tr(self.title)}\n{self.unit}"


def _no_value(_: SeamReading) -> float | None:
    return None


SEAM, RMS, WORST, AT, DRIFT, DRAWING = range(6)
COLUMNS = (
    Column(later("Seam"), later("Two edges that are sewn together."), _no_value, units=str),
    Column(
        later("Rms"),
        later("How far the stripes miss each other on the whole seam: the root of the mean squared step."),
        lambda reading: reading.rms_mm,
    ),
    Column(
        later("Worst"),
        later("The largest step anywhere on the seam, measured square across the stripes."),
        lambda reading: reading.worst and reading.worst[0],
    ),
    Column(
        later("At"),
        later("How far down the seam the worst step lies, from its upper end."),
        lambda reading: reading.worst and reading.worst[1],
        length,
    ),
    Column(
        later("Drift"),
        later(
            "By how much the step changes for every metre down the seam, because the two edges lean by "
            "different amounts."
        ),
        lambda reading: reading.drift_mm_per_m,
        lambda value: drift(value, signed=True),
        lambda: shown().rate_name,
    ),
    Column(
        later("Step"),
        later(
            "How far the stripes miss each other down the seam, upper end on the left. The tinted band is the "
            "good grade."
        ),
        lambda reading: reading.rms_mm,
        units=lambda: tr("from the top"),
    ),
)


class SeamModel(QAbstractTableModel):
    """Seams as rows. `seam_at` and `row_of` turn rows into places in the measurement and back."""

    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self._sewn: tuple[SewnSeam, ...] = ()
        self._readings: tuple[SeamReading | None, ...] = ()
        self._order: list[int] = []
        self._stale: set[int] = set()
        self._sorting: tuple[int, Qt.SortOrder] = (-1, Qt.SortOrder.AscendingOrder)
        self.grades = Grades()

    def show(self, sewn: tuple[SewnSeam, ...], measurement: Measurement | None) -> None:
        """Take new readings: in place if the seams are the same ones, else from scratch."""
        readings = measurement.main if measurement else (None,) * len(sewn)
        if sewn == self._sewn:
            before, self._readings = self._readings, readings
            for row, seam in enumerate(self._order):
                if readings[seam] is not before[seam]:
                    self._redraw_changed(row, before[seam], readings[seam])
                    self._stale.add(seam)
            return
        self.beginResetModel()
        self._sewn, self._readings = sewn, readings
        self._stale.clear()
        self._order = self._sorted()
        self.endResetModel()

    def redraw_drawings(self) -> None:
        """Have the small drawings follow the readings: they cost more than all figures of a row."""
        for seam in self._stale:
            index = self.index(self._order.index(seam), DRAWING)
            self.dataChanged.emit(index, index)
        self._stale.clear()

    def judge_by(self, grades: Grades) -> None:
        """Judge steps by other limits."""
        self.grades = grades
        self._redraw(list(range(len(self._order))))

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._redraw(list(range(len(self._order))))
        self.headerDataChanged.emit(Qt.Orientation.Horizontal, 0, len(COLUMNS) - 1)

    def seam_at(self, row: int) -> int:
        """Place in the measurement of the seam shown in a row; -1 outside the table."""
        return self._order[row] if 0 <= row < len(self._order) else -1

    def row_of(self, seam: int) -> int:
        """The row that shows a seam, by its place in the measurement; -1 for none."""
        return self._order.index(seam) if 0 <= seam < len(self._order) else -1

    def sewn(self, row: int) -> SewnSeam:
        """The seam in a row."""
        return self._sewn[self._order[row]]

    def reading(self, row: int) -> SeamReading | None:
        """The reading in a row; None where there is nothing to match."""
        return self._readings[self._order[row]]

    def grade(self, row: int) -> Grade | None:
        """The grade of the worst step in a row."""
        reading = self.reading(row)
        return self.grades.grade_of(reading.worst[0]) if reading and reading.worst else None

    def text(self, row: int, column: int) -> str:
        """The words or figure in a cell."""
        if column == SEAM:
            return self.sewn(row).label
        return _text(self.reading(row), column)

    def rowCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        """One row a seam."""
        return 0 if parent.isValid() else len(self._order)

    def columnCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        """As many as `COLUMNS`."""
        return 0 if parent.isValid() else len(COLUMNS)

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """What a cell shows, says and means."""
        row, column = index.row(), index.column()
        if role == Qt.ItemDataRole.DisplayRole:
            return self.text(row, column)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return alignment_of(column)
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return self._tip(row, column)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            return f"{tr(COLUMNS[column].title)} {self.text(row, column)} {COLUMNS[column].unit}".strip()
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Titles with units, and what they mean."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section].heading
        if role == Qt.ItemDataRole.ToolTipRole:
            return tr(COLUMNS[section].meaning)
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return alignment_of(section)
        return None

    def sort(self, column: int, order: Qt.SortOrder = Qt.SortOrder.AscendingOrder) -> None:
        """Put the rows in the order of a column; -1 is the order of the project. Seams without a value come last."""
        self._sorting = (column, order)
        wanted = self._sorted()
        if wanted == self._order:
            return
        self.layoutAboutToBeChanged.emit()
        before = self.persistentIndexList()
        seams = [self._order[index.row()] for index in before]
        self._order = wanted
        after = [self.index(wanted.index(seam), old.column()) for seam, old in zip(seams, before, strict=True)]
        self.changePersistentIndexList(before, after)
        self.layoutChanged.emit()

    def sort_again(self) -> None:
        """Put the rows in order for the readings as they stand."""
        self.sort(*self._sorting)

    def _redraw_changed(self, row: int, before: SeamReading | None, after: SeamReading | None) -> None:
        """Have those figures drawn again that read otherwise now."""
        for column in range(RMS, DRAWING):
            if _text(before, column) != _text(after, column):
                self.dataChanged.emit(self.index(row, column), self.index(row, column))

    def _redraw(self, rows: list[int]) -> None:
        for row in rows:
            self.dataChanged.emit(self.index(row, 0), self.index(row, len(COLUMNS) - 1))

    def _sorted(self) -> list[int]:
        column, order = self._sorting
        every = list(range(len(self._sewn)))
        if column < 0:
            return every
        if column == SEAM:
            return sorted(every, key=lambda seam: self._sewn[seam].label, reverse=order == Qt.SortOrder.DescendingOrder)
        values = [reading and COLUMNS[column].value(reading) for reading in self._readings]
        sign = -1.0 if order == Qt.SortOrder.DescendingOrder else 1.0
        return sorted(every, key=lambda seam: (values[seam] is None, sign * (values[seam] or 0.0)))

    def _tip(self, row: int, column: int) -> str:
        reading, sewn = self.reading(row), self.sewn(row)
        lines = [tr("{label}: {a} to {b}").format(label=sewn.label, a=sewn.a, b=sewn.b)]
        if reading is None:
            lines.append(tr("No stripes to match here: the two panels are not of one striped cloth."))
        else:
            lines += [seam_in_words(reading), what_can_meet(reading)]
        if column != SEAM:
            lines.append(f"{tr(COLUMNS[column].title)}: {tr(COLUMNS[column].meaning)}")
        return "\n".join(line for line in lines if line)


def _text(reading: SeamReading | None, column: int) -> str:
    """The figure of a reading in a column."""
    if column == DRAWING:
        return "" if reading else figure(None)
    value = reading and COLUMNS[column].value(reading)
    return COLUMNS[column].show(value)


def alignment_of(column: int) -> Qt.AlignmentFlag:
    """Figures stand on the right, so that their points do too; the rest on the left."""
    side = Qt.AlignmentFlag.AlignLeft if column in (SEAM, DRAWING) else Qt.AlignmentFlag.AlignRight
    return side | Qt.AlignmentFlag.AlignVCenter
