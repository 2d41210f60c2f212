"""The numbers of the papers against shapely: placed by its affine transform, cut by its intersections."""

import dataclasses
import math

import numpy as np
import pytest
from shapely.affinity import affine_transform
from shapely.geometry import LineString, MultiLineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from core.model.cloth import Cloth
from core.model.panel import Panel, panels_of
from core.model.pattern import Edge, Piece
from core.model.project import Placement, Project
from core.papers.figures import EdgeMarks, Figures, GrainEnd, PanelFigures, figures_of, grade_of
from core.papers.neighbours import MOST_NAMED, NEAR_MM, neighbours_laid
from core.seams.readings import measure

TENTH_OF_ALL_MM = 0.01
"""Everything below agrees far better than the tenth of a millimetre that is asked for."""


@pytest.fixture(scope="module")
def figures(laid: Project) -> Figures:
    return figures_of(laid, measure(laid))


def lying(shape: BaseGeometry, at: Placement) -> BaseGeometry:
    t = math.radians(at.turn_deg + (180 if at.turned else 0))
    return affine_transform(shape, [math.cos(t), -math.sin(t), math.sin(t), math.cos(t), at.u, at.v])


def grain_by_shapely(panel: Panel) -> LineString:
    outline = Polygon(panel.net_ring)
    left, top, right, bottom = outline.bounds
    middle = (left + right) / 2
    ends = LineString([(middle, top - 1), (middle, bottom + 1)]).intersection(outline.exterior)
    ys = sorted(np.array([part.coords[0] for part in ends.geoms])[:, 1])
    return LineString([(middle, ys[0]), (middle, ys[-1])])


def lead_centres(figures: PanelFigures) -> list[float]:
    """Across-coordinates of stripes that look like the lead stripe, far beyond the cloth on both sides."""
    repeat = figures.cloth.repeat
    assert repeat is not None
    lead = repeat.lead_stripe
    alike = [s.at for s in repeat.stripes if (s.width, s.colour) == (lead.width, lead.colour)]
    return [repeat.origin + at + j * repeat.width for at in alike for j in range(-200, 300)]


def test_every_panel_has_its_figures_once_and_in_order(laid: Project, figures: Figures) -> None:
    assert [panel.number for panel in figures.panels] == list(range(1, len(laid.panel_names) + 1))
    assert {panel.name for panel in figures.panels} == set(laid.panel_names)


def test_the_grain_line_is_the_upright_through_the_middle_of_the_stitching_line(
    laid: Project, figures: Figures
) -> None:
    for panel in figures.panels:
        ends = np.array(lying(grain_by_shapely(panel.panel), laid.placement(panel.name)).coords)
        found = [(end.u_mm, end.v_mm) for end in (panel.grain_top, panel.grain_bottom)]
        assert np.allclose(found, ends, atol=TENTH_OF_ALL_MM)


def test_the_way_to_a_grain_end_along_its_edge_leads_there(figures: Figures) -> None:
    for panel in figures.panels:
        for end in (panel.grain_top, panel.grain_bottom):
            edge, other = (lying(LineString(panel.panel.net[name]), panel.at) for name in (end.edge, end.corner_with))
            corner = min(edge.boundary.geoms, key=other.distance)
            assert other.distance(corner) < 1e-6
            walked = edge.project(Point(end.u_mm, end.v_mm))
            from_corner = walked if corner.equals(Point(edge.coords[0])) else edge.length - walked
            assert from_corner == pytest.approx(end.along_mm, abs=TENTH_OF_ALL_MM)


def test_offsets_go_to_the_nearest_lead_stripe_on_the_usable_width(figures: Figures) -> None:
    for panel in figures.panels:
        for end in (panel.grain_top, panel.grain_bottom):
            if panel.cloth.repeat is None:
                assert end.off_lead_mm is None
            else:
                assert end.off_lead_mm == pytest.approx(offset_by_hand(panel, end), abs=TENTH_OF_ALL_MM)


