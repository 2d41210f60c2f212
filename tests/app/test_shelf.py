"""Cloths on the shelf from within the workbench, what is left of a lay, and what counts in a match."""

import msgspec
import pytest
from PIL import Image
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMessageBox

from app.errands import left_of
from app.match_form import MatchForm
from app.safekeeping.folders import shelf_folder
from app.shelf.dialog import ICON, ShelfDialog
from app.shelf.keep_form import KeepForm
from conftest import SAMPLES
from core.draft.measures import USUAL_CLOTH
from core.files.shelf import on_shelf, put_on_shelf
from core.model.cloth import Cloth


@pytest.fixture
def shelf(tmp_path, monkeypatch):
    monkeypatch.setenv("STRIPEWRIGHT_SHELF", str(tmp_path / "shelf"))
    return shelf_folder()


@pytest.fixture
def plaid(window):
    assert window.filing.open_sample(SAMPLES / "boathouse-plaid.stripewright")
    return window


def dialog(window, kind):
    return next(one for one in window.findChildren(kind) if one.isVisible())


def test_an_empty_shelf_says_what_it_is_for(skirt, shelf):
    skirt.actions_by_id["shelf"].trigger()
    shown = dialog(skirt, ShelfDialog)
    assert shown.empty.isVisible()
    assert "Keep on the shelf" in shown.empty.text()
    assert not shown.take.isVisible()
    assert not shown.take_more.isVisible()
    shown.close_button.click()


def test_a_cloth_is_taken_as_one_more_or_in_the_place_of_the_one_shown(skirt, shelf):
    put_on_shelf(shelf, Cloth(id="main", width=900.0, name="Ferry check"))
    before = skirt.document.kept
    skirt.actions_by_id["shelf"].trigger()
    dialog(skirt, ShelfDialog).take_more.click()
    added = skirt.document.kept.cloths[-1]
    assert (added.name, added.width) == ("Ferry check", 900)
    assert added.id not in {cloth.id for cloth in before.cloths}
    skirt.actions_by_id["undo"].trigger()
    assert skirt.document.kept == before
    skirt.actions_by_id["shelf"].trigger()
    QTest.keyClick(dialog(skirt, ShelfDialog).list, Qt.Key.Key_Return)
    assert [cloth.id for cloth in skirt.document.kept.cloths] == [cloth.id for cloth in before.cloths]
    assert skirt.document.kept.cloths[0].name == "Ferry check"


def test_taking_off_for_good_is_asked_once_and_bad_files_are_told(skirt, shelf, monkeypatch):
    picture = shelf.parent / "corner.png"
    Image.new("RGB", (40, 20), "#406080").save(picture)
    put_on_shelf(shelf, USUAL_CLOTH, "from the market", picture)
    (shelf / "bad.stripewright-cloth").write_text("nothing")
    skirt.actions_by_id["shelf"].trigger()
    shown = dialog(skirt, ShelfDialog)
    assert shown.list.count() == 1
    assert "from the market" in shown.list.item(0).text()
    assert shown.picture.pixmap().toImage().pixelColor(5, 5).name() == "#406080"
    assert "bad.stripewright-cloth" in shown.faults.text()
    answers = [QMessageBox.StandardButton.Cancel, QMessageBox.StandardButton.Yes]
    asked = []
    monkeypatch.setattr(QMessageBox, "question", lambda *_: asked.append(1) or answers[len(asked) - 1])
    shown.away.click()
    assert len(on_shelf(shelf)[0]) == 1
    shown.away.click()
    assert on_shelf(shelf)[0] == ()
    assert shown.empty.isVisible()
    assert len(asked) == 2
    shown.close_button.click()


