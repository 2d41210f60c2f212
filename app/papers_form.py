"""Asks which papers are wanted, and how; what was chosen is remembered for the next time."""

from collections.abc import Callable, Sequence
from typing import Any, get_args

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QFormLayout, QLabel, QVBoxLayout, QWidget

from app.length_box import LengthBox
from app.pages.entries import Choice, Tick
from app.pages.form import add_row
from app.theme import SPACE, TARGET, WIDE
from app.words import tr
from core.model.panel import Panel
from core.papers.choices import ALL_PARTS, ROLL_RANGE_MM, LineChoice, PaperChoices, PaperName, Part
from core.units import UnitName

Taken = Callable[[PaperChoices], None]
KEY = "papers"


def kept_choices() -> PaperChoices:
    """What was chosen last; the usual where nothing was, or where something else stands there."""
    usual, kept = PaperChoices(), QSettings()
    roll_mm = kept.value(f"{KEY}/roll", usual.roll_mm)
    parts = frozenset(part for part in get_args(Part) if kept.value(f"{KEY}/{part}", "yes") != "no")
    return PaperChoices(
        paper=_one_of(get_args(PaperName), kept.value(f"{KEY}/paper"), usual.paper),
        units=_one_of(get_args(UnitName), kept.value(f"{KEY}/units"), usual.units),
        lines=_one_of(get_args(LineChoice), kept.value(f"{KEY}/lines"), usual.lines),
        parts=parts or ALL_PARTS,
        roll_mm=_width(roll_mm, usual.roll_mm),
    )


def keep_choices(choices: PaperChoices) -> None:
    """Remember what was chosen."""
    kept = QSettings()
    for name in ("paper", "units", "lines"):
        kept.setValue(f"{KEY}/{name}", getattr(choices, name))
    kept.setValue(f"{KEY}/roll", choices.roll_mm)
    for part in get_args(Part):
        kept.setValue(f"{KEY}/{part}", "yes" if part in choices.parts else "no")


def _one_of(known: Sequence[Any], kept: object, usual: Any) -> Any:
    return kept if kept in known else usual


def _width(kept: object, usual: float) -> float:
    try:
        width = float(str(kept))
    except ValueError:
        return usual
    least, most = ROLL_RANGE_MM
    return width if least <= width <= most else usual


class PapersForm(QDialog):
    """Paper, units, lines and which papers; `taken` is given the choices once they are confirmed."""

    def __init__(self, panels: Sequence[Panel], taken: Taken, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Papers"))
        self.setAccessibleName(tr("Papers"))
        self._panels, self._taken = panels, taken
        kept = kept_choices()
        papers = (("A4", "a4"), (tr("Letter"), "letter"), (tr("A3, words on A4"), "a3"))
        self.paper = Choice(tr("Printer's paper"), papers, kept.paper)
        units = ((tr("Millimetres"), "mm"), (tr("Centimetres"), "cm"), (tr("Inches"), "in"))
        self.units = Choice(tr("Lengths in"), units, kept.units)
        lines = ((tr("Cutting and stitching line"), "both"), (tr("Cutting line"), "cut"), (tr("Stitching line"), "net"))
        self.lines = Choice(tr("Lines of the pattern"), lines, kept.lines)
        self.roll = LengthBox(tr("Width of the roll"), tr("For the pattern on one long sheet"), ROLL_RANGE_MM[0])
        self.roll.setMaximum(ROLL_RANGE_MM[1])
        self.roll.setValue(kept.roll_mm)
        self.parts = {part: Tick(text, part in kept.parts) for part, text in _part_names().items()}
        self.pages = QLabel(wordWrap=True)
        self.buttons = self._buttons()
        self._lay_out()
        for field in (self.paper, self.lines, *self.parts.values()):
            field.edited.connect(self._tell)
        self._tell()

    def _lay_out(self) -> None:
        form = QFormLayout()
        form.setSpacing(SPACE)
        self.roll.setFixedWidth(140)
        rows = (
            (tr("&Paper"), self.paper),
            (tr("&Lengths in"), self.units),
            (tr("L&ines"), self.lines),
            (tr("&Roll width"), self.roll),
        )
        for caption, field in rows:
            add_row(form, caption, field)
        column = QVBoxLayout(self)
        column.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        column.setSpacing(SPACE)
        column.addLayout(form)
        for part in (*self.parts.values(), self.pages, self.buttons):
            column.addWidget(part)

    def _buttons(self) -> QDialogButtonBox:
        choices = QDialogButtonBox.StandardButton
        box = QDialogButtonBox(choices.Ok | choices.Cancel)
        box.button(choices.Ok).setText(tr("Choose folder…"))
        for button in box.buttons():
            button.setMinimumHeight(TARGET)
        box.accepted.connect(self.accept)
        box.rejected.connect(self.reject)
        return box

    def choices(self) -> PaperChoices:
        """What is chosen."""
        return PaperChoices(
            paper=self.paper.read(),
            units=self.units.read(),
            lines=self.lines.read(),
            parts=frozenset(part for part, tick in self.parts.items() if tick.read()),
            roll_mm=self.roll.value(),
        )

    def accept(self) -> None:
        """Remember the choices and hand them on."""
        self.roll.interpretText()
        choices = self.choices()
        keep_choices(choices)
        super().accept()
        self._taken(choices)

    def _tell(self) -> None:
        """Say about how many pages there will be; without a paper there is nothing to write."""
        from core.papers.page_count import about_tile_pages

        choices = self.choices()
        words = [tr("Choose at least one paper.")] if not choices.parts else []
        if "cutting papers" in choices.parts:
            words.append(tr("Cards: {count}.").format(count=len(self._panels)))
        if "full size" in choices.parts:
            words.append(tr("Full-size tiles: about {count}.").format(count=about_tile_pages(self._panels, choices)))
        self.pages.setText(" ".join(words))
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(bool(choices.parts))


def _part_names() -> dict[Part, str]:
    """The papers in the order in which they are made, as they are called on the screen."""
    return {
        "cutting papers": tr("Cards, cutting plan and seam readings"),
        "full size": tr("Full-size pattern in tiles and on a roll"),
        "edge strips": tr("Edge strips for a pattern on paper"),
        "seam sheet": tr("Seam sheet for the machine"),
        "full-size plan": tr("Full-size plan for a projector or plotter"),
        "lists": tr("Lists of pieces, notions and what to buy"),
    }
