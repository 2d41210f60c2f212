"""Nothing is cut off in a small window, everything has a name, and the words are seen in light and dark."""

from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, Qt, SignalInstance
from PySide6.QtGui import QFontMetrics
from PySide6.QtWidgets import QApplication, QComboBox, QLabel, QPushButton, QStyle, QStyleOptionComboBox, QWidget

from app.pages.cloth_page import ClothPage
from app.pages.draft_page import DraftPage
from app.pages.form import Note
from app.pages.import_page import ImportPage
from app.pages.page import Page
from app.theme import apply_theme
from conftest import SAMPLES
from core.files.project_file import read_project


@pytest.fixture(params=["draft", "canopy", "cloth", "import", "add"])
def page(request, shown, tmp_path) -> Page:
    page = shown(_made(request.param, tmp_path))
    for section in page.form.sections + [s for form in getattr(page.form, "kinds", {}).values() for s in form.sections]:
        section.unfold()
    QApplication.processEvents()
    return page


def _made(kind: str, folder: Path) -> Page:
    parasol = read_project(SAMPLES / "pier-parasol.stripewright")
    if kind == "cloth":
        page = ClothPage()
        page.show_cloths(parasol.cloths, frozenset(), 600.0)
    elif kind in ("draft", "canopy"):
        page = DraftPage()
        page.form.kind.entry.show_value("canopy" if kind == "canopy" else "skirt")
    else:
        page = ImportPage(parasol if kind == "add" else None)
        drawing = folder / "gore.svg"
        drawing.write_text(
            '<svg xmlns="http://www.w3.org/2000/svg" width="200mm" height="400mm" viewBox="0 0 200 400">'
            '<path id="gore" d="M 60 10 L 140 10 L 190 390 L 10 390 Z"/></svg>'
        )
        page.open(drawing)
    return page


def visible(page: Page, kind: type) -> list:
    return [widget for widget in page.findChildren(kind) if widget.isVisible()]


def check_that_nothing_is_cut_off(page: Page) -> None:
    for choice in visible(page, QComboBox):
        option = QStyleOptionComboBox()
        choice.initStyleOption(option)
        field = choice.style().subControlRect(
            QStyle.ComplexControl.CC_ComboBox, option, QStyle.SubControl.SC_ComboBoxEditField, choice
        )
        for index in range(choice.count()) if choice.accessibleName() != "Cloth shown" else ():
            wide = QFontMetrics(choice.font()).horizontalAdvance(choice.itemText(index))
            assert wide <= field.width(), choice.itemText(index)
    for label in visible(page, QLabel):
        if label.wordWrap():
            assert label.heightForWidth(label.width()) <= label.height() + 1, label.text()
        elif label.text():
            assert label.sizeHint().width() <= label.width() + 1, label.text()
    for button in visible(page, QPushButton):
        assert button.sizeHint().width() <= button.width() + 1, button.text()


def check_that_everything_lies_inside(page: Page) -> None:
    for widget in visible(page, QWidget):
        left = widget.mapTo(page, QPoint(0, 0)).x()
        assert left >= 0, widget
        assert left + widget.width() <= page.width(), widget
    assert page.form.width() <= page.scroller.viewport().width()
    for button in (page.back, page.make):
        assert page.rect().contains(button.geometry())


def check_names_and_sizes(page: Page) -> None:
    for widget in visible(page, QWidget):
        inner = widget.objectName().startswith("qt_") or widget.focusProxy() or isinstance(widget.parent(), QComboBox)
        if widget.focusPolicy() & Qt.FocusPolicy.TabFocus and not inner:
            assert widget.accessibleName() or widget.property("text"), widget
            assert widget.height() >= 24, widget


def check_that_words_follow_light_and_dark(page: Page) -> None:
    def colours():
        return {note.palette().color(note.foregroundRole()).name() for note in visible(page, Note) if note.text()}

    light = colours()
    try:
        apply_theme(QApplication.instance(), dark=True)
        page.show_theme()
        assert not light & colours()
    finally:
        apply_theme(QApplication.instance(), dark=False)


def check_that_no_field_hides_a_method(page: Page) -> None:
    for widget in (page, page.form, *page.findChildren(QWidget)):
        own = {name for name, value in vars(widget).items() if not isinstance(value, SignalInstance)}
        assert not {name for name in own if name in dir(QWidget) and not name.startswith("__")}, widget


def test_a_page_is_whole_named_and_readable_in_a_small_window(page):
    check_that_nothing_is_cut_off(page)
    check_that_everything_lies_inside(page)
    check_names_and_sizes(page)
    check_that_no_field_hides_a_method(page)
    check_that_words_follow_light_and_dark(page)
