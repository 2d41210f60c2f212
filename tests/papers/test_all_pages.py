"""All pages of all papers, in every unit and on every paper: nothing over anything else, nothing off the page."""

import re
from collections.abc import Iterator

import numpy as np
import pytest
from shapely import STRtree
from shapely.geometry import Polygon

from core.model.project import Project
from core.papers.choices import PaperChoices
from core.papers.drawing import Text, points_of
from core.papers.edge_strips import strip_pages
from core.papers.figures import figures_of
from core.papers.full_size import plan_leaves, roll_leaves
from core.papers.lettering import text_box
from core.papers.page import DRAWN_ON, WRITTEN_ON, Leaf
from core.papers.papers import paper_pages
from core.papers.pattern_sheet import tiled_sheets
from core.papers.pieces import laid_project, pattern_pieces
from core.papers.seam_sheet import seam_pages
from core.papers.tile_pages import tile_pages
from core.seams.readings import measure
from core.units import Units

CHOSEN = {
    "parasol": PaperChoices(paper="a3", units="cm", lines="net"),
    "full": PaperChoices(paper="letter", units="in"),
}
PRINTERS_MARGIN_MM = 6.0
Pages = list[tuple[str, Leaf]]


def pages_of(project: Project, choices: PaperChoices) -> Iterator[tuple[str, Leaf]]:
    laid = laid_project(project)
    figures = figures_of(laid.project, measure(laid.project))
    drawn, written, units = DRAWN_ON[choices.paper], WRITTEN_ON[choices.paper], Units(choices.units)
    pieces = pattern_pieces(laid, figures, choices.lines)
    sheets = {
        "papers": paper_pages(figures, choices, laid),
        "seams": seam_pages(figures, written, units),
        "strips": strip_pages(figures, drawn, written, units),
        "tiles": tile_pages(tiled_sheets(pieces, drawn), laid.title, written, units),
        "roll": roll_leaves(pieces, laid.title),
        "plan": tuple(leaf for cloth in figures.cloths for leaf in plan_leaves(cloth, choices)),
    }
    yield from ((name, leaf) for name, leaves in sheets.items() for leaf in leaves)


@pytest.fixture(scope="module", params=list(CHOSEN))
def pages(request: pytest.FixtureRequest) -> Pages:
    return list(pages_of(request.getfixturevalue(request.param), CHOSEN[request.param]))


def texts_of(leaf: Leaf) -> list[Text]:
    return [part for part in leaf.drawing.parts if isinstance(part, Text)]


def test_no_lettering_lies_on_other_lettering(pages: Pages) -> None:
    over = []
    for name, leaf in pages:
        texts = texts_of(leaf)
        rooms = [Polygon(text_box(text, -0.05)) for text in texts]
        pairs = STRtree(rooms).query(rooms, predicate="intersects").T if rooms else []
        over += [(name, texts[i].text, texts[j].text) for i, j in pairs if i < j]
    assert over == []


def test_nothing_reaches_into_the_printers_margins(pages: Pages) -> None:
    beyond = []
    for name, leaf in pages:
        for part in leaf.drawing.parts:
            points = text_box(part) if isinstance(part, Text) else points_of(part)
            (left, top), (right, bottom) = points.min(axis=0), points.max(axis=0)
            least = min(left, top, leaf.page.width - right, leaf.page.height - bottom)
            if least < (PRINTERS_MARGIN_MM if not crosses(part) else 4.0):
                beyond.append((name, getattr(part, "text", part.role), round(float(least), 1)))
    assert beyond == []


def crosses(part: object) -> bool:
    """Whether it is a cross on a join: half of it lies outside the frame, and may be lost."""
    return getattr(part, "role", "") == "trim" and bool(np.ptp(points_of(part), axis=0).max() <= 5.0 + 1e-6)  # type: ignore[arg-type]


def test_lettering_is_large_enough_to_read(pages: Pages) -> None:
    """2.8 mm is 8 pt; only the map of the tiles and what is small in the plan's own scale may be smaller."""
    small = [
        (name, text.text, text.size)
        for name, leaf in pages
        for text in texts_of(leaf)
        if text.size < (1.8 if name in ("tiles", "roll", "plan") else 2.4)
    ]
    assert small == []


def test_units_are_not_mixed(pages: Pages, request: pytest.FixtureRequest) -> None:
    """Apart from the check squares, which are in both on purpose."""
    units = CHOSEN[request.node.callspec.params["pages"]].units
    others = [unit for unit in ("mm", "cm", "in") if unit != units]
    pattern = re.compile(rf"\d ?(?:{'|'.join(others)})\b(?! page)")
    mixed = [
        (name, text.text)
        for name, leaf in pages
        for text in texts_of(leaf)
        if pattern.search(text.text) and "square measures" not in text.text
    ]
    assert mixed == []


def test_every_file_has_its_check_squares_once(pages: Pages) -> None:
    for file in ("papers", "strips", "tiles", "roll", "plan"):
        leaves = [leaf for name, leaf in pages if name == file]
        counts = [len(leaf.drawing.of("check square").parts) for leaf in leaves]
        expected = [2] * len(leaves) if file in ("roll", "plan") else [2] + [0] * (len(leaves) - 1)
        assert not leaves or counts == expected


def test_cautions_stand_on_one_page_of_all(pages: Pages) -> None:
    for words in ("press it flat", "A cut can't be taken back", "catch fire"):
        assert sum(words in " ".join(text.text for text in texts_of(leaf)) for _, leaf in pages) == 1
