"""The lay of one cloth as numbers: columns to choose from, walls, and tables of forbidden positions."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property

import numpy as np

from core.errors import CannotBeHad
from core.geometry.paths import Points
from core.geometry.polyline import Floats, signed_area
from core.geometry.transform import placed, rotation
from core.lay.bound import least_length
from core.lay.legal import cut_line, panels_on
from core.lay.remnant import missing_outlines
from core.lay.rungs import SAME_MM, between, rungs_of
from core.lay.shapes import Ints, Shape, eased, sheared, widened
from core.lay.tables import pair_tables, still_tables
from core.lay.ways import next_of_same, ways_of
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName, panel_of
from core.model.project import Placement, Project
from core.progress import Progress, silent
from core.wording import tr

FINEST_STEP_MM = 4.0
"""Columns are not closer together than this; a finer repeat uses every second, third, ... of its periods."""

EASED_MM = 0.02
"""Curves are kept apart by up to this much more than they need, which makes the tables several times faster."""

MOST_COLUMNS = 800
"""Columns on very wide cloth are farther apart, so that the tables stay in bounds."""

PLAIN_STEP_MM = 8.0
"""Columns on plain cloth are at most this far apart."""

_LONGEST_WAIT_MM = 20_000.0


@dataclass(frozen=True, eq=False)
class Loose:
    """A panel that may move, one way round: its shape about its own origin, that shape with half of what is spared
    round it, u from its leftmost to its rightmost point, and its middle, (2,), mm. Stripes on a `free` one meet
    nothing."""

    name: PanelName
    placement: Placement
    shape: Shape
    roomy: Shape
    sides: tuple[float, float]
    middle: Floats
    free: bool


@dataclass(frozen=True, eq=False)
class Task:
    """All that the search needs to know about one cloth.

    The entries are the loose panels as they lie, `panels` of them, then, for those that may lie in more ways than one,
    the same once more for each: `whose` says which panel an entry is, `other` which entry is the same panel another
    way, in a ring: itself if there is none. Only one of them lies on the cloth.

    Entry i in column c has its origin at w = `first[i]` + c * `step`; v may lie from `least[i, c]` to
    `most[i, c]` (inf and -inf where the column is none of its own), where there are bars on a rung as `rungs[i, c]`
    has them (see `core.lay.rungs`); `walls[0]` and `walls[1]` are least and most v without rungs. With entries i and j
    in columns c and d,
    v_i - v_j may not lie inside the intervals `pairs[i, j, c - d + columns - 1]`; and v_i not inside `still[i, c]`,
    which stand for flaws and held panels. Interval lists have shape (m, 2), absent ones are (inf, -inf).
    """

    cloth: Cloth
    loose: tuple[Loose, ...]
    step: float
    first: Floats
    walls: Floats
    least: Floats
    most: Floats
    rungs: Floats
    pairs: Floats
    still: Floats
    whose: Ints
    other: Ints
    held_end: float
    still_end: float

    @property
    def panels(self) -> int:
        """How many panels there are to lay."""
        return int(self.whose.max(initial=-1)) + 1

    @property
    def complete(self) -> bool:
        """Whether the tables are there; they are not if building them was stopped."""
        return len(self.pairs) == len(self.loose)

    @property
    def columns(self) -> int:
        """How many columns the panel with the most of them can choose from."""
        return int(self.least.shape[1])

    @cached_property
    def starts(self) -> Floats:
        """Least v of each entry's shape about its origin; shape (n,)."""
        return np.array([one.shape.along[0] for one in self.loose])

    @cached_property
    def ends(self) -> Floats:
        """Largest v of each entry's shape about its origin; shape (n,)."""
        return np.array([one.shape.along[1] for one in self.loose])

    @cached_property
    def areas(self) -> Floats:
        """Area of each loose panel, mm2; shape (panels,)."""
        return np.array([abs(signed_area(one.shape.ring)) for one in self.loose[: self.panels]])

    @cached_property
    def floor(self) -> float:
        """A length that no lay can beat, mm: held panels, the longest panel, the area of all loose ones, and what can
        lie abreast of those that lie on one grain."""
        alone = np.full(self.panels, np.inf)
        np.minimum.at(alone, self.whose, self.least.min(axis=1, initial=np.inf) + self.ends)
        longest = float(alone.max(initial=0.0))
        usable = self.cloth.usable[1] - self.cloth.usable[0]
        straight = [one.shape.ring for one in self.loose[: self.panels] if not one.free]
        abreast = least_length(straight, usable, self.cloth.spare_mm)
        return max(self.held_end, longest, float(self.areas.sum()) / usable, abreast)

    def only(self, keep: Ints) -> "Task":
        """The task with some of its entries, (k,), and the panels that these are."""
        _, whose = np.unique(self.whose[keep], return_inverse=True)
        whose = whose.astype(np.int64)
        return replace(
            self, loose=tuple(self.loose[i] for i in keep), first=self.first[keep], walls=self.walls[:, keep],
            least=self.least[keep], most=self.most[keep], rungs=self.rungs[keep],
            pairs=np.ascontiguousarray(self.pairs[np.ix_(keep, keep)]), still=self.still[keep], whose=whose,
            other=next_of_same(whose),
        )  # fmt: skip

    def on_rungs(self, rungs: Floats) -> "Task":
        """The task with its bars elsewhere: v on other rungs between the same walls."""
        least, most = between(self.walls[0], self.walls[1], rungs)
        return replace(self, least=least, most=most, rungs=rungs)

    def placement(self, index: int, column: int, v: float) -> Placement:
        """Where a panel lies on the cloth when an entry of it lies at v in a column."""
        at = self.loose[index].placement
        u = float(self.first[index]) + column * self.step + self.cloth.skew * v + 0.0
        return Placement(u=u, v=v + 0.0, turn_deg=at.turn_deg, turned=at.turned)


