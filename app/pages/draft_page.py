"""From measurements to a project: a gored skirt or a canopy, drafted anew at every keystroke."""

from PySide6.QtCore import Signal

from app.pages.canopy_form import CanopyForm
from app.pages.cloth_card import ClothCard
from app.pages.entries import Choice
from app.pages.form import Field, Form
from app.pages.lengths import LengthUnit
from app.pages.numbers import longest_panel_mm, summary
from app.pages.page import Page
from app.pages.pattern_picture import PatternPicture
from app.pages.skirt_form import SkirtForm
from app.words import tr
from core.draft.result import Draft
from core.errors import BadInput
from core.model.cloth import Cloth
from core.model.validate import validate

SKIRT, CANOPY = "skirt", "canopy"


class DraftForm(Form):
    """What is drafted, from which cloth, and the form of its measurements below."""

    def __init__(self) -> None:
        super().__init__()
        begin = self.section(tr("Garment"))
        kinds = ((tr("Gored skirt"), SKIRT), (tr("Canopy or parasol"), CANOPY))
        self.kind = begin.add(Field(tr("Draft"), Choice(tr("What to draft"), kinds), ""))
        self.cloth = ClothCard()
        self.section(tr("Cloth")).add_wide(self.cloth)
        self.kinds: dict[str, SkirtForm | CanopyForm] = {SKIRT: SkirtForm(), CANOPY: CanopyForm()}
        for form in self.kinds.values():
            form.layout().setContentsMargins(0, 0, 0, 0)
            self.layout().addWidget(form)
            form.edited.connect(self.edited)
        self.kind.entry.edited.connect(self._turn)
        self._turn()

    def _turn(self) -> None:
        for form in self.kinds.values():
            form.setVisible(form is self.chosen)
        self.edited.emit()

    @property
    def chosen(self) -> SkirtForm | CanopyForm:
        """The form that is shown."""
        return self.kinds[self.kind.entry.read()]

    def show_unit(self, unit: LengthUnit) -> None:
        """Count lengths in another unit."""
        self.unit = unit
        self.cloth.show_unit(unit)
        for form in self.kinds.values():
            form.show_unit(unit)


class DraftPage(Page):
    """Drafts while one types."""

    made = Signal(object)
    """The project that was drafted."""
    cloth_wanted = Signal()

    def __init__(self) -> None:
        self.form: DraftForm
        super().__init__(tr("New from measurements"), DraftForm(), tr("Make the project"))
        self.words.say(tr("These are the measurements of a stand-in. Type your own: the pieces follow."))
        self.picture = PatternPicture(tr("The pieces appear here."))
        self.pictures.addWidget(self.picture)
        self.draft: Draft | None = None
        """What the fields came to when they were last in order."""
        self.form.edited.connect(self.redraft)
        self.form.cloth.wanted.connect(self.cloth_wanted)
        self.show_theme()
        self.redraft()

    @property
    def first_field(self) -> object:
        """Where the keys go when the page comes up."""
        return self.form.kind.entry

    @property
    def cloth(self) -> Cloth:
        """The cloth that is drafted for."""
        return self.form.cloth.cloth

    def take_cloth(self, cloth: Cloth) -> None:
        """Draft for another cloth."""
        self.form.cloth.show_cloth(cloth)
        self.redraft()

    @property
    def longest_mm(self) -> float | None:
        """Length of the longest panel, mm."""
        return longest_panel_mm(self.draft.project) if self.draft else None

    def redraft(self) -> None:
        """Draft what the fields say, or say why that can't be."""
        try:
            draft = self.form.chosen.draft(self.cloth)
            validate(draft.project)
        except BadInput as error:
            self.picture.fade()
            self.findings.show_lines(
                [], tr("The pieces shown are those of the last measurements that could be drafted.")
            )
            self.block(str(error)[:1].upper() + str(error)[1:])
            return
        self.draft = draft
        self.picture.show_project(draft.project, self.form.unit)
        self.findings.show_lines([str(finding) for finding in draft.findings], tr("Nothing odd was found."))
        self.allow(summary(draft.project))

    def make_it(self) -> None:
        """Hand over the project as it is drafted now."""
        if self.draft and self.make.isEnabled():
            self.made.emit(self.draft.project)
