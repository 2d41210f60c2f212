"""Seams on a lattice of phases and turns: values that hold for the whole polyline, and what can lie between points.

The square of a wrapped step is the square of the step before it is wrapped, plus a concave function of it. Hence on a
box of phases and turns the mean square step is at least its average over the box's corners, each weighed as in linear
interpolation, less the variance that this weighing gives the step. So no placement in the box goes below the least of
the corners less that variance: `Seam.phase_allowance` and `Seam.turn_allowance`. Turns move points along circles;
`Seam.sagitta` is how far the chords of the lattice stray from them.
"""

from dataclasses import dataclass
from functools import cached_property

import numpy as np

from core.geometry.polyline import Floats
from core.matching.elimination import Table
from core.matching.problem import Problem, SeamCost
from core.model.cloth import Way
from core.seams.garment import Flags
from core.seams.readings import STRAIGHT_MM

LEAST_STRETCHES, MOST_STRETCHES, STRETCHES_PER_PERIOD = 256, 2048, 32
"""A seam is divided into so many stretches for each period that its step runs through, within these limits."""

BATCH = 1 << 21
"""Steps worked out at once."""

SENSES = (-1, 1)
"""-1 for edges that lean alike, whose step is the difference of their places; 1 for opposite ones, with the sum."""


@dataclass(frozen=True, eq=False)
class Side:
    """One edge of a seam: the across-coordinates of its nodes as its panel follows a variable.

    `points`: the nodes from the panel's middle, mm, shape (nodes, 2); `ends`: the edge from top to bottom, shape (2,).
    """

    problem: Problem
    panel: str
    points: Floats
    ends: Floats

    @property
    def variable(self) -> int:
        """The variable that the panel follows."""
        return self.problem.followers[self.panel].variable

    @property
    def sign(self) -> int:
        """Which way the panel's phase goes with the variable's: 1 or -1; 0 where that is fixed."""
        fixed = self.problem.variables[self.variable].phase_fixed is not None
        return 0 if fixed else self.problem.followers[self.panel].sign

    def places(self, turns: Floats) -> Floats:
        """w of the nodes for turns of the variable, rad, its phase being 0 unless it is fixed, mm; (turns, nodes)."""
        follower = self.problem.followers[self.panel]
        x, y = follower.rates(turns)
        phase = self.problem.offsets(self.panel, turns)
        if not self.sign:
            phase = phase + follower.sign * self.problem.pinned_phase(self.variable, turns)
        return np.asarray(phase[:, None] + self.points[:, 0] * x[:, None] + self.points[:, 1] * y[:, None])

    def changes(self, turns: Floats) -> Floats:
        """Net change of w from top to bottom, mm, for turns; shape of turns."""
        x, y = self.problem.followers[self.panel].rates(turns)
        return np.asarray(self.ends[0] * x + self.ends[1] * y)

    @property
    def swing(self) -> float:
        """The most that the net change moves with the turn, mm per rad."""
        follower = self.problem.followers[self.panel]
        return float(np.hypot(*self.ends)) * (abs(follower.by_u) + abs(follower.by_v))

    def bend(self, reach: float) -> Floats:
        """The most that w bends as the turn changes, for turns up to +-reach, mm per rad2; shape (nodes,).

        w is constant + A cos t + B sin t, so its second derivative is at most |A| + |B| sin(reach).
        """
        none, quarter, half = self.places(np.array([0.0, np.pi / 2, np.pi]))
        return np.asarray(np.abs(none - half) / 2 + np.abs(quarter - (none + half) / 2) * np.sin(reach))


