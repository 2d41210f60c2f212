"""The proof: its bound is below every placement known, close to the best, and right for every kind of demand."""

import dataclasses
import itertools
import json
import math

import msgspec
import numpy as np
import pytest
from scipy.integrate import trapezoid

from app.cli import main
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.matching.bound import prove
from core.matching.cells import UNWEIGHED, Box, Part
from core.matching.elimination import Tables
from core.matching.lattice import Seam
from core.matching.marginals import min_marginals
from core.matching.objective import Objective
from core.matching.problem import Problem
from core.matching.refine import Point, bounds_of, refined
from core.matching.solve import connected, match
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import lean_alike, measure
from descents import descents, problem_of
from garments import EVERY_KIND, repeat, ring

NAMES = ["-".join(str(v) for v in kind.values()) for kind in EVERY_KIND]

DEMANDS = {
    "a held panel": ({"number": 6}, {"g2": Placement(u=123.4, v=77.0, turn_deg=0.45, hold=True)}),
    "two held panels": (
        {"number": 5, "skew": 12.0},
        {n: Placement(u=31.0, turn_deg=-0.2, hold=True) for n in ("g0", "g3")},
    ),
    "the centre on the lead": ({"number": 5, "match": {"centre": {"panel": "g1", "on": "lead"}}}, {}),
    "the centre of a pair's seam": (
        {
            "number": 10,
            "shape": "pairs",
            "width": 26.0,
            "skew": 6.0,
            "match": {"centre": {"seam": "front", "on": "lead"}},
        },
        {},
    ),
    "a held panel that leads its mirrored one": (
        {"number": 8, "shape": "pairs", "width": 26.0},
        {"g1.L": Placement(u=400.0, turn_deg=0.3, hold=True)},
    ),
    "every panel held": (
        {"number": 4},
        {f"g{i}": Placement(u=7.0 * i * i, turn_deg=0.1 * i, turned=i == 2, hold=True) for i in range(4)},
    ),
    "on the grain": ({"number": 6, "tolerance": 0.0}, {}),
    "an odd ring": ({"number": 5, "kind": "uneven", "width": 40.0, "tolerance": 1.5}, {}),
}


def parts_of(project: Project) -> list[Part]:
    _, problem = problem_of(project)
    return [Part(problem, variables, seams) for variables, seams in connected(problem) if seams]


def lowest_descent(project: Project, starts: int) -> float:
    """The lowest figure, mm, measured on the whole polylines, that descents from random starts find."""
    garment, problem = problem_of(project)
    ends = descents(problem, starts, seed=7)
    return min(figure(project, problem, garment, end.phases, end.turns) for end in ends)


def figure(project: Project, problem: Problem, garment: Garment, phases, turns) -> float:
    placed = {
        name: problem.placement(name, phases, turns, project.placements.get(name))
        for name in problem.followers
        if not project.placement(name).hold
    }
    return measure(project.placed(placed), garment).rms_mm


@pytest.mark.parametrize("kind", EVERY_KIND, ids=NAMES)
def test_no_descent_goes_below_the_bound_and_the_gap_is_closed(kind):
    project = ring(21, **kind)
    bound = prove(project, match(project), seconds=600)
    assert bound.lower_bound_mm <= min(lowest_descent(project, 6), bound.result.rms_mm)
    assert bound.status == "proved"
    assert bound.gap_share <= 0.0101 or bound.gap_mm <= 0.0101


@pytest.mark.parametrize(("kind", "placed"), DEMANDS.values(), ids=DEMANDS)
def test_every_demand_of_the_project_is_kept_in_the_bound(kind, placed):
    project = ring(8, **kind).placed(placed)
    bound = prove(project, match(project), seconds=600)
    assert bound.status == "proved"
    assert bound.lower_bound_mm <= lowest_descent(project, 8)
    assert bound.gap_share <= 0.0101
    assert measure(bound.result.project).rms_mm == pytest.approx(bound.result.rms_mm)
    assert all(bound.result.project.placement(name) == at for name, at in placed.items())