def task_of(
    project: Project, cloth: Cloth, either_way: frozenset[PanelName] = frozenset(), progress: Progress = silent
) -> Task:
    """The task that a cloth sets; the panels in `either_way` may be turned end for end.

    Where `progress` stops it the task is not complete. Raises CannotBeHad for a panel that no column has room for.
    """
    panels = panels_on(project, cloth)
    held = [panel for panel in panels if project.placement(panel.name).hold]
    loose, whose, other = _entries(project, cloth, [panel for panel in panels if panel not in held], either_way)
    lines = [cut_line(panel, project.placement(panel.name)) for panel in held]
    spots = [*(np.array(flaw) for flaw in cloth.flaw_outlines), *missing_outlines(cloth)]
    still = [shape_of(line, cloth, cloth.spare_mm / 2) for line in lines]
    all_still = [*still, *(shape_of(spot, cloth) for spot in spots)]
    step = _step(cloth, loose)
    first, walls, rungs = _columns(cloth, loose, step, _farthest(cloth, loose, all_still, step))
    least, most = between(walls[0], walls[1], rungs)
    _check_room(cloth, loose, whose, least)
    pairs = pair_tables(
        [one.roomy for one in loose], whose, first, step * np.arange(1 - least.shape[1], least.shape[1]), progress
    )
    w = first[:, None] + step * np.arange(least.shape[1])
    still_tables = _still_tables(loose, still, all_still[len(still) :], w)
    held_end = max((float(line[:, 1].max()) for line in lines), default=0.0)
    still_end = max((shape.along[1] for shape in all_still), default=0.0) + cloth.spare_mm
    return Task(
        cloth, loose, step, first, walls, least, most, rungs, pairs, still_tables, whose, other, held_end, still_end
    )  # fmt: skip


def _still_tables(loose: Sequence[Loose], held: Sequence[Shape], spots: Sequence[Shape], w: Floats) -> Floats:
    """Forbidden v of each entry in each column, w being (n, columns); margins count towards held panels only."""
    rows = [[*((shape, one.roomy) for shape in held), *((shape, one.shape) for shape in spots)] for one in loose]
    return still_tables(rows, w)


