"""The pages themselves: nothing over anything else, nothing off the page, and the PDF is what was drawn."""

import csv
import io
import itertools
import re

import msgspec
import numpy as np
import pypdfium2
import pytest
from shapely import STRtree
from shapely.geometry import Polygon

from core.model.pattern import edge_of
from core.model.project import Project
from core.papers.drawing import Line, Text, points_of
from core.papers.figures import Figures, figures_of
from core.papers.lettering import text_box
from core.papers.page import Leaf
from core.papers.papers import paper_pages
from core.papers.pdf import pdf_bytes
from core.papers.tables import positions_csv, stripe_marks_csv
from core.seams.readings import measure
from reading_back import POINTS_PER_MM, pdf_texts, stroked_paths

PRINTERS_MARGIN_MM = 6.0


@pytest.fixture(scope="module")
def figures(laid: Project) -> Figures:
    return figures_of(laid, measure(laid))


@pytest.fixture(scope="module")
def pages(figures: Figures) -> tuple[Leaf, ...]:
    return paper_pages(figures)


@pytest.fixture(scope="module")
def printed(laid: Project, pages: tuple[Leaf, ...]) -> bytes:
    return pdf_bytes(pages, laid.title)


@pytest.fixture(scope="module")
def texts(printed: bytes) -> list[str]:
    return pdf_texts(printed)


def test_pages_are_a4_and_as_many_as_drawn(printed: bytes, pages: tuple[Leaf, ...]) -> None:
    document = pypdfium2.PdfDocument(printed)
    assert len(document) == len(pages)
    assert all(page.get_size() == pytest.approx((595.276, 841.890), abs=0.001) for page in document)
    document.close()


def test_one_card_for_every_panel(figures: Figures, texts: list[str]) -> None:
    for panel in figures.panels:
        start = f"{panel.number} · {panel.title}"[:24]
        assert sum(text.startswith(start) for text in texts) == 1


def test_the_check_square_is_100_mm(printed: bytes) -> None:
    """100 mm are 283.465 points (ISO 216 sizes, PDF's 1/72 in)."""
    document = pypdfium2.PdfDocument(printed)
    squares = [
        path
        for path in stroked_paths(document[0])
        if np.allclose(np.ptp(path, axis=0), 283.465, atol=0.001) and len(np.unique(path.round(3), axis=0)) == 4
    ]
    document.close()
    assert len(squares) == 1


def test_every_line_is_printed_where_it_is_drawn(printed: bytes, pages: tuple[Leaf, ...]) -> None:
    document = pypdfium2.PdfDocument(printed)
    for page, leaf in zip(document, pages, strict=True):
        lines = [part for part in leaf.drawing.parts if isinstance(part, Line)]
        paths = stroked_paths(page)
        assert len(paths) == len(lines)
        for path, line in zip(paths, lines, strict=True):
            in_mm = np.column_stack([path[:, 0] / POINTS_PER_MM, leaf.page.height - path[:, 1] / POINTS_PER_MM])
            assert np.abs(in_mm[: len(line.points)] - line.points).max() < 0.002
    document.close()


def test_no_lettering_lies_on_other_lettering(pages: tuple[Leaf, ...]) -> None:
    for page in pages:
        texts = [part for part in page.drawing.parts if isinstance(part, Text)]
        rooms = [Polygon(text_box(text, -0.05)) for text in texts]
        pairs = STRtree(rooms).query(rooms, predicate="intersects").T
        assert [(texts[i].text, texts[j].text) for i, j in pairs if i < j] == []


def test_nothing_reaches_into_the_printers_margins(pages: tuple[Leaf, ...]) -> None:
    for page in pages:
        points = [text_box(part) if isinstance(part, Text) else points_of(part) for part in page.drawing.parts]
        every = np.concatenate(points)
        assert every.min() >= PRINTERS_MARGIN_MM
        right, bottom = every.max(axis=0)
        assert right <= page.page.width - PRINTERS_MARGIN_MM
        assert bottom <= page.page.height - PRINTERS_MARGIN_MM


def test_cards_say_the_numbers_of_the_positions_table(figures: Figures, texts: list[str]) -> None:
    rows = list(csv.DictReader(io.StringIO(positions_csv(figures).decode("utf-8"))))
    assert len(rows) == len(figures.panels)
    for row in rows:
        card = card_of(texts, row["number"], row["piece"])
        for end in ("top", "bottom"):
            across, along = row[f"grain_{end}_u_mm"], row[f"grain_{end}_v_mm"]
            assert f"{end.capitalize()} end: {across} across, {along} along." in card
            assert offset_words(end, row[f"grain_{end}_right_of_lead_mm"]) in card
        assert f"Rule its grain line, {row['grain_length_mm']} mm" in card
        assert ("TURNED" in card) == (row["turned"] == "yes")
        turn, lean = float(row["turn_deg"]), float(row["lean_mm"])
        assert (f"turned {abs(turn):.2f}°" in card) == (lean != 0)
        assert {"up": "PAPER FACE UP", "down": "PAPER FACE DOWN", "half": "PAPER IS HALF"}[row["paper_face"]] in card