@pytest.mark.parametrize("kind", [*EVERY_KIND, *(kind for kind, _ in DEMANDS.values())])
def test_no_placement_in_a_cell_goes_below_what_the_cell_is_said_to_allow(kind):
    # Every variable has one cell, in which placements are drawn at random and measured on the whole polylines.
    project = ring(3, **kind)
    garment, (part,) = Garment.of(project), parts_of(project)
    rng = np.random.default_rng(0)
    tight = 0.0
    for _ in range(12):
        box, phases, turns = random_cell(part, rng)
        figures = [figure(project, part.problem, garment, *drawn(part, rng, phases, turns)) for _ in range(5)]
        low = math.sqrt(part.weigh(box, math.inf).box.low)
        assert low <= min(figures) + 1e-6
        tight = max(tight, low / min(figures))
    assert tight > 0.97


def random_cell(part: Part, rng: np.random.Generator):
    """A box of one cell a variable, and the limits of its phases and of its turns, shapes (variables, 2)."""
    count, fineness = 12 * 2 ** int(rng.integers(0, 4)), 2 ** int(rng.integers(0, 4))
    level = part.level(Box(count, fineness, (), UNWEIGHED))
    cells, phases, turns = [], [], []
    for v in part.variables:
        phase = int(rng.integers(count)) if part.problem.variables[v].phase_fixed is None else 0
        turn = int(rng.integers(max(1, len(level.turns[v]) - 1)))
        cells.append(np.array([[phase, turn]]))
        phases.append((phase * level.phase, (phase + 1) * level.phase))
        turns.append(level.turns[v][[turn, min(turn + 1, len(level.turns[v]) - 1)]])
    return Box(count, fineness, tuple(cells), UNWEIGHED), np.array(phases), np.array(turns)


def drawn(part: Part, rng: np.random.Generator, phases, turns):
    turn = rng.uniform(turns[:, 0], turns[:, 1])
    return Objective(part.problem, part.problem.seams).pinned(rng.uniform(phases[:, 0], phases[:, 1]), turn), turn


@pytest.mark.parametrize("kind", [EVERY_KIND[i] for i in (0, 2, 7, 8, 10)])
def test_the_cells_of_a_placement_are_never_left_while_lower_ones_than_it_are_sought(kind):
    # A good placement is followed through ever finer cells; what is left out must always be elsewhere.
    project = ring(33, **kind)
    garment, (part,) = Garment.of(project), parts_of(project)
    phases, turns = descended(part)
    limit = figure(project, part.problem, garment, phases, turns) ** 2 * (1 + 1e-6)
    boxes = part.whole()
    for _ in range(6):
        box = next(box for box in boxes if all(held_in(part, box, phases, turns)))
        weighed = part.weigh(box, limit).box
        assert all(held_in(part, weighed, phases, turns))
        assert weighed.low <= limit
        boxes = part.halves(weighed)
    turns_in_all = sum(len(part.level(weighed).turns[v]) for v in part.variables)
    assert sum(map(len, weighed.cells)) < 0.2 * weighed.phases * turns_in_all


def descended(part: Part):
    """Phases and turns of the placement that a descent from the best corners of the first cells leads to."""
    weighed = min((part.weigh(box, math.inf) for box in part.whole()), key=lambda found: found.value)
    objective = Objective(part.problem, part.problem.seams)
    start = Point(weighed.phases, weighed.turns, objective.value(weighed.phases, weighed.turns))
    best = refined(objective, bounds_of(objective, part.variables), start)
    return best.phases, best.turns


def held_in(part: Part, box: Box, phases, turns) -> list[bool]:
    """For each variable whether one of its cells holds its phase and turn."""
    level, held = part.level(box), []
    for v, cells in zip(part.variables, box.cells, strict=True):
        free = part.problem.variables[v].phase_fixed is None
        phase = int(phases[v] % part.problem.repeat.period / level.phase) % box.phases if free else 0
        turn = int(np.clip(np.searchsorted(level.turns[v], turns[v]) - 1, 0, max(0, len(level.turns[v]) - 2)))
        held.append(bool((cells == [phase, turn]).all(axis=1).any()))
    return held


