"""What would help, worked out on demand, and each change one click to try."""

from typing import TYPE_CHECKING

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app import units
from app.commands import spread_out, without_places
from app.document import Document
from app.errands import Errands
from app.jobs import JobRunner
from app.pages.form import Note
from app.theme import SPACE, TARGET, TIGHT, Size, current
from app.variants.help_list import HelpList
from app.words import tr
from core.model.project import Project
from core.model.variants import tried

if TYPE_CHECKING:
    from core.matching.advice import Advice


class HelpPane(QWidget):
    """The advice on the document's project; it stays while the project is another one, but can't be tried then."""

    def __init__(self, document: Document, errands: Errands, jobs: JobRunner, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._errands, self._jobs = document, errands, jobs
        self._advice: Advice | None = None
        self.title = QLabel(tr("What would help"))
        self.intro, self.note = Note(), Note()
        self.intro.say(
            tr(
                "Why each seam is left with steps, and what each change would gain: a wider or narrower tolerance, a "
                "held panel let go, flare shared otherwise, the grain in a piece's middle."
            )
        )
        self.list = HelpList()
        self.work_out = QPushButton(tr("Work it out"), clicked=self.advise)
        self.work_out.setToolTip(tr("Match anew under each change worth trying: other limits, holds, flares, grain"))
        self.try_it = QPushButton(tr("Try as a variant"), clicked=self.take)
        self.try_it.setToolTip(tr("Make this change, matched; how things stand is kept as a variant"))
        self._lay_out()
        self.list.chosen.connect(self._allow)
        self.list.itemActivated.connect(lambda: self.take() if self.try_it.isEnabled() else None)
        for changed in (jobs.started, jobs.ended, document.undo.indexChanged, document.project_changed):
            changed.connect(self._allow)
        self.show_theme()
        self.list.show_advice(None)
        self._allow()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE)
        head = QHBoxLayout(spacing=SPACE)
        head.addWidget(self.title, 1)
        for button in (self.work_out, self.try_it):
            button.setMinimumHeight(TARGET + TIGHT)
            head.addWidget(button, 0, Qt.AlignmentFlag.AlignVCenter)
        column.addLayout(head)
        column.addWidget(self.intro)
        column.addWidget(self.list, 100)
        column.addWidget(self.note)
        column.addStretch(1)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.title.setFont(current().font(Size.NORMAL, bold=True))
        for note in (self.intro, self.note):
            note.show_theme()
        self.list.show_theme()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self.list.show_advice(self._advice)
        self._allow()

    def advise(self) -> None:
        """Work out what would help the project as it is kept."""
        self._errands.advise(self.show_advice)

    def show_advice(self, advice: "Advice | None") -> None:
        """Show what was found."""
        self._advice = advice
        self.list.show_advice(advice)
        self._allow()
        if advice is None:
            self.note.say(tr("There is nothing to match: no seam joins two panels of one striped cloth."))

    def take(self) -> None:
        """Make the chosen change, as one step."""
        change, kept = self.list.change, self._document.kept
        if change is None or not self._fresh():
            return
        changed = change.project
        changed = changed.placed(spread_out(changed, self._document.panels, without_places(kept)))
        what, _ = change.words(units.shown())
        self._document.change(tr("Try: {what}").format(what=what), tried(kept, changed, what))
        self._errands.matched.emit()

    def _fresh(self) -> bool:
        return self._advice is not None and _core(self._advice.project) == _core(self._document.kept)

    def _allow(self) -> None:
        change, fresh = self.list.change, self._fresh()
        self.work_out.setEnabled(not self._jobs.busy and not self._document.is_empty)
        self.try_it.setEnabled(change is not None and fresh)
        self.list.setVisible(self._advice is not None)
        self.intro.setVisible(self._advice is None)
        self.note.say(self._words(fresh))

    def _words(self, fresh: bool) -> str:
        if self._advice is None:
            return ""
        if not fresh:
            return tr("The project is another one since. Go back to the variant it was worked out for, or do it again.")
        change = self.list.change
        caution = change.words(units.shown())[1] if change else ""
        return f"{caution[:1].upper()}{caution[1:]}." if caution else ""


def _core(project: Project) -> Project:
    """What advice depends on: the project without its variants."""
    return msgspec.structs.replace(project, variants=())
