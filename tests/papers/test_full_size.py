"""One drawing for all files: what is read back from PDF, SVG and DXF lies on the model within a tenth of a millimetre.

100 mm are 283.465 pt (72 pt to the inch of 25.4 mm); 4 in are 288 pt.
"""

import csv
import io
import math

import numpy as np
import pytest
from shapely import union_all
from shapely.affinity import affine_transform
from shapely.geometry import LinearRing, LineString, MultiLineString, Point, Polygon
from shapely.geometry.base import BaseGeometry

from core.files.dxf_in import read_dxf
from core.model.project import Placement, Project
from core.papers.choices import PaperChoices
from core.papers.drawing import Line
from core.papers.figures import Figures, PanelFigures, figures_of
from core.papers.full_size import plan_files, plan_leaves, roll_files, roll_leaves
from core.papers.layers import LAYERS, in_layers
from core.papers.page import Leaf
from core.papers.pieces import laid_project, pattern_pieces
from core.papers.tables import positions_csv
from core.seams.readings import measure
from reading_back import dxf_blocks, pdf_lines, pdf_marks, svg_lines, svg_size_mm

TENTH_MM = 0.1
CHOICES = PaperChoices()


@pytest.fixture(scope="module")
def project(parasol: Project) -> Project:
    """Curved gores on an uneven repeat, two of them end for end."""
    return parasol


@pytest.fixture(scope="module")
def figures(project: Project) -> Figures:
    return figures_of(project, measure(project))


@pytest.fixture(scope="module")
def plan(figures: Figures) -> dict[str, bytes]:
    return plan_files(figures, CHOICES)


@pytest.fixture(scope="module")
def rolls(project: Project, figures: Figures) -> tuple[tuple[Leaf, ...], dict[str, bytes]]:
    pieces = pattern_pieces(laid_project(project), figures, "both")
    return roll_leaves(pieces, project.title), roll_files(pieces, project.title)


def lying(shape: BaseGeometry, at: Placement) -> BaseGeometry:
    t = math.radians(at.turn_deg + (180 if at.turned else 0))
    return affine_transform(shape, [math.cos(t), -math.sin(t), math.sin(t), math.cos(t), at.u, at.v])


def lines_in_layers(leaf: Leaf) -> list[np.ndarray]:
    """The lines of a page in the order of its layers, closed ones with their first point repeated."""
    lines = [part for _, parts in in_layers(leaf.drawing) for part in parts if isinstance(part, Line)]
    return [np.vstack([line.points, line.points[:1]]) if line.closed else line.points for line in lines]


def as_drawn(read: np.ndarray, drawn: np.ndarray) -> bool:
    """Whether a line that was read has the points drawn; the closing point may be left out."""
    return np.abs(read - drawn[: len(read)]).max() < 0.005 and len(drawn) - len(read) in (0, 1)


def test_pdf_and_svg_have_every_line_of_the_drawing(rolls: tuple[tuple[Leaf, ...], dict[str, bytes]]) -> None:
    leaves, files = rolls
    (leaf,) = leaves
    drawn = lines_in_layers(leaf)
    (printed,) = pdf_lines(files["full-size-roll.pdf"])
    written = [line for lines in svg_lines(files["full-size.svg"]).values() for line in lines]
    assert len(drawn) == len(printed) == len(written) > 100
    assert all(as_drawn(*pair) for pair in zip(printed, drawn, strict=True))
    assert all(as_drawn(*pair) for pair in zip(written, drawn, strict=True))


def test_the_plan_lies_in_pdf_svg_and_dxf_where_the_model_has_it(
    project: Project, figures: Figures, plan: dict[str, bytes]
) -> None:
    (leaf,) = plan_leaves(figures.cloths[0], CHOICES)
    edge = leaf.drawing.of("cloth edge").extent
    assert edge is not None
    groups = svg_lines(plan["plan-full-size.svg"])
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    (printed,) = pdf_lines(plan["plan-full-size.pdf"])
    rings = [line - (edge.left, edge.top) for line in printed if len(line) > 60]
    for panel in figures.panels:
        for layer, group, ring in (
            ("1", "cutting-line", panel.panel.cut_ring),
            ("14", "stitching-line", panel.panel.net_ring),
        ):
            model = lying(LinearRing(ring), project.placement(panel.name))
            (exchanged,) = blocks[panel.name][layer]
            assert LineString(exchanged).hausdorff_distance(model) < TENTH_MM
            for lines in (rings, [line - (edge.left, edge.top) for line in groups[group]]):
                assert min(closed(line).hausdorff_distance(model) for line in lines) < TENTH_MM


def closed(line: np.ndarray) -> LinearRing:
    return LinearRing(line)


def test_notches_grain_and_stripes_of_the_dxf_lie_on_the_model(figures: Figures, plan: dict[str, bytes]) -> None:
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    for panel in figures.panels:
        lines = blocks[panel.name]
        grain = np.array([(end.u_mm, end.v_mm) for end in (panel.grain_top, panel.grain_bottom)])
        assert np.abs(lines["7"][0] - grain).max() < TENTH_MM
        cut = LinearRing(panel.cut_ring)
        notches = lines.get("4", [])
        assert len(notches) == len(panel.notches)
        for (place,), mark in zip(notches, panel.notches, strict=True):
            assert cut.distance(Point(place)) < TENTH_MM
            assert LineString([mark.point, place]).length < 45
        leads = MultiLineString(lines["9"])
        assert all(on_lead(panel, point) for line in lines["9"] for point in line)
        assert Polygon(panel.cut_ring).buffer(TENTH_MM).contains(leads)


