"""Edge strips: full size, as curved as the edge is, with every stripe where it meets the stitching line."""

import itertools
import math

import numpy as np
import pytest
from shapely import union_all
from shapely.geometry import LineString, Point, Polygon

from core.matching.solve import match
from core.model.project import Project
from core.papers.drawing import Area, Line, Spot
from core.papers.edge_strips import strip_pages
from core.papers.figures import Figures, figures_of
from core.papers.packing import MARGIN_MM, packed
from core.papers.page import A4, LETTER, Leaf
from core.papers.pdf import pdf_bytes
from core.papers.strip_edges import EdgeStretch
from core.papers.strip_lengths import HALF_MM, INSIDE_MM, JOIN_MM, OUTSIDE_MM, Strip, strips_of
from core.papers.tiles import LABEL_MM
from core.seams.readings import measure
from core.units import UnitName, Units
from reading_back import pdf_lines, pdf_texts

TENTH_MM = 0.1


@pytest.fixture(scope="module")
def figures(skirt: Project) -> Figures:
    return figures_of(skirt, measure(skirt))


@pytest.fixture(scope="module")
def matched(skirt: Project) -> Figures:
    """The ten panels matched, as mirror images; where they lie along the cloth is left as it is."""
    project = match(skirt).project
    return figures_of(project, measure(project))


@pytest.fixture(scope="module")
def strips(figures: Figures) -> list[Strip]:
    return strips_of(figures, A4)


@pytest.fixture(scope="module")
def leaves(figures: Figures) -> tuple[Leaf, ...]:
    return strip_pages(figures, A4, A4, Units("mm"))


def served(strips: list[Strip]) -> list[EdgeStretch]:
    """Every stretch that a strip is for."""
    return [side for strip in strips for sides in (strip.sides, *strip.same, *strip.turned_over) for side in sides]


def test_the_strips_down_an_edge_overlap_and_cover_it_all(figures: Figures, strips: list[Strip]) -> None:
    by_edge: dict[str, list[EdgeStretch]] = {}
    for side in served(strips):
        by_edge.setdefault(side.marks.ref, []).append(side)
    assert set(by_edge) == {marks.ref for panel in figures.panels for marks in panel.edges}
    for stretches in by_edge.values():
        parts = sorted(stretches, key=lambda side: side.start)
        assert parts[0].start == 0
        assert parts[-1].end == pytest.approx(parts[0].marks.length_mm)
        assert all(before.end - after.start == pytest.approx(JOIN_MM) for before, after in itertools.pairwise(parts))


def test_a_strip_reaches_as_far_inwards_and_outwards_everywhere(strips: list[Strip]) -> None:
    for strip in strips:
        reach = (HALF_MM, HALF_MM) if strip.shared else (OUTSIDE_MM, INSIDE_MM)
        side = strip.sides[0]
        breadth = Polygon(strip.outline).area / (side.end - side.start)
        assert breadth == pytest.approx(sum(reach), rel=0.05)
        middle = on_strip(side, np.array([side.part.interpolate(0.5, normalized=True).coords[0]]))
        assert Polygon(strip.outline).exterior.distance(Point(middle[0])) == pytest.approx(reach[0], abs=0.05)
        for one in strip.sides:
            net, band = Polygon(one.figures.net_ring), Polygon(strip.band(one))
            inside = 1.0 if strip.shared else INSIDE_MM / (INSIDE_MM + OUTSIDE_MM)
            assert band.intersection(net).area / band.area == pytest.approx(inside, abs=0.06)


def test_printed_stitching_lines_are_the_edges_full_size(
    strips: list[Strip], leaves: tuple[Leaf, ...], skirt: Project
) -> None:
    """Every dashed line of the PDF, brought back by the place of its strip, lies on all edges the strip is for."""
    printed = pdf_lines(pdf_bytes(leaves, skirt.title))
    sizes = [Polygon(strip.outline).bounds for strip in strips]
    pages = packed([(b[2] - b[0], b[3] - b[1] + LABEL_MM) for b in sizes], A4)
    assert len(pages) == len(leaves) - 1
    for leaf, puts, lines in zip(leaves[1:], pages, printed[1:], strict=True):
        roles = [part.role for part in leaf.drawing.parts if isinstance(part, Line)]
        nets = [line for line, role in zip(lines, roles, strict=True) if role == "net line"]
        assert len(nets) == len(puts)
        for put, net in zip(puts, nets, strict=True):
            strip, (left, top, _, bottom) = strips[put.index], sizes[put.index]
            drawn = net - put.at
            if put.turned:
                drawn = np.column_stack([drawn[:, 1], bottom - top + LABEL_MM - drawn[:, 0]])
            for side in strip.sides:
                edge = LineString(on_strip(side, np.array(side.part.coords)))
                assert edge.hausdorff_distance(LineString(drawn + np.array([left, top]))) < TENTH_MM


