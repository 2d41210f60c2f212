"""Laying paper pieces close together on a long sheet of a given height, so that little paper is printed.

Pieces are placed one after the other against the frontier that those before them leave: for every height on the sheet
the farthest x that is taken. The next piece is the one that wastes least against it, end for end or not, tilted so
that it leans on its neighbour where that helps. Nothing is random: the same pieces give the same sheet.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.geometry.polyline import Floats, signed_area
from core.geometry.transform import rotation

GRAIN_MM = 2.0
"""Outlines are compared at so many mm."""

GAP_MM = 2.0
OFFSET_STEP_MM = 16.0
MOST_TILT_DEG = 12.0


@dataclass(frozen=True)
class Lying:
    """Where a piece lies on a sheet: turned clockwise about zero, then moved by `by`, mm."""

    index: int
    turn_deg: float
    by: tuple[float, float]

    def placed(self, points: Points) -> Points:
        """Points of the piece as it lies on the sheet."""
        return np.asarray(points @ rotation(self.turn_deg, False).T + np.array(self.by))


@dataclass(frozen=True)
class Nest:
    """Pieces on a sheet of a height, and the length that they take, mm."""

    lying: tuple[Lying, ...]
    length_mm: float


@dataclass(frozen=True, eq=False)
class _Profile:
    """A piece at one angle, seen level by level from its top: its first and last x, mm; `corner` is its box's corner.

    `lean` is how much its left side goes right per mm downwards.
    """

    low: Floats
    high: Floats
    corner: tuple[float, float]

    @cached_property
    def lean(self) -> float:
        eighth = max(len(self.low) // 8, 1)
        return _slope(self.low[eighth:-eighth] if len(self.low) > 3 * eighth else self.low)


Option = tuple[float, int, float, int, float]
"""A way of laying a piece: score, piece, angle, offset down the sheet in grains, and x, mm."""


class Nester:
    """Pieces ready to be laid, with their profiles remembered."""

    def __init__(self, outlines: Sequence[Points]) -> None:
        self._grown = [_grown(outline) for outline in outlines]
        self._areas = [abs(signed_area(outline)) for outline in outlines]
        self._profiles: dict[tuple[int, float], _Profile] = {}

    def nest(self, height_mm: float, first: int | None = None, upright_deg: float = 0.0) -> Nest | None:
        """All pieces on a sheet, or None if one is too tall.

        `first` says which piece begins, None leaves it open; `upright_deg` 90 lays the pieces on their sides.
        """
        every = range(len(self._grown))
        nest = self.row(height_mm, every, math.inf, first, upright_deg)
        return nest if len(nest.lying) == len(every) else None

    def row(
        self,
        height_mm: float,
        pieces: Iterable[int],
        longest_mm: float,
        first: int | None = None,
        upright_deg: float = 0.0,
    ) -> Nest:
        """As many of some pieces on a sheet as its length allows, none if none fits."""
        frontier = np.zeros(int(height_mm / GRAIN_MM))
        left, lying = list(pieces), list[Lying]()
        while left:
            begin = [first] if first is not None and not lying else left
            options = [option for index in begin for option in self._options(index, frontier, upright_deg)]
            fitting = [option for option in options if self._end(option) <= longest_mm]
            if not fitting:
                break
            _, index, angle, offset, x = min(fitting)
            profile = self._profile(index, angle)
            frontier[offset : offset + len(profile.low)] = x + profile.high
            lying.append(Lying(index, angle, (x - profile.corner[0], offset * GRAIN_MM - profile.corner[1])))
            left.remove(index)
        return Nest(tuple(lying), float(frontier.max(initial=0.0)))

    def _end(self, option: Option) -> float:
        """How far a piece would reach."""
        _, index, angle, _, x = option
        return x + float(self._profile(index, angle).high.max())

    def _options(self, index: int, frontier: Floats, upright_deg: float) -> list[tuple[float, int, float, int, float]]:
        """Every way of laying a piece that is worth a look."""
        found = []
        for angle in (upright_deg, upright_deg + 180.0):
            upright = self._scored(index, angle, frontier)
            if upright is None:
                continue
            found.append(upright)
            tilt = self._tilt_to_lean(self._profile(index, angle), frontier, upright[3])
            tilted = self._scored(index, angle + tilt, frontier) if tilt else None
            found += [tilted] if tilted else []
        return found

    def _tilt_to_lean(self, profile: _Profile, frontier: Floats, offset: int) -> float:
        """By how much the piece would be tilted so that its left side runs as what it leans on, half degrees."""
        eighth = len(profile.low) // 8
        beside = frontier[offset + eighth : offset + len(profile.low) - eighth]
        if len(beside) < 2:
            return 0.0
        tilt = math.degrees(math.atan(profile.lean) - math.atan(_slope(beside)))
        return round(2 * max(-MOST_TILT_DEG, min(MOST_TILT_DEG, tilt))) / 2

    def _scored(self, index: int, angle: float, frontier: Floats) -> Option | None:
        profile = self._profile(index, angle)
        room = len(frontier) - len(profile.low)
        if room < 0:
            return None
        offsets = np.unique(np.append(np.arange(0, room + 1, int(OFFSET_STEP_MM / GRAIN_MM)), room))
        beside = sliding_window_view(frontier, len(profile.low))[offsets]
        x = (beside - profile.low).max(axis=1)
        taken = (x[:, None] + profile.high - beside).sum(axis=1) * GRAIN_MM
        score = taken / self._areas[index]
        best = int(np.argmin(score))
        return float(score[best]), index, angle, int(offsets[best]), float(x[best])

    def _profile(self, index: int, angle: float) -> _Profile:
        key = index, angle % 360
        if key not in self._profiles:
            self._profiles[key] = _profile_of(self._grown[index] @ rotation(angle, False).T)
        return self._profiles[key]


def _grown(outline: Points) -> Points:
    """The outline with half the gap round it, in few points."""
    shape = Polygon(outline).buffer(GAP_MM / 2 + 0.1, join_style="mitre").simplify(0.1)
    return np.array(shape.exterior.coords)


def _profile_of(ring: Points) -> _Profile:
    corner = ring.min(axis=0)
    points = ring - corner
    along = np.concatenate([[0.0], np.cumsum(np.hypot(*np.diff(points, axis=0).T))])
    every = np.concatenate([np.arange(0.0, along[-1], GRAIN_MM / 2), along])
    x, y = np.interp(every, along, points[:, 0]), np.interp(every, along, points[:, 1])
    count = max(math.ceil(float(points[:, 1].max()) / GRAIN_MM), 1)
    low, high = np.full(count, np.inf), np.full(count, -np.inf)
    level = np.minimum((y / GRAIN_MM).astype(int), count - 1)
    np.minimum.at(low, level, x)
    np.maximum.at(high, level, x)
    return _Profile(low, high, (float(corner[0]), float(corner[1])))


def _slope(x: Floats) -> float:
    """Mean change of x per mm downwards, from the means of the two halves."""
    half = len(x) // 2
    if half < 1:
        return 0.0
    return float(x[-half:].mean() - x[:half].mean()) / ((len(x) - half) * GRAIN_MM)