def test_a_remnant_is_shown_in_its_shape_with_what_it_lacks_and_its_bars(skirt, shelf):
    bars = {"width": 200.0, "stripes": ({"name": "bar", "at": 50.0, "width": 100.0, "colour": "#23304d"},)}
    cloth = {
        "id": "main",
        "width": 1000.0,
        "crosswise": {**bars, "ground": "#e9e1cf", "lead": "bar"},
        "remnant": {
            "outline": [[0, 0], [1000, 0], [1000, 400], [500, 400], [500, 800], [0, 800]],
            "holes": [[[100, 100], [300, 100], [300, 300], [100, 300]]],
        },
        "flaws": [[100, 500, 300, 700]],
    }
    put_on_shelf(shelf, msgspec.convert(cloth, Cloth))
    skirt.actions_by_id["shelf"].trigger()
    shown = dialog(skirt, ShelfDialog)
    whole = shown.whole.grab().toImage()
    icon = shown.list.item(0).icon().pixmap(ICON).toImage()

    def seen(u: float, v: float) -> str:
        return whole.pixelColor(shown.whole.mapFromScene(QPointF(u, v))).name()

    assert (seen(600, 50), seen(600, 150), seen(600, 250)) == ("#23304d", "#e9e1cf", "#23304d")
    there = {"#23304d", "#e9e1cf"}
    for u, v in ((200, 250), (800, 650), (200, 650)):
        assert seen(u, v) not in there
    scale = min(icon.width() / 1000, icon.height() / 800)
    assert icon.pixelColor(round(600 * scale), round(150 * scale)).name() == "#e9e1cf"
    assert icon.pixelColor(round(800 * scale), round(650 * scale)).name() not in there
    shown.close_button.click()


def test_the_cloth_page_keeps_and_takes(skirt, shelf):
    skirt.actions_by_id["cloth"].trigger()
    page = skirt.ways.page
    page.to_shelf.click()
    form = dialog(skirt, KeepForm)
    form.note.setText("the good one")
    form.keep()
    ((kept,), _) = on_shelf(shelf)
    assert (kept.kept.cloth, kept.kept.note) == (page.cloths[0], "the good one")
    assert "is on the shelf" in page.words.text()
    page.form.wide.entry.setText("900")
    page.from_shelf.click()
    dialog(skirt, ShelfDialog).take.click()
    assert page.cloths[0] == kept.kept.cloth
    page.from_shelf.click()
    dialog(skirt, ShelfDialog).take_more.click()
    assert len({cloth.id for cloth in page.cloths}) == len(skirt.document.kept.cloths) + 1
    page.form.wide.entry.setText("nothing")
    assert not page.to_shelf.isEnabled()


def test_what_is_left_goes_on_the_shelf_or_it_is_said_why_not(qtbot, skirt, shelf):
    project = skirt.document.kept
    endless = project.cloths[0]
    assert endless.length is None
    skirt.actions_by_id["keep-left"].trigger()
    qtbot.waitUntil(lambda: "length is not given" in skirt.messages.text, timeout=60_000)
    limited = msgspec.structs.replace(endless, length=20_000.0)
    skirt.document.change("Limit", msgspec.structs.replace(project, cloths=(limited, *project.cloths[1:])))
    skirt.edits.spread_new()
    skirt.actions_by_id["keep-left"].trigger()
    qtbot.waitUntil(lambda: any(one.isVisible() for one in skirt.findChildren(KeepForm)), timeout=60_000)
    form = dialog(skirt, KeepForm)
    assert skirt.document.kept.title in form.note.read()
    form.keep()
    ((kept,), _) = on_shelf(shelf)
    assert kept.kept.cloth == left_of(skirt.document.kept, limited.id)
    assert kept.kept.cloth.remnant is not None
    assert "is on the shelf" in skirt.messages.text


def test_what_counts_is_one_undo_step(skirt):
    before, steps = skirt.document.kept, skirt.document.undo.count()
    skirt.actions_by_id["what-counts"].trigger()
    form = dialog(skirt, MatchForm)
    form.keep()
    assert skirt.document.kept is before
    skirt.actions_by_id["what-counts"].trigger()
    form = dialog(skirt, MatchForm)
    assert not form.weight.isVisible()  # no bars
    form.on.show_value("lead")
    form.where.setCurrentIndex(form.where.findText(f"seam {before.seams[0].name}"))
    form.pairs.show_value(False)
    form.keep()
    match = skirt.document.kept.match
    assert (match.centre.on, match.centre.seam, match.mirror_pairs) == ("lead", before.seams[0].name, False)
    assert skirt.document.undo.count() == steps + 1
    skirt.actions_by_id["undo"].trigger()
    assert skirt.document.kept == before


def test_bars_are_weighed_and_a_wrong_weight_is_told(plaid):
    plaid.actions_by_id["what-counts"].trigger()
    form = dialog(plaid, MatchForm)
    form.weight.setText("-1")
    form.keep()
    assert "0 to 1e+06 is right" in form.told.text()
    form.weight.setText("0,5")
    form.keep()
    assert plaid.document.kept.match.crosswise_weight == 0.5
