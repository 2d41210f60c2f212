"""The lay of one cloth as numbers: columns to choose from, walls, and tables of forbidden positions."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.errors import CannotBeHad
from core.geometry.paths import Points
from core.geometry.polyline import Floats, signed_area
from core.geometry.transform import placed
from core.lay.forbidden import forbidden, merged
from core.lay.legal import cut_line, panels_on
from core.lay.shapes import Shape, eased, sheared
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project

FINEST_STEP_MM = 4.0
"""Columns are not closer together than this; a finer repeat uses every second, third, ... of its periods."""

EASED_MM = 0.02
"""Curves are kept apart by up to this much more than they need, which makes the tables several times faster."""

SAME_MM = 1e-7
"""Places closer together than this are one place."""

MOST_COLUMNS = 800
"""Columns on very wide cloth are farther apart, so that the tables stay in bounds."""

PLAIN_STEP_MM = 8.0
"""Columns on plain cloth are at most this far apart."""

_LONGEST_WAIT_MM = 20_000.0
_ABSENT = np.array([np.inf, -np.inf])


@dataclass(frozen=True, eq=False)
class Loose:
    """A panel that may move: its shape about its own origin, and u from its leftmost to its rightmost point, mm."""

    name: PanelName
    placement: Placement
    shape: Shape
    sides: tuple[float, float]


@dataclass(frozen=True, eq=False)
class Task:
    """All that the search needs to know about one cloth.

    Loose panel i in column c has its origin at w = `first[i]` + c * `step`; v may lie from `least[i, c]` to
    `most[i, c]` (inf and -inf where the column is none of its own). With panels i and j in columns c and d,
    v_i - v_j may not lie inside the intervals `pairs[i, j, c - d + columns - 1]`; and v_i not inside `still[i, c]`,
    which stand for flaws and held panels. Interval lists have shape (m, 2), absent ones are (inf, -inf).
    """

    cloth: Cloth
    loose: tuple[Loose, ...]
    step: float
    first: Floats
    least: Floats
    most: Floats
    pairs: Floats
    still: Floats
    held_end: float

    @property
    def columns(self) -> int:
        """How many columns the panel with the most of them can choose from."""
        return int(self.least.shape[1])

    @cached_property
    def starts(self) -> Floats:
        """Least v of each loose panel's shape about its origin; shape (n,)."""
        return np.array([one.shape.along[0] for one in self.loose])

    @cached_property
    def ends(self) -> Floats:
        """Largest v of each loose panel's shape about its origin; shape (n,)."""
        return np.array([one.shape.along[1] for one in self.loose])

    @cached_property
    def areas(self) -> Floats:
        """Area of each loose panel, mm2; shape (n,)."""
        return np.array([abs(signed_area(one.shape.ring)) for one in self.loose])

    @cached_property
    def floor(self) -> float:
        """A length that no lay can beat, mm: held panels, the longest panel, and the area of all loose ones."""
        longest = float((self.least.min(axis=1, initial=np.inf) + self.ends).max(initial=0.0))
        usable = self.cloth.usable[1] - self.cloth.usable[0]
        return max(self.held_end, longest, float(self.areas.sum()) / usable)

    def placement(self, index: int, column: int, v: float) -> Placement:
        """Where a loose panel lies on the cloth when it lies at v in a column."""
        at = self.loose[index].placement
        u = float(self.first[index]) + column * self.step + self.cloth.skew * v + 0.0
        return Placement(u=u, v=v + 0.0, turn_deg=at.turn_deg, turned=at.turned)


def task_of(project: Project, cloth: Cloth) -> Task:
    """The task that a cloth sets. Raises CannotBeHad for a panel that no column has room for."""
    panels = panels_on(project, cloth)
    held = [panel for panel in panels if project.placement(panel.name).hold]
    loose = _loose(project, cloth, [panel for panel in panels if panel not in held])
    lines = [cut_line(panel, project.placement(panel.name)) for panel in held]
    still = [_shape(line, cloth) for line in (*lines, *flaw_outlines(cloth))]
    held_end = max((float(line[:, 1].max()) for line in lines), default=0.0)
    step = _step(cloth, loose)
    first, least, most = _columns(cloth, loose, step, _farthest(cloth, loose, still, step))
    pairs = _pair_tables(loose, first, step, least.shape[1])
    still_tables = _still_tables(loose, still, first, step, least.shape[1])
    return Task(cloth, loose, step, first, least, most, pairs, still_tables, held_end)