def test_edges_that_may_lean_either_way_count_with_the_lower_of_both():
    # Two straight gores whose sewn edges run almost along the grain: the lean changes with the turn.
    project = nearly_straight()
    garment, problem = problem_of(project)
    rng = np.random.default_rng(2)
    leans = set()
    bound = prove(project, match(project), seconds=600)
    for _ in range(300):
        turns = rng.uniform(-math.radians(1), math.radians(1), 3)
        phases = rng.uniform(0, 24, 3)
        placed = {n: problem.placement(n, phases, turns, None) for n in problem.followers}
        reading = measure(project.placed(placed), garment)
        leans.add(reading.read[0].lean)
        assert reading.rms_mm >= bound.lower_bound_mm
    assert leans == {"alike", "opposite"}
    assert bound.status == "proved"
    (part,) = parts_of(project)
    for _ in range(100):
        box, phases, turns = random_cell(part, rng)
        low = math.sqrt(part.weigh(box, math.inf).box.low)
        for _ in range(5):
            assert low <= figure(project, part.problem, garment, *drawn(part, rng, phases, turns)) + 1e-6


def nearly_straight() -> Project:
    edges = {"g0": ("M 40 0 L 46 800", "M -90 800 L -40 0"), "g1": ("M 40 0 L 120 800", "M -43 800 L -40 0")}
    edges["g2"] = ("M 40 0 L 70 800", "M -60 800 L -40 0")
    pieces = []
    for name, (r, l_) in edges.items():
        right, left = r.split("L ")[1], l_.split(" L")[0][2:]
        pieces.append(
            {
                "id": name,
                "cloth": "cloth",
                "cut": "single",
                "edges": [
                    {"name": "top", "path": "M -40 0 L 40 0"},
                    {"name": "r", "path": r},
                    {"name": "hem", "path": f"M {right} L {left}"},
                    {"name": "l", "path": l_},
                ],
            }
        )
    seams = [{"name": f"s{i}", "a": f"g{i}/r", "b": f"g{(i + 1) % 3}/l"} for i in range(3)]
    cloth = {"id": "cloth", "width": 2000, "grain_tolerance_deg": 1.0, "repeat": repeat("uneven", 24.0)}
    raw = {"format": "stripewright-project", "version": 1, "cloths": [cloth], "pieces": pieces, "seams": seams}
    return project_from_bytes(json.dumps(raw).encode())


@pytest.mark.parametrize(("seed", "kind"), [(6, "even"), (7, "uneven"), (9, "half")])
def test_a_brute_force_grid_on_three_panels_never_goes_below_and_comes_close(seed, kind):
    # All placements on a grid of 32 phases and 9 turns of each panel.
    project = ring(seed, 3, kind, 30.0, 0.4)
    _, problem = problem_of(project)
    bound = prove(project, match(project), seconds=600, gap_share=0.003)
    lowest = math.sqrt(brute_force(problem, 32, 9))
    assert bound.lower_bound_mm <= lowest
    assert lowest <= bound.lower_bound_mm * 1.04


def brute_force(problem: Problem, phases: int, turns: int) -> float:
    """The lowest mean square step, mm2, on a grid, from 96 samples a seam."""
    limit, period = problem.variables[0].turn_high, problem.repeat.period
    states = np.array(list(itertools.product(np.arange(phases) * period / phases, np.linspace(-limit, limit, turns))))
    share = 1 / sum(seam.weight for seam in problem.seams)
    tables = {}
    for seam in problem.seams:
        (w_a, change_a), (w_b, change_b) = (across(problem, seam, side, states) for side in ("a", "b"))
        alike = lean_alike(change_a[:, None], change_b[None])[..., None]
        raw = np.where(alike, w_a[:, None] - w_b[None], w_a[:, None] + w_b[None] - 2 * problem.repeat.c)
        steps = raw - period * np.round(raw / period)
        tables[seam.a, seam.b] = (steps.astype(np.float32) ** 2).mean(axis=-1) * seam.weight * share
    ab, bc, ca = tables["g0", "g1"], tables["g1", "g2"], tables["g2", "g0"]
    return min(float((ab[i][:, None] + bc + ca[:, i][None]).min()) for i in range(len(states)))


def across(problem: Problem, seam, side: str, states):
    """w at every third sample of one edge, and its net change, for all states (phase, turn)."""
    points, ends = getattr(seam, f"points_{side}")[1::3], getattr(seam, f"ends_{side}")
    x, y = problem.followers[getattr(seam, side)].rates(states[:, 1])
    return states[:, :1] + points[:, 0] * x[:, None] + points[:, 1] * y[:, None], ends[0] * x + ends[1] * y


