"""What a piece must satisfy: edges, closed outline, fold and notches, and the lines that follow from them."""

import math
from functools import lru_cache

import numpy as np

from core.errors import BadInput
from core.geometry.paths import Points, flatten
from core.geometry.polyline import length, signed_area
from core.model.panel import drawn_edges, panels_of, ring_of
from core.model.pattern import Edge, Piece
from core.model.project import Project
from core.model.rules import check_name, check_simple, unique, within

CORNER_GAP_MM = 0.01
FARTHEST_SHIFT_MM = 50.0
"""An edge ends no farther than this from where it ended before its line was shifted."""


def check_piece(project: Project, piece: Piece) -> None:
    """Check one piece: its names, its cloth, its lines. Raises BadInput."""
    place = f"piece {piece.id!r}"
    check_name(place, "id", piece.id)
    if piece.cloth not in {cloth.id for cloth in project.cloths}:
        ids = ", ".join(cloth.id for cloth in project.cloths)
        raise BadInput(f"its cloth {piece.cloth!r} is not there", place, f"the cloths are {ids}")
    _check_shape(piece)


@lru_cache(maxsize=1024)
def _check_shape(piece: Piece) -> None:
    """Check edges, outline, fold and notches. Few of many pieces change: what was sound once is not looked at again."""
    place = f"piece {piece.id!r}"
    if len(piece.edges) < 2:
        raise BadInput("it has fewer than two edges", place, "a closed outline needs at least two")
    unique(f"{place}, edges", [edge.name for edge in piece.edges])
    for edge in piece.edges:
        if "/" in edge.name:
            raise BadInput("its name has a / in it", f"{place}, edge {edge.name!r}", "/ parts panel and edge")
        within(f"{place}, edge {edge.name!r}", "allowance", edge.allowance, 0, 1000)
    lines = drawn_edges(piece)
    for edge in piece.edges:
        _check_before_shift(f"{place}, edge {edge.name!r}", edge)
    _check_outline(piece, place, lines)
    _check_fold(piece, place, lines)
    _check_notches(piece, place, lines)
    _check_both_lines(piece, place)


def _check_before_shift(place: str, edge: Edge) -> None:
    """The line as it was before a shift is a path, and lies within reach of the line as it is."""
    if edge.before_shift is None:
        return
    try:
        old, new = flatten(edge.before_shift), flatten(edge.path)
    except BadInput as error:
        raise BadInput(error.what, f"{place}, before_shift", error.right) from None
    apart = float(np.hypot(*(old[[0, -1]] - new[[0, -1]]).T).max())
    if apart > FARTHEST_SHIFT_MM:
        right = f"the path before the line was shifted, within {FARTHEST_SHIFT_MM:g} mm of it, or no such key"
        raise BadInput(f"before_shift ends {apart:.0f} mm off the path", place, right)


def _check_outline(piece: Piece, place: str, lines: list[Points]) -> None:
    for edge, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
        end, start = flatten(edge.path)[-1], flatten(after.path)[0]
        gap = float(np.hypot(*(end - start)))
        if gap > CORNER_GAP_MM:
            raise BadInput(
                f"the outline is open: {edge.name!r} ends at {_point(end)}, {after.name!r} starts at {_point(start)}",
                place,
                "each edge starts where the one before it ends",
            )
    check_simple(place, "outline", ring_of(lines))
    if signed_area(ring_of(lines)) < 0:
        raise BadInput("the edges go round anticlockwise", place, "clockwise as you look at it is right")


def _check_fold(piece: Piece, place: str, lines: list[Points]) -> None:
    if piece.cut != "fold":
        if piece.fold is not None:
            raise BadInput(f"it names a fold but is cut {piece.cut}", place, '"cut": "fold" is right')
        return
    names = [edge.name for edge in piece.edges]
    if piece.fold not in names:
        raise BadInput(f"its fold is {piece.fold!r}", place, f"one of its edges is right: {', '.join(names)}")
    line = lines[names.index(piece.fold)]
    if length(line) - math.dist(line[0], line[-1]) > CORNER_GAP_MM:
        raise BadInput("its fold is curved", place, "a straight centre edge is right")
    if len(names) < 3:
        raise BadInput("it has too few edges beside the fold", place, "at least two are right")


def _check_notches(piece: Piece, place: str, lines: list[Points]) -> None:
    lengths = {edge.name: length(line) for edge, line in zip(piece.edges, lines, strict=True)}
    for notch in piece.notches:
        if notch.edge not in lengths:
            raise BadInput(f"a notch on edge {notch.edge!r}", place, f"its edges are {', '.join(lengths)}")
        within(f"{place}, notch on {notch.edge!r}", "at", notch.at, 0, lengths[notch.edge])


def _check_both_lines(piece: Piece, place: str) -> None:
    other = "cutting line" if piece.outline_is == "net" else "stitching line"
    for panel in panels_of(piece):
        for what, ring in (("stitching line", panel.net_ring), ("cutting line", panel.cut_ring)):
            wrong = f"{what} (allowances taken {'on' if what == 'cutting line' else 'off'})" if what == other else what
            check_simple(place, wrong, ring)
            if signed_area(ring) < 0:
                raise BadInput(
                    f"an allowance is wider than the piece: its {what} turns inside out", place, "smaller ones"
                )


def _point(point: Points) -> str:
    return f"({point[0]:g}, {point[1]:g})"
