"""Pocket bags against the seam they are sewn to."""

import numpy as np
import pytest
import svgpathtools
from shapely.geometry import LineString, Point, Polygon

from core.derive.pocket import pocket_bag
from core.errors import BadInput
from core.model.panel import net_and_cut, panels_of
from skirts import plain_skirt

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
