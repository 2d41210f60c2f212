"""How sure a reading of stripes is, and what makes it unsure, in words."""

from collections.abc import Iterator

from core.swatch.known import Colours
from core.swatch.reading import Reading
from core.units import mm
from core.wording import tr

SURELY_EXPLAINED = 0.7
NOTABLY_ASTRAY = 0.25
NOTABLY_UNCLEAR = 0.003
"""Where stripes of one colour each leave more of a repeat unaccounted for, some are finer than the picture shows."""
ENOUGH_REPEATS = 5.0
"""With fewer repeats in view a fold along the stripes can hide in them, or pass for part of a longer repeat."""
EVEN_SHARE = 0.0007
"""Repeats whose mean is known no better than to this share of their width do not lie flat, or differ on the cloth."""
HALF_SURE_COLOUR = 3.0
"""Colours known no better than to so many CIEDE2000 (one standard deviation) halve the confidence."""
BOTH_SIDES = 8.0
"""Where a fold is taken out, so many repeats leave enough on either side of it to see whether every second differs."""
_HALF_SEEN = 0.7
"""What is left of the confidence where they are fewer."""
_ELSEWHERE = 0.5
"""What is left of the confidence where a fold may as well lie elsewhere, and the repeat be another."""


def confidence_in(reading: Reading, unclear: float, colours: Colours) -> float:
    """From 0 to 1: what the repeat accounts for, less where anything makes it unsure.

    `unclear` is the share of what varies across the repeat that plain stripes don't account for.
    """
    scatter = max(reading.period_sd / reading.fit.period, 1e-9)
    enough = min(1.0, reading.repeats / ENOUGH_REPEATS) * min(1.0, EVEN_SHARE / scatter)
    clear = 1 / (1 + (unclear / NOTABLY_UNCLEAR) ** 2)
    settled = _ELSEWHERE if any(fold.other for fold in reading.flat.folds) else 1.0
    settled *= _HALF_SEEN if _may_be_half(reading) else 1.0
    known = 1 / (1 + (colours.worst_sd / HALF_SURE_COLOUR) ** 2)
    return float(min(1.0, reading.profile.explained) * enough * (1 - reading.astray) * clear * known * settled)


def doubts_about(reading: Reading, unclear: float, colours: Colours, mm_per_px: float) -> Iterator[str]:
    """What a person should know of a reading before relying on it."""
    if reading.repeats < ENOUGH_REPEATS:
        yield from _few_repeats(reading)
    if unclear > NOTABLY_UNCLEAR:
        yield tr("some stripes are finer than the picture shows: photograph it closer, or scan it finer")
    yield from _colours(colours)
    yield from _folds(reading, mm_per_px)
    if _may_be_half(reading):
        yield tr(
            "with a fold among so few repeats a small thing in every second one can be missed: "
            "look whether all are alike"
        )
    if reading.period_sd > EVEN_SHARE * reading.fit.period:
        yield tr("the repeats in view differ in width: the cloth does not lie flat, or a fold lies along the stripes")
    if reading.astray > NOTABLY_ASTRAY:
        yield tr(
            "{astray:.0f} % of the places measured were left out: the cloth does not lie flat there, and "
            "a fold along the stripes can change the repeat",
            astray=100 * reading.astray,
        )
    if reading.profile.explained < SURELY_EXPLAINED:
        yield tr(
            "the repeat accounts for only {explained:.0f} % of what is seen: check it by ruler",
            explained=100 * reading.profile.explained,
        )


def _may_be_half(reading: Reading) -> bool:
    """Whether every second repeat may differ unseen: each side of a fold has too few to tell."""
    return bool(reading.flat.folds) and reading.times == 1 and reading.repeats < BOTH_SIDES


def _few_repeats(reading: Reading) -> Iterator[str]:
    yield tr(
        "only {repeats:.1f} repeats are in view: five or more make the width surer, and a fold along "
        "the stripes could go unnoticed",
        repeats=reading.repeats,
    )
    if reading.times > 1:
        yield tr(
            "parts of 1/{times} of it differ little: the true repeat may be so much shorter, if the "
            "cloth does not lie flat",
            times=reading.times,
        )


def _colours(colours: Colours) -> Iterator[str]:
    if colours.unsure:
        yield tr(
            "too narrow in the picture for their colour to be told surely, a stronger one on less width would look "
            "the same: {stripes}; set it by the cloth, or photograph it closer",
            stripes=", ".join(colours.unsure),
        )
    if colours.ground:
        yield tr("the colour of the ground is not told surely: set it by the cloth, or photograph it closer")


def _folds(reading: Reading, mm_per_px: float) -> Iterator[str]:
    for fold in reading.flat.folds:
        yield tr(
            "a fold that hides {hidden} mm of the cloth was taken out: smooth the cloth, and read it again, to be sure",
            hidden=mm(fold.hidden * mm_per_px),
        )
        if fold.other is not None:
            yield tr(
                "if that fold lies elsewhere, which the picture doesn't tell, the repeat is {other} mm",
                other=mm(reading.times * fold.other * mm_per_px),
            )
