"""The lists on their pages and in their table, against the count itself."""

import csv
import io

import msgspec
import pytest

from core.derive.count import CuttingList, cutting_list
from core.derive.cutting import cut_project
from core.model.project import Project
from core.papers.drawing import Line, Text
from core.papers.figures import figures_of
from core.papers.lists_page import MOST_BOXES, list_pages, lists_csv
from core.papers.page import A4, LETTER
from core.papers.papers import paper_pages
from core.papers.pieces import laid_project, pattern_pieces
from core.seams.readings import measure
from core.units import UnitName, Units


@pytest.fixture(scope="module")
def found(full: Project) -> CuttingList:
    return cutting_list(full)


def test_the_table_has_every_piece_notion_and_cloth(found: CuttingList) -> None:
    rows = list(csv.DictReader(io.StringIO(lists_csv(found, Units("mm")).decode("utf-8"))))
    pieces = [row for row in rows if row["list"] == "piece"]
    assert [(row["item"], row["cloth"], int(row["number"])) for row in pieces] == [
        (piece.name, piece.cloth, piece.number) for piece in found.pieces
    ]
    assert sum(int(row["number"]) for row in pieces) == found.count
    notions = {row["item"].split(",")[0]: float(row["length_mm"]) for row in rows if row["list"] == "notion"}
    assert notions["Binding"] == pytest.approx(found.binding_mm, abs=0.051)
    assert notions["Braid round the hem"] == pytest.approx(found.braid_mm, abs=0.051)
    bought = {row["cloth"]: row for row in rows if row["list"] == "cloth"}
    for need in found.cloths:
        assert need.length_mm is not None
        assert need.buy_mm is not None
        assert float(bought[need.cloth.id]["length_mm"]) == pytest.approx(need.length_mm, abs=0.051)
        assert float(bought[need.cloth.id]["buy_mm"]) == need.buy_mm
        assert bought[need.cloth.id]["cost"] == ("" if need.cost is None else f"{need.cost:.2f}")


@pytest.mark.parametrize("page", [A4, LETTER])
def test_every_piece_has_a_box_to_tick_for_each_time_it_is_cut(found: CuttingList, page: object) -> None:
    drawings = list_pages(found, "Lists", page, Units("cm"))  # type: ignore[arg-type]
    boxes = sum(isinstance(part, Line) and part.closed for drawing in drawings for part in drawing.parts)
    assert boxes == sum(min(piece.number, MOST_BOXES) for piece in found.pieces)
    words = " ".join(part.text for drawing in drawings for part in drawing.parts if isinstance(part, Text))
    assert f"To cut: {found.count} pieces" in words


@pytest.mark.parametrize(("units", "factor"), [("mm", 1.0), ("cm", 10.0)])
def test_lengths_are_in_the_units_chosen(found: CuttingList, units: UnitName, factor: float) -> None:
    text = lists_csv(found, Units(units)).decode("utf-8")
    (row,) = [row for row in csv.DictReader(io.StringIO(text)) if row["item"].startswith("Binding, ")]
    assert float(row[f"length_{units}"]) * factor == pytest.approx(found.binding_mm, abs=0.051)


def test_derived_pieces_that_have_no_place_yet_are_listed_and_drawn(full: Project) -> None:
    drawn = {name for piece in full.pieces for name in piece.panel_names}
    placed = {name: at for name, at in full.placements.items() if name in drawn}
    bare = msgspec.structs.replace(full, placements=placed)
    laid = laid_project(bare)
    figures = figures_of(laid.project, measure(laid.project))
    assert {panel.name for panel in figures.panels} == drawn
    names = {piece.figures.title for piece in pattern_pieces(laid, figures, "both")}
    assert any("hem facing" in name for name in names)
    assert any("top lining" in name for name in names)
    assert not any("interlining" in name for name in names), "it has the shape of the panel, which is drawn already"


def test_only_drawn_panels_and_striped_ones_have_cards(full: Project) -> None:
    laid = laid_project(full)
    figures = figures_of(laid.project, measure(laid.project))
    assert len(figures.panels) == len(cut_project(full).panel_names)
    titles = [
        part.text
        for leaf in paper_pages(figures, laid=laid)
        for part in leaf.drawing.parts
        if isinstance(part, Text) and part.size == 6.0 and " · " in part.text
    ]
    assert len([title for title in titles if "continued" not in title]) == 10
