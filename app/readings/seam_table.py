"""The seam table: the garment's figure, and one row a seam with its readings and a small drawing of its step."""

from PySide6.QtCore import QModelIndex, Qt, QTimer, Signal
from PySide6.QtGui import QFontMetrics, QResizeEvent
from PySide6.QtWidgets import QLabel, QPushButton, QStackedLayout, QVBoxLayout, QWidget

from app.readings.garment_figure import GarmentFigure
from app.readings.grades import Grades
from app.readings.seam_model import SeamModel
from app.readings.seam_view import SeamView
from app.steady import SteadyLabel
from app.theme import SPACE, TARGET, TIGHT, Size, current
from app.units import shown
from app.words import tr
from core.model.pattern import SewnSeam
from core.model.project import Project
from core.seams.levels import find_levels, find_rounds
from core.seams.readings import Measurement

DRAWINGS_EVERY_MS = 33
"""The small drawings follow a drag no faster than this; the figures follow every move."""
_SETTLE_MS = 400
"""How long readings must stand still before rows change places."""


class SeamTable(QWidget):
    """The readings of all seams. Emits `seam_picked` with a seam's place in the measurement, -1 for none."""

    seam_picked = Signal(int)
    sewing_wanted = Signal()
    """There are no seams, and somebody wants to make some."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._picked = -1
        self._project: Project | None = None
        self.model = SeamModel(self)
        self.figure = GarmentFigure(self)
        self.view = SeamView(self.model, self)
        self.levels = SteadyLabel(tr("Bars at waists and hems"))
        self.levels.setContentsMargins(SPACE, TIGHT, SPACE, TIGHT)
        self.levels.setVisible(False)
        self._empty = self._empty_state()
        self._drawings_due = QTimer(self, singleShot=True, interval=DRAWINGS_EVERY_MS)
        self._drawings_due.timeout.connect(self._follow)
        self._settle = QTimer(self, singleShot=True, interval=_SETTLE_MS)
        self._settle.timeout.connect(self._settled)
        self._lay_out()
        self.setAccessibleName(tr("Seam readings"))
        self.view.selectionModel().currentRowChanged.connect(self._row_changed)
        self.view.left.connect(lambda: self._pick_and_tell(-1))

    def show_measurement(self, project: Project | None, measurement: Measurement | None) -> None:
        """Show the readings of a project's seams; cheap enough for every move of the mouse."""
        sewn = _sewn(project, measurement)
        self._project = project
        self._stack.setCurrentIndex(0 if sewn else 1)
        self.model.show(sewn, measurement)
        self.figure.show_measurement(measurement, self.model.grades)
        if self.view.currentIndex().row() != self.model.row_of(self._picked):
            self.pick(self._picked)
        if not self._drawings_due.isActive():
            self._drawings_due.start()
        self._settle.start()

    def set_grades(self, grades: Grades) -> None:
        """Judge steps by other limits."""
        self.model.judge_by(grades)
        self.figure.show_measurement(self.figure.measurement, grades)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self.model.show_unit()
        self.view.show_unit()
        self._follow()
        self.figure.update()
        self.figure.speak()

    def pick(self, seam: int) -> None:
        """Select the row of a seam by its place in the measurement, -1 for none, without telling anybody."""
        row = self.model.row_of(seam)
        self._picked = seam if row >= 0 else -1
        if row < 0:
            self.view.setCurrentIndex(QModelIndex())
            self.view.clearSelection()
        else:
            self.view.selectRow(row)

    def _empty_state(self) -> QWidget:
        """What to do while there are no seams, as a button."""
        words = QLabel(
            tr("No seams yet. A seam joins a named edge of one panel to a named edge of another."), wordWrap=True
        )
        words.setAlignment(Qt.AlignmentFlag.AlignCenter)
        offer = QPushButton(tr("Sew edges together"))
        offer.clicked.connect(lambda: self.sewing_wanted.emit())
        offer.setMinimumHeight(TARGET + TIGHT)
        state = QWidget()
        column = QVBoxLayout(state)
        column.addStretch(1)
        column.addWidget(words)
        column.addWidget(offer, 0, Qt.AlignmentFlag.AlignHCenter)
        column.addStretch(1)
        return state

    def _lay_out(self) -> None:
        self._stack = QStackedLayout()
        self._stack.addWidget(self.view)
        self._stack.addWidget(self._empty)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.figure)
        column.addLayout(self._stack, 1)
        column.addWidget(self.levels)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Have what is told of the edges take the lines that it needs."""
        super().resizeEvent(event)
        self._drawings_due.start()

    def _follow(self) -> None:
        """Have what costs more than figures follow the readings: small drawings, and where bars lie at the edges."""
        self.model.redraw_drawings()
        project, found = self._project, self.figure.measurement
        rounds = find_rounds(project, find_levels(project, found.garment)) if project and found else ()
        self.levels.show_in(current().font(Size.SMALL))
        parts = [one.where(shown()) for one in rounds]
        beside = "  ·  ".join(parts)
        wide = QFontMetrics(current().font(Size.SMALL)).horizontalAdvance(beside)
        self.levels.setText(beside if wide <= self.width() - 2 * SPACE else "\n".join(parts))
        self.levels.setToolTip("\n".join(one.words(shown()) for one in rounds))
        self.levels.setVisible(bool(rounds))

    def _row_changed(self, index: QModelIndex) -> None:
        if (seam := self.model.seam_at(index.row())) >= 0:
            self._pick_and_tell(seam)

    def _pick_and_tell(self, seam: int) -> None:
        if seam != self._picked:
            self.pick(seam)
            self.seam_picked.emit(seam)

    def _settled(self) -> None:
        self.model.sort_again()
        self.figure.speak()


def _sewn(project: Project | None, measurement: Measurement | None) -> tuple[SewnSeam, ...]:
    """The seams, from the garment that was measured if there is one: it lasts while panels move."""
    if measurement is not None:
        return tuple(line.sewn for line in measurement.garment.seams)
    return project.sewn if project else ()
