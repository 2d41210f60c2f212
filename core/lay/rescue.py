"""When a lay is longer than its cloth: which panels are left over, and what would make it fit, found by trying."""

import itertools
import math
from collections.abc import Iterator
from dataclasses import dataclass

import msgspec
import numpy as np
from shapely.geometry import Polygon, box

from core.errors import StripewrightError
from core.geometry.paths import Points
from core.geometry.polyline import signed_area
from core.lay.budget import Budget
from core.lay.freedom import Freedom
from core.lay.legal import cut_lines
from core.lay.places import Arrangement, lowest
from core.lay.search import shortest
from core.lay.task import Task, task_of
from core.matching.solve import match
from core.model.cloth import Cloth
from core.model.panel import panels_of
from core.model.pattern import Edge, PanelName, Piece
from core.model.project import Centre, Project
from core.seams.garment import Garment
from core.wording import later, listed, tr

END_FOR_END = later("panels end for end, if the cloth allows it")

WIDER_DEG = 0.5
"""By how much more panels may turn off the grain when a wider tolerance is tried."""

MOST_ATTEMPTS = 8
"""At most so many things are tried."""

SEAM_ALLOWANCE_MM = 15.0
"""Allowance on either side of a seam that is put across a panel for a try."""

LEAST_ALLOWANCE_MM = 10.0
"""An allowance that is made narrower for a try keeps at least so much."""


@dataclass(frozen=True)
class Remedy:
    """Something that was tried, and the length that the lay would take with it, mm."""

    what: str
    length_mm: float
    fits: bool


def left_over(task: Task, at: Arrangement, end: float, budget: Budget, seed: int) -> tuple[PanelName, ...]:
    """Panels that don't lie on the cloth while all others do: one, the smallest, where trying finds such a one.

    Else those of the lay that reach past `end`, less those for which there is room elsewhere.
    """
    for number, panel in enumerate(np.argsort(task.areas, kind="stable").tolist()):
        portion = budget.portion(number, task.panels)
        if task.panels > 1 and _fits(task.only(np.flatnonzero(task.whose != panel)), portion, seed, end):
            return (task.loose[panel].name,)
        if portion.ended:
            break
    return _not_put_back(task, at.copy(), end)


def _fits(task: Task, budget: Budget, seed: int, end: float) -> bool:
    return task.floor <= end + 1e-6 and shortest(task, budget, seed, end).length(task) <= end + 1e-6


def _not_put_back(task: Task, at: Arrangement, end: float) -> tuple[PanelName, ...]:
    past = [entry for entry in at.there.tolist() if at.v[entry] + task.ends[entry] > end + 1e-6]
    at.column[past] = -1
    left = []
    for entry in sorted(past, key=lambda e: (-task.areas[task.whose[e]], e)):
        place = lowest(task, entry, at, end + 1e-9)
        if place is None:
            left.append(task.loose[entry].name)
        else:
            at.put(place)
    return tuple(left)


def remedies(
    project: Project, cloth: Cloth, missing_mm: float, left: tuple[PanelName, ...], budget: Budget, seed: int
) -> tuple[Remedy, ...]:
    """Everything that was tried to bring a lay within its cloth's end, of which so much is missing, in the order of
    trying, the best of what has one name; a cloth without an end has none."""
    found: dict[str, Remedy] = {}
    if cloth.end is None:
        return ()
    end, attempts = cloth.end, _attempts(project, cloth, missing_mm, left)
    for number, (what, other) in enumerate(itertools.islice(attempts, MOST_ATTEMPTS)):
        portion = budget.portion(number, MOST_ATTEMPTS)
        try:
            length = _length(other, other.cloth(cloth.id), end, portion, seed)
        except StripewrightError:
            continue
        if portion.ended:
            break
        if what not in found or length < found[what].length_mm:
            found[what] = Remedy(what, length, length <= end + 1e-6)
    return tuple(found.values())


def _length(project: Project, cloth: Cloth, end: float, budget: Budget, seed: int) -> float:
    freedom = Freedom(project, cloth, Garment.of(project))
    task = task_of(project, cloth, freedom.either_way)
    return shortest(task, budget, seed, end).length(task)


def _attempts(
    project: Project, cloth: Cloth, missing_mm: float, left: tuple[PanelName, ...]
) -> Iterator[tuple[str, Project]]:
    if cloth.one_way:
        yield tr(END_FOR_END), _on(project, cloth, one_way=False)
    by_mm = _narrower_by(project, cloth, missing_mm)
    narrow = narrower(project, cloth, by_mm)
    if narrow != project:
        yield tr("every panel's widest allowance {by_mm:g} mm narrower", by_mm=by_mm), narrow
    if cloth.ways:
        free = msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, centre=Centre()))
        if project.match.centre.on != "free":
            for other in Freedom(free, cloth, Garment.of(free)).others():
                yield tr("something else on the centre"), other
        wider = cloth.grain_tolerance_deg + WIDER_DEG
        yield (
            tr("a grain tolerance of {wider:g}°", wider=wider),
            match(_on(project, cloth, grain_tolerance_deg=wider)).project,
        )
    split = in_two(project, left)
    if split is not None:
        yield tr("a seam across {name}", name=listed(left)), split


