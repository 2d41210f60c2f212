"""Asks for a picture of cloth and how large it is, then shows the repeat, each number to correct."""

from contextlib import suppress
from dataclasses import dataclass
from typing import Any

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton

from app.pages.entries import Choice, Colour, Length, Number, Words
from app.pages.form import Field, Form, Note, Section
from app.pages.rows import Rows
from app.pages.swatch_painting import Part
from app.theme import TARGET
from app.words import later, tr
from core.errors import BadInput
from core.model.cloth import Cloth, Repeat, Stripe, Way
from core.swatch.scale import Corners, PerPixel, Point, Scale, by_dpi, by_marks

MARKS, CORNERS, DPI, PER_PIXEL = "marks", "corners", "dpi", "per pixel"
NEEDED = {MARKS: 2, CORNERS: 4, DPI: 0, PER_PIXEL: 0}
"""How many places are marked in the picture for each way to tell its scale."""
_TOLD = {
    MARKS: later("Click two marks on the ruler in the picture, far apart."),
    CORNERS: later("Click the corners of a rectangle on the cloth: upper left, upper right, lower right, lower left."),
    DPI: later("For a scan: its resolution."),
    PER_PIXEL: later("What one pixel of the picture is on the cloth."),
}


@dataclass(frozen=True)
class Wanted:
    """Which cloth gets which repeats; `skew_percent` of the bars, None where they were not read with the stripes."""

    cloth_id: str
    repeats: dict[Way, Repeat]
    skew_percent: float | None


