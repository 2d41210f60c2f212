"""Layers against areas that shapely works out another way, and against published figures."""

import msgspec
import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon

from core.derive.cutting import cut_project, derived_pieces
from core.derive.layers import layer_piece
from core.errors import BadInput
from core.geometry.paths import path_of
from core.geometry.polyline import length
from core.model.panel import net_and_cut, panels_of
from core.model.pattern import Edge, Notch, Piece
from core.model.project import Layer
from skirts import ALL, full_skirt, plain_skirt

INCH = 25.4


def drawn(corners: list[tuple[float, float]], names: list[str], **keys: object) -> Piece:
    ends = corners[1:] + corners[:1]
    edges = tuple(
        Edge(name=name, path=f"M {a[0]!r} {a[1]!r} L {b[0]!r} {b[1]!r}", allowance=15)
        for name, a, b in zip(names, corners, ends, strict=True)
    )
    return Piece(id="gore", cloth="main", edges=edges, **keys)


def trapezoid(top: float, hem: float, long: float, **keys: object) -> Piece:
    corners = [(-top / 2, 0.0), (top / 2, 0.0), (hem / 2, long), (-hem / 2, long)]
    return drawn(corners, ["waist", "right", "hem", "left"], **keys)


def facing(depth: float, edge: str = "hem", **keys: object) -> Layer:
    return Layer(kind="hem facing", of=("gore",), cloth="main", edge=edge, depth=depth, **keys)


def net_of(piece: Piece) -> dict[str, np.ndarray]:
    return net_and_cut(piece)[0]


def shape(piece: Piece) -> Polygon:
    return Polygon(np.concatenate([line[:-1] for line in net_of(piece).values()]))


def within(piece: Piece, edge: str, depth: float) -> Polygon:
    """The part of a piece that lies no farther than a depth from an edge carried on straight at both ends."""
    line = net_of(piece)[edge]
    first, last = line[0] - line[1], line[-1] - line[-2]
    far = [line[:1] + 300 * first / np.hypot(*first), line, line[-1:] + 300 * last / np.hypot(*last)]
    return shape(piece).intersection(LineString(np.vstack(far)).buffer(depth, quad_segs=256))


@pytest.mark.parametrize("of", ALL)
@pytest.mark.parametrize(("edge", "depth"), [("hem", 200.0), ("hem", 25.0), ("waist", 180.0)])
def test_a_facing_or_lining_is_what_lies_within_its_depth_of_the_edge(of, edge, depth):
    piece = next(piece for piece in plain_skirt().pieces if piece.id == of)
    band, expected = shape(layer_piece(facing(depth, edge), piece)), within(piece, edge, depth)
    assert band.area == pytest.approx(expected.area, rel=1e-4)
    assert band.exterior.hausdorff_distance(expected.exterior) < 0.05


def test_the_inner_edge_runs_parallel_to_the_edge_it_follows():
    piece = plain_skirt().pieces[0]
    net = net_of(layer_piece(facing(200, "hem"), piece))
    hem = LineString(net["hem"])
    assert [hem.distance(Point(p)) for p in net["inner edge"][1:-1]] == pytest.approx(
        [200.0] * (len(net["inner edge"]) - 2), abs=0.01
    )


def test_a_shaped_facing_follows_a_gore_that_narrows_upwards():
    """Bennett 1914: a side gore 8 in at the hip, 17 1/2 in at the hem, 31 in from hip to hem. Two inches up, the hem is
    3.63 % wider than the gore: a turned hem has that much too much cloth, a shaped facing none."""
    gore = trapezoid(8 * INCH, 17.5 * INCH, 31 * INCH)
    net = net_of(layer_piece(facing(2 * INCH), gore))
    assert 100 * (length(net["hem"]) / length(net["inner edge"]) - 1) == pytest.approx(3.63, abs=0.005)
    assert length(net["inner edge"]) / INCH == pytest.approx(17.5 - 2 * 9.5 / 31)


def test_sides_keep_their_allowance_and_the_loose_edge_has_none_unless_told():
    gore = trapezoid(200, 400, 800)
    allowances = {edge.name: edge.allowance for edge in layer_piece(facing(100), gore).edges}
    assert allowances == {"hem": 15, "left": 15, "inner edge": 0, "right": 15}
    turned_in = layer_piece(facing(100, inner_allowance=8, allowance=10), gore)
    assert {edge.name: edge.allowance for edge in turned_in.edges} == {
        "hem": 10,
        "left": 10,
        "inner edge": 8,
        "right": 10,
    }
    net, cut = (shape(turned_in), Polygon(panels_of(turned_in)[0].cut_ring))
    low, high = net.bounds[1] - cut.bounds[1], cut.bounds[3] - net.bounds[3]
    assert (low, high) == (pytest.approx(8), pytest.approx(10))


