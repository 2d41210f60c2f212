"""The measurements of a canopy or parasol."""

from app.pages.entries import Length, Whole
from app.pages.form import Field, Form, Section
from app.words import tr
from core.draft.canopy import FEWEST_RIBS, MOST_RIBS, CanopyMeasures, draft_canopy
from core.draft.result import Draft
from core.errors import BadInput
from core.model.cloth import Cloth

_NOW = CanopyMeasures(radius=480.0, rise=180.0)
"""A usual parasol, to begin with."""


class CanopyForm(Form):
    """Asks for all that the gores of a canopy are drafted from."""

    def __init__(self) -> None:
        super().__init__()
        self.asked: dict[str, Field] = {}
        shape = self.section(tr("Measurements"))
        self._length(shape, "radius", tr("Radius"), tr("from the middle to the rim, level"), _NOW.radius)
        self._length(shape, "rise", tr("Rise"), tr("from the rim's level up to the crown"), _NOW.rise)
        ribs = Whole(tr("Number of ribs"), _NOW.ribs, (FEWEST_RIBS, MOST_RIBS))
        self.asked["ribs"] = shape.add(Field(tr("Ribs"), ribs, tr("as many gores")))
        self._length(shape, "hole", tr("Hole at the crown"), tr("its radius; 0: the gores meet in a point"), 0.0)
        told = tr("how far it is hollowed out between two ribs")
        self._length(shape, "rim_hollow", tr("Hollow of the rim"), told, None, tr("a smooth rim"))
        turnings = self.section(tr("Seam and hem allowances"))
        self._length(turnings, "seam_allowance", tr("Seams"), "", _NOW.seam_allowance)
        self._length(turnings, "rim_allowance", tr("Rim"), "", _NOW.rim_allowance)
        self._length(turnings, "crown_allowance", tr("Crown"), tr("where there is a hole"), None, tr("as is usual"))
        self.follow(*(field.entry for field in self.fields))
        self._show_fitting()

    def _length(self, section: Section, name: str, caption: str, hint: str, mm: float | None, empty: str = "") -> None:
        entry = Length(caption, mm, empty, needed=not empty)
        self.asked[name] = section.add(Field(caption, entry, hint))

    def _show_fitting(self) -> None:
        self.asked["crown_allowance"].set_shown(self.asked["hole"].entry.text().strip() not in ("", "0"))

    def draft(self, cloth: Cloth) -> Draft:
        """The canopy as the fields say. What is wrong stands beside its field. Raises BadInput."""
        self._show_fitting()
        asked = {name: field for name, field in self.asked.items() if field.shown}
        values = dict(zip(asked, self.read(asked.values()), strict=True))
        try:
            return draft_canopy(CanopyMeasures(cloth=cloth, **values))
        except BadInput as error:
            field = self.asked.get(_FIELD_AT.get(error.place, error.place))
            if field is not None:
                self.complain(field, error)
            raise


_FIELD_AT = {
    "rim hollow": "rim_hollow",
    "allowance, seam": "seam_allowance",
    "allowance, rim": "rim_allowance",
    "allowance, crown": "crown_allowance",
}
