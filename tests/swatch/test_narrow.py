"""Stripes a pixel or two wide, and gaps as narrow between them, in made pictures whose truth is known."""

import pytest

from core.swatch.colour import difference, lab_of, light_of_hex
from core.swatch.picture import picture_of
from core.swatch.scale import PerPixel
from core.swatch.swatch import Swatch, read_swatch
from swatch.made import Made, picture
from swatch.test_made_cloths import assert_found

RED, CREAM, SKY, BROWN, GREEN, OCHRE = "#b8282e", "#ece2c8", "#8fb8dc", "#6b4a2f", "#3f7d45", "#bf8a30"
SPOILED = {"noise": 4, "blur_px": 0.6, "falloff": 0.3, "weave": 0.1, "size": (320, 160)}
GAPS = {
    "two gaps of two pixels, even": Made(
        5.3, ((1.16, 0.38, RED), (2.12, 0.7, CREAM), (3.08, 0.38, RED)), "#1d2a3f", angle_deg=1.5, **SPOILED
    ),
    "one gap of a pixel and a half, uneven": Made(
        3.1,
        ((0.78, 0.7, CREAM), (1.58, 0.34, SKY), (2.64, 0.26, CREAM)),
        "#1d2a3f",
        angle_deg=-2,
        even=False,
        **SPOILED,
    ),
    "two gaps of one pixel": Made(
        6.0, ((1.3, 0.6, SKY), (2.4, 1.2, OCHRE), (3.5, 0.6, SKY)), "#f8f6f2", angle_deg=3, **SPOILED
    ),
}
BLURRED = Made(
    1.29, ((0.258, 0.124, OCHRE), (0.58, 0.192, SKY), (0.967, 0.127, GREEN)), "#f8f6f2", 0.1, (320, 160), 1.2, noise=5,
    blur_px=1.1, even=False,
)  # fmt: skip


@pytest.mark.parametrize("name", GAPS)
def test_gaps_that_the_blur_closes_are_found(name: str) -> None:
    made = GAPS[name]
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    assert_found(swatch, made, made.mm_per_px)
    assert swatch.confidence > 0.5


def test_stripes_that_touch_get_no_gap() -> None:
    made = Made(8, ((2, 0.8, BROWN), (2.8, 0.8, SKY), (3.7, 1.0, BROWN)), even=False, **SPOILED)
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    assert_found(swatch, made, made.mm_per_px)
    edges = [(one.at + one.width / 2, other.at - other.width / 2) for one, other in _neighbours(swatch)]
    assert all(abs(one - other) < 0.02 for one, other in edges)


def _neighbours(swatch: Swatch) -> list[tuple]:
    return list(zip(swatch.repeat.stripes[:-1], swatch.repeat.stripes[1:], strict=True))


def test_colours_that_the_blur_hides_are_told_by_stripe() -> None:
    """What is off by more than three is named in a note, and the confidence is low."""
    swatch = read_swatch(picture_of(picture(BLURRED)), PerPixel(BLURRED.mm_per_px))
    told = next(note for note in swatch.notes if "too narrow" in note)
    truth = [lab_of(light_of_hex(colour)) for *_, colour in BLURRED.stripes]
    for stripe in swatch.repeat.stripes:
        nearest = min(difference(lab_of(light_of_hex(stripe.colour)), one) for one in truth)
        assert nearest < 3 or stripe.name in told
    assert swatch.confidence < 0.5


def test_stripes_wide_enough_are_told_without_doubt() -> None:
    made = Made(24, ((5, 1.2, RED), (12, 6, BROWN)), angle_deg=1, even=False, **SPOILED)
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    assert not any("narrow" in note for note in swatch.notes)
