"""The translations that come with the program, and which of them is wanted. Knows no screen."""

from collections.abc import Iterable
from gettext import GNUTranslations
from pathlib import Path

ENGLISH = "en"
VARIABLE = "STRIPEWRIGHT_LANGUAGE"
"""The environment variable that overrules the desktop's language: a code such as `en` or `de`."""

NAME_KEY = "x-language-name"
"""The line in the head of a catalogue that has the language's own name."""

_HERE = Path(__file__).resolve().parent
_STEM = "stripewright_"


def folder() -> Path:
    """Where the translations lie."""
    return _HERE


def catalogue(code: str) -> GNUTranslations | None:
    """The translation into a language; None for English, and where there is none."""
    path = folder() / f"{_STEM}{code}.mo"
    if not path.exists():
        return None
    with path.open("rb") as file:
        return GNUTranslations(file)


def codes() -> list[str]:
    """The languages there are, English first."""
    return [ENGLISH, *sorted(path.stem.removeprefix(_STEM) for path in folder().glob(f"{_STEM}*.mo"))]


def name_of(code: str) -> str:
    """A language's own name."""
    found = catalogue(code)
    return found.info().get(NAME_KEY, code) if found else "English"


def best_of(wanted: Iterable[str]) -> str:
    """The first of the languages wanted that there is: `de_AT` or `de-AT` takes `de`; else English."""
    there = codes()
    for name in wanted:
        plain = name.partition(".")[0].replace("-", "_")
        for code in (plain, plain.partition("_")[0]):
            if code in there:
                return code
    return ENGLISH
