"""The match as an optimisation problem: free variables, panels that follow them, seams that cost.

Every panel's phase and turn follow one variable (phase f, turn t): phase = sign * f + offset(t), turn = spin * t. The
phase of a panel is the coordinate of its middle across the stripes of one way, w or z, so that turning a panel moves
its own phase least. A held panel follows a variable with one phase and one turn. The problems of a cloth's two ways
have the same variables, one for one, and share their turns.

A bow is taken as it is where the panels lie now: new ones in the middle of the cloth.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.cloth import Cloth, Repeat, Way
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment, SeamLine
from core.seams.stripes import Across, wrapped

SAMPLES = 96
"""Heights at which a seam's step is sampled while the solver searches."""


@dataclass(frozen=True)
class Variable:
    """What the solver may choose: a phase (any, unless `phase_fixed`) and a turn from `turn_low` to `turn_high`, rad.

    `phase_fixed` is the phase, mm, of the leading panel's point `pinned`, (x, y) in its frame, at any turn.
    """

    leader: PanelName
    turn_low: float
    turn_high: float
    phase_fixed: float | None = None
    pinned: tuple[float, float] | None = None


@dataclass(frozen=True, eq=False)
class Follower:
    """How one panel follows its variable; `middle` is the panel's reference point, shape (2,).

    `by_u` and `by_v` are the change of the coordinate per mm of u and of v.
    """

    variable: int
    sign: int
    spin: int
    turned: bool
    by_u: float
    by_v: float
    middle: Points

    def rates(self, turn: Floats) -> tuple[Floats, Floats]:
        """Change of the coordinate per mm of x and of y of the panel, for turns t of the variable, rad; shapes of t."""
        angle, flip = self.spin * turn, -1.0 if self.turned else 1.0
        return (
            flip * (self.by_u * np.cos(angle) + self.by_v * np.sin(angle)),
            flip * (-self.by_u * np.sin(angle) + self.by_v * np.cos(angle)),
        )


@dataclass(frozen=True, eq=False)
class SeamCost:
    """One seam that counts: sampled points of both edges from their panels' middles, shape (SAMPLES, 2), mm.

    `ends_a` and `ends_b` are the edges' vectors from top to bottom, from which the lean is judged. `bent_a` and
    `bent_b` are what a bow adds to the coordinate of each point, beside what it adds to the lean of the bars, mm; shape
    (SAMPLES,).
    """

    line: SeamLine
    weight: float
    a: PanelName
    b: PanelName
    points_a: Points
    points_b: Points
    ends_a: Points
    ends_b: Points
    bent_a: Floats
    bent_b: Floats


@dataclass(frozen=True, eq=False)
class Problem:
    """All that the solver needs to know of the panels on one cloth to match its stripes one way."""

    cloth: Cloth
    way: Way
    repeat: Repeat
    variables: tuple[Variable, ...]
    followers: dict[PanelName, Follower]
    seams: tuple[SeamCost, ...]

    def placement(self, panel: PanelName, phases: Floats, turns: Floats, before: Placement | None) -> Placement:
        """Where a panel lies for given phases and turns: near where it lay before."""
        return place((self,), panel, (phases,), turns, before)

    def phase(self, panel: PanelName, phases: Floats, turns: Floats) -> float:
        """The coordinate of a panel's middle for given phases and turns of all variables, mm."""
        follower = self.followers[panel]
        offset = self.offsets(panel, turns[follower.variable : follower.variable + 1])[0]
        return float(follower.sign * phases[follower.variable] + offset)

    def offsets(self, panel: PanelName, turn: Floats) -> Floats:
        """What is added to sign * f to give the panel's phase, mm, for turns of its variable; shape of turn.

        A mirrored panel's origin lies at 2 c less that of its leader (modulo P) across the stripes, and at the same z
        across bars, or the other way about if one of them lies end for end; the rest carries that to the middles.
        """
        follower = self.followers[panel]
        leader = self.followers[self.variables[follower.variable].leader]
        if follower is leader:
            return np.zeros_like(turn)
        mine, its = follower.rates(turn), leader.rates(turn)
        mine_middle = follower.middle[0] * mine[0] + follower.middle[1] * mine[1]
        its_middle = leader.middle[0] * its[0] + leader.middle[1] * its[1]
        about = 2 * self.repeat.c if follower.sign < 0 else 0.0
        return np.asarray(about - follower.sign * its_middle + mine_middle)

    def pinned_phase(self, index: int, turn: Floats) -> Floats:
        """The phase of a variable that has a fixed one, mm, for turns; shape of turn."""
        variable = self.variables[index]
        leader = self.followers[variable.leader]
        if variable.phase_fixed is None:
            raise ValueError("the variable is free")
        if variable.pinned is None:
            return np.full_like(turn, variable.phase_fixed)
        rates = leader.rates(turn)
        dx, dy = np.array(variable.pinned) - leader.middle
        return np.asarray(variable.phase_fixed - dx * rates[0] - dy * rates[1])


