"""What does it cost in cloth? One way or end for end, matched or not, another centre, laid side by side."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Qt
from PySide6.QtWidgets import (
    QAbstractItemView,
    QDialog,
    QDialogButtonBox,
    QHeaderView,
    QLabel,
    QProgressBar,
    QTableWidget,
    QTableWidgetItem,
    QVBoxLayout,
    QWidget,
)

from app.figures import figure, length, unit
from app.jobs import JobRunner
from app.theme import SPACE, TARGET, WIDE
from app.words import tr
from core.model.project import Project
from core.progress import Progress

if TYPE_CHECKING:
    from core.derive.choices import Choice

EACH_S = 30.0
"""One lay may take this long, since it runs in the background."""


class Comparison(QDialog):
    """Lays the garment once for each choice in the background, and shows the lengths; the project stays as it is."""

    def __init__(self, project: Project, jobs: JobRunner, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("What does it cost in cloth?"))
        self.setAccessibleName(tr("What does it cost in cloth?"))
        self.resize(720, 360)
        self._project, self._jobs, self._working = project, jobs, False
        self.words = QLabel(tr("The garment is laid once for each choice, with the same work. Nothing is changed."))
        self.words.setWordWrap(True)
        self.bar = QProgressBar(accessibleName=tr("Progress"), textVisible=False)
        self.bar.setRange(0, 1000)
        self.bar.setFixedHeight(8)
        self.table = QTableWidget(0, 5, accessibleName=tr("What each choice takes"))
        self._dress_table()
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        buttons.rejected.connect(self.reject)
        for button in buttons.buttons():
            button.setMinimumHeight(TARGET)
        column = QVBoxLayout(self)
        column.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        column.setSpacing(SPACE)
        for part in (self.words, self.bar, self.table, buttons):
            column.addWidget(part)

    def _dress_table(self) -> None:
        heads = (tr("Choice"), tr("Lay, {unit}"), tr("More, {unit}"), tr("To buy, {unit}"), tr("Cost"))
        self.table.setHorizontalHeaderLabels([head.format(unit=unit()) for head in heads])
        self.table.verticalHeader().hide()
        self.table.setTabKeyNavigation(False)
        self.table.horizontalHeader().setSectionsClickable(False)
        self.table.setEditTriggers(QAbstractItemView.EditTrigger.NoEditTriggers)
        self.table.setSelectionBehavior(QAbstractItemView.SelectionBehavior.SelectRows)
        self.table.horizontalHeader().setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        self.table.horizontalHeader().setSectionResizeMode(0, QHeaderView.ResizeMode.Stretch)
        self.table.horizontalHeaderItem(0).setTextAlignment(Qt.AlignmentFlag.AlignLeft)
        for column in range(1, 5):
            self.table.horizontalHeaderItem(column).setTextAlignment(Qt.AlignmentFlag.AlignRight)

    def begin(self) -> None:
        """Start to work it out."""
        project = self._project

        def work(progress: Progress) -> "tuple[Choice, ...]":
            from core.derive.choices import compared

            return compared(project, progress, EACH_S)

        self._working = True
        self._jobs.progressed.connect(self._tell)
        self._jobs.failed.connect(self.words.setText)
        self._jobs.ended.connect(self._end)
        self._jobs.run(tr("Comparing what it takes"), work, self.show_choices)

    def show_choices(self, choices: "tuple[Choice, ...]") -> None:
        """A row for each choice and cloth, against the first."""
        for choice in choices:
            for need, first in zip(choice.cloths, choices[0].cloths, strict=True):
                cloth = f", {need.cloth.title}" if len(choice.cloths) > 1 else ""
                more = (need.length_mm or 0.0) - (first.length_mm or 0.0)
                cost = figure(need.cost, decimals=2)
                self._add_row(tr(choice.what) + cloth, length(need.length_mm), _more(more), length(need.buy_mm), cost)
        self.table.setColumnHidden(4, all(need.cost is None for choice in choices for need in choice.cloths))
        self.table.setFocus()

    def _add_row(self, *texts: str) -> None:
        row = self.table.rowCount()
        self.table.insertRow(row)
        for column, text in enumerate(texts):
            item = QTableWidgetItem(text[:1].upper() + text[1:])
            if column:
                item.setTextAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            self.table.setItem(row, column, item)

    def _tell(self, share: float, note: str) -> None:
        if self._working:
            self.bar.setValue(round(1000 * share))

    def _end(self) -> None:
        self._working = False
        self.bar.hide()

    def done(self, result: int) -> None:
        """Closing it drops the work that is still going on."""
        if self._working:
            self._jobs.cancel()
        super().done(result)


def _more(mm: float) -> str:
    """A difference of lengths with its sign, in the unit shown."""
    return length(0.0) if abs(mm) < 0.5 else ("−" if mm < 0 else "+") + length(abs(mm))
