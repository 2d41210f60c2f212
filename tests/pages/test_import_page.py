"""The import page: the same pieces as the core makes, chosen by hand, scaled, named, added."""

from pathlib import Path

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app.pages.import_page import ImportPage
from conftest import SAMPLES
from core.draft.measures import USUAL_CLOTH
from core.files.pattern_in import read_drawing
from core.files.to_pieces import Wishes, project_from
from core.geometry.polyline import length
from core.model.panel import drawn_edges
from core.model.project import Project
from pages_hands import chosen, clicked, typed

SHEET = """<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" viewBox="0 0 900 900">
<path id="front" d="M 60 60 Q 100 68 140 60 L 190 760 Q 100 790 10 760 Z"/>
<path id="side" d="M 310 60 Q 350 68 390 60 L 460 760 Q 350 800 240 760 Z"/>
<path id="back" d="M 610 60 Q 650 68 690 60 L 740 760 Q 650 790 560 760 Z"/>
<rect id="check" x="800" y="20" width="50" height="50"/>
<path id="loose" d="M 800 300 L 850 340"/>
</svg>"""


@pytest.fixture
def drawing(tmp_path) -> Path:
    path = tmp_path / "three-gores.svg"
    path.write_text(SHEET)
    return path


@pytest.fixture
def page(shown, drawing) -> ImportPage:
    page = shown(ImportPage())
    page.open(drawing)
    return page


def as_core_makes_it(drawing: Path, **wishes) -> Project:
    wishes = {"cloth": USUAL_CLOTH, "title": drawing.stem, "ring": True} | wishes
    return project_from(read_drawing(drawing), Wishes(**wishes))[0]


def click_on_sheet(page: ImportPage, x: float, y: float) -> None:
    at = page.sheet.mapFromScene(QPointF(x, y))
    QTest.mouseClick(page.sheet.viewport(), Qt.MouseButton.LeftButton, pos=at)


def test_a_drawing_makes_the_pieces_that_the_core_makes(page, drawing):
    assert page.project == as_core_makes_it(drawing)
    assert len(page.project.seams) == 3


def test_lines_allowance_cut_and_corners_are_asked_as_the_core_has_them(page, drawing):
    form = page.form
    chosen(form.outline_is.entry, "cut")
    typed(form.allowance.entry, "1/2in")
    chosen(form.cut.entry, "pair")
    typed(form.corner.entry, "30")
    wanted = as_core_makes_it(drawing, outline_is="cut", allowance=12.7, cut="pair", corner_deg=30.0)
    assert page.project == wanted


def test_outlines_are_left_and_taken_by_a_click_on_the_sheet(page, drawing):
    click_on_sheet(page, 650, 400)  # looked at first
    assert page.form.name.entry.text() == "back"
    click_on_sheet(page, 650, 400)
    assert page.project == as_core_makes_it(drawing, only=("front", "side"))
    click_on_sheet(page, 825, 45)
    names = [piece.id for piece in page.project.pieces]
    assert names == ["front", "side", "check"]


def test_outlines_are_left_and_taken_in_the_list(page, qtbot):
    page.form.list.setFocus()
    page.form.list.setCurrentRow(1)
    QTest.keyClick(page.form.list, Qt.Key.Key_Space)
    qtbot.waitUntil(lambda: [piece.id for piece in page.project.pieces] == ["front", "back"], timeout=60_000)
    assert page.form.list.count() == 5
    for row in (0, 0):
        page.form.list.setCurrentRow(row)
        QTest.keyClick(page.form.list, Qt.Key.Key_Space)
        qtbot.wait(5)
    assert "no outline is chosen" in page.verdict.text()
    assert not page.make.isEnabled()


def test_the_order_of_the_list_is_the_order_of_the_ring(page):
    page.look_at(2)
    clicked(next(b for b in page.findChildren(type(page.back)) if b.text() == "Earlier"))
    assert [piece.id for piece in page.project.pieces] == ["front", "back", "side"]
    assert [seam.name for seam in page.project.seams] == ["front to back", "back to side", "side to front"]


def test_the_scale_comes_from_two_marks_on_a_known_length(page, drawing):
    chosen(page.form.how.entry, "known")
    assert "mark" in page.form.known.problem
    assert not page.make.isEnabled()
    click_on_sheet(page, 801, 21)  # near the corners: marks go to them
    click_on_sheet(page, 849, 19)
    typed(page.form.known.entry, "2in")
    assert page.project == as_core_makes_it(drawing, scale=50.8 / 50)
    chosen(page.form.how.entry, "square")
    typed(page.form.square.entry, "2in")
    assert page.project == as_core_makes_it(drawing, scale=50.8 / 50)
    chosen(page.form.how.entry, "factor")
    typed(page.form.factor.entry, "1,016")
    assert page.project == as_core_makes_it(drawing, scale=1.016)


def test_edges_get_names_and_allowances_of_their_own(page, drawing):
    edges = page.form.edges
    typed(edges.rows[1][0], "side seam")
    typed(edges.rows[2][1], "4cm")
    front, side, _ = page.project.pieces
    assert [(edge.name, edge.allowance) for edge in front.edges] == [
        ("waist", 12.7),
        ("side seam", 12.7),
        ("hem", 40.0),
        ("left", 12.7),
    ]
    assert {edge.allowance for edge in side.edges} == {12.7}
    assert page.project.seams[0].a == "front/side seam"
    typed(edges.rows[3][0], "hem")
    assert "'hem' stands 2 times" in page.verdict.text()
    assert not page.make.isEnabled()


