"""The garment's figure as a function of all phases and turns, with its derivatives, for the whole garment at once."""

from copy import copy
from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.matching.problem import SAMPLES, Problem, SeamCost
from core.seams.garment import Flags
from core.seams.readings import lean_alike
from core.seams.stripes import Ints


@dataclass(frozen=True, eq=False)
class PanelState:
    """All panels for one choice of phases and turns; every array has one entry a panel.

    `x_rate`, `y_rate`: change of the coordinate per mm of x and y; `phase`: that of the middle, mm; the rest are
    derivatives by the variable's turn, per rad, those of a pinned variable's phase included.
    """

    x_rate: Floats
    y_rate: Floats
    phase: Floats
    x_rate_by_turn: Floats
    y_rate_by_turn: Floats
    phase_by_turn: Floats


@dataclass(frozen=True, eq=False)
class Slopes:
    """Value, gradient and Gauss-Newton matrix of the mean square step; variables are all phases, then all turns."""

    value: float
    gradient: Floats
    matrix: Floats


class Objective:
    """The weighted mean square step of some seams of a problem, mm2."""

    def __init__(self, problem: Problem, seams: tuple[SeamCost, ...]) -> None:
        self.problem, self.period, self.c = problem, problem.repeat.period, problem.repeat.c
        names = list(problem.followers)
        followers = list(problem.followers.values())
        self._variable = np.array([f.variable for f in followers])
        self._sign = np.array([f.sign for f in followers], dtype=np.float64)
        self._spin = np.array([f.spin for f in followers], dtype=np.float64)
        self._about = np.where(self._sign < 0, 2 * self.c, 0.0)
        self._by_u, self._by_v = np.array([f.by_u for f in followers]), np.array([f.by_v for f in followers])
        self._flip = np.array([-1.0 if f.turned else 1.0 for f in followers])
        self._middle = np.array([f.middle for f in followers])
        self._leader = np.array([names.index(problem.variables[f.variable].leader) for f in followers])
        self._follows = (self._leader != np.arange(len(names))).astype(np.float64)
        self._pinned = np.array([variable.phase_fixed is not None for variable in problem.variables])
        self._off_middle = _off_middle(problem)
        self._side_a = np.array([names.index(seam.a) for seam in seams], dtype=np.intp)
        self._side_b = np.array([names.index(seam.b) for seam in seams], dtype=np.intp)
        shape = (len(seams), SAMPLES, 2)
        self._points_a = np.array([seam.points_a for seam in seams]).reshape(shape)
        self._points_b = np.array([seam.points_b for seam in seams]).reshape(shape)
        self._bent_a = np.array([seam.bent_a for seam in seams]).reshape(shape[:2])
        self._bent_b = np.array([seam.bent_b for seam in seams]).reshape(shape[:2])
        self._ends_a = np.array([seam.ends_a for seam in seams]).reshape(-1, 2)
        self._ends_b = np.array([seam.ends_b for seam in seams]).reshape(-1, 2)
        self._weight = np.array([seam.weight for seam in seams])

    def moved(self, problem: Problem) -> "Objective":
        """The same for a problem that differs in where variables are fixed only."""
        other = copy(self)
        other.problem = problem
        return other

    @property
    def phases_fixed(self) -> Flags:
        """Which variables have a phase that is not free."""
        return self._pinned

    @property
    def turn_limits(self) -> tuple[Floats, Floats]:
        """Least and most turn of every variable, rad."""
        limits = np.array([(variable.turn_low, variable.turn_high) for variable in self.problem.variables])
        return limits[:, 0], limits[:, 1]

    def value(self, phases: Floats, turns: Floats) -> float:
        """The weighted mean square step, mm2."""
        raw, _ = self._raw(self._state(phases, turns))
        return self._mean(self._wrapped(raw))

    def pinned(self, phases: Floats, turns: Floats) -> Floats:
        """The phases with those of pinned variables as their turns want them, mm."""
        if not self._pinned.any():
            return phases
        wanted = [self.problem.pinned_phase(int(v), turns[v : v + 1])[0] for v in np.flatnonzero(self._pinned)]
        result = phases.copy()
        result[self._pinned] = wanted
        return result

    def slopes(self, phases: Floats, turns: Floats) -> Slopes:
        """Value and derivatives of the weighted mean square step; the gradient is half of the true one."""
        state = self._state(phases, turns)
        raw, sense = self._raw(state)
        rest = self._wrapped(raw)
        columns = np.stack(
            [
                np.broadcast_to(self._sign[self._side_a][:, None], rest.shape),
                self._by_turn(state, self._side_a, self._points_a),
                np.broadcast_to((sense * self._sign[self._side_b])[:, None], rest.shape),
                sense[:, None] * self._by_turn(state, self._side_b, self._points_b),
            ],
            axis=1,
        )
        share = self._weight / (self._weight.sum() * SAMPLES)
        blocks = np.matmul(columns, columns.transpose(0, 2, 1)) * share[:, None, None]
        pulls = np.matmul(columns, rest[:, :, None])[:, :, 0] * share[:, None]
        return self._assembled(self._mean(rest), blocks, pulls)

    def _assembled(self, value: float, blocks: Floats, pulls: Floats) -> Slopes:
        number = len(self.problem.variables)
        a, b = self._variable[self._side_a], self._variable[self._side_b]
        index = np.stack([a, a + number, b, b + number], axis=1)
        gradient = np.zeros(2 * number)
        matrix = np.zeros((2 * number, 2 * number))
        np.add.at(gradient, index, pulls)
        np.add.at(matrix, (index[:, :, None], index[:, None, :]), blocks)
        return Slopes(value, gradient, matrix)

    def _wrapped(self, raw: Floats) -> Floats:
        """Steps as `wrap` has them, but for the last digit, which a mean doesn't mind, in a third of its time."""
        return np.asarray(raw - self.period * np.floor(raw / self.period + 0.5))

    def _mean(self, rest: Floats) -> float:
        return float(np.mean(rest * rest, axis=1) @ self._weight / self._weight.sum())

    def _by_turn(self, state: PanelState, side: Ints, points: Floats) -> Floats:
        dx, dy = state.x_rate_by_turn[side][:, None], state.y_rate_by_turn[side][:, None]
        return np.asarray(state.phase_by_turn[side][:, None] + points[:, :, 0] * dx + points[:, :, 1] * dy)

    def _raw(self, state: PanelState) -> tuple[Floats, Floats]:
        """Steps before wrapping, shape (seams, SAMPLES), and each seam's sense: -1 where edges lean alike, else 1."""
        a, b = self._side_a, self._side_b
        change_a = self._ends_a[:, 0] * state.x_rate[a] + self._ends_a[:, 1] * state.y_rate[a]
        change_b = self._ends_b[:, 0] * state.x_rate[b] + self._ends_b[:, 1] * state.y_rate[b]
        alike = lean_alike(change_a, change_b)
        sense = np.where(alike, -1.0, 1.0)
        w_a = self._across(state, a, self._points_a) + self._bent_a
        w_b = self._across(state, b, self._points_b) + self._bent_b
        return w_a + sense[:, None] * w_b - np.where(alike, 0.0, 2 * self.c)[:, None], sense

    def _across(self, state: PanelState, side: Ints, points: Floats) -> Floats:
        x, y = state.x_rate[side][:, None], state.y_rate[side][:, None]
        return np.asarray(state.phase[side][:, None] + points[:, :, 0] * x + points[:, :, 1] * y)

    def _state(self, phases: Floats, turns: Floats) -> PanelState:
        angle, by_u, by_v = self._spin * turns[self._variable], self._by_u, self._by_v
        cos, sin = np.cos(angle), np.sin(angle)
        x, y = self._flip * (by_u * cos + by_v * sin), self._flip * (-by_u * sin + by_v * cos)
        dx, dy = self._spin * y, -self._spin * x
        own, own_by_turn = self._lever(x, y), self._lever(dx, dy)
        offset = self._follows * (self._about + own - self._sign * own[self._leader])
        by_turn = self._follows * (own_by_turn - self._sign * own_by_turn[self._leader])
        by_turn = by_turn + self._sign * self._pinned_by_turn(dx, dy)[self._variable]
        return PanelState(x, y, self._sign * phases[self._variable] + offset, dx, dy, by_turn)

    def _lever(self, x: Floats, y: Floats) -> Floats:
        return np.asarray(self._middle[:, 0] * x + self._middle[:, 1] * y)

    def _pinned_by_turn(self, dx: Floats, dy: Floats) -> Floats:
        """How the phase of each variable follows its turn: nothing unless a point off the middle is pinned."""
        result = np.zeros(len(self._pinned))
        for panel, variable, x, y in self._off_middle:
            result[variable] = -(x * dx[panel] + y * dy[panel])
        return result


def _off_middle(problem: Problem) -> list[tuple[int, int, float, float]]:
    """Of each variable that pins a point: the place of its leading panel, its own, how far the point lies from the
    panel's middle, mm."""
    found = []
    for panel, (name, follower) in enumerate(problem.followers.items()):
        variable = problem.variables[follower.variable]
        if variable.leader == name and variable.pinned is not None:
            x, y = (np.array(variable.pinned) - follower.middle).tolist()
            found.append((panel, follower.variable, x, y))
    return found
