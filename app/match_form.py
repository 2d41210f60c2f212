"""Asks what counts when stripes are matched: the centre, mirrored pairs, bars against stripes."""

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QWidget

from app.document import Document
from app.edits import panel_title
from app.pages.entries import Choice, Number
from app.pages.form import Note, add_row
from app.theme import GRID, SPACE, TARGET, WIDE
from app.words import tr
from core.errors import BadInput
from core.model.project import Centre, Match
from core.model.validate import validate


class MatchForm(QDialog):
    """Four choices for the whole garment; what is kept is one undo step."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("What counts"))
        self.setAccessibleName(tr("What counts"))
        self._document = document
        project, match = document.kept, document.kept.match
        on = (
            (tr("whatever matches best"), "free"),
            (tr("the lead stripe"), "lead"),
            (tr("middle of the ground"), "ground"),
        )
        self.on = Choice(tr("On the centre"), on, match.centre.on)
        self._centres = [{"seam": seam.name} for seam in project.seams]
        self._centres += [{"panel": name} for name in project.panel_names]
        seams = [tr("seam {name}").format(name=seam.name) for seam in project.seams]
        panels = [tr("panel {name}").format(name=panel_title(document, name)) for name in project.panel_names]
        titles = [(title, index) for index, title in enumerate([*seams, *panels])]
        here = {"seam": match.centre.seam} if match.centre.seam else {"panel": match.centre.panel}
        self.where = Choice(tr("The centre is"), titles, self._centres.index(here) if here in self._centres else 0)
        pairs = ((tr("where the stripes allow it"), None), (tr("always"), True), (tr("need not"), False))
        self.pairs = Choice(tr("Left panels mirror right ones"), pairs, match.mirror_pairs)
        self.weight = Number(tr("Bars count, against stripes"), match.crosswise_weight, (0, 1e6))
        self.barred = any(cloth.crosswise for cloth in project.cloths)
        self.told = Note()
        self._lay_out()
        self.on.edited.connect(self._show_fitting)
        self._show_fitting()

    def _lay_out(self) -> None:
        self.lines = QFormLayout(self)
        self.lines.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        self.lines.setSpacing(SPACE)
        add_row(self.lines, tr("&On the centre"), self.on)
        add_row(self.lines, tr("The centre &is"), self.where)
        add_row(self.lines, tr("Left panels &mirror right ones"), self.pairs)
        add_row(self.lines, tr("&Bars count, against stripes"), self.weight)
        self.lines.addRow(self.told)
        self.lines.addRow(self._buttons())
        self.lines.setRowVisible(self.weight, self.barred)
        self.told.setMinimumWidth(100 * GRID)
        self.told.say(tr("1: as much; 2: twice as much; 0: bars need not meet.") if self.barred else "")

    def _buttons(self) -> QDialogButtonBox:
        kinds = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(kinds.Ok | kinds.Cancel)
        box.button(kinds.Ok).setText(tr("Keep"))
        for button in box.buttons():
            button.setMinimumHeight(TARGET)
        box.accepted.connect(self.keep)
        box.rejected.connect(self.reject)
        return box

    def _show_fitting(self) -> None:
        self.where.setEnabled(self.on.read() != "free" and self.where.count() > 0)

    def _match(self) -> Match:
        """What the fields say. Raises BadInput."""
        centre = msgspec.structs.replace(self._document.kept.match.centre, on="free")
        if self.on.read() != "free" and self._centres:
            centre = Centre(on=self.on.read(), **self._centres[self.where.read()])
        return Match(mirror_pairs=self.pairs.read(), centre=centre, crosswise_weight=self.weight.read() or 0.0)

    def keep(self) -> None:
        """Change the project; what is wrong is said in the form."""
        try:
            project = msgspec.structs.replace(self._document.kept, match=self._match())
            validate(project)
        except BadInput as error:
            self.told.say(str(error), wrong=True)
            return
        self.accept()
        if project != self._document.kept:
            self._document.change(tr("Change what counts"), project)
