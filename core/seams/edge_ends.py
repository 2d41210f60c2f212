"""From the edges of panels back to the edges of pieces as drawn, and pieces with an edge reshaped at one end."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import Literal

import msgspec
import numpy as np

from core.geometry.beziers import Segments, path_data, reversed_segments
from core.geometry.paths import Points, flatten, segments_of
from core.geometry.polyline import length
from core.geometry.reshape import lengthened, moved_end, turned_end
from core.model.panel import panels_of
from core.model.pattern import EdgeRef, Notch, Piece, edge_of, panel_of
from core.model.project import Project
from core.seams.runs_through import End

Keeps = Literal["distance from the other end", "share of the length"]
"""What a notch keeps when its edge changes its length."""


@dataclass(frozen=True)
class EdgeEnd:
    """One end of an edge of a piece as drawn: where the drawn edge starts, or where it stops."""

    piece: str
    edge: str
    at_start: bool


def edge_end(project: Project, ref: EdgeRef, is_a: bool, end: End) -> EdgeEnd:
    """The drawn end that is an end of a seam: a runs down in outline order, b up, a reflected edge the other way.

    Both panels of a pair, and both halves of a fold, come from one drawn edge.
    """
    piece = project.piece_of(panel_of(ref))
    panel = next(panel for panel in panels_of(piece) if panel.name == panel_of(ref))
    name, reflected = edge_of(ref), panel.mirrored
    if piece.cut == "fold":
        reflected = name.endswith(".L") == (piece.drawn == "right")
        name = name[:-2]
    return EdgeEnd(piece.id, name, ((end == "upper") == is_a) != reflected)


def beside(project: Project, end: EdgeEnd) -> EdgeEnd:
    """The end of the neighbouring edge at the same corner."""
    names = [edge.name for edge in piece_with(project, end.piece).edges]
    step = -1 if end.at_start else 1
    return EdgeEnd(end.piece, names[(names.index(end.edge) + step) % len(names)], not end.at_start)


def piece_with(project: Project, piece_id: str) -> Piece:
    """The piece with an id that is known to be there."""
    return next(piece for piece in project.pieces if piece.id == piece_id)


def with_piece(project: Project, changed: Piece) -> Project:
    """The project with one piece changed."""
    pieces = tuple(changed if piece.id == changed.id else piece for piece in project.pieces)
    return msgspec.structs.replace(project, pieces=pieces)


def with_longer_edge(project: Project, end: EdgeEnd, by: float) -> Project:
    """The project with a drawn edge lengthened (shortened, if negative) at one end, its neighbour following, mm."""
    before = _corner(project, end)
    longer = _reshaped(project, end, lambda segments: lengthened(segments, by), "distance from the other end")
    shift = _corner(longer, end) - before
    return _reshaped(longer, beside(project, end), lambda segments: moved_end(segments, shift), "share of the length")


def with_moved_end(project: Project, end: EdgeEnd, by: Points) -> Project:
    """The project with an end of a drawn edge moved by a vector, mm, both edges that meet there following.

    Every point of an edge goes along by its share of the way to that end.
    """
    moved = _reshaped(project, end, lambda segments: moved_end(segments, by), "share of the length")
    return _reshaped(moved, beside(project, end), lambda segments: moved_end(segments, by), "share of the length")


def with_turned_edge(project: Project, end: EdgeEnd, by_deg: float) -> Project:
    """The project with a drawn edge turned at one end so that the piece's inner angle there grows, degrees."""
    turn = -by_deg if end.at_start else by_deg
    return _reshaped(project, end, lambda segments: turned_end(segments, turn), "share of the length")


def _corner(project: Project, end: EdgeEnd) -> Points:
    return np.asarray(flatten(_path(project, end))[0 if end.at_start else -1])


def _path(project: Project, end: EdgeEnd) -> str:
    return next(edge.path for edge in piece_with(project, end.piece).edges if edge.name == end.edge)


def _reshaped(project: Project, end: EdgeEnd, change: Callable[[Segments], Segments], keeps: Keeps) -> Project:
    """The project with one edge changed by a function that works on the end of a curve.

    The line as it is counts from then on: what the piece's edges were before a shift is forgotten.
    """
    old = _path(project, end)
    segments = segments_of(old)
    after = reversed_segments(change(reversed_segments(segments))) if end.at_start else change(segments)
    new = path_data(after)
    piece = piece_with(project, end.piece)
    edges = tuple(
        msgspec.structs.replace(edge, path=new if edge.name == end.edge else edge.path, before_shift=None)
        for edge in piece.edges
    )
    sizes = length(flatten(old)), length(flatten(new))
    notches = tuple(_kept(notch, sizes, end, keeps) if notch.edge == end.edge else notch for notch in piece.notches)
    return with_piece(project, msgspec.structs.replace(piece, edges=edges, notches=notches))


def _kept(notch: Notch, sizes: tuple[float, float], end: EdgeEnd, keeps: Keeps) -> Notch:
    before, after = sizes
    if keeps == "share of the length":
        at = notch.at * after / before
    else:
        at = notch.at + (after - before if end.at_start else 0.0)
    return msgspec.structs.replace(notch, at=min(max(at, 0.0), after))