def _on(project: Project, cloth: Cloth, **changes: object) -> Project:
    other = msgspec.structs.replace(cloth, **changes)
    return msgspec.structs.replace(project, cloths=tuple(other if c.id == cloth.id else c for c in project.cloths))


def _narrower_by(project: Project, cloth: Cloth, missing_mm: float) -> float:
    """Whole millimetres that each panel must be shorter by, if as many lie behind one another as would with none beside
    them."""
    tall = max(float(np.ptp(line[:, 1])) for line in cut_lines(project, cloth).values())
    assert cloth.end is not None
    return math.ceil(missing_mm / max((cloth.end + missing_mm) // tall, 1.0) - 1e-6)


def narrower(project: Project, cloth: Cloth, by_mm: float) -> Project:
    """The project with the widest allowance of each piece on a cloth narrower by so much.

    Pieces stay as they are that have a panel held, are drawn at their cut line, have one allowance all
    round, or would keep too little.
    """
    return msgspec.structs.replace(
        project,
        pieces=tuple(_narrowed(project, one, by_mm) if one.cloth == cloth.id else one for one in project.pieces),
    )


def _narrowed(project: Project, piece: Piece, by_mm: float) -> Piece:
    allowances = [edge.allowance for edge in piece.edges]
    widest = max(allowances)
    held = any(project.placement(name).hold for name in piece.panel_names)
    if held or piece.outline_is == "cut" or widest == min(allowances) or widest - by_mm < LEAST_ALLOWANCE_MM:
        return piece
    edges = (
        msgspec.structs.replace(edge, allowance=widest - by_mm) if edge.allowance == widest else edge
        for edge in piece.edges
    )
    return msgspec.structs.replace(piece, edges=tuple(edges))


def in_two(project: Project, names: tuple[PanelName, ...]) -> Project | None:
    """The project with panels cut in two across their middles, an allowance added to both parts; its seams are left
    out.

    Parts keep the panel's origin, so that their stripes run on. None where there is nothing to cut, or cutting leaves
    no two simple outlines.
    """
    cut = [piece for piece in project.pieces if not set(names).isdisjoint(piece.panel_names)]
    panels = [(piece, panel) for piece in cut for panel in panels_of(piece)]
    made: list[tuple[Piece, PanelName]] = []
    for piece, panel in panels:
        parts = _halves(panel.cut_ring) if panel.name in names else {"": panel.cut_ring}
        if not parts:
            return None
        made += [
            (_piece(f"{panel.name}{which}".replace(".", " "), line, piece), panel.name) for which, line in parts.items()
        ]
    others = (piece for piece in project.pieces if piece not in cut)
    gone = {panel.name for _, panel in panels}
    kept = {name: at for name, at in project.placements.items() if name not in gone}
    placements = {**kept, **{piece.id: project.placement(of) for piece, of in made}}
    pieces = (*others, *(piece for piece, _ in made))
    return msgspec.structs.replace(project, pieces=pieces, seams=(), placements=placements) if made else None


def _halves(ring: Points) -> dict[str, Points]:
    """What is above and below the middle of a ring, each with an allowance; nothing where that is not two outlines."""
    low, high = ring.min(axis=0), ring.max(axis=0)
    middle = float(low[1] + high[1]) / 2
    halves = [
        Polygon(ring).intersection(box(low[0] - 1, top, high[0] + 1, bottom))
        for top, bottom in ((low[1] - 1, middle + SEAM_ALLOWANCE_MM), (middle - SEAM_ALLOWANCE_MM, high[1] + 1))
    ]
    if not all(isinstance(half, Polygon) for half in halves):
        return {}
    return {which: np.array(half.exterior.coords)[:-1] for which, half in zip((" 1", " 2"), halves, strict=True)}


def _piece(piece_id: str, ring: Points, like: Piece) -> Piece:
    """A single piece with a cut line and nothing else; shape (n, 2)."""
    line = ring if signed_area(ring) > 0 else ring[::-1]
    points = [f"{x:.6f} {y:.6f}" for x, y in line]
    halves = points[: len(points) // 2 + 1], [*points[len(points) // 2 :], points[0]]
    edges = tuple(Edge(name=str(i), path="M " + " L ".join(half)) for i, half in enumerate(halves))
    return Piece(id=piece_id, cloth=like.cloth, edges=edges)
