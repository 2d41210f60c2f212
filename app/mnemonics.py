"""Letters that pick an entry of a menu: one for every entry, none twice in a menu, in whatever language."""

import re
from collections.abc import Sequence

from PySide6.QtGui import QAction
from PySide6.QtWidgets import QMenu

_MARKED = re.compile(r"&&|&([^&\s])")
"""Two stand for the sign itself."""


def letter_of(text: str) -> str:
    """The letter that is marked in a text, in small; empty where there is none."""
    marked = (found[1] for found in _MARKED.finditer(text) if found[1])
    return next(marked, "").casefold()


def plain(text: str) -> str:
    """A text that somebody else wrote, as a menu shows it, with no letter marked."""
    return text.replace("&", "&&")


def told_apart(texts: Sequence[str]) -> list[str]:
    """The texts, each with a letter marked that no other has. A letter marked already stays with the first that has it;
    the others get the first of a word that is free, or else any."""
    letters, taken = [letter_of(text) for text in texts], set[str]()
    clash = []
    for index, letter in enumerate(letters):
        if letter and letter not in taken:
            taken.add(letter)
        else:
            clash.append(index)
    marked = list(texts)
    for index in clash:
        marked[index] = _marked(texts[index], taken)
        taken.add(letter_of(marked[index]))
    return marked


def _marked(text: str, taken: set[str]) -> str:
    """A text with a free letter marked, if it has one."""
    bare = _MARKED.sub(lambda found: found[1] or "&&", text)
    starts = [found.start() for found in re.finditer(r"(?<!\w)\w", bare)]
    others = [place for place, letter in enumerate(bare) if letter.isalnum() and place not in starts]
    free = (place for place in (*starts, *others) if bare[place].casefold() not in taken)
    place = next(free, None)
    return bare if place is None else f"{bare[:place]}&{bare[place:]}"


def tell_apart(menu: QMenu) -> None:
    """Give every entry of a menu a letter of its own."""
    actions: list[QAction] = [action for action in menu.actions() if not action.isSeparator()]
    for action, text in zip(actions, told_apart([action.text() for action in actions]), strict=True):
        if action.text() != text:
            action.setText(text)
