"""Little made-up seams for the pictures of the help: two straight gores and one seam, read like any other."""

import math
from dataclasses import dataclass, replace
from functools import lru_cache

import msgspec

from app.words import tr
from core.model.cloth import Cloth, Repeat, Stripe
from core.model.pattern import Edge, Piece, Seam
from core.model.project import Placement, Project
from core.seams.readings import SeamReading, measure

HIGH_MM = 240.0
_WIDE_MM = 90.0


@dataclass(frozen=True)
class MadeUp:
    """Two gores side by side, mm and degrees.

    `lean_a` and `lean_b` are how far each edge goes to the right on its way down; `step` is how far b lies from where
    the stripes meet at the top; `longer` lengthens b's edge by a share; `moved` moves the stitching line to the right
    after the panels were placed.
    """

    name: str
    lean_a: float = 24.0
    lean_b: float = -24.0
    step: float = 0.0
    longer: float = 0.0
    moved: float = 0.0
    turn_deg: float = 0.0
    turned: bool = False
    uneven: bool = False

    @property
    def repeat(self) -> Repeat:
        """A plain ticking, or one with a fine stripe beside the broad one."""
        broad = Stripe(name=tr("indigo"), at=0, width=9, colour="#2f4a6d")
        fine = Stripe(name=tr("madder"), at=8.5, width=3, colour="#a2463a")
        return Repeat(width=24, ground="#efe6d2", lead=broad.name, stripes=(broad, fine) if self.uneven else (broad,))


def read(made: MadeUp) -> tuple[Project, SeamReading]:
    """The project of a made-up seam and its reading, with the stripes meeting at the top but for `step`."""
    return _read(made, tr(made.name))


@lru_cache(maxsize=64)
def _read(made: MadeUp, title: str) -> tuple[Project, SeamReading]:
    """Kept for the language in which the seam has this title."""
    project = _project(made).placed(_places(replace(made, moved=0.0)))
    return project, _reading(project)


def _places(made: MadeUp) -> dict[str, Placement]:
    """Where the two panels lie: b as far from where the stripes meet at the top as `step` says."""
    project = _project(made)
    right = tr("right")
    at, reading = project.placements[right], _reading(project)
    by = made.step - float(reading.raw[0])
    return {right: msgspec.structs.replace(at, u=at.u + (by if reading.lean == "opposite" else -by))}


def closed_by_turning(made: MadeUp) -> MadeUp:
    """The seam with b turned by so much that both edges lean alike much, degrees rounded to a hundredth."""
    by_deg = math.degrees(math.atan2(made.lean_b, HIGH_MM) - math.atan2(made.lean_a, HIGH_MM))
    trials = [replace(made, turn_deg=round(sign * by_deg, 2)) for sign in (1.0, -1.0)]
    return min(trials, key=lambda trial: read(trial)[1].rms_mm or 0.0)


def closed_by_moving(made: MadeUp) -> MadeUp:
    """The seam with the stitching line moved by half the step, to the side that closes it."""
    trials = [replace(made, moved=sign * made.step / 2) for sign in (1.0, -1.0)]
    return min(trials, key=lambda trial: read(trial)[1].rms_mm or 0.0)


def _reading(project: Project) -> SeamReading:
    reading = measure(project).seams[0]
    assert reading is not None
    return reading


def _project(made: MadeUp) -> Project:
    cloth = Cloth(id="cloth", width=1400.0, grain_tolerance_deg=5.0, repeat=made.repeat)
    left = _gore(tr("left"), (-_WIDE_MM, 0), (made.moved, 0), (made.moved + made.lean_a, HIGH_MM), (-_WIDE_MM, HIGH_MM))
    high, lean_b = HIGH_MM * (1 + made.longer), made.lean_b * (1 + made.longer)
    right = _gore(tr("right"), (made.moved, 0), (_WIDE_MM, 0), (_WIDE_MM, high), (made.moved + lean_b, high))
    return Project(
        title=tr(made.name),
        cloths=(cloth,),
        pieces=(left, right),
        seams=(Seam(name=tr(made.name), a=f"{left.id}/right edge", b=f"{right.id}/left edge"),),
        placements={
            left.id: Placement(u=480.0, v=0.0),
            right.id: Placement(u=720.0, v=0.0, turn_deg=made.turn_deg, turned=made.turned),
        },
    )


def _gore(name: str, *corners: tuple[float, float]) -> Piece:
    """A piece from its four corners, clockwise from the upper left one."""
    names = ("top", "right edge", "hem", "left edge")
    ends = (*corners[1:], corners[0])
    edges = [
        Edge(name=edge, path=f"M {x0:g} {y0:g} L {x1:g} {y1:g}")
        for edge, (x0, y0), (x1, y1) in zip(names, corners, ends, strict=True)
    ]
    return Piece(id=name, cloth="cloth", edges=tuple(edges))
