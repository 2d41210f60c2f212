"""The measurements and choices of a gored skirt."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QLabel

from app.pages.entries import Choice, Length, Whole
from app.pages.form import Field, Form, Section
from app.pages.rows import Rows
from app.words import later, spoken, tr
from core.draft.measures import FEWEST_GORES, MOST_GORES, Allowances, SkirtMeasures
from core.draft.result import Draft
from core.draft.sharing import Widths, gore_widths
from core.draft.skirt import draft_skirt
from core.errors import BadInput
from core.model.cloth import Cloth

OWN = "own"
EACH = "each"
_NOW = SkirtMeasures(waist=680.0, hip=960.0, sweep=2400.0, length_front=720.0)
"""A usual skirt, to begin with."""

_MEASURES = (
    ("waist", later("Waist"), later("round the waist"), _NOW.waist),
    ("hip", later("Hip"), later("round the fullest part"), _NOW.hip),
    ("hip_depth", later("Hip depth"), later("from waist down to hip"), _NOW.hip_depth),
    ("length_front", later("Length in front"), later("from waist to hem"), _NOW.length_front),
    ("length_side", later("At the side"), later("if it is another"), None),
    ("length_back", later("Behind"), later("if it is another"), None),
    ("sweep", later("Sweep"), later("round the hem"), _NOW.sweep),
)
_ABOVE = (
    ("rise", later("Rise"), later("how far it stands above the waist"), 0.0),
    ("top", later("Round the top"), later("if it is not as wide as the waist"), None),
    ("let_out", later("Let out"), later("added to the waist behind the front gores"), 0.0),
)
_TURNINGS = (
    ("seam", later("Seams"), "", Allowances().seam),
    ("centre", later("Centre seams"), later("where a seam lies on a centre"), Allowances().centre),
    ("waist", later("Upper edge"), "", Allowances().waist),
    ("hem", later("Hem"), "", Allowances().hem),
)
_OPTIONAL = ("length_side", "length_back", "top")
_GRAIN = (
    (later("in the middle"), "middle"),
    (later("on the front edge"), "front edge"),
    (later("on the back edge"), "back edge"),
)
_LINES = ("waist", "hip", "hem")


class SkirtForm(Form):
    """Asks for all that a gored skirt is drafted from."""

    def __init__(self) -> None:
        super().__init__()
        self._rows_for: tuple[object, ...] | None = None
        self.lengths: dict[str, Field] = {}
        self.choices: dict[str, Field] = {}
        self._add_lengths(self.section(tr("Measurements")), _MEASURES)
        self._add_gores(self.section(tr("Gores")))
        self._add_lengths(self.section(tr("At and above the waist"), folds=True), _ABOVE)
        self._add_opening(self.section(tr("Opening"), folds=True))
        self.turnings: dict[str, Field] = {}
        self._add_turnings(self.section(tr("Seam and hem allowances"), folds=True))
        self.follow(*(field.entry for field in self.fields), self.gores)
        self._show_fitting()

    # --- making

    def _add_lengths(self, section: Section, rows: Sequence[tuple[str, str, str, float | None]]) -> None:
        for name, caption, hint, mm in rows:
            optional, caption, hint = name in _OPTIONAL, tr(caption), tr(hint)
            entry = Length(caption, mm, tr("as in front") if name.startswith("length") else "", needed=not optional)
            self.lengths[name] = section.add(Field(caption, entry, hint))

    def _choice(self, section: Section, name: str, caption: str, choices: Any, hint: str = "", tip: str = "") -> None:
        self.choices[name] = section.add(Field(caption, Choice(caption, choices), hint, tip))

    def _add_gores(self, section: Section) -> None:
        limits = (FEWEST_GORES, MOST_GORES)
        self.choices["gores"] = section.add(
            Field(tr("Number"), Whole(tr("Number of gores"), 8, limits), tr("all round"))
        )
        lies = ((tr("as fits the number"), None), (tr("a gore"), "gore"), (tr("a seam"), "seam"))
        self._choice(section, "front", tr("Centre front"), lies, tr("what lies there"))
        self._choice(section, "back", tr("Centre back"), lies, tr("what lies there"))
        cut = ((tr("cut once, whole"), "single"), (tr("cut on the fold"), "fold"))
        self._choice(section, "centre_gores", tr("Centre gores"), cut, tr("gores on a centre"))
        shares = ((tr("equally"), "equal"), (tr("as Bennett, 1914"), "bennett"), (tr("as Ingalls, c. 1911"), "ingalls"))
        shares += ((tr("as Baldt, 1916"), "baldt"), (tr("by my own widths"), OWN))
        self._choice(section, "sharing", tr("Width shared"), shares, tr("waist, hip and sweep among the gores"))
        flares = ((tr("from the hip"), "hip"), (tr("straight from the waist"), "waist"))
        self._choice(section, "straight_from", tr("Flare"), flares)
        laid = ((tr("as is usual"), None), (tr("along the curve"), "curve"), (tr("straight across"), "across"))
        self._choice(section, "hem_widths", tr("Hem widths laid"), laid, tr("of a flare from the hip"))
        self._choice(section, "grain", tr("Grain"), (*spoken(_GRAIN), (tr("gore by gore"), EACH)))
        self.gores = Rows(tr("Gores from front to back"), (), (2, 2, 2, 2, 3))
        section.add_wide(self.gores)
        on = (
            (tr("as is usual"), None),
            (tr("lead stripe"), "lead"),
            (tr("middle of the ground"), "ground"),
            (tr("what matches"), "free"),
        )
        self._choice(section, "centre_on", tr("On the centre"), on, tr("which stripe the centre front shows"))

    def _add_opening(self, section: Section) -> None:
        self.lengths["opening"] = section.add(
            Field(tr("Length"), Length(tr("Length of the opening"), 0.0), tr("0: a closed ring"))
        )
        self._choice(section, "opening_at", tr("In the seam"), ((tr("the usual one"), None),))

    def _add_turnings(self, section: Section) -> None:
        for name, text, hint, mm in _TURNINGS:
            caption = tr(text)
            entry = Length(tr("Allowance, {name}").format(name=caption), mm)
            self.turnings[name] = section.add(Field(caption, entry, tr(hint)))

    # --- reading

    def draft(self, cloth: Cloth) -> Draft:
        """The skirt as the fields say. What is wrong stands beside its field. Raises BadInput."""
        measures = self._measures(cloth)
        try:
            draft = draft_skirt(measures)
        except BadInput as error:
            self._point_out(error)
            raise
        self._offer_seams(measures)
        return draft

    def _measures(self, cloth: Cloth) -> SkirtMeasures:
        self._show_fitting()
        asked = {name: field for name, field in (self.lengths | self.choices).items() if field.shown}
        values = dict(zip(asked, self.read(asked.values()), strict=True))
        turnings = dict(zip(self.turnings, self.read(self.turnings.values()), strict=True))
        own, each = values["sharing"] == OWN, values["grain"] == EACH
        values |= {"sharing": "equal" if own else values["sharing"], "grain": "middle" if each else values["grain"]}
        measures = SkirtMeasures(allowances=Allowances(**turnings), cloth=cloth, **values)
        return self._with_rows(measures, own, each)

    def _with_rows(self, measures: SkirtMeasures, own: bool, each: bool) -> SkirtMeasures:
        """The measures with what the table of gores says, which is made to fit them first."""
        try:
            self._fit_rows(measures, own, each)
        except BadInput as error:
            self._point_out(error)
            raise
        if not self.gores.rows:
            return measures
        columns = list(zip(*self.gores.read(), strict=True))
        if own:
            given = dict(zip(("own_waist", "own_hip", "own_hem"), columns[1:4], strict=True))
            measures = replace(measures, **given)
        return replace(measures, grain=columns[-1]) if each else measures

    def _fit_rows(self, measures: SkirtMeasures, own: bool, each: bool) -> None:
        """Have a row for every piece where the gores are told one by one; what was typed stays while they are these."""
        wanted = (measures.copies, own, each) if own or each else None
        if wanted == self._rows_for:
            return
        widths, _ = gore_widths(replace(measures, sharing="equal"))
        self._rows_for = wanted
        copies = measures.copies if own or each else ()
        rows = [self._row(index, copies, widths[index], own, each) for index in range(len(copies))]
        self.gores.heads = ("", *(map(tr, _LINES) if own else ()), *((tr("grain"),) if each else ()))
        self.gores.show_rows(rows)

    def _row(self, index: int, copies: tuple[int, ...], widths: Widths, own: bool, each: bool) -> list[Any]:
        name = (
            tr("Front")
            if index == 0
            else tr("Back")
            if index == len(copies) - 1
            else tr("Side {index}").format(index=index)
        )
        row: list[Any] = [QLabel(name if copies[index] == 1 else tr("{name}, twice").format(name=name))]
        if own:
            row += [self._width(name, line, getattr(widths, line)) for line in _LINES]
        if each:
            row.append(
                Choice(tr("{name}, grain").format(name=name), spoken(_GRAIN if copies[index] == 2 else _GRAIN[:1]))
            )
        return row

    def _width(self, name: str, line: str, mm: float) -> Length:
        entry = Length(tr("{name}, {line} width", name=name, line=tr(line)), round(mm, 1))
        entry.show_unit(self.unit)
        return entry

    def _show_fitting(self) -> None:
        """Leave out the fields that have no say as things stand."""
        choices = self.choices
        from_hip = choices["straight_from"].entry.read() == "hip"
        choices["hem_widths"].set_shown(from_hip)
        odd = choices["gores"].entry.read() % 2 == 1
        seams_only = not odd and choices["sharing"].entry.read() != "baldt"
        asked = "gore" in (choices["front"].entry.read(), choices["back"].entry.read())
        choices["centre_gores"].set_shown(asked or not seams_only)
        self.lengths["top"].set_shown(self.lengths["rise"].entry.text().strip() not in ("", "0"))

    def _offer_seams(self, measures: SkirtMeasures) -> None:
        """Offer the seams of the closed ring for the opening."""
        draft = draft_skirt(replace(measures, opening=0.0, opening_at=None))
        labels = [sewn.label for sewn in draft.project.sewn]
        entry = self.choices["opening_at"].entry
        offered = [(tr("the usual one"), None), *((label, label) for label in labels)]
        if [entry.itemText(index) for index in range(entry.count())] != [text for text, _ in offered]:
            entry.offer(offered)

    def _point_out(self, error: BadInput) -> None:
        place = error.place
        field = self.lengths.get(place.replace(" ", "_")) or self.choices.get(place.replace(" ", "_"))
        if place.startswith("allowance, "):
            field = self.turnings.get(place.removeprefix("allowance, "))
        elif place.startswith("own widths") or (place == "widths" and self.gores.rows):
            self.gores.complain(error)
            return
        elif place == "lengths":
            field = self.lengths["length_side"]
        elif place.startswith("sharing") or place == "widths":
            field = self.choices["sharing"]
        if field is not None:
            self.complain(field, error)
