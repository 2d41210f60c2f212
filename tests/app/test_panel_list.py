"""The list twin: everything that a hand does on the cloth is done from the list, by keys."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from app.panel_list import ACROSS, HEADS, LIES, PANEL, TURN, WORST


@pytest.fixture
def table(skirt):
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_F5)
    assert QApplication.focusWidget() is skirt.desk.panel_list.table
    return skirt.desk.panel_list.table


def press(table, key, keys=Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(table, key, keys)


def test_every_panel_has_a_row_that_says_where_it_lies(table, skirt):
    model, document = skirt.desk.panel_list.model, skirt.document
    assert model.names == tuple(document.cut.panel_names)
    for row, name in enumerate(model.names):
        at = document.kept.placement(name)
        assert model.text(row, ACROSS) == f"{at.u:.1f}".replace("-", "\u2212")
        worst = max(r.worst[0] for r in document.measurement.read if name in r.line.panels)
        figure, grade = model.text(row, WORST).split()
        assert float(figure) == pytest.approx(worst, abs=0.06)
        assert grade in ("good", "fair", "poor")
        said = model.data(model.index(row, ACROSS), Qt.ItemDataRole.AccessibleTextRole)
        assert said == f"Across {model.text(row, ACROSS)} mm"
    assert len(HEADS) == model.columnCount()


def test_the_selection_goes_both_ways(table, skirt):
    press(table, Qt.Key.Key_Home, Qt.KeyboardModifier.ControlModifier)
    press(table, Qt.Key.Key_Down)
    names = skirt.desk.panel_list.model.names
    assert skirt.document.selection == (names[1],)
    press(table, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert set(skirt.document.selection) == {names[1], names[2]}
    skirt.document.select((names[5],))
    assert {index.row() for index in table.selectionModel().selectedRows()} == {5}
    assert table.currentIndex().row() == 5


def test_places_and_turns_are_typed_into_the_list(table, skirt, qtbot):
    document, model = skirt.document, skirt.desk.panel_list.model
    name = model.names[3]
    for column, text, read in ((ACROSS, "321,5", "u"), (TURN, "0.25", "turn_deg")):
        table.setCurrentIndex(model.index(3, column))
        press(table, Qt.Key.Key_Return)
        editor = QApplication.focusWidget()
        QTest.keyClicks(editor, text)
        QTest.keyClick(editor, Qt.Key.Key_Return)
        qtbot.waitUntil(lambda: QApplication.focusWidget() is table, timeout=60_000)
        assert getattr(document.kept.placement(name), read) == pytest.approx(float(text.replace(",", ".")))


def test_keys_in_the_list_nudge_hold_and_turn(table, skirt):
    document, model = skirt.document, skirt.desk.panel_list.model
    table.setCurrentIndex(model.index(2, PANEL))
    name, start = model.names[2], document.kept.placement(model.names[2])
    alt, shift, ctrl = (getattr(Qt.KeyboardModifier, f"{key}Modifier") for key in ("Alt", "Shift", "Control"))
    for key, keys in ((Qt.Key.Key_Right, alt), (Qt.Key.Key_Right, alt | shift), (Qt.Key.Key_Down, alt | ctrl)):
        press(table, key, keys)
    at = document.kept.placement(name)
    assert (at.u - start.u, at.v - start.v) == pytest.approx((11.0, 0.1), abs=1e-6)
    press(table, Qt.Key.Key_H)
    assert document.kept.placement(name).hold
    assert model.text(2, LIES) == "held"
    assert not model.flags(model.index(2, ACROSS)) & Qt.ItemFlag.ItemIsEditable
    press(table, Qt.Key.Key_Z, ctrl)
    assert not document.kept.placement(name).hold
    press(table, Qt.Key.Key_BracketRight)
    assert document.kept.placement(name).turn_deg == pytest.approx(0.05)


def test_the_list_follows_a_drag_and_is_quiet_while_it_is_not_seen(table, skirt):
    model, name = skirt.desk.panel_list.model, skirt.desk.panel_list.model.names[0]
    at = skirt.document.kept.placement(name)
    skirt.document.try_placements({name: type(at)(u=at.u + 5, v=at.v)})
    assert model.text(0, ACROSS) == f"{at.u + 5:.1f}".replace("-", "\u2212")
    skirt.document.cancel_trial()
    skirt.desk.show_closeup()
    changes = []
    model.dataChanged.connect(lambda *_: changes.append(1))
    skirt.document.try_placements({name: type(at)(u=at.u + 5, v=at.v)})
    assert not changes
    skirt.document.cancel_trial()
