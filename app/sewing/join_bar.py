"""Two edges chosen from lists and sewn together; edges picked on the cloth; a ring sewn as a whole."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QComboBox, QGridLayout, QHBoxLayout, QLabel, QPushButton, QWidget

from app.figures import step, unit
from app.pages.entries import Choice
from app.sewing.words import edge_title
from app.theme import SPACE, TIGHT
from app.words import tr
from core.geometry.polyline import length
from core.model.pattern import EdgeRef
from core.model.project import Project
from core.seams.joining import edges_of, free_edges, likely_partner

HIGH = 28


class JoinBar(QWidget):
    """Offers the edges that no seam sews yet, with their lengths."""

    sew = Signal(str, str)
    """Sew these two edges together."""
    pick = Signal(bool)
    """Begin or end picking edges on the cloth."""
    ring = Signal()
    """Sew a ring of all panels."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.one, self.other = _edges(tr("One edge")), _edges(tr("The other edge"))
        self.sew_button = _button(tr("Sew together"), tr("Make a seam of these two edges; left and right are seen to"))
        self.pick_button = _button(tr("Pick on the cloth"), tr("Click two edges on the cloth to sew them together (J)"))
        self.pick_button.setCheckable(True)
        self.ring_button = _button(
            tr("Sew a ring"), tr("Sew all panels side by side to a ring, as far as edges are free")
        )
        self._lay_out()
        self._project: Project | None = None
        self.one.edited.connect(self._suggest)
        self.other.edited.connect(self._allow)
        self.sew_button.clicked.connect(lambda: self.sew.emit(self.one.read(), self.other.read()))
        self.pick_button.toggled.connect(self.pick)
        self.ring_button.clicked.connect(self.ring)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(SPACE)
        grid.setVerticalSpacing(TIGHT)
        for row, (caption, box) in enumerate(((tr("Edge"), self.one), (tr("to edge"), self.other))):
            grid.addWidget(QLabel(caption, buddy=box), row, 0)
            grid.addWidget(box, row, 1)
        buttons = QHBoxLayout(spacing=SPACE)
        for button in (self.sew_button, self.pick_button, self.ring_button):
            buttons.addWidget(button)
        buttons.addStretch(1)
        grid.addLayout(buttons, 2, 1)
        grid.setColumnStretch(1, 1)

    def show_project(self, project: Project) -> None:
        """Offer the free edges of a project."""
        self._project, lines = project, edges_of(project)
        offers = [
            (f"{edge_title(project, ref)}   {step(length(lines[ref]))} {unit()}", ref) for ref in free_edges(project)
        ]
        for box in (self.one, self.other):
            box.offer(offers)
            box.setPlaceholderText(tr("No edge is free"))
            box.setEnabled(bool(offers))
        self._suggest()

    def show_picked(self, ref: EdgeRef | None) -> None:
        """Show the edge that was picked first on the cloth."""
        if ref is not None:
            self.one.show_value(ref)

    def show_picking(self, on: bool) -> None:
        """Show whether edges are picked on the cloth."""
        self.pick_button.setChecked(on)

    def _suggest(self) -> None:
        """Choose the edge that the first one is most likely sewn to."""
        if self._project and self.one.read() is not None:
            self.other.show_value(likely_partner(self._project, self.one.read()))
        self._allow()

    def _allow(self) -> None:
        chosen = self.one.read(), self.other.read()
        self.sew_button.setEnabled(None not in chosen and chosen[0] != chosen[1])
        self.ring_button.setEnabled(self.one.count() > 1)


def _edges(name: str) -> Choice:
    box = Choice(name, ())
    box.setMaxVisibleItems(20)
    box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
    return box


def _button(text: str, tip: str) -> QPushButton:
    button = QPushButton(text, toolTip=tip)
    button.setMinimumHeight(HIGH)
    return button