def flaw_outlines(cloth: Cloth) -> list[Points]:
    """The flaws' corners; each of shape (4, 2), columns u and v."""
    return [np.array([[u0, v0], [u1, v0], [u1, v1], [u0, v1]]) for u0, v0, u1, v1 in cloth.flaws]


def _loose(project: Project, cloth: Cloth, panels: Sequence[Panel]) -> tuple[Loose, ...]:
    shapes: dict[bytes, Shape] = {}
    found = []
    for panel in panels:
        at = project.placement(panel.name)
        ring = placed(panel.cut_ring, 0.0, 0.0, at.turn_deg, at.turned)
        shape = shapes.setdefault(ring.tobytes(), _shape(ring, cloth))
        found.append(Loose(panel.name, at, shape, (float(ring[:, 0].min()), float(ring[:, 0].max()))))
    return tuple(found)


def _shape(line: Points, cloth: Cloth) -> Shape:
    return eased(Shape.of(sheared(line, cloth.skew)), EASED_MM)


def _step(cloth: Cloth, loose: Sequence[Loose]) -> float:
    """Distance between columns, mm: whole periods of the repeat, or a fine step on plain cloth.

    On plain cloth a common measure of the panels' widths is taken where there is one, so that they can lie abreast.
    """
    tall = sum(one.shape.along[1] - one.shape.along[0] for one in loose)
    finest = max(FINEST_STEP_MM, (cloth.usable[1] - cloth.usable[0] + abs(cloth.skew) * tall) / MOST_COLUMNS)
    if cloth.repeat is not None:
        return cloth.repeat.period * math.ceil(finest / cloth.repeat.period)
    plain = max(PLAIN_STEP_MM, finest)
    common = math.gcd(*(round((one.sides[1] - one.sides[0]) * 100) for one in loose)) / 100
    return common / math.ceil(common / plain) if common >= finest else plain


def _farthest(cloth: Cloth, loose: Sequence[Loose], still: Sequence[Shape], step: float) -> float:
    """A v that no panel need lie beyond: all after one another, behind everything that stays where it is.

    Where the stripes lean, a panel almost as wide as the cloth must wait for its stripes to come between the selvedges.
    """
    tall = sum(one.shape.along[1] - one.shape.along[0] for one in loose)
    room = cloth.usable[1] - cloth.usable[0]
    tight = sum(room - (one.sides[1] - one.sides[0]) < step for one in loose)
    wait = min(step / abs(cloth.skew), _LONGEST_WAIT_MM) if cloth.skew else 0.0
    return max((shape.along[1] for shape in still), default=0.0) + tall + tight * wait


def _columns(cloth: Cloth, loose: Sequence[Loose], step: float, farthest: float) -> tuple[Floats, Floats, Floats]:
    """w of each panel's first column, and least and most v in each column; (n,), (n, c), (n, c)."""
    drift = sorted((0.0, cloth.skew * farthest))
    period = cloth.repeat.period if cloth.repeat else step
    first, counts = [], []
    for one in loose:
        low, high = cloth.usable[0] - one.sides[0] - drift[1], cloth.usable[1] - one.sides[1] - drift[0]
        phase = one.placement.u - cloth.skew * one.placement.v if cloth.repeat else low
        first.append(phase + period * math.ceil((low - phase - SAME_MM) / period))
        counts.append(math.floor((high - first[-1] + SAME_MM) / step) + 1)
    w = np.array(first)[:, None] + step * np.arange(max(counts, default=1))
    least, most = _walls(cloth, loose, w, farthest)
    for index in np.flatnonzero(~np.any(least <= most, axis=1)):
        raise no_room(cloth, loose[int(index)])
    return np.array(first), least, most


