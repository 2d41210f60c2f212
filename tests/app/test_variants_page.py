"""Variants beside the cloth: kept, compared, gone to, renamed, deleted; and what would help, tried by a click."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLineEdit

from app.variants.figures import BEST
from core.files.project_file import project_from_bytes, project_to_bytes
from core.model.variants import variant_of


@pytest.fixture
def page(skirt):
    """The page of variants, seen, nothing kept yet."""
    skirt.actions_by_id["variants"].trigger()
    skirt.errands.matched.disconnect()
    return skirt.desk.variants


def rows(page) -> list[list[str]]:
    table = page.table
    items = [table.topLevelItem(index) for index in range(table.topLevelItemCount())]
    return [[item.text(column) for column in range(table.columnCount())] for item in items]


def names(page) -> list[str]:
    return [row[0] for row in rows(page)]


def settled(skirt, qtbot) -> None:
    """Queued signals of the table delivered."""
    qtbot.wait(1)


def test_what_is_kept_stands_beside_what_stands_and_is_gone_to_in_one_step(skirt, page, qtbot):
    document = skirt.document
    assert page.empty.isVisible()
    assert names(page) == ["As it stands"]
    assert not page.go.isEnabled()
    skirt.actions_by_id["keep-variant"].trigger()
    first, expected = document.kept, document.measurement.rms_mm
    document.select(("side.R",))
    skirt.edits.nudge(6, 0)
    skirt.edits.type_turn("back.R", 0.4)
    assert names(page) == ["As it stands", "Variant 1"]
    table = rows(page)
    shown = [float(row[1].removeprefix(BEST)) for row in table]
    assert shown == pytest.approx([document.measurement.rms_mm, expected], abs=0.005)
    assert shown[0] != shown[1]
    assert table[1][4] == f"{BEST}0.00"
    assert table[0][4] == "0.40"
    now, count = document.kept, document.undo.count()
    page.table.pick("Variant 1")
    page.go.click()
    assert document.kept == first
    assert document.undo.count() == count + 1
    assert not page.go.isEnabled()
    document.undo_step()
    assert document.kept == now
    page.table.pick("Variant 1")
    page.table.setFocus()
    QTest.keyClick(page.table, Qt.Key.Key_Return)
    settled(skirt, qtbot)
    assert document.kept == first


def test_a_name_is_changed_in_place_and_a_taken_one_is_refused(skirt, page, qtbot):
    for _ in range(2):
        page.keep()
    page.table.pick("Variant 2")
    page.rename.click()
    field = page.table.findChildren(QLineEdit)[-1]
    field.setText("by hand")
    QTest.keyClick(field, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: page.table.name == "by hand", timeout=60_000)
    assert names(page)[1:] == ["Variant 1", "by hand"]
    page.table.renamed.emit("by hand", "Variant 1")
    settled(skirt, qtbot)
    assert "already" in skirt.messages.text
    assert names(page)[1:] == ["Variant 1", "by hand"]
    page.table.pick("Variant 1")
    page.delete.click()
    assert names(page)[1:] == ["by hand"]
    skirt.document.undo_step()
    assert names(page)[1:] == ["Variant 1", "by hand"]


def test_what_would_help_is_worked_out_and_tried_by_a_click(skirt, page, qtbot):
    document, pane = skirt.document, page.help
    assert pane.intro.isVisible()
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.actions_by_id["advise"].trigger()
    reasons = pane.list.topLevelItem(1)
    assert reasons.childCount() == len(document.garment.seams)
    told = [reasons.child(1).child(i).text(0) for i in range(reasons.child(1).childCount())]
    assert any("leans differ" in words for words in told)
    before, count = document.kept, document.undo.count()
    change = pane.list.change
    assert change is not None
    group = pane.list.topLevelItem(0)
    flare = next(i for i in range(group.childCount()) if "flare" in group.child(i).text(0))
    pane.list.setCurrentItem(group.child(flare))
    assert "girth" in pane.note.text()
    change = pane.list.change
    pane.try_it.click()
    assert document.undo.count() == count + 1
    assert [variant.name for variant in document.kept.variants] == ["As it stood", change.what]
    assert document.measurement.rms_mm == pytest.approx(change.rms_mm, abs=1e-5)
    assert page.table.name == change.what
    assert not pane.try_it.isEnabled()
    assert "Go back" in pane.note.text()
    page.table.pick("As it stood")
    page.go.click()
    assert document.kept.pieces == before.pieces
    assert document.kept.placements == before.placements
    assert pane.try_it.isEnabled()


def test_working_it_out_can_be_cancelled(skirt, page, qtbot):
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        page.help.work_out.click()
        assert not page.help.work_out.isEnabled()
        skirt.jobs.cancel()
    assert page.help.work_out.isEnabled()
    assert page.help.list.change is None


def test_everything_follows_the_unit_the_theme_and_a_seam_that_goes(skirt, page):
    page.keep()
    skirt.actions_by_id["in"].trigger()
    assert page.table.headerItem().text(1) == "Rms\nin"
    assert float(rows(page)[0][1].removeprefix(BEST)) == pytest.approx(
        skirt.document.measurement.rms_mm / 25.4, abs=6e-4
    )
    skirt.actions_by_id["mm"].trigger()
    for _ in range(2):
        skirt.actions_by_id["dark"].trigger()
    kept = skirt.document.kept
    skirt.document.change("Take a seam out", msgspec.structs.replace(kept, seams=kept.seams[:-1]))
    again = project_from_bytes(project_to_bytes(skirt.document.kept))
    assert kept.seams[-1].name not in variant_of(again, "Variant 1").weights
