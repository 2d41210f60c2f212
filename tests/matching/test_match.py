"""The match: as good as anything known, inside its bounds, repeatable."""

import math

import msgspec
import numpy as np
import pytest
from scipy.optimize import differential_evolution, lsq_linear

from core.files.project_file import read_project
from core.matching.byhand import by_hand
from core.matching.elimination import Tables, minimise
from core.matching.objective import Objective
from core.matching.orientation import orientations
from core.matching.phase import best_shifts
from core.matching.problem import build_problem
from core.matching.refine import least_in_box
from core.matching.solve import match
from core.model.project import Placement
from core.seams.garment import Garment
from core.seams.readings import measure
from descents import descents, problem_of
from garments import EVERY_KIND, ring


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda k: "-".join(str(v) for v in k.values()))
def test_no_descent_from_many_starts_ends_lower(kind):
    project = ring(4, **kind)
    garment = Garment.of(project)
    found = match(project, garment=garment)
    lowest = min(point.value for point in descents(problem_of(project)[1], 25, seed=0))
    assert found.rms_mm <= math.sqrt(lowest) * 1.003
    reach = project.cloths[0].grain_tolerance_deg
    assert all(abs(at.turn_deg) <= reach + 1e-9 for at in found.project.placements.values())


def test_a_ten_panel_skirt_matches_better_than_differential_evolution_finds():
    # scipy.optimize.differential_evolution on the same objective: the outside reference for a global search.
    project = ring(2, 10, "even", 22.0, 0.5)
    garment = Garment.of(project)
    cloth = project.cloths[0]
    problem = build_problem(project, garment, cloth, orientations(project, garment, cloth))
    objective = Objective(problem, problem.seams)
    number, limit = len(problem.variables), math.radians(cloth.grain_tolerance_deg)
    bounds = [(0, cloth.repeat.period)] * number + [(-limit, limit)] * number
    rival = differential_evolution(
        lambda x: objective.value(x[:number], x[number:]), bounds, maxiter=60, popsize=6, seed=1, polish=False
    )
    assert match(project, garment=garment).rms_mm < math.sqrt(rival.fun)


def test_three_panels_agree_with_a_brute_force_grid():
    project = ring(6, 3, "even", 30.0, 0.4)
    garment = Garment.of(project)
    cloth = project.cloths[0]
    problem = build_problem(project, garment, cloth, orientations(project, garment, cloth))
    objective = Objective(problem, problem.seams)
    limit = math.radians(0.4)
    grid = np.linspace(0, 30, 12, endpoint=False)
    best = min(
        objective.value(np.array([a, b, c]), np.array([s, t, r]))
        for a in grid
        for b in grid
        for c in grid
        for s in (-limit, limit)
        for t in (-limit, 0, limit)
        for r in (-limit, limit)
    )
    found = match(project, garment=garment).rms_mm
    assert found <= math.sqrt(best) * 1.001
    assert found >= math.sqrt(best) - 1.5


def test_a_mirrored_pair_is_reflected_about_the_lead_axis():
    project = ring(5, 10, "fine pair", 26.0, 0.6, shape="pairs", skew=6.0)
    solved = match(project).project
    repeat, skew = project.cloths[0].repeat, project.cloths[0].skew
    for index in range(5):
        right, left = (solved.placement(f"g{index}.{side}") for side in "RL")
        w_right, w_left = (at.u - skew * at.v for at in (right, left))
        gap = (w_left - (2 * repeat.c - w_right) + repeat.period / 2) % repeat.period - repeat.period / 2
        assert gap == pytest.approx(0, abs=1e-6)
        assert left.turn_deg == pytest.approx(-right.turn_deg, abs=1e-9)


def test_without_mirrored_pairs_the_figure_is_no_worse():
    project = ring(5, 10, "even", 26.0, 0.6, shape="pairs", skew=6.0)
    free = msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, mirror_pairs=False))
    assert match(free).rms_mm <= match(project).rms_mm * 1.001


def test_held_panels_stay_and_the_others_are_matched_to_them():
    project = ring(9, 8, "even", 20.0, 0.5)
    held = Placement(u=123.4, v=77.0, turn_deg=0.45, hold=True)
    solved = match(project.placed({"g2": held, "g5": Placement(u=31.0, turn_deg=-0.2, hold=True)})).project
    assert solved.placement("g2") == held
    assert match(project).rms_mm <= measure(solved).rms_mm + 1e-3


