"""Pieces of layers, derived from the drawn ones: interlining whole, facing and lining as a band along an edge."""

import msgspec

from core.derive.band import Band, band_along
from core.errors import BadInput
from core.geometry.paths import path_of
from core.model.panel import net_and_cut, net_notches
from core.model.pattern import Edge, Notch, Piece
from core.model.project import Layer
from core.wording import tr

DIGITS = 6
"""Decimals of a millimetre in the paths of derived pieces."""


def layer_piece(layer: Layer, piece: Piece) -> Piece:
    """The piece that a layer asks for under a drawn one, cut as that one is, from the layer's cloth.

    Raises BadInput where the depth reaches through the piece, or the edge does not meet a fold.
    """
    if layer.edge is None or layer.depth is None:
        return _whole(layer, piece)
    place = tr("layer {title!r} of piece {id!r}", title=layer.title, id=piece.id)
    net, _ = net_and_cut(piece)
    try:
        band = band_along(net, layer.edge, layer.depth)
    except BadInput as error:
        raise BadInput(error.what, place, error.right) from None
    if piece.fold is not None and piece.fold not in band.net:
        raise BadInput(
            tr("edge {edge!r} does not meet the fold, so the band would be in two", edge=layer.edge),
            place,
            tr("an edge that meets it"),
        )
    return _banded(layer, piece, band)


def _whole(layer: Layer, piece: Piece) -> Piece:
    if layer.allowance is None:
        return msgspec.structs.replace(piece, **_names(layer, piece))
    net, _ = net_and_cut(piece)
    edges = tuple(
        Edge(name=edge.name, path=path_of(net[edge.name], DIGITS), allowance=_allowance(layer, piece, edge.name))
        for edge in piece.edges
    )
    return _named(layer, piece, edges, net_notches(piece))


def _banded(layer: Layer, piece: Piece, band: Band) -> Piece:
    edges = tuple(
        Edge(name=name, path=path_of(line, DIGITS), allowance=_allowance(layer, piece, band.part_of[name]))
        for name, line in band.net.items()
    )
    notches = tuple(
        Notch(edge=name, at=notch.at - start)
        for notch in net_notches(piece)
        for name, (start, end) in band.kept.items()
        if band.part_of[name] == notch.edge and start <= notch.at <= end
    )
    return _named(layer, piece, edges, notches)


def _named(layer: Layer, piece: Piece, edges: tuple[Edge, ...], notches: tuple[Notch, ...]) -> Piece:
    return msgspec.structs.replace(piece, edges=edges, notches=notches, outline_is="net", **_names(layer, piece))


def _names(layer: Layer, piece: Piece) -> dict[str, str]:
    return {"id": layer.piece_id(piece.id), "name": f"{piece.title}, {layer.title}", "cloth": layer.cloth}


def _allowance(layer: Layer, piece: Piece, edge: str | None) -> float:
    """The allowance of an edge of a derived piece; None stands for the loose edge at the depth."""
    if edge is None:
        return layer.inner_allowance
    if edge == piece.fold:
        return 0.0
    given = next(drawn.allowance for drawn in piece.edges if drawn.name == edge)
    return given if layer.allowance is None else layer.allowance
