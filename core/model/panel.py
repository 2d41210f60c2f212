"""Panels: the copies of a piece that are cut, with their stitching and cutting lines in the panel's own frame."""

from dataclasses import dataclass
from functools import cached_property, lru_cache

import numpy as np

from core.errors import BadInput
from core.geometry.offset import offset_edges
from core.geometry.paths import Points, flatten, without_repeats
from core.geometry.polyline import distance_of, length, outward, points_at, reflected, tangent_at
from core.model.pattern import Notch, On, PanelName, Piece
from core.wording import tr

SHORTEST_EDGE_MM = 0.1
"""A named edge is no shorter than this."""

_MIRROR = np.array([-1.0, 1.0])


@dataclass(frozen=True, eq=False)
class NotchMark:
    """A notch: the point on the stitching line and the unit vector out of the panel, both of shape (2,)."""

    edge: str
    point: Points
    out: Points


@dataclass(frozen=True, eq=False)
class Panel:
    """One panel, reflected already where it is the mirrored one of a pair.

    `net` and `cut` map edge names to polylines in outline order, clockwise (y down); `end` of each edge is the
    beginning of the next.
    """

    name: PanelName
    piece: Piece
    mirrored: bool
    net: dict[str, Points]
    cut: dict[str, Points]
    notches: tuple[NotchMark, ...]

    @cached_property
    def net_ring(self) -> Points:
        """The closed stitching line, first point not repeated; shape (n, 2)."""
        return ring_of(list(self.net.values()))

    @cached_property
    def cut_ring(self) -> Points:
        """The closed cutting line, first point not repeated; shape (n, 2)."""
        return ring_of(list(self.cut.values()))

    @cached_property
    def middle(self) -> Points:
        """Middle of the box round the stitching line; its x is where the panel's centre lies; shape (2,)."""
        return np.asarray((self.net_ring.min(axis=0) + self.net_ring.max(axis=0)) / 2)


def ring_of(edges: list[Points]) -> Points:
    """A closed outline from edges in order, without the repeated corners."""
    return np.concatenate([edge[:-1] for edge in edges])


@lru_cache(maxsize=1024)
def panels_of(piece: Piece) -> tuple[Panel, ...]:
    """The panels cut from a piece, the right one of a pair first.

    Raises BadInput for a path that can't be read.
    """
    net, cut = net_and_cut(piece)
    marks = _notch_marks(piece, net)
    if piece.cut == "fold":
        net, cut = _unfolded(piece, net), _unfolded(piece, cut)
        return (Panel(piece.id, piece, False, net, cut, _unfolded_marks(piece, marks)),)
    if piece.cut == "single":
        return (Panel(piece.id, piece, False, net, cut, marks),)
    as_drawn, other = ("R", "L") if piece.drawn == "right" else ("L", "R")
    drawn = Panel(f"{piece.id}.{as_drawn}", piece, False, net, cut, marks)
    mirrored = Panel(
        f"{piece.id}.{other}",
        piece,
        True,
        _mirrored(net),
        _mirrored(cut),
        tuple(NotchMark(m.edge, m.point * _MIRROR, m.out * _MIRROR) for m in marks),
    )
    return (drawn, mirrored) if as_drawn == "R" else (mirrored, drawn)


def on_of(panel: Panel) -> On:
    """Where a panel of a piece that lies on another lies; of a pair the other one lies on the other side."""
    on = panel.piece.on
    assert on is not None
    same_side = panel.piece.cut != "pair" or panel.name[-1] == on.panel[-1]
    return on if same_side else on.mirrored


def drawn_edges(piece: Piece) -> list[Points]:
    """The polylines of the edges as drawn, corners made to meet exactly.

    Raises BadInput that names the edge whose path can't be read or that has no length.
    """
    lines = []
    for edge in piece.edges:
        try:
            lines.append(flatten(edge.path).copy())
        except BadInput as error:
            raise BadInput(
                error.what, tr("piece {id!r}, edge {name!r}", id=piece.id, name=edge.name), error.right
            ) from None
    for edge, line, after in zip(piece.edges, lines, lines[1:] + lines[:1], strict=True):
        line[-1] = after[0]
        if length(line) < SHORTEST_EDGE_MM:
            place = tr("piece {id!r}, edge {name!r}", id=piece.id, name=edge.name)
            raise BadInput(
                tr("it has no length"),
                place,
                tr("at least {shortest_edge_mm:g} mm is right", shortest_edge_mm=SHORTEST_EDGE_MM),
            )
    return [without_repeats(line) for line in lines]


