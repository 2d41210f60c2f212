"""A page half filled in is kept with the work, and comes back as it was when its window is gone."""

import json
import re
import shutil

import msgspec
import numpy as np
import pytest
from PIL import Image, ImageDraw
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMessageBox

from app.pages.lengths import UNITS
from app.pages.swatch_form import MARKS
from app.safekeeping.folders import recovery_folder
from app.safekeeping.stamp import stamp_of
from core.files.project_file import project_to_bytes, read_project, write_project
from core.model.cloth import Cloth
from pages_hands import chosen, clicked, typed
from swatch.made import Made, picture

Buttons = QMessageBox.StandardButton
CLOTH = Made(20, ((5, 5, "#23304d"), (13, 2, "#b8282e")), size=(600, 400), noise=4, even=False)
GORES = """<svg xmlns="http://www.w3.org/2000/svg" width="900mm" height="900mm" viewBox="0 0 900 900">
<path id="front" d="M 60 60 Q 100 68 140 60 L 190 760 Q 100 790 10 760 Z"/>
<path id="side" d="M 310 60 Q 350 68 390 60 L 460 760 Q 350 800 240 760 Z"/>
<path id="back" d="M 610 60 Q 650 68 690 60 L 740 760 Q 650 790 560 760 Z"/>
</svg>"""


def stood(window) -> list[dict]:
    """What is kept, as a file has it."""
    return json.loads(json.dumps(window.ways.stand()))


def brought_back(window) -> list[dict]:
    """Leave the pages and fill them in again from what a file had; what stands then."""
    kept = stood(window)
    assert kept
    window.ways.leave_all()
    assert stood(window) == []
    window.ways.stand_again(kept)
    QTest.qWait(1)
    return kept


def assert_as_it_was(window, kept) -> None:
    """The same stands in the same pages; a cloth may say what goes without saying."""
    for now, before in zip(stood(window), kept, strict=True):
        cloths = [msgspec.convert(page.get("cloths", []), list[Cloth]) for page in (now, before)]
        assert cloths[0] == cloths[1]
        assert now | {"cloths": cloths} == before | {"cloths": cloths}


def marked(picture, *places) -> None:
    for place in places:
        QTest.mouseClick(picture, Qt.MouseButton.LeftButton, pos=picture._shown(place).toPoint())


@pytest.fixture
def skirt_form(window):
    window.ways.from_measurements()
    yield window.ways.page.form.chosen
    window.ways.leave_all()


def test_a_page_as_it_came_up_is_nothing_to_keep(window, harbour_skirt):
    window.ways.from_measurements()
    assert stood(window) == []
    window.filing.open_sample(harbour_skirt)
    for come_up in (window.ways.cloth, window.ways.repeat_from_picture, window.ways.from_photograph):
        come_up()
        assert stood(window) == []
        chosen(window.ways.page.unit_choice, UNITS[1])
        assert stood(window) == []
    window.ways.leave_all()


def test_measurements_come_back_as_they_were_typed(window, skirt_form):
    typed(skirt_form.lengths["waist"].entry, "27 1/2in")
    typed(skirt_form.lengths["hip"].entry, "not yet")
    chosen(skirt_form.choices["front"].entry, "seam")
    skirt_form.sections[2].head.click()
    said = window.ways.page.verdict.text()
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    page = window.ways.page
    assert page.form.chosen.lengths["waist"].entry.text() == "27 1/2in"
    assert page.form.chosen.sections[2].unfolded
    assert page.verdict.text() == said
    assert not page.make.isEnabled()


def test_a_table_that_stands_only_with_good_measurements_waits_for_them(window, skirt_form):
    chosen(skirt_form.choices["sharing"].entry, "own")
    typed(skirt_form.gores.rows[0][1], "91,5")
    typed(skirt_form.lengths["opening"].entry, "180")
    label = skirt_form.choices["opening_at"].entry.itemText(2)
    chosen(skirt_form.choices["opening_at"].entry, label)
    typed(skirt_form.lengths["waist"].entry, "")
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    form = window.ways.page.form.chosen
    typed(form.lengths["waist"].entry, "680")
    assert form.gores.rows[0][1].read() == 91.5
    QTest.qWait(1)
    assert form.choices["opening_at"].entry.read() == label
    (opened,) = [sewn for sewn in window.ways.page.draft.project.sewn if sewn.seam.open]
    assert opened.label == label


def test_a_length_that_was_not_typed_is_as_exact_as_before(window, own_copy):
    window.filing.open_path(own_copy)
    window.ways.cloth()
    page = window.ways.page
    page.form.wide.entry.show_value(1400.0123456)
    before = page.cloths
    brought_back(window)
    assert window.ways.page.cloths == before
    window.ways.leave_all()


