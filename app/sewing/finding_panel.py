"""One finding in full, and the ways to true it."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.pages.entries import Choice
from app.sewing.words import sentence, with_titles
from app.theme import SPACE, Size, current
from app.words import tr
from core.model.project import Project
from core.seams.walk import Finding


class FindingPanel(QWidget):
    """What was found, what would put it right, and the methods to choose from."""

    true_by = Signal(object)
    """Carry this remedy out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Finding"))
        self.place, self.what, self.right = QLabel(), QLabel(wordWrap=True), QLabel(wordWrap=True)
        self.method = Choice(tr("Method"), ())
        self.method.setMaxVisibleItems(14)
        self.do = QPushButton(tr("True it"), toolTip=tr("Change the pieces so, as one step that can be taken back"))
        self.do.setMinimumHeight(28)
        self.do.clicked.connect(lambda: self.true_by.emit(self.method.read()))
        self._lay_out()
        self.show_theme()

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(SPACE)
        for label in (self.place, self.what, self.right):
            column.addWidget(label)
        self.ways = QWidget()
        row = QHBoxLayout(self.ways)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE)
        row.addWidget(self.method, 1)
        row.addWidget(self.do)
        column.addWidget(self.ways)
        column.addStretch(1)

    def show_finding(self, project: Project, finding: Finding) -> None:
        """Show a finding about a project."""
        self.place.setText(sentence(finding.place))
        self.what.setText(f"{with_titles(project, finding.what)}.")
        right = with_titles(project, finding.right)
        self.right.setText(f"{right}.")
        self.method.offer([(sentence(remedy.method), remedy) for remedy in finding.remedies])
        self.ways.setVisible(bool(finding.remedies))

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.place.setFont(current().font(Size.NORMAL, bold=True))
        palette = self.right.palette()
        palette.setColor(self.right.foregroundRole(), current().colour("quiet"))
        self.right.setPalette(palette)
