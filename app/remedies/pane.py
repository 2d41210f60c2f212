"""The close-up with its remedies: shows a seam as it is, or as easing or a shift would make it."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.jobs import JobRunner
from app.pictures.closeup import CloseUp
from app.remedies.bar import AS_IT_IS, EASED, SHIFTED, RemedyBar
from app.remedies.words import easing_words, shift_words
from app.words import tr
from core.model.cloth import Way
from core.model.project import Project
from core.seams.readings import SeamReading, measure, read_seam
from core.shifting.wish import ShiftWish

if TYPE_CHECKING:
    from core.shifting.result import ShiftResult


class RemedyPane(QWidget):
    """The bar over the close-up. A shift is worked out in the background, and only what was asked last counts."""

    wanted = Signal(object, object)
    """Apply this shift (a project with the line moved) to the project it was worked out for."""

    def __init__(self, closeup: CloseUp, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.closeup, self.bar, self.jobs = closeup, RemedyBar(), JobRunner(self)
        self.wish = ShiftWish()
        self._project: Project | None = None
        self._reading: SeamReading | None = None
        self._found: ShiftResult | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.bar)
        column.addWidget(closeup, 1)
        self.bar.chosen.connect(lambda _: self._show())
        self.bar.turned.connect(lambda _: self._show())
        self.bar.apply.connect(self._apply)
        self.jobs.failed.connect(lambda line: self.bar.say(line))
        self.bar.hide()

    def show_seam(self, project: Project | None, reading: SeamReading | None, moving: bool = False) -> None:
        """Show a seam of a project, or nothing. While panels are `moving` it is shown as it is."""
        self._project, self._reading = project, reading
        self.bar.setVisible(reading is not None)
        self.bar.offer_bars(reading is not None and len(reading.cloth.ways) > 1)
        if moving and self.bar.choice != AS_IT_IS:
            self.bar.choose(AS_IT_IS)
        self._show()

    def show_way(self, way: Way) -> None:
        """Show the stripes of the seam, or its bars."""
        self.bar.bars.setChecked(way == "crosswise")

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self.closeup.show_unit()
        self._show()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.bar.dress_again()
        self.bar.say(self.bar.words.text(), self._found is not None)

    def close_jobs(self) -> None:
        """Leave no thread behind."""
        self.jobs.close()

    def _show(self) -> None:
        self.jobs.cancel()
        self._found = None
        project, reading = self._project, self._reading
        if project is None or reading is None or self.bar.choice == AS_IT_IS or reading.rms_mm is None:
            self.bar.say("")
            self.closeup.show_seam(project, self._as_it_is())
        elif self.bar.choice == EASED:
            self._show_eased(project, reading)
        elif self.bar.choice == SHIFTED:
            self.bar.say(tr("Looking for the best shift…"))
            self.closeup.show_seam(project, reading)
            from core.shifting.shift import shift_where_it_lies

            label, wish = reading.line.sewn.label, self.wish
            self.jobs.run(
                label,
                lambda _: shift_where_it_lies(project, label, wish.cap_mm, wish.ends),
                lambda found: self._show_shifted(found, reading),
            )

    def _as_it_is(self) -> SeamReading | None:
        """The reading of the seam, of its bars if they are to be seen."""
        project, reading = self._project, self._reading
        if project is None or reading is None or len(reading.cloth.ways) < 2 or not self.bar.bars.isChecked():
            return reading
        return read_seam(project, reading.line, "crosswise")

    def _show_eased(self, project: Project, reading: SeamReading) -> None:
        from core.seams.easing import best_easing

        easing = best_easing(reading)
        self.bar.say(easing_words(easing))
        self.closeup.show_seam(project, easing.after)

    def _show_shifted(self, found: "ShiftResult", reading: SeamReading) -> None:
        label = reading.line.sewn.label
        after = next(one for one in measure(found.project).read if one.line.sewn.label == label)
        seam = next(one for one in found.seams if one.sewn.label == label)
        self._found = found if seam.knots else None
        self.bar.say(shift_words(seam, reading, after), self._found is not None)
        self.closeup.show_seam(found.project, after)

    def _apply(self) -> None:
        if self._found is not None:
            found, self._found = self._found, None
            self.bar.choose(AS_IT_IS)
            self.wanted.emit(found, self._project)
