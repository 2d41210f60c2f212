"""The page beside the cloth that tells what to expect once hands have laid, cut and sewn."""

from typing import TYPE_CHECKING

from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QFrame, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.as_sewn.error_grid import ErrorGrid
from app.document import Document
from app.figures import fine, rms, step, unit
from app.pages.form import Note
from app.readings.figure_tree import ROW_HIGH, FigureTree
from app.theme import ROOMY, SPACE, Size, current
from app.words import tr
from core.errors import BadInput
from core.model.project import Project

if TYPE_CHECKING:
    from core.forecast.forecast import Forecast

BEYOND_MM = 3.0


class AsSewnPage(QWidget):
    """The forecast for the document's placements, worked out only while it is seen and no hand drags."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("As sewn"))
        self._document = document
        self._shown: Project | None = None
        self.heading, self.told = QLabel(tr("What to expect once it is sewn")), Note()
        self.table, self.errors = FigureTree(tr("Seams as sewn")), ErrorGrid()
        self.table.setRootIsDecorated(False)
        self._lay_out()
        document.project_changed.connect(self.follow)
        document.undo.indexChanged.connect(self.follow)
        self.errors.edited.connect(self._again)
        self.show_theme()

    def _lay_out(self) -> None:
        whole = QWidget()
        column = QVBoxLayout(whole)
        column.setContentsMargins(ROOMY, ROOMY, ROOMY, ROOMY)
        column.setSpacing(SPACE)
        for part in (self.heading, self.told, self.table, self.errors):
            column.addWidget(part)
        column.addStretch(1)
        scroll = QScrollArea(widgetResizable=True, accessibleName=tr("As sewn"))
        scroll.setFrameShape(QFrame.Shape.NoFrame)
        scroll.setWidget(whole)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.addWidget(scroll)

    def showEvent(self, event: QShowEvent) -> None:
        """Work the forecast out, if the project has changed while the page was away."""
        super().showEvent(event)
        if self.errors.look_up():
            self._shown = None
        self.follow()

    def follow(self) -> None:
        """Work the forecast out again, if it is seen and the project is another one."""
        if self.isVisible() and self._shown is not self._document.kept and not self._document.is_empty:
            self._again()

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._shown = None
        self.follow()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.heading.setFont(current().font(Size.NORMAL, bold=True))
        for part in (self.told, self.table, self.errors):
            part.show_theme()

    def _again(self) -> None:
        from core.forecast.forecast import forecast

        self._shown = self._document.kept
        try:
            errors = self.errors.read()
        except BadInput as problem:
            self.told.say(str(problem), wrong=True)
            return
        self._show(forecast(self._shown, errors, self._document.garment))

    def _show(self, found: "Forecast") -> None:
        from core.forecast.verdict import verdict

        self.told.say(" ".join(verdict(found, rms)) or tr("No seam joins two panels of one striped cloth."))
        self.errors.show_forecast(found)
        self.table.clear()
        of = unit()
        heads = (tr("Planned"), tr("Spread"), tr("Expected"))
        beyond = tr("Over {limit}").format(limit=step(BEYOND_MM))
        self.table.show_heads(
            (tr("Seam"), *(f"{tr(head)}\n{of}" for head in heads), f"{beyond}\n{of}"),
            (
                tr("Seams that are matched"),
                tr("The rms of the step as it is planned"),
                tr("How far the step will scatter about the plan: two times in three it is within"),
                tr("The rms of the step to expect"),
                tr("The share of the seam on which a larger step is to be expected"),
            ),
        )
        for seam in found.seams:
            figures = (fine(seam.reading.rms_mm), fine(seam.deviation_mm), fine(seam.rms_mm))
            self.table.row(self.table, (seam.label, *figures, f"{seam.share_beyond(BEYOND_MM):.0%}"), seam.label)
        rows = self.table.topLevelItemCount()
        self.table.setFixedHeight(self.table.header().sizeHint().height() + max(rows, 1) * (ROW_HIGH + 1) + SPACE)
