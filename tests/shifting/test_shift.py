"""Shifted stitching lines: the stripes meet, and nothing else of the garment changes. Read from the written file."""

import json

import msgspec
import numpy as np
import pytest
import shapely
from scipy.optimize import lsq_linear, minimize
from scipy.sparse import csr_matrix
from svgpathtools import parse_path

from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.matching.solve import match
from core.model.project import Placement, Project
from core.seams.edge_ends import EdgeEnd, with_turned_edge
from core.seams.garment import Garment
from core.seams.readings import measure
from core.shifting.bounded import least_within
from core.shifting.pieces import unshifted
from core.shifting.result import ShiftResult
from core.shifting.shift import shift_lines, shift_where_it_lies
from near_gores import gore, made, near_skirt
from oracle import seam_figures


def written(project: Project) -> Project:
    return project_from_bytes(project_to_bytes(project))


def paths(project: Project) -> dict[tuple[str, str], str]:
    return {(piece.id, edge.name): edge.path for piece in project.pieces for edge in piece.edges}


def points_on(path: str, count: int = 400) -> np.ndarray:
    """Points of a path at even parameters of each of its curves, as svgpathtools has them."""
    curves = parse_path(path)
    places = np.linspace(0, 1, max(count // len(curves), 2))
    found = np.concatenate([np.atleast_1d(np.array([curve.point(t) for t in places])) for curve in curves])
    return np.stack([found.real, found.imag], axis=1)


def edge_length(path: str) -> float:
    return parse_path(path).length(error=1e-9)


def girths(project: Project, levels: np.ndarray) -> np.ndarray:
    """Widths of all panels at levels below the waist, added up; shapely's own cuts through the outlines."""
    rings = [shapely.Polygon(panel.net_ring) for panel in Garment.of(project).panels.values()]
    cuts = [shapely.LineString([(-3000, y), (3000, y)]) for y in levels]
    return np.array([sum(ring.intersection(cut).length for ring in rings) for cut in cuts])


def figure(project: Project) -> float:
    """The garment's figure from the independent reading of the file; all weights here are 1."""
    return float(np.sqrt(np.mean([rms**2 for rms, _ in seam_figures(project).values()])))


@pytest.fixture(scope="module", params=[(0.25, 0.75), (1.0, 0.95)], ids=["quarter degree", "one degree"])
def ten_panels(request) -> tuple[Project, ShiftResult, float]:
    tolerance, share = request.param
    project = near_skirt(1, 10, tolerance)
    return project, shift_lines(project), share


def test_a_hair_takes_the_figure_down(ten_panels):
    # The prototype named in the project's aims: 75 % at 0.25 degrees, 95 % at 1 degree, repeat 24 mm, cap 2 mm.
    project, result, share = ten_panels
    before, after = figure(match(project).project), figure(written(result.project))
    assert after <= (1 - share) * before
    assert after == pytest.approx(result.rms_mm, abs=2e-3)
    assert before == pytest.approx(result.rms_before_mm, abs=2e-3)


def test_the_girth_stays_at_every_height(ten_panels):
    project, result, _ = ten_panels
    levels = np.arange(10.0, 830.0, 20.0)
    assert np.abs(girths(written(result.project), levels) - girths(project, levels)).max() < 0.05
    assert result.girth_change_mm < 0.05


def test_sewn_edges_stay_of_one_length(ten_panels):
    project, result, _ = ten_panels
    old, new = paths(project), paths(written(result.project))
    for seam in project.seams:
        a, b = (tuple(ref.split("/")) for ref in (seam.a, seam.b))
        assert edge_length(new[a]) == pytest.approx(edge_length(new[b]), abs=0.3)
        assert edge_length(new[a]) == pytest.approx(edge_length(old[a]), abs=0.02)


def test_no_line_leaves_the_cap_or_runs_steeper_than_one_in_thirty(ten_panels):
    project, result, _ = ten_panels
    old, new = paths(project), paths(written(result.project))
    for key in [("g0", "r"), ("g1", "l"), ("g6", "r")]:
        was, now = shapely.LineString(points_on(old[key])), points_on(new[key])
        off = shapely.distance(shapely.points(now), was)
        assert off.max() <= 2.0 + 0.005
        apart = np.hypot(*np.diff(now, axis=0).T)
        assert np.abs(np.diff(off)[apart > 0.5] / apart[apart > 0.5]).max() <= 1 / 30 + 2e-3


def test_a_moved_line_is_drawn_with_few_curves_and_notches_stay_at_their_heights(ten_panels):
    project, result, _ = ten_panels
    for before, piece in zip(project.pieces, result.project.pieces, strict=True):
        assert all(len(parse_path(edge.path)) <= 16 for edge in piece.edges)
        assert piece.notches[0].at == pytest.approx(before.notches[0].at, abs=0.01)


def test_told_knots_are_where_the_line_lies(ten_panels):
    project, result, _ = ten_panels
    old, new = paths(project), paths(result.project)
    seam = max(result.seams, key=lambda seam: abs(seam.largest[0]))
    key = tuple(seam.sewn.a.split("/"))
    was, now = parse_path(old[key]), parse_path(new[key])
    for at, by in seam.knots[1:-1:3]:
        gap = now.point(now.ilength(at)) - was.point(was.ilength(at))
        way = was.unit_tangent(was.ilength(at))
        assert (gap * (way * -1j).conjugate()).real == pytest.approx(by, abs=0.02)


def test_a_second_shift_is_measured_from_the_first_lines():
    project = near_skirt(3, 3)
    once = shift_lines(project).project
    assert paths(unshifted(once)) == paths(project)
    again = shift_lines(once, cap_mm=0.5)
    was = paths(project)
    for key, path in paths(again.project).items():
        if key[1] in "rl":
            off = shapely.distance(shapely.points(points_on(path, 60)), shapely.LineString(points_on(was[key])))
            assert off.max() <= 0.505
    assert again.rms_before_mm == pytest.approx(match(project).rms_mm, abs=1e-6)


def test_ends_that_are_kept_lie_where_they_lay():
    project = near_skirt(1, 3, bend=30.0)
    result = shift_lines(project, ends="kept")
    assert result.largest_mm > 0.3
    for was, now in zip(paths(project).values(), paths(written(result.project)).values(), strict=True):
        old, new = parse_path(was), parse_path(now)
        assert max(abs(old.start - new.start), abs(old.end - new.end)) < 1e-3
    assert all(abs(np.subtract(*line.edge_lengths)) < 0.3 for line in _grown(project, result))


def _grown(project: Project, result: ShiftResult):
    """Seams whose edges were of one length before."""
    lines = zip(Garment.of(project).seams, Garment.of(result.project).seams, strict=True)
    return [new for old, new in lines if abs(np.subtract(*old.edge_lengths)) < 0.05]


def test_mirrored_panels_change_alike_and_a_seam_with_its_own_mirror_image_stays(harbour_skirt):
    project = read_project(harbour_skirt)
    result = shift_lines(project)
    after = written(result.project)
    assert result.rms_mm < 0.1 * result.rms_before_mm
    was, now = paths(project), paths(after)
    stays = {seam.sewn.label for seam in result.seams if seam.stays}
    assert stays == {"centre front", "centre back"}
    for seam in project.seams:
        if seam.name in stays:
            piece = project.piece_of(seam.a.split("/")[0]).id
            key = (piece, seam.a.split("/")[1])
            assert shapely.hausdorff_distance(*(shapely.LineString(points_on(p)) for p in (was[key], now[key]))) < 1e-3
    sides = {seam.sewn.label: seam.largest for seam in result.seams}
    assert sides["side front to side R"][0] == pytest.approx(-sides["side front to side L"][0])


def test_a_held_panel_without_room_beside_its_line_keeps_it():
    project = near_skirt(4, 3).placed({"g0": Placement(u=3.0, hold=True)})
    narrow = msgspec.structs.replace(
        project,
        pieces=tuple(
            msgspec.structs.replace(p, edges=tuple(msgspec.structs.replace(e, allowance=6.0) for e in p.edges))
            for p in project.pieces
        ),
    )
    result = shift_lines(narrow)
    assert [bool(seam.stays) for seam in result.seams] == [True, False, True]
    assert result.project.pieces[0] == narrow.pieces[0]
    assert result.project.placements["g0"] == narrow.placements["g0"]
    assert not any(seam.stays for seam in shift_lines(project).seams)


def test_edges_that_lean_alike_are_not_moved():
    # Both edges carry the eye to the right: the left panel's stripes move with the line as the right one's do.
    left, right = gore("a", 8, 8), gore("b", 8, -7)
    result = shift_where_it_lies(made([left, right], [{"name": "s", "a": "a/r", "b": "b/l"}]))
    assert "alike" in result.seams[0].stays
    assert result.project.pieces == made([left, right], []).pieces


def test_a_line_beside_a_sewn_edge_keeps_that_end():
    project = near_skirt(5, 3)
    band = gore("band", 0, 0)
    pieces = [*json.loads(project_to_bytes(project))["pieces"], band]
    seams = [*json.loads(project_to_bytes(project))["seams"], {"name": "waist", "a": "band/hem", "b": "g0/top"}]
    sewn = made(pieces, seams)
    was, now = paths(sewn), paths(shift_lines(sewn).project)
    for edge in "rl":
        old, new = parse_path(was["g0", edge]), parse_path(now["g0", edge])
        at_top = (old.start, new.start) if edge == "r" else (old.end, new.end)
        assert abs(at_top[0] - at_top[1]) < 1e-3
    assert was["g0", "top"] == now["g0", "top"]


def test_a_piece_given_by_its_cutting_line_keeps_its_allowances():
    project = near_skirt(6, 3, outline_is="cut")
    result = shift_lines(project)
    after = written(result.project)
    assert result.rms_mm < 0.5 * result.rms_before_mm
    assert {piece.outline_is for piece in after.pieces} == {"net"}
    old, new = Garment.of(project), Garment.of(after)
    for name, panel in new.panels.items():
        apart = shapely.hausdorff_distance(shapely.Polygon(panel.cut_ring), shapely.Polygon(old.panels[name].cut_ring))
        assert apart < 2.0 + 1.0
    for line in new.seams:
        assert abs(np.subtract(*line.edge_lengths)) == pytest.approx(
            abs(np.subtract(*next(o for o in old.seams if o.sewn == line.sewn).edge_lengths)), abs=0.3
        )


def test_where_panels_lie_already_no_piecewise_linear_shift_does_better():
    # scipy's sequential quadratic programming on the step of the file's formulas: p_a + p_b + d (cos a + cos b).
    project = match(near_skirt(7, 3, 0.1)).project
    result = shift_where_it_lies(project, "s0", cap_mm=1.0)
    reading = next(r for r in measure(project).read if r.line.sewn.label == "s0")
    heights = np.linspace(0, reading.line.length, 61)
    step = reading.step_at(heights)
    lean = sum(np.cos(np.radians(reading.leans_deg)))
    knots = np.linspace(0, reading.line.length, 13)

    def left(d):
        return float(np.mean((step + lean * np.interp(heights, knots, d)) ** 2))

    bends = [{"type": "ineq", "fun": lambda d, s=s: knots[1] / 30 - s * np.diff(d)} for s in (1, -1)]
    best = minimize(left, np.zeros(13), bounds=[(-1, 1)] * 13, constraints=bends, options={"maxiter": 300})
    seam = next(seam for seam in result.seams if seam.sewn.label == "s0")
    assert seam.rms_mm**2 <= best.fun * 1.05 + 1e-4
    assert all(abs(by) <= 1.0 for _, by in seam.knots)
    assert result.project.placements == project.placements


def test_the_least_between_bounds_agrees_with_scipy():
    rng = np.random.default_rng(0)
    for _ in range(5):
        slopes, wanted = rng.normal(size=(30, 12)), rng.normal(size=30)
        rival = lsq_linear(slopes, wanted, bounds=(-0.1, 0.2), tol=1e-12)
        rows = csr_matrix(np.vstack([np.eye(12), -np.eye(12)]))
        found = least_within(slopes.T @ slopes, -slopes.T @ wanted, rows, np.repeat([0.2, 0.1], 12))
        assert found == pytest.approx(rival.x, abs=1e-5)


def test_truing_an_edge_makes_its_line_the_one_that_counts():
    shifted = shift_lines(near_skirt(8, 3)).project
    assert any(edge.before_shift for edge in shifted.pieces[0].edges)
    trued = with_turned_edge(shifted, EdgeEnd("g0", "hem", True), 1.0)
    assert all(edge.before_shift is None for edge in trued.pieces[0].edges)
    assert paths(unshifted(trued)) == paths(trued)


@pytest.mark.parametrize(
    ("old", "words"),
    [
        ("M 0 0 L", "lacks numbers"),
        ("M 0 0 L nan 5", "lacks numbers"),
        ("M 0 0 L 1e308 5", "coordinate 1e308"),
        ("M 900 0 L 900 800", "off the path"),
    ],
)
def test_a_line_before_a_shift_is_checked(old, words):
    raw = json.loads(project_to_bytes(near_skirt(1, 3)))
    raw["pieces"][1]["edges"][1]["before_shift"] = old
    with pytest.raises(BadInput, match=words) as error:
        project_from_bytes(json.dumps(raw).encode())
    assert "'g1', edge 'r'" in str(error.value)
    assert "\n" not in str(error.value)


def test_a_stop_gives_a_sound_project():
    project = near_skirt(1, 3)
    seen = []
    result = shift_lines(project, progress=lambda share, note: seen.append(share) or share < 0.35)
    assert result.status == "stopped"
    written(result.project)
    assert seen == sorted(seen)