def on_lead(panel: PanelFigures, point: np.ndarray) -> bool:
    """Whether a place lies on the middle of a stripe that looks like the lead stripe."""
    repeat = panel.cloth.repeat
    assert repeat is not None
    w = point[0] - panel.cloth.skew * point[1] - repeat.origin
    lead = repeat.lead_stripe
    alike = [s.at for s in repeat.stripes if (s.width, s.colour) == (lead.width, lead.colour)]
    return min(abs((w - at + repeat.width / 2) % repeat.width - repeat.width / 2) for at in alike) < TENTH_MM


def test_stripe_edges_change_what_is_seen(figures: Figures, plan: dict[str, bytes]) -> None:
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    panel = figures.panels[0]
    repeat = panel.cloth.repeat
    assert repeat is not None
    for line in blocks[panel.name]["8"]:
        w = line[0, 0] - panel.cloth.skew * line[0, 1] - repeat.origin
        assert repeat.kind_at((w - TENTH_MM) % repeat.width) != repeat.kind_at((w + TENTH_MM) % repeat.width)


def test_positions_table_cards_plan_and_dxf_agree(project: Project, figures: Figures, plan: dict[str, bytes]) -> None:
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    rows = list(csv.DictReader(io.StringIO(positions_csv(figures).decode("utf-8"))))
    assert len(rows) == len(figures.panels) == len(blocks)
    for row in rows:
        at = project.placement(row["panel"])
        assert (float(row["u_mm"]), float(row["v_mm"])) == pytest.approx((at.u, at.v), abs=0.001)
        grain = blocks[row["panel"]]["7"][0]
        said = [[float(row[f"grain_{end}_{axis}_mm"]) for axis in "uv"] for end in ("top", "bottom")]
        assert np.abs(grain - said).max() <= 0.051


def test_our_own_reader_takes_the_dxf_for_the_same_pieces(figures: Figures, plan: dict[str, bytes]) -> None:
    read = read_dxf(plan["plan-full-size.dxf"])
    assert len(read.outlines) == len(figures.panels)
    for outline, panel in zip(read.outlines, figures.panels, strict=True):
        assert abs(outline.area_mm2) == pytest.approx(Polygon(panel.panel.cut_ring).area, rel=1e-4)
        assert outline.sew
        assert len(outline.notches) == len(panel.panel.notches)


def test_check_squares_measure_100_mm_and_4_in(
    plan: dict[str, bytes], rolls: tuple[tuple[Leaf, ...], dict[str, bytes]]
) -> None:
    for data in (plan["plan-full-size.pdf"], rolls[1]["full-size-roll.pdf"]):
        (page,) = pdf_lines(data)
        assert square_sides_pt(page) == pytest.approx([283.465, 288.0], abs=0.002)
    for data in (plan["plan-full-size.svg"], rolls[1]["full-size.svg"]):
        lines = svg_lines(data)[LAYERS[-1].replace(" ", "-")]
        assert square_sides_pt(lines) == pytest.approx([283.465, 288.0], abs=0.002)


def square_sides_pt(lines: list[np.ndarray]) -> list[float]:
    """Sides in points of the upright squares among lines in mm."""
    sides = [np.ptp(line, axis=0) * 72 / 25.4 for line in lines if len(np.unique(line.round(3), axis=0)) == 4]
    return [float(wide) for wide, high in sides if abs(wide - high) < 0.002 and wide > 200]


def test_a_user_unit_of_the_svg_is_a_millimetre(rolls: tuple[tuple[Leaf, ...], dict[str, bytes]]) -> None:
    leaves, files = rolls
    width, height, box = svg_size_mm(files["full-size.svg"])
    assert (width, height) == pytest.approx((leaves[0].page.width, leaves[0].page.height), abs=0.01)
    assert box == [0.0, 0.0, width, height]


def test_layers_have_names_and_everything_is_on_one(
    plan: dict[str, bytes], rolls: tuple[tuple[Leaf, ...], dict[str, bytes]]
) -> None:
    for data in (plan["plan-full-size.pdf"], rolls[1]["full-size-roll.pdf"]):
        assert pdf_marks(data) == {"OC"}
        assert all(f"({name})".encode() in data for name in LAYERS)
        assert data.count(b"/Type /OCG") == len(LAYERS)


@pytest.mark.parametrize(("lines", "kept", "gone"), [("net", "14", "1"), ("cut", "1", "14")])
def test_only_the_lines_chosen_are_drawn(figures: Figures, lines: str, kept: str, gone: str) -> None:
    files = plan_files(figures, PaperChoices(lines=lines))  # type: ignore[arg-type]
    for panel in dxf_blocks(files["plan-full-size.dxf"]).values():
        assert kept in panel
        assert gone not in panel


def test_every_panel_of_a_pair_is_drawn_with_its_own_stripes(skirt: Project) -> None:
    figures = figures_of(skirt, measure(skirt))
    pieces = pattern_pieces(laid_project(skirt), figures, "both")
    assert [piece.figures.name for piece in pieces] == [panel.name for panel in figures.panels]
    for piece in pieces:
        stripes = [Polygon(part.points) for part in piece.lines_drawing.of("stripe").parts]  # type: ignore[union-attr]
        assert Polygon(piece.outline).buffer(0.01).contains(union_all(stripes))
        assert len(stripes) > 5