def net_and_cut(piece: Piece) -> tuple[dict[str, Points], dict[str, Points]]:
    """Stitching and cutting line of the piece as drawn, by edge, clockwise (y down).

    Raises BadInput for a path that can't be read, and for allowances that the piece has no room for.
    """
    names = [edge.name for edge in piece.edges]
    drawn = drawn_edges(piece)
    sign = 1.0 if piece.outline_is == "net" else -1.0
    distances = [0.0 if edge.name == piece.fold else sign * edge.allowance for edge in piece.edges]
    try:
        other = offset_edges(drawn, distances, names)
    except BadInput as error:
        place = ", ".join(part for part in (tr("piece {id!r}", id=piece.id), error.place) if part)
        raise BadInput(error.what, place, error.right) from None
    as_drawn, moved = dict(zip(names, drawn, strict=True)), dict(zip(names, other, strict=True))
    return (as_drawn, moved) if piece.outline_is == "net" else (moved, as_drawn)


def net_notches(piece: Piece) -> tuple[Notch, ...]:
    """The notches of the piece as drawn, `at` along the stitching line, whichever line is drawn."""
    if piece.outline_is == "net":
        return piece.notches
    net, drawn = net_and_cut(piece)
    return tuple(
        Notch(edge=notch.edge, at=distance_of(net[notch.edge], points_at(drawn[notch.edge], np.array([notch.at]))[0]))
        for notch in piece.notches
    )


def lines_before_shift(panel: Panel) -> dict[str, Points]:
    """The edges of a panel whose line was shifted as they were before, in the panel's frame, outline order."""
    piece = panel.piece
    old = {edge.name: flatten(edge.before_shift) for edge in piece.edges if edge.before_shift is not None}
    if piece.cut == "fold":
        through, along = _fold_line(piece)
        here, there = ("R", "L") if piece.drawn == "right" else ("L", "R")
        other = {f"{name}.{there}": reflected(line, through, along)[::-1] for name, line in old.items()}
        return {f"{name}.{here}": line for name, line in old.items()} | other
    return _mirrored(old) if panel.mirrored else old


def _notch_marks(piece: Piece, net: dict[str, Points]) -> tuple[NotchMark, ...]:
    return tuple(
        NotchMark(
            notch.edge,
            points_at(net[notch.edge], np.array([notch.at]))[0],
            outward(tangent_at(net[notch.edge], notch.at)),
        )
        for notch in net_notches(piece)
    )


def _mirrored(edges: dict[str, Points]) -> dict[str, Points]:
    """Reflected in the y axis, the edge order reversed, so that the outline runs clockwise again."""
    return {name: (line * _MIRROR)[::-1] for name, line in reversed(edges.items())}


def _fold_line(piece: Piece) -> tuple[Points, Points]:
    line = flatten(next(edge.path for edge in piece.edges if edge.name == piece.fold))
    step = line[-1] - line[0]
    return line[0], step / np.hypot(*step)


def _unfolded(piece: Piece, edges: dict[str, Points]) -> dict[str, Points]:
    """The whole outline of a half drawn to its fold: the drawn edges from the fold on, then the mirrored ones."""
    through, along = _fold_line(piece)
    names = list(edges)
    start = names.index(str(piece.fold))
    order = names[start + 1 :] + names[:start]
    here, there = ("R", "L") if piece.drawn == "right" else ("L", "R")
    half = {f"{name}.{here}": edges[name] for name in order}
    rest = {f"{name}.{there}": reflected(edges[name], through, along)[::-1] for name in reversed(order)}
    return half | rest


def _unfolded_marks(piece: Piece, marks: tuple[NotchMark, ...]) -> tuple[NotchMark, ...]:
    through, along = _fold_line(piece)
    here, there = ("R", "L") if piece.drawn == "right" else ("L", "R")
    doubled = []
    for mark in marks:
        if mark.edge == piece.fold:
            continue
        other = reflected(mark.point[None], through, along)[0]
        out = reflected((through + mark.out)[None], through, along)[0] - through
        doubled += [
            NotchMark(f"{mark.edge}.{here}", mark.point, mark.out),
            NotchMark(f"{mark.edge}.{there}", other, out),
        ]
    return tuple(doubled)
