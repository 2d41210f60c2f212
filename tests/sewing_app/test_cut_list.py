"""The cut list beside the cloth: pieces ticked off, layers and strips, notions and cloths."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication

from app.derived_forms import LayerForm, PocketForm, StripForm
from app.errands import laid
from core.derive.count import cutting_list
from core.model.pattern import On
from core.model.project import Pocket, Strip
from core.model.validate import validate
from core.progress import silent
from core.seams.patch import patches
from skirts import MUSLIN

CHECKED, PARTLY, NOT = Qt.CheckState.Checked, Qt.CheckState.PartiallyChecked, Qt.CheckState.Unchecked


def items(window) -> dict[str, object]:
    return {item.text(0): item for item in window.desk.cut_list.tree._all()}


def asked(window, kind):
    QApplication.processEvents()
    return next(form for form in window.desk.cut_list.findChildren(kind) if form.isVisible())


def test_every_piece_stands_under_its_cloth_with_number_and_grain(full):
    rows = items(full)
    found = cutting_list(full.document.kept)
    for piece in found.pieces:
        item = rows[piece.name]
        assert item.parent().text(0) == full.document.kept.cloth(piece.cloth).title
        assert item.text(1) == str(piece.number)
        assert item.text(2) == (str(piece.number // 2) if piece.mirrored else "–")
        assert item.text(3) == piece.grain
    assert full.desk.cut_list.summary.text() == f"{found.count} pieces to cut, 0 of them cut"


def test_notions_and_cloths_are_those_of_the_list(full):
    found = cutting_list(full.document.kept)
    notions = dict(full.desk.cut_list.notions.rows)
    assert notions["Binding, both edges of all seams"] == f"{found.binding_mm:.0f}"
    assert notions["Braid round the hem, joined once"] == f"{found.braid_mm:.0f}"
    full.document.undo_step()  # nothing has a place
    rows = {row[0]: row for row in full.desk.cut_list.cloths.rows}
    assert rows["Stiff muslin"][2:] == ("–", "–", "–")
    assert rows["Boatshed ticking"][1] == f"{found.cloths[0].area_mm2 / 1e6:.3f}"


def test_a_laid_cloth_with_a_price_says_what_to_buy(full, monkeypatch):
    monkeypatch.setattr("app.errands.LAY_S", 0.3)
    full.document.change("Lay", laid(full.document.kept, silent, lambda *_: None).project)
    rows = {row[0]: row for row in full.desk.cut_list.cloths.rows}
    need = next(need for need in cutting_list(full.document.kept).cloths if need.cloth.id == MUSLIN.id)
    assert need.buy_mm >= need.length_mm / 0.96  # 4 % shrinkage
    assert rows["Stiff muslin"][3:] == (f"{need.buy_mm:.0f}", f"{need.buy_mm / 1000 * 6.5:.2f}")


def test_ticks_are_kept_in_the_project_and_taken_back(full):
    document = full.document
    items(full)["Front gore"].setCheckState(0, CHECKED)
    assert document.kept.done == ("front.R", "front.L")
    items(full)["Side gore L"].setCheckState(0, CHECKED)
    assert document.kept.done == ("front.R", "front.L", "side.L")
    assert items(full)["Side gore"].checkState(0) == PARTLY
    assert "3 of them cut" in full.desk.cut_list.summary.text()
    document.undo_step()
    assert items(full)["Side gore"].checkState(0) == NOT
    items(full)["Front gore R"].setCheckState(0, NOT)
    assert document.kept.done == ("front.L",)
    validate(document.kept)


def test_space_ticks_the_row_that_has_the_focus(full, qtbot):
    tree = full.desk.cut_list.tree
    tree.setFocus()
    tree.setCurrentItem(items(full)["Placket"])
    qtbot.keyClick(tree, Qt.Key.Key_Space)
    assert full.document.kept.done == ("placket",)
    assert tree.currentItem().text(0) == "Placket"


def test_a_row_that_is_chosen_selects_its_panels_on_the_cloth(full):
    tree = full.desk.cut_list.tree
    full.activateWindow()
    tree.setFocus()
    tree.setCurrentItem(items(full)["Back gore"])
    assert full.document.selection == ("back.R", "back.L")


def test_only_layers_and_strips_can_be_changed_or_removed(full):
    page = full.desk.cut_list
    page.tree.setCurrentItem(items(full)["Back gore"])
    assert not page.alter.isEnabled()
    page.tree.setCurrentItem(items(full)["Back gore, interlining"])
    assert page.alter.isEnabled()
    assert page.remove.isEnabled()


def test_a_layer_is_added_changed_and_removed_each_as_one_step(full):
    page, document = full.desk.cut_list, full.document
    before, steps = document.kept, document.undo.count()
    page.add_layer("hem facing")
    form = asked(full, LayerForm)
    form.name.setText("deep facing")
    form.depth.setText("25cm")
    for _, tick in form.pieces[1:]:
        tick.setChecked(False)
    form.accept()
    layer = document.kept.layers[-1]
    assert (layer.title, layer.kind, layer.of, layer.edge, layer.depth) == (
        "deep facing", "hem facing", ("front",), "hem", 250.0,
    )  # fmt: skip
    assert "Front gore, deep facing" in items(full)
    page.tree.setCurrentItem(items(full)["Front gore, deep facing"])
    page.change_chosen()
    form = asked(full, LayerForm)
    form.depth.setText("120")
    form.accept()
    assert document.kept.layers[-1].depth == 120.0
    page.tree.setCurrentItem(items(full)["Front gore, deep facing"])
    page.remove_chosen()
    assert document.kept == before
    assert document.undo.count() == steps + 3


def test_a_facing_deeper_than_the_piece_is_refused_in_the_form(full):
    full.desk.cut_list.add_layer("top lining")
    form = asked(full, LayerForm)
    kept = full.document.kept
    form.name.setText("too deep")
    form.depth.setText("2000")
    form.accept()
    assert form.isVisible()
    assert "depth reaches through" in form.wrong.text()
    form.depth.setText("deep")
    form.accept()
    assert form.wrong.wrong
    for _, tick in form.pieces:
        tick.setChecked(False)
    form.accept()
    assert "under no piece" in form.wrong.text()
    assert full.document.kept is kept
    form.reject()


def test_interlining_asks_for_no_edge(full):
    full.desk.cut_list.add_layer("interlining")
    form = asked(full, LayerForm)
    assert not form.edge.isVisibleTo(form)
    form.name.setText("second interlining")
    form.accept()
    assert full.document.kept.layers[-1].edge is None


def test_strips_are_added_changed_and_removed(full):
    page, document = full.desk.cut_list, full.document
    page.add_strip()
    form = asked(full, StripForm)
    form.accept()
    assert form.isVisible()
    assert "a length is missing" in form.wrong.text()
    form.name.setText("Carrier loop")
    form.length.setText("4in")
    form.width.setText("25,4")
    form.number.setValue(6)
    form.grain.show_value("bias")
    form.accept()
    added = Strip(
        id="carrier-loop", name="Carrier loop", length=101.6, width=25.4, number=6, cloth="muslin", grain="bias"
    )
    assert document.kept.strips[-1] == added
    page.tree.setCurrentItem(items(full)["Carrier loop"])
    page.change_chosen()
    form = asked(full, StripForm)
    form.number.setValue(8)
    form.accept()
    assert document.kept.strips[-1].number == 8
    page.tree.setCurrentItem(items(full)["Carrier loop"])
    page.remove_chosen()
    assert "carrier-loop" not in {strip.id for strip in document.kept.strips}


def test_a_patch_is_put_on_a_panel_and_moved_back_onto_its_stripes(full):
    page, document = full.desk.cut_list, full.document
    page.add_strip()
    form = asked(full, StripForm)
    for entry, text in ((form.name, "Patch"), (form.length, "150"), (form.width, "120")):
        entry.setText(text)
    assert not form.on.x.isVisible()
    form.on.panel.show_value("front.R")
    assert form.cloth.read() == document.kept.cloths[0].id
    form.on.x.setText("10")
    form.on.y.setText("8in")
    form.accept()
    assert document.kept.strips[-1].on == On(panel="front.R", at=(10.0, 203.2))
    full.edits.spread_new()
    assert [one.apart_mm for one in patches(document.cut)] == pytest.approx([0.0], abs=0.01)
    document.select(("front.R",))
    full.edits.nudge(3.0, 0.0)
    assert [one.apart_mm for one in patches(document.cut)] == pytest.approx([3.0], abs=0.01)
    full.edits.match_patches()
    assert [one.apart_mm for one in patches(document.cut)] == pytest.approx([0.0], abs=0.01)
    assert document.undo.undoText() == "Match patches"


def test_a_pocket_is_added_with_its_seam_left_open_changed_and_removed(full):
    page, document = full.desk.cut_list, full.document
    before = document.kept
    page.add_pocket()
    form = asked(full, PocketForm)
    form.name.setText("Watch pocket")
    form.seam.show_value("side back to back")
    form.start.setText("40")
    form.end.setText("2000")
    form.accept()
    assert form.isVisible()
    assert "its mouth goes from 40 to 2000 mm" in form.wrong.text()
    form.end.setText("90")
    form.number.setText("2")
    form.accept()
    added = Pocket(
        id="watch-pocket", name="Watch pocket", seam="side back to back", opening=(40, 90), width=160, depth=130,
        cloth="muslin", number=2, allowance=10,
    )  # fmt: skip
    assert document.kept.pockets[-1] == added
    assert next(seam for seam in document.kept.seams if seam.name == added.seam).open == (40, 90)
    page.tree.setCurrentItem(items(full)["Watch pocket, pocket bag"])
    page.change_chosen()
    form = asked(full, PocketForm)
    form.end.setText("100")
    form.accept()
    assert next(seam for seam in document.kept.seams if seam.name == added.seam).open == (40, 100)
    page.tree.setCurrentItem(items(full)["Watch pocket, pocket bag"])
    page.remove_chosen()
    assert document.kept.pockets == before.pockets


def test_the_list_is_not_worked_out_while_it_is_away(full, monkeypatch):
    full.desk.show_closeup()
    QApplication.processEvents()
    monkeypatch.setattr("app.cut_list.cutting_list", lambda *_: pytest.fail("worked out while the list was away"))
    full.edits.spread_out()
    full.desk.cut_list.follow()


def test_a_layer_that_can_not_be_had_is_named_and_can_be_removed(full):
    document, page = full.document, full.desk.cut_list
    deep = msgspec.structs.replace(document.kept.layers[1], depth=3000.0)
    document.open(msgspec.structs.replace(document.kept, layers=(deep,), pockets=(), strips=()))
    assert page.summary.wrong
    assert "hem facing" in page.summary.text()
    assert page.cloths.rows == ()
    page.tree.setCurrentItem(items(full)["Side gore, hem facing"])
    page.remove_chosen()
    assert page.summary.text() == "10 pieces to cut, 0 of them cut"
    assert len(page.cloths.rows) == 1
