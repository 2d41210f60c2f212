"""Names for the edges of an outline that comes without any."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence

from core.files.outlines import Line
from core.geometry.paths import Points
from core.geometry.polyline import length
from core.seams.sides import Side, sides_of
from core.seams.walk import Finding
from core.wording import tr

FOLD = "fold"

FOLD_AWAY_MM = 1.0
"""A mirror line whose ends lie this close to the corners of an edge runs along it."""

_STRAIGHT_MM = 0.01


def fold_edge(lines: Sequence[Points], mirror: Line | None, place: str, findings: list[Finding]) -> int | None:
    """The index of the straight edge that the mirror line runs along; None where there is none."""
    if mirror is None:
        return None
    for index, line in enumerate(lines):
        start, end = line[0], line[-1]
        away = min(max(math.dist(start, a), math.dist(end, b)) for a, b in (mirror, mirror[::-1]))
        if away < FOLD_AWAY_MM and length(line) - math.dist(start, end) < _STRAIGHT_MM and len(lines) > 2:
            return index
    findings.append(
        Finding(place, tr("its mirror line runs along no straight edge and was left out"), tr("cut it as drawn"))
    )
    return None


def edge_names(
    piece: str, lines: Sequence[Points], fold: int | None, wished: Mapping[str, str]
) -> tuple[list[str], int]:
    """A name for every edge of a clockwise outline, by the side on which it lies, and the index of the first edge.

    They are `waist` (the top), `right`, `hem` and `left`; of several edges on a side the lower, or the more clockwise,
    have a number. `wished` gives another name by `edge` or `piece/edge`. The first edge is the top, or where there is
    none the right one.
    """
    sides = sides_of(lines)
    first = next((index for want in ("top", "right") for index, side in enumerate(sides) if side == want), 0)
    names = [""] * len(lines)
    counts: Counter[Side] = Counter()
    for index in _downwards(sides, first):
        plain = FOLD if index == fold else _numbered(sides[index], counts)
        names[index] = plain if index == fold else wished.get(f"{piece}/{plain}", wished.get(plain, plain))
    return names, first


def _downwards(sides: Sequence[Side], first: int) -> list[int]:
    """The edges clockwise from the first one, those of the left side from the top down."""
    order = [(first + step) % len(sides) for step in range(len(sides))]
    left = [index for index in order if sides[index] == "left"]
    return [left.pop() if sides[index] == "left" else index for index in order]


def _numbered(side: Side, counts: Counter[Side]) -> str:
    counts[side] += 1
    name = "waist" if side == "top" else side
    return name if counts[side] == 1 else f"{name} {counts[side]}"
