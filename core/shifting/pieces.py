"""Pieces with moved stitching lines, and back to the lines as they were."""

from dataclasses import dataclass

import msgspec
import numpy as np

from core.geometry.beziers import Segments, path_data, reversed_segments
from core.geometry.fitting import curve_through
from core.geometry.paths import Points, flatten, path_of, segments_of
from core.geometry.polyline import Floats, length, lengths_along, points_at
from core.geometry.reshape import moved_end
from core.geometry.sideways import dense, moved_sideways, ways_out
from core.model.panel import drawn_edges, net_and_cut, net_notches
from core.model.pattern import Edge, Notch, Piece, panel_of
from core.model.project import Project
from core.model.validate import validate
from core.seams.edge_ends import edge_end, piece_with
from core.shifting.edges import EdgeGroup, EdgeKey, key_of
from core.shifting.spline import Spline

WITHIN_MM = 0.005
"""A moved line is written as lines and curves within this."""

LEAST_SHIFT_MM = 0.01
"""A group that is nowhere moved by more than this stays as it is."""


@dataclass(frozen=True, eq=False)
class Move:
    """A group of edges and how far it is moved: the coefficients of its spline, mm."""

    group: EdgeGroup
    spline: Spline
    shift: Floats


def with_moved_lines(project: Project, moves: list[Move]) -> Project:
    """The project with groups of edges moved.

    A piece given by its cutting line is given by its stitching line from then on; its cutting line follows from the
    allowances. Every edge that has changed keeps its path as it was in `before_shift`. Raises BadInput where a piece
    would lose its sound outline.
    """
    by_piece: dict[str, dict[str, Move]] = {}
    for move in moves:
        if np.abs(move.shift).max() > LEAST_SHIFT_MM:
            for piece, edge in move.group.ways:
                by_piece.setdefault(piece, {})[edge] = move
    pieces = tuple(_moved(piece, by_piece[piece.id]) if piece.id in by_piece else piece for piece in project.pieces)
    after = msgspec.structs.replace(project, pieces=pieces)
    validate(after)
    return after


def _moved(piece: Piece, moves: dict[str, Move]) -> Piece:
    piece = as_net(piece)
    lines = dict(zip([edge.name for edge in piece.edges], drawn_edges(piece), strict=True))
    moved = {name: _moved_line(lines[name], (piece.id, name), move) for name, move in moves.items()}
    corners = _corners(piece, lines, moved)
    edges, notches = [], list(piece.notches)
    for index, edge in enumerate(piece.edges):
        if edge.name in moved:
            line = moved[edge.name]
            path = path_data(curve_through(line, WITHIN_MM))
        else:
            path = _followed(edge.path, corners[index - 1], corners[index])
        edges.append(edge if path == edge.path else msgspec.structs.replace(edge, path=path, before_shift=edge.path))
        share = length(flatten(path)) / length(flatten(edge.path))
        notches = [_kept(notch, share) if notch.edge == edge.name else notch for notch in notches]
    return msgspec.structs.replace(piece, edges=tuple(edges), notches=tuple(notches))


def _kept(notch: Notch, share: float) -> Notch:
    """A notch at the same share of its edge's length."""
    return msgspec.structs.replace(notch, at=notch.at * share)


def _moved_line(line: Points, key: EdgeKey, move: Move) -> Points:
    """A drawn edge, in outline order, moved by its group's shift."""
    group, spline = move.group, move.spline
    down = group.from_start[key]
    points = dense(line if down else line[::-1])
    out = ways_out(points) * (1.0 if down else -1.0)
    by = group.ways[key] * (spline.values(lengths_along(points) / length(points)) @ move.shift)
    moved = moved_sideways(points, out, by, group.ends_stay[1])
    return moved if down else moved[::-1]


def present_shift(project: Project, base: Project, group: EdgeGroup, spline: Spline) -> Floats:
    """The coefficients of the shift that a group has in a project whose lines as they were stand in `base`, mm."""
    key = next(iter(group.ways))
    old, new = (flatten(_edge(piece_with(as_drawn, key[0]), key[1]).path) for as_drawn in (base, project))
    down = 1 if group.from_start[key] else -1
    points = dense(old[::down])
    shares = lengths_along(points) / length(points)
    there = points_at(new[::down], shares * length(new))
    by = np.sum((there - points) * ways_out(points), axis=1) * down * group.ways[key]
    return np.asarray(np.linalg.lstsq(spline.values(shares), by, rcond=None)[0])


def _corners(piece: Piece, lines: dict[str, Points], moved: dict[str, Points]) -> list[Points]:
    """Where each edge ends once some are moved; two moved edges never share a corner that moves."""
    names = [edge.name for edge in piece.edges]
    ends = []
    for name, after in zip(names, names[1:] + names[:1], strict=True):
        ends.append(moved[name][-1] if name in moved else moved[after][0] if after in moved else lines[name][-1])
    return ends


def _followed(path: str, start: Points, end: Points) -> str:
    """Path data of an edge that follows its two corners; the same where they lie where they lay."""
    segments = segments_of(path)
    by = end - np.array(segments[-1][-1]), start - np.array(segments[0][0])
    if max(np.hypot(*by[0]), np.hypot(*by[1])) < 1e-4:
        return path
    followed: Segments = moved_end(segments, by[0])
    return path_data(reversed_segments(moved_end(reversed_segments(followed), by[1])))


def as_net(piece: Piece) -> Piece:
    """The piece given by its stitching line."""
    if piece.outline_is == "net":
        return piece
    net, _ = net_and_cut(piece)
    edges = tuple(msgspec.structs.replace(edge, path=_short_path(net[edge.name])) for edge in piece.edges)
    return msgspec.structs.replace(piece, outline_is="net", edges=edges, notches=net_notches(piece))


def _short_path(line: Points) -> str:
    return path_data(curve_through(dense(line), WITHIN_MM)) if len(line) > 2 else path_of(line)


def unshifted(project: Project) -> Project:
    """The project with all lines as they were before they were shifted.

    Where one edge of a seam has been changed since and the other has not, the lines as they are count as the old ones.
    """
    whole = all(_is_old(project, sewn.a, True) == _is_old(project, sewn.b, False) for sewn in project.sewn)
    pieces = tuple(_restored(piece, whole) for piece in project.pieces)
    return project if pieces == project.pieces else msgspec.structs.replace(project, pieces=pieces)


def _is_old(project: Project, ref: str, is_a: bool) -> bool:
    edge = _edge(project.piece_of(panel_of(ref)), key_of(edge_end(project, ref, is_a, "upper"))[1])
    return edge.before_shift is None


def _edge(piece: Piece, name: str) -> Edge:
    return next(edge for edge in piece.edges if edge.name == name)


def _restored(piece: Piece, whole: bool) -> Piece:
    """A piece with its old paths, or with its paths as they are and nothing older."""
    notches = list(piece.notches)
    edges = []
    for edge in piece.edges:
        path = edge.before_shift if whole and edge.before_shift is not None else edge.path
        edges.append(msgspec.structs.replace(edge, path=path, before_shift=None))
        share = length(flatten(path)) / length(flatten(edge.path))
        notches = [_kept(notch, share) if notch.edge == edge.name else notch for notch in notches]
    return msgspec.structs.replace(piece, edges=tuple(edges), notches=tuple(notches))