class Seam:
    """One seam of a problem on lattices of phases and turns; `share` is its weight's share of the whole."""

    def __init__(self, problem: Problem, seam: SeamCost, share: float) -> None:
        self.period, self.c, self.share = problem.repeat.period, problem.repeat.c, share
        height, spans = _nodes(seam, self.period, problem.way)
        a, b = (
            np.stack([np.interp(height, seam.line.height, points[:, axis]) for axis in (0, 1)], axis=-1)
            for points in (seam.line.a, seam.line.b)
        )
        middle_a, middle_b = (problem.followers[panel].middle for panel in (seam.a, seam.b))
        self.a = Side(problem, seam.a, a - middle_a, seam.ends_a)
        self.b = Side(problem, seam.b, b - middle_b, seam.ends_b)
        self._spans = spans / spans.sum()
        self._shares = (np.append(self._spans, 0.0) + np.append(0.0, self._spans)) / 2

    @property
    def joins_one(self) -> bool:
        """Whether both edges follow one variable."""
        return self.a.variable == self.b.variable

    def senses(self, turns_a: Floats, turns_b: Floats, slack_a: float, slack_b: float) -> dict[int, Flags]:
        """For each sense the pairs of turns within whose neighbourhood, slack rad either way, the edges may lean so."""
        near = []
        for side, turns, slack in ((self.a, turns_a, slack_a), (self.b, turns_b, slack_b)):
            changes, reach = side.changes(turns), slack * side.swing + 2 * STRAIGHT_MM
            near.append((changes > -reach, changes < reach))
        (up_a, down_a), (up_b, down_b) = near
        if self.joins_one:
            return {-1: (up_a & up_b) | (down_a & down_b), 1: (up_a & down_b) | (down_a & up_b)}
        alike = (up_a[:, None] & up_b) | (down_a[:, None] & down_b)
        return {-1: alike, 1: (up_a[:, None] & down_b) | (down_a[:, None] & up_b)}

    def mean_squares(self, turns_a: Floats, turns_b: Floats, sense: int, phases: int) -> Table:
        """Lower bounds of the mean square step, mm2, for pairs of turns and sums of phases i * period / phases.

        Shape (pairs, phases). Exact where no stretch between two nodes wraps inside, and never above the exact value.
        """
        batch = max(1, BATCH // len(self._shares))
        parts = [
            self._mean_squares(turns_a[i : i + batch], turns_b[i : i + batch], sense, phases)
            for i in range(0, len(turns_a), batch)
        ]
        return np.concatenate(parts)

    def _mean_squares(self, turns_a: Floats, turns_b: Floats, sense: int, phases: int) -> Table:
        raw = self._of_each(self.a, turns_a) + sense * self._of_each(self.b, turns_b)
        curved = np.square(np.diff(raw, axis=1)) @ self._spans / 6
        place = raw / self.period + (0.5 - (2 * self.c / self.period if sense > 0 else 0.0))
        place -= np.floor(place)
        return _for_all_phases(place, self._shares, phases, self.period, curved)

    def _of_each(self, side: Side, turns: Floats) -> Floats:
        different, index = np.unique(turns, return_inverse=True)
        return np.asarray(side.places(different)[index])

    def phase_allowance(self, phase: float, ways: "Ways") -> float:
        """The largest variance, mm2, of the step when phases are rounded to multiples of `phase`, mm, as `ways` say."""
        a, b = (side.sign * ways.phases[side.variable] * np.array(phase) for side in (self.a, self.b))
        return max(float(_range(a, sense * b, self.joins_one)) ** 2 / 4 for sense in self._all_senses)

    def turn_allowance(self, turns_a: Floats, turns_b: Floats, ways: "Ways") -> float:
        """The largest variance, mm2, of the step when turns are rounded to those of the lattice, rad, as `ways` say."""
        a, stray_a = _chords(self.a.places(turns_a))
        b, stray_b = _chords(self.b.places(turns_b))
        a, b = ways.turns[self.a.variable] * a, ways.turns[self.b.variable] * b
        ranges = [_range(a, sense * b, self.joins_one) + stray_a + stray_b for sense in self._all_senses]
        return max(float(np.square(moved) @ self._shares) / 4 for moved in ranges)

    def sagitta(self, turns_a: Floats, turns_b: Floats) -> float:
        """How far, mm, at most, a step may lie off the chord between two neighbouring turns of the lattice."""
        strays = (
            side.bend(float(np.abs(turns).max())) * (np.diff(turns).max(initial=0.0) ** 2 / 8)
            for side, turns in ((self.a, turns_a), (self.b, turns_b))
        )
        return float(np.max(sum(strays, np.zeros(len(self._shares)))))

    def leverage(self, is_a: bool) -> float:
        """How fast the step moves with the turn of one edge's variable, rms, mm per rad."""
        low, high = (self.a if is_a else self.b).places(np.array([-1e-3, 1e-3]))
        return float(np.sqrt(np.square((high - low) / 2e-3) @ self._shares))

    @cached_property
    def _all_senses(self) -> tuple[int, ...]:
        turns = [np.linspace(*self._limits(side), 3) for side in (self.a, self.b)]
        slack = [float(t[2] - t[0]) / 4 for t in turns]
        found = self.senses(turns[0], turns[1], *slack)
        return tuple(sense for sense in SENSES if found[sense].any())

    def _limits(self, side: Side) -> tuple[float, float]:
        variable = side.problem.variables[side.variable]
        return variable.turn_low, variable.turn_high

    def likely_ways(self) -> tuple[float, float]:
        """How phases and turns of the two variables act on the step: together (> 0) or against one another (< 0)."""
        sense = self._all_senses[0]
        moved = [np.diff(side.places(np.array([-1e-3, 1e-3])), axis=0)[0] for side in (self.a, self.b)]
        return sense * self.a.sign * self.b.sign, sense * float((moved[0] * moved[1]) @ self._shares)


@dataclass(frozen=True, eq=False)
class Ways:
    """Which variables are rounded up together and which the other way, so that roundings cancel in the seams; 1 or -1.

    Roundings to corners of a box are dependent: one number decides for all phases which are rounded up, and another
    one for all turns. Two that cancel in a seam then add no more variance than the larger alone.
    """

    phases: dict[int, int]
    turns: dict[int, int]

    @classmethod
    def of(cls, variables: tuple[int, ...], seams: tuple[Seam, ...]) -> "Ways":
        """The ways that suit the seams best that weigh most."""
        links = [(seam.share, seam.a.variable, seam.b.variable, *seam.likely_ways()) for seam in seams]
        return cls(
            _opposed(variables, [(w, a, b, phase) for w, a, b, phase, _ in links]),
            _opposed(variables, [(w, a, b, turn) for w, a, b, _, turn in links]),
        )


def _opposed(variables: tuple[int, ...], links: list[tuple[float, int, int, float]]) -> dict[int, int]:
    """Ways by which as many links as a spanning tree has, the heaviest first, join variables that work against it."""
    group, way = {v: v for v in variables}, dict.fromkeys(variables, 1)
    for _, a, b, together in sorted(links, key=lambda link: -link[0]):
        if group[a] != group[b] and together != 0:
            flip = -1 if (way[a] * way[b] * together) > 0 else 1
            moved = [v for v in variables if group[v] == group[b]]
            way.update({v: way[v] * flip for v in moved})
            group.update(dict.fromkeys(moved, group[a]))
    return way


def _nodes(seam: SeamCost, period: float, way: Way) -> tuple[Floats, Floats]:
    """Heights of the nodes, among them all at which an edge bends, and the counted lengths between them."""
    line = seam.line
    spans = np.diff(line.height)
    wanted = int(np.clip(STRETCHES_PER_PERIOD * _run(seam, way) / period, LEAST_STRETCHES, MOST_STRETCHES))
    counts = np.maximum(1, np.ceil(spans / line.length * wanted)).astype(np.intp)
    counts[~line.counted_parts] = 1
    parts = [np.linspace(0, 1, n, endpoint=False) * span for n, span in zip(counts, spans, strict=True)]
    height = np.append(np.repeat(line.height[:-1], counts) + np.concatenate(parts), line.height[-1])
    return height, np.diff(height) * np.repeat(line.counted_parts, counts)


def _run(seam: SeamCost, way: Way) -> float:
    """How far the step runs down the seam with both panels on the grain, mm."""
    axis = 0 if way == "lengthwise" else 1
    a, b = np.diff(seam.line.a[:, axis]), np.diff(seam.line.b[:, axis])
    return float(min(np.abs(a - b).sum(), np.abs(a + b).sum()))


def _for_all_phases(place: Floats, shares: Floats, phases: int, period: float, curved: Floats) -> Table:
    """Mean squares of wrapped steps for all phase sums; `place`: steps as shares of a period from -1/2, (pairs, nodes).

    Up to the phase at which it wraps, a step z grows to z + f; from there on its square is less by 2 P (z + f - P / 2).
    """
    bins = np.minimum((place * phases).astype(np.intp), phases - 1)
    bins += np.arange(len(place))[:, None] * phases
    weight = np.broadcast_to(shares, place.shape).ravel()
    count = len(place) * phases
    mass = np.bincount(bins.ravel(), weight, count).reshape(-1, phases)
    moment = np.bincount(bins.ravel(), weight * place.ravel(), count).reshape(-1, phases)
    wrapped_mass, wrapped_moment = (_sums_from_above(np.asarray(values, dtype=np.float64)) for values in (mass, moment))
    phase = np.linspace(0.0, 1.0, phases, endpoint=False)
    centred = place - 0.5
    first, second = (centred @ shares)[:, None], (centred**2 @ shares)[:, None]
    squares = second + 2 * phase * first + phase**2 - 2 * (wrapped_moment - (1 - phase) * wrapped_mass)
    return np.maximum(squares * period**2 - curved[:, None], 0.0).astype(np.float32)


def _sums_from_above(values: Floats) -> Floats:
    """For m = 0, 1, … the sums of the last m columns."""
    return np.cumsum(np.concatenate([np.zeros((len(values), 1)), values[:, :0:-1]], axis=1), axis=1)


def _chords(places: Floats) -> tuple[Floats, Floats]:
    """The mean change of w from turn to turn, and by how much a change may differ from it; shapes (nodes,)."""
    if len(places) < 2:
        return np.zeros(places.shape[1]), np.zeros(places.shape[1])
    changes = np.diff(places, axis=0)
    mean = changes.mean(axis=0)
    return mean, np.abs(changes - mean).max(axis=0)


def _range(a: Floats, b: Floats, together: bool) -> Floats:
    """The range of a step that moves by a, by b, by both or not at all; together: by both or not at all."""
    both = np.abs(a + b)
    return both if together else np.maximum(both, np.maximum(np.abs(a), np.abs(b)))
