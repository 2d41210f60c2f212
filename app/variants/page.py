"""The page of variants beside the cloth: how things stood under names, side by side, and what would help."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSplitter, QVBoxLayout, QWidget

from app.document import Document
from app.errands import Errands
from app.jobs import JobRunner
from app.messages import MessageBar
from app.pages.form import Note
from app.theme import ROOMY, SPACE, TARGET, TIGHT, Size, current
from app.variants.comparison import Comparison
from app.variants.help_pane import HelpPane
from app.words import tr
from core.errors import BadInput
from core.model.project import Project
from core.model.variants import keep, renamed, stands, taken, without


class VariantsPage(QWidget):
    """The variants of the document. Figures are worked out only while the page is seen."""

    def __init__(
        self,
        document: Document,
        errands: Errands,
        jobs: JobRunner,
        messages: MessageBar,
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Variants"))
        self._document, self._messages = document, messages
        self._shown: Project | None = None
        self.heading, self.empty = QLabel(tr("Variants")), Note()
        self.empty.say(
            tr(
                "Keep how things stand under a name, go on, and compare: placed by hand and matched, other tolerances, "
                "weights or pieces. Whatever is kept is one click away."
            )
        )
        self.table = Comparison()
        self.keep_it = _button(tr("Keep as it stands"), tr("Keep places, limits and weights under a name"), self.keep)
        self.go = _button(tr("Go to it"), tr("Bring the project back to the chosen variant, as one step"), self.go_to)
        self.rename = _button(tr("Rename"), tr("Give the chosen variant another name"), self.table.edit_name)
        self.delete = _button(tr("Delete"), tr("Forget the chosen variant"), self.forget)
        self.help = HelpPane(document, errands, jobs)
        self._lay_out()
        document.project_changed.connect(self.follow)
        document.undo.indexChanged.connect(self.follow)
        later = Qt.ConnectionType.QueuedConnection  # the rows are made anew, which must not be amid their own signals
        self.table.wanted.connect(self._take, later)
        self.table.renamed.connect(self._rename, later)
        self.table.currentItemChanged.connect(self._allow)
        self.show_theme()
        self._allow()

    def _lay_out(self) -> None:
        upper = QWidget()
        column = QVBoxLayout(upper)
        column.setContentsMargins(0, 0, 0, SPACE)
        column.setSpacing(SPACE)
        for part in (self.heading, self.empty):
            column.addWidget(part)
        column.addWidget(self.table, 1)
        buttons = QHBoxLayout(spacing=SPACE)
        for button in (self.keep_it, self.go, self.rename, self.delete):
            buttons.addWidget(button)
        buttons.addStretch(1)
        column.addLayout(buttons)
        halves = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        halves.addWidget(upper)
        halves.addWidget(self.help)
        halves.setStretchFactor(1, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(ROOMY, ROOMY, ROOMY, ROOMY)
        page.addWidget(halves)

    # --- showing

    def showEvent(self, event: QShowEvent) -> None:
        """Work the figures out, if the project has changed while the page was away."""
        super().showEvent(event)
        self.follow()

    def follow(self) -> None:
        """Work the figures out again, if they are seen and the project is another one."""
        project = self._document.kept
        if self.isVisible() and self._shown is not project and not self._document.is_empty:
            before, self._shown = self._shown, project
            self.table.show_project(project)
            if before and len(project.variants) > len(before.variants):
                self.table.pick(project.variants[-1].name)
            self.empty.setVisible(not project.variants)
        self._allow()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._shown = None
        self.follow()
        self.help.show_unit()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.heading.setFont(current().font(Size.NORMAL, bold=True))
        for part in (self.empty, self.table, self.help):
            part.show_theme()

    def _allow(self) -> None:
        kept, name = self._document.kept, self.table.name
        chosen = next((variant for variant in kept.variants if variant.name == name), None)
        self.keep_it.setEnabled(not self._document.is_empty)
        self.go.setEnabled(chosen is not None and not stands(kept, chosen))
        for button in (self.rename, self.delete):
            button.setEnabled(chosen is not None)

    # --- changing

    def keep(self) -> None:
        """Keep how things stand, and let its name be typed."""
        kept = self._document.kept
        names = {variant.name for variant in kept.variants}
        counted = (tr("Variant {number}").format(number=number) for number in range(1, len(names) + 2))
        name = next(name for name in counted if name not in names)
        self._document.change(tr("Keep {name}").format(name=name), keep(kept, name))
        self.table.pick(name)
        if self.isVisible():
            self.table.edit_name()

    def go_to(self) -> None:
        """Bring the project back to the chosen variant."""
        self._take(self.table.name)

    def forget(self) -> None:
        """Delete the chosen variant."""
        name = self.table.name
        self._document.change(tr("Delete variant {name}").format(name=name), without(self._document.kept, name))

    def _take(self, name: str) -> None:
        self._document.change(tr("Go to {name}").format(name=name), taken(self._document.kept, name))

    def _rename(self, name: str, new: str) -> None:
        try:
            self._document.change(tr("Rename {name}").format(name=name), renamed(self._document.kept, name, new))
        except BadInput as error:
            self._messages.warn(tr("That name can't be had: {why}").format(why=error))
            self.table.show_project(self._document.kept)
        self.table.pick(new if any(variant.name == new for variant in self._document.kept.variants) else name)


def _button(text: str, tip: str, act: Callable[[], None]) -> QPushButton:
    button = QPushButton(text, toolTip=tip)
    button.setMinimumHeight(TARGET + TIGHT)
    button.clicked.connect(lambda: act())
    return button
