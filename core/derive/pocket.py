"""Pocket bags, drafted along the seam in which the pocket's mouth lies."""

import msgspec
import numpy as np

from core.errors import BadInput
from core.geometry.paths import Points, path_of
from core.geometry.polyline import length, stretch
from core.model.panel import net_and_cut, panels_of
from core.model.pattern import Edge, Notch, Piece, edge_of, panel_of
from core.model.project import Pocket, Project
from core.seams.garment import joined
from core.wording import listed, tr

BEYOND_MM = 20.0
"""How far a bag is sewn into the seam above and below the mouth."""

DIGITS = 6


def pocket_pieces(pocket: Pocket, project: Project) -> tuple[Piece, ...]:
    """The bags of a pocket, each piece a pair, drafted along the left edge of its seam.

    Raises BadInput for a mouth that is not on the seam.
    """
    piece, edge, lift = _left_side(pocket, project)
    mouth = pocket.opening[0] + lift, pocket.opening[1] + lift
    try:
        bag = pocket_bag(piece, edge, mouth, pocket.cloth, pocket.width, pocket.depth, pocket.allowance)
    except BadInput as error:
        raise BadInput(error.what, tr("pocket {id!r}", id=pocket.id), error.right) from None
    ids = project.bag_ids(pocket)
    return tuple(
        msgspec.structs.replace(bag, id=one, name=tr("{title}, pocket bag", title=pocket.title)) for one in ids
    )


def _left_side(pocket: Pocket, project: Project) -> tuple[Piece, str, float]:
    """The piece on the left of a pocket's seam, its edge as drawn, and how far down it the seam begins, mm."""
    sewn = next(one for one in project.sewn if one.seam.name == pocket.seam)
    pieces = [project.piece_of(panel_of(ref)) for ref in (sewn.a, sewn.b)]
    lengths = [
        length(next(panel for panel in panels_of(piece) if panel.name == panel_of(ref)).net[edge_of(ref)])
        for piece, ref in zip(pieces, (sewn.a, sewn.b), strict=True)
    ]
    edge = edge_of(sewn.a)[:-2] if pieces[0].cut == "fold" else edge_of(sewn.a)
    return pieces[0], edge, joined(sewn.seam, lengths[0], lengths[1])[1]


def pocket_bag(
    piece: Piece, edge: str, opening: tuple[float, float], cloth: str, width: float, depth: float, allowance: float
) -> Piece:
    """A bag that fits the stitching line of an edge of a piece, with the mouth marked on its seam side; cut as a pair.

    `opening` is from where to where down the edge the mouth lies, `width` how far the bag reaches into the panel from
    the seam, `depth` how far its rounded bottom hangs below the seam side, all mm. The bag is drawn with its seam side
    to the right. Raises BadInput for a mouth that is not on the edge.
    """
    side, mouth = _seam_side(piece, edge, opening)
    top, foot = side[0], side[-1]
    left = min(top[0], foot[0]) - width
    drop = foot[1] + depth * 4 / 3
    paths = {
        "seam side": path_of(side, DIGITS),
        "bottom": f"M {_at(foot)} C {_at((foot[0], drop))} {_at((left, drop))} {_at((left, foot[1]))}",
        "inner side": path_of(np.array([[left, foot[1]], [left, top[1]]]), DIGITS),
        "top": path_of(np.array([[left, top[1]], top]), DIGITS),
    }
    return Piece(
        id=f"{piece.id} pocket bag",
        name=tr("{title}, pocket bag", title=piece.title),
        cloth=cloth,
        cut="pair",
        edges=tuple(Edge(name=name, path=path, allowance=allowance) for name, path in paths.items()),
        notches=tuple(Notch(edge="seam side", at=at) for at in mouth),
    )


def _seam_side(piece: Piece, edge: str, opening: tuple[float, float]) -> tuple[Points, tuple[float, float]]:
    """The stretch of the edge that the bag is sewn to, downwards, and where on it the mouth begins and ends."""
    net, _ = net_and_cut(piece)
    place = tr("pocket on edge {edge!r} of piece {id!r}", edge=edge, id=piece.id)
    if edge not in net:
        raise BadInput(tr("there is no such edge"), place, tr("the edges are {names}", names=listed(net)))
    line = net[edge] if net[edge][-1, 1] > net[edge][0, 1] else (net[edge] * [-1.0, 1.0])[::-1]
    long = length(line)
    if not 0 <= opening[0] < opening[1] <= long:
        what = tr("its mouth goes from {start:g} to {end:g} mm", start=opening[0], end=opening[1])
        raise BadInput(what, place, tr("from 0 to {long:.0f} mm is right, from below to", long=long))
    start, end = max(opening[0] - BEYOND_MM, 0.0), min(opening[1] + BEYOND_MM, long)
    return stretch(line, start, end), (opening[0] - start, opening[1] - start)


def _at(point: Points | tuple[float, float]) -> str:
    return f"{float(point[0]):.{DIGITS}f} {float(point[1]):.{DIGITS}f}"
