"""How far a cloth is from straight: what a person can measure with a ruler, and what it comes to."""

import math
from typing import Any

from PySide6.QtWidgets import QLabel

from app.figures import figure
from app.pages.entries import Number, SignedLength
from app.pages.form import Field, Note, Section
from app.pages.lengths import LengthUnit
from app.pages.rows import Rows
from app.words import tr
from core.errors import BadInput
from core.model.cloth import Cloth
from core.swatch.faults import (
    bow_at_edge_percent,
    bow_percent,
    fault_warnings,
    lean_mm_per_m,
    skew_angle_deg,
    skew_percent,
    square_skew_percent,
)

_LEAN, _SKEW, _SQUARE, _BOW = range(4)


class Straightness:
    """Three figures of a cloth, each to be typed, or measured as two lengths in the table above them."""

    def __init__(self, section: Section) -> None:
        heads = (tr("measured"), tr("by"), tr("over"))
        self.measured = Rows(tr("Straightness as measured"), heads, (6, 3, 3))
        section.add_wide(self.measured)
        skew = Number(tr("Stripes lean, mm per m"), 0.0, (-300, 300), tr(" mm per m"))
        self.skew = section.add(Field(tr("Stripes lean, mm/m"), skew, tr("to the right, down a metre")))
        weft = Number(tr("Skew of the crosswise threads, percent"), 0.0, (-30, 30), " %")
        self.weft = section.add(Field(tr("Threads skewed, %"), weft, tr("further on at the right edge")))
        bow = Number(tr("Bow of the crosswise threads, percent"), 0.0, (-30, 30), " %")
        self.bow = section.add(Field(tr("Threads bowed, %"), bow, tr("further on in the middle")))
        self.told = section.add_wide(Note())
        self.measured.edited.connect(self._take)

    @property
    def entries(self) -> tuple[Any, ...]:
        """All that says `edited`."""
        return self.skew.entry, self.weft.entry, self.bow.entry

    def show_cloth(self, cloth: Cloth, unit: LengthUnit) -> None:
        """Show a cloth's figures, nothing measured yet."""
        self.skew.entry.show_value(cloth.skew_mm_per_m)
        self.weft.entry.show_value(cloth.weft_skew_percent)
        self.bow.entry.show_value(cloth.bow_percent)
        self._taken: list[tuple[float | None, float | None]] = [(None, None)] * 4
        words = (
            (tr("Stripe, off the selvedge's line"), tr("Off the line"), tr("Over a length")),
            (tr("Thread, further on at the right edge"), tr("Further on"), tr("Across the width")),
            (
                tr("Washed square: diagonal from upper left, the other"),
                tr("Diagonal from upper left"),
                tr("The other one"),
            ),
            (tr("Thread, further on in its middle"), tr("Depth of the bow"), tr("Across the width")),
        )
        self.measured.show_rows([self._row(*of, unit) for of in words])

    def _row(self, words: str, first: str, second: str, unit: LengthUnit) -> list[Any]:
        lengths = [SignedLength(first, needed=False), SignedLength(second, needed=False)]
        for entry in lengths:
            entry.show_unit(unit)
        return [QLabel(words, wordWrap=True), *lengths]

    def _take(self) -> None:
        """Put what was measured just now into its figure."""
        try:
            rows = [(first, second) for _, first, second in self.measured.read()]
            before, self._taken = self._taken, rows
            for row, (first, second) in enumerate(rows):
                if first is not None and second is not None and rows[row] != before[row]:
                    field, figure = self._figure(row, first, second)
                    field.entry.show_value(round(figure, 3))
        except BadInput as error:
            self.measured.complain(error)

    def _figure(self, row: int, first: float, second: float) -> tuple[Field, float]:
        if row == _LEAN:
            return self.skew, lean_mm_per_m(first, second)
        if row == _BOW:
            return self.bow, bow_percent(first, second)
        return self.weft, skew_percent(first, second) if row == _SKEW else square_skew_percent(first, second)

    def tell(self, cloth: Cloth) -> None:
        """Say beside the figures what they come to, and below them what to beware of."""
        lean, skew = math.degrees(math.atan(cloth.skew)), skew_angle_deg(cloth.weft_skew_percent)
        if cloth.skew:
            self.skew.say(tr("{degrees}° to the right", degrees=figure(lean, signed=True, decimals=2)))
        if cloth.weft_skew_percent:
            self.weft.say(tr("{degrees}°, further on at the right", degrees=figure(skew, signed=True, decimals=2)))
        if cloth.bow_percent:
            edge = bow_at_edge_percent(cloth.bow_percent)
            self.bow.say(tr("{percent:.3g} % at the edges", percent=edge))
        warnings = fault_warnings(cloth, cloth.bow_percent, cloth.weft_skew_percent)
        self.told.say("\n".join(warnings), wrong=bool(warnings))
        self.told.setVisible(bool(warnings))