def test_a_garment_that_matches_perfectly_has_a_bound_of_nothing(pier_parasol):
    project = read_project(pier_parasol)
    same = tuple(msgspec.structs.replace(project.pieces[0], id=piece.id) for piece in project.pieces)
    project = msgspec.structs.replace(project, pieces=same)
    bound = prove(project, match(project), seconds=600)
    assert bound.lower_bound_mm == 0
    assert bound.gap_mm < 0.01
    assert bound.status == "proved"


def test_more_time_never_gives_a_lower_bound():
    project = ring(5, 8, "even", 16.0, 1.0)
    found = match(project)
    lows = [stopped_after(project, found, steps).lower_bound_mm for steps in (0, 1, 5, 15, 30, 1000)]
    assert lows == sorted(lows)
    assert lows[0] == 0
    assert lows[-1] > 0.98 * found.rms_mm


def stopped_after(project, found, steps):
    count = itertools.count()
    return prove(project, found, lambda share, note: next(count) < steps, seconds=60)


def test_the_time_given_is_kept_and_the_gap_so_far_told():
    project = ring(5, 10, "even", 12.0, 1.5)
    bound = prove(project, match(project), seconds=0.0)
    assert bound.status == "time"
    assert bound.gap_share == 1
    assert bound.result.lower_bound_mm == 0


def test_a_better_placement_that_turns_up_is_handed_back():
    project = ring(4, 6, "even", 24.0)
    poor = dataclasses.replace(match(project), project=project, rms_mm=measure(project).rms_mm)
    bound = prove(project, poor, seconds=600)
    assert bound.result.rms_mm < 1.01 * match(project).rms_mm
    assert measure(bound.result.project).rms_mm == pytest.approx(bound.result.rms_mm)


def test_parts_that_hang_together_only_by_the_weights_and_several_cloths_are_bounded_together():
    # Root mean squares go together by weight: two garments on two cloths, one of them in two parts.
    first, second = ring(12, 7, "even", 20.0, 0.5), ring(13, 4, "uneven", 30.0, 0.7)
    first = msgspec.structs.replace(first, seams=tuple(s for s in first.seams if s.name not in ("s2", "s6")))
    both = on_two_cloths(first, second)
    bounds = [prove(project, match(project), gap_share=0.002) for project in (first, second, both)]
    weights = [sum(seam.weight for seam in project.seams) for project in (first, second)]
    low = math.sqrt(sum(w * b.lower_bound_mm**2 for w, b in zip(weights, bounds, strict=False)) / sum(weights))
    assert len(parts_of(first)) == 2
    assert bounds[2].lower_bound_mm == pytest.approx(low, rel=0.01)
    assert bounds[2].gap_share <= 0.0021 or bounds[2].gap_mm <= 0.0101
    assert bounds[2].lower_bound_mm <= measure(match(both).project).rms_mm


def on_two_cloths(first: Project, second: Project) -> Project:
    one, two = (json.loads(project_to_bytes(project)) for project in (first, second))
    two["cloths"][0]["id"] = "other"
    for piece in two["pieces"]:
        piece["id"], piece["cloth"] = f"o{piece['id']}", "other"
    for seam in two["seams"]:
        seam.update(name=f"o{seam['name']}", a=f"o{seam['a']}", b=f"o{seam['b']}")
    merged = {**one, **{key: one[key] + two[key] for key in ("cloths", "pieces", "seams")}}
    return project_from_bytes(json.dumps(merged).encode())


def test_seen_and_open_stretches_count_in_the_bound_as_in_the_figure():
    project = ring(6, 5, "even", 24.0, 0.5)
    seams = [msgspec.structs.replace(project.seams[0], seen=(100, 500), open=(300, 420)), *project.seams[1:]]
    seams[2] = msgspec.structs.replace(seams[2], open=(0, 850))
    project = msgspec.structs.replace(project, seams=tuple(seams))
    bound = prove(project, match(project), seconds=600)
    assert bound.status == "proved"
    assert bound.lower_bound_mm <= lowest_descent(project, 25)


