"""Screen, PDF, SVG, DXF, cards and tables carry the same coordinates: each is read back and laid on the others."""

import csv
import io
import re

import numpy as np
import pytest
from shapely.geometry import LinearRing, LineString

from app.canvas.panels import PanelItem
from core.model.project import Project
from core.papers.cards import card_pages
from core.papers.choices import PaperChoices
from core.papers.figures import Figures, PanelFigures, figures_of
from core.papers.full_size import plan_files, plan_leaves
from core.papers.page import A4, Leaf
from core.papers.pdf import pdf_bytes
from core.papers.pens import PENS
from core.papers.tables import positions_csv
from core.seams.readings import measure
from core.units import Units
from reading_back import dxf_blocks, pdf_lines, pdf_texts, svg_lines

TENTH_MM = 0.1
Rings = list[LinearRing]


@pytest.fixture(scope="module")
def figures(skirt: Project) -> Figures:
    return figures_of(skirt, measure(skirt))


@pytest.fixture(scope="module")
def plan(figures: Figures) -> dict[str, bytes]:
    return plan_files(figures, PaperChoices())


@pytest.fixture(scope="module")
def corner(figures: Figures) -> np.ndarray:
    """Where the cloth's zero lies on the page of the full-size plan: the first cloth edge's end."""
    (leaf,) = plan_leaves(figures.cloths[0], PaperChoices())
    edge = leaf.drawing.of("cloth edge").extent
    assert edge is not None
    return np.array([edge.left, edge.top])


def on_screen(panel: PanelFigures, role: str) -> Rings:
    item = PanelItem(panel.panel, panel.at, panel.title)
    return [LinearRing(points) for points in item.lying(role)]  # type: ignore[arg-type]


def nearest(ring: LinearRing, lines: list[np.ndarray]) -> float:
    return min(ring.hausdorff_distance(LinearRing(line)) for line in lines if len(line) > 3)


@pytest.mark.parametrize(
    ("role", "layer", "group"), [("cut line", "1", "cutting-line"), ("net line", "14", "stitching-line")]
)
def test_screen_pdf_svg_and_dxf_have_the_same_outlines(
    qapp: object, figures: Figures, plan: dict[str, bytes], corner: np.ndarray, role: str, layer: str, group: str
) -> None:
    (page,) = pdf_lines(plan["plan-full-size.pdf"], PENS[role].width)  # type: ignore[index]
    printed = [line - corner for line in page]
    written = [line - corner for line in svg_lines(plan["plan-full-size.svg"])[group]]
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    assert len(figures.panels) == 10
    for panel in figures.panels:
        (seen,) = on_screen(panel, role)
        assert nearest(seen, printed) < TENTH_MM
        assert nearest(seen, written) < TENTH_MM
        assert nearest(seen, blocks[panel.name][layer]) < TENTH_MM


def test_notches_on_the_screen_begin_where_those_of_the_dxf_point(
    qapp: object, figures: Figures, plan: dict[str, bytes]
) -> None:
    """A notch of the DXF lies on the cutting line, straight out from where it leaves the stitching line."""
    blocks = dxf_blocks(plan["plan-full-size.dxf"])
    for panel in figures.panels:
        item = PanelItem(panel.panel, panel.at, panel.title)
        for drawn, (place,) in zip(item.lying("notch"), blocks[panel.name].get("4", []), strict=True):
            start, end = drawn
            out = (end - start) / np.hypot(*(end - start))
            aside = np.array([-out[1], out[0]])
            assert abs(aside @ (place - start)) < TENTH_MM
            assert LineString([start, start + out * 60]).distance(LinearRing(panel.cut_ring)) < TENTH_MM


def test_the_table_has_the_screens_places_and_grain(qapp: object, figures: Figures) -> None:
    rows = list(csv.DictReader(io.StringIO(positions_csv(figures, Units("in")).decode())))
    for row, panel in zip(rows, figures.panels, strict=True):
        to_cloth = PanelItem(panel.panel, panel.at, panel.title).transform()
        assert (to_cloth.dx(), to_cloth.dy()) == pytest.approx(
            (float(row["u_in"]) * 25.4, float(row["v_in"]) * 25.4), abs=0.001
        )
        ends = [[float(row[f"grain_{end}_{axis}_in"]) * 25.4 for axis in "uv"] for end in ("top", "bottom")]
        back = to_cloth.inverted()[0]
        assert [back.map(*end)[0] for end in ends] == pytest.approx([float(panel.panel.middle[0])] * 2, abs=TENTH_MM)


def test_cards_show_the_same_outlines_to_scale(qapp: object, figures: Figures) -> None:
    cards = card_pages(figures, A4, Units("mm"), lambda _: True)
    leaves = [Leaf(pages[0], A4) for pages in cards.values()]
    data = pdf_bytes(leaves, "cards")
    for number, lines, words in zip(cards, pdf_lines(data, PENS["cut line"].width), pdf_texts(data), strict=True):
        panel = next(one for one in figures.panels if one.number == number)
        scale = re.search(r"drawn 1 : ([\d.]+)", words)
        assert scale
        (seen,) = on_screen(panel, "cut line")
        sizes = [(line * float(scale.group(1))) for line in lines if len(line) > 3]
        moved = [line - line.min(axis=0) + seen.bounds[:2] for line in sizes]
        assert nearest(seen, moved) < TENTH_MM
