"""Pictures without stripes, broken files and wrong scales are refused in one line."""

from pathlib import Path

import numpy as np
import pytest
import skimage
from PIL import Image
from scipy.ndimage import gaussian_filter

from core.errors import BadInput
from core.swatch.picture import open_picture, picture_of
from core.swatch.scale import Corners, PerPixel, by_dpi, by_marks, view_of
from core.swatch.swatch import read_swatch
from swatch.made import Made, picture

TEXTURES = Path(skimage.__file__).parent / "data"


@pytest.mark.parametrize("name", ["brick.png", "grass.png", "gravel.png", "coffee.png", "moon.png"])
def test_pictures_of_other_things_are_refused(name):
    with pytest.raises(BadInput, match="no stripes"):
        read_swatch(open_picture(TEXTURES / name), PerPixel(0.2))


def made_textures():
    rng = np.random.default_rng(3)
    grain = rng.normal(0, 1, (400, 560))
    cloudy = gaussian_filter(grain, 6)
    streaky = gaussian_filter(grain, (60, 2))
    for name, field in (("grain", grain), ("cloudy", cloudy), ("streaky", streaky)):
        yield name, np.clip(128 + 40 * field / field.std(), 0, 255).astype(np.uint8)[..., None].repeat(3, axis=2)


@pytest.mark.parametrize(("name", "pixels"), list(made_textures()))
def test_textures_without_stripes_are_refused(name, pixels):
    with pytest.raises(BadInput):
        read_swatch(picture_of(pixels), PerPixel(0.2))


def test_plain_cloth_is_refused():
    for made in (Made(24, (), size=(400, 300)), Made(24, (), size=(400, 300), noise=5, weave=0.1, falloff=0.4)):
        with pytest.raises(BadInput):
            read_swatch(picture_of(picture(made)), PerPixel(0.2))


def test_less_than_two_repeats_in_view_are_refused():
    made = Made(100, ((20, 30, "#23304d"), (60, 10, "#b8282e")), size=(600, 300), noise=3)
    with pytest.raises(BadInput, match="repeat"):
        read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))


@pytest.mark.parametrize(
    "content", [b"", b"no picture", b"\x89PNG\r\n\x1a\n" + b"\0" * 40, b"\xff\xd8\xff\xe0" + b"\0" * 90]
)
def test_files_that_are_no_pictures_are_refused(tmp_path, content):
    path = tmp_path / "cloth.png"
    path.write_bytes(content)
    with pytest.raises(BadInput) as caught:
        open_picture(path)
    assert "\n" not in str(caught.value)
    assert str(path) in str(caught.value)


def test_a_picture_cut_short_is_refused(tmp_path):
    path = tmp_path / "cloth.png"
    Image.fromarray(picture(Made(24, ((5, 6, "#23304d"),), size=(300, 200), noise=4))).save(path)
    path.write_bytes(path.read_bytes()[:3000])
    with pytest.raises(BadInput):
        open_picture(path)


def test_a_missing_file_a_tiny_and_a_vast_picture_are_refused(tmp_path):
    with pytest.raises(BadInput, match="No such file"):
        open_picture(tmp_path / "none.png")
    Image.new("RGB", (20, 20)).save(tmp_path / "tiny.png")
    with pytest.raises(BadInput, match="only 20 x 20"):
        open_picture(tmp_path / "tiny.png")
    Image.new("1", (16000, 9000)).save(tmp_path / "vast.png")
    with pytest.raises(BadInput, match="too large"):
        open_picture(tmp_path / "vast.png")


@pytest.mark.parametrize("mode", ["L", "P", "RGBA", "1", "CMYK", "I;16"])
def test_all_kinds_of_pixels_are_read(tmp_path, mode):
    pixels = Image.fromarray(picture(Made(24, ((5, 6, "#000000"),), ground="#ffffff", size=(120, 100))))
    path = tmp_path / "cloth.tif"
    if mode == "I;16":
        Image.fromarray(np.asarray(pixels.convert("L")).astype(np.uint16) * 257).save(path)
    else:
        pixels.convert(mode).save(path)
    light = open_picture(path).light
    assert light.shape == (100, 120, 3)
    assert light.min() < 0.05
    assert light.max() > 0.95


def test_scales_that_can_t_be_are_refused():
    square = ((0.0, 0.0), (100.0, 0.0), (100.0, 100.0), (0.0, 100.0))
    for wrong in (
        lambda: PerPixel(0),
        lambda: PerPixel(float("nan")),
        lambda: by_dpi(0),
        lambda: by_dpi(float("inf")),
        lambda: by_marks((0, 0), (3, 3), 10),
        lambda: by_marks((0, 0), (300, 3), -1),
        lambda: Corners(square, 0, 10),
        lambda: Corners(square[::-1], 10, 10),
        lambda: Corners((square[0], square[2], square[1], square[3]), 10, 10),
    ):
        with pytest.raises(BadInput):
            wrong()


def test_a_part_outside_the_picture_is_refused():
    pixels = picture_of(picture(Made(24, ((5, 6, "#23304d"),), size=(200, 150))))
    with pytest.raises(BadInput, match="part"):
        view_of(pixels, PerPixel(0.2), (300, 0, 500, 100))
