"""From the outlines of a drawing to the pieces of a project: chosen, scaled, turned to the grain, split into edges."""

import math
import re
from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

import msgspec
import numpy as np

from core.errors import BadInput
from core.files.choosing import chosen
from core.files.corners import edges_of
from core.files.edge_names import FOLD, edge_names, fold_edge
from core.files.measured_allowance import Measured, allowances_between
from core.files.outlines import Drawing, Outline
from core.files.standing import standing
from core.geometry.beziers import flattened, path_data
from core.geometry.paths import Points
from core.geometry.polyline import distance_of, length, points_at
from core.model.cloth import Cloth
from core.model.pattern import Cut, Edge, Notch, Piece
from core.model.project import Project
from core.model.validate import validate
from core.seams.propose import propose_ring
from core.seams.walk import Finding
from core.wording import listed, tr

NOTCH_AWAY_MM = 3.0
"""A notch farther from the line that is drawn than this, or than the allowance and this, is none of it."""

SHORT_EDGE_MM = 8.0
"""An edge shorter than this may come from a corner that is none."""

UNEVEN_MM = 0.5
"""Two lines whose distance along an edge varies by more than this have no one allowance."""


@dataclass(frozen=True)
class OwnWishes:
    """What is asked of one piece alone; what is None is as for all.

    `cut` overrides a mirror line of the drawing; `fold` is then the name that the edge on the fold has while it is not
    on one. `allowances` are by the name an edge has in the end.
    """

    turn_deg: float | None = None
    cut: Cut | None = None
    fold: str | None = None
    allowances: Mapping[str, float] = field(default_factory=dict)


@dataclass(frozen=True)
class Wishes:
    """What is asked of an import. Lengths in mm, angles in degrees, clockwise as one looks at it.

    `scale` multiplies the drawing; `square_mm` is instead the true side of the check square that is on it. `allowances`
    override `allowance` by edge name; `names` give edges another name, by `edge` or `piece/edge`. `only` are the labels
    of the outlines to take, in the order wanted; without it all closed ones of at least `smallest_mm2` that lie in no
    other are taken. Where a drawing has both lines, the stitching line is kept and the allowances are measured. `own`
    is what is asked of single pieces, by their ids.
    """

    cloth: Cloth
    title: str = ""
    scale: float = 1.0
    square_mm: float | None = None
    only: tuple[str, ...] = ()
    smallest_mm2: float = 2000.0
    outline_is: Literal["net", "cut"] = "net"
    allowance: float = 12.7
    allowances: Mapping[str, float] = field(default_factory=dict)
    corner_deg: float = 20.0
    turn_deg: float = 0.0
    cut: Literal["single", "pair"] = "single"
    names: Mapping[str, str] = field(default_factory=dict)
    own: Mapping[str, OwnWishes] = field(default_factory=dict)
    ring: bool = False


def project_from(drawing: Drawing, wishes: Wishes) -> tuple[Project, tuple[Finding, ...]]:
    """A validated project with a piece for every outline that was taken, and all there is to say about it.

    Raises BadInput: nothing to take, an outline open or crossing itself, an allowance wider than its piece.
    """
    outlines, findings = chosen(drawing, wishes.only, wishes.smallest_mm2, wishes.scale, wishes.square_mm)
    pieces = [
        _piece(outline, name, wishes, findings) for outline, name in zip(outlines, piece_ids(outlines), strict=True)
    ]
    _check_wishes(pieces, wishes)
    project = Project(title=wishes.title, cloths=(wishes.cloth,), pieces=tuple(pieces))
    validate(project)
    if wishes.ring:
        project = msgspec.structs.replace(project, seams=propose_ring(project))
        validate(project)
    return project, tuple(findings)


