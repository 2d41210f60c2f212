"""In which order the Tab key goes. Qt orders widgets as they are made; here they go as they are laid out."""

from collections.abc import Iterator
from itertools import pairwise

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLayout, QScrollArea, QSplitter, QStackedWidget, QTabWidget, QWidget


def in_order(*widgets: QWidget) -> None:
    """Have Tab go from one of these to the next."""
    for before, after in pairwise(widgets):
        QWidget.setTabOrder(before, after)


def reached_in(part: QWidget) -> Iterator[QWidget]:
    """The part and what is laid out in it, as far as Tab stops there: from left to right and from top to bottom."""
    if part.focusPolicy() & Qt.FocusPolicy.TabFocus:
        yield part
    for inner in _parts(part):
        yield from reached_in(inner)


def _parts(widget: QWidget) -> Iterator[QWidget]:
    if isinstance(widget, QScrollArea):
        yield from filter(None, [widget.widget()])
    elif isinstance(widget, QSplitter | QStackedWidget | QTabWidget):
        yield from (widget.widget(at) for at in range(widget.count()))
    elif layout := widget.layout():
        yield from _laid(layout)


def _laid(layout: QLayout) -> Iterator[QWidget]:
    places = list(range(layout.count()))
    if isinstance(layout, QGridLayout):
        places.sort(key=layout.getItemPosition)
    for item in map(layout.itemAt, places):
        if inner := item.layout():
            yield from _laid(inner)
        elif widget := item.widget():
            yield widget
