"""A made-up language for the tests: what has gone through it stands in brackets, and is a third longer.

The words between the places of a text are bracketed one by one, so that a value that is put in bare shows as bare.
"""

import re
from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from functools import cache
from gettext import NullTranslations
from string import Formatter

from core.wording import DECIMAL_KEY, speaking

WORD = re.compile(r"[^\W\d_]{2,}")


class MadeUp(NullTranslations):
    """Knows the texts of the template and no others."""

    def __init__(self, texts: frozenset[str], longer: float = 1 / 3) -> None:
        super().__init__()
        self._info = {DECIMAL_KEY: ","}
        self.texts, self.longer = texts, longer

    def gettext(self, message: str) -> str:
        return bracketed(message, self.longer) if message in self.texts else message

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return self.gettext(msgid1 if n == 1 else msgid2)


@cache
def bracketed(text: str, longer: float = 1 / 3) -> str:
    parts = []
    for words, name, spec, conversion in Formatter().parse(text):
        plain = words.replace("{", "{{").replace("}", "}}")
        parts.append(f"[{plain}{'·' * round(len(words.replace('&', '')) * longer)}]" if WORD.search(words) else plain)
        if name is not None:
            parts.append("{" + name + (f"!{conversion}" if conversion else "") + (f":{spec}" if spec else "") + "}")
    return "".join(parts)


@cache
def template() -> frozenset[str]:
    from app.languages.gather import all_texts

    return frozenset(text for entry in all_texts() for text in entry)


@contextmanager
def made_up(longer: float = 1 / 3) -> Iterator[MadeUp]:
    """Everything speaks the made-up language while the block lasts."""
    language = MadeUp(template(), longer)
    with speaking(language):
        yield language


def bare_words(text: str, known: Iterable[str] = ()) -> list[str]:
    """Words of a shown text that stand in no brackets and are no names that are known."""
    left = unbracketed(text.replace("&", ""))
    for name in sorted(known, key=len, reverse=True):
        left = left.replace(name, " ")
    return WORD.findall(left)


def unbracketed(text: str) -> str:
    """What stands in no brackets."""
    left, inner = text, None
    while inner != left:
        inner, left = left, re.sub(r"\[[^\[\]]*\]", " ", left)
    return left