def offset_by_hand(panel: PanelFigures, end: GrainEnd) -> float:
    left, right = panel.cloth.usable
    at_this_height = [w + panel.cloth.skew * end.v_mm for w in lead_centres(panel)]
    return min((end.u_mm - u for u in at_this_height if left <= u <= right), key=abs)


def test_meeting_places_are_where_stripe_lines_cut_the_placed_edge(figures: Figures) -> None:
    seen = 0
    for panel in figures.panels:
        for marks in panel.edges:
            expected = meetings_by_shapely(panel, marks)
            assert len(expected) == len(marks.meets_mm)
            assert np.allclose(expected, marks.meets_mm, atol=TENTH_OF_ALL_MM)
            seen += len(expected)
    assert seen > 10


def meetings_by_shapely(panel: PanelFigures, marks: EdgeMarks) -> list[float]:
    line = panel.panel.net[marks.edge]
    line = line if line[0, 1] < line[-1, 1] else line[::-1]
    edge, skew = lying(LineString(line), panel.at), panel.cloth.skew
    stripes = MultiLineString([[(w - skew * 9000, -9000), (w + skew * 9000, 9000)] for w in lead_centres(panel)])
    met = edge.intersection(stripes)
    return sorted(edge.project(point) for point in getattr(met, "geoms", [met]) if not point.is_empty)


def test_meeting_points_lie_on_the_edge_and_on_a_stripe(figures: Figures) -> None:
    for panel in figures.panels:
        for marks in (marks for marks in panel.edges if marks.meets_mm):
            edge = lying(LineString(panel.panel.net[marks.edge]), panel.at)
            for u, v in panel.meeting_points(marks):
                assert edge.distance(Point(u, v)) < TENTH_OF_ALL_MM
                nearest = min(abs(u - panel.cloth.skew * v - w) for w in lead_centres(panel))
                assert nearest < TENTH_OF_ALL_MM


def test_the_corner_that_places_are_measured_from_is_the_upper_one(figures: Figures) -> None:
    for panel in figures.panels:
        for marks in panel.edges:
            line, other = panel.panel.net[marks.edge], LineString(panel.panel.net[marks.corner_with])
            upper = Point(min(line[0], line[-1], key=lambda point: point[1]))
            assert other.distance(upper) < 1e-6


def test_every_seam_of_a_panel_is_announced_with_the_measured_figures(laid: Project, figures: Figures) -> None:
    measured = {reading.line.sewn.label: reading for reading in measure(laid).read}
    announced = [(panel, seam) for panel in figures.panels for seam in panel.seams]
    assert len(announced) == 2 * len(laid.sewn)
    for panel, seam in announced:
        reading = measured[seam.seam]
        assert (seam.rms_mm, (seam.worst_mm, seam.worst_at_mm)) == (reading.rms_mm, reading.worst)
        assert {panel.name, seam.partner.partition("/")[0]} == set(reading.line.panels)


def test_a_quarter_of_a_degree_over_700_mm_leans_3_mm() -> None:
    """Vilumsone-Nemes 2018, p. 216, lets lesser pieces lean by 3 mm; over 700 mm that is 0.246 degrees."""
    edges = ("M 0 0 L 100 0", "M 100 0 L 100 700", "M 100 700 L 0 700", "M 0 700 L 0 0")
    piece = Piece(id="flap", cloth="plain", edges=tuple(Edge(name=f"e{i}", path=path) for i, path in enumerate(edges)))
    project = Project(cloths=(Cloth(id="plain", width=900),), pieces=(piece,))
    project = project.placed({"flap": Placement(u=200, v=50, turn_deg=0.246)})
    (panel,) = figures_of(project, measure(project)).panels
    assert panel.lean_mm == pytest.approx(-3.0, abs=0.01)


