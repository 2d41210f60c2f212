"""From outlines to pieces: edges at the corners, names by position, grain down, allowances measured, scale."""

import itertools
import math

import numpy as np
import pytest
from shapely.geometry import LineString, Polygon

from core.draft.measures import USUAL_CLOTH
from core.errors import BadInput
from core.files.corners import edges_of
from core.files.outlines import Drawing, Outline
from core.files.pattern_in import drawing_in
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.files.to_pieces import Wishes, project_from
from core.geometry.beziers import line_through, reversed_segments
from core.geometry.paths import flatten, segments_of
from core.model.panel import panels_of

SHEET = '<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" viewBox="0 0 900 900">{}</svg>'
GORE = '<path id="front" d="M 260 0 Q 310 8 360 0 L 420 600 Q 310 630 200 600 Z"/>'


def wished(**wishes):
    return Wishes(cloth=USUAL_CLOTH, **wishes)


def came_in(body, **wishes):
    return project_from(drawing_in(SHEET.format(body).encode()), wished(**wishes))


def paths(piece):
    return {edge.name: edge.path for edge in piece.edges}


def ring(*points, **known):
    return Outline(line_through([*points, points[0]]), True, label="front", **known)


def one_piece(outline, **wishes):
    project, findings = project_from(Drawing((outline,)), wished(**wishes))
    return project.pieces[0], findings


def test_a_gore_is_split_at_its_corners_and_named_by_position():
    project, findings = came_in(GORE)
    assert paths(project.pieces[0]) == {
        "waist": "M -50 0 Q 0 8 50 0",
        "right": "M 50 0 L 110 600",
        "hem": "M 110 600 Q 0 630 -110 600",
        "left": "M -110 600 L -50 0",
    }
    assert findings == ()
    assert project_from_bytes(project_to_bytes(project)) == project


def test_an_outline_drawn_the_other_way_round_gives_the_same_piece():
    segments = segments_of("M -50 0 Q 0 8 50 0 L 110 600 Q 0 630 -110 600 L -50 0")
    there, _ = one_piece(Outline(segments, True))
    back, _ = one_piece(Outline(reversed_segments(segments), True))
    assert paths(there) == paths(back)


def test_every_sample_panel_comes_back_with_the_edges_it_had(harbour_skirt, pier_parasol):
    for piece in [*read_project(harbour_skirt).pieces, *read_project(pier_parasol).pieces]:
        segments = tuple(segment for edge in piece.edges for segment in segments_of(edge.path))
        found, _ = one_piece(Outline(segments, True))
        assert len(found.edges) == len(piece.edges)
        original, other = panels_of(piece)[0].net_ring, panels_of(found)[0].net_ring
        box = original.min(axis=0), original.max(axis=0)
        shift = np.array([(box[0][0] + box[1][0]) / 2, box[0][1]])
        assert Polygon(original - shift).exterior.hausdorff_distance(Polygon(other).exterior) < 0.01
        lengths = sorted(LineString(flatten(edge.path)).length for edge in piece.edges)
        assert sorted(LineString(flatten(edge.path)).length for edge in found.edges) == pytest.approx(lengths, abs=0.01)


def test_more_edges_on_a_side_are_numbered_from_the_top():
    piece, _ = one_piece(ring((0, 0), (100, 0), (110, 200), (310, 600), (-210, 600), (-10, 200)))
    assert [edge.name for edge in piece.edges] == ["waist", "right", "right 2", "hem", "left 2", "left"]


def test_a_corner_cut_off_by_less_than_a_millimetre_is_one_corner():
    edges = edges_of(line_through([(0, 0), (99.6, 0), (100, 0.4), (100, 300), (0, 300), (0, 0)]), 20)
    assert len(edges) == 4


def test_the_corner_angle_decides():
    lean = 300 * math.tan(math.radians(15))
    points = [(0, 0), (100, 0), (100, 300), (100 + lean, 600), (0, 600)]
    assert len(one_piece(ring(*points))[0].edges) == 4
    assert len(one_piece(ring(*points), corner_deg=10)[0].edges) == 5


def test_points_known_to_lie_on_a_curve_are_no_corners():
    points = [(0, 0), (100, 0), (140, 300), (100, 600), (0, 600)]
    assert len(one_piece(ring(*points), corner_deg=10)[0].edges) == 5
    assert len(one_piece(ring(*points, smooth=((140, 300),)), corner_deg=10)[0].edges) == 4


def test_a_round_outline_has_a_right_and_a_left_edge_of_one_length():
    project, _ = came_in('<circle cx="300" cy="300" r="200"/>')
    assert set(paths(project.pieces[0])) == {"right", "left"}
    for path in paths(project.pieces[0]).values():
        assert LineString(flatten(path)).length == pytest.approx(math.pi * 200, abs=0.05)


