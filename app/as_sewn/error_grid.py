"""The errors that hands and cloth make: how large each is, and what it makes of the whole."""

from dataclasses import fields
from typing import TYPE_CHECKING

from PySide6.QtCore import QSettings, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QWidget

from app.figures import rms
from app.pages.entries import Number
from app.pages.form import Note
from app.theme import SPACE, TARGET, TIGHT, Size, current
from app.words import tr
from core.forecast.errors import WORDS, Errors

if TYPE_CHECKING:
    from core.forecast.forecast import Forecast

UNITS = {"deg": "°", "percent": "%", "mm_per_m": "mm/m", "mm": "mm"}
NUMBER_WIDE = 64


class ErrorGrid(QWidget):
    """One row an error, its standard deviation to be typed; what was typed is kept from day to day."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Errors"))
        usual = {field.name: field.default for field in fields(Errors)}
        self.entries = {name: Number(tr(words), _kept(name, usual[name]), (0, 100)) for name, words in WORDS.items()}
        self.shares = {name: QLabel() for name in WORDS}
        self.rests = {name: QLabel() for name in WORDS}
        self.heading, self.hint = QLabel(tr("What goes wrong, as a rule")), Note()
        self.hint.say(
            tr(
                "Two times in three an error is smaller than what stands here. The cut is the trade's ±2 mm; the "
                "others are common practice: put your own in."
            )
        )
        self.usual = QPushButton(tr("Usual values"), toolTip=tr("Put the values back that the program came with"))
        self.usual.setMinimumHeight(TARGET + TIGHT)
        self.usual.clicked.connect(self._put_back)
        self._lay_out()
        for entry in self.entries.values():
            entry.edited.connect(self._keep)

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, SPACE, 0, 0)
        grid.setHorizontalSpacing(SPACE)
        grid.setVerticalSpacing(TIGHT)
        grid.setColumnStretch(0, 1)
        grid.addWidget(self.heading, 0, 0, 1, 5)
        grid.addWidget(self.hint, 1, 0, 1, 5)
        self.heads = [QLabel(tr(text)) for text in (tr("of the whole"), tr("without it"))]
        for column, head in enumerate(self.heads, 3):
            grid.addWidget(head, 2, column, Qt.AlignmentFlag.AlignRight)
        for line, (name, words) in enumerate(WORDS.items(), 3):
            caption = QLabel(tr(words).capitalize(), wordWrap=True, buddy=self.entries[name])
            self.entries[name].setFixedWidth(NUMBER_WIDE)
            parts = (caption, self.entries[name], QLabel(_unit_of(name)), self.shares[name], self.rests[name])
            for column, part in enumerate(parts):
                if column > 2:
                    part.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                grid.addWidget(part, line, column)
        grid.addWidget(self.usual, len(WORDS) + 3, 0, Qt.AlignmentFlag.AlignLeft)

    def look_up(self) -> bool:
        """Show what is kept now, as another page may have put it there; whether that is something else."""
        before = [entry.text() for entry in self.entries.values()]
        for field in fields(Errors):
            entry, kept = self.entries[field.name], str(QSettings().value(f"errors/{field.name}", field.default))
            if kept != entry.text():
                blocked = entry.blockSignals(True)
                entry.show_value(_kept(field.name, field.default))
                entry.blockSignals(blocked)
        return before != [entry.text() for entry in self.entries.values()]

    def read(self) -> Errors:
        """The errors as they stand. Raises BadInput that names the one that can't be."""
        return Errors(**{name: entry.read() for name, entry in self.entries.items()})

    def show_forecast(self, found: "Forecast") -> None:
        """Show what each error makes of a forecast."""
        from core.forecast.forecast import without

        for name, share in found.shares.items():
            self.shares[name].setText(f"{share:.0%}")
            rest = without(found, name).rms_mm
            self.rests[name].setText("" if rest is None else rms(rest))

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.heading.setFont(current().font(Size.NORMAL, bold=True))
        for head in self.heads:
            head.setFont(current().font(Size.SMALL))
        self.hint.show_theme()

    def _keep(self) -> None:
        for name, entry in self.entries.items():
            QSettings().setValue(f"errors/{name}", entry.text())
        self.edited.emit()

    def _put_back(self) -> None:
        for field in fields(Errors):
            self.entries[field.name].show_value(field.default)


def _kept(name: str, usual: float) -> float:
    try:
        value = float(str(QSettings().value(f"errors/{name}", usual)).replace(",", "."))
    except ValueError:
        return usual
    return value if 0 <= value <= 100 else usual


def _unit_of(name: str) -> str:
    return next(sign for ending, sign in UNITS.items() if name.endswith(ending))
