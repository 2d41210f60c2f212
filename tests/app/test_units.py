"""One choice of unit for the whole workbench; typed lengths are taken in any, with a point or a comma."""

from fractions import Fraction

import pytest
from PySide6.QtCore import QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QLabel

from app import units
from app.figures import drift, length, step
from app.length_box import LengthBox, typed_mm
from app.ruler_scale import divided, ruled
from core.errors import BadInput


@pytest.fixture(autouse=True)
def mm_again():
    units.forget()
    yield
    units.forget()


def typed(box: LengthBox, text: str) -> None:
    box.selectAll()
    QTest.keyClicks(box, text)
    QTest.keyClick(box, Qt.Key.Key_Return)


@pytest.mark.parametrize(
    ("text", "mm"),
    [("3 1/2 in", 88.9), ("3.5in", 88.9), ("3,5 cm", 35.0), ("89 mm", 89.0), ("89", 89.0), ("\u22122,5", -2.5)],
)
def test_a_length_is_taken_as_people_write_it(window, text, mm):
    assert typed_mm(text) == pytest.approx(mm)


def test_a_bare_number_counts_in_the_unit_shown(window):
    units.choose("in")
    assert typed_mm("3 1/2") == pytest.approx(3.5 * 25.4)
    with pytest.raises(BadInput):
        typed_mm("half a yard or so")


def test_inches_have_fractions_for_lengths_and_decimals_for_steps(window):
    units.choose("in")
    assert length(25.5 * 25.4) == "25 1/2"
    assert length(3.0) == str(Fraction(2, 16))
    assert step(2.54) == "0.100"
    assert drift(1000.0) == "36.000"
    units.choose("cm")
    assert (length(255.0), step(2.5), drift(1000.0)) == ("25.5", "0.25", "100.00")


@pytest.mark.parametrize("scale", [0.02, 0.1, 0.5, 1.7, 6.0, 40.0])
@pytest.mark.parametrize("name", units.NAMES)
def test_rulers_are_divided_into_whole_parts_of_the_unit(window, name, scale):
    units.choose(name)
    mm, parts = divided(scale, 56)
    assert mm * scale >= 56 or mm > 3000
    for index in range(4):
        text = ruled(index * mm)
        whole, _, share = text.rpartition(" ")
        read = float(Fraction(share)) + float(whole or 0)
        assert read * units.size_mm() == pytest.approx(index * mm, abs=0.06)
    assert parts >= 2


def test_the_choice_shows_everywhere_at_once_and_lasts(skirt):
    skirt.document.select(("side.R",))
    skirt.document.pick_seam(0)
    skirt.actions_by_id["in"].trigger()
    assert skirt.desk.inspector.u.suffix() == " in"
    assert skirt.desk.inspector.u.accessibleName() == "Across, in"
    assert skirt.desk.table.model.headerData(1, Qt.Orientation.Horizontal) == "Rms\nin"
    assert skirt.desk.table.model.headerData(4, Qt.Orientation.Horizontal) == "Drift\nin/yd"
    worst = skirt.document.measurement.seams[skirt.desk.table.model.seam_at(0)].worst
    assert float(skirt.desk.table.model.text(0, 2)) == pytest.approx(worst[0] / 25.4, abs=6e-4)
    assert "in rms" in skirt.desk.status.figure.text()
    assert " mm" not in skirt.desk.opened.closeup.accessibleDescription()
    shown = [label.text() for label in skirt.findChildren(QLabel) if label.isVisibleTo(skirt)]
    assert not [text for text in shown if text.endswith(" mm") or " mm " in text]
    assert QSettings().value("unit") == "in"
    skirt.actions_by_id["mm"].trigger()
    assert skirt.desk.inspector.u.suffix() == " mm"


def test_what_is_typed_in_inches_moves_the_panel_and_what_is_not_typed_changes_nothing(skirt):
    skirt.document.select(("side.R",))
    skirt.actions_by_id["in"].trigger()
    kept = skirt.document.kept
    box = skirt.desk.inspector.u
    box.setFocus()
    QTest.keyClick(box, Qt.Key.Key_Return)
    assert skirt.document.kept is kept
    typed(box, "10 1/4")
    assert skirt.document.kept.placement("side.R").u == pytest.approx(10.25 * 25.4, abs=1e-3)
    typed(box, "26,5 cm")
    assert skirt.document.kept.placement("side.R").u == pytest.approx(265.0, abs=1e-3)
    typed(box, "nonsense")
    assert skirt.document.kept.placement("side.R").u == pytest.approx(265.0, abs=1e-3)


def test_a_page_counts_in_the_same_unit_and_brings_its_own_back(skirt):
    skirt.actions_by_id["cm"].trigger()
    skirt.ways.cloth()
    page = skirt.ways.page
    assert page.unit.name == "cm"
    page.unit_choice.show_value(next(unit for unit in map(page.unit_choice.itemData, range(3)) if unit.name == "in"))
    page.left.emit()
    assert skirt.desk.inspector.u.suffix() == " in"
    assert skirt.actions_by_id["in"].isChecked()
    skirt.actions_by_id["mm"].trigger()
