"""Match, Lay and Papers: what is worked out in the background, and what becomes of it.

Editing goes on meanwhile. A match or a lay is taken only if the project is still the one it was worked out for;
papers are written for the project as it was when they were asked for.
"""

import dataclasses
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QUrl, Signal
from PySide6.QtGui import QDesktopServices
from PySide6.QtWidgets import QFileDialog, QWidget

from app import units
from app.commands import spread_out
from app.document import Document
from app.figures import length, rms, unit
from app.growing import Growing
from app.jobs import JobRunner
from app.messages import MessageBar
from app.remedies.words import shifted_words
from app.sewing.words import sentence
from app.window_state import last_folder, note_folder
from app.words import tr
from core.model.panel import panels_of
from core.model.project import Project
from core.papers.choices import PaperChoices
from core.progress import Progress
from core.seams.garment import Garment
from core.shifting.wish import ShiftWish

if TYPE_CHECKING:
    from core.files.shelf import OnShelf
    from core.lay.cloth_lay import ClothLay
    from core.lay.lay import LayResult, Show
    from core.matching.advice import Advice
    from core.model.cloth import Cloth
    from core.shifting.result import ShiftResult


LAY_S = 30.0
"""A lay may take this long, since it runs in the background and can be stopped with the best so far."""


class Errands(QObject):
    """Starts jobs on the document's project and brings their results home."""

    matched = Signal()
    """The document holds a match that was just found."""
    laid = Signal()
    """The document holds a lay that was just found."""

    def __init__(self, document: Document, jobs: JobRunner, messages: MessageBar, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._jobs, self._messages, self._window = document, jobs, messages, window
        self.growing = Growing(document, jobs, self)
        jobs.failed.connect(lambda line: messages.warn(line))

    def match(self) -> None:
        """Find the best match; one undo step."""
        project, garment = self._document.kept, self._document.garment
        before = self._document.measurement.rms_mm

        def done(solved: Project) -> None:
            if self._fresh(project, tr("Match again"), self.match):
                self._document.change(tr("Match stripes"), solved)
                told = _matched(before, self._document.measurement.rms_mm)
                self._messages.say(told, tr("Lay on the cloth"), self.lay)
                self.matched.emit()

        self._run(tr("Matching stripes"), lambda progress: matched(project, garment, progress), done)

    def advise(self, done: "Callable[[Advice | None], None]") -> None:
        """Find out what would help the project; nothing is changed."""
        project = self._document.kept

        def work(progress: Progress) -> "Advice | None":
            from core.matching.advice import advise

            return advise(project, progress)

        self._run(tr("Working out what would help"), work, done)

    def shift(self, wish: ShiftWish) -> None:
        """Move stitching lines, with places and turns chosen anew; one undo step."""
        project = self._document.kept

        def done(result: "ShiftResult") -> None:
            self.take_shift(result, project, lambda: self.shift(wish))

        self._run(tr("Shifting stitching lines"), lambda progress: shifted_lines(project, wish, progress), done)

    def take_shift(self, result: "ShiftResult", project: Project, again: Callable[[], None] | None = None) -> None:
        """Take a shift that was worked out for a project, if it is still the same; one undo step."""
        if self._fresh(project, tr("Shift again") if again else "", again or (lambda: None)):
            if any(seam.knots for seam in result.seams):
                self._document.change(tr("Shift stitching lines"), result.project)
            self._messages.say(shifted_words(result), tr("Lay on the cloth"), self.lay)

    def lay(self) -> None:
        """Fit the panels on their cloths; one undo step."""
        project = self._document.kept

        def done(result: "LayResult") -> None:
            if self._fresh(project, tr("Lay again"), self.lay):
                if result.project == project:
                    told = tr("Nothing shorter was found than how the panels lie.")
                    self._messages.say(told, tr("Papers…"), self.ask_papers)
                    return
                self._document.change(tr("Lay on the cloth"), result.project)
                self.laid.emit()
                if all(lay.fits and not lay.of_bars() for lay in result.lays):
                    self._messages.say(_laid(result), tr("Papers…"), self.ask_papers)
                else:
                    self._messages.warn(_laid(result))

        def work(progress: Progress) -> "LayResult":
            return laid(project, progress, show)

        show = self.growing.begin(project)
        self._run(tr("Laying"), work, done, can_stop=True)

    def compare(self) -> None:
        """Show what one way, matching and the centre cost in cloth."""
        from app.comparison import Comparison

        self._document.cancel_trial()
        comparison = Comparison(self._document.kept, self._jobs, self._window)
        comparison.show()
        comparison.begin()

    def keep_left(self, cloth_id: str) -> None:
        """Put what is left of a cloth on the shelf, once its panels are cut where they lie."""
        project = self._document.kept

        def done(left: "Cloth") -> None:
            from app.safekeeping.folders import shelf_folder
            from app.shelf.keep_form import KeepForm

            note = tr("left of {title}").format(title=project.title) if project.title else ""
            KeepForm(shelf_folder(), left, self._tell_left, note, self._window).open()

        self._run(tr("Working out what is left"), lambda progress: left_of(project, cloth_id), done)

    def _tell_left(self, kept: "OnShelf") -> None:
        told = tr("What is left of {cloth} is on the shelf.")
        self._messages.say(told.format(cloth=kept.kept.cloth.title))

    def ask_papers(self) -> None:
        """Ask which papers are wanted, then for a folder, and write them into it."""
        panels = tuple(self._document.garment.panels.values())
        from app.papers_form import PapersForm

        PapersForm(panels, self._ask_folder, self._window).open()

    def _ask_folder(self, choices: PaperChoices) -> None:
        folder = QFileDialog.getExistingDirectory(self._window, tr("Folder for the papers"), str(last_folder()))
        if folder:
            note_folder(Path(folder))
            self.papers(Path(folder), choices)

    def papers(self, folder: Path, choices: PaperChoices) -> None:
        """Write papers into a folder."""
        project = self._document.kept

        def done(files: tuple[Path, ...]) -> None:
            self._messages.say(
                tr("{count} papers are in {folder}").format(count=len(files), folder=folder),
                tr("Show the folder"),
                lambda: _show(folder),
            )

        self._run(tr("Writing papers"), lambda progress: written(project, folder, progress, choices), done)

    def _run(
        self, title: str, work: Callable[[Progress], Any], done: Callable[[Any], None], can_stop: bool = False
    ) -> None:
        self._document.cancel_trial()
        self._messages.hide()
        self._jobs.run(title, work, done, can_stop)

    def _fresh(self, project: Project, offer: str, again: Callable[[], None]) -> bool:
        """Whether a result for `project` still counts; says so if not."""
        if self._document.kept is project:
            return True
        self._messages.warn(tr("The project has changed meanwhile, so the result was put aside."), offer, again)
        return False


def matched(project: Project, garment: Garment, progress: Progress) -> Project:
    """The project matched; panels that had no places yet are spread out so that all can be seen."""
    from core.matching.solve import match

    return _with_new_spread(project, match(project, progress, garment).project, garment)


def _with_new_spread(project: Project, solved: Project, garment: Garment) -> Project:
    """A solved project with its patches, and with the panels spread out that had no places before."""
    from core.derive.cutting import cut_project
    from core.derive.matched import with_patches

    solved = with_patches(solved)
    new = tuple(name for name in solved.placements if name not in project.placements)
    if not new:
        return solved
    whole = cut_project(solved) if set(new) - garment.panels.keys() else solved
    known = {panel.name: panel for piece in whole.pieces for panel in panels_of(piece)}
    return solved.placed(spread_out(whole, known, new))


def shifted_lines(project: Project, wish: ShiftWish, progress: Progress) -> "ShiftResult":
    """The project with lines moved and panels matched; panels that had no places yet are spread out."""
    from core.shifting.shift import shift_lines

    result = shift_lines(project, wish.cap_mm, wish.ends, progress)
    return dataclasses.replace(result, project=_with_new_spread(project, result.project, Garment.of(result.project)))


def laid(project: Project, progress: Progress, show: "Show") -> "LayResult":
    """The project laid: all that is cut, layers and strips as well, each on its cloth; lays on the way are shown."""
    from core.derive.cutting import cut_project
    from core.derive.matched import with_patches
    from core.lay.lay import lay

    cut = cut_project(with_patches(project))
    result = lay(cut, progress, LAY_S, show=show)
    lays, placements = [], dict(result.project.placements)
    for found in result.lays:
        shorter = _shorter_before(cut, found)
        lays.append(shorter or found)
        if shorter:
            placements |= {name: cut.placements[name] for name in found.panels}
    return dataclasses.replace(result, project=project.placed(placements), lays=tuple(lays))


def left_of(project: Project, cloth_id: str) -> "Cloth":
    """What is left of a cloth, layers and strips cut out of it too."""
    from core.derive.cutting import cut_project
    from core.derive.matched import with_patches
    from core.lay.leftover import leftover

    return leftover(cut_project(with_patches(project)), cloth_id)


def _shorter_before(before: Project, found: "ClothLay") -> "ClothLay | None":
    """The lay of a cloth as it was, if it can be cut and is no longer than the one found, as when that was stopped."""
    from core.lay.cloth_lay import cloth_lay
    from core.lay.legal import find_faults

    if not before.placements.keys() >= set(found.panels) or find_faults(before, found.cloth.id):
        return None
    as_it_was = cloth_lay(before, found.cloth)
    return as_it_was if as_it_was.length_mm <= found.length_mm else None


def written(project: Project, folder: Path, progress: Progress, choices: PaperChoices) -> tuple[Path, ...]:
    """The papers chosen of the project as it lies."""
    from core.papers.papers import write_papers

    return write_papers(project, folder, progress, choices)


def _matched(before: float | None, after: float | None) -> str:
    if after is None or before is None:
        return tr("There is nothing to match: no seam joins two panels of one striped cloth.")
    if abs(after - before) < 0.005:
        return tr("The stripes already matched as well as they can: {rms} rms.").format(rms=rms(after))
    return tr("Matched: {after} rms, {before} before.").format(after=rms(after), before=rms(before))


def _laid(result: "LayResult") -> str:
    shares = ", ".join(f"{lay.used_share:.0%}" for lay in result.lays)
    early = [tr("Stopped early.")] if result.status == "stopped" else []
    told = tr("{lay}. Cut lines cover {shares} of it.").format(lay=result.message(units.shown()), shares=shares)
    short = [words for lay in result.lays if not lay.fits for words in _what_would_help(lay)]
    bars = [f"{sentence(harm)}." for lay in result.lays if (harm := lay.of_bars(units.shown()))]
    return " ".join((*early, told, *short, *bars))


def _what_would_help(lay: "ClothLay") -> list[str]:
    """Whether a shorter lay may be had, which panels are left over, and what would make the lay fit."""
    left = [f"{sentence(lay.proof(units.shown()))}."]
    if lay.left_over:
        left.append(tr("Left over: {names}.").format(names=", ".join(lay.left_over)))
    helps = [f"{one.what} ({length(one.length_mm)} {unit()})" for one in lay.remedies if one.fits]
    if helps:
        return [*left, tr("It would fit with {changes}.").format(changes=tr(" or ").join(helps))]
    tried = ", ".join(one.what for one in lay.remedies)
    return [*left, tr("Tried, and still too long: {changes}.").format(changes=tried)] if tried else left


def _show(folder: Path) -> None:
    QDesktopServices.openUrl(QUrl.fromLocalFile(str(folder)))