def _rounded(value: float) -> float:
    """To a millionth, far below anything that can be cut, so that files stay readable; never a negative zero."""
    return round(float(value), 6) + 0.0


STEPS = 40
"""A placement is found in so many steps at most; one is enough where no bar is bowed."""


def place(
    problems: Sequence[Problem],
    panel: PanelName,
    phases: Sequence[Floats],
    turns: Floats,
    before: Placement | None,
) -> Placement:
    """Where a panel lies so that it has its phase in every problem: near where it lay before.

    `phases` are those of each problem. A new panel lies with u, and v where bars are matched, in the first period, or
    in the middle of the cloth where bars are bowed.
    """
    cloth, follower = problems[0].cloth, problems[0].followers[panel]
    turn_deg = math.degrees(follower.spin * turns[follower.variable])
    middle = rotation(turn_deg, follower.turned) @ follower.middle
    at = before or _start(problems)
    u, v = at.u + float(middle[0]), at.v + float(middle[1])
    wanted = {
        one.way: (one.phase(panel, own, turns), one.repeat.period) for one, own in zip(problems, phases, strict=True)
    }
    for _ in range(STEPS):
        here: dict[Way, float] = {"lengthwise": cloth.w(u, v), "crosswise": cloth.z(u, v)}
        away = {way: wrapped(phase - here[way], period) for way, (phase, period) in wanted.items()}
        du, dv = cloth.shift_for(away.get("lengthwise", 0.0), away.get("crosswise", 0.0))
        u, v = u + du, v + dv
        if max(abs(du), abs(dv)) < 1e-9:
            break
    return Placement(
        u=_rounded(u - float(middle[0])),
        v=_rounded(v - float(middle[1])),
        turn_deg=_rounded(turn_deg),
        turned=follower.turned,
        hold=before.hold if before else False,
    )


def as_they_lie(project: Project, garment: Garment, problem: Problem) -> tuple[Floats, Floats]:
    """Phases, mm, and turns, rad, of all variables as their leading panels lie, turns inside their limits."""
    places = [project.placement(variable.leader) for variable in problem.variables]
    middles = [garment.panels[variable.leader].middle[None] for variable in problem.variables]
    phases = [float(Across.of(at, problem.cloth, problem.way)(m)[0]) for at, m in zip(places, middles, strict=True)]
    turns = [
        min(max(math.radians(at.turn_deg), variable.turn_low), variable.turn_high)
        for at, variable in zip(places, problem.variables, strict=True)
    ]
    return np.array(phases), np.array(turns)


def _start(problems: Sequence[Problem]) -> Placement:
    """Half a period from the corner of the cloth, or half across it where bars are bowed."""
    half = {one.way: one.repeat.period / 2 for one in problems}
    cloth = problems[0].cloth
    u = sum(cloth.usable) / 2 if cloth.bow_per_mm and "crosswise" in half else half.get("lengthwise", 0.0)
    return Placement(u=u, v=half.get("crosswise", 0.0))


