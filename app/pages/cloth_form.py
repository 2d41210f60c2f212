"""All that is known of a cloth: its width and length, what it allows, its stripes, its flaws."""

import math
from typing import Any

import msgspec

from app.pages.entries import Choice, Colour, Length, Number, Tick, Whole, Words
from app.pages.form import Field, Form, Section
from app.pages.rows import Rows
from core.draft.measures import USUAL_REPEAT
from core.errors import BadInput
from core.model.cloth import Cloth, Point, Repeat, Stripe, is_box
from core.model.validate import check_cloth

PLAIN, STRIPED = "plain", "striped"
TYPED, MEASURED = "typed", "measured"
_NEW_COLOURS = ("#2f4a6b", "#8a2f1d", "#2e5e52", "#b98b2f", "#4a4237")
_FLAW_HEADS = ("left", "right", "from", "to")


class ClothForm(Form):
    """Asks for a cloth. `longest_mm` is the length of the longest panel that is cut from it, where one is known."""

    def __init__(self) -> None:
        super().__init__()
        self._base = Cloth(id="main", width=1400.0)
        self.longest_mm: float | None = None
        self._add_cloth(self.section("Cloth"))
        self._add_stripes(self.section("Stripes"))
        self._add_flaws(self.section("Flaws and room between panels", folds=True))
        self._add_buying(self.section("To buy", folds=True))
        self.follow(*(field.entry for field in self.fields), self.stripes, self.flaws)

    # --- making

    def _add_cloth(self, section: Section) -> None:
        self.name = section.add(Field("Name", Words("Name of the cloth")))
        self.wide = section.add(Field("Width", Length("Width"), "selvedges included"))
        self.left_selvedge = section.add(Field("Left selvedge", Length("Left selvedge"), "not to be cut into"))
        self.right_selvedge = section.add(Field("Right selvedge", Length("Right selvedge"), "not to be cut into"))
        there = (("as much as it takes", False), ("all there is", True))
        self.limited = section.add(Field("Length", Choice("How long it is", there)))
        self.length = section.add(Field("There are", Length("Length of the cloth"), "from cut end to cut end"))
        told = "Nap or pattern has a direction: no panel may lie end for end"
        self.one_way = section.add(Field("Direction", Tick("one-way"), "no panel lies end for end", told))
        degrees = Number("Grain tolerance, degrees", 0.25, (0, 45), "°")
        self.tolerance = section.add(Field("Grain tolerance, °", degrees, tip="How far a panel may turn off the grain"))
        skew = Number("Skew, mm per m", 0.0, (-300, 300), " mm per m")
        told = "stripes drift right, down a metre"
        self.skew = section.add(Field("Skew, mm per m", skew, told))

    def _add_stripes(self, section: Section) -> None:
        kinds = (("none: a plain cloth", PLAIN), ("stripes along it", STRIPED))
        self.kind = section.add(Field("Pattern", Choice("Pattern", kinds)))
        hows = (("typed", TYPED), ("measured over several", MEASURED))
        self.how = section.add(Field("Repeat is", Choice("How the repeat is given", hows)))
        self.repeat = section.add(Field("Repeat", Length("Repeat", 24.0), "until all begins again"))
        count = Whole("Number of repeats measured", 10, (2, 1000))
        self.count = section.add(Field("Repeats", count, "counted side by side"))
        self.over = section.add(Field("They take", Length("What the repeats take together", 240.0)))
        told = "repeat, from the left edge"
        self.origin = section.add(Field("First one at", Length("Beginning of the first repeat", 0.0), told))
        self.ground = section.add(Field("Ground", Colour("Colour of the ground", "#efe7d6"), "between the stripes"))
        heads = ("stripe", "middle at", "width", "colour")
        self.stripes = Rows("Stripes of one repeat", heads, (4, 3, 3, 4), "Add a stripe", self._new_stripe)
        section.add_wide(self.stripes)
        self.lead = section.add(Field("Lead stripe", Choice("Lead stripe", ()), "the one that the eye follows"))

    def _add_flaws(self, section: Section) -> None:
        make = self._new_flaw
        self.flaws = Rows("Flaws", _FLAW_HEADS, (1, 1, 1, 1), "Add a flaw", make)
        section.add_wide(self.flaws)
        room = Length("Room between panels", 0.0)
        self.spare = section.add(Field("Room between", room, "kept free between any two panels"))
        words = "Each is a rectangle to keep clear of: left and right from the left edge, from and to from the cut end."
        self.flaws.setToolTip(words)

    def _add_buying(self, section: Section) -> None:
        shrinks = Number("Shrinkage, percent", 0.0, (0, 50), " %")
        self.shrinkage = section.add(Field("Shrinkage, %", shrinks, "lost in length when first wetted"))
        eases = Number("Easing, percent", None, (0, 20), " %", "2, as is usual", needed=False)
        self.easing = section.add(Field("Easing, %", eases, "an edge can be eased onto another by at most this"))
        price = Number("Price per metre", None, (0, 1e6), "", "unknown", needed=False)
        self.price = section.add(Field("Price per m", price, "in whatever money"))

    def _new_stripe(self, number: int) -> list[Any]:
        names = {entries[0].read() for entries in self.stripes.rows}
        name = next(name for count in range(1, 1000) if (name := f"stripe {count}") not in names)
        colour = _NEW_COLOURS[number % len(_NEW_COLOURS)]
        return self._stripe_row(Stripe(name=name, at=0.0, width=2.0, colour=colour))

    def _stripe_row(self, stripe: Stripe) -> list[Any]:
        lengths = Length(f"Middle of {stripe.name}", stripe.at), Length(f"Width of {stripe.name}", stripe.width)
        for entry in lengths:
            entry.show_unit(self.unit)
        return [Words("Name of the stripe", stripe.name), *lengths, Colour(f"Colour of {stripe.name}", stripe.colour)]

    def _new_flaw(self, number: int) -> list[Any]:
        return self._flaw_row((100.0, 0.0, 150.0, 50.0))

    def _flaw_row(self, flaw: tuple[float, float, float, float]) -> list[Any]:
        u0, v0, u1, v1 = flaw
        entries = [Length(f"Flaw, {head}", mm) for head, mm in zip(_FLAW_HEADS, (u0, u1, v0, v1), strict=True)]
        for entry in entries:
            entry.show_unit(self.unit)
        return entries

    # --- showing

    def show_cloth(self, cloth: Cloth) -> None:
        """Show a cloth."""
        blocked = self.blockSignals(True)
        self._base = cloth
        repeat = cloth.repeat or USUAL_REPEAT
        for field, value in (self._own_values(cloth) | self._stripe_values(cloth, repeat)).items():
            field.entry.show_value(value)
        self.stripes.show_rows([self._stripe_row(stripe) for stripe in repeat.stripes])
        self.flaws.show_rows([self._flaw_row(flaw) for flaw in cloth.flaw_boxes])
        self._offer_leads()
        self.lead.entry.show_value(repeat.lead_stripe.name)
        self.blockSignals(blocked)
        self._show_fitting()

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
            self.skew: cloth.skew_mm_per_m,
            self.spare: cloth.spare_mm,
            self.shrinkage: cloth.shrinkage_percent,
            self.easing: cloth.ease_percent,
            self.price: cloth.price_per_m,
        }

    def _stripe_values(self, cloth: Cloth, repeat: Repeat) -> dict[Field, Any]:
        return {
            self.kind: STRIPED if cloth.repeat else PLAIN,
            self.how: TYPED,
            self.repeat: repeat.width,
            self.over: repeat.width * self.count.entry.read(),
            self.origin: repeat.origin % repeat.width,
            self.ground: repeat.ground,
        }

    def _offer_leads(self) -> None:
        names = dict.fromkeys(row[0].read() for row in self.stripes.rows)
        self.lead.entry.offer([(name, name) for name in names if name])

    def _show_fitting(self) -> None:
        """Leave out the fields that have no say as things stand."""
        striped, measured = self.kind.entry.read() == STRIPED, self.how.entry.read() == MEASURED
        self.length.set_shown(self.limited.entry.read())
        for field in (self.how, self.origin, self.ground, self.lead):
            field.set_shown(striped)
        self.stripes.setVisible(striped)
        self.repeat.set_shown(striped and not measured)
        self.count.set_shown(striped and measured)
        self.over.set_shown(striped and measured)

    # --- reading

    def cloth(self) -> Cloth:
        """The cloth as the fields say. What is wrong stands beside its field. Raises BadInput."""
        self._show_fitting()
        self._offer_leads()
        shown = [field for field in self.fields if field.shown]
        values = dict(zip(shown, self.read(shown), strict=True))
        self._tell_meanings(values)
        named = values[self.name] != self._base.title
        changes: dict[str, Any] = {
            "name": values[self.name] if named else self._base.name,
            "width": values[self.wide],
            "selvedge": (values[self.left_selvedge], values[self.right_selvedge]),
            "length": values.get(self.length),
            "one_way": values[self.one_way],
            "grain_tolerance_deg": values[self.tolerance],
            "skew_mm_per_m": values[self.skew],
            "flaws": self._flaws(),
            "spare_mm": values[self.spare],
            "repeat": self._repeat(values) if values[self.kind] == STRIPED else None,
            "shrinkage_percent": values[self.shrinkage],
            "ease_percent": values[self.easing],
            "price_per_m": values[self.price],
        }
        return self._checked(msgspec.structs.replace(self._base, **changes))

    def _flaws(self) -> tuple[tuple[float | Point, ...], ...]:
        """The rectangles typed, and the flaws that are given by other outlines, in the order they had."""
        typed = iter([(u0, v0, u1, v1) for u0, u1, v0, v1 in self.flaws.read()])
        kept = [next(typed, None) if is_box(flaw) else flaw for flaw in self._base.flaws]
        return (*(flaw for flaw in kept if flaw is not None), *typed)

    def _repeat(self, values: dict[Field, Any]) -> Repeat:
        width = values[self.over] / values[self.count] if self.over in values else values[self.repeat]
        rows = self.stripes.read()
        if not rows:
            error = BadInput("there is no stripe", "stripes", "add one, or choose a plain cloth")
            self.stripes.complain(error)
            raise error
        stripes = tuple(Stripe(name=n, at=at, width=wide, colour=colour) for n, at, wide, colour in rows)
        repeat = Repeat(width=width, stripes=stripes, ground=values[self.ground], origin=values[self.origin])
        return self._as_before(repeat, values[self.lead])

    def _as_before(self, repeat: Repeat, lead: str) -> Repeat:
        """The repeat with its lead, told as in the cloth that was shown where it means the same."""
        before = self._base.repeat or repeat
        same = repeat.width > 0 and abs(math.remainder(repeat.origin - before.origin, repeat.width)) < 1e-9
        origin = before.origin if same else repeat.origin
        known = before.lead if lead == before.lead_stripe.name else None
        named = known or (lead if lead != repeat.stripes[0].name else None)
        return msgspec.structs.replace(repeat, origin=origin, lead=named)

    def _checked(self, cloth: Cloth) -> Cloth:
        try:
            check_cloth(cloth)
        except BadInput as error:
            self._point_out(error)
            raise BadInput(error.what, error.place.partition(", ")[2] or "cloth", error.right) from None
        return cloth

    def _point_out(self, error: BadInput) -> None:
        error = BadInput(error.what, error.place, f"{error.right} (in mm)")
        if "stripe" in error.place:
            self.stripes.complain(BadInput(error.what, error.place.partition("repeat, ")[2], error.right))
        elif error.what.startswith("flaw"):
            self.flaws.complain(BadInput(error.what, "", "right lies beyond left, to beyond from"))
        elif error.place.endswith("repeat"):
            self.complain(self.over if self.over.shown else self.repeat, error)
        else:
            named = {"selvedge": self.left_selvedge, "length": self.length, "spare_mm": self.spare}
            found = (field for word, field in named.items() if word in error.what)
            self.complain(next(found, self.wide), error)

    def _tell_meanings(self, values: dict[Field, Any]) -> None:
        """Say beside tolerance and repeats what their numbers come to."""
        mm = (self.longest_mm or 1000.0) * math.tan(math.radians(values[self.tolerance]))
        over = f"over the longest panel, {self.unit.told(self.longest_mm)}" if self.longest_mm else "over a metre"
        self.tolerance.say(f"{self.unit.told(mm)} {over}")
        if self.over in values:
            self.over.say(f"one repeat is {self.unit.text(values[self.over] / values[self.count])} {self.unit.name}")
