"""The seams as sewn together, both lengths, and under each what walking it finds."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent, QPalette
from PySide6.QtWidgets import QHeaderView, QTreeWidget, QTreeWidgetItem, QWidget

from app.figures import step, unit
from app.sewing.words import edge_title, with_titles
from app.theme import GRID, current
from app.words import later, tr
from core.model.project import Project
from core.seams.garment import SeamLine
from core.seams.walk import Finding

NAME, LEFT, RIGHT, FOUND = range(4)
_HEADS = (later("Seam"), later("Left, {}"), later("Right, {}"), later("Findings"))
_TIPS = (
    later("Two edges that are sewn together"),
    later("Length of the edge on the left of the seam as seen from outside, on the stitching line"),
    later("Length of the edge on its right"),
    later("How many things there are to look at; open the seam to see them"),
)
_DATA = Qt.ItemDataRole.UserRole
ELSEWHERE = later("Elsewhere")
ROW_HIGH = 7 * GRID


class SeamTree(QTreeWidget):
    """Seams with their findings. Says which seam or finding is the current one."""

    seam_chosen = Signal(str)
    """The seam of this name; empty for none."""
    finding_chosen = Signal(object)
    """This finding, or None."""
    removed = Signal(str)
    """Take the seam of this name out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Seams and findings"))
        self._name_columns()
        for column, tip in enumerate(_TIPS):
            self.headerItem().setToolTip(column, tr(tip))
            if column != NAME:
                self.headerItem().setTextAlignment(column, Qt.AlignmentFlag.AlignRight)
        header = self.header()
        header.setStretchLastSection(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        header.setSectionResizeMode(NAME, QHeaderView.ResizeMode.Stretch)
        self.setUniformRowHeights(True)
        self.setFrameShape(QTreeWidget.Shape.NoFrame)
        self.setExpandsOnDoubleClick(True)
        self.currentItemChanged.connect(self._tell)

    def _name_columns(self) -> None:
        self.setHeaderLabels([tr(head).format(unit()) for head in _HEADS])

    def show_seams(
        self, project: Project, lines: Sequence[SeamLine], findings: Sequence[Finding], keep: str = ""
    ) -> None:
        """Show a project's seams with the findings about them; the seam named `keep` stays the current one."""
        closed = {item.data(NAME, _DATA) for item in self._seam_items() if item.childCount() and not item.isExpanded()}
        blocked = self.blockSignals(True)
        self.clear()
        self._name_columns()
        for seam in project.seams:
            line = next(line for line in lines if line.sewn.seam.name == seam.name)
            item = self._row(seam.name, [step(size) for size in line.edge_lengths], seam.name)
            sides = f"{edge_title(project, seam.a)}\n{edge_title(project, seam.b)}"
            item.setToolTip(NAME, sides + (tr("\nand the same on the other side") if seam.both_sides else ""))
            self._hang(project, item, [finding for finding in findings if finding.seam == seam.name])
        elsewhere = [finding for finding in findings if not finding.seam]
        if elsewhere:
            self._hang(project, self._row(tr(ELSEWHERE), ["", ""], ""), elsewhere)
        for item in self._seam_items():
            item.setExpanded(item.data(NAME, _DATA) not in closed)
        self.blockSignals(blocked)
        self.choose(keep)

    def choose(self, name: str) -> None:
        """Make the seam of a name the current row, without telling anybody; empty for none."""
        blocked = self.blockSignals(True)
        here = self.currentItem()
        if here is None or _seam_of(here) != name or not name:
            self.setCurrentItem(next((item for item in self._seam_items() if item.data(NAME, _DATA) == name), None))
        self.blockSignals(blocked)

    @property
    def finding(self) -> Finding | None:
        """The finding on the current row."""
        item = self.currentItem()
        found = item.data(FOUND, _DATA) if item else None
        return found if isinstance(found, Finding) else None

    @property
    def seam(self) -> str:
        """The name of the seam on the current row or above it; empty for none."""
        return _seam_of(self.currentItem()) if self.currentItem() else ""

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """As every tree; Delete takes the seam out."""
        if event.key() in (Qt.Key.Key_Delete, Qt.Key.Key_Backspace) and self.seam and self.finding is None:
            self.removed.emit(self.seam)
        else:
            super().keyPressEvent(event)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        palette = self.palette()
        palette.setColor(QPalette.ColorRole.Highlight, current().colour("selected"))
        palette.setColor(QPalette.ColorRole.HighlightedText, current().colour("text"))
        self.setPalette(palette)
        for item in self._seam_items():
            for index in range(item.childCount()):
                item.child(index).setForeground(NAME, current().colour("quiet"))

    def _seam_items(self) -> list[QTreeWidgetItem]:
        return [self.topLevelItem(index) for index in range(self.topLevelItemCount())]

    def _row(self, text: str, sizes: list[str], name: str) -> QTreeWidgetItem:
        item = QTreeWidgetItem(self, [text, *sizes, ""])
        item.setData(NAME, _DATA, name)
        item.setSizeHint(NAME, QSize(0, ROW_HIGH))
        for column in (LEFT, RIGHT, FOUND):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        return item

    def _hang(self, project: Project, item: QTreeWidgetItem, findings: Sequence[Finding]) -> None:
        """Hang findings under a row."""
        item.setText(FOUND, str(len(findings)) if findings else "–")
        for finding in findings:
            what = with_titles(project, finding.what)
            child = QTreeWidgetItem(item, [what])
            child.setToolTip(NAME, f"{what};\n{with_titles(project, finding.right)}")
            child.setData(FOUND, _DATA, finding)
            child.setSizeHint(NAME, QSize(0, ROW_HIGH))
            child.setFirstColumnSpanned(True)
            child.setForeground(NAME, current().colour("quiet"))

    def _tell(self) -> None:
        self.seam_chosen.emit(self.seam)
        self.finding_chosen.emit(self.finding)


def _seam_of(item: QTreeWidgetItem) -> str:
    top = item.parent() or item
    return str(top.data(NAME, _DATA))