def _entries(
    project: Project, cloth: Cloth, panels: Sequence[Panel], either_way: frozenset[PanelName]
) -> tuple[tuple[Loose, ...], Ints, Ints]:
    """The entries of a task, which panel each is, and the next of the same panel."""
    shapes: dict[tuple[bytes, float], Shape] = {}

    def loose(panel: Panel, at: Placement) -> Loose:
        ring = placed(panel.cut_ring, 0.0, 0.0, at.turn_deg, at.turned)
        both = []
        for by_mm in (0.0, cloth.spare_mm / 2):
            key = ring.tobytes(), by_mm
            if key not in shapes:
                shapes[key] = shape_of(ring, cloth, by_mm)
            both.append(shapes[key])
        sides = float(ring[:, 0].min()), float(ring[:, 0].max())
        middle = np.asarray(rotation(at.turn_deg, at.turned) @ panel.middle)
        return Loose(panel.name, at, both[0], both[1], sides, middle, _is_free(panel, project))

    ways = [
        ways_of(project.placement(one.name), cloth, one.name in either_way, _is_free(one, project)) for one in panels
    ]
    more = [(index, at) for index, places in enumerate(ways) for at in places[1:]]
    entries = [(index, places[0]) for index, places in enumerate(ways)] + more
    whose = np.array([index for index, _ in entries], dtype=np.int64)
    return tuple(loose(panels[index], at) for index, at in entries), whose, next_of_same(whose)


def _is_free(panel: Panel, project: Project) -> bool:
    """Whether a panel's stripes meet nothing, as on a bias strip."""
    sewn = {panel_of(ref) for seam in project.sewn for ref in (seam.a, seam.b)}
    return panel.piece.grain == "bias" and panel.piece.on is None and panel.name not in sewn


def shape_of(line: Points, cloth: Cloth, by_mm: float = 0.0) -> Shape:
    """A closed line on a cloth, (n, 2), in the frame in which its stripes run straight, with a margin round it, mm."""
    return eased(Shape.of(sheared(widened(line, by_mm), cloth.skew)), EASED_MM)


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
    spared = cloth.spare_mm * (len(loose) + 1)
    if cloth.crosswise is not None:
        spared += 2 * cloth.crosswise.period * (len(loose) + 1)
    return max((shape.along[1] for shape in still), default=0.0) + tall + spared + tight * wait


def _columns(cloth: Cloth, loose: Sequence[Loose], step: float, farthest: float) -> tuple[Floats, Floats, Floats]:
    """w of each panel's first column, least and most v in each column, and its rungs; (n,), (2, n, c), (n, c, m)."""
    drift = sorted((0.0, cloth.skew * farthest))
    period = cloth.repeat.period if cloth.repeat else step
    first, counts = [], []
    for one in loose:
        low, high = cloth.usable[0] - one.sides[0] - drift[1], cloth.usable[1] - one.sides[1] - drift[0]
        phase = one.placement.u - cloth.skew * one.placement.v if cloth.repeat else low
        first.append(phase + period * math.ceil((low - phase - SAME_MM) / period))
        counts.append(math.floor((high - first[-1] + SAME_MM) / step) + 1)
    w = np.array(first)[:, None] + step * np.arange(max(counts, default=1))
    walls = np.stack(_walls(cloth, loose, w, farthest))
    rungs = rungs_of(cloth, [None if one.free else (one.placement, one.middle) for one in loose], w)
    return np.array(first), walls, rungs


def _check_room(cloth: Cloth, loose: Sequence[Loose], whose: Ints, least: Floats) -> None:
    """Raise CannotBeHad for a panel that no column has room for, whichever way it lies."""
    for index, one in enumerate(loose[: int(whose.max(initial=-1)) + 1]):
        if not np.isfinite(least[whose == index]).any():
            raise no_room(cloth, one)


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
        tr(
            "panel {name!r} can't lie on {title!r}: where its stripes match it does not come between the "
            "selvedges (cutting line {wide:.1f} mm wide, usable width {room:.1f} mm, stripes every "
            "{period:g} mm)",
            name=one.name,
            title=cloth.title,
            wide=wide,
            room=room,
            period=period,
        )
    )
