"""The words on the screen: those of `core/wording`, in the language that is chosen."""

from collections.abc import Iterable
from typing import Any

from PySide6.QtCore import QCoreApplication, QLibraryInfo, QLocale, QTranslator

from app.languages import catalogues
from core.wording import later, listed, localised, number, set_catalogue, tr, tr_n

__all__ = ["later", "listed", "localised", "number", "speak", "spoken", "tr", "tr_n", "wanted"]


def spoken(choices: Iterable[tuple[str, Any]]) -> tuple[tuple[str, Any], ...]:
    """Choices of a table, each a text and its value, in the language of the screen."""
    return tuple((tr(text), value) for text, value in choices)


def wanted() -> str:
    """The language to speak on the screen."""
    return catalogues.wanted(QLocale.system().uiLanguages())


def speak(app: QCoreApplication, code: str) -> None:
    """Have the program speak a language: its own texts, numbers in its fields, and what the toolkit says itself."""
    set_catalogue(catalogues.catalogue(code))
    QLocale.setDefault(QLocale.c() if code == catalogues.ENGLISH else QLocale(code))
    translator = QTranslator(app)
    if translator.load(f"qtbase_{code}", QLibraryInfo.path(QLibraryInfo.LibraryPath.TranslationsPath)):
        app.installTranslator(translator)