def test_a_held_panel_leads_its_mirrored_one():
    project = ring(5, 10, "even", 26.0, 0.6, shape="pairs")
    solved = match(project.placed({"g1.L": Placement(u=400.0, turn_deg=0.3, hold=True)})).project
    repeat = project.cloths[0].repeat
    across = (solved.placement("g1.R").u + 400.0 - 2 * repeat.c) % repeat.period
    assert min(across, repeat.period - across) == pytest.approx(0, abs=1e-6)
    assert solved.placement("g1.R").turn_deg == pytest.approx(-0.3)


@pytest.mark.parametrize(("on", "place"), [("lead", 0.0), ("ground", 10.0)])
def test_the_centre_of_a_panel_lies_on_the_lead_stripe_or_on_the_middle_of_the_ground(on, place):
    # Vilumsone-Nemes 2018, p. 216: the centre of the most important piece on the middle of a stripe or of the gap.
    project = ring(3, 8, "even", 20.0, 0.5, match={"centre": {"panel": "g0", "on": on}})
    solved = match(project)
    at, panel = solved.project.placement("g0"), Garment.of(project).panels["g0"]
    turn = math.radians(at.turn_deg)
    across = at.u + panel.middle[0] * math.cos(turn) - panel.middle[1] * math.sin(turn)
    assert (across - project.cloths[0].repeat.c - place + 10) % 20 == pytest.approx(10, abs=2e-5)


def test_the_centre_of_a_seam_of_a_mirrored_pair_lies_on_the_lead_stripe():
    project = ring(5, 10, "even", 26.0, 0.6, shape="pairs", match={"centre": {"seam": "front", "on": "lead"}})
    reading = next(r for r in measure(match(project).project).read if r.line.sewn.seam.name == "front")
    middle = np.interp(reading.line.length / 2, reading.line.height, reading.w_a)
    assert (middle - reading.repeat.c + 13) % 26 == pytest.approx(13, abs=2e-5)


def test_zero_tolerance_keeps_every_panel_on_the_grain():
    solved = match(ring(4, 8, "even", 20.0, 0.0)).project
    assert {at.turn_deg for at in solved.placements.values()} == {0.0}


def test_alike_gores_of_an_uneven_stripe_lie_end_for_end_in_turn_and_meet_altogether(pier_parasol):
    project = read_project(pier_parasol)
    solved = match(project).project
    readings = measure(solved).read
    assert {reading.lean for reading in readings} == {"alike"}
    assert [solved.placement(f"gore-{i}").turned for i in range(1, 9)] == [i % 2 == 0 for i in range(1, 9)]
    one_way = msgspec.structs.replace(project, cloths=(msgspec.structs.replace(project.cloths[0], one_way=True),))
    kept = match(one_way)
    assert not any(at.turned for at in kept.project.placements.values())
    assert kept.rms_mm == pytest.approx(measure(solved).rms_mm, rel=0.01)


def test_the_hand_practice_is_beaten_on_the_samples(harbour_skirt, pier_parasol):
    # Butterick, The New Dressmaker, 1921, p. 34: each next gore is laid against its cut neighbour.
    for path in (harbour_skirt, pier_parasol):
        project = read_project(path)
        garment = Garment.of(project)
        hand = min(measure(by_hand(project, garment, share), garment).rms_mm for share in np.linspace(0, 1, 11))
        assert match(project, garment=garment).rms_mm < hand / 2


def test_laid_by_hand_every_next_panel_meets_one_neighbour_at_the_height_chosen():
    project = ring(7, 6, "even", 24.0)
    garment = Garment.of(project)
    steps = [
        abs(float(reading.step_at(np.array([reading.line.length / 2]))[0]))
        for reading in measure(by_hand(project, garment), garment).read
    ]
    assert sorted(steps)[:5] == pytest.approx([0] * 5, abs=1e-6)


def test_the_same_project_always_gets_the_same_placements():
    project = ring(11, 7, "uneven", 33.0, 0.8, one_way=False)
    assert match(project).project == match(project).project


def test_unconnected_groups_and_panels_without_seams_are_all_placed():
    project = ring(12, 8, "even", 20.0, 0.5)
    cut = msgspec.structs.replace(
        project, seams=tuple(s for s in project.seams if s.name not in ("s1", "s4", "s6", "s7"))
    )
    solved = match(cut)
    assert set(solved.project.placements) == set(project.panel_names)
    as_a_whole = msgspec.structs.replace(cut, placements=match(project).project.placements)
    assert solved.rms_mm <= measure(as_a_whole).rms_mm * 1.001


