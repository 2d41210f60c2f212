"""The words on the screen, in the user's language where there is a translation.

A text that a user reads goes through `tr`, as a literal; what changes in it is put in afterwards:
`tr("{count} panels").format(count=3)`. Texts in tables that are made on import stand in `later`, and go through `tr`
when they are shown.
"""

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import QCoreApplication, QLocale, QTranslator

from app.resources import language_file


def tr(text: str) -> str:
    """A text in the language of the screen; itself where there is no translation."""
    return QCoreApplication.translate("", text) if text else ""


def later(text: str) -> str:
    """A text in a table that is made before the language is known: kept as it is, and gathered for translation."""
    return text


def spoken(choices: Iterable[tuple[str, Any]]) -> tuple[tuple[str, Any], ...]:
    """Choices of a table, each a text and its value, in the language of the screen."""
    return tuple((tr(text), value) for text, value in choices)


def speak(app: QCoreApplication, locale: QLocale | None = None) -> QTranslator | None:
    """Have the screen speak a language, the desktop's own if none is given; None where it stays English."""
    locale = locale or QLocale()
    for name in (locale.name(), QLocale.languageToCode(locale.language())):
        path = language_file(name)
        translator = QTranslator(app)
        if path and translator.load(str(path)):
            app.installTranslator(translator)
            return translator
    return None
