"""A ring of gores proposed as a whole: which edges are sewn together all the way round."""

import itertools
from collections import Counter
from collections.abc import Sequence
from functools import lru_cache

from core.errors import BadInput
from core.geometry.polyline import length
from core.model.panel import Panel, panels_of
from core.model.pattern import EdgeRef, PanelName, Piece, Seam, other_side, panel_of
from core.model.project import Project
from core.seams.sides import Side, sides_of
from core.wording import later, tr

CENTRE_FRONT, CENTRE_BACK = later("centre front"), later("centre back")
"""What the seams in the middle of a skirt are called."""

Join = tuple[EdgeRef, EdgeRef]
"""The edge on the left of a seam and the one on its right, as seen from outside."""


def propose_ring(project: Project) -> tuple[Seam, ...]:
    """Seams that sew the panels of all pieces to a ring, in the order of the pieces, whatever seams there are.

    Pieces cut singly or on the fold follow each other from left to right as seen from outside, and the last is sewn to
    the first. Where there are pairs, the first piece lies at the centre front, the next on both sides of it and so on,
    and the last at the centre back; a piece that is no pair can then only be the first or the last. Two panels are sewn
    together edge by edge where both have as many on the side between them, else by the two whose lengths are nearest.
    Raises BadInput: a piece that is no pair stands between pairs, a panel has no edge on a side.
    """
    panels = {panel.name: panel for piece in project.pieces for panel in panels_of(piece)}
    joins = [join for a, b in _neighbours(project.pieces) for join in _joins(panels[a], panels[b])]
    return _named(_folded_together(joins), project.pieces)


def _neighbours(pieces: Sequence[Piece]) -> list[tuple[PanelName, PanelName]]:
    """All panels side by side, left and right as seen from outside; with pairs from the centre front to the back."""
    if not any(piece.cut == "pair" for piece in pieces):
        singles = [piece.id for piece in pieces]
        return list(itertools.pairwise([*singles, singles[0]]))
    for piece in pieces[1:-1]:
        if piece.cut != "pair":
            fitting = tr("first or last in a ring of pairs is right; a pair elsewhere")
            raise BadInput(tr("it is one panel between pairs"), tr("piece {id!r}", id=piece.id), fitting)
    right = [piece.panel_names[0] for piece in reversed(pieces) if piece.cut == "pair"]
    left = [piece.panel_names[1] for piece in pieces if piece.cut == "pair"]
    before = [pieces[0].id] if pieces[0].cut != "pair" else []
    behind = [pieces[-1].id] if pieces[-1].cut != "pair" else []
    pairs = list(itertools.pairwise([*right, *before, *left, *behind, right[0]]))
    return pairs[: len(right)][::-1] + pairs[len(right) :]


def _joins(a: Panel, b: Panel) -> list[Join]:
    """The edges by which two panels side by side are sewn together, from the top down."""
    here, there = _edges_on(a, "right"), _edges_on(b, "left")[::-1]
    if len(here) == len(there):
        return [(f"{a.name}/{x}", f"{b.name}/{y}") for x, y in zip(here, there, strict=True)]
    x, y = min(itertools.product(here, there), key=lambda pair: abs(length(a.net[pair[0]]) - length(b.net[pair[1]])))
    return [(f"{a.name}/{x}", f"{b.name}/{y}")]


_SIDE_WORDS = (later("left"), later("right"))


@lru_cache(maxsize=1024)
def _edges_on(panel: Panel, side: Side) -> list[str]:
    """Names of a panel's edges on a side, in outline order."""
    found = [name for name, where in zip(panel.net, sides_of(list(panel.net.values())), strict=True) if where == side]
    if not found:
        raise BadInput(
            tr("it has no edge on its {side}", side=tr(side)),
            tr("panel {name!r}", name=panel.name),
            tr("a gore has an edge on either side"),
        )
    return _in_a_row(list(panel.net), found)


def _in_a_row(ring: list[str], found: list[str]) -> list[str]:
    """Edges that follow each other in a ring, beginning with the one that follows none of them."""
    first = next((name for name in found if ring[ring.index(name) - 1] not in found), found[0])
    start = ring.index(first)
    return [name for name in ring[start:] + ring[:start] if name in found]


def _folded_together(joins: list[Join]) -> list[tuple[Join, bool]]:
    """Every join once, a mirrored one with its original, and whether it stands for both sides."""
    kept: list[tuple[Join, bool]] = []
    for a, b in joins:
        mirrored = (other_side(b), other_side(a))
        if mirrored == (a, b) or mirrored not in joins:
            kept.append(((a, b), False))
        elif not any(join == mirrored for join, _ in kept):
            kept.append(((a, b), True))
    return kept


def _named(joins: list[tuple[Join, bool]], pieces: Sequence[Piece]) -> tuple[Seam, ...]:
    names = [seam_name(a, b, pieces) for (a, b), _ in joins]
    often, met, seams = Counter(names), Counter[str](), []
    for name, ((a, b), both) in zip(names, joins, strict=True):
        met[name] += 1
        seams.append(Seam(name=name if often[name] == 1 else f"{name} {met[name]}", a=a, b=b, both_sides=both))
    return tuple(seams)


def seam_name(a: EdgeRef, b: EdgeRef, pieces: Sequence[Piece]) -> str:
    """What a seam between two edges is called: its place where the panels are of one pair, else the two pieces."""
    owner = {panel: piece for piece in pieces for panel in piece.panel_names}
    first, second = owner[panel_of(a)], owner[panel_of(b)]
    if first is second and first.cut == "pair":
        return tr(CENTRE_FRONT if panel_of(a).endswith(".R") else CENTRE_BACK)
    return tr("{one} to {other}", one=first.id, other=second.id)
