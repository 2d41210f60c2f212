"""Pocket bags, drafted along the seam in which the pocket's mouth lies."""

import numpy as np

from core.errors import BadInput
from core.geometry.paths import Points, path_of
from core.geometry.polyline import length, stretch
from core.model.panel import net_and_cut
from core.model.pattern import Edge, Notch, Piece

BEYOND_MM = 20.0
"""How far a bag is sewn into the seam above and below the mouth."""

DIGITS = 6


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
        name=f"{piece.title}, pocket bag",
        cloth=cloth,
        cut="pair",
        edges=tuple(Edge(name=name, path=path, allowance=allowance) for name, path in paths.items()),
        notches=tuple(Notch(edge="seam side", at=at) for at in mouth),
    )


def _seam_side(piece: Piece, edge: str, opening: tuple[float, float]) -> tuple[Points, tuple[float, float]]:
    """The stretch of the edge that the bag is sewn to, downwards, and where on it the mouth begins and ends."""
    net, _ = net_and_cut(piece)
    place = f"pocket on edge {edge!r} of piece {piece.id!r}"
    if edge not in net:
        raise BadInput("there is no such edge", place, f"the edges are {', '.join(net)}")
    line = net[edge] if net[edge][-1, 1] > net[edge][0, 1] else (net[edge] * [-1.0, 1.0])[::-1]
    long = length(line)
    if not 0 <= opening[0] < opening[1] <= long:
        what = f"its mouth goes from {opening[0]:g} to {opening[1]:g} mm"
        raise BadInput(what, place, f"from 0 to {long:.0f} mm is right, from below to")
    start, end = max(opening[0] - BEYOND_MM, 0.0), min(opening[1] + BEYOND_MM, long)
    return stretch(line, start, end), (opening[0] - start, opening[1] - start)


def _at(point: Points | tuple[float, float]) -> str:
    return f"{float(point[0]):.{DIGITS}f} {float(point[1]):.{DIGITS}f}"
