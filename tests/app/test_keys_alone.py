"""Every action of the table by the keys alone: by its own keys, by letters through the menus, and by arrow keys."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QMenu

from app.action_table import MENUS, TABLE, Row
from app.mnemonics import letter_of

ALT = Qt.KeyboardModifier.AltModifier


@pytest.fixture
def called(monkeypatch):
    """The actions that were called, by id, in place of what they do; made before the window is."""
    called: list[str] = []

    def caller(window, row: Row):
        return lambda *_: called.append(row.id)

    monkeypatch.setattr("app.actions._caller", caller)
    monkeypatch.setattr("app.window.allow_actions", lambda actions, there: None)
    return called


@pytest.fixture
def desk(called, skirt):
    """The skirt's window with the keys at the cloth, every action allowed and harmless."""
    skirt.activateWindow()
    skirt.desk.view.setFocus()
    return skirt


KEYED = [(row.id, key) for row in TABLE for key in row.keys.split("; ") if key]


def test_every_key_of_the_table_calls_its_action_from_the_cloth(desk, called):
    for name, keys in KEYED:
        called.clear()
        QTest.keySequence(desk.desk.view, QKeySequence(keys))
        assert called == [name], keys


def open_menu(window, title: str) -> QMenu:
    """Alt and the letter of a menu."""
    menu = next(action.menu() for action in window.menuBar().actions() if action.text() == title)
    QTest.keyClick(window, letter_of(title), ALT)
    assert menu.isVisible(), title
    return menu


@pytest.mark.parametrize("title", MENUS)
def test_every_action_is_called_by_letters_through_its_menu(desk, called, title):
    for row in (row for row in TABLE if row.menu == title):
        called.clear()
        menu = open_menu(desk, title)
        QTest.keyClick(menu, letter_of(desk.actions_by_id[row.id].text()))
        assert called[-1] == row.id  # of a group of which one is chosen, the one before is told too
        assert QApplication.activePopupWidget() is None


@pytest.mark.parametrize("title", MENUS)
def test_every_action_is_called_by_arrow_keys_through_its_menu(desk, called, title):
    for row in (row for row in TABLE if row.menu == title):
        called.clear()
        menu = open_menu(desk, title)
        for _ in menu.actions():
            QTest.keyClick(menu, Qt.Key.Key_Down)
            if menu.activeAction() is desk.actions_by_id[row.id]:
                break
        QTest.keyClick(menu, Qt.Key.Key_Return)
        assert called[-1] == row.id


def test_right_and_left_go_from_menu_to_menu_and_escape_leaves_them(desk):
    here = open_menu(desk, MENUS[0])
    titles = []
    for _ in MENUS:
        titles.append(here.menuAction().text())
        QTest.keyClick(here, Qt.Key.Key_Right)
        here = QApplication.activePopupWidget()
    assert titles == list(MENUS)
    QTest.keyClick(here, Qt.Key.Key_Escape)
    assert QApplication.activePopupWidget() is None


def test_a_letter_typed_into_a_field_is_no_action(desk, called):
    desk.document.select(("front.R",))
    desk.desk.show_sewing()
    desk.desk.sewing.tree.choose(desk.document.kept.seams[0].name)
    name = desk.desk.sewing.form.name
    name.setFocus()
    name.clear()
    QTest.keyClicks(name, "sohtjx[]+-0")
    assert name.text() == "sohtjx[]+-0"
    assert called == []


def test_plus_minus_and_0_zoom_and_fit_on_the_cloth(skirt):
    view = skirt.desk.view
    view.setFocus()
    whole = view.scale_px
    for key, scale in (("+", 1.25), ("=", 1.25**2), ("-", 1.25), ("+", 1.25**2)):
        QTest.keyClick(view, key)
        assert view.scale_px == pytest.approx(whole * scale)
    QTest.keyClick(view, "0")
    assert view.scale_px == pytest.approx(whole)


def test_arrows_move_what_is_selected_and_else_the_view(skirt):
    def place():
        return skirt.document.kept.placement("front.R")

    view, before = skirt.desk.view, place()
    view.setFocus()
    seen = view.seen().topLeft()
    QTest.keyClick(view, Qt.Key.Key_Right)
    assert place() == before
    assert view.seen().left() > seen.x()
    skirt.document.select(("front.R",))
    steps = (
        (Qt.KeyboardModifier.NoModifier, 1.0),
        (Qt.KeyboardModifier.ShiftModifier, 10.0),
        (Qt.KeyboardModifier.ControlModifier, 0.1),
        (Qt.KeyboardModifier.AltModifier, 0.1),
    )
    for keys, mm in steps:
        here = place()
        QTest.keyClick(view, Qt.Key.Key_Down, keys)
        assert place().v - here.v == pytest.approx(mm)
    assert place().u == before.u
