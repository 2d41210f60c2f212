"""The same skirt given at its stitching line and at its cutting line."""

import msgspec
import numpy as np
import pytest
from shapely.geometry import LineString, Point

from conftest import SAMPLES
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes, read_project
from core.geometry.paths import path_of
from core.matching.solve import match
from core.model.panel import net_and_cut, panels_of
from core.model.pattern import Edge, Notch, Piece
from core.model.project import Project
from core.seams.readings import measure


def at_cut_line(piece: Piece) -> Piece:
    _, cut = net_and_cut(piece)
    edges = tuple(msgspec.structs.replace(edge, path=path_of(cut[edge.name], 6)) for edge in piece.edges)
    return msgspec.structs.replace(piece, edges=edges, outline_is="cut", notches=())


def given_at_cut_line(project: Project) -> Project:
    pieces = tuple(at_cut_line(piece) for piece in project.pieces)
    return project_from_bytes(project_to_bytes(msgspec.structs.replace(project, pieces=pieces)))


@pytest.fixture(scope="module")
def matched() -> Project:
    return match(read_project(SAMPLES / "harbour-skirt.stripewright")).project


def test_a_skirt_given_at_its_cutting_line_has_the_steps_of_its_stitching_line(matched):
    as_net, as_cut = measure(matched), measure(given_at_cut_line(matched))
    assert len(as_net.read) >= 9
    for net, cut in zip(as_net.read, as_cut.read, strict=True):
        steps = np.array([[reading.step_mm for reading in found.readings(None)] for found in (net, cut)])
        assert np.abs(steps[0] - steps[1]).max() < 0.05
        assert cut.rms_mm == pytest.approx(net.rms_mm, abs=0.05)
        assert cut.worst[0] == pytest.approx(net.worst[0], abs=0.05)
    assert as_cut.rms_mm == pytest.approx(as_net.rms_mm, abs=0.01)


def test_the_stitching_line_comes_back_within_a_twentieth_of_a_millimetre(matched):
    for piece in matched.pieces:
        for panel, again in zip(panels_of(piece), panels_of(at_cut_line(piece)), strict=True):
            for name, line in panel.net.items():
                assert np.abs(line[[0, -1]] - again.net[name][[0, -1]]).max() < 0.05


def test_a_notch_on_a_cutting_line_is_carried_square_to_the_stitching_line(matched):
    piece = at_cut_line(matched.pieces[0])
    notched = msgspec.structs.replace(piece, notches=(Notch(edge="back", at=300.0),))
    mark = panels_of(notched)[0].notches[0]
    cut = LineString(net_and_cut(notched)[1]["back"])
    allowance = next(edge.allowance for edge in piece.edges if edge.name == "back")
    reached = Point(mark.point + allowance * mark.out)
    assert cut.distance(reached) < 0.02
    assert cut.project(reached) == pytest.approx(300.0, abs=0.05)


def test_an_allowance_without_room_names_piece_and_edge(matched):
    piece = matched.pieces[0]
    greedy = msgspec.structs.replace(
        piece,
        outline_is="cut",
        edges=tuple(msgspec.structs.replace(edge, allowance=200.0) for edge in piece.edges),
    )
    with pytest.raises(BadInput, match="piece 'front'"):
        panels_of(greedy)


def test_an_edge_without_a_length_is_refused_by_name(matched):
    piece = matched.pieces[0]
    corner = piece.edges[0].path.split()[-2:]
    nothing = Edge(name="nothing", path=f"M {' '.join(corner)} L {' '.join(corner)}", allowance=5)
    with pytest.raises(BadInput, match="edge 'nothing': it has no length"):
        panels_of(msgspec.structs.replace(piece, edges=(piece.edges[0], nothing, *piece.edges[1:])))
