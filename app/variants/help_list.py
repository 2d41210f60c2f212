"""What would help: changes by their gain, and why each seam is left with steps."""

from typing import TYPE_CHECKING

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QTreeWidgetItem, QWidget

from app import units
from app.figures import fine, unit
from app.readings.figure_tree import KEY, FigureTree
from app.words import tr

if TYPE_CHECKING:
    from core.matching.advice import Advice, Change


class HelpList(FigureTree):
    """Rows of changes stand for them; the reasons are folded away below."""

    chosen = Signal()
    """Another row is the current one."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(tr("What would help"), parent)
        self._advice: Advice | None = None
        self.currentItemChanged.connect(lambda: self.chosen.emit())

    @property
    def change(self) -> "Change | None":
        """The change of the current row."""
        number = self.key
        return self._advice.changes[number] if self._advice and isinstance(number, int) else None

    def show_advice(self, advice: "Advice | None") -> None:
        """Show what was found, or nothing."""
        kept, self._advice = self.key, advice
        self.clear()
        self.show_heads(
            (tr("Change"), tr("Rms") + f"\n{unit()}", tr("Gain") + f"\n{unit()}"),
            (
                tr("What could be otherwise; Enter on a row of the list tries it"),
                tr("The garment's figure with it, matched"),
                tr("How much lower that is than without"),
            ),
        )
        if advice:
            self._add_changes(advice)
            self._add_reasons(advice)
        items = [self.topLevelItem(0).child(i) for i in range(self.topLevelItem(0).childCount())] if advice else []
        self.setCurrentItem(next((item for item in items if item.data(0, KEY) == kept), items[0] if items else None))

    def _add_changes(self, advice: "Advice") -> None:
        head = self.heading(tr("Changes by gain"))
        for number, one in enumerate(advice.changes):
            what, caution = one.words(units.shown())
            tip = "\n".join(part for part in (what, caution) if part)
            self.row(head, [what, fine(one.rms_mm), fine(one.gain_mm, signed=True)], number, tip)
        head.setExpanded(True)

    def _add_reasons(self, advice: "Advice") -> None:
        from core.matching.reasons import in_words

        head = self.heading(tr("Why steps are left"))
        for seam in advice.seams:
            item = self.row(head, [seam.label, fine(seam.rms_mm), ""], None)
            for reason in seam.reasons:
                self._add_reason(item, in_words(reason, units.shown()), reason.share)

    def _add_reason(self, seam: QTreeWidgetItem, words: str, share: float) -> None:
        self.row(seam, [words, "", f"{100 * share:.0f} %"], None)
