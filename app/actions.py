"""Menus, toolbar and shortcuts, made from the table of actions."""

from collections.abc import Callable
from operator import attrgetter
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QToolBar

from app.action_table import MENUS, NAMED, TABLE, TOOLS, Row
from app.icons import icon
from app.words import tr

if TYPE_CHECKING:
    from app.window import Window


def make_actions(window: "Window") -> dict[str, QAction]:
    """An action for every row of the table, by id, connected to the window."""
    actions = {}
    for row in TABLE:
        action = actions[row.id] = QAction(tr(row.text), window, checkable=row.checkable, checked=row.checked)
        action.setShortcuts([QKeySequence(key) for key in row.keys.split("; ") if key])
        tip = tr(row.tip)
        action.setToolTip(f"{tip} ({keys_in_words(row.keys)[0]})" if row.keys else tip)
        action.setStatusTip(tip)
        signal = action.toggled if row.checkable else action.triggered
        signal.connect(_caller(window, row))
        window.addAction(action)
    return actions


def keys_in_words(keys: str) -> list[str]:
    """Keys of the table as they are called in the language of the screen."""
    return [QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText) for key in keys.split("; ")]


def _caller(window: "Window", row: Row) -> Callable[[bool], None]:
    """Calls a row's slot, with the check mark if it has one; what the slot belongs to is made when it is called."""

    def call(checked: bool = False) -> None:
        slot = attrgetter(row.slot)(window)
        slot(checked) if row.checkable else slot()

    return call


def tint_actions(actions: dict[str, QAction]) -> None:
    """Give the actions their icons in the colours of the current theme."""
    for row in TABLE:
        if row.icon:
            actions[row.id].setIcon(icon(row.icon))


def allow_actions(actions: dict[str, QAction], there: set[str]) -> None:
    """Enable the actions whose needs are there."""
    for row in TABLE:
        actions[row.id].setEnabled(not row.needs or row.needs in there)


def make_menus(window: "Window", actions: dict[str, QAction]) -> dict[str, QMenu]:
    """The menu bar, by the table."""
    menus = {name: window.menuBar().addMenu(tr(name)) for name in MENUS}
    for menu in menus.values():
        menu.setToolTipsVisible(True)
    for row in TABLE:
        if row.rule:
            menus[row.menu].addSeparator()
        menus[row.menu].addAction(actions[row.id])
    return menus


def make_tools(actions: dict[str, QAction]) -> QToolBar:
    """The toolbar."""
    bar = QToolBar(tr("Tools"), movable=False, floatable=False)
    bar.setAccessibleName(tr("Tools"))
    bar.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
    bar.setIconSize(QSize(24, 24))
    for index, group in enumerate(TOOLS):
        if index:
            bar.addSeparator()
        for name in group:
            bar.addAction(actions[name])
            button = bar.widgetForAction(actions[name])
            button.setAccessibleName(actions[name].text().replace("&", ""))
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            if name in NAMED:
                button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    return bar
