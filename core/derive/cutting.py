"""Everything that is cut: the drawn pieces, and those derived from them by layers and strips."""

import msgspec

from core.derive.layers import layer_piece
from core.derive.strips import strip_pieces
from core.model.pattern import Piece
from core.model.project import Project


def cut_project(project: Project) -> Project:
    """The project in which every derived piece is a piece like any other, ready to be laid on its cloth.

    Placements and ticks stay: they may name panels of derived pieces. Raises BadInput for a layer that can't be had.
    """
    return msgspec.structs.replace(project, pieces=(*project.pieces, *derived_pieces(project)), layers=(), strips=())


def derived_pieces(project: Project) -> tuple[Piece, ...]:
    """The pieces of all layers, then of all strips. Raises BadInput for a layer that can't be had."""
    drawn = {piece.id: piece for piece in project.pieces}
    layers = [layer_piece(layer, drawn[name]) for layer in project.layers for name in layer.of]
    return (*layers, *(piece for strip in project.strips for piece in strip_pieces(strip)))
