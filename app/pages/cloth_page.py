"""The cloths of a project, or the one cloth of a project that is only being made."""

from collections.abc import Callable
from typing import Any

import msgspec
from PySide6.QtCore import Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton

from app.pages.by_ruler import Change
from app.pages.cloth_form import ClothForm
from app.pages.cloth_words import cloth_in_words, ways_in_words
from app.pages.entries import Choice
from app.pages.form import Note
from app.pages.outline_hands import OutlineHands
from app.pages.page import BUTTON_HIGH, Page
from app.pages.repeat_picture import RepeatPicture
from app.safekeeping.folders import shelf_folder
from app.shelf.dialog import ShelfDialog
from app.shelf.keep_form import KeepForm
from app.theme import SPACE, TARGET, TIGHT
from app.words import tr
from core.errors import BadInput
from core.files.shelf import OnShelf
from core.model.cloth import Cloth, Point

Check = Callable[[tuple[Cloth, ...]], list[str]]


class ClothPage(Page):
    """Shows one cloth at a time; what is typed counts for all of them once it is kept."""

    made = Signal(object)
    """The cloths as they are now, in order."""

    def __init__(self) -> None:
        self.form: ClothForm
        super().__init__(tr("Cloth"), ClothForm(), tr("Keep the cloth"))
        self._cloths: dict[str, Cloth] = {}
        self._used: frozenset[str] = frozenset()
        self._check: Check = _nothing
        self.whole, self.repeat, self.told = OutlineHands(), RepeatPicture(), Note()
        for part, stretch in ((self.whole, 2), (self.repeat, 3), (self.told, 0)):
            self.pictures.addWidget(part, stretch)
        self.pictures.setSpacing(SPACE)
        self._add_choice()
        self.form.edited.connect(self.follow)
        self.form.remake_wanted.connect(self._remake)
        self._connect_outlines()
        self._add_shelf()
        self.show_theme()

    def _add_shelf(self) -> None:
        """Two buttons in the head: a cloth comes off the shelf, or goes on it."""
        self.from_shelf = QPushButton(tr("From the shelf…"), clicked=self.ask_shelf)
        self.to_shelf = QPushButton(tr("Keep on the shelf…"), clicked=self.keep_on_shelf)
        self.from_shelf.setToolTip(tr("Take a cloth that was kept for other projects"))
        self.to_shelf.setToolTip(tr("Keep this cloth for other projects"))
        for at, button in enumerate((self.from_shelf, self.to_shelf), 2):
            button.setMinimumHeight(TARGET + TIGHT)
            self.head.insertWidget(at, button)

    def ask_shelf(self) -> None:
        """Show the shelf; the cloth taken is shown here."""
        ShelfDialog(
            shelf_folder(), self.take_cloth, self._cloths[self._shown].title, self.which.isVisible(), self
        ).open()

    def take_cloth(self, cloth: Cloth, more: bool) -> None:
        """Take a cloth in the place of the one shown, or as one more."""
        free = (name for name in (cloth.id, *(f"{cloth.id}-{n}" for n in range(2, 10_000))) if name not in self._cloths)
        here = next(free) if more else self._shown
        self._cloths[here] = msgspec.structs.replace(cloth, id=here)
        self._turn_to(here)

    def keep_on_shelf(self) -> None:
        """Ask for a note and a picture, and keep the cloth shown."""
        KeepForm(shelf_folder(), self._cloths[self._shown], self._tell_kept, parent=self).open()

    def _tell_kept(self, kept: OnShelf) -> None:
        self.words.say(tr("{cloth} is on the shelf.").format(cloth=kept.kept.cloth.title))

    def _connect_outlines(self) -> None:
        outlines = self.form.outlines
        outlines.drawing_wanted.connect(self.whole.draw)
        self.whole.given_up.connect(lambda: outlines.draw.setChecked(False))
        self.whole.drawn.connect(self._take_outline)

    def _take_outline(self, points: tuple[Point, ...]) -> None:
        self.form.outlines.draw.setChecked(False)
        self.form.outlines.show_points(points)

    def _remake(self, change: Change) -> None:
        """Show another cloth made of the one shown, if its fields are in order."""
        if self.make.isEnabled():
            self._cloths[self._shown] = change(self._cloths[self._shown])
            self._turn_to(self._shown)

    def _add_choice(self) -> None:
        """Which cloth is shown, and buttons for one more and one less; in the foot, beside what they act on."""
        self.which = Choice(tr("Cloth shown"), ())
        self.which.setMinimumContentsLength(18)
        self.which_label = QLabel(tr("Cloth"), buddy=self.which)
        self.add = QPushButton(tr("Add a cloth"), clicked=self.add_cloth)
        self.out = QPushButton(tr("Take this cloth out"), clicked=self.take_out)
        row = QHBoxLayout(spacing=SPACE)
        for widget in (self.which_label, self.which, self.add, self.out):
            row.addWidget(widget)
        for button in (self.add, self.out):
            button.setMinimumHeight(BUTTON_HIGH)
        self.foot.insertLayout(0, row)
        self.ways_on = (self.which, self.add, self.out, self.back, self.make)
        self.which.edited.connect(lambda: self._turn_to(self.which.read()))

    @property
    def first_field(self) -> object:
        """Where the keys go when the page comes up."""
        return self.form.name.entry

    @property
    def cloths(self) -> tuple[Cloth, ...]:
        """All cloths as they were when their fields were last in order."""
        return tuple(self._cloths.values())

    def show_cloths(
        self,
        cloths: tuple[Cloth, ...],
        used: frozenset[str],
        longest_mm: float | None,
        check: Check | None = None,
        several: bool = True,
    ) -> None:
        """Show cloths to change; those `used` stay. `check` tells what is odd if they were kept."""
        self._cloths = {cloth.id: cloth for cloth in cloths}
        self._used, self._check = used, check or _nothing
        self.form.longest_mm = longest_mm
        for widget in (self.which_label, self.which, self.add, self.out):
            widget.setVisible(several)
        self._turn_to(cloths[0].id)

    def _turn_to(self, cloth_id: str) -> None:
        self._shown = cloth_id
        self.form.show_cloth(self._cloths[cloth_id])
        self.follow()

    def add_cloth(self) -> None:
        """One more cloth, plain until it is told otherwise."""
        number = next(n for n in range(2, 10_000) if f"cloth-{n}" not in self._cloths)
        cloth = Cloth(
            id=f"cloth-{number}", name=tr("Cloth {number}").format(number=number), width=1400.0, selvedge=(10.0, 10.0)
        )
        self._cloths[cloth.id] = cloth
        self._turn_to(cloth.id)
        self.form.name.entry.setFocus()
        self.form.name.entry.selectAll()

    def take_out(self) -> None:
        """One cloth less: the one shown."""
        del self._cloths[self._shown]
        self._turn_to(next(iter(self._cloths)))

    def follow(self) -> None:
        """Show the cloth that the fields say, or say what is wrong."""
        self.out.setEnabled(self._shown not in self._used and len(self._cloths) > 1)
        self.whole.show_outline(self.form.outlines.chosen)
        self.pictures.setStretch(0, 5 if self.form.outlines.chosen else 2)
        self.to_shelf.setEnabled(False)
        try:
            cloth = self.form.cloth()
        except BadInput as error:
            self.repeat.fade()
            self.block(str(error)[:1].upper() + str(error)[1:])
            return
        self._cloths[self._shown] = cloth
        self.to_shelf.setEnabled(True)
        self._offer()
        self.whole.show_cloth(cloth)
        self.repeat.show_cloth(cloth, self.unit)
        self.told.say(ways_in_words(cloth, self.unit))
        self.findings.show_lines(self._check(self.cloths), tr("Nothing odd was found."))
        self.allow(cloth_in_words(cloth, self.unit))

    def _offer(self) -> None:
        blocked = self.which.blockSignals(True)
        self.which.offer([(cloth.title, cloth.id) for cloth in self.cloths])
        self.which.show_value(self._shown)
        self.which.blockSignals(blocked)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        super().show_theme()
        self.whole.show_theme()

    def stands(self) -> dict[str, Any]:
        """All cloths, and the one shown with what stands in its fields."""
        return {**super().stands(), "cloths": msgspec.to_builtins(self.cloths), "shown": self._shown}

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Show the cloths again, and the one that was shown."""
        self._cloths = {cloth.id: cloth for cloth in msgspec.convert(stood["cloths"], tuple[Cloth, ...])}
        self._turn_to(stood["shown"])
        super().stand_again(stood)

    def make_it(self) -> None:
        """Hand over the cloths."""
        if self.make.isEnabled():
            self.made.emit(self.cloths)


def _nothing(cloths: tuple[Cloth, ...]) -> list[str]:
    return []
