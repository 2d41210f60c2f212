"""Truing a seam: a remedy carried out on the project. Pieces are changed as drawn, so mirrored panels change alike."""

from collections.abc import Callable

import msgspec
import numpy as np

from core.errors import BadInput
from core.geometry.polyline import distance_of, length, points_at
from core.model.panel import drawn_edges, net_and_cut, net_notches, panels_of
from core.model.pattern import EdgeRef, Notch, Piece, Seam, SewnSeam, edge_of, panel_of
from core.model.project import Project
from core.model.validate import validate
from core.seams.edge_ends import (
    EdgeEnd,
    beside,
    edge_end,
    piece_with,
    with_longer_edge,
    with_piece,
    with_turned_edge,
)
from core.seams.garment import Garment, SeamLine, joined
from core.seams.remedy import Method, Remedy
from core.seams.runs_through import End, RunThrough, runs_through
from core.seams.walk import Finding, walk
from core.wording import listed, tr

TRUE_MM, TRUE_DEG = 0.002, 0.05
"""Lengths and angles are trued to this."""

MOST_STEPS = 20


def trued(project: Project, remedy: Remedy) -> Project:
    """The project with a remedy carried out.

    Raises BadInput where the method does not fit the seam, or would leave a piece without a sound outline.
    """
    method, words = remedy.method, remedy.method.split()
    if method.endswith(("at the top", "at the bottom")):
        end: End = "upper" if words[-1] == "top" else "lower"
        change = _with_smooth_run if words[0] == "smooth" else _with_one_length
        after = change(project, remedy, end)
        if end == "upper":
            after = _with_moved_stretches(project, after)
    elif "notch" in words:
        after = _with_notch(project, remedy)
    else:
        after = _with_seam(project, remedy)
    validate(after)
    return after


def trued_by(project: Project, method: Method, seam: str | None = None) -> tuple[Project, tuple[Finding, ...]]:
    """The project after a method has been carried out for every finding that offers it, and those findings.

    `seam` names the one seam to true. Raises BadInput where nothing offers the method, or it does not fit a seam.
    """
    done: list[Finding] = []
    for _ in range(len(walk(project, Garment.of(project)))):
        found = _next(project, method, seam, done)
        if found is None:
            break
        project = trued(project, found[1])
        done.append(found[0])
    if not done:
        raise BadInput(
            tr("no finding offers to {method}", method=method),
            tr("seam {seam!r}", seam=seam) if seam else "seams",
            _offered(project, seam),
        )
    return project, tuple(done)


def _next(project: Project, method: Method, seam: str | None, done: list[Finding]) -> tuple[Finding, Remedy] | None:
    offers = (
        (finding, remedy)
        for finding in walk(project, Garment.of(project))
        for remedy in finding.remedies
        if remedy.method == method and seam in (None, finding.seam) and finding not in done
    )
    return next(offers, None)


def _offered(project: Project, seam: str | None) -> str:
    found = (finding for finding in walk(project, Garment.of(project)) if seam in (None, finding.seam))
    methods = dict.fromkeys(remedy.method for finding in found for remedy in finding.remedies)
    return (
        tr("what is offered there: {methods}", methods=listed(methods))
        if methods
        else tr("there is nothing to true there")
    )


# --- lengths


def _with_one_length(project: Project, remedy: Remedy, end: End) -> Project:
    """Both edges of one length, by the edges that the method names, at one end."""
    apart = _difference(project, remedy.sewn)
    if apart == 0:
        return project
    ends = edge_end(project, remedy.sewn.a, True, end), edge_end(project, remedy.sewn.b, False, end)
    longer, shorter = ends if apart > 0 else ends[::-1]
    word = remedy.method.split()[0]
    moves = {"lengthen": ((shorter, 1.0),), "shorten": ((longer, -1.0),), "share": ((shorter, 0.5), (longer, -0.5))}
    return _solved(
        lambda by: _with_moves(project, moves[word], by),
        lambda after: _difference(after, remedy.sewn),
        abs(apart),
        TRUE_MM,
        tr("seam {label!r}", label=remedy.sewn.label),
    )


def _with_moves(project: Project, moves: tuple[tuple[EdgeEnd, float], ...], by: float) -> Project:
    for end, share in moves:
        project = with_longer_edge(project, end, share * by)
    return project


def _difference(project: Project, sewn: SewnSeam) -> float:
    """By how much a's stitching line is longer than b's, mm."""
    return _net_length(project, sewn.a) - _net_length(project, sewn.b)


def _net_length(project: Project, ref: EdgeRef) -> float:
    panel = next(panel for panel in panels_of(project.piece_of(panel_of(ref))) if panel.name == panel_of(ref))
    return length(panel.net[edge_of(ref)])


