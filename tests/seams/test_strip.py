"""A seam opened flat, against distances and areas measured by shapely."""

import numpy as np
import pytest
from shapely.geometry import LineString, Point, Polygon

from core.geometry.transform import placed
from core.model.project import Placement
from core.seams.garment import Garment
from core.seams.strip import edge_at, edge_points, opened_ring, strip_across
from core.seams.stripes import Across
from garments import ring


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.parametrize("side", ["a", "b"])
def test_depths_lead_square_from_the_edge_into_the_panel(seed, side):
    garment = Garment.of(ring(seed, 6, curved=True))
    for line in garment.seams[:3]:
        panel = garment.panels[line.panels[0 if side == "a" else 1]]
        edge, shape = LineString(line.a if side == "a" else line.b), Polygon(panel.net_ring)
        heights = np.linspace(60, line.length - 60, 12)
        points, inward = edge_at(line, side, heights)
        assert np.hypot(*inward.T) == pytest.approx(np.ones(12))
        for point, way in zip(points, inward, strict=True):
            assert edge.distance(Point(point)) < 1e-6
            for depth in (2.0, 10.0, 18.0):
                assert edge.distance(Point(point + depth * way)) == pytest.approx(depth, abs=0.05)
                assert shape.contains(Point(point + depth * way))


@pytest.mark.parametrize("side", ["a", "b"])
def test_the_strip_shows_what_lies_under_each_place_on_the_cloth(side):
    project = ring(8, 6, skew=15.0)
    garment = Garment.of(project)
    line, at, skew = garment.seams[2], Placement(u=310.0, v=44.0, turn_deg=0.4, turned=True), 0.015
    heights, depths = np.linspace(0, line.length, 9), np.array([0.0, 5.0, 25.0])
    w = strip_across(line, side, Across.of(at, project.cloths[0]), heights, depths)
    points, inward = edge_at(line, side, heights)
    for column, depth in enumerate(depths):
        u, v = placed(points + depth * inward, at.u, at.v, at.turn_deg, at.turned).T
        assert w[:, column] == pytest.approx(u - skew * v, abs=1e-9)


def test_the_edge_runs_straight_on_beyond_its_ends():
    line = Garment.of(ring(8, 6)).seams[0]
    points, _ = edge_at(line, "a", np.array([-30.0, -10.0, 0.0, line.length, line.length + 50.0]))
    assert np.hypot(*(points[0] - points[2])) == pytest.approx(30.0)
    assert np.hypot(*(points[4] - points[3])) == pytest.approx(50.0)
    assert points[2] == pytest.approx(line.a[0])
    assert points[3] == pytest.approx(edge_points(line, "a", np.array([line.length]))[0])


@pytest.mark.parametrize("seed", range(3))
@pytest.mark.parametrize("side", ["a", "b"])
def test_a_panel_with_straight_edges_is_only_laid_otherwise(seed, side):
    """Opened flat it keeps its area, and the sewn edge lies at depth 0 from height 0 to the seam's length."""
    garment = Garment.of(ring(seed, 6, curved=False))
    line = garment.seams[1]
    panel = garment.panels[line.panels[0 if side == "a" else 1]]
    opened = opened_ring(line, side, panel.net_ring)
    stretch = line.length / line.edge_lengths[0 if side == "a" else 1]
    inside = opened[:, 0] * np.array(1.0)
    between = (inside >= 0) & (inside <= line.length)
    opened[:, 0] = np.where(
        between, inside / stretch, inside + np.where(inside < 0, 0, line.length * (1 / stretch - 1))
    )
    assert Polygon(opened).area == pytest.approx(Polygon(panel.net_ring).area, rel=2e-3)
    on_edge = opened[np.abs(opened[:, 1]) < 1e-6, 0]
    assert on_edge.min() == pytest.approx(0.0, abs=1e-6)
    assert on_edge.max() == pytest.approx(line.edge_lengths[0 if side == "a" else 1], abs=1e-3)


@pytest.mark.parametrize("side", ["a", "b"])
def test_every_place_of_a_curved_panel_keeps_its_distance_from_the_edge(side):
    garment = Garment.of(ring(9, 6))
    line = garment.seams[4]
    panel = garment.panels[line.panels[0 if side == "a" else 1]]
    opened = opened_ring(line, side, panel.net_ring)
    edge = LineString(line.a if side == "a" else line.b)
    beside = (opened[:, 0] > 0.5) & (opened[:, 0] < line.length - 0.5)
    points, inward = edge_at(line, side, opened[beside, 0])
    there = points + opened[beside, 1][:, None] * inward
    outline = LineString(np.vstack([panel.net_ring, panel.net_ring[:1]]))
    away = [outline.distance(Point(point)) for point in there]
    assert max(away) < 0.6
    assert opened[:, 1].min() > -0.01
    assert edge.length == pytest.approx(line.length, rel=0.05)
