"""The status bar: what is under the cursor, what is being worked on, how the panels lie, the garment's figure."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QHBoxLayout, QLabel, QProgressBar, QPushButton, QStatusBar, QToolButton, QWidget

from app.canvas.view import CanvasView
from app.commands import without_places
from app.document import Document
from app.edits import panel_title
from app.figures import length, rms, step, unit
from app.jobs import JobRunner
from app.steady import SteadyLabel
from app.stripes_beside import beside_lead
from app.theme import ROOMY, SPACE, TARGET, Size, current
from app.words import tr
from core.lay.legal import find_faults
from core.lay.lying import Lying


class Status(QStatusBar):
    """Follows the view's cursor, the runner's job and the document."""

    def __init__(self, document: Document, view: CanvasView, jobs: JobRunner, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Status"))
        self.setSizeGripEnabled(False)
        self.setContentsMargins(SPACE, 0, ROOMY, 0)
        self._document, self._view, self._tried = document, view, False
        self.cursor = SteadyLabel(tr("At the cursor"))
        self.job = JobStatus(jobs)
        self.faults = QToolButton(autoRaise=True, accessibleName=tr("How the panels lie"))
        self.faults.setMinimumHeight(TARGET)
        self.proof = SteadyLabel(
            tr("How near to the best"), Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter
        )
        self.figure = SteadyLabel(tr("Garment's figure"), Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        self.addWidget(self.cursor, 1)
        self.length = SteadyLabel(tr("Length of the lay"))
        for widget in (self.job, self.length, self.faults, self.proof, self.figure):
            self.addPermanentWidget(widget)
        view.cursor_moved.connect(self._show_cursor)
        view.cursor_left.connect(lambda: self.cursor.setText(""))
        document.project_changed.connect(self.show_figure)
        document.placements_changed.connect(self.show_figure)
        document.project_changed.connect(self.show_faults)
        document.undo.indexChanged.connect(self.show_faults)
        document.project_changed.connect(self.show_lying)
        view.scene_here.lying_changed.connect(self.show_lying)
        view.view_changed.connect(self.show_lying)
        self.show_theme()
        self.show_lying()
        self.show_figure()
        self.show_faults()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.figure.show_in(current().font(Size.LARGE, bold=True))
        self._make_room()

    def _make_room(self) -> None:
        """Leave the figure room for as many digits as it can come to."""
        metrics = QFontMetrics(current().font(Size.LARGE, bold=True))
        self.figure.setFixedWidth(metrics.horizontalAdvance(tr("{rms} rms", rms=rms(88.88))) + SPACE)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._make_room()
        self.show_figure()
        self.show_faults()
        self.show_lying()

    def show_figure(self) -> None:
        """Show the garment's figure."""
        value = self._document.measurement.rms_mm
        self.figure.setText("" if value is None else tr("{rms} rms", rms=rms(value)))

    def show_proof(self, words: str) -> None:
        """Say before the figure how near it is to the best there can be."""
        self.proof.setText(words)

    def show_faults(self) -> None:
        """Tell whether the panels can be cut as they lie."""
        project = self._document.cut_of(self._document.kept)
        used = {piece.cloth for piece in project.pieces}
        cloths = [cloth for cloth in project.cloths if cloth.id in used]
        self.faults.setVisible(bool(project.pieces))
        if new := without_places(project):
            self.faults.setText(tr("{count} panels have no place yet").format(count=len(new)))
            self.faults.setToolTip(tr("Match the stripes, or spread the panels out"))
            return
        faults = [fault for cloth in cloths for fault in find_faults(project, cloth.id)]
        faults += [self._document.derived_fault] * bool(self._document.derived_fault)
        lying = [(Lying.of(project, cloth), cloth) for cloth in cloths] if faults else []
        words = _in_the_way(sum(len(one.overlapping) for one, _ in lying), sum(len(one.off(on)) for one, on in lying))
        self.faults.setText((words or tr("Can't be cut as it lies")) if faults else tr("Can be cut as it lies"))
        self.faults.setToolTip("\n".join(faults[:20]) or tr("No cut lines overlap, and all lie on usable cloth"))

    def show_lying(self) -> None:
        """Tell how long the lay on the cloth that is shown has become, and while panels move what overlaps."""
        lying = self._view.scene_here.lying
        self.length.setText(
            tr("lay {length} {unit}").format(length=length(lying.length_mm), unit=unit()) if lying.boxes else ""
        )
        if self._document.trying:
            words = _in_the_way(len(lying.overlapping), len(lying.off(self._view.scene_here.cloth)))
            self.faults.setText(words or tr("No panels overlap"))
        elif self._tried:
            self.show_faults()
        self._tried = self._document.trying

    def _show_cursor(self, at: QPointF, panel: str | None) -> None:
        cloth = self._view.scene_here.cloth
        words = [f"u {step(at.x())}   v {step(at.y())} {unit()}", beside_lead(cloth, at.x(), at.y())]
        words.append(panel_title(self._document, panel) if panel else "")
        self.cursor.setText("   ·   ".join(word for word in words if word))


def _in_the_way(overlapping: int, off: int) -> str:
    """How many panels overlap or reach off their cloth; empty where none does."""
    overlaps = tr("{count} panels overlap").format(count=overlapping) if overlapping else ""
    out = tr("{count} off the cloth").format(count=off) if off else ""
    return " · ".join(part for part in (overlaps, out) if part)


class JobStatus(QWidget):
    """Name, progress, Cancel and perhaps an early end of the job that runs; hidden while there is none."""

    def __init__(self, jobs: JobRunner, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.name = QLabel(accessibleName=tr("Job"))
        self.bar = QProgressBar(accessibleName=tr("Progress"), textVisible=False)
        self.bar.setRange(0, 1000)
        self.bar.setFixedSize(140, 8)
        self.keep = QPushButton(tr("Stop and keep the best"), clicked=jobs.finish_early)
        self.stop = QPushButton(tr("Cancel"), clicked=jobs.cancel)
        self.keep.clicked.connect(lambda: self.keep.setEnabled(False))
        for button in (self.keep, self.stop):
            button.setMinimumHeight(TARGET)
        row = QHBoxLayout(self)
        row.setContentsMargins(SPACE, 0, SPACE, 0)
        row.setSpacing(SPACE)
        for widget in (self.name, self.bar, self.keep, self.stop):
            row.addWidget(widget, 0, Qt.AlignmentFlag.AlignVCenter)
        jobs.started.connect(self._start)
        jobs.progressed.connect(self._progress)
        jobs.ended.connect(self.hide)
        self.hide()

    def _start(self, title: str, can_stop: bool) -> None:
        self.name.setText(title)
        self.keep.setVisible(can_stop)
        self.keep.setEnabled(True)
        self.bar.setValue(0)
        self.show()

    def _progress(self, share: float, note: str) -> None:
        self.bar.setValue(round(1000 * share))
        self.name.setText(note[:1].upper() + note[1:])