def piece_ids(outlines: Sequence[Outline]) -> list[str]:
    """An id for every piece: its label made plain, with a number where it is not the only one."""
    plain = [re.sub(r"[^\w.-]+", "-", outline.label.lower()).strip("-.") or "piece" for outline in outlines]
    plain = [re.sub(r"\.(r|l)$", r"-\1", name) for name in plain]
    often, ids = Counter(plain), list[str]()
    for name in plain:
        number, wanted = 1, name if often[name] == 1 else f"{name}-1"
        while wanted in ids:
            number += 1
            wanted = f"{name}-{number}"
        ids.append(wanted)
    return ids


@dataclass(frozen=True)
class _Asked:
    """All that is asked of one piece, as a value that compares: what stands in `wishes` for it."""

    name: str
    cloth: str
    outline_is: Literal["net", "cut"]
    allowance: float
    stated: tuple[tuple[str, float], ...]
    corner_deg: float
    turn_deg: float
    cut: Literal["single", "pair"]
    own_cut: Cut | None
    own_fold: str | None
    names: tuple[tuple[str, str], ...]

    @classmethod
    def of(cls, name: str, wishes: Wishes) -> "_Asked":
        own = wishes.own.get(name, OwnWishes())
        return cls(
            name,
            wishes.cloth.id,
            wishes.outline_is,
            wishes.allowance,
            tuple({**wishes.allowances, **own.allowances}.items()),
            wishes.corner_deg,
            wishes.turn_deg if own.turn_deg is None else own.turn_deg,
            wishes.cut,
            own.cut,
            own.fold,
            tuple((old, new) for old, new in wishes.names.items() if old.partition("/")[0] == name or "/" not in old),
        )


def _piece(outline: Outline, name: str, wishes: Wishes, findings: list[Finding]) -> Piece:
    piece, found = _made(outline, _Asked.of(name, wishes))
    findings += found
    return piece


@lru_cache(maxsize=512)
def _made(outline: Outline, asked: _Asked) -> tuple[Piece, tuple[Finding, ...]]:
    """The piece of an outline and what there is to say about it. What was made before is kept: of many, few change."""
    name, place, findings = asked.name, tr("piece {name!r}", name=asked.name), list[Finding]()
    outline = standing(outline, asked.turn_deg, place, findings)
    try:
        edges = edges_of(outline.sew or outline.segments, asked.corner_deg, outline.smooth)
    except BadInput as error:
        raise BadInput(error.what, place, error.right) from None
    lines = [flattened(edge) for edge in edges]
    mirrored = asked.own_cut is None
    fold = fold_edge(lines, outline.mirror, place, findings) if mirrored else _own_fold(asked, lines)
    names, first = edge_names(name, lines, fold, dict(asked.names))
    order = [(first + step) % len(edges) for step in range(len(edges))]
    edges, lines, names = [edges[i] for i in order], [lines[i] for i in order], [names[i] for i in order]
    allowances = _allowances(outline, lines, names, dict(asked.stated), asked.allowance, place, findings)
    _say_short(lines, names, place, findings)
    piece = Piece(
        id=name,
        name=outline.label,
        cloth=asked.cloth,
        cut="fold" if fold is not None else asked.own_cut or asked.cut,
        drawn=_half_drawn(lines, names),
        outline_is="net" if outline.sew else asked.outline_is,
        fold=FOLD if fold is not None else None,
        edges=tuple(
            Edge(name=edge_name, path=path_data(edge), allowance=allowance)
            for edge_name, edge, allowance in zip(names, edges, allowances, strict=True)
        ),
        notches=_notches(outline, lines, names, max(allowances), place, findings),
    )
    return piece, tuple(findings)


def _own_fold(asked: _Asked, lines: Sequence[Points]) -> int | None:
    """The index of the edge that was named as the fold; None where the piece is not cut on one."""
    if asked.own_cut != "fold":
        return None
    names, _ = edge_names(asked.name, lines, None, {})
    if asked.own_fold not in names:
        right = tr("one of its edges is right: {names}", names=listed(names))
        raise BadInput(
            tr("its fold is {own_fold!r}", own_fold=asked.own_fold), tr("piece {name!r}", name=asked.name), right
        )
    return names.index(asked.own_fold)


