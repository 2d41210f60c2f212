"""Facings and linings joined across panels: the bands of panels that are sewn together, laid edge to edge and flat."""

import itertools
import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from shapely.geometry import Polygon

from core.derive.band import INNER, Band, band_along
from core.errors import BadInput
from core.geometry.paths import Points, path_of, without_repeats
from core.geometry.polyline import length, points_at, signed_area
from core.model.cloth import Cloth
from core.model.panel import net_and_cut, net_notches, panels_of
from core.model.pattern import Edge, EdgeRef, Notch, Piece, SewnSeam
from core.model.project import Layer, Project
from core.seams.garment import joined as joined_heights
from core.wording import tr

DIGITS = 6
MEETS_MM = 0.5
"""Inner edges whose ends lie no farther apart than this meet; else the step between them is kept."""

_MIRROR = np.array([-1.0, 1.0])


@dataclass(frozen=True, eq=False)
class _Part:
    """The band of a panel, or of one half of a panel cut on the fold, in that panel's frame.

    `ahead` and `behind` name the edges of the panel that follow and precede the run, as references.
    """

    panel: str
    piece: Piece
    reflected: bool
    band: Band
    ahead: EdgeRef
    behind: EdgeRef

    @property
    def lines(self) -> tuple[Points, Points, Points, Points]:
        """The run, the side ahead of it, the inner edge and the side behind, in outline order."""
        lines = list(self.band.net.values())
        inner = list(self.band.net).index(INNER)
        return lines[0], _one(lines[1:inner]), lines[inner], _one(lines[inner + 1 :])

    @property
    def one_sided(self) -> bool:
        """Whether each side of the band is part of one edge, so that it can be sewn to a neighbour's."""
        return len(self.band.net) == 4


@dataclass(frozen=True, eq=False)
class _Joint:
    """The seam at which the part at the place `behind` follows the one at `ahead`; None for a fold."""

    ahead: int
    behind: int
    sewn: SewnSeam | None


@dataclass(frozen=True, eq=False)
class Flat:
    """A joined piece in the making: its bands laid flat in outline order along the run.

    `runs` and `inners` are the bands' edges there, `apart` names every joint with how far its two sides lie apart, mm.
    """

    parts: tuple[_Part, ...]
    runs: tuple[Points, ...]
    inners: tuple[Points, ...]
    first_end: Points
    last_end: Points
    apart: tuple[tuple[str, float], ...]

    @property
    def run(self) -> Points:
        """The edge that is followed, all of it."""
        return without_repeats(np.concatenate(self.runs))

    @property
    def inner(self) -> Points:
        """The loose edge, all of it, in outline order."""
        return _meeting(self.inners[::-1])

    @property
    def net(self) -> dict[str, Points]:
        """The outline by edge, clockwise (y down)."""
        run, inner = self.run, self.inner
        last, first = self.last_end.copy(), self.first_end.copy()
        last[0], last[-1], first[0], first[-1] = run[-1], inner[0], inner[-1], run[0]
        return {"run": run, "end": last, INNER: inner, "other end": first}


def joined_pieces(layer: Layer, project: Project) -> tuple[Piece, ...]:
    """The pieces of a joined layer. Raises BadInput where the depth reaches through a panel."""
    return tuple(piece for piece, _ in _made(layer, project.pieces, project.sewn, project.cloth(layer.cloth)))


def joints_apart(layer: Layer, project: Project) -> tuple[tuple[str, float], ...]:
    """For every seam inside a joined piece its name and how far its two sides lie apart when flat, mm."""
    made = _made(layer, project.pieces, project.sewn, project.cloth(layer.cloth))
    return tuple(joint for _, apart in made for joint in apart)


Apart = tuple[tuple[str, float], ...]


@lru_cache(maxsize=32)
def _made(
    layer: Layer, pieces: tuple[Piece, ...], sewn: tuple[SewnSeam, ...], cloth: Cloth
) -> tuple[tuple[Piece, Apart], ...]:
    parts = [part for piece in pieces if piece.id in layer.of for part in _parts(layer, piece)]
    chains = list(_chains(parts, _joints(layer, pieces, sewn, parts)))
    groups = [group for chain in chains for group in _fitting(layer, parts, chain, cloth)]
    ids = layer.joined_ids(len(groups))
    return tuple((_piece(layer, flat, name), flat.apart) for flat, name in zip(groups, ids, strict=True))


# --- bands and how they hang together


def _parts(layer: Layer, piece: Piece) -> Iterator[_Part]:
    """The bands of all panels of a piece; of one on the fold one of either half."""
    for panel in panels_of(piece):
        if piece.cut != "fold":
            yield _part(layer, piece, panel.name, panel.net, panel.mirrored, "")
            continue
        here, there = ("R", "L") if piece.drawn == "right" else ("L", "R")
        net, _ = net_and_cut(piece)
        yield _part(layer, piece, panel.name, net, False, f".{here}")
        yield _part(layer, piece, panel.name, _reflected(net), True, f".{there}")


