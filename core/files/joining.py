"""The pieces of one project added to another."""

from collections.abc import Collection

import msgspec

from core.model.pattern import EdgeRef, Piece, Seam
from core.model.project import Project
from core.model.validate import validate


def with_pieces_of(project: Project, more: Project) -> Project:
    """The project with the pieces and seams of another, whose cloths it must have already.

    Ids of pieces and names of seams that are taken get a number. Raises BadInput where the whole is not in order.
    """
    ids = {piece.id for piece in project.pieces}
    renamed = {piece.id: _free(piece.id, ids) for piece in more.pieces}
    pieces = tuple(msgspec.structs.replace(piece, id=renamed[piece.id]) for piece in more.pieces)
    names = {seam.name for seam in project.seams}
    added = tuple(_renamed(seam, more.pieces, renamed, _free(seam.name, names)) for seam in more.seams)
    joined = msgspec.structs.replace(project, pieces=(*project.pieces, *pieces), seams=(*project.seams, *added))
    validate(joined)
    return joined


def _free(name: str, taken: set[str]) -> str:
    """The name, with a number where it is taken; it is taken from then on."""
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    taken.add(free)
    return free


def _renamed(seam: Seam, pieces: Collection[Piece], renamed: dict[str, str], name: str) -> Seam:
    owners = {panel: piece.id for piece in pieces for panel in piece.panel_names}
    return msgspec.structs.replace(
        seam, name=name, a=_moved(seam.a, owners, renamed), b=_moved(seam.b, owners, renamed)
    )


def _moved(ref: EdgeRef, owners: dict[str, str], renamed: dict[str, str]) -> EdgeRef:
    panel, _, edge = ref.partition("/")
    piece = owners[panel]
    return f"{renamed[piece]}{panel.removeprefix(piece)}/{edge}"
