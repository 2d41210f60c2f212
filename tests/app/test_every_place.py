"""Every page, dialog, picture and list in a small window: whatever can be used has a name, is large enough to hit, has
room for its words, and is reached by the Tab key in the order in which it is seen.

Target size: WCAG 2.2, SC 2.5.8 (24 by 24 px). The arrows of a scroll bar and the like are the toolkit's own.
"""

from itertools import pairwise

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QMenu, QWidget

from app.pages.page import Page
from app.theme import TARGET
from conftest import SAMPLES
from handled import entries, name_of, tabbed, targets, told, unreached, usable
from places import Places, furnished, nameless, places_of
from said import cut_off
from windows import whole_window

SMALL = (1280, 680)
"""A screen of 1280 by 720 px, less a bar of the desktop."""
ROW_PX = 20
"""What begins within so many px of a height lies in one row."""


@pytest.fixture
def places(qtbot, tmp_path, monkeypatch):
    with whole_window(qtbot, tmp_path, monkeypatch, *SMALL) as window, places_of(window, tmp_path, qtbot) as places:
        yield places


def open_plaid(places: Places) -> None:
    places.window.document.open(furnished(nameless(SAMPLES / "boathouse-plaid.stripewright")))
    places.window.edits.spread_new()


def small(found) -> list[str]:
    return [f"{who} {size.toTuple()}" for who, size in found if min(size.toTuple()) < TARGET]


def check(place: str, shown: QWidget) -> None:
    """What holds wherever a person is."""
    assert [told(one) for one in usable(shown) if not name_of(one)] == [], place
    assert small(targets(shown)) == [], place
    assert list(cut_off(shown)) == [], place
    reached = tabbed(shown)
    assert [told(one) for one in unreached(shown, reached)] == [], place
    check_order(place, [one for one in reached if one.window() is shown.window()])


def at(widget: QWidget) -> QPoint:
    return widget.mapTo(widget.window(), QPoint(0, 0))


def check_order(place: str, reached: list[QWidget]) -> None:
    """Down through a form and to the right in its rows; through the window once round, beginning at one place."""
    forms = [page.form for page in reached[0].window().findChildren(Page) if page.isVisible()]
    for form in forms:
        inside = [one for one in reached if form.isAncestorOf(one)]
        for one, other in pairwise(inside):
            below, right = at(other).y() - at(one).y(), at(other).x() - at(one).x()
            assert below >= ROW_PX or (below > -ROW_PX and right > 0), (place, told(one), told(other))


def ready(places: Places, shown: QWidget) -> None:
    shown.activateWindow()
    places.bot.waitUntil(shown.isActiveWindow, timeout=60_000)
    here = QApplication.focusWidget()
    if here is None or here.window() is not shown.window():
        shown.focusNextChild()


def test_every_place_suits_hands_ears_and_keys(places):
    ready(places, places.window)
    check("start", places.window)
    open_plaid(places)
    for place, shown in places.every():
        ready(places, shown)
        check(place, shown)
        assert places.window.size().toTuple() == SMALL, place


def test_menus_are_large_enough_to_hit(places):
    open_plaid(places)
    for menu in places.window.findChildren(QMenu):
        menu.popup(places.window.mapToGlobal(QPoint(40, 40)))
        assert small(entries(menu)) == []
        assert menu.height() <= SMALL[1], menu.title()
        menu.close()


def test_once_round_the_desk_keys_go_from_the_tools_to_the_cloth_and_on_to_what_is_beside_it(places):
    open_plaid(places)
    window, desk = places.window, places.window.desk
    for show, part in (("show_worn", "worn"), ("show_sewing", "sewing"), ("show_as_sewn", "as_sewn")):
        getattr(desk, show)()
        ready(places, window)
        desk.view.setFocus()
        window.document.select(tuple(window.document.panels)[-1:])
        reached = tabbed(window)
        tabs = desk.pictures.tabBar() if part == "worn" else desk.side.tabBar()
        beside, tools = getattr(desk, part), window.tools
        after_tabs, next_tools = reached[reached.index(tabs) + 1], [one for one in reached if tools.isAncestorOf(one)]
        assert reached.index(desk.view) < reached.index(tabs)
        assert after_tabs is beside or beside.isAncestorOf(after_tabs)
        assert [at(one).x() for one in next_tools] == sorted(at(one).x() for one in next_tools)
        assert desk.inspector.isAncestorOf(reached[reached.index(next_tools[-1]) + 1])