def on_strip(side: EdgeStretch, points: np.ndarray) -> np.ndarray:
    """Cloth to strip: the stretch's first place to zero, its chord down the page."""
    first, last = np.array(side.part.coords)[[0, -1]]
    t = math.pi / 2 - math.atan2(last[1] - first[1], last[0] - first[0])
    x, y = (points - first).T
    return np.column_stack([x * math.cos(t) - y * math.sin(t), x * math.sin(t) + y * math.cos(t)])


def test_dots_are_where_the_middle_of_a_stripe_meets_the_line(strips: list[Strip], leaves: tuple[Leaf, ...]) -> None:
    sides = [side for strip in strips for side in strip.sides]
    expected = sum(side.start <= place <= side.end for side in sides for place in side.marks.meets_mm)
    dots = 0
    for leaf in leaves[1:]:
        nets = union_all([LineString(part.points) for part in leaf.drawing.of("net line").parts])  # type: ignore[union-attr]
        leads = union_all([LineString(part.points) for part in leaf.drawing.of("lead stripe").parts])  # type: ignore[union-attr]
        for spot in (part for part in leaf.drawing.parts if isinstance(part, Spot)):
            assert nets.distance(Point(spot.at)) < TENTH_MM
            assert leads.distance(Point(spot.at)) < TENTH_MM
            dots += 1
    assert dots == expected > 50


def test_a_strip_that_serves_another_edge_shows_its_stripes(matched: Figures) -> None:
    """A strip's stripes, seen from inside the stitching line, against the other edge's cloth read stripe by stripe."""
    strips = strips_of(matched, A4)
    pairs = [
        (side, other, sides in strip.turned_over)
        for strip in strips
        for sides in (*strip.same, *strip.turned_over)
        for side, other in zip(strip.sides, sides, strict=True)
    ]
    assert any(turned for _, _, turned in pairs)
    for side, other, turned in pairs:
        assert (side.inside != other.inside) == turned
        assert [kinds_beside(side, far) for far in (2.0, 11.0)] == [kinds_beside(other, far) for far in (2.0, 11.0)]


def kinds_beside(side: EdgeStretch, inside_mm: float) -> list[int]:
    """What is seen so far inside the stitching line, every 20 mm of the stretch, away from the borders of stripes."""
    repeat = side.figures.cloth.repeat
    assert repeat is not None
    net = Polygon(side.figures.net_ring)
    line, found = LineString(side.line), []
    for place in np.arange(side.start + 5, side.end - 5, 20.0):
        here, ahead = (np.array(line.interpolate(at).coords[0]) for at in (place, place + 0.01))
        normal = np.array([ahead[1] - here[1], here[0] - ahead[0]]) / 0.01
        point = max((here + normal * inside_mm, here - normal * inside_mm), key=lambda p: net.contains(Point(p)))
        w = (point[0] - side.figures.cloth.skew * point[1] - repeat.origin) % repeat.width
        kinds = {repeat.kind_at((w + d) % repeat.width) for d in (-0.3, 0.0, 0.3)}
        found.append(kinds.pop() if len(kinds) == 1 else -2)
    return found


def test_places_are_numbered(leaves: tuple[Leaf, ...], figures: Figures, skirt: Project) -> None:
    words = " ".join(pdf_texts(pdf_bytes(leaves, skirt.title))).split()
    places = {f"{place:.1f}" for panel in figures.panels for marks in panel.edges for place in marks.meets_mm}
    assert len(places - set(words)) <= 0.05 * len(places)


def test_strips_show_the_colours_of_the_cloth(strips: list[Strip], leaves: tuple[Leaf, ...]) -> None:
    areas = [Polygon(part.points).area for leaf in leaves for part in leaf.drawing.parts if isinstance(part, Area)]
    repeat = strips[0].sides[0].figures.cloth.repeat
    assert repeat is not None
    share = sum(stripe.width for stripe in repeat.stripes) / repeat.width
    assert sum(areas) / sum(Polygon(strip.outline).area for strip in strips) == pytest.approx(share, abs=0.04)


def test_strips_of_a_matched_garment_take_a_fifth_of_the_paper_of_a_full_print(matched: Figures) -> None:
    leaves = strip_pages(matched, A4, A4, Units("mm"))
    across, down = A4.width - 2 * MARGIN_MM, A4.height - 2 * MARGIN_MM
    area = sum(Polygon(panel.cut_ring).area for panel in matched.panels)
    assert len(leaves) <= 0.2 * area / (across * down) + 1


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
