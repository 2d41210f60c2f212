"""The sewing page: edges become seams, seams are walked, findings are trued. Every change is one undo step."""

from collections.abc import Callable
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QStackedWidget, QVBoxLayout, QWidget

from app import units
from app.canvas.view import CanvasView
from app.document import Document
from app.messages import MessageBar
from app.sewing.finding_panel import FindingPanel
from app.sewing.join_bar import JoinBar
from app.sewing.picking import EdgePicker
from app.sewing.seam_form import SeamForm
from app.sewing.seam_tree import SeamTree
from app.sewing.words import edge_title
from app.theme import ROOMY, SPACE, Size, current
from app.words import tr
from core.derive.findings import find_odd
from core.errors import BadInput
from core.model.pattern import EdgeRef
from core.model.project import Project
from core.seams.joining import free_edges, seam_named, sew, with_ring, with_seam, without_seam
from core.seams.remedy import Remedy
from core.seams.truing import trued
from core.seams.walk import Finding, walk


class SewingPage(QWidget):
    """Seams of the document. It reads the project again only while it is seen."""

    def __init__(
        self, document: Document, view: CanvasView, messages: MessageBar, parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Sewing"))
        self._document, self._messages = document, messages
        self._shown: Project | None = None
        self._findings: tuple[Finding, ...] = ()
        self.heading, self.figure = QLabel(tr("Sew two edges together")), QLabel()
        self.bar, self.tree = JoinBar(), SeamTree()
        self.form, self.finding = SeamForm(), FindingPanel()
        self.hint = QLabel(wordWrap=True, alignment=Qt.AlignmentFlag.AlignTop)
        self.picker = EdgePicker(document, view, self)
        self._lay_out()
        self._connect()
        self.show_theme()

    def _lay_out(self) -> None:
        self.lower = QStackedWidget()
        for part in (self.hint, self.form, self.finding):
            self.lower.addWidget(part)
        rule = QFrame(frameShape=QFrame.Shape.HLine, frameShadow=QFrame.Shadow.Plain)
        rule.setForegroundRole(self.palette().ColorRole.Midlight)
        column = QVBoxLayout(self)
        column.setContentsMargins(ROOMY, ROOMY, ROOMY, ROOMY)
        column.setSpacing(SPACE)
        for part in (self.heading, self.bar, self.figure, self.tree, rule, self.lower):
            column.addWidget(part, 1 if part is self.tree else 0)

    def _connect(self) -> None:
        document = self._document
        document.project_changed.connect(self.follow)
        document.seam_changed.connect(self._follow_seam)
        self.bar.sew.connect(self.sew)
        self.bar.ring.connect(self.sew_ring)
        self.bar.pick.connect(self._switch_picking)
        self.picker.picked.connect(self._take_edge)
        self.picker.ended.connect(lambda: self.bar.show_picking(False))
        self.tree.seam_chosen.connect(self._pick_seam)
        self.tree.finding_chosen.connect(self._show_lower)
        self.tree.removed.connect(self.remove)
        self.form.changed.connect(self.change)
        self.form.removed.connect(self.remove)
        self.finding.true_by.connect(self.true_by)

    # --- showing

    def showEvent(self, event: QShowEvent) -> None:
        """Read the project, if it has changed while the page was away."""
        super().showEvent(event)
        self.follow()

    def hideEvent(self, event: Any) -> None:
        """Edges are picked only while the page is seen."""
        super().hideEvent(event)
        self.bar.show_picking(False)

    def follow(self) -> None:
        """Read the document again, if the page is seen and what it shows has changed."""
        project = self._document.kept
        if not self.isVisible() or self._shown is project:
            return
        self._shown = project
        garment = self._document.garment
        self._findings = (*walk(project, garment, units.shown()), *find_odd(project, units.shown()))
        self.bar.show_project(project)
        self.tree.show_seams(project, garment.seams, self._findings, self.tree.seam or self._picked_name())
        self.figure.setText(_summary(project, len(self._findings)))
        self._show_lower()

    def _picked_name(self) -> str:
        seam = self._document.seam
        return self._document.garment.seams[seam].sewn.seam.name if seam >= 0 else ""

    def _show_lower(self) -> None:
        """Below the seams: the finding or the seam that is chosen, or what to do next."""
        project, finding, name = self._document.kept, self.tree.finding, self.tree.seam
        if finding:
            self.finding.show_finding(project, finding)
            self.lower.setCurrentWidget(self.finding)
        elif name:
            line = next(line for line in self._document.garment.seams if line.sewn.seam.name == name)
            self.form.show_seam(project, seam_named(project, name), line)
            self.lower.setCurrentWidget(self.form)
        else:
            self.hint.setText(_next_thing(project))
            self.lower.setCurrentWidget(self.hint)

    def _follow_seam(self) -> None:
        """A seam was picked elsewhere."""
        if self.isVisible() and self._shown is self._document.kept and self._picked_name() != self.tree.seam:
            self.tree.choose(self._picked_name())
            self._show_lower()

    def _pick_seam(self, name: str) -> None:
        seams = self._document.garment.seams
        index = next((index for index, line in enumerate(seams) if line.sewn.seam.name == name), -1)
        if name != self._picked_name():
            self._document.pick_seam(index)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        for stretch in (self.form.seen, self.form.open):
            stretch.show_unit()
        self._shown = None
        self.follow()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        theme = current()
        self.heading.setFont(theme.font(Size.NORMAL, bold=True))
        for label in (self.figure, self.hint):
            palette = label.palette()
            palette.setColor(label.foregroundRole(), theme.colour("quiet"))
            label.setPalette(palette)
        self.tree.show_theme()
        self.finding.show_theme()

    # --- changing

    def sew(self, one: EdgeRef, other: EdgeRef) -> None:
        """Sew two edges together."""
        before = self._document.kept
        title = tr("Sew {edge} to {other}").format(edge=edge_title(before, one), other=edge_title(before, other))
        if self._do(title, lambda: sew(before, one, other)):
            self._choose(self._document.kept.seams[-1].name)

    def sew_ring(self) -> None:
        """Sew all panels to a ring, as far as edges are free."""
        self._do(tr("Sew a ring"), lambda: with_ring(self._document.kept))

    def change(self, name: str, keys: dict[str, Any]) -> None:
        """Change keys of a seam."""
        done = self._do(
            tr("Change seam {name}").format(name=name),
            lambda: with_seam(self._document.kept, name, **keys),
            f"{name} {list(keys)}",
        )
        self._choose(str(keys.get("name", name)) if done else name)

    def remove(self, name: str) -> None:
        """Take a seam out."""
        if self._do(tr("Remove seam {name}").format(name=name), lambda: without_seam(self._document.kept, name)):
            self._choose("")
            self.tree.setFocus()

    def true_by(self, remedy: Remedy) -> None:
        """Carry a remedy out."""
        name = remedy.sewn.seam.name
        if self._do(
            tr("True {name}: {method}").format(name=name, method=remedy.method),
            lambda: trued(self._document.kept, remedy),
        ):
            self._choose(name)
            self._messages.say(tr("{name}: {method}. Undo takes it back.").format(name=name, method=remedy.method))

    def _choose(self, name: str) -> None:
        self.tree.choose(name)
        self._show_lower()
        self._pick_seam(name)

    def _do(self, title: str, change: Callable[[], Project], series: str = "") -> bool:
        """Make a change one undo step; says why if it can't be made."""
        try:
            after = change()
        except BadInput as error:
            self._messages.warn(tr("That can't be done: {error}").format(error=error))
            return False
        self._messages.hide()
        self._document.change(title, after, series)
        return True

    # --- picking on the cloth

    def pick_on_cloth(self) -> None:
        """Begin picking edges on the cloth, or end it."""
        self.bar.show_picking(not self.picker.on)

    def _switch_picking(self, on: bool) -> None:
        self.picker.switch(on)
        if on:
            self._messages.say(tr("Click an edge, then the one it is sewn to. Escape ends it."))
        else:
            self._messages.hide()

    def _take_edge(self, ref: EdgeRef) -> None:
        project, first = self._document.kept, self.picker.first
        if ref not in free_edges(project):
            label = next(seam.label for seam in project.sewn if ref in (seam.a, seam.b))
            self._messages.say(
                tr("{edge} is sewn already, in the seam {label}.").format(edge=edge_title(project, ref), label=label)
            )
        elif first is None or first == ref:
            self.picker.show_first(None if first == ref else ref)
            self.bar.show_picked(ref)
        else:
            self.picker.show_first(None)
            self.sew(first, ref)


def _summary(project: Project, findings: int) -> str:
    if not project.seams:
        return tr("No seams yet")
    seams = tr("{count} seams").format(count=len(project.sewn)) if len(project.sewn) != 1 else tr("1 seam")
    found = (
        tr("nothing to look at")
        if not findings
        else tr("1 finding")
        if findings == 1
        else tr("{count} findings").format(count=findings)
    )
    return f"{seams}, {found}"


def _next_thing(project: Project) -> str:
    if not project.seams:
        return tr("No seams yet. Choose two edges above and sew them together, pick them on the cloth, or sew a ring.")
    return tr("Choose a seam to change it, or open it and choose a finding to true it.")
