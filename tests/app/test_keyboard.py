"""Everything can be reached with the keys alone, and says what it is; the window suits a small screen."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QAbstractButton, QApplication, QLabel, QWidget

from app.action_table import MENUS, TABLE
from app.mnemonics import letter_of, told_apart
from core.files.project_file import write_project
from core.model.cloth import Cloth
from core.model.project import Layer


def reached(window) -> list[QWidget]:
    """What Tab reaches in the window as it is, in order, once round from the cloth.

    The focus is moved for real: asking a widget for the next one in the chain hands the next one's life to the asked
    one's Python object (PySide6 6.11), and the headers of tables die when that is collected.
    """
    window.desk.view.setFocus()
    seen, here = [], window.desk.view
    while here not in seen:
        seen.append(here)
        window.focusNextChild()
        here = QApplication.focusWidget()
    return seen


def name_of(widget: QWidget) -> str:
    words = widget.text() if isinstance(widget, QAbstractButton) else ""
    labels = [label.text() for label in widget.window().findChildren(QLabel) if label.buddy() is widget]
    return widget.accessibleName() or words or " ".join(labels)


@pytest.mark.parametrize("side", ["show_closeup", "show_garment", "show_sewing", "show_cut_list"])
def test_everything_reached_says_what_it_is(skirt, side):
    skirt.document.select(("front.R",))
    getattr(skirt.desk, side)()
    widgets = reached(skirt)
    assert {skirt.desk.view, skirt.desk.inspector.u, skirt.desk.inspector.hold} <= set(widgets)
    assert [f"{type(it).__name__} in {it.parent()}" for it in widgets if not name_of(it)] == []


def entries(menu) -> list[QAction]:
    return [action for action in menu.actions() if not action.isSeparator()]


def test_every_action_is_reached_by_letters_alone(skirt, tmp_path):
    """Alt and a letter opens a menu, a letter picks an entry of it: no letter twice, none without one."""
    for name in ("R&D.stripewright", "Rain.stripewright", "Rd.stripewright"):
        write_project(tmp_path / name, skirt.document.kept)
        skirt.recent.remember(tmp_path / name)
    bar = skirt.menuBar().actions()
    menus = [action.menu() for action in bar]
    menus += [action.menu() for menu in menus for action in entries(menu) if action.menu()]
    for level in (bar, *map(entries, menus)):
        letters = [letter_of(action.text()) for action in level]
        assert all(letters), [action.text() for action in level]
        assert len(set(letters)) == len(letters), [action.text() for action in level]
    reached = {action for menu in menus for action in entries(menu)}
    assert set(skirt.actions_by_id.values()) <= reached
    assert {row.menu for row in TABLE} <= set(MENUS)


def test_letters_are_told_apart_and_marks_that_are_there_stay():
    assert told_apart(["&Save", "Save &as", "&Send", "Sue"]) == ["&Save", "Save &as", "S&end", "S&ue"]
    assert told_apart(["R&&D", "&Do"]) == ["&R&&D", "&Do"]
    assert told_apart(["&A", "&A"]) == ["&A", "A"]
    assert [letter_of(text) for text in ("R&&D", "&Öffnen", "a & b", "")] == ["", "ö", "", ""]


def test_no_shortcut_takes_a_key_that_the_cloth_needs(skirt):
    keys = [QKeySequence(key) for row in TABLE for key in row.keys.split("; ") if key]
    for own in ("Left", "Shift+Up", "Ctrl+Down", "Alt+Right", "Tab", "Shift+Tab", "Esc", "Space"):
        assert QKeySequence(own) not in keys
    assert len({key.toString() for key in keys}) == len(keys)


def test_tab_goes_through_the_panels_and_on(skirt):
    skirt.desk.view.setFocus()
    for name in skirt.desk.view.scene_here.panels:
        QTest.keyClick(skirt.desk.view, Qt.Key.Key_Tab)
        assert skirt.document.current == name
        assert QApplication.focusWidget() is skirt.desk.view
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is not skirt.desk.view


def test_the_cloth_shows_that_it_has_the_keys(skirt):
    def corner():
        return skirt.desk.view.viewport().grab().toImage().pixelColor(0, 100)

    skirt.desk.view.setFocus()
    with_keys = corner()
    skirt.desk.table.view.setFocus()
    assert corner() != with_keys


def test_a_screen_of_1280_by_720_is_enough(skirt):
    kept = skirt.document.kept
    cloths = (*kept.cloths, Cloth(id="muslin", name="Muslin of a very long name indeed", width=1500.0))
    layer = Layer(kind="interlining", of=("front",), cloth="muslin")
    skirt.document.change("Line it", msgspec.structs.replace(kept, cloths=cloths, layers=(layer,)))
    skirt.document.select(("front interlining.R",))
    QApplication.processEvents()
    assert skirt.width() == 1400
    assert skirt.minimumSizeHint().width() <= 1280
    skirt.resize(1280, 680)
    QApplication.processEvents()
    assert (skirt.width(), skirt.height()) == (1280, 680)
    assert skirt.minimumSizeHint().height() <= 720 - 40  # the desktop keeps a bar for itself