def _solved(
    change: Callable[[float], Project], rest: Callable[[Project], float], first: float, near: float, place: str
) -> Project:
    """The project changed by the amount that leaves no rest: secant steps from 0 and a first guess."""
    before, amount = 0.0, first
    rest_before = rest(change(0.0))
    for _ in range(MOST_STEPS):
        after = change(amount)
        left = rest(after)
        if abs(left) <= near:
            return after
        if left == rest_before:
            break
        before, amount, rest_before = amount, amount - left * (amount - before) / (left - rest_before), left
    raise BadInput(tr("it can't be trued this way"), place, tr("another method"))


def _with_moved_stretches(before: Project, after: Project) -> Project:
    """The project after edges have changed at their upper ends, with what is told in heights where it was on them.

    Heights count from a seam's upper end: stretches seen and open, and mouths of pockets, move by what the left edge
    has grown there; what then lies above the end is cut off.
    """
    grown = {
        old.seam.name: _below_top(after, new) - _below_top(before, old)
        for old, new in zip(before.sewn, after.sewn, strict=True)
    }
    seams = tuple(
        msgspec.structs.replace(
            seam, seen=_moved(seam.seen, grown[seam.name]), open=_moved(seam.open, grown[seam.name])
        )
        for seam in after.seams
    )
    pockets = tuple(
        msgspec.structs.replace(pocket, opening=_moved(pocket.opening, grown[pocket.seam]) or pocket.opening)
        for pocket in after.pockets
    )
    return msgspec.structs.replace(after, seams=seams, pockets=pockets)


def _below_top(project: Project, sewn: SewnSeam) -> float:
    """Length of the left edge from the seam's upper end on, mm."""
    return _net_length(project, sewn.a) - _joined(project, sewn)[0]


def _moved(stretch: tuple[float, float] | None, by: float) -> tuple[float, float] | None:
    """A stretch moved down a seam, without what then lies above its end; None if nothing is left."""
    if stretch is None or abs(by) < TRUE_MM:
        return stretch
    start, end = (round(max(height + by, 0.0), 3) for height in stretch)
    return (start, end) if start < end else None


# --- the line across the end


def _with_smooth_run(project: Project, remedy: Remedy, end: End) -> Project:
    """The two lines beside the seam turned alike until their angles make 180 degrees; the edges stay of one length."""
    sewn = remedy.sewn
    run = _run(project, sewn, end)
    if run is None:
        raise BadInput(
            tr("no line runs through there"),
            tr("seam {label!r}", label=sewn.label),
            tr("an end where two hems or waists meet"),
        )
    ends = {
        beside(project, edge_end(project, sewn.a, True, end)),
        beside(project, edge_end(project, sewn.b, False, end)),
    }
    agreed = abs(_difference(project, sewn)) <= _AGREED_MM
    smooth = _solved(
        lambda by: _with_turns(project, ends, by),
        lambda after: _juts_deg(after, sewn, end),
        run.juts_deg / 2,
        TRUE_DEG,
        tr("seam {label!r}", label=sewn.label),
    )
    if agreed and abs(_difference(smooth, sewn)) > TRUE_MM:
        return _with_one_length(smooth, Remedy(sewn, _SHARED[end]), end)
    return smooth


_AGREED_MM = 0.05
_SHARED: dict[End, Method] = {
    "upper": "share the difference at the top",
    "lower": "share the difference at the bottom",
}


def _with_turns(project: Project, ends: set[EdgeEnd], by_deg: float) -> Project:
    for end in sorted(ends, key=lambda end: (end.piece, end.edge, end.at_start)):
        project = with_turned_edge(project, end, by_deg)
    return project


def _line(project: Project, sewn: SewnSeam) -> tuple[Garment, SeamLine]:
    garment = Garment.of(project)
    return garment, next(line for line in garment.seams if (line.sewn.a, line.sewn.b) == (sewn.a, sewn.b))


def _run(project: Project, sewn: SewnSeam, end: End) -> RunThrough | None:
    return next((run for run in runs_through(*_line(project, sewn)) if run.end == end), None)


def _juts_deg(project: Project, sewn: SewnSeam, end: End) -> float:
    run = _run(project, sewn, end)
    return run.juts_deg if run else 0.0


# --- notches


