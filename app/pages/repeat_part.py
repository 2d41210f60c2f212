"""The part of a form that asks for one repeat: that of the stripes along a cloth, or of the bars across it."""

import math
from typing import Any

import msgspec

from app.pages.count_rows import CountRows
from app.pages.entries import Choice, Colour, Length, Words
from app.pages.form import Field, Section
from app.pages.lengths import MM, LengthUnit
from app.pages.rows import Rows
from app.words import tr
from core.errors import BadInput
from core.model.cloth import Repeat, Stripe, Way

TYPED, MEASURED = "typed", "measured"
_NEW_COLOURS = ("#2f4a6b", "#8a2f1d", "#2e5e52", "#b98b2f", "#4a4237")


class RepeatPart:
    """Fields of one repeat in a section; `fields` and the two tables together hold all of it."""

    def __init__(self, section: Section, way: Way) -> None:
        self.way, self.unit, self.shown = way, MM, True
        self._before: Repeat | None = None
        bars = way == "crosswise"
        hows = ((tr("typed"), TYPED), (tr("measured over several"), MEASURED))
        self.how = section.add(Field(tr("Repeat is"), Choice(tr("How the repeat is given"), hows)))
        self.width = section.add(Field(tr("Repeat"), Length(tr("Repeat"), 24.0), tr("until all begins again")))
        self.counts = CountRows(tr("Counts of bars") if bars else tr("Counts of repeats"))
        section.add_wide(self.counts)
        told = tr("repeat, from the cut end") if bars else tr("repeat, from the left edge")
        self.origin = section.add(Field(tr("First one at"), Length(tr("Beginning of the first repeat"), 0.0), told))
        told = tr("seen only where there are no stripes") if bars else tr("between the stripes")
        self.ground = section.add(Field(tr("Ground"), Colour(tr("Colour of the ground"), "#efe7d6"), told))
        heads = (tr("bar") if bars else tr("stripe"), tr("middle at"), tr("width"), tr("colour"))
        name, add = (
            (tr("Bars of one repeat"), tr("Add a bar")) if bars else (tr("Stripes of one repeat"), tr("Add a stripe"))
        )
        self.stripes = Rows(name, heads, (4, 3, 3, 4), add, self._new_stripe)
        section.add_wide(self.stripes)
        lead = tr("Lead bar") if bars else tr("Lead stripe")
        self.lead = section.add(Field(lead, Choice(lead, ()), tr("the one that the eye follows")))
        self.how.entry.edited.connect(self._begin_count)

    @property
    def entries(self) -> tuple[Any, ...]:
        """All that says `edited`."""
        return (*(field.entry for field in self.fields), self.stripes, self.counts)

    @property
    def fields(self) -> tuple[Field, ...]:
        """Its fields, in order."""
        return self.how, self.width, self.origin, self.ground, self.lead

    def _new_stripe(self, number: int) -> list[Any]:
        names = {entries[0].read() for entries in self.stripes.rows}
        word = tr("bar") if self.way == "crosswise" else tr("stripe")
        name = next(name for count in range(1, 1000) if (name := f"{word} {count}") not in names)
        colour = _NEW_COLOURS[number % len(_NEW_COLOURS)]
        return self._row(Stripe(name=name, at=0.0, width=2.0, colour=colour))

    def _row(self, stripe: Stripe) -> list[Any]:
        middle = Length(tr("Middle of {name}").format(name=stripe.name), stripe.at)
        width = Length(tr("Width of {name}").format(name=stripe.name), stripe.width)
        for entry in (middle, width):
            entry.show_unit(self.unit)
        colour = Colour(tr("Colour of {name}").format(name=stripe.name), stripe.colour)
        return [Words(tr("Name of the stripe"), stripe.name), middle, width, colour]

    def _begin_count(self) -> None:
        if self.how.entry.read() == MEASURED and not self.counts.rows.rows:
            try:
                self.counts.show_width(self.width.entry.read())
            except BadInput:
                self.counts.show_width(24.0)

    def show_unit(self, unit: LengthUnit) -> None:
        """Count new rows in another unit."""
        self.unit = unit
        self.counts.show_unit(unit)

    def show_repeat(self, repeat: Repeat | None, usual: Repeat) -> None:
        """Show a repeat; the usual one to begin with where there is none."""
        self._before = repeat
        shown = repeat or usual
        self.counts.rows.show_rows([])
        self.how.entry.show_value(TYPED)
        self.width.entry.show_value(shown.width)
        self.origin.entry.show_value(shown.origin % shown.width)
        self.ground.entry.show_value(shown.ground)
        self.stripes.show_rows([self._row(stripe) for stripe in shown.stripes])
        self._offer_leads()
        self.lead.entry.show_value(shown.lead_stripe.name)

    def _offer_leads(self) -> None:
        names = dict.fromkeys(row[0].read() for row in self.stripes.rows)
        self.lead.entry.offer([(name, name) for name in names if name])

    def show_fitting(self, shown: bool, over_stripes: bool = False) -> None:
        """Leave out what has no say: all of it, or the ground of bars that lie over stripes."""
        self.shown = shown
        measured = self.how.entry.read() == MEASURED
        for field in (self.how, self.origin, self.lead):
            field.set_shown(shown)
        self.ground.set_shown(shown and not over_stripes)
        self.width.set_shown(shown and not measured)
        self.counts.setVisible(shown and measured)
        self.stripes.setVisible(shown)

    def read(self, values: dict[Field, Any]) -> Repeat | None:
        """The repeat of the values of its fields, told as before where it means the same. Raises BadInput."""
        if not self.shown:
            return None
        self._offer_leads()
        measured = values[self.how] == MEASURED
        width = self.counts.read().width_mm if measured else values[self.width]
        rows = self.stripes.read()
        if not rows:
            error = BadInput(tr("there is no stripe"), tr("stripes"), tr("add one, or choose a plain cloth"))
            self.stripes.complain(error)
            raise error
        stripes = tuple(Stripe(name=n, at=at, width=wide, colour=colour) for n, at, wide, colour in rows)
        ground = values.get(self.ground) or self.ground.entry.read()
        repeat = Repeat(width=width, stripes=stripes, ground=ground, origin=values[self.origin])
        return self._as_before(repeat, self.lead.entry.read())

    def _as_before(self, repeat: Repeat, lead: str) -> Repeat:
        before = self._before or repeat
        same = repeat.width > 0 and abs(math.remainder(repeat.origin - before.origin, repeat.width)) < 1e-9
        origin = before.origin if same else repeat.origin
        known = before.lead if lead == before.lead_stripe.name else None
        named = known or (lead if lead != repeat.stripes[0].name else None)
        return msgspec.structs.replace(repeat, origin=origin, lead=named)
