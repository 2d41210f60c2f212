"""Repeats counted over a length at several places along a cloth: what they come to, and how far they scatter."""

from typing import Any

from PySide6.QtCore import QSettings, Signal
from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app.pages.entries import Length, Whole
from app.pages.form import Note
from app.pages.lengths import MM, LengthUnit
from app.pages.rows import Rows
from app.theme import TARGET, TIGHT
from app.words import tr
from core.errors import BadInput
from core.swatch.ruler import Count, CountedRepeat, counted_repeat

FURTHER_MM = 500.0
"""A new count is made so much further along the cloth than the one before."""
AWAY = 20
"""Over so many repeats is told what an error of the repeat comes to."""


class CountRows(QWidget):
    """One row a count; below them the mean, the spread and the drift. `edited` is said at every change."""

    edited = Signal()

    def __init__(self, name: str) -> None:
        super().__init__()
        self.unit = MM
        self._usual_mm = 24.0
        self._found: CountedRepeat | None = None
        heads = (tr("repeats"), tr("over"), tr("at, along the cloth"))
        self.rows = Rows(name, heads, (2, 3, 3), tr("Add a count"), self._new_count)
        self.told, self.kept = Note(), Note()
        self.use = QPushButton(tr("Use this spread in As sewn"), clicked=self._use_spread)
        self.use.setToolTip(tr("Puts it in as the error of a repeat that varies along the cloth"))
        self.use.setMinimumHeight(TARGET)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(TIGHT)
        for part in (self.rows, self.told, self.use, self.kept):
            column.addWidget(part)
        self.rows.edited.connect(self.edited)

    def _new_count(self, number: int) -> list[Any]:
        return self._row(Count(10, 10 * self._usual_mm, FURTHER_MM * number))

    def _row(self, count: Count) -> list[Any]:
        over = Length(tr("What the repeats take together"), count.length_mm)
        at = Length(tr("Where they were counted"), count.at_mm)
        for entry in (over, at):
            entry.show_unit(self.unit)
        return [Whole(tr("Number of repeats counted"), count.repeats, (1, 1000)), over, at]

    def show_width(self, width_mm: float) -> None:
        """Begin anew with one count that gives a repeat."""
        self._usual_mm = width_mm
        self.rows.show_rows([self._new_count(0)])
        self.kept.hide()

    def show_unit(self, unit: LengthUnit) -> None:
        """Count further rows in another unit."""
        self.unit = unit

    def read(self) -> CountedRepeat:
        """What the counts come to, told below them. Raises BadInput."""
        self._found = None
        self.use.hide()
        self.told.hide()
        counts = [Count(*row) for row in self.rows.read()]
        try:
            self._found = counted_repeat(counts)
        except BadInput as error:
            self.rows.complain(error)
            raise
        self.told.say(counted_in_words(self._found, len(counts), self.unit))
        self.told.show()
        self.use.setVisible(bool(self._found.spread_mm))
        return self._found

    def _use_spread(self) -> None:
        if self._found and self._found.spread_mm:
            percent = 100 * self._found.spread_mm / self._found.width_mm
            QSettings().setValue("errors/repeat_percent", f"{percent:.3g}")
            self.kept.say(tr("As sewn reckons with a repeat that varies by {percent:.3g} %.", percent=percent))
            self.kept.show()


def counted_in_words(found: CountedRepeat, counts: int, unit: LengthUnit) -> str:
    """The repeat by several counts, how they scatter, how it grows, and what that does to stripes far apart."""
    parts = [tr("One repeat is {width}.").format(width=unit.fine(found.width_mm))]
    if found.spread_mm is None or found.width_sd_mm is None:
        return " ".join([*parts, tr("Count at two more places, far apart, to learn how surely.")])
    told = tr("{counts} counts scatter by {spread}; their mean is sure to {sd}, which is {off} after {away} repeats.")
    off = found.off_after(AWAY) or 0.0
    values = {"spread": found.spread_mm, "sd": found.width_sd_mm, "off": off}
    told = told.format(counts=counts, away=AWAY, **{name: unit.fine(mm) for name, mm in values.items()})
    if found.drift_mm_per_m is None:
        return " ".join([*parts, told])
    grows = tr("Along the cloth it changes by {drift} per metre.").format(drift=unit.fine(found.drift_mm_per_m, "+"))
    return " ".join([*parts, told, grows])
