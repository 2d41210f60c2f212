"""The cut list: every piece to cut and tick off, layers, pockets and strips, notions, and what each cloth needs."""

from collections.abc import Callable
from typing import Any

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QLabel, QMenu, QPushButton, QVBoxLayout, QWidget

from app.derived_forms import KINDS, LayerForm, PocketForm, StripForm
from app.document import Document
from app.figures import figure, length, unit
from app.messages import MessageBar
from app.pages.form import Note
from app.piece_tree import PieceTree
from app.readings.figure_grid import FigureGrid
from app.theme import ROOMY, SPACE, Size, current
from app.words import tr
from core.derive.changes import ListRow, rows_of, ticked, with_layers, with_pocket, with_pockets, with_strips
from core.derive.count import ClothNeed, CuttingList, cutting_list
from core.errors import BadInput
from core.model.pattern import PanelName
from core.model.project import Layer, Pocket, Project, Strip

BUTTON_HIGH = 28


class CutList(QWidget):
    """The list of the document. It is worked out again only while it is seen."""

    def __init__(self, document: Document, messages: MessageBar, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Cut list"))
        self._document, self._messages = document, messages
        self._shown: Project | None = None
        self.heading, self.summary = QLabel(tr("Cut list")), Note()
        self.tree = PieceTree()
        self.add = _button(tr("Add"), tr("Add a layer under pieces, a pocket, or strips"))
        self.alter = _button(tr("Change…"), tr("Change the layer, pocket or strip of this row"), self.change_chosen)
        self.remove = _button(tr("Remove"), tr("Take out the layer, pocket or strip of this row"), self.remove_chosen)
        self.notions = FigureGrid(tr("Notions"), (tr("Notions"), ""))
        self.cloths = FigureGrid(tr("Cloths"), (tr("Cloth"), "", "", "", ""))
        self._make_menu()
        self._lay_out()
        document.project_changed.connect(self.follow)
        document.undo.indexChanged.connect(self.follow)
        self.tree.ticked.connect(self.tick)
        self.tree.chosen.connect(self._choose)
        self.show_theme()

    def _make_menu(self) -> None:
        menu = QMenu(self.add)
        for title, kind in KINDS:
            menu.addAction(f"{tr(title)}…", lambda kind=kind: self.add_layer(kind))
        menu.addSeparator()
        menu.addAction(tr("Pocket…"), self.add_pocket)
        menu.addAction(tr("Strip…"), self.add_strip)
        self.add.setMenu(menu)

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(ROOMY, ROOMY, ROOMY, ROOMY)
        column.setSpacing(SPACE)
        head = QHBoxLayout(spacing=SPACE)
        head.addWidget(self.heading)
        head.addWidget(self.summary, 1)
        column.addLayout(head)
        column.addWidget(self.tree, 1)
        buttons = QHBoxLayout(spacing=SPACE)
        for button in (self.add, self.alter, self.remove):
            buttons.addWidget(button)
        buttons.addStretch(1)
        column.addLayout(buttons)
        column.addSpacing(SPACE)
        for part in (self.notions, self.cloths):
            column.addWidget(part)

    # --- showing

    def showEvent(self, event: QShowEvent) -> None:
        """Work the list out, if the project has changed while it was away."""
        super().showEvent(event)
        self.follow()

    def follow(self) -> None:
        """Work the list out again, if it is seen and the project is another one."""
        project = self._document.kept
        if not self.isVisible() or self._shown is project or self._document.is_empty:
            return
        before, self._shown = self._shown, project
        if before is None or _unticked(before) != _unticked(project):
            self._work_out(project)
        rows = rows_of(project)
        self.tree.show_rows(project, rows)
        if not self.summary.wrong:
            self.summary.say(
                tr("{total} pieces to cut, {count} of them cut").format(
                    total=sum(row.piece.number for row in rows), count=len(project.done)
                )
            )

    def _work_out(self, project: Project) -> None:
        """Notions and cloths, or why they can't be told."""
        self.summary.say("")
        try:
            self._show_figures(cutting_list(project))
        except BadInput as error:
            self.summary.say(tr("{error}. Change or remove it.").format(error=error), wrong=True)
            for grid in (self.notions, self.cloths):
                grid.show_rows(())

    def _show_figures(self, found: CuttingList) -> None:
        self.notions.name_columns((tr("Notions"), unit()))
        self.cloths.name_columns(
            (
                tr("Cloth"),
                tr("area, {unit}").format(unit=_area_unit()),
                tr("laid, {unit}").format(unit=unit()),
                tr("buy, {unit}").format(unit=unit()),
                tr("cost"),
            )
        )
        self.notions.show_rows(_notions(found))
        self.cloths.show_rows([_cloth_row(need) for need in found.cloths])

    def _choose(self, row: ListRow | None) -> None:
        """Panels of the row that is chosen are selected on the cloth; what is derived can be changed."""
        derived = row is not None and row.derived
        self.alter.setEnabled(derived)
        self.remove.setEnabled(derived)
        panels = tuple(name for name in self.tree.panels if name in self._document.panels)
        if panels and self.tree.hasFocus():
            self._document.select(panels)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        self._shown = None
        self.follow()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.heading.setFont(current().font(Size.NORMAL, bold=True))
        for part in (self.summary, self.tree, self.notions, self.cloths):
            part.show_theme()

    # --- changing

    def tick(self, panels: tuple[PanelName, ...], cut: bool) -> None:
        """Tick panels off as cut, or take the tick back."""
        what = panels[0] if len(panels) == 1 else tr("{count} panels").format(count=len(panels))
        title = tr("Tick off {what}").format(what=what) if cut else tr("Take the tick off {what}").format(what=what)
        self._document.change(title, ticked(self._document.kept, panels, cut))

    def add_layer(self, kind: str) -> None:
        """Ask for a layer and add it."""
        kept = self._document.kept
        self._ask(LayerForm(kept, None, kind, lambda layer: self._keep_layer(None, layer), self))

    def add_strip(self) -> None:
        """Ask for a strip and add it."""
        self._ask(StripForm(self._document.kept, None, lambda strip: self._keep_strip(None, strip), self))

    def add_pocket(self) -> None:
        """Ask for a pocket and add it."""
        if not self._document.kept.seams:
            self._messages.warn(tr("A pocket lies in a seam: sew the edges together first."))
            return
        self._ask(PocketForm(self._document.kept, None, lambda pocket: self._keep_pocket(None, pocket), self))

    def change_chosen(self) -> None:
        """Ask how the layer, pocket or strip of the chosen row is to be."""
        row, kept = self.tree.row, self._document.kept
        if row and row.layer is not None:
            layer = kept.layers[row.layer]
            self._ask(LayerForm(kept, layer, layer.kind, lambda now: self._keep_layer(row.layer, now), self))
        elif row and row.strip is not None:
            strip = kept.strips[row.strip]
            self._ask(StripForm(kept, strip, lambda now: self._keep_strip(row.strip, now), self))
        elif row and row.pocket is not None:
            pocket = kept.pockets[row.pocket]
            self._ask(PocketForm(kept, pocket, lambda now: self._keep_pocket(row.pocket, now), self))

    def remove_chosen(self) -> None:
        """Take out the layer, pocket or strip of the chosen row."""
        row, kept = self.tree.row, self._document.kept
        if row and row.layer is not None:
            layers = _without(kept.layers, row.layer)
            self._change(
                tr("Remove {title}").format(title=kept.layers[row.layer].title), lambda: with_layers(kept, layers)
            )
        elif row and row.strip is not None:
            strips = _without(kept.strips, row.strip)
            self._change(
                tr("Remove {title}").format(title=kept.strips[row.strip].title), lambda: with_strips(kept, strips)
            )
        elif row and row.pocket is not None:
            pockets = _without(kept.pockets, row.pocket)
            self._change(
                tr("Remove {title}").format(title=kept.pockets[row.pocket].title), lambda: with_pockets(kept, pockets)
            )

    def _ask(self, form: QDialog) -> None:
        form.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        form.open()

    def _keep_layer(self, index: int | None, layer: Layer) -> None:
        kept = self._document.kept
        layers = _with(kept.layers, index, layer)
        self._document.change(f"{_verb(index)} {layer.title}", with_layers(kept, layers))

    def _keep_strip(self, index: int | None, strip: Strip) -> None:
        kept = self._document.kept
        strips = _with(kept.strips, index, strip)
        self._document.change(f"{_verb(index)} {strip.title}", with_strips(kept, strips))

    def _keep_pocket(self, index: int | None, pocket: Pocket) -> None:
        self._document.change(f"{_verb(index)} {pocket.title}", with_pocket(self._document.kept, index, pocket))

    def _change(self, title: str, change: Callable[[], Project]) -> None:
        try:
            self._document.change(title, change())
        except BadInput as error:
            self._messages.warn(tr("That can't be done: {error}").format(error=error))


def _unticked(project: Project) -> Project:
    return msgspec.structs.replace(project, done=())


def _verb(index: int | None) -> str:
    return tr("Add") if index is None else tr("Change")


def _with(values: tuple[Any, ...], index: int | None, value: Any) -> tuple[Any, ...]:
    """The values with one changed, or added at the end."""
    return (*values, value) if index is None else (*values[:index], value, *values[index + 1 :])


def _without(values: tuple[Any, ...], index: int) -> tuple[Any, ...]:
    return (*values[:index], *values[index + 1 :])


def _notions(found: CuttingList) -> list[tuple[str, str]]:
    lengths = [
        (tr("Binding, both edges of all seams"), found.binding_mm),
        (tr("Braid round the hem, joined once"), found.braid_mm),
        *(
            (tr("{name}, along its edge").format(name=title[:1].upper() + title[1:]), mm)
            for title, mm in found.followed_mm
        ),
    ]
    return [(title, length(mm)) for title, mm in lengths]


def _cloth_row(need: ClothNeed) -> tuple[str, ...]:
    cost = figure(need.cost, decimals=2)
    area = figure(need.area_mm2 / _area_mm2(), decimals=3)
    return need.cloth.title, area, length(need.length_mm), length(need.buy_mm), cost


def _area_unit() -> str:
    return "yd²" if unit() == "in" else "m²"


def _area_mm2() -> float:
    """Mm² in the unit of areas."""
    return 914.4**2 if unit() == "in" else 1e6


def _button(text: str, tip: str, act: Callable[[], None] | None = None) -> QPushButton:
    button = QPushButton(text, toolTip=tip)
    button.setMinimumHeight(BUTTON_HIGH)
    if act:
        button.clicked.connect(act)
    return button
