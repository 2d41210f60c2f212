"""All that is known of a cloth: its width and length, what it allows, its stripes and bars, its flaws and faults."""

import math
import re
from collections.abc import Iterator
from typing import Any

import msgspec
from PySide6.QtCore import Signal

from app.pages.by_ruler import ByRuler, Change
from app.pages.entries import Choice, Length, Number, SignedLength, Tick, Words
from app.pages.form import Field, Form, Section
from app.pages.lengths import LengthUnit
from app.pages.outlines_part import OutlinesPart
from app.pages.repeat_part import RepeatPart
from app.pages.rows import Rows
from app.pages.straightness import Straightness
from app.words import tr
from core.draft.measures import USUAL_REPEAT
from core.errors import BadInput
from core.model.cloth import Cloth, Point, Repeat, Stripe, Way, is_box
from core.model.validate_cloth import check_cloth

PLAIN, STRIPED, BARRED, BOTH = "plain", "striped", "barred", "both"
_WAYS: dict[str, tuple[Way, ...]] = {
    PLAIN: (),
    STRIPED: ("lengthwise",),
    BARRED: ("crosswise",),
    BOTH: ("lengthwise", "crosswise"),
}
_USUAL_BARS = Repeat(
    width=24.0, ground=USUAL_REPEAT.ground, stripes=(Stripe(name="bar", at=12.0, width=10.0, colour="#2f4a6b"),)
)