class SwatchForm(Form):
    """Asks for a picture and its scale; then shows the repeat found."""

    file_wanted = Signal()
    find_wanted = Signal()
    scale_changed = Signal()
    part_asked = Signal(bool)
    """Whether a part of the picture is being chosen."""

    def __init__(self, cloths: tuple[Cloth, ...]) -> None:
        super().__init__()
        self.size_px = (1, 1)
        self._cloths = {cloth.id: cloth for cloth in cloths}
        self._both: dict[Way, Repeat] = {}
        """The stripes and the bars of a plaid, as corrected so far; empty where one way was found."""
        self._shown: Way = "lengthwise"
        self._add_picture(self.section(tr("Picture")))
        self._add_scale(self.section(tr("How large it is")))
        self.found = self.section(tr("The repeat"))
        self._add_repeat(self.found, cloths)
        self.way_across.entry.edited.connect(self._show_other_way)
        self.follow(*(field.entry for field in self.found.fields), self.stripes)
        self.show_found(None)
        self._show_fitting()

    def _add_picture(self, section: Section) -> None:
        self.file = QPushButton(tr("Open a picture…"))
        self.file.clicked.connect(self.file_wanted)
        self.file.setMinimumHeight(TARGET)
        section.add_wide(self.file)
        self.file_note = Note(
            tr("A scan, or a photograph of the cloth lying flat in even light, five or more repeats in view.")
        )
        section.add_wide(self.file_note)

    def _add_scale(self, section: Section) -> None:
        ways = (
            (tr("two marks on a ruler"), MARKS),
            (tr("corners of a rectangle"), CORNERS),
            (tr("resolution of a scan"), DPI),
            (tr("size of a pixel"), PER_PIXEL),
        )
        self.way = section.add(Field(tr("Scale by"), Choice(tr("How the scale is told"), ways)))
        self.apart = section.add(Field(tr("Marks apart"), Length(tr("How far the marks are apart"), 100.0)))
        self.wide = section.add(Field(tr("Rectangle wide"), Length(tr("Width of the rectangle"), 297.0)))
        self.high = section.add(Field(tr("Rectangle high"), Length(tr("Height of the rectangle"), 210.0)))
        self.dpi = section.add(Field(tr("Resolution, dpi"), Number(tr("Resolution, dpi"), 300.0, (1, 20000), " dpi")))
        pixel = Number(tr("One pixel, mm"), 0.1, (1e-4, 100), " mm")
        self.pixel = section.add(Field(tr("One pixel, mm"), pixel))
        self.told = section.add_wide(Note())
        self._add_part(section)
        self.find = QPushButton(tr("Find the repeat"))
        self.find.clicked.connect(self.find_wanted)
        self.find.setMinimumHeight(TARGET)
        section.add_wide(self.find)
        for field in (self.way, self.apart, self.wide, self.high, self.dpi, self.pixel):
            field.entry.edited.connect(self._show_fitting)
            field.entry.edited.connect(self.scale_changed)

    def _add_part(self, section: Section) -> None:
        """Which part of the picture shows cloth: dragged there, or typed."""
        heads = (tr("left"), tr("top"), tr("right"), tr("bottom"))
        self.part = Rows(tr("Part of the picture, pixels"), heads, (1, 1, 1, 1), tr("Only a part…"), self._new_part)
        self.part.setToolTip(tr("The part that shows nothing but cloth: drag a rectangle in the picture, or type it"))
        section.add_wide(self.part)
        self.part.edited.connect(self._follow_part)

    def _new_part(self, number: int) -> list[Any]:
        return self._part_row((0.0, 0.0, float(self.size_px[0]), float(self.size_px[1])))

    def _part_row(self, part: Part) -> list[Any]:
        names = (tr("Left edge, px"), tr("Upper edge, px"), tr("Right edge, px"), tr("Lower edge, px"))
        return [Number(name, px, (0, 1e6)) for name, px in zip(names, part, strict=True)]

    def show_part(self, part: Part | None) -> None:
        """Show the part that counts; None: all of the picture."""
        self.part.show_rows([self._part_row(part)] if part else [])
        self._follow_part()

    def _follow_part(self) -> None:
        self.part.add_button.setVisible(not self.part.rows)
        self.part_asked.emit(bool(self.part.rows))
        self.scale_changed.emit()

    def read_part(self) -> Part | None:
        """The part of the picture that counts, px. Raises BadInput."""
        rows = self.part.read()
        if not rows:
            return None
        left, top, right, bottom = rows[0]
        if not (left < right and top < bottom):
            error = BadInput(tr("the part has no area"), right=tr("right beyond left, bottom below top"))
            self.part.complain(error)
            raise error
        return left, top, right, bottom

    def _add_repeat(self, section: Section, cloths: tuple[Cloth, ...]) -> None:
        titles = [(cloth.title, cloth.id) for cloth in cloths]
        self.cloth = section.add(
            Field(tr("Cloth"), Choice(tr("Which cloth it is"), titles), tr("the one that gets the repeat"))
        )
        self.cloth.set_shown(len(cloths) > 1)
        kinds = ((tr("stripes along the cloth"), "lengthwise"), (tr("bars across it"), "crosswise"))
        self.way_across = section.add(Field(tr("These are"), Choice(tr("What was found"), kinds)))
        skew = Number(tr("Bars skewed, %"), 0.0, (-30, 30), " %")
        told = tr("the right end further along is above 0")
        self.skew = section.add(Field(tr("Bars skewed, %"), skew, told))
        self.width = section.add(Field(tr("Repeat"), Length(tr("Repeat"), 24.0), tr("until all begins again")))
        self.ground = section.add(
            Field(tr("Ground"), Colour(tr("Colour of the ground"), "#efe7d6"), tr("between the stripes"))
        )
        heads = (tr("stripe"), tr("middle at"), tr("width"), tr("colour"))
        self.stripes = Rows(tr("Stripes of one repeat"), heads, (4, 3, 3, 4), tr("Add a stripe"), self._new_stripe)
        section.add_wide(self.stripes)
        self.lead = section.add(
            Field(tr("Lead stripe"), Choice(tr("Lead stripe"), ()), tr("the one that the eye follows"))
        )

    def _new_stripe(self, number: int) -> list[Any]:
        return self._row(
            Stripe(name=tr("stripe {number}").format(number=number + 1), at=0.0, width=2.0, colour="#2f4a6b")
        )

    def _row(self, stripe: Stripe) -> list[Any]:
        lengths = (
            Length(tr("Middle of {name}").format(name=stripe.name), stripe.at),
            Length(tr("Width of {name}").format(name=stripe.name), stripe.width),
        )
        for entry in lengths:
            entry.show_unit(self.unit)
        return [
            Words(tr("Name of the stripe"), stripe.name),
            *lengths,
            Colour(tr("Colour of {name}").format(name=stripe.name), stripe.colour),
        ]

    def _show_fitting(self) -> None:
        """Leave out the fields that have no say for the scale as it is told."""
        way = self.way.entry.read()
        for field, ways in (
            (self.apart, (MARKS,)),
            (self.wide, (CORNERS,)),
            (self.high, (CORNERS,)),
            (self.dpi, (DPI,)),
            (self.pixel, (PER_PIXEL,)),
        ):
            field.set_shown(way in ways)
        self.told.say(tr(_TOLD[way]))

    @property
    def marks_needed(self) -> int:
        """How many places are to be marked in the picture."""
        return NEEDED[self.way.entry.read()]

    def scale(self, marks: tuple[Point, ...]) -> Scale:
        """The scale as the fields and the marks tell it. Raises BadInput."""
        if len(marks) < self.marks_needed:
            missing = self.marks_needed - len(marks)
            one, more = tr("1 more place is to be marked"), tr("{count} more places are to be marked")
            raise BadInput(one if missing == 1 else more.format(count=missing))
        way = self.way.entry.read()
        if way == MARKS:
            return by_marks(marks[0], marks[1], self.apart.read())
        if way == CORNERS:
            return Corners((marks[0], marks[1], marks[2], marks[3]), self.wide.read(), self.high.read())
        return by_dpi(self.dpi.read()) if way == DPI else PerPixel(self.pixel.read())

    def show_found(self, repeat: Repeat | None, bars: Repeat | None = None, skew_percent: float = 0.0) -> None:
        """Show what was found to correct, bars too if stripes cross them, or that nothing is known yet."""
        self.found.setVisible(repeat is not None)
        self.skew.set_shown(bars is not None)
        self._both = {"lengthwise": repeat, "crosswise": bars} if repeat and bars else {}
        if self._both:
            self._shown = "lengthwise"
            blocked = self.blockSignals(True)
            self.way_across.entry.show_value("lengthwise")
            self.skew.entry.show_value(round(skew_percent, 2))
            self.blockSignals(blocked)
        if repeat is not None:
            self._show_repeat(repeat)

    def _show_other_way(self) -> None:
        """Of a plaid, show the way that was chosen, and keep what was corrected in the other."""
        way: Way = self.way_across.entry.read()
        if not self._both or way == self._shown:
            return
        with suppress(BadInput):
            self._both[self._shown] = self._corrected()
        self._shown = way
        self._show_repeat(self._both[way])
        self.edited.emit()

    def _show_repeat(self, repeat: Repeat) -> None:
        blocked = self.blockSignals(True)
        self.width.entry.show_value(repeat.width)
        self.ground.entry.show_value(repeat.ground)
        self.stripes.show_rows([self._row(stripe) for stripe in repeat.stripes])
        self._offer_leads()
        self.lead.entry.show_value(repeat.lead_stripe.name)
        self.blockSignals(blocked)

    def _offer_leads(self) -> None:
        names = dict.fromkeys(row[0].read() for row in self.stripes.rows)
        self.lead.entry.offer([(name, name) for name in names if name])

    def wanted(self) -> Wanted:
        """The repeats as the fields say, beginning where the cloth's own did, and the cloth. Raises BadInput."""
        shown: Way = self.way_across.read()
        repeats = {**self._both, shown: self._corrected()}
        cloth_id = self.cloth.read()
        begun = {way: self._cloths[cloth_id].repeat_of(way) for way in repeats}
        there = {
            way: msgspec.structs.replace(repeat, origin=before.origin if (before := begun[way]) else 0.0)
            for way, repeat in repeats.items()
        }
        return Wanted(cloth_id, there, self.skew.read() if self._both else None)

    def _corrected(self) -> Repeat:
        """The repeat as the fields say. Raises BadInput."""
        self._offer_leads()
        rows = self.stripes.read()
        stripes = tuple(Stripe(name=name, at=at, width=wide, colour=colour) for name, at, wide, colour in rows)
        if not stripes:
            raise BadInput(tr("there is no stripe"), "stripes", tr("add one"))
        width, ground, lead = (field.read() for field in (self.width, self.ground, self.lead))
        return Repeat(width=width, ground=ground, stripes=stripes, lead=lead)
