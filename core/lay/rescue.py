"""When a lay is longer than its cloth: which panels are left over, and what would make it fit, found by trying."""

import itertools
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
from core.lay.places import Arrangement, lowest
from core.lay.search import shortest
from core.lay.task import Task, task_of
from core.matching.solve import match
from core.model.cloth import Cloth
from core.model.panel import panels_of
from core.model.pattern import Edge, PanelName, Piece
from core.model.project import Centre, Project
from core.seams.garment import Garment
from core.wording import later, tr

END_FOR_END = later("panels end for end, if the cloth allows it")

WIDER_DEG = 0.5
"""By how much more panels may turn off the grain when a wider tolerance is tried."""

MOST_ATTEMPTS = 7
"""At most so many things are tried."""

SEAM_ALLOWANCE_MM = 15.0
"""Allowance on either side of a seam that is put across a panel for a try."""


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
    return shortest(task, budget, seed, end).length(task) <= end + 1e-6


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
    project: Project, cloth: Cloth, end: float, left: tuple[PanelName, ...], budget: Budget, seed: int
) -> tuple[Remedy, ...]:
    """Everything that was tried to bring the lay within `end`, in the order of trying."""
    found = []
    for number, (what, other) in enumerate(itertools.islice(_attempts(project, cloth, left), MOST_ATTEMPTS)):
        portion = budget.portion(number, MOST_ATTEMPTS)
        try:
            length = _length(other, other.cloth(cloth.id), end, portion, seed)
        except StripewrightError:
            continue
        if portion.ended:
            break
        found.append(Remedy(what, length, length <= end + 1e-6))
    return tuple(found)


def _length(project: Project, cloth: Cloth, end: float, budget: Budget, seed: int) -> float:
    freedom = Freedom(project, cloth, Garment.of(project))
    task = task_of(project, cloth, freedom.either_way)
    return shortest(task, budget, seed, end).length(task)


def _attempts(project: Project, cloth: Cloth, left: tuple[PanelName, ...]) -> Iterator[tuple[str, Project]]:
    if cloth.one_way:
        yield tr(END_FOR_END), _on(project, cloth, one_way=False)
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
    for name in left[:1]:
        split = in_two(project, name)
        if split is not None:
            yield tr("a seam across {name}", name=name), split


def _on(project: Project, cloth: Cloth, **changes: object) -> Project:
    other = msgspec.structs.replace(cloth, **changes)
    return msgspec.structs.replace(project, cloths=tuple(other if c.id == cloth.id else c for c in project.cloths))


def in_two(project: Project, name: PanelName) -> Project | None:
    """The project with a panel cut in two across its middle, an allowance added to both; its seams are left out.

    Both parts keep the panel's origin, so that their stripes run on. None where that leaves no two simple outlines.
    """
    piece = project.piece_of(name)
    panels = {panel.name: panel.cut_ring for panel in panels_of(piece)}
    ring = panels[name]
    low, high = ring.min(axis=0), ring.max(axis=0)
    middle = float(low[1] + high[1]) / 2
    halves = [
        Polygon(ring).intersection(box(low[0] - 1, top, high[0] + 1, bottom))
        for top, bottom in ((low[1] - 1, middle + SEAM_ALLOWANCE_MM), (middle - SEAM_ALLOWANCE_MM, high[1] + 1))
    ]
    if not all(isinstance(half, Polygon) for half in halves):
        return None
    parts = {f"{name} {which}": np.array(half.exterior.coords)[:-1] for which, half in zip("12", halves, strict=True)}
    whole = {other: line for other, line in panels.items() if other != name}
    new = tuple(_piece(label.replace(".", " "), line, piece) for label, line in {**whole, **parts}.items())
    pieces = (*(other for other in project.pieces if other.id != piece.id), *new)
    names = dict(zip((made.id for made in new), (*whole, name, name), strict=True))
    kept = {panel: at for panel, at in project.placements.items() if panel not in panels}
    placements = {**kept, **{made: project.placement(of) for made, of in names.items()}}
    return msgspec.structs.replace(project, pieces=pieces, seams=(), placements=placements)


def _piece(piece_id: str, ring: Points, like: Piece) -> Piece:
    """A single piece with a cut line and nothing else; shape (n, 2)."""
    line = ring if signed_area(ring) > 0 else ring[::-1]
    points = [f"{x:.6f} {y:.6f}" for x, y in line]
    halves = points[: len(points) // 2 + 1], [*points[len(points) // 2 :], points[0]]
    edges = tuple(Edge(name=str(i), path="M " + " L ".join(half)) for i, half in enumerate(halves))
    return Piece(id=piece_id, cloth=like.cloth, edges=edges)