def _with_notch(project: Project, remedy: Remedy) -> Project:
    """The notch that the remedy is about moved, marked or taken away."""
    at_a, at_b = _along_edges(project, remedy)
    refs = remedy.sewn.a, remedy.sewn.b
    if remedy.method == "mark the missing notch":
        missing = 0 if at_a is None else 1
        return _marked(project, refs[missing], missing == 0, _opposite(project, remedy)[missing])
    if remedy.method == "take the notch away":
        there = 1 if at_a is None else 0
        return _unmarked(project, refs[there], there == 0, (at_a, at_b)[there])
    moved = 1 if remedy.method == "move the notch of the right edge" else 0
    without = _unmarked(project, refs[moved], moved == 0, (at_a, at_b)[moved])
    return _marked(without, refs[moved], moved == 0, _opposite(project, remedy)[moved])


def _along_edges(project: Project, remedy: Remedy) -> tuple[float | None, float | None]:
    """Distances of the remedy's notches from the upper ends of a's and b's edge, mm."""
    height_a, height_b = remedy.notch or (None, None)
    lift_a, lift_b, stretch_b = _joined(project, remedy.sewn)
    at_a = None if height_a is None else height_a + lift_a
    return at_a, None if height_b is None else height_b * stretch_b + lift_b


def _opposite(project: Project, remedy: Remedy) -> tuple[float, float]:
    """Where on a the notch of b belongs, and where on b that of a, from the upper ends, mm."""
    height_a, height_b = remedy.notch or (None, None)
    lift_a, lift_b, stretch_b = _joined(project, remedy.sewn)
    to_a = height_a if height_b is None else height_b
    to_b = height_b if height_a is None else height_a
    return (to_a or 0.0) + lift_a, (to_b or 0.0) * stretch_b + lift_b


def _joined(project: Project, sewn: SewnSeam) -> tuple[float, float, float]:
    lengths = _net_length(project, sewn.a), _net_length(project, sewn.b)
    return joined(sewn.seam, *lengths)[1:]


def _marked(project: Project, ref: EdgeRef, is_a: bool, along: float) -> Project:
    """A notch added at a distance from the upper end of an edge, mm on the stitching line."""
    end = edge_end(project, ref, is_a, "upper")
    piece = piece_with(project, end.piece)
    at = min(max(_drawn_distance(piece, end, along), 0.0), _drawn_length(piece, end.edge))
    notch = Notch(edge=end.edge, at=round(at, 4))
    return with_piece(project, msgspec.structs.replace(piece, notches=(*piece.notches, notch)))


def _unmarked(project: Project, ref: EdgeRef, is_a: bool, along: float | None) -> Project:
    """The notch nearest to a distance from the upper end of an edge taken away."""
    end = edge_end(project, ref, is_a, "upper")
    piece = piece_with(project, end.piece)
    net, _ = net_and_cut(piece)
    wanted = along or 0.0
    wanted = wanted if end.at_start else length(net[end.edge]) - wanted
    apart = [abs(notch.at - wanted) if notch.edge == end.edge else np.inf for notch in net_notches(piece)]
    if not np.isfinite(min(apart, default=np.inf)):
        raise BadInput(tr("the notch is not there any more"), tr("edge {ref!r}", ref=ref), tr("walk the seam again"))
    gone = int(np.argmin(apart))
    notches = tuple(notch for index, notch in enumerate(piece.notches) if index != gone)
    return with_piece(project, msgspec.structs.replace(piece, notches=notches))


def _drawn_distance(piece: Piece, end: EdgeEnd, along: float) -> float:
    """Distance from the start of a drawn edge that stands for one on the stitching line from the edge's upper end."""
    net, _ = net_and_cut(piece)
    line = net[end.edge]
    on_net = along if end.at_start else length(line) - along
    if piece.outline_is == "net":
        return on_net
    drawn = dict(zip([edge.name for edge in piece.edges], drawn_edges(piece), strict=True))
    return distance_of(drawn[end.edge], points_at(line, np.array([on_net]))[0])


def _drawn_length(piece: Piece, edge: str) -> float:
    return next(length(line) for drawn, line in zip(piece.edges, drawn_edges(piece), strict=True) if drawn.name == edge)


# --- the seam itself


def _with_seam(project: Project, remedy: Remedy) -> Project:
    seam = remedy.sewn.seam
    if remedy.method == "exchange left and right":
        changed = msgspec.structs.replace(seam, a=seam.b, b=seam.a)
    else:
        size = _line(project, remedy.sewn)[1].length
        changed = msgspec.structs.replace(seam, seen=_ended(seam.seen, size), open=_ended(seam.open, size))
    seams: tuple[Seam, ...] = tuple(changed if one == seam else one for one in project.seams)
    return msgspec.structs.replace(project, seams=seams)


def _ended(stretch: tuple[float, float] | None, size: float) -> tuple[float, float] | None:
    """A stretch cut off at the end of the seam; None if nothing of it is left."""
    if stretch is None or stretch[0] >= size:
        return None
    return stretch[0], min(stretch[1], size)
