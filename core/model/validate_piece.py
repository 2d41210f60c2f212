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
from core.wording import listed, tr

CORNER_GAP_MM = 0.01
FARTHEST_SHIFT_MM = 50.0
"""An edge ends no farther than this from where it ended before its line was shifted."""


def check_piece(project: Project, piece: Piece) -> None:
    """Check one piece: its names, its cloth, its lines. Raises BadInput."""
    place = tr("piece {id!r}", id=piece.id)
    check_name(place, "id", piece.id)
    if piece.cloth not in {cloth.id for cloth in project.cloths}:
        ids = ", ".join(cloth.id for cloth in project.cloths)
        raise BadInput(
            tr("its cloth {cloth!r} is not there", cloth=piece.cloth), place, tr("the cloths are {ids}", ids=ids)
        )
    _check_shape(piece)


@lru_cache(maxsize=1024)
def _check_shape(piece: Piece) -> None:
    """Check edges, outline, fold and notches. Few of many pieces change: what was sound once is not looked at again."""
    place = tr("piece {id!r}", id=piece.id)
    if len(piece.edges) < 2:
        raise BadInput(tr("it has fewer than two edges"), place, tr("a closed outline needs at least two"))
    unique(f"{place}, edges", [edge.name for edge in piece.edges])
    for edge in piece.edges:
        if "/" in edge.name:
            raise BadInput(
                tr("its name has a / in it"),
                tr("{place}, edge {name!r}", place=place, name=edge.name),
                tr("/ parts panel and edge"),
            )
        within(tr("{place}, edge {name!r}", place=place, name=edge.name), "allowance", edge.allowance, 0, 1000)
    lines = drawn_edges(piece)
    for edge in piece.edges:
        _check_before_shift(tr("{place}, edge {name!r}", place=place, name=edge.name), edge)
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
        right = tr(
            "the path before the line was shifted, within {farthest_shift_mm:g} mm of it, or no such key",
            farthest_shift_mm=FARTHEST_SHIFT_MM,
        )
        raise BadInput(tr("before_shift ends {apart:.0f} mm off the path", apart=apart), place, right)


def _check_outline(piece: Piece, place: str, lines: list[Points]) -> None:
    for edge, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
        end, start = flatten(edge.path)[-1], flatten(after.path)[0]
        gap = float(np.hypot(*(end - start)))
        if gap > CORNER_GAP_MM:
            raise BadInput(
                tr(
                    "the outline is open: {name!r} ends at {point}, {after_name!r} starts at {point_2}",
                    name=edge.name,
                    point=_point(end),
                    after_name=after.name,
                    point_2=_point(start),
                ),
                place,
                tr("each edge starts where the one before it ends"),
            )
    check_simple(place, tr("outline"), ring_of(lines))
    if signed_area(ring_of(lines)) < 0:
        raise BadInput(tr("the edges go round anticlockwise"), place, tr("clockwise as you look at it is right"))


def _check_fold(piece: Piece, place: str, lines: list[Points]) -> None:
    if piece.cut != "fold":
        if piece.fold is not None:
            raise BadInput(tr("it names a fold but is cut {cut}", cut=piece.cut), place, tr('"cut": "fold" is right'))
        return
    names = [edge.name for edge in piece.edges]
    if piece.fold not in names:
        raise BadInput(
            tr("its fold is {fold!r}", fold=piece.fold),
            place,
            tr("one of its edges is right: {names}", names=listed(names)),
        )
    line = lines[names.index(piece.fold)]
    if length(line) - math.dist(line[0], line[-1]) > CORNER_GAP_MM:
        raise BadInput(tr("its fold is curved"), place, tr("a straight centre edge is right"))
    if len(names) < 3:
        raise BadInput(tr("it has too few edges beside the fold"), place, tr("at least two are right"))


def _check_notches(piece: Piece, place: str, lines: list[Points]) -> None:
    lengths = {edge.name: length(line) for edge, line in zip(piece.edges, lines, strict=True)}
    for notch in piece.notches:
        if notch.edge not in lengths:
            raise BadInput(
                tr("a notch on edge {edge!r}", edge=notch.edge),
                place,
                tr("its edges are {lengths}", lengths=listed(lengths)),
            )
        within(tr("{place}, notch on {edge!r}", place=place, edge=notch.edge), "at", notch.at, 0, lengths[notch.edge])


def _check_both_lines(piece: Piece, place: str) -> None:
    net, cut = tr("stitching line"), tr("cutting line")
    made_net = net if piece.outline_is == "net" else tr("stitching line (allowances taken off)")
    made_cut = cut if piece.outline_is == "cut" else tr("cutting line (allowances taken on)")
    for panel in panels_of(piece):
        for what, wrong, ring in ((net, made_net, panel.net_ring), (cut, made_cut, panel.cut_ring)):
            check_simple(place, wrong, ring)
            if signed_area(ring) < 0:
                raise BadInput(
                    tr("an allowance is wider than the piece: its {what} turns inside out", what=what),
                    place,
                    tr("smaller ones"),
                )


def _point(point: Points) -> str:
    return f"({point[0]:g}, {point[1]:g})"
