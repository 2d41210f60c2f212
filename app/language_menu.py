"""The menu of the languages there are. Nothing is made anew while the program runs: another one is spoken from the next
start on."""

from collections.abc import Callable

from PySide6.QtGui import QActionGroup
from PySide6.QtWidgets import QMenu, QWidget

from app.languages import catalogues
from app.mnemonics import plain, tell_apart
from app.words import tr
from core.errors import BadInput

Told = Callable[[str], None]
"""Says a line to the user."""


def language_menu(said: Told, warned: Told, parent: QWidget) -> QMenu:
    """The desktop's language, and each there is by its own name; the one chosen is marked."""
    menu, one_of = QMenu(tr("La&nguage"), parent), QActionGroup(parent)
    names = {"": tr("As the desktop"), **{code: catalogues.name_of(code) for code in catalogues.codes()}}
    for code, name in names.items():
        action = menu.addAction(plain(name), lambda code=code: _choose(code, names[code], said, warned))
        action.setCheckable(True)
        action.setChecked(code == catalogues.chosen())
        one_of.addAction(action)
    tell_apart(menu)
    return menu


def _choose(code: str, name: str, said: Told, warned: Told) -> None:
    try:
        catalogues.choose(code)
    except BadInput as error:
        warned(str(error))
    else:
        said(tr("From the next start on: {language}.", language=name))
