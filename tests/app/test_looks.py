"""Contrast of the workbench's colours, by the formula of WCAG 2.2 (relative luminance, SC 1.4.3 and 1.4.11)."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QLineEdit, QVBoxLayout, QWidget

from app.length_box import DegreeBox, LengthBox
from app.readings.grades import COLOURS
from app.theme import ROLES, Theme, apply_theme
from app.workbench import application

GROUNDS = ("window", "surface", "raised", "selected")
WORDS = [(role, ground) for role in ("text", "quiet", "warning") for ground in GROUNDS]
WORDS += [("on_accent", "accent"), ("ink", "halo"), ("text", "desk"), ("text", "good_band")]
SHAPES = [(role, ground) for role in ("edge", "accent") for ground in ("window", "surface", "raised", "desk")]
SHAPES += [("flaw", "halo"), ("chosen", "halo")]


def luminance(colour: QColor) -> float:
    parts = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in colour.getRgbF()[:3]]
    return 0.2126 * parts[0] + 0.7152 * parts[1] + 0.0722 * parts[2]


def contrast(one: QColor, other: QColor) -> float:
    dark, light = sorted((luminance(one), luminance(other)))
    return (light + 0.05) / (dark + 0.05)


def test_the_formula_gives_the_published_extremes():
    assert contrast(QColor("#000000"), QColor("#ffffff")) == pytest.approx(21.0)
    assert contrast(QColor("#767676"), QColor("#ffffff")) == pytest.approx(4.54, abs=0.01)


@pytest.mark.parametrize("dark", [False, True])
def test_words_stand_out_by_four_and_a_half(dark):
    poor = [(a, b) for a, b in WORDS if contrast(QColor(ROLES[a][dark]), QColor(ROLES[b][dark])) < 4.5]
    assert poor == []


OF_THE_PALETTE = [("WindowText", "Window"), ("Text", "Base"), ("PlaceholderText", "Base"), ("ButtonText", "Button")]
OF_THE_PALETTE += [("ToolTipText", "ToolTipBase"), ("HighlightedText", "Highlight"), ("Text", "AlternateBase")]
OF_THE_PALETTE += [("Link", "Base"), ("Link", "Window"), ("LinkVisited", "Base"), ("BrightText", "Window")]
"""What the toolkit writes on what, by its own roles; what can't be used is left out, as SC 1.4.3 has it."""


@pytest.mark.parametrize("dark", [False, True])
def test_what_the_toolkit_writes_stands_out_too(dark):
    palette = Theme(dark).palette()
    colours = [[palette.color(QPalette.ColorRole[name]) for name in pair] for pair in OF_THE_PALETTE]
    assert [pair for pair, both in zip(OF_THE_PALETTE, colours, strict=True) if contrast(*both) < 4.5] == []
    assert all(colour.alpha() == 255 for both in colours for colour in both)


@pytest.mark.parametrize("dark", [False, True])
def test_outlines_and_marks_stand_out_by_three(dark):
    poor = [(a, b) for a, b in SHAPES if contrast(QColor(ROLES[a][dark]), QColor(ROLES[b][dark])) < 3.0]
    assert poor == []


def test_grades_have_an_outline_that_stands_out_where_their_colour_does_not():
    """Orange is too pale on white by itself: marks are outlined in the colour of words, lines lie on halos."""
    on_white = {grade: contrast(QColor(colour), QColor(ROLES["halo"][0])) for grade, colour in COLOURS.items()}
    assert on_white["good"] >= 3
    assert on_white["poor"] >= 3
    for dark in (False, True):
        assert contrast(QColor(ROLES["text"][dark]), QColor(ROLES["surface"][dark])) >= 4.5


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("kind", [QLineEdit, lambda: LengthBox("Across", "")])
def test_a_field_has_a_border_that_is_seen_and_one_that_shows_the_focus(qtbot, dark, kind):
    app = application()
    apply_theme(app, dark)
    holder, other = QWidget(), QLineEdit()
    qtbot.addWidget(holder)
    field = kind()
    column = QVBoxLayout(holder)
    column.addWidget(other)
    column.addWidget(field)
    holder.show()
    holder.activateWindow()
    qtbot.waitUntil(holder.isActiveWindow, timeout=60_000)
    other.setFocus()
    ground = QColor(ROLES["surface"][dark])
    still = _border(field)
    assert contrast(still, ground) >= 3
    field.setFocus(Qt.FocusReason.TabFocusReason)
    qtbot.waitUntil(field.hasFocus, timeout=60_000)
    focused = _border(field)
    apply_theme(app, False)
    assert contrast(focused, ground) >= 3
    assert focused != still


@pytest.mark.parametrize("dark", [False, True])
@pytest.mark.parametrize("kind", [LengthBox, DegreeBox])
def test_what_stands_in_a_field_is_seen(qtbot, dark, kind):
    apply_theme(application(), dark)
    field = kind("Across", "")
    qtbot.addWidget(field)
    field.setValue(123.4)
    picture = field.grab().toImage()
    apply_theme(application(), False)
    inside = (picture.pixelColor(x, y) for x in range(4, picture.width() - 4) for y in range(4, picture.height() - 4))
    ground = QColor(ROLES["surface"][dark])
    assert sum(contrast(colour, ground) > 4.5 for colour in inside) > 40


def _border(field) -> QColor:
    return field.grab().toImage().pixelColor(0, field.height() // 2)
