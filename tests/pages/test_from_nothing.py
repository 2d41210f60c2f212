"""From an empty window to a matched garment, with keys and mouse alone."""

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QMessageBox, QPushButton

from app.pages.draft_page import DraftPage
from conftest import SAMPLES
from core.draft.measures import USUAL_CLOTH, SkirtMeasures
from core.draft.skirt import draft_skirt
from core.matching.solve import match
from core.model.validate import validate
from pages_hands import chosen, clicked, typed


def button(parent, text: str) -> QPushButton:
    return next(button for button in parent.findChildren(QPushButton) if button.text() == text)


def test_a_skirt_is_drafted_and_matched_from_an_empty_window(window, qtbot):
    clicked(button(window.start, "New from measurements"))
    page = window.ways.page
    assert isinstance(page, DraftPage)
    skirt = page.form.chosen
    for name, text in (("waist", "70cm"), ("hip", "100,5 cm"), ("length_front", "28in"), ("sweep", "2 3/4yd")):
        typed(skirt.lengths[name].entry, text)
    clicked(button(page.form.cloth, "Enter the cloth…"))
    cloth = window.ways.page.form
    typed(cloth.stripes_along.width.entry, "30")
    typed(cloth.stripes_along.stripes.rows[0][1], "15")
    QTest.keyClick(window.ways.page, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    assert window.ways.page is page
    assert page.cloth.repeat.period == 30
    QTest.keyClick(page, Qt.Key.Key_Return, Qt.KeyboardModifier.ControlModifier)
    project = window.document.kept
    assert window.ways.page is None
    assert window.pages.currentWidget() is window.desk
    assert set(project.placements) == set(project.panel_names)
    (cloth,) = project.cloths
    assert (cloth.repeat.width, cloth.repeat.stripes[0].at) == (30, 15)
    assert msgspec.structs.replace(project, placements={}) == _skirt(
        waist=700, hip=1005, length_front=28 * 25.4, sweep=2.75 * 914.4, cloth=cloth
    )
    window.actions_by_id["match"].trigger()
    qtbot.waitUntil(lambda: not window.jobs.busy, timeout=60_000)
    assert window.document.measurement.rms_mm == pytest.approx(match(project).rms_mm, abs=1e-3)
    assert window.document.measurement.rms_mm < 1.0


def _skirt(**measures):
    return draft_skirt(SkirtMeasures(**measures)).project


def test_a_new_project_without_cloth_says_so_and_leads_to_the_cloth(window):
    window.actions_by_id["draft"].trigger()
    assert "stand-in" in window.ways.page.form.cloth.warning.text()
    clicked(window.ways.page.make)
    assert window.document.kept.cloths == (USUAL_CLOTH,)
    assert "stand-in" in window.messages.text
    clicked(button(window.messages, "Enter the cloth…"))
    assert window.ways.page.title.text() == "Cloth"
    QTest.keyClick(window.ways.page, Qt.Key.Key_Escape)
    assert window.ways.page is None


def test_a_new_project_counts_as_unsaved(window, monkeypatch):
    asked, answer = [], QMessageBox.StandardButton.Cancel
    monkeypatch.setattr(QMessageBox, "question", lambda *words: asked.append(words) or answer)
    window.actions_by_id["draft"].trigger()
    clicked(window.ways.page.make)
    assert window.isWindowModified()
    window.actions_by_id["draft"].trigger()
    clicked(window.ways.page.make)
    assert len(asked) == 1
    assert window.ways.page is not None  # the page stays, with all that was typed


def test_going_back_leaves_everything_as_it_was(window):
    assert window.filing.open_sample(SAMPLES / "harbour-skirt.stripewright")
    before = window.document.kept
    for action in ("draft", "cloth"):
        window.actions_by_id[action].trigger()
        assert not window.tools.isVisible()
        assert not window.actions_by_id["match"].isEnabled()
        QTest.keyClick(window.ways.page, Qt.Key.Key_Escape)
        assert window.document.kept is before
        assert window.tools.isVisible()
        assert window.actions_by_id["match"].isEnabled()


def test_another_project_puts_the_page_away(window):
    window.actions_by_id["draft"].trigger()
    assert window.filing.open_sample(SAMPLES / "pier-parasol.stripewright")
    assert window.ways.page is None
    assert window.pages.count() == 2


def test_a_canopy_is_drafted(window):
    window.actions_by_id["draft"].trigger()
    page = window.ways.page
    chosen(page.form.kind.entry, "canopy")
    typed(page.form.chosen.asked["radius"].entry, "20in")
    clicked(page.make)
    project = window.document.kept
    validate(project)
    assert len(project.pieces) == 8
