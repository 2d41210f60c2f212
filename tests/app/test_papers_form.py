"""The choices about the papers: asked for before the folder, remembered, and handed on."""

import pytest
from PySide6.QtWidgets import QDialogButtonBox

from app.papers_form import PapersForm, keep_choices, kept_choices
from conftest import SAMPLES
from core.files.project_file import read_project
from core.model.panel import panels_of
from core.papers.choices import PaperChoices
from core.papers.page_count import about_tile_pages


@pytest.fixture(scope="module")
def panels():
    project = read_project(SAMPLES / "harbour-skirt.stripewright")
    return tuple(panel for piece in project.pieces for panel in panels_of(piece))


@pytest.fixture
def form(qtbot, panels):
    keep_choices(PaperChoices())
    taken = []
    form = PapersForm(panels, taken.append)
    qtbot.addWidget(form)
    form.taken = taken
    return form


def test_what_is_chosen_is_handed_on_and_there_the_next_time(form):
    form.paper.show_value("letter")
    form.units.show_value("in")
    form.lines.show_value("net")
    form.roll.setValue(610.0)
    for part, tick in form.parts.items():
        tick.show_value(part in ("full size", "lists"))
    form.accept()
    wanted = PaperChoices("letter", "in", "net", frozenset({"full size", "lists"}), 610.0)
    assert form.taken == [wanted]
    assert kept_choices() == wanted
    keep_choices(PaperChoices())


def test_nothing_is_handed_on_by_cancel(form):
    form.paper.show_value("a3")
    form.reject()
    assert form.taken == []
    assert kept_choices() == PaperChoices()


def test_without_a_paper_there_is_nothing_to_write(form):
    for tick in form.parts.values():
        tick.show_value(False)
    assert not form.buttons.button(QDialogButtonBox.StandardButton.Ok).isEnabled()
    assert "at least one" in form.pages.text()


def test_about_how_many_pages_is_told_and_follows_paper_and_lines(form, panels):
    """40 pages of A4 were counted for the sample with both lines, and 19 of A3."""
    assert abs(about_tile_pages(panels, PaperChoices()) - 40) <= 2
    assert abs(about_tile_pages(panels, PaperChoices(paper="a3")) - 19) <= 2
    assert f"about {about_tile_pages(panels, PaperChoices())}" in form.pages.text()
    form.paper.show_value("a3")
    assert f"about {about_tile_pages(panels, PaperChoices(paper='a3'))}" in form.pages.text()