def _reflected(net: dict[str, Points]) -> dict[str, Points]:
    return {name: (line * _MIRROR)[::-1] for name, line in reversed(net.items())}


def _part(layer: Layer, piece: Piece, panel: str, net: dict[str, Points], reflected: bool, side: str) -> _Part:
    assert layer.edge is not None
    assert layer.depth is not None
    try:
        band = band_along(net, layer.edge, layer.depth)
    except BadInput as error:
        raise BadInput(
            error.what, tr("layer {title!r} of piece {id!r}", title=layer.title, id=piece.id), error.right
        ) from None
    names = list(net)
    here = names.index(layer.edge)
    ahead, behind = names[(here + 1) % len(names)], names[here - 1]
    refs = [f"{panel}/{name}" if name == piece.fold else f"{panel}/{name}{side}" for name in (ahead, behind)]
    return _Part(panel, piece, reflected, band, refs[0], refs[1])


def _joints(
    layer: Layer, pieces: tuple[Piece, ...], sewn: tuple[SewnSeam, ...], parts: Sequence[_Part]
) -> list[_Joint]:
    """Where bands meet: at folds, and at seams that are closed within the band's depth."""
    ahead = {part.ahead: index for index, part in enumerate(parts) if part.one_sided}
    behind = {part.behind: index for index, part in enumerate(parts) if part.one_sided}
    found = [_Joint(ahead[ref], behind[ref], None) for ref in ahead if ref in behind]
    for seam in sewn:
        for one, other in ((seam.a, seam.b), (seam.b, seam.a)):
            if one in ahead and other in behind and _is_closed(layer, pieces, seam, at_top=one == seam.a):
                found.append(_Joint(ahead[one], behind[other], seam))
    return found


def _is_closed(layer: Layer, pieces: tuple[Piece, ...], sewn: SewnSeam, at_top: bool) -> bool:
    """Whether a seam is sewn within the depth from its end: a's edge runs down, so what it leads into is its foot."""
    opening = sewn.seam.open
    if opening is None:
        return True
    lines = {f"{p.name}/{edge}": line for piece in pieces for p in panels_of(piece) for edge, line in p.net.items()}
    size = joined_heights(sewn.seam, length(lines[sewn.a]), length(lines[sewn.b]))[0]
    return opening[0] >= (layer.depth or 0.0) if at_top else opening[1] <= size - (layer.depth or 0.0)


Chain = list[tuple[int, _Joint | None]]
"""Parts in outline order along the run, each with the joint that leads on to the next one, if any."""


def _chains(parts: Sequence[_Part], joints: Sequence[_Joint]) -> Iterator[Chain]:
    """Parts that hang together, in the order of the run; a ring is cut at the seam that shows least."""
    on = {joint.ahead: joint for joint in joints}
    before = {joint.behind: joint for joint in joints}
    left = dict.fromkeys(range(len(parts)))
    while left:
        start = next(iter(left))
        while start in before and before[start].ahead != next(iter(left)):
            start = before[start].ahead
        if start in before:
            start = _cut_open(start, on)
            on = {ahead: joint for ahead, joint in on.items() if joint.behind != start}
        chain: Chain = [(start, on.get(start))]
        while (joint := chain[-1][1]) is not None and joint.behind in left:
            chain.append((joint.behind, on.get(joint.behind)))
        for index, _ in chain:
            left.pop(index, None)
        yield chain


def _cut_open(start: int, on: dict[int, _Joint]) -> int:
    """The part with which the run of a ring begins: behind the seam of least weight, the last of equals in the file."""
    ring = [on[start]]
    while ring[-1].behind != start:
        ring.append(on[ring[-1].behind])
    seams = [joint for joint in ring if joint.sewn is not None]
    least = min(joint.sewn.seam.weight for joint in seams if joint.sewn) if seams else 0.0
    return next((joint.behind for joint in reversed(seams) if joint.sewn and joint.sewn.seam.weight == least), start)


# --- laid flat


def _fitting(layer: Layer, parts: Sequence[_Part], chain: Chain, cloth: Cloth) -> list[Flat]:
    """A run as the fewest pieces, of about as many panels each, that the cloth is wide enough for."""
    units = _units(chain)
    for count in range(1, len(units) + 1):
        shares = np.array_split(np.arange(len(units)), count)
        flats = [_flat(parts, [one for index in share for one in units[index]]) for share in shares]
        if count == len(units) or all(_fits(layer, flat, cloth) for flat in flats):
            return flats
    return []


def _units(chain: Chain) -> list[Chain]:
    """The run parted at all its seams; halves of a panel stay together."""
    units: list[Chain] = [[]]
    for index, joint in chain:
        units[-1].append((index, joint))
        if joint is None or joint.sewn is not None:
            units.append([])
    return [unit for unit in units if unit]


