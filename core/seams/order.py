"""The panels in the order in which they are worn: round the garment from left to right as seen from outside."""

import math
from dataclasses import dataclass
from typing import Literal

from core.model.pattern import PanelName, panel_of
from core.model.project import Project

Chain = tuple[PanelName, ...]


@dataclass(frozen=True)
class WornRow:
    """Panels side by side, left to right as seen from outside; `part` is None where there is no front and back."""

    panels: Chain
    part: Literal["front", "back"] | None = None


@dataclass(frozen=True)
class WornChain:
    """Panels sewn in a row, left to right as seen from outside; a closed one goes on at its beginning.

    The first `front` panels are the front of it; `sided` tells whether front and back are named by the pattern.
    """

    panels: Chain
    closed: bool = False
    front: int = 0
    sided: bool = False


def rows_as_worn(project: Project) -> tuple[WornRow, ...]:
    """All panels in rows: front and back of every closed round of panels, one row for each open one.

    A round of single panels is halved from the first one on. Panels sewn to nothing share the last row.
    """
    chains = chains_as_worn(project)
    alone = tuple(chain.panels[0] for chain in chains if len(chain.panels) == 1)
    rows = tuple(row for chain in chains if len(chain.panels) > 1 for row in _rows(chain))
    return (*rows, WornRow(alone)) if alone else rows


def _rows(chain: WornChain) -> tuple[WornRow, ...]:
    if not chain.closed:
        return (WornRow(chain.panels),)
    front, back = chain.panels[: chain.front], chain.panels[chain.front :]
    if not chain.sided:
        return WornRow(front), WornRow(back)
    return WornRow(front, "front"), WornRow(back, "back")


def chains_as_worn(project: Project) -> tuple[WornChain, ...]:
    """All panels in the chains they are sewn to.

    A panel sewn on the left of a seam lies left of the one on its right. A round counts as closed also where its ends
    are the two panels of one piece: there is the opening. Its front has the first piece in the middle and as many
    panels on either side of it.
    """
    right_of, left_of = _neighbours(project)
    chains: list[WornChain] = []
    rest = dict.fromkeys(project.panel_names)
    while rest:
        chain, ring = _chain(next(iter(rest)), right_of, left_of, rest)
        for panel in chain:
            del rest[panel]
        closed = len(chain) > 1 and (ring or _opening(project, chain))
        chains.append(_front_and_back(project, chain) if closed else WornChain(chain))
    return tuple(chains)


Neighbours = dict[PanelName, list[PanelName]]


def _neighbours(project: Project) -> tuple[Neighbours, Neighbours]:
    """For every panel those sewn on its right, and those sewn on its left."""
    right: Neighbours = {name: [] for name in project.panel_names}
    left: Neighbours = {name: [] for name in project.panel_names}
    for sewn in project.sewn:
        a, b = panel_of(sewn.a), panel_of(sewn.b)
        right[a].append(b)
        left[b].append(a)
    return right, left


def _chain(start: PanelName, right: Neighbours, left: Neighbours, rest: dict[PanelName, None]) -> tuple[Chain, bool]:
    """The panels joined to one in a row, left to right, and whether the last is sewn to the first again."""
    after = _walk(start, right, rest, {start})
    ring = len(after) > 0 and start in right[after[-1]]
    before = [] if ring else _walk(start, left, rest, {start, *after})
    return (*reversed(before), start, *after), ring


def _walk(start: PanelName, beside: Neighbours, rest: dict[PanelName, None], met: set[PanelName]) -> list[PanelName]:
    """The panels met from one on, always by the first seam that leads to one not met before."""
    found = [start]
    while ahead := [name for name in beside[found[-1]] if name in rest and name not in met and name not in found]:
        found.append(ahead[0])
    return found[1:]


def _opening(project: Project, chain: Chain) -> bool:
    """Whether the ends of a chain are the two panels of one piece, so that they close round an opening."""
    return len(chain) > 3 and project.piece_of(chain[0]) is project.piece_of(chain[-1])


def _front_and_back(project: Project, chain: Chain) -> WornChain:
    number = len(chain)
    first = chain.index(min(chain, key=project.panel_names.index))
    if all(project.piece_of(name).cut == "single" for name in chain):
        return WornChain(chain[first:] + chain[:first], True, (number + 1) // 2)
    left, middle = _middle(project, chain, first)
    beside = math.floor((number / 2 - middle) / 2 + 0.5)
    start, front = (left - beside) % number, 2 * beside + middle
    return WornChain(chain[start:] + chain[:start], True, front, sided=True)


def _middle(project: Project, chain: Chain, first: int) -> tuple[int, int]:
    """Where the middle of the front starts in a round, and how many panels it is: a neighbouring pair, or one."""
    piece = project.piece_of(chain[first])
    for left in (first - 1, first):
        pair = chain[left % len(chain)], chain[(left + 1) % len(chain)]
        if pair[0] != pair[1] and all(project.piece_of(name) is piece for name in pair):
            return left, 2
    return first, 1
