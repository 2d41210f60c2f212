"""Checks and plaids: both ways read from one picture, colours where the other way shows its ground, the bars' skew."""

import pytest

from core.swatch.picture import picture_of
from core.swatch.scale import PerPixel
from core.swatch.swatch import read_swatch
from swatch.made import Fold, Made, folded, mixed, picture, plaid
from swatch.test_made_cloths import CLOTHS, GREEN, NAVY, RED, assert_found

GROUND = "#e9e1cf"
SPOILED = {"noise": 4, "blur_px": 0.8, "falloff": 0.25, "weave": 0.08, "size": (560, 420)}

PLAIDS = {
    "a tartan of two": (
        Made(24, ((6, 5, NAVY), (16, 2, RED)), even=False, angle_deg=1.5, **SPOILED),
        Made(18, ((4, 3, GREEN), (12, 1.6, RED)), even=False),
        2.0,
    ),
    "a windowpane": (
        Made(28, ((9, 1.6, NAVY),), angle_deg=-2, **SPOILED),
        Made(21, ((5, 1.6, NAVY),)),
        -3.0,
    ),
    "gingham": (Made(14, ((5, 7, RED),), **SPOILED), Made(14, ((3, 7, RED),)), 0.0),
    "faint bars under bold stripes": (
        Made(20, ((5, 8, NAVY), (14, 2, RED)), even=False, angle_deg=0.8, **SPOILED),
        Made(30, ((8, 3, "#cdb892"),)),
        1.0,
    ),
}


def as_seen(made: Made, other: Made) -> Made:
    """The colours of one way where it crosses the ground of the other: half of its yarns, half of those."""
    stripes = tuple((at, width, mixed(colour, other.ground)) for at, width, colour in made.stripes)
    return Made(made.repeat_mm, stripes, ground=mixed(made.ground, other.ground), even=made.even)


@pytest.mark.parametrize("name", PLAIDS)
def test_stripes_and_bars_are_found(name):
    stripes, bars, skew = PLAIDS[name]
    swatch = read_swatch(picture_of(plaid(stripes, bars, skew)), PerPixel(stripes.mm_per_px))
    assert_found(swatch, as_seen(stripes, bars), stripes.mm_per_px)
    assert_found(swatch.crosswise, as_seen(bars, stripes), stripes.mm_per_px)
    assert swatch.weft_skew_percent == pytest.approx(skew, abs=0.1)
    assert swatch.angle_deg == pytest.approx(stripes.angle_deg, abs=0.05)


def test_stripes_nearer_to_upright_are_the_lengthwise_ones():
    stripes, bars, skew = PLAIDS["a tartan of two"]
    pixels = plaid(stripes, bars, skew).transpose(1, 0, 2)[:, ::-1]
    swatch = read_swatch(picture_of(pixels), PerPixel(stripes.mm_per_px))
    assert swatch.crosswise.repeat.width == pytest.approx(24, abs=0.02)
    assert swatch.repeat.width == pytest.approx(18, abs=0.02)
    assert swatch.weft_skew_percent == pytest.approx(-skew, abs=0.1)


@pytest.mark.parametrize("name", ["one stripe, all that spoils a picture", "dark ground", "forty repeats in view"])
def test_cloth_with_stripes_only_has_no_bars(name):
    made = CLOTHS[name]
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    assert swatch.crosswise is None
    assert swatch.weft_skew_percent is None


def test_a_fold_across_is_no_bar():
    made = Made(14, ((4, 4, NAVY),), angle_deg=1, **SPOILED)
    assert read_swatch(picture_of(folded(made, Fold(2.0, 0.5, 90))), PerPixel(made.mm_per_px)).crosswise is None