def test_facing_of_a_pair_is_a_pair_and_mirrored_as_it_is():
    piece = layer_piece(facing(100), trapezoid(200, 400, 800, cut="pair"))
    right, left = panels_of(piece)
    assert (right.name, left.name) == ("gore hem facing.R", "gore hem facing.L")
    assert Polygon(right.net_ring * [-1, 1]).equals(Polygon(left.net_ring))


def test_facing_of_a_piece_on_the_fold_lies_on_the_fold():
    half = drawn([(0, 0), (60, 0), (150, 700), (0, 720)], ["waist", "side", "hem", "centre"], cut="fold", fold="centre")
    piece = layer_piece(facing(90), half)
    assert (piece.cut, piece.fold) == ("fold", "centre")
    (panel,) = panels_of(piece)
    whole = shape(piece).union(Polygon(net_ring_mirrored(piece)))
    assert Polygon(panel.net_ring).area == pytest.approx(whole.area)


def net_ring_mirrored(piece: Piece) -> np.ndarray:
    return np.concatenate([line[:-1] for line in net_of(piece).values()]) * [-1, 1]


def test_a_band_along_an_edge_away_from_the_fold_is_refused():
    half = drawn([(0, 0), (60, 0), (150, 700), (0, 720)], ["waist", "side", "hem", "centre"], cut="fold", fold="centre")
    with pytest.raises(BadInput, match="does not meet the fold"):
        layer_piece(facing(30, "side"), half)


def test_a_band_runs_past_short_sides_on_to_the_next_edges():
    gore = drawn(
        [(-50, 0), (50, 0), (90, 500), (90, 540), (-90, 540), (-90, 500)],
        ["waist", "right", "right foot", "hem", "left foot", "left"],
    )
    piece = layer_piece(facing(100), gore)
    assert [edge.name for edge in piece.edges] == ["hem", "left foot", "left", "inner edge", "right", "right foot"]
    assert shape(piece).area == pytest.approx(within(gore, "hem", 100).area)


def test_a_depth_that_reaches_through_the_piece_is_refused():
    with pytest.raises(BadInput, match=r"layer 'hem facing' of piece 'gore': its depth reaches through"):
        layer_piece(facing(900), trapezoid(200, 400, 800))


def test_notches_within_the_band_stay_where_they_are():
    gore = trapezoid(
        200, 400, 800, notches=(Notch(edge="right", at=100), Notch(edge="right", at=750), Notch(edge="hem", at=180))
    )
    band = layer_piece(facing(100), gore)
    there = {tuple(np.round(mark.point, 4)) for mark in panels_of(gore)[0].notches}
    kept = {tuple(np.round(mark.point, 4)) for mark in panels_of(band)[0].notches}
    assert len(kept) == 2
    assert kept < there


def test_interlining_is_a_copy_from_another_cloth():
    project = full_skirt()
    for piece, copy in zip(project.pieces, derived_pieces(project)[:5], strict=True):
        assert copy.cloth == "muslin"
        assert [
            np.array_equal(a.cut_ring, b.cut_ring) for a, b in zip(panels_of(piece), panels_of(copy), strict=True)
        ] == [True, True]


def test_interlining_can_have_its_own_allowance():
    piece = plain_skirt().pieces[0]
    copy = layer_piece(Layer(kind="interlining", of=("front",), cloth="x", allowance=0.0), piece)
    assert shape(copy).symmetric_difference(shape(piece)).area < 0.01
    assert Polygon(panels_of(copy)[0].cut_ring).area == pytest.approx(shape(piece).area, abs=0.01)


def test_a_piece_given_at_its_cutting_line_has_the_same_facing():
    piece = plain_skirt().pieces[0]
    cut = net_and_cut(piece)[1]
    edges = tuple(msgspec.structs.replace(edge, path=path_of(cut[edge.name], 6)) for edge in piece.edges)
    given = msgspec.structs.replace(piece, edges=edges, outline_is="cut")
    one, other = shape(layer_piece(facing(200), piece)), shape(layer_piece(facing(200), given))
    assert one.exterior.hausdorff_distance(other.exterior) < 0.05


def test_derived_pieces_follow_when_the_pattern_changes():
    gore = trapezoid(200, 400, 800)
    longer = trapezoid(200, 400, 850)
    low = shape(layer_piece(facing(100), longer)).bounds[3] - shape(layer_piece(facing(100), gore)).bounds[3]
    assert low == pytest.approx(50)


def test_the_cut_project_names_the_panels_that_the_model_foresees():
    project = full_skirt()
    whole = cut_project(project)
    assert whole.panel_names == (*project.panel_names, *project.derived_panel_names)
    assert whole.derived_panel_names == ()
    assert len(whole.panel_names) == 50
