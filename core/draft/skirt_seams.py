"""The seams of a gored skirt: round from the centre front to the centre back, with the opening in one of them."""

from typing import Literal

import msgspec

from core.draft.curves import curve_length
from core.draft.gore import Gore, GoreEdge
from core.draft.measures import SkirtMeasures
from core.draft.skirt_pieces import GoreNames
from core.errors import BadInput
from core.model.pattern import Seam, sewn_seams
from core.seams.propose import CENTRE_BACK, CENTRE_FRONT
from core.wording import later, listed, tr

_BETWEEN = (
    *(later("front to side"), later("front to back"), later("front to side front"), later("side to back")),
    *(later("side front to side"), later("side front to side back"), later("side to side back")),
    later("side back to back"),
)
"""What the other seams may be called: by the two gores that they join."""
_CENTRE_FRONT_WEIGHT, _NEXT_WEIGHT, _CENTRE_BACK_WEIGHT = 3.0, 2.0, 2.0
"""How much a seam shows: most in the middle of the front, then beside the front gore and down the back."""


def skirt_seams(measures: SkirtMeasures, names: tuple[GoreNames, ...], gores: tuple[Gore, ...]) -> tuple[Seam, ...]:
    """The seams from front to back, open for the length of the opening in one of them.

    Raises BadInput where the opening names no seam, or is as long as its seam.
    """
    seams, edges = zip(*_closed_ring(names, gores), strict=True)
    if measures.opening == 0:
        return tuple(seams)
    index, side = _opening_place(measures, seams)
    length = sum(map(curve_length, edges[index].curves))
    if measures.opening >= length:
        raise BadInput(
            tr("it is {opening:g} mm long, its seam {length:.0f} mm", opening=measures.opening, length=length),
            "opening",
            tr("a shorter one is right"),
        )
    return (*seams[:index], *_opened(seams[index], side, measures.opening), *seams[index + 1 :])


def _closed_ring(names: tuple[GoreNames, ...], gores: tuple[Gore, ...]) -> list[tuple[Seam, GoreEdge]]:
    """Every seam with one of its edges, from the centre front to the centre back."""
    found = [
        (_between(before, after, index), gore.right)
        for index, (before, after, gore) in enumerate(zip(names, names[1:], gores[1:], strict=False))
    ]
    first, last = names[0], names[-1]
    if not first.on_centre:
        a, b = f"{first.id}.R/{first.front}", f"{first.id}.L/{first.front}"
        found.insert(0, (Seam(name=tr(CENTRE_FRONT), a=a, b=b, weight=_CENTRE_FRONT_WEIGHT), gores[0].right))
    if not last.on_centre:
        a, b = f"{last.id}.L/{last.back}", f"{last.id}.R/{last.back}"
        found.append((Seam(name=tr(CENTRE_BACK), a=a, b=b, weight=_CENTRE_BACK_WEIGHT), gores[-1].left))
    return found


def _between(before: GoreNames, after: GoreNames, index: int) -> Seam:
    """The seam on the wearer's right between two pieces, and its mirrored one."""
    return Seam(
        name=tr(f"{before.id} to {after.id}".replace("-", " ")),
        a=f"{after.right_panel}/{after.front}",
        b=f"{before.right_panel}/{before.back}",
        weight=_NEXT_WEIGHT if index == 0 else 1.0,
        both_sides=True,
    )


def _opening_place(measures: SkirtMeasures, seams: tuple[Seam, ...]) -> tuple[int, Literal["R", "L"]]:
    """Which seam is open, and on which side of the wearer where it stands for both."""
    asked, labels = measures.opening_at, {}
    for index, seam in enumerate(seams):
        labels[seam.name] = index, "L"
        if seam.both_sides:
            labels |= {f"{seam.name} {side}": (index, side) for side in "LR"}
    place = labels.get(seams[-1].name if asked is None else asked)
    if place is None:
        raise BadInput(
            tr("there is no seam {asked!r}", asked=asked),
            "opening",
            tr("the seams are {names}", names=listed(s.name for s in seams)),
        )
    return place[0], "R" if place[1] == "R" else "L"


def _opened(seam: Seam, side: Literal["R", "L"], length: float) -> tuple[Seam, ...]:
    """The seam with an opening at its upper end; one that stands for both sides is parted into two."""
    stretch = (0.0, length)
    if not seam.both_sides:
        return (msgspec.structs.replace(seam, open=stretch),)
    return tuple(
        Seam(name=sewn.label, a=sewn.a, b=sewn.b, weight=seam.weight, open=stretch if sewn.side == side else None)
        for sewn in sewn_seams((seam,))
    )
