"""What a lay amounts to on one cloth, and how that is told."""

from dataclasses import dataclass

from core.geometry.polyline import signed_area
from core.lay.bound import least_length
from core.lay.legal import cut_lines, panels_on
from core.lay.remnant import past_end
from core.lay.rescue import Remedy
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Project
from core.units import MM, Units
from core.wording import listed, tr

TOLD_MM = 0.05
"""Bars that are worse, and lays that are longer, by less than this are worth no word."""


@dataclass(frozen=True)
class ClothLay:
    """The lay on one cloth. `length_mm` is the largest v of any cut line, `used_share` the share of usable width times
    length that cut lines cover; `available_mm` is None where the cloth is as long as it takes.

    If it doesn't fit, `left_over` are panels without which the others do, and `remedies` is what was tried to have all.
    No lay is shorter than `at_least_mm`, however good. `past_end_mm` is how far panels reach past the end of a remnant,
    which need not be square. `bars_mm` is the rms of the bars' steps before and after on a bowed cloth, whose bars
    slope otherwise at every u.
    """

    cloth: Cloth
    panels: tuple[PanelName, ...]
    length_mm: float
    available_mm: float | None
    used_share: float
    left_over: tuple[PanelName, ...] = ()
    remedies: tuple[Remedy, ...] = ()
    bars_mm: tuple[float, float] | None = None
    past_end_mm: float = 0.0
    at_least_mm: float = 0.0

    @property
    def missing_mm(self) -> float:
        """How much longer the cloth would have to be; 0.0 if the lay fits."""
        over = 0.0 if self.available_mm is None else max(self.length_mm - self.available_mm, self.past_end_mm)
        return over if over > 1e-6 else 0.0

    @property
    def fits(self) -> bool:
        """Whether the cloth is long enough."""
        return self.missing_mm == 0.0

    def of_bars(self, units: Units = MM) -> str:
        """What the lay did to the bars of a bowed cloth, in one line; nothing where it did them no harm."""
        if self.bars_mm is None or self.bars_mm[1] <= self.bars_mm[0] + TOLD_MM:
            return ""
        before, after = (units.say_fine(mm) for mm in self.bars_mm)
        return tr(
            "the cloth is bowed, and bars slope otherwise where panels came to lie: {after} rms, {before} before",
            after=after,
            before=before,
        )

    def proof(self, units: Units = MM) -> str:
        """What is known of shorter lays than the one found, in one line; nothing where none is needed or known."""
        if self.length_mm <= self.at_least_mm + TOLD_MM:
            return tr("no lay is shorter")
        if self.fits or self.available_mm is None:
            return ""
        if self.at_least_mm > self.available_mm + TOLD_MM:
            return tr("no lay takes less than {at_least_mm}", at_least_mm=units.say(self.at_least_mm))
        return tr("a shorter lay than the one found is not ruled out")

    def message(self, units: Units = MM) -> str:
        """One line for the maker."""
        takes = tr("{title}: the lay takes {length_mm}", title=self.cloth.title, length_mm=units.say(self.length_mm))
        if self.available_mm is None:
            return takes
        there = tr("{takes}, the cloth has {available_mm}", takes=takes, available_mm=units.say(self.available_mm))
        return (
            there
            if self.fits
            else tr("{there}: {missing_mm} are missing", there=there, missing_mm=units.say(self.missing_mm))
        )

    @property
    def advice(self) -> tuple[str, ...]:
        """What to say of a lay that doesn't fit: what is left over, then what would help and what would not."""
        if self.fits:
            return ()
        left = [tr("left over: {left_over}", left_over=listed(self.left_over))] if self.left_over else []
        helps = [
            tr("it would fit with {what}: {length_mm:.0f} mm", what=one.what, length_mm=one.length_mm)
            for one in self.remedies
            if one.fits
        ]
        others = [
            tr("{what} ({length_mm:.0f} mm)", what=one.what, length_mm=one.length_mm)
            for one in self.remedies
            if not one.fits
        ]
        return (*left, *helps, *([tr("tried, but too long: {others}", others=tr("; ").join(others))] if others else []))


def cloth_lay(project: Project, cloth: Cloth) -> ClothLay:
    """What the placements as they stand amount to on a cloth that has panels."""
    lines = cut_lines(project, cloth)
    length = max(float(line[:, 1].max()) for line in lines.values())
    area = sum(abs(signed_area(line)) for line in lines.values())
    usable = cloth.usable[1] - cloth.usable[0]
    past = 0.0 if cloth.remnant is None else past_end(cloth, lines.values())
    straight = [lines[panel.name] for panel in panels_on(project, cloth) if panel.piece.grain == "straight"]
    least = max(area / usable, least_length(straight, usable, cloth.spare_mm))
    share = area / (usable * length)
    return ClothLay(cloth, tuple(lines), length, cloth.end, share, past_end_mm=past, at_least_mm=least)