def _half_drawn(lines: Sequence[Points], names: Sequence[str]) -> Literal["right", "left"]:
    """Which half a piece on the fold is drawn as: the right one, as worn, has the fold on its right in the drawing."""
    if FOLD not in names:
        return "right"
    line = lines[names.index(FOLD)]
    return "right" if line[-1, 1] > line[0, 1] else "left"


def _allowances(
    outline: Outline,
    lines: Sequence[Points],
    names: Sequence[str],
    stated: Mapping[str, float],
    otherwise: float,
    place: str,
    findings: list[Finding],
) -> list[float]:
    """The allowance of every edge: stated for it, none on a fold, measured between two lines, or the one for all."""
    measured = allowances_between(lines, outline.points) if outline.sew else [None] * len(lines)
    found = []
    for name, gap in zip(names, measured, strict=True):
        if name == FOLD:
            found.append(0.0)
        elif name in stated or not outline.sew:
            found.append(stated.get(name, otherwise))
        else:
            found.append(_from_measured(gap, otherwise, tr("{place}, edge {name!r}", place=place, name=name), findings))
    return found


def _from_measured(gap: Measured | None, default: float, place: str, findings: list[Finding]) -> float:
    if gap is None:
        what = tr("no cutting line lies outside it; {default:g} mm taken as its allowance", default=default)
        findings.append(Finding(place, what, tr("state its allowance if it is another")))
        return default
    if gap.most - gap.least > UNEVEN_MM:
        what = tr(
            "its allowance varies from {least:.1f} to {most:.1f} mm; {middle:.1f} mm taken",
            least=gap.least,
            most=gap.most,
            middle=gap.middle,
        )
        findings.append(Finding(place, what, tr("state its allowance if it is another")))
    return round(gap.middle, 2)


def _notches(
    outline: Outline,
    lines: Sequence[Points],
    names: Sequence[str],
    allowance: float,
    place: str,
    findings: list[Finding],
) -> tuple[Notch, ...]:
    reach = NOTCH_AWAY_MM + (1.5 * allowance if outline.sew else 0.0)
    found = []
    for point in outline.notches:
        at = [distance_of(line, np.array(point)) for line in lines]
        away = [math.dist(points_at(line, np.array([d]))[0], point) for line, d in zip(lines, at, strict=True)]
        index = int(np.argmin(away))
        if away[index] > reach:
            what = tr("a notch lies {away:.1f} mm from its outline and was left out", away=away[index])
            findings.append(Finding(place, what, tr("put notches on the outline")))
        elif names[index] != FOLD:
            found.append(Notch(edge=names[index], at=round(min(at[index], length(lines[index]) - 0.002), 3)))
    return tuple(found)


def _say_short(lines: Sequence[Points], names: Sequence[str], place: str, findings: list[Finding]) -> None:
    for name, line in zip(names, lines, strict=True):
        if length(line) < SHORT_EDGE_MM:
            what = tr("it is only {length:.1f} mm long", length=length(line))
            findings.append(
                Finding(
                    tr("{place}, edge {name!r}", place=place, name=name),
                    what,
                    tr("a larger corner angle leaves out blunt corners"),
                )
            )


def _check_wishes(pieces: Sequence[Piece], wishes: Wishes) -> None:
    """Check that every edge for which something was stated is there. Raises BadInput."""
    there = {edge.name for piece in pieces for edge in piece.edges}
    for name in wishes.allowances:
        if name not in there:
            raise BadInput(
                tr("no edge is called {name!r}", name=name),
                "allowances",
                tr("the edges are {there}", there=listed(sorted(there))),
            )
    for old, new in wishes.names.items():
        if new not in there:
            raise BadInput(
                tr("no edge {old!r} to call {new!r}", old=old, new=new),
                tr("edge names"),
                tr("the edges are {there}", there=listed(sorted(there))),
            )