def test_one_piece_is_turned_and_cut_on_the_fold(page):
    typed(page.form.turn.entry, "90")
    front = page.project.pieces[0]
    wide, high = (max(line[:, axis].max() for line in drawn_edges(front)) for axis in (0, 1))
    assert high < 2 * wide
    typed(page.form.turn.entry, "0")
    chosen(page.form.own_cut.entry, "fold")
    chosen(page.form.fold.entry, "right")
    front, side, _ = page.project.pieces
    assert (front.cut, front.fold, side.cut) == ("fold", "fold", "single")
    fold = next(line for edge, line in zip(front.edges, drawn_edges(front), strict=True) if edge.name == "fold")
    assert length(fold) == pytest.approx((50**2 + 700**2) ** 0.5, abs=1e-3)
    assert fold[-1, 1] > fold[0, 1]  # the half drawn is the wearer's right one


def test_a_ring_that_cannot_be_sewn_says_so(page):
    chosen(page.form.cut.entry, "pair")
    page.look_at(1)
    chosen(page.form.own_cut.entry, "single")
    assert "between pairs" in page.verdict.text()
    clicked(page.form.ring.entry)
    assert page.make.isEnabled()
    assert page.project.seams == ()


@pytest.mark.parametrize(
    ("content", "says"),
    [
        ("", "the file is empty"),
        ("hello", "neither SVG nor DXF nor PDF"),
        ('<svg xmlns="http://www.w3.org/2000/svg"/>', "draws no lines"),
        ("<svg", ""),
    ],
)
def test_a_file_that_is_no_drawing_is_told_in_one_line(page, tmp_path, content, says):
    path = tmp_path / "odd.svg"
    path.write_text(content)
    page.open(path)
    assert says in page.verdict.text()
    assert "\n" not in page.verdict.text()
    assert page.verdict.text().startswith("odd.svg")
    assert not page.make.isEnabled()
    page.make_it()


def test_an_open_line_alone_is_told(page, tmp_path):
    path = tmp_path / "open.svg"
    path.write_text(SHEET.replace(" Z", "").replace("rect", "g"))
    page.open(path)
    assert not page.make.isEnabled()
    told = [page.findings.list.item(index).text() for index in range(page.findings.list.count())]
    assert any("no outline is closed" in line for line in told), told


def test_a_drawing_becomes_a_new_project(window, drawing):
    window.ways.open_drawing(drawing)
    clicked(window.ways.page.make)
    assert msgspec.structs.replace(window.document.kept, placements={}) == as_core_makes_it(drawing)
    assert window.document.title == "three-gores"
    assert window.isWindowModified()


def test_pieces_are_added_to_the_open_project_as_one_step(window, drawing, monkeypatch):
    assert window.filing.open_sample(SAMPLES / "harbour-skirt.stripewright")
    document, before = window.document, window.document.kept
    monkeypatch.setattr("app.pages.ways_in.QFileDialog.getOpenFileName", lambda *_: (str(drawing), ""))
    window.actions_by_id["add-drawing"].trigger()
    page = window.ways.page
    assert page.make.text() == "Add to this project"
    clicked(page.make)
    after = document.kept
    assert after.pieces[: len(before.pieces)] == before.pieces
    new = as_core_makes_it(drawing, cloth=before.cloths[0])
    plain = [msgspec.structs.replace(piece, id="") for piece in new.pieces]
    assert [msgspec.structs.replace(piece, id="") for piece in after.pieces[len(before.pieces) :]] == plain
    assert len({piece.id for piece in after.pieces}) == len(after.pieces)
    assert len(after.sewn) == len(before.sewn) + 3
    assert (document.undo.count(), after.cloths, after.placements) == (2 - 1, before.cloths, before.placements)
    window.actions_by_id["undo"].trigger()
    assert document.kept == before


def test_a_dropped_drawing_opens_the_page(window, drawing):
    from PySide6.QtCore import QMimeData, QUrl
    from PySide6.QtGui import QDropEvent

    data = QMimeData()
    data.setUrls([QUrl.fromLocalFile(str(drawing))])
    left, none = Qt.MouseButton.LeftButton, Qt.KeyboardModifier.NoModifier
    window.dropEvent(QDropEvent(QPointF(10, 10), Qt.DropAction.CopyAction, data, left, none))
    assert isinstance(window.ways.page, ImportPage)
    assert len(window.ways.page.project.pieces) == 3


def test_of_many_pieces_the_last_words_are_kept_whatever_is_done_next(shown, tmp_path, qtbot):
    """Twenty gores are made again only when the keys rest, or when anything else is done."""
    gores = "".join(f"<path id='g{i}' d='M {60 + 200 * i} 60 l 80 0 l 30 400 l -150 0 Z'/>" for i in range(20))
    path = tmp_path / "twenty.svg"
    path.write_text(
        f"<svg xmlns='http://www.w3.org/2000/svg' width='4200mm' height='500mm' viewBox='0 0 4200 500'>{gores}</svg>"
    )
    page = shown(ImportPage())
    page.open(path)
    typed(page.form.name.entry, "first")
    page.look_at(1)
    typed(page.form.name.entry, "second")
    made = []
    page.made.connect(made.append)
    page.make_it()
    assert [piece.name for piece in made[0].pieces[:3]] == ["first", "second", "piece 3"]
    typed(page.form.allowance.entry, "20")
    qtbot.waitUntil(lambda: page.project.pieces[5].edges[0].allowance == 20, timeout=60_000)
