"""Pocket bags against the seam they are sewn to."""

import msgspec
import numpy as np
import pytest
import svgpathtools
from shapely.geometry import LineString, Point, Polygon

from core.derive.count import cut_pieces, cutting_list
from core.derive.cutting import cut_project
from core.derive.findings import find_odd
from core.derive.pocket import pocket_bag, pocket_pieces
from core.errors import BadInput
from core.files.project_file import project_from_bytes, project_to_bytes
from core.model.panel import net_and_cut, panels_of
from core.model.pattern import edge_of, panel_of
from skirts import POCKETS, changed, full_skirt, plain_skirt

SIDE = next(piece for piece in plain_skirt().pieces if piece.id == "side")


def bag(edge: str = "front", opening: tuple[float, float] = (60.0, 220.0)):
    return pocket_bag(SIDE, edge, opening, "sateen", width=150.0, depth=120.0, allowance=10.0)


def test_the_mouth_is_marked_at_its_length_on_the_seam_side():
    side = svgpathtools.parse_path(bag().edges[0].path)
    first, second = bag().notches
    assert second.at - first.at == pytest.approx(160)
    assert (first.at, side.length() - second.at) == (pytest.approx(20, abs=0.01), pytest.approx(20, abs=0.01))


def test_the_seam_side_lies_on_the_stitching_line_of_the_panel():
    line = LineString(net_and_cut(SIDE)[0]["front"])
    marks = [mark.point for mark in panels_of(bag())[0].notches]
    assert all(line.distance(Point(point)) < 1e-3 for point in net_and_cut(bag())[0]["seam side"])
    assert [line.project(Point(point)) for point in marks] == pytest.approx([60, 220], abs=0.01)


def test_the_bag_hangs_as_deep_and_wide_as_asked_and_lies_within_the_panel_s_side_of_the_seam():
    net = net_and_cut(bag())[0]
    shape = Polygon(np.concatenate([line[:-1] for line in net.values()]))
    side = net["seam side"]
    assert shape.is_valid
    assert shape.bounds[3] - side[-1, 1] == pytest.approx(120, abs=0.01)
    assert side[:, 0].min() - shape.bounds[0] == pytest.approx(150, abs=0.01)


def test_bags_of_both_edges_of_a_panel_are_drawn_with_the_seam_to_the_right():
    assert [panel.name for panel in panels_of(bag("back"))] == ["side pocket bag.R", "side pocket bag.L"]
    assert np.all(np.diff(net_and_cut(bag("back"))[0]["seam side"][:, 1]) > 0)


@pytest.mark.parametrize("opening", [(-5.0, 100.0), (100.0, 50.0), (700.0, 1200.0)])
def test_a_mouth_off_the_edge_is_refused(opening):
    with pytest.raises(BadInput, match="its mouth goes from"):
        bag(opening=opening)


def pocketed(**keys: object):
    """The full skirt with its pocket changed."""
    return changed(full_skirt(), pockets=(msgspec.structs.replace(POCKETS[0], **keys),))


SEAM = POCKETS[0].seam


def side_seam(project):
    return next(seam for seam in project.seams if seam.name == SEAM)


def test_a_pocket_of_the_file_is_the_bag_along_its_seam():
    project = pocketed(name="Side pocket")
    bags = pocket_pieces(project.pockets[0], project)
    ref = side_seam(project).a
    drawn = pocket_bag(project.piece_of(panel_of(ref)), edge_of(ref), (60.0, 220.0), "sateen", 150.0, 120.0, 10.0)
    assert [bag.id for bag in bags] == ["pocket 1", "pocket 2"]
    assert all(bag.edges == drawn.edges and bag.notches == drawn.notches for bag in bags)
    assert project_from_bytes(project_to_bytes(project)) == project


def test_bags_are_two_for_each_seam_as_sewn_or_as_many_as_asked():
    rows = {row.name: row for row in cutting_list(full_skirt()).pieces}
    assert (rows["pocket, pocket bag"].number, rows["pocket, pocket bag"].mirrored) == (4, True)
    assert cutting_list(pocketed(number=2)).count == 50 - 2
    assert len(cut_project(pocketed(number=8)).panel_names) == 50 + 4


def test_a_mouth_and_the_open_stretch_of_its_seam_must_agree():
    (finding,) = find_odd(pocketed(opening=(60.0, 200.0)))
    assert str(finding) == (
        "pocket 'pocket': its mouth goes from 60.0 to 200.0 mm, seam 'side to side back' is open from 60.0 to "
        "220.0 mm; leave the seam open from 60.0 to 200.0 mm"
    )
    sewn = tuple(msgspec.structs.replace(seam, open=None) for seam in full_skirt().seams)
    (finding,) = find_odd(changed(full_skirt(), seams=sewn))
    assert "is sewn all along" in str(finding)


@pytest.mark.parametrize(
    ("keys", "told"),
    [
        ({"seam": "nowhere"}, "no seam 'nowhere'"),
        ({"opening": (220.0, 60.0)}, "opening is"),
        ({"number": 3}, "an even number"),
        ({"depth": 0.0}, "depth is 0"),
        ({"cloth": "felt"}, "cloth 'felt' is not there"),
        ({"id": "belt"}, "stands 2 times"),
        ({"width": 1e308}, "width is 1e\\+308"),
    ],
)
def test_pockets_that_make_no_sense_are_refused(keys, told):
    with pytest.raises(BadInput, match=told):
        pocketed(**keys)


def test_a_mouth_that_runs_off_its_seam_is_a_finding():
    project = pocketed(opening=(60.0, 5000.0))
    with pytest.raises(BadInput, match="pocket 'pocket': its mouth goes from 60 to 5000 mm"):
        cut_project(project)
    assert any("its mouth goes from 60 to 5000 mm; from 0 to" in str(finding) for finding in find_odd(project))
    assert cut_pieces(project)[-4].name == "pocket, pocket bag"