def card_of(texts: list[str], number: str, piece: str) -> str:
    (card,) = (text for text in texts if text.startswith(f"{number} · {piece[:18]}"))
    return card


def offset_words(end: str, offset: str) -> str:
    if not offset:
        return "PAPER"
    if float(offset) == 0:
        return f"{end.capitalize()} end: on the middle of"
    way = "left" if offset.startswith("-") else "right"
    return f"{end.capitalize()} end: {offset.lstrip('-')} mm to the {way} of the middle of"


def test_cards_say_the_places_of_the_marks_table(figures: Figures, texts: list[str]) -> None:
    rows = list(csv.DictReader(io.StringIO(stripe_marks_csv(figures).decode("utf-8"))))
    titles = {str(panel.number): panel.panel.piece.title for panel in figures.panels}
    edges: dict[tuple[str, ...], list[str]] = {}
    for row in rows:
        key = (row["number"], row["edge"], row["edge_length_mm"], row["from_corner_with"])
        edges.setdefault(key, []).append(row["at_mm"])
    assert edges
    for (number, edge, length, corner), places in edges.items():
        card, start = card_of(texts, number, titles[number]), f"{edge} edge ({length} long)"
        from_corner, measures = f"from its corner with the {corner} edge", f": {', '.join(places)}."
        once = f"measured along it {from_corner}, at" in card and f"{start}{measures}" in card
        assert once or f"{start}, {from_corner}{measures}" in card


def test_cards_and_readings_say_what_is_measured(laid: Project, figures: Figures, texts: list[str]) -> None:
    measurement = measure(laid)
    readings = " ".join(text for text in texts if text.startswith("Seam readings"))
    assert f"rms {measurement.rms_mm:.2f} mm" in readings
    for reading in measurement.read:
        assert reading.worst is not None
        assert reading.rms_mm is not None
        sewn, (worst, at) = reading.line.sewn, reading.worst
        assert f"{reading.rms_mm:.2f} {worst:.2f} {at:.0f}" in readings
        words = f"rms {reading.rms_mm:.2f} mm, worst {worst:.2f} mm at {at:.0f} mm down."
        for panel in (panel for panel in figures.panels if panel.name in reading.line.panels):
            card = card_of(texts, str(panel.number), panel.panel.piece.title)
            partner = sewn.b if sewn.a.startswith(f"{panel.name}/") else sewn.a
            assert re.search(re.escape(sewn.label) + ", to .*" + re.escape(f"({edge_of(partner)}): {words}"), card)


def test_the_plan_names_length_scale_and_every_panel(figures: Figures, texts: list[str]) -> None:
    for cloth in figures.cloths:
        plans = [text for text in texts if text.startswith(f"Cutting plan: {cloth.cloth.title}")]
        assert f"Length used {cloth.length_mm:.1f} mm" in plans[0]
        assert f"{cloth.used_share * 100:.1f} %" in plans[0]
        assert re.search(r"1 : \d+", plans[0])
        for panel in cloth.panels:
            assert any(re.search(rf"\b{panel.number}\b", text) for text in plans)


def test_cautions_stand_on_the_first_page_only(texts: list[str]) -> None:
    for words in ("Check the printed scale", "press it flat", "A cut can't be taken back", "fire code"):
        assert [words in text for text in texts] == [True] + [False] * (len(texts) - 1)


def test_a_plain_cloth_has_cards_without_stripes(many_pages: tuple[Leaf, ...]) -> None:
    words = " ".join(part.text for part in many_pages[-1].drawing.parts if isinstance(part, Text))
    assert "Lining" in words
    assert "stripe" not in words


def test_a_long_lay_is_shown_in_stretches_that_overlap_and_cover_it(
    many_gores: Project, many_pages: tuple[Leaf, ...]
) -> None:
    figures = figures_of(many_gores, measure(many_gores))
    texts = [" ".join(p.text for p in page.drawing.parts if isinstance(p, Text)) for page in many_pages]
    found = [re.search(r"from (\d+) to (\d+) mm of the cloth", text) for text in texts]
    stretches = [(int(match[1]), int(match[2])) for match in found if match]
    assert stretches[0][0] == 0
    assert stretches[-1][1] >= figures.cloths[0].length_mm
    assert all(after[0] < before[1] for before, after in itertools.pairwise(stretches))


def test_long_names_are_cut_short_with_an_ellipsis(many_pages: tuple[Leaf, ...]) -> None:
    cover = [part.text for part in many_pages[0].drawing.parts if isinstance(part, Text)]
    assert any(text.startswith("Gore at the side") and text.endswith("…") for text in cover)


def test_the_title_is_in_the_files_own_data(laid: Project, printed: bytes) -> None:
    document = pypdfium2.PdfDocument(printed)
    assert document.get_metadata_dict()["Title"] == laid.title
    document.close()


def test_names_in_letters_the_face_lacks_still_print(parasol: Project) -> None:
    odd = msgspec.structs.replace(parasol, title="Jupe d'été ő Юбка\tnew\nline")
    data = pdf_bytes(paper_pages(figures_of(odd, measure(odd))), odd.title)
    document = pypdfium2.PdfDocument(data)
    assert "Jupe d'été o ???? new line" in document[0].get_textpage().get_text_bounded()
    document.close()
