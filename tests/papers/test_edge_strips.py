"""Edge strips: full size, as curved as the edge is, with every stripe where it meets the stitching line."""

import itertools
import math

import numpy as np
import pytest
from shapely import union_all
from shapely.affinity import affine_transform
from shapely.geometry import LineString, Point, Polygon

from core.model.project import Project
from core.papers.choices import UnitName
from core.papers.drawing import Area, Line, Spot
from core.papers.edge_strips import INSIDE_MM, JOIN_MM, OUTSIDE_MM, StripLength, strip_lengths, strip_pages
from core.papers.figures import Figures, figures_of
from core.papers.measures import Units
from core.papers.packing import MARGIN_MM, packed
from core.papers.page import A4, LETTER, Leaf
from core.papers.pattern_sheet import tiled_sheets
from core.papers.pdf import pdf_bytes
from core.papers.pieces import laid_project, pattern_pieces
from core.papers.tiles import LABEL_MM
from core.seams.readings import measure
from reading_back import pdf_lines, pdf_texts

TENTH_MM = 0.1


@pytest.fixture(scope="module")
def figures(skirt: Project) -> Figures:
    return figures_of(skirt, measure(skirt))


@pytest.fixture(scope="module")
def lengths(figures: Figures) -> tuple[StripLength, ...]:
    return strip_lengths(figures, A4)


@pytest.fixture(scope="module")
def leaves(figures: Figures) -> tuple[Leaf, ...]:
    return strip_pages(figures, A4, A4, Units("mm"))


def test_the_lengths_of_a_strip_overlap_and_cover_the_whole_edge(lengths: tuple[StripLength, ...]) -> None:
    for _, group in itertools.groupby(lengths, key=lambda length: length.marks.ref):
        parts = list(group)
        assert parts[0].start == 0
        assert parts[-1].end == pytest.approx(parts[0].marks.length_mm)
        assert all(before.end - after.start == pytest.approx(JOIN_MM) for before, after in itertools.pairwise(parts))


def test_every_sewn_edge_has_a_strip(figures: Figures, lengths: tuple[StripLength, ...]) -> None:
    assert {length.marks.ref for length in lengths} == {marks.ref for panel in figures.panels for marks in panel.edges}


def test_a_strip_reaches_as_far_inwards_and_outwards_everywhere(lengths: tuple[StripLength, ...]) -> None:
    for length in lengths:
        net, strip = Polygon(length.figures.net_ring), Polygon(length.outline)
        line = LineString(length.line)
        for share in (0.2, 0.5, 0.8):
            place = line.interpolate(length.start + share * (length.end - length.start))
            assert strip.contains(place)
        middle = line.interpolate((length.start + length.end) / 2)
        assert strip.exterior.distance(middle) == pytest.approx(OUTSIDE_MM, abs=0.05)
        breadth = strip.area / (length.end - length.start)
        assert breadth == pytest.approx(OUTSIDE_MM + INSIDE_MM, rel=0.05)
        assert strip.intersection(net).area / strip.area == pytest.approx(
            INSIDE_MM / (OUTSIDE_MM + INSIDE_MM), abs=0.05
        )


def test_printed_stitching_lines_are_the_edges_full_size(
    lengths: tuple[StripLength, ...], leaves: tuple[Leaf, ...], skirt: Project
) -> None:
    """Every dashed line of the PDF, turned back and moved, lies on the edge of the placed panel."""
    printed = pdf_lines(pdf_bytes(leaves, skirt.title))
    boxes = [Polygon(upright(length, length.outline)).bounds for length in lengths]
    pages = packed([(b[2] - b[0], b[3] - b[1] + LABEL_MM) for b in boxes], A4)
    assert len(pages) == len(leaves) - 1
    for leaf, puts, lines in zip(leaves[1:], pages, printed[1:], strict=True):
        roles = [part.role for part in leaf.drawing.parts if isinstance(part, Line)]
        nets = [line for line, role in zip(lines, roles, strict=True) if role == "net line"]
        assert len(nets) == len(puts)
        for put, net in zip(puts, nets, strict=True):
            length, (left, top, _, _) = lengths[put.index], boxes[put.index]
            t = math.radians(length.upright_deg)
            on_strip = net - put.at + (left, top)
            on_cloth = on_strip @ np.array([[math.cos(t), -math.sin(t)], [math.sin(t), math.cos(t)]])
            edge = LineString(length.line)
            assert max(edge.distance(Point(point)) for point in on_cloth) < TENTH_MM
            assert LineString(on_cloth).length == pytest.approx(length.end - length.start, abs=TENTH_MM)


