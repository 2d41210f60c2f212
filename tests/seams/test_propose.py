"""A ring of gores proposed as a whole sews the edges that a maker would sew."""

import numpy as np
import pytest

from core.draft.measures import USUAL_CLOTH
from core.errors import BadInput
from core.files.project_file import read_project
from core.model.pattern import Edge, Piece, sewn_seams
from core.model.project import Project
from core.model.validate import validate
from core.seams.order import rows_as_worn
from core.seams.propose import propose_ring
from core.seams.sides import sides_of


def sewn(seams):
    return {(seam.a, seam.b) for seam in sewn_seams(seams)}


def gore(name, cut="single", **more):
    edges = ("M -40 0 L 40 0", "M 40 0 L 90 500", "M 90 500 L -80 500", "M -80 500 L -40 0")
    names = ("waist", "right", "hem", "left")
    drawn = tuple(Edge(name=edge, path=path) for edge, path in zip(names, edges, strict=True))
    return Piece(id=name, cloth="main", edges=drawn, cut=cut, **more)


def proposed(*pieces):
    project = Project(cloths=(USUAL_CLOTH,), pieces=pieces)
    seams = propose_ring(project)
    whole = Project(cloths=(USUAL_CLOTH,), pieces=pieces, seams=seams)
    validate(whole)
    return whole


def test_single_gores_are_sewn_as_the_sample_parasol_is(pier_parasol):
    project = read_project(pier_parasol)
    assert sewn(propose_ring(project)) == {(seam.a, seam.b) for seam in project.sewn}


def test_pairs_are_sewn_as_the_sample_skirt_is(harbour_skirt):
    project = read_project(harbour_skirt)
    assert sewn(propose_ring(project)) == {(seam.a, seam.b) for seam in project.sewn}
    names = [seam.name for seam in propose_ring(project)]
    assert (names[0], names[-1]) == ("centre front", "centre back")


def test_pairs_drawn_as_the_left_one_have_their_centre_on_the_other_side():
    assert sewn(proposed(gore("front", "pair", drawn="left")).seams) == {
        ("front.R/left", "front.L/left"),
        ("front.L/right", "front.R/right"),
    }


def test_a_front_on_the_fold_and_a_single_back_close_a_ring_of_pairs():
    half = Piece(
        id="front",
        cloth="main",
        cut="fold",
        fold="fold",
        edges=(
            Edge(name="waist", path="M -40 0 L 0 0"),
            Edge(name="fold", path="M 0 0 L 0 500"),
            Edge(name="hem", path="M 0 500 L -80 500"),
            Edge(name="side", path="M -80 500 L -40 0"),
        ),
    )
    project = proposed(half, gore("side", "pair"), gore("back"))
    assert {(seam.a, seam.b) for seam in project.sewn} == {
        ("side.R/right", "front/side.R"),
        ("front/side.L", "side.L/right"),
        ("side.L/left", "back/left"),
        ("back/right", "side.R/left"),
    }
    rows = rows_as_worn(project)
    assert sorted(name for row in rows for name in row.panels) == ["back", "front", "side.L", "side.R"]


def test_a_single_gore_between_pairs_is_refused():
    with pytest.raises(BadInput, match="'side'"):
        propose_ring(Project(cloths=(USUAL_CLOTH,), pieces=(gore("front", "pair"), gore("side"), gore("back", "pair"))))


def test_of_more_edges_on_a_side_those_of_nearest_length_are_sewn():
    stepped = Piece(
        id="stepped",
        cloth="main",
        edges=(
            Edge(name="top", path="M -40 0 L 40 0"),
            Edge(name="short", path="M 40 0 L 40 100"),
            Edge(name="long", path="M 40 100 L 140 490"),
            Edge(name="hem", path="M 140 490 L -80 500"),
            Edge(name="left", path="M -80 500 L -40 0"),
        ),
    )
    assert ("stepped/long", "plain/left") in sewn(proposed(stepped, gore("plain")).seams)


@pytest.mark.parametrize(
    ("corners", "sides"),
    [
        ([(-50, 0), (50, 0), (90, 500), (-90, 500)], "top right hem left"),
        ([(0, 0), (90, 500), (-90, 500)], "right hem left"),
        ([(-50, 0), (50, 0), (0, 500)], "top right left"),
        ([(-50, 0), (50, 0), (60, 200), (160, 500), (-90, 500)], "top right right hem left"),
        ([(-50, 0), (0, 10), (50, 0), (90, 500), (0, 540), (-90, 500)], "top top right hem hem left"),
        ([(-100, 0), (100, 0), (600, 20), (-600, 20)], "top right hem left"),
    ],
)
def test_edges_lie_on_the_side_on_which_one_sees_them(corners, sides):
    ring = np.array([*corners, corners[0]], dtype=float)
    assert sides_of([ring[n : n + 2] for n in range(len(corners))]) == tuple(sides.split())


def test_the_sides_of_half_a_circle_run_level():
    around = np.linspace(0, np.pi, 60)
    waist = 100 * np.stack([-np.cos(around), np.sin(around)], axis=1)
    hem = 700 * np.stack([np.cos(around), np.sin(around)], axis=1)
    level = [np.array([[100.0, 0.0], [700.0, 0.0]]), np.array([[-700.0, 0.0], [-100.0, 0.0]])]
    assert sides_of([waist, level[0], hem, level[1]]) == ("top", "right", "hem", "left")
