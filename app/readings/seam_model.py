"""The rows of the seam table: one a seam, kept in place while panels move, sorted when asked.

Where seams have stripes and bars to match, the columns of figures stand there twice: for stripes, then for bars.
"""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QPersistentModelIndex, Qt

from app.figures import drift, figure, length, seam_in_words, step, unit, what_can_meet
from app.readings.grades import Grade, Grades
from app.units import shown
from app.words import later, tr
from core.model.cloth import WAYS, Way
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


SHOWN_MM = 0.05
"""A worst step below this reads 0.0 and lies nowhere in particular."""
SEAM, RMS, WORST, AT, DRIFT, DRAWING = range(6)
FIGURES = (RMS, WORST, AT, DRIFT)
GROUP = 5
"""So many columns further on stands the same of the bars, where there are stripes too."""
_SEAM = Column(later("Seam"), later("Two edges that are sewn together."), _no_value, units=str)
_READ = (
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
        lambda reading: reading.worst[1] if reading.worst and reading.worst[0] >= SHOWN_MM else None,
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
COLUMNS = (_SEAM, *_READ, *_READ)
WAY_TITLES: dict[Way, str] = {"lengthwise": later("Stripes"), "crosswise": later("Bars")}


def way_of(column: int) -> Way:
    """Which way the seams are read in a column, where they are read both ways."""
    return "lengthwise" if column <= DRAWING else "crosswise"


def kind_of(column: int) -> int:
    """What a column shows, whichever way: `SEAM` to `DRAWING`."""
    return column if column <= DRAWING else column - GROUP


class SeamModel(QAbstractTableModel):
    """Seams as rows. `seam_at` and `row_of` turn rows into places in the measurement and back."""

    def __init__(self, parent: Any = None) -> None:
        super().__init__(parent)
        self._sewn: tuple[SewnSeam, ...] = ()
        self._readings: dict[Way, tuple[SeamReading | None, ...]] = dict.fromkeys(WAYS, ())
        self._order: list[int] = []
        self._stale: set[int] = set()
        self._sorting: tuple[int, Qt.SortOrder] = (-1, Qt.SortOrder.AscendingOrder)
        self.both_ways = False
        """Whether there are stripes and bars to match, so that the columns of the bars say something."""
        self.grades = Grades()

    def show(self, sewn: tuple[SewnSeam, ...], measurement: Measurement | None) -> None:
        """Take new readings: in place if the seams are the same ones, else from scratch."""
        both = measurement is not None and any(measurement.seams) and any(measurement.crosswise)
        readings = _by_way(len(sewn), measurement, both)
        if sewn == self._sewn and both == self.both_ways:
            before, self._readings = self._readings, readings
            for row, seam in enumerate(self._order):
                if any(readings[way][seam] is not before[way][seam] for way in WAYS):
                    self._redraw_changed(row, {way: before[way][seam] for way in WAYS})
                    self._stale.add(seam)
            return
        self.beginResetModel()
        self._sewn, self._readings, self.both_ways = sewn, readings, both
        self._stale.clear()
        self._order = self._sorted()
        self.endResetModel()

    def redraw_drawings(self) -> None:
        """Have the small drawings follow the readings: they cost more than all figures of a row."""
        for seam in self._stale:
            for column in (DRAWING, DRAWING + GROUP) if self.both_ways else (DRAWING,):
                index = self.index(self._order.index(seam), column)
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

    def reading(self, row: int, column: int = RMS) -> SeamReading | None:
        """The reading in a row that a column tells of; None where there is nothing to match."""
        return self._readings[way_of(column)][self._order[row]]

    def grade(self, row: int, column: int = WORST) -> Grade | None:
        """The grade of the worst step in a row, the way that a column reads."""
        reading = self.reading(row, column)
        return self.grades.grade_of(reading.worst[0]) if reading and reading.worst else None

    def text(self, row: int, column: int) -> str:
        """The words or figure in a cell."""
        if column == SEAM:
            return self.sewn(row).label
        return _text(self.reading(row, column), column)

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
            said = f"{tr(COLUMNS[column].title)} {self.text(row, column)} {COLUMNS[column].unit}".strip()
            return f"{tr(WAY_TITLES[way_of(column)])}: {said}" if self.both_ways and column != SEAM else said
        return None

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        """Titles with units, and what they mean."""
        if orientation != Qt.Orientation.Horizontal:
            return None
        if role == Qt.ItemDataRole.DisplayRole:
            return COLUMNS[section].heading
        if role == Qt.ItemDataRole.ToolTipRole:
            return self._meaning(section)
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

    def _redraw_changed(self, row: int, before: dict[Way, SeamReading | None]) -> None:
        """Have those figures drawn again that read otherwise now."""
        for column in (*FIGURES, *(GROUP + column for column in FIGURES)) if self.both_ways else FIGURES:
            if _text(before[way_of(column)], column) != self.text(row, column):
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
        values = [reading and COLUMNS[column].value(reading) for reading in self._readings[way_of(column)]]
        sign = -1.0 if order == Qt.SortOrder.DescendingOrder else 1.0
        return sorted(every, key=lambda seam: (values[seam] is None, sign * (values[seam] or 0.0)))

    def _tip(self, row: int, column: int) -> str:
        sewn = self.sewn(row)
        lines = [tr("{label}: {a} to {b}").format(label=sewn.label, a=sewn.a, b=sewn.b)]
        for way in WAYS if self.both_ways else WAYS[:1]:
            reading = self._readings[way][self._order[row]]
            if reading is not None:
                title = f"{tr(WAY_TITLES[way])}: " if self.both_ways else ""
                lines += [title + seam_in_words(reading), what_can_meet(reading)]
        if len(lines) == 1:
            lines.append(tr("No stripes to match here: the two panels are not of one striped cloth."))
        if column != SEAM:
            lines.append(f"{tr(COLUMNS[column].title)}: {self._meaning(column)}")
        return "\n".join(line for line in lines if line)

    def _meaning(self, column: int) -> str:
        """What a column tells."""
        words = tr(COLUMNS[column].meaning)
        return f"{words} {tr('Here of the bars, read as stripes are.')}" if way_of(column) == "crosswise" else words


def _by_way(count: int, measurement: Measurement | None, both: bool) -> dict[Way, tuple[SeamReading | None, ...]]:
    """The readings of the columns of stripes and of bars; where there are but one kind, they stand in the first."""
    if measurement is None:
        return dict.fromkeys(WAYS, (None,) * count)
    return {"lengthwise": measurement.seams if both else measurement.main, "crosswise": measurement.crosswise}


def _text(reading: SeamReading | None, column: int) -> str:
    """The figure of a reading in a column."""
    if kind_of(column) == DRAWING:
        return "" if reading else figure(None)
    value = reading and COLUMNS[column].value(reading)
    return COLUMNS[column].show(value)


def alignment_of(column: int) -> Qt.AlignmentFlag:
    """Figures stand on the right, so that their points do too; the rest on the left."""
    side = Qt.AlignmentFlag.AlignLeft if kind_of(column) in (SEAM, DRAWING) else Qt.AlignmentFlag.AlignRight
    return side | Qt.AlignmentFlag.AlignVCenter
