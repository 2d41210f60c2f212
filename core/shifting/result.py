"""What shifting the lines has come to: the altered project, seam by seam, and what has stayed the same."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import WAYS
from core.model.pattern import SewnSeam
from core.model.project import Project
from core.seams.garment import Garment, SeamLine
from core.seams.readings import Measurement, SeamReading, measure
from core.seams.strip import Side, edge_at
from core.seams.taking_in import TakingIn, taking_in
from core.shifting.edges import ALIKE, EdgeGroup
from core.shifting.pieces import LEAST_SHIFT_MM, Move, with_moved_lines
from core.shifting.wish import Ends, ShiftWish
from core.wording import tr

KNOTS_MM = 50.0
"""A shift is told at heights so far apart."""


BeforeAfter = tuple[float | None, float | None]


@dataclass(frozen=True, eq=False)
class SeamShift:
    """How one seam's line is moved: heights, mm, with the shift there, positive where the left edge is let out.

    `stays` says why it is not moved, or "", and `instead` what taking in or letting out one edge alone would come to
    where the edges lean alike. The figures are those of the match without shifts and with them: of the stripes, and of
    the bars where there are any.
    """

    sewn: SewnSeam
    knots: tuple[tuple[float, float], ...]
    stays: str
    rms_before_mm: float | None
    rms_mm: float | None
    instead: TakingIn | None = None
    bars_before_mm: float | None = None
    bars_mm: float | None = None

    @property
    def largest(self) -> tuple[float, float]:
        """The largest shift, mm, with its sign, and its height; (0, 0) where nothing is moved."""
        return max(((by, at) for at, by in self.knots), key=lambda pair: abs(pair[0]), default=(0.0, 0.0))


@dataclass(frozen=True, eq=False)
class ShiftResult:
    """Shifted lines: the project with altered pieces and placements, and what they give.

    `rms_before_mm` is the figure of the best match without shifts; `stripes_mm` and `bars_mm` are those of either way,
    before and after. `girth_change_mm` is the most by which what one edge gains and the other loses differ at any
    height of any seam, `length_change_mm` the most by which the two edges of a seam differ in length more than before.
    """

    project: Project
    cap_mm: float
    ends: Ends
    rms_before_mm: float | None
    rms_mm: float | None
    seams: tuple[SeamShift, ...]
    girth_change_mm: float
    length_change_mm: float
    stripes_mm: BeforeAfter = (None, None)
    bars_mm: BeforeAfter = (None, None)
    seconds: float = 0.0
    status: Literal["done", "stopped"] = "done"

    @property
    def largest_mm(self) -> float:
        """The largest shift anywhere, mm."""
        return max((abs(seam.largest[0]) for seam in self.seams), default=0.0)


def shift_result(
    placed: Project,
    before: Project,
    groups: tuple[EdgeGroup, ...],
    moves: list[Move],
    stays: dict[int, str],
    wish: ShiftWish,
) -> ShiftResult:
    """The result of moving lines in `placed`, whose lines are the old ones, beside the project `before`.

    `stays` says by a group's identity why it does not move.
    """
    after = with_moved_lines(placed, moves)
    old, new = Garment.of(placed), Garment.of(after)
    was, now = measure(before), measure(after, new)
    seams = tuple(_seam(after, old, index, groups, moves, stays, (was, now)) for index in range(len(old.seams)))
    girth, lengths = _girth_change(old, new), _length_change(old, new)
    stripes, bars = ((was.rms_of(way), now.rms_of(way)) for way in WAYS)
    return ShiftResult(after, wish.cap_mm, wish.ends, was.rms_mm, now.rms_mm, seams, girth, lengths, stripes, bars)


def _seam(
    project: Project,
    old: Garment,
    index: int,
    groups: tuple[EdgeGroup, ...],
    moves: list[Move],
    stays: dict[int, str],
    measured: tuple[Measurement, Measurement],
) -> SeamShift:
    """What has become of one seam."""
    group = next(group for group in groups if index in group.seams)
    sewn, why = project.sewn[index], stays.get(id(group), "")
    move = next((move for move in moves if move.group is group and np.abs(move.shift).max() > LEAST_SHIFT_MM), None)
    knots = _knots(old.seams[index].length, move, group.way_of(project, sewn.a, True)) if move else ()
    instead = _instead(project, measured[1].seams[index]) if why == tr(ALIKE) else None
    (was, now), bars = ([_rms(one.readings_of(way)[index]) for one in measured] for way in WAYS)
    return SeamShift(sewn, knots, why, was, now, instead, *bars)


def _rms(reading: SeamReading | None) -> float | None:
    return reading.rms_mm if reading else None


def _instead(project: Project, reading: SeamReading | None) -> TakingIn | None:
    return taking_in(reading, project.placement(reading.line.panels[0])) if reading else None


def _knots(length: float, move: Move, way: int) -> tuple[tuple[float, float], ...]:
    heights = np.concatenate([np.arange(0.0, length - KNOTS_MM / 4, KNOTS_MM), [length]])
    values = way * (move.spline.values(heights / length) @ move.shift)
    return tuple((round(float(h), 3), round(float(d), 4) + 0.0) for h, d in zip(heights, values, strict=True))


def _girth_change(before: Garment, after: Garment) -> float:
    """The most by which what a's edge gains, square to itself, and what b's loses differ, summed over the seams, mm.

    Read from the lines as they are written, at the same share of every seam.
    """
    total = np.zeros(len(_SHARES))
    for old, new in zip(before.seams, after.seams, strict=True):
        gained = [_gained(old, new, side) for side in ("a", "b")]
        total += np.abs(gained[0] + gained[1])
    return float(total.max())


_SHARES = np.linspace(0.0, 1.0, 101)


def _gained(old: SeamLine, new: SeamLine, side: Side) -> Floats:
    """How far one edge has moved out, square to itself, at shares of the seam, mm; shape of the shares."""
    line = old.a if side == "a" else old.b
    if np.array_equal(line, new.a if side == "a" else new.b):
        return np.zeros(len(_SHARES))
    points, inward = edge_at(old, side, _SHARES * old.length)
    there, _ = edge_at(new, side, _SHARES * new.length)
    return np.asarray(-np.sum((there - points) * inward, axis=1))


def _length_change(before: Garment, after: Garment) -> float:
    """The most by which the two edges of a seam differ in length more than they did, mm."""
    return max(
        (
            abs((new.edge_lengths[0] - new.edge_lengths[1]) - (old.edge_lengths[0] - old.edge_lengths[1]))
            for old, new in zip(before.seams, after.seams, strict=True)
        ),
        default=0.0,
    )
