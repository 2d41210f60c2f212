"""What easing and a shift of the line come to, in words."""

from typing import TYPE_CHECKING

from app.figures import figure, fine, length, step, unit
from app.words import tr
from core.seams.readings import SeamReading

if TYPE_CHECKING:
    from core.seams.easing import Easing
    from core.shifting.result import SeamShift, ShiftResult

MOST_RUNS = 4
"""More stretches than these are not told one by one."""


def figures_change(before: SeamReading, after: SeamReading) -> str:
    """Root mean square and worst step before and after."""
    if before.rms_mm is None or after.rms_mm is None or before.worst is None or after.worst is None:
        return ""
    words = tr("rms {before} → {after} {unit}, worst {worst} → {left} {unit}")
    return words.format(
        before=step(before.rms_mm),
        after=step(after.rms_mm),
        worst=step(before.worst[0]),
        left=step(after.worst[0]),
        unit=unit(),
    )


def easing_words(easing: "Easing") -> str:
    """Where to ease and by how much, or that it is not worth the work."""
    if not easing.runs:
        return tr("There is nothing that easing could mend here.")
    change = figures_change(easing.reading, easing.after)
    if not easing.worth:
        return tr("Easing is not worth the work here: {change}.").format(change=change)
    return f"{change}. {_runs(easing)} {_limit(easing)}".strip()


def _runs(easing: "Easing") -> str:
    if len(easing.runs) > MOST_RUNS:
        words = tr("Ease {total} {unit} in all, in {count} stretches.")
        return words.format(total=step(easing.total_mm), unit=unit(), count=len(easing.runs))
    told = []
    for run in easing.runs:
        left, right = tr("{stretch}: {share} % of the left edge"), tr("{stretch}: {share} % of the right edge")
        stretch = f"{length(run.from_mm)}–{length(run.to_mm)} {unit()}"
        words = left if run.per_100_mm < 0 else right
        told.append(words.format(stretch=stretch, share=figure(abs(run.per_100_mm))))
    return tr("Ease in {stretches}.").format(stretches="; ".join(told))


def _limit(easing: "Easing") -> str:
    if easing.reading.cloth.ease_percent is not None:
        return ""
    return tr("(Up to {limit:g} %, as is usual.)", limit=easing.limit_percent)


def shift_words(seam: "SeamShift", before: SeamReading, after: SeamReading) -> str:
    """What moving the line does to the seam, or why it stays."""
    if seam.stays:
        return _stays(seam)
    if not seam.knots:
        return tr("There is nothing that moving the line could mend here.")
    by, at = seam.largest
    words = tr("{change}. The line moves by up to {by} {unit}, {at} {unit} down.")
    told = words.format(change=figures_change(before, after), by=step(abs(by)), at=length(at), unit=unit())
    return f"{told} {_bars(seam)}".strip()


def _bars(seam: "SeamShift") -> str:
    """What becomes of the bars, where there are any beside stripes."""
    if seam.bars_before_mm is None or seam.bars_mm is None or seam.rms_mm is None:
        return ""
    words = tr("Bars: rms {before} → {after} {unit}.")
    return words.format(before=step(seam.bars_before_mm), after=step(seam.bars_mm), unit=unit())


def _stays(seam: "SeamShift") -> str:
    words = tr("The line stays: {why}.").format(why=seam.stays)
    if seam.instead is None:
        return words
    instead = tr(
        "Letting one edge out (+) or taking it in by {least} to {most} {unit} would close it and change the girth."
    )
    told = instead.format(least=step(seam.instead.least_mm, True), most=step(seam.instead.most_mm, True), unit=unit())
    return f"{words} {told}"


def shifted_words(result: "ShiftResult") -> str:
    """What came of shifting all lines, in one line."""
    if result.rms_before_mm is None or result.rms_mm is None:
        return tr("There is nothing to match: no seam joins two panels of one striped cloth.")
    if not any(seam.knots for seam in result.seams):
        return tr("No line was moved: nothing would be gained by it.")
    words = tr("Lines moved by up to {most} {unit}: {after} {unit} rms, {before} {unit} without that.")
    after, before = (fine(value) for value in (result.rms_mm, result.rms_before_mm))
    return words.format(most=step(result.largest_mm), unit=unit(), after=after, before=before)