def _walls(cloth: Cloth, loose: Sequence[Loose], w: Floats, farthest: float) -> tuple[Floats, Floats]:
    """Least and most v that keep each panel between the selvedges and behind the cut end, in each column."""
    low = cloth.usable[0] - np.array([one.sides[0] for one in loose])[:, None] - w - SAME_MM
    high = cloth.usable[1] - np.array([one.sides[1] for one in loose])[:, None] - w + SAME_MM
    start = -np.array([one.shape.along[0] for one in loose])[:, None]
    end = np.full_like(w, np.inf)
    if cloth.skew:
        ends = np.sort(np.stack([low, high]) / cloth.skew, axis=0)
        least, most = np.maximum(ends[0], start), np.minimum(ends[1], end)
        fits = (least <= most) & (low <= high) & (least <= farthest)
    else:
        least, most = np.broadcast_to(start, w.shape), end
        fits = (low <= 0) & (high >= 0)
    return np.where(fits, least, np.inf), np.where(fits, most, -np.inf)


def no_room(cloth: Cloth, one: Loose) -> CannotBeHad:
    """What to say of a panel that has no place on a cloth."""
    wide, room = one.sides[1] - one.sides[0], cloth.usable[1] - cloth.usable[0]
    period = cloth.repeat.period if cloth.repeat else 0.0
    return CannotBeHad(
        f"panel {one.name!r} can't lie on {cloth.title!r}: where its stripes match it does not come between the"
        f" selvedges (cutting line {wide:.1f} mm wide, usable width {room:.1f} mm, stripes every {period:g} mm)"
    )


def _pair_tables(loose: Sequence[Loose], first: Floats, step: float, columns: int) -> Floats:
    """Forbidden v_i - v_j for all pairs and column differences; (n, n, 2 * columns - 1, m, 2)."""
    known: dict[tuple[int, int, float], Floats] = {}
    shifts = step * np.arange(1 - columns, columns)
    rows: list[list[Floats]] = [[_NOTHING] * len(loose) for _ in loose]
    for i in range(len(loose)):
        for j in range(i):
            key = (id(loose[i].shape), id(loose[j].shape), round(float(first[i] - first[j]), 6))
            if key not in known:
                known[key] = _reaching(loose[j].shape, loose[i].shape, first[i] - first[j] + shifts)
            rows[i][j], rows[j][i] = known[key], -known[key][::-1, :, ::-1]
    return _table(rows, 2 * columns - 1)


def _still_tables(loose: Sequence[Loose], still: Sequence[Shape], first: Floats, step: float, columns: int) -> Floats:
    """Forbidden v_i in each column because of what stays where it is; (n, columns, m, 2)."""
    w = first[:, None] + step * np.arange(columns)
    rows = []
    for one, across in zip(loose, w, strict=True):
        tables = [_reaching(shape, one.shape, across) for shape in still]
        every = np.concatenate(tables, axis=1) if tables else np.empty((columns, 0, 2))
        there = np.isfinite(every[..., 0])
        low, high = every[there].T
        rows.append([np.stack(merged(low, high, np.nonzero(there)[0], columns), axis=-1)])
    return _table(rows, columns)[:, 0] if rows else np.empty((0, columns, 1, 2))


_NOTHING = np.empty((0, 0, 2))


def _reaching(fixed: Shape, moving: Shape, across: Floats) -> Floats:
    """`forbidden`, worked out only for shifts at which the two shapes reach each other across; (c, m, 2)."""
    near = (moving.reach[0] + across < fixed.reach[1]) & (moving.reach[1] + across > fixed.reach[0])
    found = np.stack(forbidden(fixed, moving, across[near]), axis=-1)
    every = np.full((len(across), *found.shape[1:]), _ABSENT)
    every[near] = found
    return every


def _table(rows: Sequence[Sequence[Floats]], places: int) -> Floats:
    """Interval lists of shape (places, m, 2) with unlike m in one array; (rows, entries, places, m, 2)."""
    most = max((part.shape[1] for row in rows for part in row), default=0) or 1
    table = np.full((len(rows), len(rows[0]) if rows else 0, places, most, 2), _ABSENT)
    for i, row in enumerate(rows):
        for j, part in enumerate(row):
            table[i, j, : len(part), : part.shape[1]] = part
    return table