def upright(length: StripLength, points: np.ndarray) -> np.ndarray:
    t = math.radians(length.upright_deg)
    matrix = [math.cos(t), -math.sin(t), math.sin(t), math.cos(t), 0, 0]
    return np.array(affine_transform(Polygon(points), matrix).exterior.coords)[:-1]


def test_dots_are_where_the_middle_of_a_stripe_meets_the_line(
    lengths: tuple[StripLength, ...], leaves: tuple[Leaf, ...]
) -> None:
    expected = sum(length.start <= place <= length.end for length in lengths for place in length.marks.meets_mm)
    dots = 0
    for leaf in leaves[1:]:
        nets = union_all([LineString(part.points) for part in leaf.drawing.of("net line").parts])  # type: ignore[union-attr]
        leads = union_all([LineString(part.points) for part in leaf.drawing.of("lead stripe").parts])  # type: ignore[union-attr]
        for spot in (part for part in leaf.drawing.parts if isinstance(part, Spot)):
            assert nets.distance(Point(spot.at)) < TENTH_MM
            assert leads.distance(Point(spot.at)) < TENTH_MM
            dots += 1
    assert dots == expected > 50


def test_places_are_numbered(leaves: tuple[Leaf, ...], figures: Figures, skirt: Project) -> None:
    words = " ".join(pdf_texts(pdf_bytes(leaves, skirt.title))).split()
    places = {f"{place:.1f}" for panel in figures.panels for marks in panel.edges for place in marks.meets_mm}
    assert len(places - set(words)) <= 0.05 * len(places)


def test_strips_show_the_colours_of_the_cloth(lengths: tuple[StripLength, ...], leaves: tuple[Leaf, ...]) -> None:
    areas = [Polygon(part.points).area for leaf in leaves for part in leaf.drawing.parts if isinstance(part, Area)]
    repeat = lengths[0].figures.cloth.repeat
    assert repeat is not None
    share = sum(stripe.width for stripe in repeat.stripes) / repeat.width
    assert sum(areas) / sum(Polygon(length.outline).area for length in lengths) == pytest.approx(share, abs=0.04)


def test_strips_take_less_than_half_the_paper_of_a_full_print(leaves: tuple[Leaf, ...], skirt: Project) -> None:
    figures = figures_of(skirt, measure(skirt))
    sheets = tiled_sheets(pattern_pieces(laid_project(skirt), figures, "both"), A4)
    assert len(leaves) <= sum(len(tiling.pages) for _, tiling in sheets) / 2


@pytest.mark.parametrize("units", ["cm", "in"])
def test_strips_fit_on_letter_in_any_units(figures: Figures, units: UnitName) -> None:
    leaves = strip_pages(figures, LETTER, LETTER, Units(units))
    for leaf in leaves[1:]:
        for line in leaf.drawing.of("strip").parts:
            assert isinstance(line, Line)
            assert line.points.min() >= MARGIN_MM - 1e-6
            right, bottom = line.points.max(axis=0)
            assert right <= LETTER.width - MARGIN_MM + 1e-6
            assert bottom <= LETTER.height - MARGIN_MM + 1e-6


def test_a_plain_garment_has_no_strips(skirt: Project) -> None:
    import msgspec

    plain = msgspec.structs.replace(skirt, cloths=tuple(msgspec.structs.replace(c, repeat=None) for c in skirt.cloths))
    assert strip_pages(figures_of(plain, measure(plain)), A4, A4, Units("mm")) == ()