class ClothForm(Form):
    """Asks for a cloth. `longest_mm` is the length of the longest panel that is cut from it, where one is known."""

    remake_wanted = Signal(object)
    """A function that makes another cloth of the one shown, with the way to all of its measures."""

    def __init__(self) -> None:
        super().__init__()
        self._base = Cloth(id="main", width=1400.0)
        self.longest_mm: float | None = None
        self._add_cloth(self.section(tr("Cloth")))
        self._add_pattern()
        self.ruler = ByRuler(self.section(tr("Width and shrinkage by ruler"), folds=True), self._remake)
        self.straight = Straightness(self.section(tr("Straightness"), folds=True))
        self.skew, self.weft, self.bow = self.straight.skew, self.straight.weft, self.straight.bow
        self.flaw_section = self.section(tr("Flaws, remnant, room between panels"), folds=True)
        self._add_flaws(self.flaw_section)
        self._add_buying(self.section(tr("To buy"), folds=True))
        parts = (*self.bars.entries, *self.stripes_along.entries, self.flaws, self.outlines)
        entries = [field.entry for field in self.fields]
        self.follow(*dict.fromkeys([*entries, *parts]))

    # --- making

    def _add_cloth(self, section: Section) -> None:
        self.name = section.add(Field(tr("Name"), Words(tr("Name of the cloth"))))
        self.wide = section.add(Field(tr("Width"), Length(tr("Width")), tr("selvedges included")))
        told = tr("not to be cut into")
        self.left_selvedge = section.add(Field(tr("Left selvedge"), Length(tr("Left selvedge")), told))
        self.right_selvedge = section.add(Field(tr("Right selvedge"), Length(tr("Right selvedge")), told))
        there = ((tr("as much as it takes"), False), (tr("all there is"), True))
        self.limited = section.add(Field(tr("Length"), Choice(tr("How long it is"), there)))
        length = Length(tr("Length of the cloth"))
        self.length = section.add(Field(tr("There are"), length, tr("from cut end to cut end")))
        told = tr("Nap or pattern has a direction: no panel may lie end for end")
        one_way = Tick(tr("one-way"))
        self.one_way = section.add(Field(tr("Direction"), one_way, tr("no panel lies end for end"), told))
        degrees = Number(tr("Grain tolerance, degrees"), 0.25, (0, 45), "°")
        told = tr("How far a panel may turn off the grain")
        self.tolerance = section.add(Field(tr("Grain tolerance, °"), degrees, tip=told))

    def _add_pattern(self) -> None:
        section = self.section(tr("Stripes"))
        kinds = (
            (tr("none: a plain cloth"), PLAIN),
            (tr("stripes along it"), STRIPED),
            (tr("bars across it"), BARRED),
            (tr("both: check or plaid"), BOTH),
        )
        self.kind = section.add(Field(tr("Pattern"), Choice(tr("Pattern"), kinds)))
        self.stripes_along = RepeatPart(section, "lengthwise")
        self.bar_section = self.section(tr("Bars"))
        self.bars = RepeatPart(self.bar_section, "crosswise")

    def _add_flaws(self, section: Section) -> None:
        self._flaw_heads = (tr("left"), tr("right"), tr("from"), tr("to"))
        self.flaws = Rows(tr("Flaws"), self._flaw_heads, (1, 1, 1, 1), tr("Add a flaw: a rectangle"), self._new_flaw)
        section.add_wide(self.flaws)
        self.outlines = OutlinesPart(section, self)
        room = Length(tr("Room between panels"), 0.0)
        self.spare = section.add(Field(tr("Room between"), room, tr("kept free between any two panels")))
        words = tr(
            "Each is a rectangle to keep clear of: left and right from the left edge, from and to from the cut end."
        )
        self.flaws.setToolTip(words)

    def _add_buying(self, section: Section) -> None:
        shrinks = Number(tr("Shrinkage, percent"), 0.0, (0, 50), " %")
        self.shrinkage = section.add(Field(tr("Shrinkage, %"), shrinks, tr("lost in length when first wetted")))
        eases = Number(tr("Easing, percent"), None, (0, 20), " %", tr("2, as is usual"), needed=False)
        told = tr("an edge can be eased onto another by at most this")
        self.easing = section.add(Field(tr("Easing, %"), eases, told))
        price = Number(tr("Price per metre"), None, (0, 1e6), "", tr("unknown"), needed=False)
        self.price = section.add(Field(tr("Price per m"), price, tr("in whatever money")))

    def _new_flaw(self, number: int) -> list[Any]:
        return self._flaw_row((100.0, 0.0, 150.0, 50.0))

    def _flaw_row(self, flaw: tuple[float, float, float, float]) -> list[Any]:
        u0, v0, u1, v1 = flaw
        sides = zip(self._flaw_heads, (u0, u1, v0, v1), strict=True)
        entries = [SignedLength(tr("Flaw, {side}").format(side=head), mm) for head, mm in sides]
        for entry in entries:
            entry.show_unit(self.unit)
        return entries

    # --- showing

    def show_cloth(self, cloth: Cloth) -> None:
        """Show a cloth."""
        blocked = self.blockSignals(True)
        self._base = cloth
        for field, value in self._own_values(cloth).items():
            field.entry.show_value(value)
        self.stripes_along.show_repeat(cloth.repeat, USUAL_REPEAT)
        self.bars.show_repeat(cloth.crosswise, _USUAL_BARS)
        self.flaws.show_rows([self._flaw_row(flaw) for flaw in cloth.flaw_boxes])
        for part in (self.outlines, self.straight, self.ruler):
            part.show_cloth(cloth, self.unit)
        self.blockSignals(blocked)
        self._show_fitting()

    def show_unit(self, unit: LengthUnit) -> None:
        """Count lengths in another unit."""
        super().show_unit(unit)
        for part in (self.stripes_along, self.bars):
            part.show_unit(unit)
        self.outlines.unit = self.ruler.unit = unit

    def _own_values(self, cloth: Cloth) -> dict[Field, Any]:
        return {
            self.name: cloth.title,
            self.wide: cloth.width,
            self.left_selvedge: cloth.selvedge[0],
            self.right_selvedge: cloth.selvedge[1],
            self.limited: cloth.length is not None,
            self.length: 3000.0 if cloth.length is None else cloth.length,
            self.one_way: cloth.one_way,
            self.tolerance: cloth.grain_tolerance_deg,
            self.kind: next(kind for kind, ways in _WAYS.items() if ways == cloth.ways),
            self.spare: cloth.spare_mm,
            self.shrinkage: cloth.shrinkage_percent,
            self.easing: cloth.ease_percent,
            self.price: cloth.price_per_m,
        }

    def _show_fitting(self) -> None:
        """Leave out the fields that have no say as things stand."""
        ways = _WAYS[self.kind.entry.read()]
        self.length.set_shown(self.limited.entry.read())
        self.stripes_along.show_fitting("lengthwise" in ways)
        self.bars.show_fitting("crosswise" in ways, over_stripes="lengthwise" in ways)
        self.bar_section.setVisible("crosswise" in ways)

    # --- reading

    def cloth(self) -> Cloth:
        """The cloth as the fields say. What is wrong stands beside its field. Raises BadInput."""
        self._show_fitting()
        shown = [field for field in self.fields if field.shown]
        values = dict(zip(shown, self.read(shown), strict=True))
        self._tell_tolerance(values)
        cloth = self._checked(msgspec.structs.replace(self._base, **self._changes(values)))
        self.outlines.show_size(cloth)
        self.straight.tell(cloth)
        return cloth

    def _changes(self, values: dict[Field, Any]) -> dict[str, Any]:
        named = values[self.name] != self._base.title
        outlines, remnant = self.outlines.read()
        return {
            "name": values[self.name] if named else self._base.name,
            "width": values[self.wide],
            "selvedge": (values[self.left_selvedge], values[self.right_selvedge]),
            "length": values.get(self.length),
            "one_way": values[self.one_way],
            "grain_tolerance_deg": values[self.tolerance],
            "skew_mm_per_m": values[self.skew],
            "weft_skew_percent": values[self.weft],
            "bow_percent": values[self.bow],
            "flaws": tuple(self._flaws(outlines)),
            "remnant": remnant,
            "spare_mm": values[self.spare],
            "repeat": self.stripes_along.read(values),
            "crosswise": self.bars.read(values),
            "shrinkage_percent": values[self.shrinkage],
            "ease_percent": values[self.easing],
            "price_per_m": values[self.price],
        }

    def _flaws(self, outlines: tuple[tuple[Point, ...], ...]) -> Iterator[tuple[float | Point, ...]]:
        """The rectangles typed, and the flaws that are given by other outlines, in the order they had."""
        boxes = iter([(u0, v0, u1, v1) for u0, u1, v0, v1 in self.flaws.read()])
        others = iter(outlines)
        for flaw in self._base.flaws:
            here = next(boxes if is_box(flaw) else others, None)
            if here is not None:
                yield here
        yield from boxes
        yield from others

    def _checked(self, cloth: Cloth) -> Cloth:
        try:
            check_cloth(cloth)
        except BadInput as error:
            self._point_out(error, cloth)
            raise BadInput(error.what, error.place.partition(", ")[2] or tr("cloth"), error.right) from None
        return cloth

    def _point_out(self, error: BadInput, cloth: Cloth) -> None:
        part = self.bars if "crosswise" in error.place else self.stripes_along
        in_mm = BadInput(error.what, error.place, tr("{right} (in mm)").format(right=error.right))
        if ", stripe" in error.place:
            part.stripes.complain(BadInput(error.what, "stripe" + error.place.rpartition(", stripe")[2], error.right))
        elif found := re.search(r"flaw (\d+)", error.what):
            self._point_out_flaw(in_mm, cloth.flaws[int(found[1]) - 1])
        elif error.place.endswith("remnant"):
            self.flaw_section.unfold()
            self.outlines.corners.complain(in_mm)
        elif error.place.endswith(("repeat", "crosswise")):
            self.complain(part.width if part.width.shown else part.how, in_mm)
        else:
            named = {"selvedge": self.left_selvedge, "length": self.length, "spare_mm": self.spare}
            found = (field for word, field in named.items() if word in error.what)
            self.complain(next(found, self.wide), in_mm)

    def _point_out_flaw(self, error: BadInput, flaw: tuple[float | Point, ...]) -> None:
        """Say it below the rectangles or below the outlines, whichever the flaw is one of."""
        self.flaw_section.unfold()
        if is_box(flaw):
            self.flaws.complain(BadInput(error.what, "", tr("right lies beyond left, to beyond from")))
        else:
            self.outlines.corners.complain(error)

    def _tell_tolerance(self, values: dict[Field, Any]) -> None:
        """Say beside the tolerance what it comes to."""
        mm = (self.longest_mm or 1000.0) * math.tan(math.radians(values[self.tolerance]))
        over = tr("{mm} over a metre")
        if self.longest_mm:
            over = tr("{mm} over the longest panel, {longest}")
        longest = self.unit.told(self.longest_mm or 0.0)
        self.tolerance.say(over.format(mm=self.unit.told(mm), longest=longest))

    def _remake(self, change: Change) -> None:
        self.remake_wanted.emit(change)
