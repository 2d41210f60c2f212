"""Which edges are moved together, and which can't be moved.

An edge of a piece is one curve, however many panels are cut from it, and what one side of a seam gains the other loses.
Edges that are tied in this way make a group; a group in which an edge would have to gain and lose at once stays.
"""

from dataclasses import dataclass

from core.model.pattern import EdgeRef, SewnSeam, panel_of
from core.model.project import Project
from core.seams.edge_ends import EdgeEnd, beside, edge_end, piece_with
from core.seams.garment import Garment, SeamLine
from core.wording import later, tr

ROOM_MM = 5.0
"""A panel that is cut already keeps at least this much allowance beyond a line that is moved."""

OVERHANG_MM = 0.5
"""Edges that are sewn end to end, one of them longer by more than this, are not moved."""

ALIKE = later("its edges lean alike, so that moving the line changes no step")
"""Why a group stays whose lines could be moved, but to no purpose."""

EdgeKey = tuple[str, str]
"""A piece's id and the name of one of its edges as drawn."""


@dataclass(frozen=True, eq=False)
class EdgeGroup:
    """Edges that are moved together. `ways` is 1 for those moved out where the group's shift is positive, -1 for those
    moved in; `from_start` says whether an edge's upper end is where its drawing starts.

    `seams` are the places of its seams among the garment's, `stays` says why it can't be moved ("" if it can), and
    `ends_stay` whether its upper and its lower end must stay.
    """

    ways: dict[EdgeKey, int]
    from_start: dict[EdgeKey, bool]
    seams: tuple[int, ...]
    stays: str
    ends_stay: tuple[bool, bool]

    def way_of(self, project: Project, ref: EdgeRef, is_a: bool) -> int:
        """1 or -1: whether an edge of a panel is moved out or in where the group's shift is positive."""
        return self.ways[key_of(edge_end(project, ref, is_a, "upper"))]


def key_of(end: EdgeEnd) -> EdgeKey:
    """The edge that an end belongs to."""
    return end.piece, end.edge


def edge_groups(project: Project, garment: Garment, cap_mm: float, keep_ends: bool) -> tuple[EdgeGroup, ...]:
    """All groups of sewn edges, in the order of their first seam."""
    uses = [_ends(project, sewn) for sewn in project.sewn]
    names: dict[EdgeKey, int] = {}
    for pair in uses:
        keys = [key_of(end) for end in pair]
        merged = {names[key] for key in keys if key in names}
        name = min(merged, default=len(names))
        names.update({key: name for key, other in names.items() if other in merged})
        names.update(dict.fromkeys(keys, name))
    found: dict[int, list[int]] = {}
    for index, (end, _) in enumerate(uses):
        found.setdefault(names[key_of(end)], []).append(index)
    sewn = set(names)
    return tuple(_group(project, garment, tuple(seams), uses, sewn, cap_mm, keep_ends) for seams in found.values())


def _ends(project: Project, sewn: SewnSeam) -> tuple[EdgeEnd, EdgeEnd]:
    return edge_end(project, sewn.a, True, "upper"), edge_end(project, sewn.b, False, "upper")


def _group(
    project: Project,
    garment: Garment,
    seams: tuple[int, ...],
    uses: list[tuple[EdgeEnd, EdgeEnd]],
    sewn: set[EdgeKey],
    cap_mm: float,
    keep_ends: bool,
) -> EdgeGroup:
    ends = [end for index in seams for end in uses[index]]
    from_start = {key_of(end): end.at_start for end in ends}
    ways = _ways([(key_of(a), key_of(b)) for a, b in (uses[index] for index in seams)])
    lines = [garment.seams[index] for index in seams]
    torn = any(from_start[key_of(end)] != end.at_start for end in ends)
    stays = "" if ways and not torn else tr("what one edge gains its own mirror image would lose")
    stays = stays or _too_long(lines) or _too_little_room(project, lines, cap_mm)
    upper = [EdgeEnd(*key, at_start) for key, at_start in from_start.items()]
    lower = [EdgeEnd(*key, not at_start) for key, at_start in from_start.items()]
    tied = tuple(keep_ends or any(_tied(project, end, sewn) for end in side) for side in (upper, lower))
    return EdgeGroup(ways or dict.fromkeys(from_start, 1), from_start, seams, stays, (tied[0], tied[1]))


def _ways(pairs: list[tuple[EdgeKey, EdgeKey]]) -> dict[EdgeKey, int] | None:
    """Opposite ways for the two edges of every pair; None where that can't be."""
    ways = {pairs[0][0]: 1}
    for _ in pairs:
        for a, b in pairs:
            if a in ways:
                ways.setdefault(b, -ways[a])
            elif b in ways:
                ways[a] = -ways[b]
    return ways if all(ways[a] == -ways[b] for a, b in pairs) else None


def _tied(project: Project, end: EdgeEnd, sewn: set[EdgeKey]) -> bool:
    """Whether an end must stay because the edge beside it is sewn too, or is a fold."""
    neighbour = key_of(beside(project, end))
    return neighbour in sewn or piece_with(project, end.piece).fold == neighbour[1]


def _too_long(lines: list[SeamLine]) -> str:
    for line in lines:
        if line.sewn.seam.join != "spread" and abs(line.edge_lengths[0] - line.edge_lengths[1]) > OVERHANG_MM:
            return tr("one edge is longer than the other and hangs over")
    return ""


def _too_little_room(project: Project, lines: list[SeamLine], cap_mm: float) -> str:
    """Why the allowances don't let the line of a panel that is cut already be moved."""
    for line in lines:
        cut = [panel for panel in line.panels if project.placement(panel).hold or panel in project.done]
        least = min(_allowance(project, ref, is_a) for ref, is_a in ((line.sewn.a, True), (line.sewn.b, False)))
        if cut and least < cap_mm + ROOM_MM:
            return tr(
                "{cut} is held, and an allowance of {least:g} mm leaves too little beside a moved line",
                cut=cut[0],
                least=least,
            )
    return ""


def _allowance(project: Project, ref: EdgeRef, is_a: bool) -> float:
    end = edge_end(project, ref, is_a, "upper")
    piece = project.piece_of(panel_of(ref))
    return next(edge.allowance for edge in piece.edges if edge.name == end.edge)
