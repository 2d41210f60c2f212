"""The drawing list, and drawings of cloth and panels, against shapely."""

import math

import numpy as np
import pytest
from shapely import union_all
from shapely.affinity import affine_transform
from shapely.geometry import LineString, Point, Polygon, box

from core.model.project import Project
from core.papers.cloth_drawing import cloth_drawing, lead_lines, panel_drawing
from core.papers.drawing import Area, Box, Drawing, Line, Spot, Text, segment
from core.papers.figures import Figures, figures_of
from core.papers.pens import PENS, light_tint
from core.seams.readings import measure

TENTH_MM = 0.1


@pytest.fixture(scope="module")
def figures(laid: Project) -> Figures:
    return figures_of(laid, measure(laid))


def test_a_drawing_to_scale_keeps_sizes_of_lettering_and_dots() -> None:
    drawing = Drawing((segment((10, 20), (30, 60), "grain"), Text((10, 20), "a", 3.0), Spot((30, 60), "mark", 0.7)))
    small = drawing.to_scale(0.1, origin=(10, 20), onto=(100, 100))
    line, text, spot = small.parts
    assert isinstance(line, Line)
    assert np.allclose(line.points, [[100, 100], [102, 104]])
    assert isinstance(text, Text)
    assert isinstance(spot, Spot)
    assert (text.at, text.size, spot.at, spot.radius) == ((100, 100), 3.0, (102, 104), 0.7)


def test_a_window_cuts_lines_and_areas_at_its_sides() -> None:
    ring = np.array([[0, 0], [40, 0], [40, 30], [0, 30]], dtype=float)
    drawing = Drawing((Line(ring, "cut line", closed=True), Area(ring, "ground", "#ffffff"), Text((50, 5), "out", 3.0)))
    seen = drawing.within(Box(10, -5, 25, 60))
    lines = [LineString(part.points) for part in seen.parts if isinstance(part, Line)]
    areas = [Polygon(part.points) for part in seen.parts if isinstance(part, Area)]
    assert sum(line.length for line in lines) == pytest.approx(30)
    assert [area.bounds for area in areas] == [(10, 0, 25, 30)]
    assert not any(isinstance(part, Text) for part in seen.parts)


def test_an_arrow_whose_head_is_out_of_sight_loses_it() -> None:
    arrow = Drawing((segment((0, 0), (0, 100), "grain", arrow=True),))
    heads = [
        part.arrow for y in (0, 50) for part in arrow.within(Box(-1, y, 1, y + 50)).parts if isinstance(part, Line)
    ]
    assert heads == [False, True]


def test_drawn_lines_lie_on_the_model_within_a_tenth(laid: Project, figures: Figures) -> None:
    for panel in figures.panels:
        at = laid.placement(panel.name)
        t = math.radians(at.turn_deg + (180 if at.turned else 0))
        matrix = [math.cos(t), -math.sin(t), math.sin(t), math.cos(t), at.u, at.v]
        drawing = panel_drawing(panel)
        for role, edges in (("cut line", panel.panel.cut), ("net line", panel.panel.net)):
            (drawn,) = drawing.of(role).parts  # type: ignore[arg-type]
            assert isinstance(drawn, Line)
            model = union_all([affine_transform(LineString(edge), matrix) for edge in edges.values()])
            assert LineString([*drawn.points, drawn.points[0]]).hausdorff_distance(model) < TENTH_MM


def test_notches_start_on_the_stitching_line_and_point_out_of_the_panel(figures: Figures) -> None:
    for panel in figures.panels:
        net = Polygon(panel.net_ring)
        notches = panel_drawing(panel).of("notch").parts
        assert len(notches) == len(panel.panel.notches)
        for notch in notches:
            assert isinstance(notch, Line)
            assert net.exterior.distance(Point(notch.points[0])) < 0.01
            assert not net.contains(Point(notch.points[1]))


def test_stripes_are_drawn_where_the_cloth_has_them(figures: Figures) -> None:
    rng = np.random.default_rng(7)
    for entry in (entry for entry in figures.cloths if entry.cloth.repeat):
        cloth, repeat = entry.cloth, entry.cloth.repeat
        assert repeat is not None
        window = Box(200, 100, 500, 700)
        areas = [(Polygon(p.points), p.colour) for p in cloth_drawing(cloth, window).parts if isinstance(p, Area)]
        for u, v in rng.uniform((201, 101), (499, 699), (200, 2)):
            shown = [colour for shape, colour in areas if shape.covers(Point(u, v))][-1]
            kind = repeat.kind_at((u - cloth.skew * v - repeat.origin) % repeat.width)
            colour = repeat.ground if kind < 0 else repeat.kinds[kind][0].colour
            assert shown == (
                "#ffffff" if any(box(*flaw).covers(Point(u, v)) for flaw in cloth.flaws) else light_tint(colour)
            )


def test_lead_lines_run_down_the_middle_of_lead_stripes(figures: Figures) -> None:
    for entry in (entry for entry in figures.cloths if entry.cloth.repeat):
        cloth, repeat = entry.cloth, entry.cloth.repeat
        assert repeat is not None
        lines = lead_lines(cloth, Box(-50, -20, 400, 600)).parts
        assert len(lines) >= 3
        for line in lines:
            assert isinstance(line, Line)
            w = line.points[:, 0] - cloth.skew * line.points[:, 1]
            assert np.allclose(
                (w - repeat.origin - repeat.lead_stripe.at + repeat.width / 2) % repeat.width, repeat.width / 2
            )
            assert line.points[:, 1].min() >= 0


def test_a_repeat_too_fine_for_the_scale_is_left_out(many_gores: Project) -> None:
    cloth = many_gores.cloths[0]
    window = Box(0, 0, 300, 300)
    assert cloth_drawing(cloth, window, finest=17.9).of("stripe").parts
    assert not cloth_drawing(cloth, window, finest=18.1).of("stripe").parts


def test_lines_that_matter_differ_without_colour() -> None:
    looks = {
        role: (pen.width, pen.dashes) for role, pen in PENS.items() if role in ("cut line", "net line", "lead stripe")
    }
    steps = {role: (pen.width, pen.dashes) for role, pen in PENS.items() if role.startswith("step")}
    assert len(set(looks.values())) == 3
    assert len(set(steps.values())) == 3