def test_of_equal_answers_the_one_with_less_turning_is_taken(pier_parasol):
    # Equal gores, each its own mirror image, match perfectly on the grain; turned all alike they match as well.
    project = read_project(pier_parasol)
    same = tuple(msgspec.structs.replace(project.pieces[0], id=piece.id) for piece in project.pieces)
    solved = match(msgspec.structs.replace(project, pieces=same))
    assert solved.rms_mm < 1e-3
    assert max(abs(at.turn_deg) for at in solved.project.placements.values()) < 0.02


def test_a_stop_gives_back_what_was_there():
    project = ring(3, 8)
    result = match(project, progress=lambda share, note: False)
    assert result.status == "stopped"
    assert set(result.project.placements) <= set(project.panel_names)


def test_a_stop_while_refining_gives_the_best_found_so_far():
    project = ring(3, 8)
    result = match(project, progress=lambda share, note: "refining" not in note)
    assert result.rms_mm < measure(by_hand(project, garment := Garment.of(project)), garment).rms_mm


def test_the_best_phase_of_one_panel_is_where_its_seams_match_best():
    project = by_hand(ring(3, 8), Garment.of(ring(3, 8)))
    garment = Garment.of(project)
    best = project.placement("g4").u + best_shifts(project, garment, "g4")[0]

    def figure(u: float) -> float:
        return measure(project.placed({"g4": Placement(u=u)}), garment).rms_mm

    assert figure(best) <= min(figure(u) for u in np.linspace(0, 20, 101)) + 1e-4


def test_the_slopes_of_the_objective_agree_with_finite_differences():
    project = ring(5, 10, "even", 26.0, 0.6, shape="pairs", skew=6.0, match={"centre": {"seam": "front", "on": "lead"}})
    garment, cloth = Garment.of(project), project.cloths[0]
    problem = build_problem(project, garment, cloth, orientations(project, garment, cloth))
    objective = Objective(problem, problem.seams)
    rng = np.random.default_rng(1)
    turns = rng.uniform(-0.01, 0.01, 5)
    phases = objective.pinned(rng.uniform(0, 26, 5), turns)
    gradient = 2 * objective.slopes(phases, turns).gradient
    for v in range(10):
        step = np.zeros(10)
        step[v] = 1e-6
        ends = [
            objective.value(objective.pinned(phases + s * step[:5], turns + s * step[5:]), turns + s * step[5:])
            for s in (-1, 1)
        ]
        if not (v < 5 and problem.variables[v].phase_fixed is not None):
            assert gradient[v] == pytest.approx((ends[1] - ends[0]) / 2e-6, abs=2e-3, rel=1e-3)


def test_elimination_finds_the_minimum_of_random_tables():
    rng = np.random.default_rng(4)
    tables, sizes = Tables([3, 4, 2, 5]), (3, 4, 2, 5)
    total = np.zeros(sizes)
    for a, b in [(0, 1), (1, 2), (3, 2), (0, 3), (1, 3)]:
        table = rng.random((sizes[a], sizes[b])).astype(np.float32)
        tables.add((a, b), table)
        shape = [sizes[v] if v in (a, b) else 1 for v in range(4)]
        total = total + (table if a < b else table.T).reshape(shape)
    cost, states = minimise(tables)[0]
    assert cost == pytest.approx(total.min(), abs=1e-5)
    assert total[tuple(states)] == pytest.approx(total.min(), abs=1e-5)


def test_the_least_of_a_quadratic_in_a_box_agrees_with_scipy():
    rng = np.random.default_rng(3)
    for _ in range(200):
        root = rng.normal(size=(8, 8))
        matrix, gradient = root @ root.T + 0.1 * np.eye(8), rng.normal(size=8)
        low, high = -rng.uniform(0, 0.5, 8), rng.uniform(0, 0.5, 8)
        factor = np.linalg.cholesky(matrix)
        expected = lsq_linear(
            factor.T, -np.linalg.solve(factor, gradient), bounds=(low, high), method="bvls", tol=1e-12
        ).x
        assert least_in_box(matrix, gradient, low, high) == pytest.approx(expected, abs=1e-6)