def test_edges_get_other_names_on_all_pieces_or_on_one():
    body = GORE + '<path id="back" d="M 560 0 L 660 0 L 720 600 L 500 600 Z"/>'
    project, _ = came_in(body, names={"waist": "crown", "back/left": "centre"})
    assert list(paths(project.pieces[0])) == ["crown", "right", "hem", "left"]
    assert list(paths(project.pieces[1])) == ["crown", "right", "hem", "centre"]
    with pytest.raises(BadInput, match="no edge 'side'"):
        came_in(body, names={"side": "centre"})


@pytest.mark.parametrize("angle", [-35, -10, 0, 25, 170])
def test_a_grain_line_is_turned_upright(angle):
    gore = ring((0, 0), (100, 0), (160, 600), (-60, 600), grain=((50, 100), (50, 500)))
    turn = np.array([[math.cos(t := math.radians(angle)), -math.sin(t), 7], [math.sin(t), math.cos(t), 9]])
    piece, _ = one_piece(gore.moved(turn))
    expected = Polygon([(-50, 0), (50, 0), (110, 600), (-110, 600)])
    flipped = Polygon([(-110, 0), (110, 0), (50, 600), (-50, 600)])
    shape = Polygon(panels_of(piece)[0].net_ring)
    assert shape.symmetric_difference(flipped if abs(angle) > 90 else expected).area < 0.5


def test_a_grain_line_that_lies_across_runs_down_from_its_first_point():
    gore = ring((0, 0), (100, 0), (160, 600), (-60, 600), grain=((50, 100), (50, 500)))
    quarter = np.array([[0.0, 1.0, 0.0], [-1.0, 0.0, 0.0]])
    piece, findings = one_piece(gore.moved(quarter))
    shape = Polygon(panels_of(piece)[0].net_ring)
    assert shape.symmetric_difference(Polygon([(-50, 0), (50, 0), (110, 600), (-110, 600)])).area < 0.5
    assert "lies across" in str(findings[0])
    upside_down, _ = one_piece(gore.moved(quarter), turn_deg=180)
    assert Polygon(panels_of(upside_down)[0].net_ring).symmetric_difference(shape).area > 1000


@pytest.mark.parametrize(("x", "drawn"), [(0, "left"), (100, "right")])
def test_a_mirror_line_along_a_straight_edge_is_the_fold(x, drawn):
    half = ring((0, 0), (100, 0), (100, 500), (0, 500), mirror=((x, 500), (x, 0)))
    piece, _ = one_piece(half, cut="pair")
    assert (piece.cut, piece.fold, piece.drawn) == ("fold", "fold", drawn)
    (panel,) = panels_of(piece)
    assert Polygon(panel.net_ring).area == pytest.approx(100_000)
    assert Polygon(panel.cut_ring).area == pytest.approx((200 + 25.4) * (500 + 25.4))


def test_a_mirror_line_that_runs_along_no_edge_is_said():
    piece, findings = one_piece(ring((0, 0), (100, 0), (100, 500), (0, 500), mirror=((50, 0), (50, 500))))
    assert piece.cut == "single"
    assert "mirror line" in str(findings[0])


def test_between_cutting_and_stitching_line_the_allowances_are_measured():
    net = Polygon([(0, 0), (100, 0), (160, 600), (-60, 600)])
    along = math.hypot(60, 600)
    widths = {"waist": 6.0, "right": 15.0, "hem": 40.0, "left": 10.0}
    corners = np.array(net.exterior.coords)
    cut = moved_outwards(corners, list(widths.values()))
    outline = ring(*cut, sew=line_through([tuple(point) for point in corners]))
    piece, findings = one_piece(outline)
    assert piece.outline_is == "net"
    assert {edge.name: edge.allowance for edge in piece.edges} == pytest.approx(widths, abs=0.01)
    assert findings == ()
    assert LineString(flatten(paths(piece)["right"])).length == pytest.approx(along, abs=0.001)
    stated, _ = one_piece(outline, allowances={"hem": 25.0})
    assert stated.edges[2].allowance == 25.0


def moved_outwards(corners, widths):
    """Corners of a clockwise outline (y down) with each straight side moved outwards, by cutting lines with lines."""
    lines = []
    for (a, b), width in zip(itertools.pairwise(corners), widths, strict=True):
        normal = np.array([(b - a)[1], -(b - a)[0]]) / np.hypot(*(b - a))
        lines.append((a + normal * width, b - a))
    found = []
    for (p, d), (q, e) in zip(lines[-1:] + lines[:-1], lines, strict=True):
        s = np.linalg.solve(np.array([d, -e]).T, q - p)[0]
        found.append(tuple(p + s * d))
    return found


def test_an_uneven_distance_between_the_lines_is_said():
    outline = ring(
        (-20, -10),
        (120, -10),
        (110, 510),
        (-20, 510),
        sew=line_through([(0, 0), (100, 0), (100, 500), (0, 500), (0, 0)]),
    )
    piece, findings = one_piece(outline)
    assert piece.edges[1].allowance == pytest.approx(15, abs=0.3)
    assert "varies from" in str(findings[0])