def mirrors_pairs(project: Project, cloth: Cloth) -> bool:
    """Whether the left panels of pairs on a cloth mirror the right ones."""
    asked = project.match.mirror_pairs
    return asked if asked is not None else bool(cloth.ways) and (cloth.repeat is None or cloth.repeat.even)


def build_problem(
    project: Project, garment: Garment, cloth: Cloth, turned: dict[PanelName, bool], way: Way = "lengthwise"
) -> Problem:
    """The problem of one cloth's stripes one way; `turned` says which panels lie end for end."""
    repeat = cloth.repeat_of(way)
    if repeat is None:
        raise ValueError("a plain cloth has nothing to match")
    variables: list[Variable] = []
    followers: dict[PanelName, Follower] = {}
    for piece in project.pieces:
        if piece.cloth != cloth.id:
            continue
        for leader, mirrored in _led(project, cloth, piece.panel_names):
            variables.append(_variable(project.placement(leader), garment.panels[leader], cloth, way))
            for name in (leader, *mirrored):
                spin = 1 if name == leader else -1
                sign = _sign(spin, way, turned[name] != turned[leader])
                by = _by_uv(project, cloth, garment.panels[name], turned[name], way)
                followers[name] = Follower(
                    len(variables) - 1, sign, spin, turned[name], *by, garment.panels[name].middle
                )
    costs = (
        _seam_cost(project, garment, line, way)
        for line in garment.seams
        if line.cloth is not None and line.cloth.id == cloth.id
    )
    seams = tuple(cost for cost in costs if cost.weight > 0)
    problem = Problem(cloth, way, repeat, tuple(variables), followers, seams)
    return _centred(project, garment, problem) if way == "lengthwise" else problem


def _variable(at: Placement, panel: Panel, cloth: Cloth, way: Way) -> Variable:
    """What is unknown of a panel that leads: its turn inside the tolerance and its phase; nothing where it is held."""
    if not at.hold:
        limit = math.radians(cloth.grain_tolerance_deg)
        return Variable(panel.name, -limit, limit, None)
    turn = math.radians(at.turn_deg)
    return Variable(panel.name, turn, turn, float(Across.of(at, cloth, way)(panel.middle[None])[0]))


def _sign(spin: int, way: Way, reversed_: bool) -> int:
    """How a panel's phase goes with its leader's: a mirrored one's against it across stripes, with it across bars.

    It is the other way about where one of the two lies end for end, which an even repeat can't tell.
    """
    return (spin if way == "lengthwise" else 1) * (-1 if reversed_ else 1)


def _by_uv(project: Project, cloth: Cloth, panel: Panel, turned: bool, way: Way) -> tuple[float, float]:
    """Change of a coordinate per mm of u and of v at a panel's middle."""
    if way == "lengthwise":
        return 1.0, -cloth.skew
    at = project.placements.get(panel.name)
    if at is None:
        return -cloth.weft_skew_at(sum(cloth.usable) / 2), 1.0
    return -cloth.weft_skew_at(at.u + float((rotation(at.turn_deg, turned) @ panel.middle)[0])), 1.0


def _led(project: Project, cloth: Cloth, names: tuple[PanelName, ...]) -> list[tuple[PanelName, tuple[PanelName, ...]]]:
    """The panels of a piece as leaders, each with the panels that mirror it."""
    if len(names) == 1 or not mirrors_pairs(project, cloth):
        return [(name, ()) for name in names]
    right, left = names
    held = [project.placement(name).hold for name in names]
    leader, other = (left, right) if held[1] and not held[0] else (right, left)
    out_of_reach = any(held) and abs(project.placement(leader).turn_deg) > cloth.grain_tolerance_deg + 1e-9
    if all(held) or out_of_reach:
        return [(right, ()), (left, ())]
    return [(leader, (other,))]


