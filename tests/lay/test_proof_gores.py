"""Up to five gores against an exact mixed-integer model, solved to the end by HiGHS: nothing shorter exists.

The model knows nothing of the search: how far along the cloth two gores keep off each other comes from the Minkowski
sum of their outlines, which for convex ones is the convex hull of all sums of their corners (de Berg and others,
Computational Geometry, 3rd ed., 2008, section 13.3).
"""

import itertools

import numpy as np
import pytest
import shapely
from scipy.optimize import LinearConstraint, milp
from shapely.geometry import LineString, MultiPoint

from cloths import outlined, project_of
from core.lay.lay import lay
from core.model.project import Placement, Project

SIZES = [(60, 260, 700), (80, 220, 640), (70, 300, 760), (60, 240, 700), (90, 280, 620)]
"""Width at the top, width at the hem and length, mm; invented."""

CLOSE_MM = 0.01
"""HiGHS takes what is 1e-6 off a whole number for whole, which can make some micrometres of a lift."""


def outline(top: float, hem: float, tall: float) -> np.ndarray:
    return np.array([[-top / 2, 0], [top / 2, 0], [hem / 2, tall], [-hem / 2, tall]])


def gores(count: int, width: float, period: float, draw: int, one_way: bool) -> Project:
    pieces = [outlined(f"g{i}", outline(*size)) for i, size in enumerate(SIZES[:count])]
    phases = np.random.default_rng(draw).uniform(0, period, count)
    project = project_of(pieces, width, period, one_way=one_way)
    return project.placed({f"g{i}": Placement(u=phase) for i, phase in enumerate(phases.tolist())})


def options(project: Project, index: int) -> list[np.ndarray]:
    """The outline of a gore at every place across the cloth and either way round, its v as drawn."""
    cloth, ring = project.cloths[0], outline(*SIZES[index])
    phase = project.placement(f"g{index}").u
    ways = [(ring, phase)] if cloth.one_way else [(ring, phase), (-ring, 2 * cloth.repeat.c - phase)]
    return [
        shape + np.array([u, 0.0])
        for shape, at in ways
        for u in np.arange(at % cloth.repeat.period, cloth.width, cloth.repeat.period)
        if (shape[:, 0] + u).min() >= -1e-9 and (shape[:, 0] + u).max() <= cloth.width + 1e-9
    ]


def off_each_other(a: np.ndarray, b: np.ndarray) -> tuple[float, float] | None:
    """The v_a - v_b between which two convex outlines overlap, or None where they never do."""
    hull = MultiPoint((b[:, None] - a[None]).reshape(-1, 2)).convex_hull
    column = shapely.intersection(hull, LineString([(0, -1e5), (0, 1e5)]))
    low, high = column.bounds[1::2] if not column.is_empty else (0.0, 0.0)
    return (low, high) if hull.bounds[0] < -1e-9 and hull.bounds[2] > 1e-9 else None


class Model:
    """The least length in which one outline of each list lies clear of those of the others, shifted along only.

    Unknowns: the length; v of each gore; whether each lies at its first, second, ... place; for each two whether the
    first lies behind the second. With the second at place q, a at p lies behind b if v_a - v_b >= high[p, q], before it
    if v_b - v_a >= -low[p, q]. A sentence about a choice that is not made is lifted by so much that it always holds.
    `enough` is a length known to be enough, mm.
    """

    def __init__(self, places: list[list[np.ndarray]], enough: float) -> None:
        self.places, self.enough = places, enough
        ends = 1 + len(places) + np.cumsum([0, *(len(some) for some in places)])
        self.at = [slice(*two) for two in itertools.pairwise(ends.tolist())]
        self.pairs = list(itertools.combinations(range(len(places)), 2))
        self.behind = int(ends[-1])
        self.rows: list[np.ndarray] = []
        self.least: list[float] = []

    def say(self, least: float, *terms: tuple[int | slice, object]) -> None:
        """The sum of the unknowns at given places, each times its factor, is at least so much."""
        self.rows.append(np.zeros(self.behind + len(self.pairs)))
        self.least.append(least)
        for where, factor in terms:
            self.rows[-1][where] = factor

    def say_each_lies_inside(self) -> None:
        for v, (some, at) in enumerate(zip(self.places, self.at, strict=True), start=1):
            self.say(1.0, (at, 1.0))
            self.say(-1.0, (at, -1.0))
            self.say(0.0, (v, 1.0), (at, [ring[:, 1].min() for ring in some]))
            self.say(0.0, (0, 1.0), (v, -1.0), (at, [-ring[:, 1].max() for ring in some]))

    def say_two_lie_apart(self, a: int, b: int, behind: int) -> None:
        lift, nothing = 2 * self.enough, (self.enough, -self.enough)
        for p, ring in enumerate(self.places[a], start=self.at[a].start):
            low, high = np.array([off_each_other(ring, other) or nothing for other in self.places[b]]).T
            self.say(-2 * lift, (1 + a, 1.0), (1 + b, -1.0), (self.at[b], -high), (p, -lift), (behind, -lift))
            self.say(-lift, (1 + a, -1.0), (1 + b, 1.0), (self.at[b], low), (p, -lift), (behind, lift))

    def solved(self) -> float:
        self.say_each_lies_inside()
        for behind, (a, b) in enumerate(self.pairs, start=self.behind):
            self.say_two_lie_apart(a, b, behind)
        whole = np.arange(len(self.rows[0])) > len(self.places)
        bounds = np.where(whole, 0.0, -self.enough), np.where(whole, 1.0, self.enough)
        apart = LinearConstraint(np.array(self.rows), np.array(self.least))
        first = np.eye(len(whole))[0]
        found = milp(first, integrality=whole, bounds=bounds, constraints=apart, options={"mip_rel_gap": 0.0})
        assert found.status == 0
        return float(found.fun)


@pytest.mark.parametrize(
    ("count", "width", "period", "draw", "one_way"),
    [
        (3, 520, 50, 1, True),
        (4, 560, 70, 2, True),
        (5, 800, 120, 4, True),
        (4, 520, 90, 5, False),
    ],
)
def test_gores_lie_as_short_as_the_model_allows(count, width, period, draw, one_way) -> None:
    project = gores(count, width, period, draw, one_way)
    found = lay(project).lays[0].length_mm
    exact = Model([options(project, i) for i in range(count)], found + 1.0).solved()
    assert found == pytest.approx(exact, abs=CLOSE_MM)