def test_a_cutting_line_keeps_its_shape_and_its_allowance():
    project, _ = came_in(GORE, outline_is="cut", allowance=10.0, allowances={"hem": 30.0})
    (panel,) = panels_of(project.pieces[0])
    assert {edge.allowance for edge in project.pieces[0].edges} == {10.0, 30.0}
    assert Polygon(panel.cut_ring).contains(Polygon(panel.net_ring))
    with pytest.raises(BadInput, match="no edge is called 'side'"):
        came_in(GORE, allowances={"side": 30.0})


def test_notches_lie_where_they_were_marked():
    piece, _ = one_piece(ring((0, 0), (100, 0), (160, 600), (-60, 600), notches=((112, 120), (50, 0), (-12, 120.0))))
    assert [(notch.edge, notch.at) for notch in piece.notches] == [
        ("right", pytest.approx(120 * math.hypot(1, 0.1), abs=0.01)),
        ("waist", pytest.approx(50, abs=0.01)),
        ("left", pytest.approx(480 * math.hypot(1, 0.1), abs=0.01)),
    ]
    _, findings = one_piece(ring((0, 0), (100, 0), (160, 600), (-60, 600), notches=((50, 300),)))
    assert "notch" in str(findings[0])


def test_outermost_outlines_that_are_large_enough_are_pieces_and_the_rest_is_said():
    body = (
        f'<rect width="900" height="900"/>{GORE}<path d="M 300 100 h 60 v 70 h -60 z"/>'
        '<path d="M 5 5 h 9 v 9 l -9 0.5 z"/>'
        f"{GORE}<path d='M 700 10 v 400'/><rect id='pocket' x='500' y='100' width='150' height='180'/>"
    )
    project, findings = came_in(body)
    assert [piece.id for piece in project.pieces] == ["front", "pocket"]
    told = " ".join(map(str, findings))
    for words in (
        "smaller than 2000",
        "as large as the sheet",
        "drawn twice",
        "inside others",
        "1 line that encloses nothing",
    ):
        assert words in told


def test_outlines_are_chosen_by_name_in_the_order_named():
    body = (
        GORE
        + '<rect id="pocket" x="500" y="100" width="150" height="180"/><rect x="700" y="10" width="80" height="90"/>'
    )
    assert [piece.id for piece in came_in(body)[0].pieces] == ["front", "pocket", "piece-3"]
    assert [piece.id for piece in came_in(body, only=("piece-3", "Front"))[0].pieces] == ["piece-3", "front"]
    with pytest.raises(
        BadInput, match="no outline is called 'sleeve'; those to choose from are front, pocket, piece 3"
    ):
        came_in(body, only=("sleeve",))


def test_the_scale_is_a_factor_or_comes_from_the_check_square():
    square = '<rect x="700" y="10" width="48.5" height="48.5"/>'
    as_drawn, findings = came_in(GORE + square)
    assert "a square of 48.50 mm is on the sheet" in str(findings[0])
    scaled, _ = came_in(GORE + square, square_mm=50.0)
    twice, _ = came_in(GORE, scale=2.0)
    height = {
        name: float(np.ptp(panels_of(p.pieces[0])[0].net_ring[:, 1]))
        for name, p in (("drawn", as_drawn), ("scaled", scaled), ("twice", twice))
    }
    assert height["scaled"] == pytest.approx(height["drawn"] * 50 / 48.5, abs=0.01)
    assert height["twice"] == pytest.approx(2 * height["drawn"], abs=0.01)
    with pytest.raises(BadInput, match="no check square"):
        came_in(GORE, square_mm=50.0)


def test_pieces_of_one_name_are_numbered_and_sides_in_a_name_are_no_sides():
    body = "".join(
        f'<rect x="{x}" y="0" width="100" height="300"><title>{name}</title></rect>'
        for x, name in ((0, "Gore"), (150, "Gore"), (300, "Front/side.R"), (450, "!?"))
    )
    assert [piece.id for piece in came_in(body)[0].pieces] == ["gore-1", "gore-2", "front-side-r", "piece"]


def test_what_crosses_itself_or_is_open_is_refused_by_name():
    with pytest.raises(BadInput, match="'bow' crosses itself"):
        came_in('<path id="bow" d="M 0 0 L 300 300 L 300 0 L 0 300 Z"/>')
    with pytest.raises(BadInput, match=r"ends 5\.0 mm from there, at \(0\.0, 5\.0\)"):
        came_in('<path id="gap" d="M 0 0 L 300 0 L 300 300 L 0 300 L 0 5"/>')


def test_seams_of_a_ring_come_with_the_pieces():
    body = "".join(f'<path d="M {x} 0 h 60 l 40 500 h -140 z"/>' for x in (100, 300, 500))
    project, _ = came_in(body, ring=True)
    assert {(seam.a, seam.b) for seam in project.seams} == {
        ("piece-1/right", "piece-2/left"),
        ("piece-2/right", "piece-3/left"),
        ("piece-3/right", "piece-1/left"),
    }