def test_a_seam_on_the_lattice_is_never_above_its_exact_mean_square_and_close_to_it():
    # scipy.integrate.trapezoid over 400 000 stretches, with its own wrapping, is the outside reference.
    _, problem = problem_of(ring(4, 6, "even", 12.0, 1.0, skew=9.0))
    rng = np.random.default_rng(1)
    for cost in problem.seams:
        seam = Seam(problem, cost, 1.0)
        turns = rng.uniform(-0.017, 0.017, (2, 3))
        sense = next(sense for sense, may in seam.senses(*turns, 0.0, 0.0).items() if may.all())
        table = seam.mean_squares(*turns, sense, 20)
        for pair, phase in ((0, 0), (1, 7), (2, 19)):
            exact = integrated(problem, cost, turns[:, pair], sense, phase * 12.0 / 20)
            assert 0.997 * exact - 1e-4 <= table[pair, phase] <= exact + 1e-4


def integrated(problem, cost, turns, sense, shift):
    line, period = cost.line, problem.repeat.period
    places = []
    for panel, points, turn in ((cost.a, line.a, turns[0]), (cost.b, line.b, turns[1])):
        x, y = (float(rate[0]) for rate in problem.followers[panel].rates(np.array([turn])))
        places.append((points - problem.followers[panel].middle) @ np.array([x, y]))
    raw = places[0] + sense * places[1] + shift - (2 * problem.repeat.c if sense > 0 else 0)

    height = np.linspace(0, line.length, 400_001)
    steps = np.interp(height, line.height, raw)
    return trapezoid((steps - period * np.round(steps / period)) ** 2, height) / line.length


@pytest.mark.parametrize("chunk", [1 << 18, 4])
@pytest.mark.parametrize(
    ("sizes", "pairs"),
    [
        ((3, 4, 2, 5), [(0, 1), (1, 2), (2, 3), (0, 3), (1, 3)]),
        ((3, 4, 5, 2, 3), [(0, 1), (1, 2), (2, 3), (3, 4), (4, 0)]),
        ((3, 2, 4, 2), [(0, 1), (2, 3)]),
        ((3, 2, 4), [(0, 1), (2, 1)]),
        ((3,), []),
    ],
)
def test_min_marginals_agree_with_the_sum_of_all_tables(sizes, pairs, chunk, monkeypatch):
    monkeypatch.setattr("core.matching.marginals.CHUNK", chunk)
    rng = np.random.default_rng(4)
    tables, total = Tables(list(sizes)), np.zeros(sizes)
    for scope in [*pairs, (0,)]:
        table = rng.random([sizes[v] for v in scope]).astype(np.float32)
        tables.add(scope, table)
        total = total + table.transpose(np.argsort(scope)).reshape(
            [sizes[v] if v in scope else 1 for v in range(len(sizes))]
        )
    for v, marginal in enumerate(min_marginals(tables)):
        others = tuple(u for u in range(len(sizes)) if u != v)
        assert marginal == pytest.approx(total.min(axis=others), abs=1e-5)


def test_a_garment_without_stripes_to_match_has_no_bound():
    project = ring(3, 4)
    plain = msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], repeat=None),))
    assert prove(plain, match(plain)) is None


def test_the_command_proves_its_match_and_says_how_well(harbour_skirt, tmp_path, capsys):
    out = tmp_path / "matched.stripewright"
    assert main(["match", str(harbour_skirt), "-o", str(out), "--prove", "20"]) == 0
    text = capsys.readouterr().out
    assert "Proved: no placement inside the tolerance goes below" in text
    assert main(["match", str(harbour_skirt), "--json", "--prove", "20"]) == 0
    solve = json.loads(capsys.readouterr().out)["solve"]
    assert 0.98 * solve["rms_mm"] < solve["lower_bound_mm"] < solve["rms_mm"]


@pytest.mark.parametrize("seconds", ["-1", "0", "nan", "inf", "soon"])
def test_a_time_that_is_none_is_refused_in_one_line(harbour_skirt, seconds, capsys):
    assert main(["match", str(harbour_skirt), "--json", f"--prove={seconds}"]) == 2
    assert len(capsys.readouterr().err.splitlines()) == 1
