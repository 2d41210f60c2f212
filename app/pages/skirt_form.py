"""The measurements and choices of a gored skirt."""

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from PySide6.QtWidgets import QLabel

from app.pages.entries import Choice, Length, Whole
from app.pages.form import Field, Form, Section
from app.pages.rows import Rows
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
    ("waist", "Waist", "round the waist", _NOW.waist),
    ("hip", "Hip", "round the fullest part", _NOW.hip),
    ("hip_depth", "Hip depth", "from waist down to hip", _NOW.hip_depth),
    ("length_front", "Length in front", "from waist to hem", _NOW.length_front),
    ("length_side", "At the side", "if it is another", None),
    ("length_back", "Behind", "if it is another", None),
    ("sweep", "Sweep", "round the hem", _NOW.sweep),
)
_ABOVE = (
    ("rise", "Rise", "how far it stands above the waist", 0.0),
    ("top", "Round the top", "if it is not as wide as the waist", None),
    ("let_out", "Let out", "added to the waist behind the front gores", 0.0),
)
_TURNINGS = (
    ("seam", "Seams", "", Allowances().seam),
    ("centre", "Centre seams", "where a seam lies on a centre", Allowances().centre),
    ("waist", "Upper edge", "", Allowances().waist),
    ("hem", "Hem", "", Allowances().hem),
)
_OPTIONAL = ("length_side", "length_back", "top")
_GRAIN = (("in the middle", "middle"), ("on the front edge", "front edge"), ("on the back edge", "back edge"))
_LINES = ("waist", "hip", "hem")


class SkirtForm(Form):
    """Asks for all that a gored skirt is drafted from."""

    def __init__(self) -> None:
        super().__init__()
        self._rows_for: tuple[object, ...] | None = None
        self.lengths: dict[str, Field] = {}
        self.choices: dict[str, Field] = {}
        self._add_lengths(self.section("Measurements"), _MEASURES)
        self._add_gores(self.section("Gores"))
        self._add_lengths(self.section("At and above the waist", folds=True), _ABOVE)
        self._add_opening(self.section("Opening", folds=True))
        self.turnings: dict[str, Field] = {}
        self._add_turnings(self.section("Seam and hem allowances", folds=True))
        self.follow(*(field.entry for field in self.fields), self.gores)
        self._show_fitting()

    # --- making

    def _add_lengths(self, section: Section, rows: Sequence[tuple[str, str, str, float | None]]) -> None:
        for name, caption, hint, mm in rows:
            optional = name in _OPTIONAL
            entry = Length(caption, mm, "as in front" if name.startswith("length") else "", needed=not optional)
            self.lengths[name] = section.add(Field(caption, entry, hint))

    def _choice(self, section: Section, name: str, caption: str, choices: Any, hint: str = "", tip: str = "") -> None:
        self.choices[name] = section.add(Field(caption, Choice(caption, choices), hint, tip))

    def _add_gores(self, section: Section) -> None:
        limits = (FEWEST_GORES, MOST_GORES)
        self.choices["gores"] = section.add(Field("Number", Whole("Number of gores", 8, limits), "all round"))
        lies = (("as fits the number", None), ("a gore", "gore"), ("a seam", "seam"))
        self._choice(section, "front", "Centre front", lies, "what lies there")
        self._choice(section, "back", "Centre back", lies, "what lies there")
        cut = (("cut once, whole", "single"), ("cut on the fold", "fold"))
        self._choice(section, "centre_gores", "Centre gores", cut, "gores on a centre")
        shares = (("equally", "equal"), ("as Bennett, 1914", "bennett"), ("as Ingalls, c. 1911", "ingalls"))
        shares += (("as Baldt, 1916", "baldt"), ("by my own widths", OWN))
        self._choice(section, "sharing", "Width shared", shares, "waist, hip and sweep among the gores")
        flares = (("from the hip", "hip"), ("straight from the waist", "waist"))
        self._choice(section, "straight_from", "Flare", flares)
        laid = (("as is usual", None), ("along the curve", "curve"), ("straight across", "across"))
        self._choice(section, "hem_widths", "Hem widths laid", laid, "of a flare from the hip")
        self._choice(section, "grain", "Grain", (*_GRAIN, ("gore by gore", EACH)))
        self.gores = Rows("Gores from front to back", (), (2, 2, 2, 2, 3))
        section.add_wide(self.gores)
        on = (
            ("as is usual", None),
            ("lead stripe", "lead"),
            ("middle of the ground", "ground"),
            ("what matches", "free"),
        )
        self._choice(section, "centre_on", "On the centre", on, "which stripe the centre front shows")

    def _add_opening(self, section: Section) -> None:
        self.lengths["opening"] = section.add(Field("Length", Length("Length of the opening", 0.0), "0: a closed ring"))
        self._choice(section, "opening_at", "In the seam", (("the usual one", None),))

    def _add_turnings(self, section: Section) -> None:
        for name, caption, hint, mm in _TURNINGS:
            self.turnings[name] = section.add(Field(caption, Length(f"Allowance, {caption.lower()}", mm), hint))

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
        self._rows_for = wanted
        widths, _ = gore_widths(replace(measures, sharing="equal"))
        copies = measures.copies if own or each else ()
        rows = [self._row(index, copies, widths[index], own, each) for index in range(len(copies))]
        self.gores.heads = ("", *(_LINES if own else ()), *(("grain",) if each else ()))
        self.gores.show_rows(rows)

    def _row(self, index: int, copies: tuple[int, ...], widths: Widths, own: bool, each: bool) -> list[Any]:
        name = "Front" if index == 0 else "Back" if index == len(copies) - 1 else f"Side {index}"
        row: list[Any] = [QLabel(name if copies[index] == 1 else f"{name}, twice")]
        if own:
            row += [self._width(name, line, getattr(widths, line)) for line in _LINES]
        if each:
            row.append(Choice(f"{name}, grain", _GRAIN if copies[index] == 2 else _GRAIN[:1]))
        return row

    def _width(self, name: str, line: str, mm: float) -> Length:
        entry = Length(f"{name}, {line} width", round(mm, 1))
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
        offered = [("the usual one", None), *((label, label) for label in labels)]
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
