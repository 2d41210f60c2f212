"""The variants side by side: figures, the best of each column marked, names that can be changed in place."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QTreeWidget, QTreeWidgetItem, QWidget

from app.readings.figure_tree import KEY, FigureTree
from app.theme import Size, current
from app.variants.figures import BEST, HEADS, Standings, cells, more
from app.words import tr
from core.model.project import Project
from core.model.variants import stands


class Comparison(FigureTree):
    """One row for how things stand, which has an empty name, and one a variant."""

    wanted = Signal(str)
    """Go to this variant."""
    renamed = Signal(str, str)
    """This variant is to have that name."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("Variants"), parent)
        self._standings = Standings()
        self.setRootIsDecorated(False)
        self.setEditTriggers(QTreeWidget.EditTrigger.EditKeyPressed)
        self.itemDoubleClicked.connect(self._go)
        self.itemChanged.connect(self._rename)

    @property
    def name(self) -> str:
        """The variant of the current row; empty for how things stand, or none."""
        return str(self.key or "")

    def show_project(self, project: Project) -> None:
        """Show a project's variants."""
        present, found = self._standings.of(project)
        kept = self.name
        blocked = QSignalBlocker(self)
        self.clear()
        self.show_heads(
            (tr("Variant"), *(head.heading for head in HEADS)),
            (tr("Double click goes to it; F2 gives it another name"), *(tr(head.meaning) for head in HEADS)),
        )
        self._add(tr("As it stands"), "", cells([present, *found])[0], more(present))
        for variant, standing, row in zip(project.variants, found, cells([present, *found])[1:], strict=True):
            here = stands(project, variant)
            said = "\n".join(part for part in (variant.name, variant.note, more(standing)) if part)
            item = self._add(variant.name, variant.name, row, said, here)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsEditable)
        self.pick(kept)
        del blocked

    def _add(self, text: str, name: str, row: list[tuple[str, bool]], tip: str, here: bool = False) -> QTreeWidgetItem:
        item = self.row(self, [text, *(BEST + figure if best else figure for figure, best in row)], name, tip or text)
        for column, (figure, best) in enumerate(row, 1):
            if best:
                item.setFont(column, current().font(Size.NORMAL, bold=True))
                item.setData(column, Qt.ItemDataRole.AccessibleTextRole, tr("{figure}, the best").format(figure=figure))
        if here or not name:
            item.setFont(0, current().font(Size.NORMAL, bold=True))
        if here:
            item.setData(0, Qt.ItemDataRole.AccessibleTextRole, tr("{name}, in force").format(name=text))
        return item

    def pick(self, name: str) -> None:
        """Make a variant's row the current one, or none."""
        items = [self.topLevelItem(index) for index in range(self.topLevelItemCount())]
        self.setCurrentItem(next((item for item in items if name and item.data(0, KEY) == name), None))

    def edit_name(self) -> None:
        """Begin to change the name of the current variant."""
        if self.name and self.state() != QTreeWidget.State.EditingState:
            self.editItem(self.currentItem(), 0)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Return goes to the variant."""
        if event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.state() != QTreeWidget.State.EditingState:
            self._go()
        else:
            super().keyPressEvent(event)

    def _go(self) -> None:
        if self.name:
            self.wanted.emit(self.name)

    def _rename(self, item: QTreeWidgetItem, column: int) -> None:
        name = item.data(0, KEY)
        if column == 0 and name and item.text(0) != name:
            self.renamed.emit(name, item.text(0).strip())
