"""The translations that come with the program, and which of them is wanted. Knows no screen."""

import os
import struct
from collections.abc import Iterable
from gettext import GNUTranslations
from pathlib import Path

import platformdirs

from core.errors import BadInput
from core.files.atomic import write_atomically
from core.wording import tr

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
    """A language's own name: it stands in the head of its catalogue, of which no more is read."""
    path = folder() / f"{_STEM}{code}.mo"
    if not path.exists():
        return "English"
    lines = (line.partition(":") for line in _head(path).splitlines())
    return next((value.strip() for key, _, value in lines if key.strip().lower() == NAME_KEY), code)


def _head(path: Path) -> str:
    """The head of a catalogue: the translation of the empty text, which comes first in the file. The form is that of
    the GNU gettext manual, "The Format of GNU MO Files"."""
    with path.open("rb") as file:
        order = "<" if file.read(4) == b"\xde\x12\x04\x95" else ">"
        *_, strings = struct.unpack(f"{order}4I", file.read(16))
        file.seek(strings)
        length, start = struct.unpack(f"{order}2I", file.read(8))
        file.seek(start)
        return file.read(length).decode()


def best_of(wanted: Iterable[str]) -> str:
    """The first of the languages wanted that there is: `de_AT` or `de-AT` takes `de`; else English."""
    there = codes()
    for name in wanted:
        plain = name.partition(".")[0].replace("-", "_")
        for code in (plain, plain.partition("_")[0]):
            if code in there:
                return code
    return ENGLISH


def wanted(desktop: Iterable[str]) -> str:
    """The language to speak: of the environment's variable, else the one chosen last, else the desktop's; English
    where there is none of these."""
    asked = (os.environ.get(VARIABLE, ""), chosen())
    return best_of([*filter(None, asked), *desktop])


def of_the_environment() -> list[str]:
    """The language that the desktop tells programs without a screen, as POSIX has it (XBD 8.2)."""
    told = (os.environ.get(name, "") for name in ("LC_ALL", "LC_MESSAGES", "LANG"))
    return list(filter(None, told))[:1]


def chosen() -> str:
    """The language chosen last, or nothing for the desktop's."""
    try:
        return _kept().read_text(encoding="utf-8").strip()
    except (OSError, UnicodeDecodeError):
        return ""


def choose(code: str) -> None:
    """Speak a language from the next start on; with no code the desktop's. Raises BadInput if that can't be kept."""
    path = _kept()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        what = tr("it can't be written to ({strerror})", strerror=error.strerror)
        raise BadInput(what, str(path.parent), tr("a folder of your own")) from None
    write_atomically(path, code.encode())


def _kept() -> Path:
    return Path(platformdirs.user_config_dir("stripewright", appauthor=False)) / "language"
