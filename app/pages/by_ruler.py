"""What a ruler tells of the whole cloth: its width at several places, and what a washed square has lost."""

from collections.abc import Callable
from typing import Any

import msgspec
from PySide6.QtWidgets import QLabel, QPushButton

from app.pages.entries import Length
from app.pages.form import Note, Section
from app.pages.lengths import MM, LengthUnit
from app.pages.rows import Rows
from app.theme import TARGET
from app.words import number, tr
from core.errors import BadInput
from core.model.cloth import Cloth
from core.swatch.ruler import Shrinkage, narrowest, shrinkage_of, washed

Change = Callable[[Cloth], Cloth]


class ByRuler:
    """Two tables, each with a button that makes another cloth of the one shown; `wanted` gets how."""

    def __init__(self, section: Section, wanted: Callable[[Change], None]) -> None:
        self.unit, self._wide, self._selvedge = MM, 1400.0, (0.0, 0.0)
        heads = (tr("width"), tr("left selvedge"), tr("right selvedge"))
        self.widths = Rows(tr("Widths at several places"), heads, (1, 1, 1), tr("Add a width"), self._new_width)
        self.widths_told = Note(tr("The narrowest width and the broadest selvedges count."))
        self.take_widths = QPushButton(tr("Take the narrowest"), clicked=lambda: wanted(self._narrowed))
        self.square = Rows(tr("Washed square"), (tr("marked square"), tr("across"), tr("along")), (1, 1, 1))
        self.square_told = Note()
        self.wash = QPushButton(tr("Reckon the whole cloth as washed"), clicked=lambda: wanted(self._washed))
        for part in (self.widths, self.widths_told, self.take_widths, self.square, self.square_told, self.wash):
            section.add_wide(part)
        for button in (self.take_widths, self.wash):
            button.setMinimumHeight(TARGET)
        self.widths.edited.connect(self._tell_widths)
        self.square.edited.connect(self._tell_square)

    def show_cloth(self, cloth: Cloth, unit: LengthUnit) -> None:
        """Begin anew for a cloth."""
        self.unit, self._wide, self._selvedge = unit, cloth.width, cloth.selvedge
        self.widths.show_rows([])
        sides = ((tr("before washing"), 500.0), (tr("after washing"), None))
        self.square.show_rows([self._side(words, mm) for words, mm in sides])
        self._tell_widths()
        self._tell_square()

    def _new_width(self, number: int) -> list[Any]:
        return self._lengths((tr("Width there"), *_sides()), (self._wide, *self._selvedge))

    def _side(self, words: str, mm: float | None) -> list[Any]:
        names = (f"{tr('across')}, {words}", f"{tr('along')}, {words}")
        return [QLabel(words), *self._lengths(names, (mm, mm), needed=False)]

    def _lengths(self, names: tuple[str, ...], values: tuple[float | None, ...], needed: bool = True) -> list[Length]:
        entries = [Length(name, mm, needed=needed) for name, mm in zip(names, values, strict=True)]
        for entry in entries:
            entry.show_unit(self.unit)
        return entries

    def _tell_widths(self) -> None:
        found = self._read_widths()
        self.take_widths.setEnabled(found is not None)
        if found:
            width, (left, right) = found
            told = tr("{width} wide counts, of it {usable} between the selvedges.")
            usable = self.unit.told(width - left - right)
            self.widths_told.say(told.format(width=self.unit.told(width), usable=usable))

    def _read_widths(self) -> tuple[float, tuple[float, float]] | None:
        try:
            rows = [(width, left, right) for width, left, right in self.widths.read()]
            return narrowest(rows) if rows else None
        except BadInput as error:
            self.widths.complain(error)
            return None

    def _narrowed(self, cloth: Cloth) -> Cloth:
        width, selvedge = self._read_widths() or (cloth.width, cloth.selvedge)
        return msgspec.structs.replace(cloth, width=width, selvedge=selvedge)

    def _tell_square(self) -> None:
        shrinkage = self._read_square()
        self.wash.setEnabled(shrinkage is not None)
        told = tr("Mark a square, wash and press it as the cloth will be, and measure its sides again.")
        if shrinkage:
            told = tr(
                "It loses {across} % across and {along} % along.",
                across=number(shrinkage.across_percent, 2),
                along=number(shrinkage.along_percent, 2),
            )
        self.square_told.say(told)

    def _read_square(self) -> Shrinkage | None:
        try:
            (_, *before), (_, *after) = self.square.read()
            if None in (*before, *after):
                return None
            return shrinkage_of((before[0], before[1]), (after[0], after[1]))
        except BadInput as error:
            self.square.complain(error)
            return None

    def _washed(self, cloth: Cloth) -> Cloth:
        shrinkage = self._read_square()
        return washed(cloth, shrinkage) if shrinkage else cloth


def _sides() -> tuple[str, str]:
    return tr("Left selvedge there"), tr("Right selvedge there")
