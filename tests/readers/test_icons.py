import xml.etree.ElementTree as ET

import numpy as np
import pytest
from PySide6.QtCore import QSize
from PySide6.QtGui import QIcon, QImage
from PySide6.QtWidgets import QApplication

from app.icons import icon
from app.resources import resource
from app.theme import apply_theme
from core.errors import CannotBeHad

NAMES = [
    *("open", "save", "undo", "redo", "match", "lay", "papers", "fit", "zoom-in", "zoom-out", "hold", "turn"),
    *("settle", "closeup", "garment", "cancel", "new", "measure"),
]


def drawn(name: str, ratio: float, mode: QIcon.Mode = QIcon.Mode.Normal) -> np.ndarray:
    """Channels of an icon of 24 px, shape (n, n, 4): blue, green, red, alpha."""
    image = icon(name).pixmap(QSize(24, 24), ratio, mode).toImage().convertToFormat(QImage.Format.Format_ARGB32)
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4).copy()


@pytest.mark.parametrize("ratio", [1.0, 1.5, 2.0])
@pytest.mark.parametrize("name", [*NAMES, "app"])
def test_every_icon_is_drawn_at_its_own_size(light, name, ratio):
    picture = drawn(name, ratio)
    assert picture.shape[:2] == (24 * ratio, 24 * ratio)
    assert 0.05 < (picture[..., 3] > 128).mean() < 0.9


@pytest.mark.parametrize("name", NAMES)
def test_icons_take_the_colour_of_text(qapp: QApplication, name):
    for is_dark in (True, False):
        theme = apply_theme(qapp, is_dark)
        picture = drawn(name, 2.0)
        solid = picture[picture[..., 3] == 255][:, :3]
        wanted = theme.colour("text").getRgb()[2::-1]
        assert np.abs(solid.astype(int) - wanted).max() <= 1


def test_a_disabled_icon_looks_it(light):
    assert not np.array_equal(drawn("match", 1.0), drawn("match", 1.0, QIcon.Mode.Disabled))


@pytest.mark.parametrize("name", NAMES)
def test_line_icons_share_grid_and_stroke(name):
    root = ET.parse(resource("icons", f"{name}.svg")).getroot()
    assert root.get("viewBox") == "0 0 24 24"
    assert (root.get("stroke"), root.get("stroke-width"), root.get("fill")) == ("currentColor", "1.5", "none")


@pytest.mark.parametrize("name", NAMES)
def test_line_icons_keep_clear_of_the_border(light, name):
    alpha = drawn(name, 2.0)[..., 3]
    assert not alpha[:4].any()
    assert not alpha[-4:].any()
    assert not alpha[:, :4].any()
    assert not alpha[:, -4:].any()


def test_what_is_missing_is_named():
    with pytest.raises(CannotBeHad, match="icons/no-such"):
        resource("icons", "no-such.svg")


def test_samples_are_found():
    assert resource("sample_projects", "harbour-skirt.stripewright").is_file()


def test_an_installed_program_finds_its_own_folders_first(tmp_path, monkeypatch):
    bundled = tmp_path / "_bundled" / "icons"
    bundled.mkdir(parents=True)
    (bundled / "open.svg").write_text("<svg/>")
    monkeypatch.setattr("app.resources._ROOTS", (tmp_path / "_bundled", tmp_path))
    assert resource("icons", "open.svg") == bundled / "open.svg"