def test_the_cloth_of_a_draft_comes_back_above_it(window, skirt_form):
    typed(skirt_form.lengths["sweep"].entry, "3 m")
    clicked(window.ways.page.form.cloth.enter)
    typed(window.ways.page.form.stripes_along.width.entry, "31")
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    assert [each["way"] for each in kept] == ["measurements", "cloth"]
    clicked(window.ways.page.make)
    assert window.ways.page.cloth.repeat.width == 31
    assert window.ways.page.form.chosen.lengths["sweep"].entry.read() == 3000


def test_cloths_come_back_with_outlines_counts_and_what_is_wrong(window, own_copy):
    window.filing.open_path(own_copy)
    window.ways.cloth()
    form = window.ways.page.form
    chosen(form.stripes_along.how.entry, "measured")
    typed(form.stripes_along.counts.rows.rows[0][1], "24,6 cm")
    form.stripes_along.counts.rows.add_new()
    clicked(window.ways.page.add)
    form.outlines.add("flaw")
    typed(form.outlines.corners.rows[2][0], "712.5")
    form.flaws.add_new()
    typed(form.flaws.rows[0][1], "wide")
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    page = window.ways.page
    assert "wide" in page.verdict.text()
    assert page.form.outlines.chosen[2][0] == 712.5
    typed(page.form.flaws.rows[0][1], "150")
    clicked(page.make)
    first, second = window.document.kept.cloths
    assert first.repeat.width == pytest.approx((24.6 + 22) / 2)  # 22 was proposed
    assert len(second.flaws) == 2


@pytest.fixture
def drawing(window, tmp_path):
    path = tmp_path / "three-gores.svg"
    path.write_text(GORES)
    window.ways.open_drawing(path)
    yield path
    window.ways.leave_all()


def test_what_is_asked_of_a_drawing_comes_back(window, drawing):
    page = window.ways.page
    page.look_at(1)
    typed(page.form.name.entry, "hip gore")
    typed(page.form.edges.rows[1][0], "seam")
    typed(page.form.edges.rows[1][1], "15")
    page.form.moved.emit(1)
    chosen(page.form.how.entry, "known")
    typed(page.form.known.entry, "720")
    for at in (QPointF(60, 60), QPointF(10, 760)):
        QTest.mouseClick(page.sheet.viewport(), Qt.MouseButton.LeftButton, pos=page.sheet.mapFromScene(at))
    made = page.project
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    assert window.ways.page.project == made
    assert "hip gore" in [piece.name for piece in window.ways.page.project.pieces]


def test_a_drawing_that_is_gone_is_one_line_and_the_page_is_there(window, drawing):
    typed(window.ways.page.form.allowance.entry, "20")
    kept = stood(window)
    drawing.unlink()
    window.ways.stand_again(kept)
    assert drawing.name in window.ways.page.verdict.text()
    assert window.ways.page.form.allowance.entry.read() == 20


def test_marks_in_a_photograph_come_back_and_so_do_pieces_traced_from_it(window, tmp_path, qtbot):
    sheet, path = [(60, 80), (654, 80), (654, 500), (60, 500)], tmp_path / "table.png"
    image = Image.new("L", (1300, 1000), 60)
    for shape in (sheet, [(820, 100), (1000, 100), (1140, 900), (700, 900)]):
        ImageDraw.Draw(image).polygon(shape, fill=215)
    image.save(path)
    window.ways.from_photograph()
    page = window.ways.page
    page.open(path)
    qtbot.waitUntil(lambda: not page.jobs.busy, timeout=60_000)
    marked(page.photo, *sheet[:3])
    chosen(page.unit_choice, UNITS[1])
    marks = page.photo.marks
    elsewhere = path.rename(tmp_path / "moved.png")
    kept = brought_back(window)
    qtbot.waitUntil(lambda: not window.ways.page.jobs.busy, timeout=60_000)
    assert path.name in window.ways.page.verdict.text()
    assert_as_it_was(window, kept)
    elsewhere.rename(path)
    kept = brought_back(window)
    page = window.ways.page
    qtbot.waitUntil(lambda: not page.jobs.busy, timeout=60_000)
    assert page.photo.marks == marks
    assert_as_it_was(window, kept)
    marked(page.photo, sheet[3])
    clicked(page.form.trace)
    qtbot.waitUntil(lambda: page.make.isEnabled(), timeout=60_000)
    clicked(page.make)
    typed(window.ways.page.form.name.entry, "gore")
    made = window.ways.page.project
    path.unlink()
    brought_back(window)
    assert window.ways.page.project == made
    qtbot.waitUntil(lambda: not window.ways._below[0].jobs.busy, timeout=60_000)
    window.ways.leave_all()


