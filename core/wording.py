"""The words that a user reads, in the language set: one way for the thinking, the screen and the papers.

A sentence goes through `tr` as a literal, what changes in it as named values: `tr("{count} gores", count=3)`. What is
counted goes through `tr_n`, with a form for one and a form for more; a language may have others. Texts in tables that
are made on import stand in `later`, and go through `tr` when they are shown. Keys of files, kinds and ids stay English:
they are kept and compared. English needs no catalogue; another language is set once, at the start.
"""

from collections.abc import Iterable, Iterator
from contextlib import contextmanager
from gettext import NullTranslations
from string import Formatter
from typing import Any, TypeVar

Text = TypeVar("Text", bound=str)

DECIMAL_KEY = "x-decimal-mark"
"""The line in the head of a catalogue that says what parts whole numbers from decimals; a point without it."""

_catalogue = NullTranslations()
_mark = "."


def set_catalogue(catalogue: NullTranslations | None) -> None:
    """Speak the language of a catalogue from now on; English if None."""
    global _catalogue, _mark
    _catalogue = catalogue or NullTranslations()
    _mark = _catalogue.info().get(DECIMAL_KEY, ".")


@contextmanager
def speaking(catalogue: NullTranslations | None) -> Iterator[None]:
    """Speak another language while the block lasts."""
    before = _catalogue
    set_catalogue(catalogue)
    try:
        yield
    finally:
        set_catalogue(before)


def tr(text: str, **values: Any) -> str:
    """A text in the language set, the values put in their places; itself where there is no translation."""
    spoken = _catalogue.gettext(text) if text else ""
    return _FORMATTER.format(spoken, **values) if values else spoken


def tr_n(one: str, more: str, count: int, **values: Any) -> str:
    """A text about `count` things, in the form that the language has for so many; `{count}` stands for the number."""
    return _FORMATTER.format(_catalogue.ngettext(one, more, count), count=count, **values)


def later(text: Text) -> Text:
    """A text in a table that is made before the language is known: kept as it is, and gathered for translation."""
    return text


def number(value: float, places: int, signed: bool = False) -> str:
    """A number rounded to some decimals, with the language's decimal mark and no negative zero."""
    return localised(f"{round(value, places) + 0.0:{'+' if signed else ''}.{places}f}")


def localised(figure: str) -> str:
    """A number written with a point, with the language's decimal mark."""
    return figure if _mark == "." else figure.replace(".", _mark)


def listed(texts: Iterable[str]) -> str:
    """Several texts in a row, as a list in a sentence."""
    return tr(", ").join(texts)


class _Figures(Formatter):
    """Puts values into a text, numbers with the language's decimal mark."""

    def format_field(self, value: Any, format_spec: str) -> str:
        """One value; only a real number with a format can have a decimal mark."""
        shown = str(format(value, format_spec))
        return localised(shown) if format_spec and isinstance(value, int | float) else shown


_FORMATTER = _Figures()