def _fits(layer: Layer, flat: Flat, cloth: Cloth) -> bool:
    ring = np.concatenate([line[:-1] for line in flat.net.values()])
    if not Polygon(ring).is_valid or signed_area(ring) <= 0:
        return False
    try:
        (panel,) = panels_of(_piece(layer, flat, "joined"))
    except BadInput:
        return False
    wide = float(np.ptp(panel.cut_ring[:, 0]))
    return Polygon(panel.cut_ring).is_valid and wide <= cloth.usable[1] - cloth.usable[0]


def _flat(parts: Sequence[_Part], chain: Chain) -> Flat:
    """Bands laid edge to edge: each is moved so that the ends of its side lie on those of its neighbour's."""
    turns, laid = [0.0], [parts[chain[0][0]].lines]
    apart = []
    for (_, joint), (index, _) in itertools.pairwise(chain):
        side, lines = laid[-1][1], parts[index].lines
        turn, moved = _against(side, lines)
        turns.append(turn)
        laid.append(moved)
        if joint is not None and joint.sewn is not None:
            apart.append((joint.sewn.label, _gap(side, moved[3][::-1])))
    upright = rotated(-(min(turns) + max(turns)) / 2)
    laid = [_moved(lines, upright, np.zeros(2)) for lines in laid]
    return Flat(
        tuple(parts[index] for index, _ in chain),
        tuple(lines[0] for lines in laid),
        tuple(lines[2] for lines in laid),
        laid[0][3],
        laid[-1][1],
        tuple(apart),
    )


Lines = tuple[Points, Points, Points, Points]


def _against(side: Points, lines: Lines) -> tuple[float, Lines]:
    """Lines moved so that their last, read backwards, begins where a side does and ends on it; and by what angle."""
    mine = lines[3][::-1]
    wanted, given = side[-1] - side[0], mine[-1] - mine[0]
    turn = math.atan2(wanted[1], wanted[0]) - math.atan2(given[1], given[0])
    matrix = rotated(turn)
    shift = side[0] - matrix @ mine[0]
    return turn, _moved(lines, matrix, shift)


def _moved(lines: Lines, matrix: Points, shift: Points) -> Lines:
    run, ahead, inner, behind = (line @ matrix.T + shift for line in lines)
    return run, ahead, inner, behind


def rotated(turn: float) -> Points:
    """The matrix that turns by an angle, radians, clockwise (y down); shape (2, 2)."""
    return np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])


def _gap(one: Points, other: Points) -> float:
    """How far two sides lie apart at most, at the same distances from the run, mm."""
    long = min(length(one), length(other))
    at = np.linspace(0.0, long, 33)
    sizes = abs(length(one) - length(other))
    return max(float(np.hypot(*(points_at(one, at) - points_at(other, at)).T).max()), sizes)


def _meeting(lines: Sequence[Points]) -> Points:
    """Lines end to end, ends that lie near each other drawn together to the middle between them."""
    parts = [line.copy() for line in lines]
    for one, other in itertools.pairwise(parts):
        if math.dist(one[-1], other[0]) <= MEETS_MM:
            one[-1] = other[0] = (one[-1] + other[0]) / 2
    return without_repeats(np.concatenate(parts))


def _one(lines: Sequence[Points]) -> Points:
    return without_repeats(np.concatenate(lines))


# --- the piece


def _piece(layer: Layer, flat: Flat, name: str) -> Piece:
    first, last = flat.parts[0], flat.parts[-1]
    assert layer.edge is not None
    allowances = {
        "run": max(_allowance(layer, part.piece, layer.edge) for part in flat.parts),
        "end": _allowance(layer, last.piece, last.band.part_of[list(last.band.net)[1]]),
        INNER: layer.inner_allowance,
        "other end": _allowance(layer, first.piece, first.band.part_of[list(first.band.net)[-1]]),
    }
    edges = tuple(
        Edge(name=layer.edge if edge == "run" else edge, path=path_of(line, DIGITS), allowance=allowances[edge])
        for edge, line in flat.net.items()
    )
    number = name.removeprefix(layer.joined_ids(1)[0])
    title = tr("{title}, joined", title=f"{layer.title[:1].upper()}{layer.title[1:]}{number}")
    return Piece(id=name, name=title, cloth=layer.cloth, edges=edges, notches=_notches(layer, flat))


def _allowance(layer: Layer, piece: Piece, edge: str | None) -> float:
    if layer.allowance is not None:
        return layer.allowance
    return next((drawn.allowance for drawn in piece.edges if drawn.name == edge and edge != piece.fold), 0.0)


def _notches(layer: Layer, flat: Flat) -> tuple[Notch, ...]:
    """A notch on the run wherever two bands meet, and those that the panels have along it."""
    assert layer.edge is not None
    found, begun = [], 0.0
    for part, run in zip(flat.parts, flat.runs, strict=True):
        size = length(run)
        own = [notch.at for notch in net_notches(part.piece) if notch.edge == layer.edge]
        found += [begun + (size - at if part.reflected else at) for at in own]
        begun += size
        found.append(begun)
    whole = length(flat.run)
    return tuple(Notch(edge=layer.edge, at=round(at, 6)) for at in sorted(found) if 1e-3 < at < whole - 1e-3)
