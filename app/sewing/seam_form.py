"""One seam in figures: its name, how much it shows, how its edges meet, what of it is seen and sewn."""

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtWidgets import QDoubleSpinBox, QGridLayout, QHBoxLayout, QLabel, QPushButton, QWidget

from app.length_box import LengthBox
from app.pages.entries import Choice, Tick, Words
from app.sewing.words import JOINS, edge_title
from app.theme import SPACE, TARGET, TIGHT
from app.words import spoken, tr
from core.model.pattern import Seam
from core.model.project import Project
from core.seams.garment import SeamLine
from core.seams.joining import can_stand_for_both


class SeamForm(QWidget):
    """Shows a seam; says what is changed of it."""

    changed = Signal(str, dict)
    """These keys of the seam of this name become others."""
    removed = Signal(str)
    """Take the seam of this name out."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Seam"))
        self._seam: Seam | None = None
        self.name = Words(tr("Name of the seam"))
        self.a, self.b = QLabel(), QLabel()
        self.exchange = QPushButton(tr("Exchange"), toolTip=tr("The edge on the left becomes the one on the right"))
        self.weight = _number(
            tr("Weight"), tr("How much the seam shows: 3 counts three times as much as 1, 0 not at all")
        )
        self.join = Choice(tr("How the edges meet"), spoken(JOINS))
        self.join.setToolTip(tr("How two edges of different lengths meet"))
        self.both = Tick(tr("The same on the other side"))
        self.seen = Stretch(tr("Seen only from"), tr("Only this part of the seam counts in the figures"))
        self.open = Stretch(tr("Not sewn from"), tr("A pocket mouth or a placket: this part does not count"))
        self.remove = QPushButton(
            tr("Remove seam"), toolTip=tr("Take this seam out; the pieces stay as they are (Delete)")
        )
        for button in (self.exchange, self.remove):
            button.setMinimumHeight(TARGET)
        self._lay_out()
        self._connect()

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(SPACE)
        grid.setVerticalSpacing(TIGHT)
        grid.setColumnStretch(1, 1)
        meets = QHBoxLayout(spacing=SPACE)
        meets.addWidget(self.weight)
        meets.addWidget(QLabel(tr("Edges"), buddy=self.join))
        meets.addWidget(self.join, 1)
        captioned = ((tr("Name"), self.name), (tr("Left"), self.a), (tr("Right"), self.b), (tr("Weight"), meets))
        for row, (caption, part) in enumerate(captioned):
            label = QLabel(caption)
            grid.addWidget(label, row, 0)
            if isinstance(part, QHBoxLayout):
                label.setBuddy(self.weight)
                grid.addLayout(part, row, 1, 1, 2)
            else:
                label.setBuddy(part)
                grid.addWidget(part, row, 1, 1, 2 if part is self.name else 1)
        grid.addWidget(self.exchange, 1, 2, 2, 1)
        for row, part in enumerate((self.both, self.seen, self.open), len(captioned)):
            grid.addWidget(part, row, 0, 1, 3)
        grid.addWidget(self.remove, len(captioned) + 3, 0, 1, 3, Qt.AlignmentFlag.AlignLeft)

    def _connect(self) -> None:
        self.name.editingFinished.connect(lambda: self._change(name=self.name.read()))
        self.weight.valueChanged.connect(lambda value: self._change(weight=value))
        self.join.edited.connect(lambda: self._change(join=self.join.read()))
        self.both.clicked.connect(lambda on: self._change(both_sides=on))
        self.seen.edited.connect(lambda: self._change(seen=self.seen.read()))
        self.open.edited.connect(lambda: self._change(open=self.open.read()))
        self.exchange.clicked.connect(self._exchange)
        self.remove.clicked.connect(lambda: self._seam and self.removed.emit(self._seam.name))

    def show_seam(self, project: Project, seam: Seam, line: SeamLine) -> None:
        """Show a seam of a project."""
        self._seam = None
        self.name.show_value(seam.name)
        for label, ref in ((self.a, seam.a), (self.b, seam.b)):
            label.setText(edge_title(project, ref))
        with QSignalBlocker(self.weight):
            self.weight.setValue(seam.weight)
        self.join.show_value(seam.join)
        self.both.setChecked(seam.both_sides)
        self.both.setEnabled(seam.both_sides or can_stand_for_both(project, seam))
        for stretch, value in ((self.seen, seam.seen), (self.open, seam.open)):
            stretch.show_value(value, line.length)
        self._seam = seam

    def _change(self, **keys: object) -> None:
        seam = self._seam
        if seam is not None and any(getattr(seam, key) != value for key, value in keys.items()):
            self.changed.emit(seam.name, keys)

    def _exchange(self) -> None:
        if self._seam:
            self._change(a=self._seam.b, b=self._seam.a)


class Stretch(QWidget):
    """A stretch of the seam between two heights, mm from its upper end; or none."""

    edited = Signal()

    def __init__(self, caption: str, tip: str) -> None:
        super().__init__()
        self.tick = Tick(caption)
        self.start, self.end = LengthBox(caption, tip, least_mm=0.0), LengthBox(tr("to"), tip, least_mm=0.0)
        self.tick.setToolTip(tip)
        row = QHBoxLayout(self)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(SPACE)
        for part in (self.tick, self.start, QLabel(tr("to"), buddy=self.end), self.end, QLabel(tr("from the top"))):
            row.addWidget(part)
        row.addStretch(1)
        self.tick.clicked.connect(self._switch)
        for field in (self.start, self.end):
            field.valueChanged.connect(self.edited)

    def show_value(self, value: tuple[float, float] | None, seam_mm: float) -> None:
        """Show a stretch, or that there is none; a new one begins as the whole seam."""
        self.tick.setChecked(value is not None)
        for field, mm in zip((self.start, self.end), value or (0.0, seam_mm), strict=True):
            with QSignalBlocker(field):
                field.setValue(mm)
            field.setEnabled(value is not None)

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        for field in (self.start, self.end):
            field.show_unit()

    def read(self) -> tuple[float, float] | None:
        """The stretch, or None."""
        return (self.start.value(), self.end.value()) if self.tick.isChecked() else None

    def _switch(self, on: bool) -> None:
        for field in (self.start, self.end):
            field.setEnabled(on)
        self.edited.emit()


def _number(name: str, tip: str) -> QDoubleSpinBox:
    field = QDoubleSpinBox(accessibleName=name, toolTip=tip, keyboardTracking=False, decimals=2)
    field.setRange(0.0, 100_000.0)
    field.setAlignment(Qt.AlignmentFlag.AlignRight)
    field.setMinimumHeight(28)
    field.setFixedWidth(92)
    return field