def _seam_cost(project: Project, garment: Garment, line: SeamLine, way: Way) -> SeamCost:
    a, b = line.panels
    middle_a, middle_b = garment.panels[a].middle, garment.panels[b].middle
    heights = sample_heights(line)
    weight = line.sewn.seam.weight if len(heights) else 0.0
    points_a, points_b = _at(line.height, line.a, heights) - middle_a, _at(line.height, line.b, heights) - middle_b
    return SeamCost(
        line,
        weight,
        a,
        b,
        points_a,
        points_b,
        line.a[-1] - line.a[0],
        line.b[-1] - line.b[0],
        _bent(project, line, a, points_a, way),
        _bent(project, line, b, points_b, way),
    )


def _bent(project: Project, line: SeamLine, panel: PanelName, points: Points, way: Way) -> Floats:
    """What a bow adds to the coordinate of points, from their panel's middle, beside its slope there, mm."""
    if way == "lengthwise" or line.cloth is None or not line.cloth.bow_per_mm:
        return np.zeros(len(points))
    away = points @ rotation(project.placement(panel).turn_deg, False)[0]
    return np.asarray(line.cloth.bow_per_mm * away**2)


def sample_heights(line: SeamLine) -> Floats:
    """Heights that stand for equal shares of the counted length; empty where nothing counts."""
    spans = np.diff(line.height) * line.counted_parts
    done = np.concatenate([[0.0], np.cumsum(spans)])
    if done[-1] <= 0:
        return np.empty(0)
    wanted = (np.arange(SAMPLES) + 0.5) / SAMPLES * done[-1]
    part = np.searchsorted(done, wanted, side="right") - 1
    return np.asarray(line.height[part] + wanted - done[part])


def _at(height: Floats, points: Points, wanted: Floats) -> Points:
    return np.stack([np.interp(wanted, height, points[:, axis]) for axis in (0, 1)], axis=-1)


def _centred(project: Project, garment: Garment, problem: Problem) -> Problem:
    """The problem with the phase pinned that the project's centre asks for, if its panel is free and on this cloth."""
    centre = project.match.centre
    if centre.on == "free":
        return problem
    target = problem.repeat.origin + (problem.repeat.axis if centre.on == "lead" else problem.repeat.ground_middle)
    for panel, point in _centre_points(project, garment):
        follower = problem.followers.get(panel)
        if follower is None or problem.variables[follower.variable].phase_fixed is not None:
            continue
        if problem.variables[follower.variable].leader != panel:
            panel, point, target = _on_leader(problem, panel, point, target)
        variables = list(problem.variables)
        pinned = (float(point[0]), float(point[1]))
        variables[follower.variable] = replace(variables[follower.variable], phase_fixed=target, pinned=pinned)
        return replace(problem, variables=tuple(variables))
    return problem


def _on_leader(problem: Problem, panel: PanelName, point: Points, target: float) -> tuple[PanelName, Points, float]:
    """The same demand put to the panel that this one mirrors."""
    follower = problem.followers[panel]
    reflected = 2 * problem.repeat.c - target if follower.sign < 0 else target
    return problem.variables[follower.variable].leader, point * np.array([-1.0, 1.0]), reflected


def _centre_points(project: Project, garment: Garment) -> list[tuple[PanelName, Points]]:
    """The panels that can carry the centre, in order of preference, each with the point that marks it."""
    centre = project.match.centre
    if centre.panel is not None:
        return [(centre.panel, garment.panels[centre.panel].middle)]
    for line in garment.seams:
        if line.sewn.seam.name == centre.seam:
            middle = np.array([line.length / 2])
            return [
                (line.panels[0], _at(line.height, line.a, middle)[0]),
                (line.panels[1], _at(line.height, line.b, middle)[0]),
            ]
    return []