def test_a_repeat_found_in_a_picture_and_corrected_comes_back(window, own_copy, tmp_path):
    Image.fromarray(np.asarray(picture(CLOTH))).save(tmp_path / "cloth.png")
    window.filing.open_path(own_copy)
    window.ways.repeat_from_picture()
    page = window.ways.page
    page.open(tmp_path / "cloth.png")
    page.form.part.add_new()
    typed(page.form.part.rows[0][0], "20")
    page.form.part_asked.emit(False)
    chosen(page.form.way.entry, MARKS)
    marked(page.photo, (50, 200), (550, 200))
    clicked(page.form.find)
    typed(page.form.width.entry, "20,5")
    wanted = page._cloth()
    kept = brought_back(window)
    assert_as_it_was(window, kept)
    assert window.ways.page._cloth() == wanted
    assert window.ways.page.make.isEnabled()
    window.ways.leave_all()


# --- with its window gone


def left_as_by_a_crash(window) -> None:
    """What the window keeps, under another name, as a window leaves it that is gone."""
    assert window.keeper.rescue()
    for file in recovery_folder().glob(f"{window.keeper.path.stem}.*"):
        if file.suffix != ".lock":
            shutil.copy(file, file.with_name(f"1-a{file.suffix}"))


@pytest.fixture
def own_copy(tmp_path, harbour_skirt):
    path = tmp_path / "my skirt.stripewright"
    write_project(path, read_project(harbour_skirt))
    return path


def test_a_page_over_no_project_is_kept_offered_and_brought_back(window, skirt_form):
    typed(skirt_form.lengths["waist"].entry, "712")
    window.keeper.keep()
    left_as_by_a_crash(window)
    assert not window.keeper.path.exists()
    window.ways.leave_all()
    window.keeper.rescue()
    window.rescued.look()
    said = window.rescued.words.text()
    assert re.fullmatch(r".* saved: the page New from measurements from \d\d:\d\d, half filled in\.", said)
    clicked(window.rescued.back)
    assert window.document.is_empty
    assert window.ways.page.form.chosen.lengths["waist"].entry.text() == "712"
    assert [path.suffix for path in recovery_folder().iterdir() if path.stem == "1-a"] == []
    assert sum(path.suffix == ".json" for path in recovery_folder().iterdir()) == 1


def test_a_page_over_a_saved_project_comes_back_with_it_and_nothing_counts_as_changed(window, own_copy):
    window.filing.open_path(own_copy)
    window.ways.cloth()
    typed(window.ways.page.form.wide.entry, "1234")
    left_as_by_a_crash(window)
    window.ways.leave_all()
    window.filing.open_sample(own_copy)
    window.rescued.look()
    assert "my skirt" in window.rescued.words.text()
    assert "the page Cloth half filled in" in window.rescued.words.text()
    clicked(window.rescued.back)
    assert window.document.path == own_copy
    assert window.document.undo.isClean()
    assert window.filing.disk.stamp == stamp_of(own_copy)
    clicked(window.ways.page.make)
    assert window.document.kept.cloths[0].width == 1234


def test_saving_leaves_the_page_kept_and_leaving_the_page_ends_it(window, own_copy):
    window.filing.open_path(own_copy)
    window.edits.spread_new()
    window.ways.cloth()
    typed(window.ways.page.form.wide.entry, "1234")
    assert window.filing.save()
    assert window.keeper.rescue()
    assert project_to_bytes(read_project(window.keeper.path)) == own_copy.read_bytes()
    window.ways.leave_all()
    assert window.keeper.rescue()
    window.keeper.rescue()
    assert not window.keeper.path.with_suffix(".json").exists()


def test_what_another_version_kept_of_a_form_leaves_the_form_as_it_is(window, skirt_form):
    typed(skirt_form.lengths["waist"].entry, "712")
    kept = stood(window)
    kept[0]["form"]["entries"][0][0] = "Another"
    window.ways.stand_again([{"way": "unheard of", "title": ""}, *kept])
    assert window.ways.page.form.chosen.lengths["waist"].entry.read() == 680


@pytest.mark.parametrize(("answer", "left"), [(Buttons.Discard, True), (Buttons.Cancel, False)])
def test_a_page_half_filled_in_is_not_left_unasked_for_another_project(window, own_copy, monkeypatch, answer, left):
    asked = []
    monkeypatch.setattr(QMessageBox, "question", lambda *args: asked.append(args[2]) or answer)
    window.ways.from_measurements()
    page = window.ways.page
    assert window.filing.may_leave()
    typed(page.form.chosen.lengths["waist"].entry, "712")
    window.filing.open_path(own_copy)
    assert asked == ["Leave the page New from measurements? What was filled in there is lost."]
    assert window.document.is_empty is not left
    assert (window.ways.page is page) is not left
    window.ways.leave_all()


def test_making_the_project_that_a_page_is_for_asks_nothing(window, skirt_form, drawing, monkeypatch):
    monkeypatch.setattr(QMessageBox, "question", lambda *args: pytest.fail(args[2]))
    assert window.ways.page.way == "drawing"
    assert window.filing.may_leave()
    typed(window.ways.page.form.allowance.entry, "20")
    clicked(window.ways.page.make)
    assert not window.document.is_empty
    window.document.undo.setClean()
