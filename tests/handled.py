"""What a hand or the keys can use in a widget, how large each thing is, and what it is called."""

from collections.abc import Iterator

from PySide6.QtCore import QModelIndex, QSize, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractScrollArea,
    QAbstractSpinBox,
    QApplication,
    QComboBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QMenu,
    QMenuBar,
    QTabBar,
    QTreeView,
    QWidget,
)

Target = tuple[str, QSize]
"""What can be hit, and how large it is, px."""

USED = (QAbstractButton, QAbstractSpinBox, QComboBox, QLineEdit, QAbstractItemView, QTabBar)
OF_QT = ("qt_", "ScrollLeftButton", "ScrollRightButton")


def told(widget: QWidget) -> str:
    """A widget in a report."""
    return f"{type(widget).__name__} {name_of(widget)!r} in {type(widget.parent()).__name__}"


def name_of(widget: QWidget) -> str:
    """What those who listen are told that a widget is."""
    words = widget.text() if isinstance(widget, QAbstractButton) else ""
    labels = [label.text() for label in widget.window().findChildren(QLabel) if label.buddy() is widget]
    return widget.accessibleName() or words or " ".join(labels)


def usable(holder: QWidget) -> list[QWidget]:
    """What can be used in a widget, without the parts that the toolkit's own widgets are made of."""
    return [w for w in holder.findChildren(QWidget) if w.isVisibleTo(holder) and _is_usable(w)]


def _is_usable(widget: QWidget) -> bool:
    if widget.objectName().startswith(OF_QT) or type(widget).__name__ == "QTableCornerButton":
        return False
    inner = isinstance(widget.parent(), QAbstractSpinBox | QComboBox) or _is_list_of_a_choice(widget)
    inner = inner or (isinstance(widget.parent(), QAbstractScrollArea) and widget.parent().viewport() is widget)
    takes_keys = bool(widget.focusPolicy() & Qt.FocusPolicy.TabFocus)
    return not inner and not isinstance(widget, QHeaderView) and (isinstance(widget, USED) or takes_keys)


def _is_list_of_a_choice(widget: QWidget) -> bool:
    return type(widget.window()).__name__ == "QComboBoxPrivateContainer"


def targets(holder: QWidget) -> Iterator[Target]:
    """Everything that can be hit: buttons and fields, tabs, heads of columns, rows, menus and their entries."""
    for widget in usable(holder):
        if isinstance(widget, QTabBar):
            rects = ((widget.tabText(tab), widget.tabRect(tab)) for tab in range(widget.count()))
            yield from ((f"tab {text!r}", rect.size()) for text, rect in rects)
        elif isinstance(widget, QAbstractItemView):
            yield from _rows(widget)
        elif not isinstance(widget, QLabel):
            yield told(widget), widget.size()
    for bar in holder.findChildren(QMenuBar):
        yield from ((f"menu {action.text()!r}", bar.actionGeometry(action).size()) for action in bar.actions())


def _rows(view: QAbstractItemView) -> Iterator[Target]:
    heads = [head for head in view.findChildren(QHeaderView) if head.isVisibleTo(view) and head.sectionsClickable()]
    yield from ((f"head of {told(view)}", QSize(99, head.height())) for head in heads if head.count())
    for row in range(view.model().rowCount(QModelIndex()) if view.model() else 0):
        size = view.visualRect(view.model().index(row, 0)).size()
        if size.height() and not (isinstance(view, QTreeView) and view.isRowHidden(row, QModelIndex())):
            yield f"row {row} of {told(view)}", QSize(99, size.height())


def entries(menu: QMenu) -> Iterator[Target]:
    """The entries of a menu that is up."""
    for action in menu.actions():
        if not action.isSeparator():
            yield f"entry {action.text()!r}", menu.actionGeometry(action).size()


def tabbed(window: QWidget, most: int = 250) -> list[QWidget]:
    """What the Tab key reaches, in order, from what has the keys and once round."""
    start = QApplication.focusWidget()
    seen, here = [], start
    while here is not None and here not in seen and len(seen) < most:
        seen.append(here)
        for _ in range(60):  # the cloth takes it once for every panel
            QTest.keyClick(here, Qt.Key.Key_Tab)
            if QApplication.focusWidget() is not here:
                break
        here = QApplication.focusWidget()
    return seen


def unreached(holder: QWidget, reached: list[QWidget]) -> list[QWidget]:
    """What can be used and was not reached. Of buttons of which one is down, Tab reaches that one, arrow keys the
    others; what is made of parts is reached by one of them."""
    groups = {button.group() for button in reached if isinstance(button, QAbstractButton) and button.group()}
    return [one for one in usable(holder) if one.isEnabled() and not _is_reached(one, reached, groups)]


def _is_reached(widget: QWidget, reached: list[QWidget], groups: set[object]) -> bool:
    in_group = isinstance(widget, QAbstractButton) and widget.group() in groups
    return in_group or any(widget is one or widget.isAncestorOf(one) for one in reached)
