"""Everything that is cut: the drawn pieces, and those derived from them by layers, pockets and strips."""

from collections.abc import Iterable

import msgspec

from core.derive.joined import joined_pieces
from core.derive.layers import layer_piece
from core.derive.pocket import pocket_pieces
from core.derive.strips import strip_pieces
from core.model.pattern import Piece
from core.model.project import Layer, Project


def cut_project(project: Project) -> Project:
    """The project in which every derived piece is a piece like any other, ready to be laid on its cloth.

    Placements and ticks stay: they may name panels of derived pieces. Raises BadInput for a layer that can't be had.
    """
    return with_derived(project, derived_pieces(project))


def with_derived(project: Project, pieces: Iterable[Piece]) -> Project:
    """The project with some derived pieces as pieces like any other, and nothing left to derive."""
    return msgspec.structs.replace(project, pieces=(*project.pieces, *pieces), layers=(), strips=(), pockets=())


def derived_pieces(project: Project) -> tuple[Piece, ...]:
    """The pieces of all layers, then of pockets and strips. Raises BadInput for one that can't be had."""
    layers = [piece for layer in project.layers for piece in layer_pieces(layer, project)]
    pockets = [piece for pocket in project.pockets for piece in pocket_pieces(pocket, project)]
    return (*layers, *pockets, *(piece for strip in project.strips for piece in strip_pieces(strip)))


def layer_pieces(layer: Layer, project: Project) -> tuple[Piece, ...]:
    """The pieces of one layer: one for each piece it lies under, or joined. Raises BadInput if it can't be had."""
    if layer.joined:
        return joined_pieces(layer, project)
    drawn = {piece.id: piece for piece in project.pieces}
    return tuple(layer_piece(layer, drawn[name]) for name in layer.of)