def test_lean_is_the_turn_over_the_grain_line(figures: Figures) -> None:
    for panel in figures.panels:
        turn = math.radians(panel.at.turn_deg + (180 if panel.at.turned else 0))
        assert panel.lean_mm == pytest.approx(-panel.grain_length_mm * math.sin(turn), abs=1e-6)


def test_length_used_and_share_covered(laid: Project, figures: Figures) -> None:
    for cloth in figures.cloths:
        shapes = [lying(Polygon(p.panel.cut_ring), laid.placement(p.name)) for p in cloth.panels]
        assert cloth.length_mm == pytest.approx(max(shape.bounds[3] for shape in shapes))
        left, right = cloth.cloth.usable
        assert cloth.used_share == pytest.approx(sum(s.area for s in shapes) / ((right - left) * cloth.length_mm))


def test_mirrored_panels_take_the_paper_face_down(skirt: Project) -> None:
    for panel in figures_of(skirt, measure(skirt)).panels:
        drawn = panel.panel.piece.drawn
        assert panel.paper == ("up" if panel.side == drawn else "down")


def test_a_piece_on_the_fold_is_half_of_its_panel(many_gores: Project) -> None:
    lining = figures_of(many_gores, measure(many_gores)).panels[-1]
    (panel,) = panels_of(many_gores.piece_of("lining"))
    assert (lining.paper, lining.name, lining.edges) == ("half", panel.name, ())


@pytest.mark.parametrize(("step", "grade"), [(0, "good"), (-2, "good"), (2.01, "fair"), (-3, "fair"), (3.01, "poor")])
def test_grades_of_steps(step: float, grade: str) -> None:
    assert grade_of(step) == grade


def test_gaps_to_neighbours_are_those_of_the_placed_cutting_lines(laid: Project, figures: Figures) -> None:
    named = 0
    for cloth in figures.cloths:
        for panel in cloth.panels:
            before = {other.number: other for other in cloth.panels if other.number < panel.number}
            here = lying(Polygon(panel.panel.cut_ring), laid.placement(panel.name))
            gaps = {
                number: here.distance(lying(Polygon(other.panel.cut_ring), laid.placement(other.name)))
                for number, other in before.items()
            }
            found = neighbours_laid(panel, cloth.panels)
            assert [one.gap_mm for one in found] == pytest.approx(
                sorted(gap for gap in gaps.values() if gap <= NEAR_MM)[:MOST_NAMED], abs=TENTH_OF_ALL_MM
            )
            for one in found:
                assert one.gap_mm == pytest.approx(gaps[one.figures.number], abs=TENTH_OF_ALL_MM)
                named += 1
    assert named > 5


@pytest.mark.parametrize("gap", [0.0, 4.0])
@pytest.mark.parametrize(
    ("u", "v", "way"),
    [
        (1, 0, "on its right"),
        (-1, 0, "on its left"),
        (0, -1, "towards the cut end"),
        (0, 1, "towards the far end"),
    ],
)
def test_the_way_to_a_neighbour(gap: float, u: int, v: int, way: str) -> None:
    edges = ("M 0 0 L 100 0", "M 100 0 L 100 100", "M 100 100 L 0 100", "M 0 100 L 0 0")
    square = tuple(Edge(name=f"e{i}", path=path) for i, path in enumerate(edges))
    pieces = tuple(Piece(id=name, cloth="plain", edges=square) for name in ("first", "second"))
    project = Project(cloths=(Cloth(id="plain", width=900),), pieces=pieces).placed(
        {"first": Placement(u=300 + u * (100 + gap), v=300 + v * (100 + gap)), "second": Placement(u=300, v=300)}
    )
    panels = {panel.name: panel for panel in figures_of(project, measure(project)).panels}
    first = dataclasses.replace(panels["first"], number=1)
    (found,) = neighbours_laid(dataclasses.replace(panels["second"], number=2), [first])
    assert (found.way, found.gap_mm) == (way, pytest.approx(gap))
