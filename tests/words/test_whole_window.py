"""The whole workbench in a made-up language: no word that a person reads is left in English, none is cut off."""

import re

import pytest
from PySide6.QtCore import QLocale

from app.languages import catalogues
from conftest import SAMPLES
from made_up import made_up, unbracketed
from places import Places, furnished, nameless, places_of
from said import bare, cut_off, said_bare
from windows import whole_window

KNOWN = (
    *("Boathouse plaid", "Ferry apron", "Harbour skirt", "Pier parasol", "Skylight skirt"),
    *("format, version, title, cloths", "pieces, seams, match, placements", "heights, layers, strips, pockets"),
    *("done, variants", "Input data", "was truncated", ".stripewright", "[indigo··]"),
    *map(catalogues.name_of, catalogues.codes()),
)
"""Samples are called by their files, languages by themselves; keys of the file, and what the reader of JSON finds, are
English.
"""


@pytest.fixture
def places(qtbot, tmp_path, monkeypatch):
    """The workbench at 1280 by 720, speaking the made-up language."""
    monkeypatch.setattr("app.workbench.speak", lambda *_: QLocale.setDefault(QLocale("de")))
    whole = whole_window(qtbot, tmp_path, monkeypatch, 1280, 720)
    with made_up(), whole as window, places_of(window, tmp_path, qtbot) as places:
        yield places
    QLocale.setDefault(QLocale.c())


EDGE = re.compile(r"(waist|hip|hem|centre|front|back|left|right|rim|crown)(  [\d,]+ mm)?")
"""Edges of a pattern keep the names by which a file refers to them."""


class Report:
    """What is bare, once each, with the place where it was met first."""

    def __init__(self, known: tuple[str, ...]) -> None:
        self.known, self.found = known, {}

    def look(self, place: str, widget) -> None:
        for who, text, why in (*said_bare(widget, self.known), *cut_off(widget)):
            if not (place.startswith("page") and EDGE.fullmatch(unbracketed(text).strip())):
                self.found.setdefault((who, text), f"{place}: {who}: {text!r}: {why}")

    def look_at(self, place: str, texts: list[str]) -> None:
        for text in texts:
            if why := ", ".join(bare(text, self.known)):
                self.found[place, text] = f"{place}: {text!r}: {why}"

    def lines(self) -> str:
        return "\n".join(self.found.values())


def opened(places: Places, sample: str) -> None:
    project = nameless(SAMPLES / f"{sample}.stripewright")
    places.window.document.open(furnished(project) if sample == "boathouse-plaid" else project)
    places.window.edits.spread_new()


def test_every_page_dialog_picture_and_list_speaks_it(places, tmp_path):
    report = Report((*KNOWN, str(tmp_path)))
    report.look("start", places.window)
    opened(places, "boathouse-plaid")
    for name, widget in places.every():
        report.look(name, widget)
    assert not report.found, report.lines()


def test_what_is_said_of_deeds_speaks_it(places, tmp_path):
    report = Report((*KNOWN, str(tmp_path)))
    opened(places, "ferry-apron")
    for name, widget in places.deeds():
        report.look(name, widget)
    steps = places.window.document.undo
    report.look_at("failures", list(places.failures()))
    report.look_at("steps", [steps.text(index) for index in range(steps.count())])
    assert not report.found, report.lines()
