import pytest
from PySide6.QtGui import QColor, QPalette
from PySide6.QtWidgets import QApplication, QLabel

from app.theme import ROLES, Size, Theme, apply_theme, current

GROUNDS = ("window", "surface", "raised", "selected")
TEXT_ON = [(text, ground) for text in ("text", "quiet") for ground in (*GROUNDS, "desk")]
TEXT_ON += [("warning", ground) for ground in ("window", "surface", "raised")]
TEXT_ON += [("on_accent", "accent"), ("ink", "halo"), ("flaw", "halo"), ("accent", "surface"), ("accent", "window")]
SHAPES_ON = [("edge", ground) for ground in ("window", "surface", "raised")]
SHAPES_ON += [("accent", ground) for ground in GROUNDS]


def luminance(colour: str) -> float:
    """Relative luminance, WCAG 2.2 (https://www.w3.org/TR/WCAG22/#dfn-relative-luminance)."""
    channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
    red, green, blue = (c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def contrast(one: str, other: str) -> float:
    """Contrast ratio, WCAG 2.2 (https://www.w3.org/TR/WCAG22/#dfn-contrast-ratio)."""
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_formula_gives_the_published_extremes():
    assert contrast("#000000", "#ffffff") == pytest.approx(21)
    assert contrast("#777777", "#ffffff") == pytest.approx(4.48, abs=0.01)


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("text", "ground"), TEXT_ON)
def test_text_stands_out_from_its_ground(dark, text, ground):
    assert contrast(ROLES[text][dark], ROLES[ground][dark]) >= 4.5


@pytest.mark.parametrize("dark", [False, True], ids=["light", "dark"])
@pytest.mark.parametrize(("shape", "ground"), SHAPES_ON)
def test_outlines_of_what_can_be_used_stand_out(dark, shape, ground):
    assert contrast(ROLES[shape][dark], ROLES[ground][dark]) >= 3


@pytest.mark.parametrize("colour", [colour for pair in ROLES.values() for colour in pair])
def test_every_colour_is_a_colour(colour):
    assert QColor(colour).isValid()


def test_the_whole_application_takes_the_theme(qapp: QApplication):
    for is_dark in (True, False):
        theme = apply_theme(qapp, is_dark)
        assert current() is theme
        label = QLabel("x")
        assert label.palette().color(QPalette.ColorRole.Window) == theme.colour("window")
        assert label.palette().color(QPalette.ColorRole.WindowText) == theme.colour("text")


def test_there_are_three_sizes_of_one_typeface(light: Theme):
    fonts = [light.font(size) for size in Size]
    assert len({font.family() for font in fonts}) == 1
    assert fonts[0].pointSizeF() < fonts[1].pointSizeF() < fonts[2].pointSizeF()


def test_figures_are_of_one_width(light: Theme, qapp: QApplication):
    from PySide6.QtGui import QFontMetricsF

    metrics = QFontMetricsF(light.font())
    assert len({round(metrics.horizontalAdvance(figure), 3) for figure in "0123456789"}) == 1


def test_a_colour_that_is_changed_by_its_user_stays_what_it_was_for_others(light: Theme):
    light.colour("text").setRgb(1, 2, 3)
    assert light.colour("text") == QColor(ROLES["text"][0])
