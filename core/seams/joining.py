"""Edges sewn together: seams made, changed and taken out of a project, each as a value from a value."""

from typing import Any

import msgspec

from core.errors import BadInput
from core.geometry.paths import Points
from core.geometry.polyline import length
from core.model.panel import panels_of
from core.model.pattern import EdgeRef, Seam, other_side, panel_of, sewn_seams
from core.model.project import Centre, Project
from core.model.validate import validate
from core.seams.propose import propose_ring, seam_name
from core.wording import listed, tr

STEEP = 0.7
"""An edge that leads down or up by this share of its length lies on the side of its panel."""

ONE_LENGTH_MM = 1.0


def edges_of(project: Project) -> dict[EdgeRef, Points]:
    """The stitching lines of all edges of all panels, in outline order, each in its panel's frame."""
    return {
        f"{panel.name}/{name}": line
        for piece in project.pieces
        for panel in panels_of(piece)
        for name, line in panel.net.items()
    }


def free_edges(project: Project) -> tuple[EdgeRef, ...]:
    """The edges that no seam sews yet: those that lead up or down, then tops and hems, in the order of the panels."""
    sewn = {ref for seam in project.sewn for ref in (seam.a, seam.b)}
    free = [(ref, line) for ref, line in edges_of(project).items() if ref not in sewn]
    return tuple(ref for ref, line in sorted(free, key=lambda edge: abs(_runs_down(edge[1])) < STEEP))


def likely_partner(project: Project, ref: EdgeRef) -> EdgeRef | None:
    """The free edge that one is most likely sewn to; None if no other is free.

    It leads the other way (down against up) on another panel, is of one length within a millimetre or else nearest in
    length, and rather on the same side of another piece than on the mirror image of its own.
    """
    edges = edges_of(project)
    way, size = _runs_down(edges[ref]), length(edges[ref])

    def unlike(other: EdgeRef) -> tuple[bool, bool, bool, bool, bool, float]:
        apart = abs(length(edges[other]) - size)
        same_panel, same_way = panel_of(other) == panel_of(ref), abs(way + _runs_down(edges[other])) > STEEP
        crosses = panel_of(other)[-2:] in (".R", ".L") and panel_of(other)[-2:] != panel_of(ref)[-2:]
        return same_panel, same_way, apart > ONE_LENGTH_MM, other == other_side(ref), crosses, apart

    return min((other for other in free_edges(project) if other != ref), key=unlike, default=None)


def sew(project: Project, one: EdgeRef, other: EdgeRef) -> Project:
    """The project with a last seam that sews two edges together, the right way round and with a name of its own.

    a is the edge that runs down in outline order. Where the two panels have mirror images whose edges are free as well,
    the seam stands for both sides. Raises BadInput where an edge is sewn already, or the two are one.
    """
    free = free_edges(project)
    for ref in (one, other):
        if ref not in free:
            raise BadInput(
                tr("edge {ref!r} is sewn already, or not there", ref=ref),
                "seams",
                tr("two edges that are free are right"),
            )
    a, b = left_and_right(project, one, other)
    mirrored = (other_side(b), other_side(a))
    both = frozenset(mirrored).isdisjoint((a, b)) and set(mirrored) <= set(free)
    name = _fresh(project, seam_name(a, b, project.pieces))
    return _checked(project, (*project.seams, Seam(name=name, a=a, b=b, both_sides=both)))


def left_and_right(project: Project, one: EdgeRef, other: EdgeRef) -> tuple[EdgeRef, EdgeRef]:
    """Two edges as a and b: of the two the one that runs down in outline order, or more so, is a."""
    edges = edges_of(project)
    return (one, other) if _runs_down(edges[one]) >= _runs_down(edges[other]) else (other, one)


def _runs_down(line: Points) -> float:
    """Share of its length by which an edge leads down."""
    return float(line[-1, 1] - line[0, 1]) / length(line)


def can_stand_for_both(project: Project, seam: Seam) -> bool:
    """Whether a seam has a mirror image: both edges exist on the other side, and it is not its own mirror image."""
    edges = edges_of(project)
    mirrored = {other_side(seam.a), other_side(seam.b)}
    return mirrored != {seam.a, seam.b} and mirrored <= edges.keys() and mirrored.isdisjoint((seam.a, seam.b))


def with_ring(project: Project) -> Project:
    """The project with the seams of a ring of all panels, as far as their edges are free; what is sewn stays.

    Raises BadInput where the pieces make no ring, or nothing of it is left to sew.
    """
    free = set(free_edges(project))
    new = [seam for seam in propose_ring(project) if {ref for s in sewn_seams((seam,)) for ref in (s.a, s.b)} <= free]
    if not new:
        raise BadInput(tr("every edge of the ring is sewn"), "seams", tr("take a seam out first"))
    for seam in new:
        named = msgspec.structs.replace(seam, name=_fresh(project, seam.name))
        project = msgspec.structs.replace(project, seams=(*project.seams, named))
    return _checked(project, project.seams)


def with_seam(project: Project, called: str, **changes: Any) -> Project:
    """The project with some keys of the seam of a name changed. Raises BadInput where that can't be."""
    before = seam_named(project, called)
    after = msgspec.structs.replace(before, **changes)
    seams = tuple(after if seam is before else seam for seam in project.seams)
    renamed = _with_centre(project, called, after.name) if after.name != called else project
    return _checked(renamed, seams)


def without_seam(project: Project, name: str) -> Project:
    """The project without the seam of a name; where it was to hold the centre of the match, the centre is free."""
    gone = seam_named(project, name)
    return _checked(_with_centre(project, name, None), tuple(seam for seam in project.seams if seam is not gone))


def seam_named(project: Project, name: str) -> Seam:
    """The seam with a name. Raises BadInput if there is none."""
    for seam in project.seams:
        if seam.name == name:
            return seam
    raise BadInput(
        tr("no seam {name!r}", name=name),
        right=tr("the seams are {names}", names=listed(seam.name for seam in project.seams)),
    )


def _with_centre(project: Project, name: str, now: str | None) -> Project:
    centre = project.match.centre
    if centre.seam != name:
        return project
    centre = Centre() if now is None else msgspec.structs.replace(centre, seam=now)
    return msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, centre=centre))


def _checked(project: Project, seams: tuple[Seam, ...]) -> Project:
    changed = msgspec.structs.replace(project, seams=seams)
    validate(changed)
    return changed


def _fresh(project: Project, name: str) -> str:
    taken = {seam.name for seam in project.seams}
    names = (name if count == 1 else f"{name} {count}" for count in range(1, len(taken) + 2))
    return next(one for one in names if one not in taken)
