"""Repeats read from made pictures whose truth is known: width, centres, widths, colours, direction, evenness."""

import numpy as np
import pytest
from skimage.color import deltaE_ciede2000, rgb2lab

from core.errors import BadInput
from core.swatch.picture import picture_of
from core.swatch.scale import Corners, PerPixel, by_dpi, by_marks
from core.swatch.swatch import Swatch, read_swatch
from swatch.made import Made, aslant, picture

NAVY, RED, GREEN, CREAM = "#23304d", "#b8282e", "#3f7d45", "#e9e1cf"
HARD = {"noise": 6, "blur_px": 1.0, "falloff": 0.4, "weave": 0.15}

CLOTHS = {
    "one stripe, clean": Made(24, ((5, 6, NAVY),)),
    "one stripe, all that spoils a picture": Made(24, ((5, 6, NAVY),), angle_deg=3.3, fold=0.6, **HARD),
    "turned by thirty degrees": Made(24, ((5, 6, NAVY),), angle_deg=-30, fold=0.6, **HARD),
    "lying across": Made(24, ((5, 6, NAVY), (12, 1.4, RED), (16, 2, NAVY)), angle_deg=89, even=False, **HARD),
    "two colours, uneven by the order": Made(
        36, ((6, 5, NAVY), (16, 3, RED), (24, 3, GREEN)), angle_deg=1, even=False, **HARD
    ),
    "two colours, even": Made(36, ((6, 5, NAVY), (14, 3, RED), (34, 3, RED)), angle_deg=-2, **HARD),
    "uneven by a millimetre": Made(
        30, ((8, 6, NAVY), (15, 2, NAVY), (29, 2, NAVY)), angle_deg=1, even=False, noise=4, blur_px=0.8
    ),
    "every second stripe has a fine line beside it": Made(
        20, ((4, 4, NAVY), (14, 4, NAVY), (9, 0.6, RED)), angle_deg=0.4, **HARD
    ),
    "one thread": Made(30, ((10, 0.6, NAVY),), angle_deg=1.2, noise=4, blur_px=1.0, falloff=0.4, weave=0.15),
    "two threads beside a band, uneven": Made(
        30, ((8, 7, NAVY), (14, 0.6, NAVY), (16, 0.6, RED)), angle_deg=-1.2, even=False, noise=4, blur_px=0.8
    ),
    "dark ground": Made(18, ((4, 2, CREAM), (10, 1, RED)), ground="#1d2a3f", angle_deg=5, even=False, **HARD),
    "touching stripes": Made(28, ((6, 4, NAVY), (10, 4, RED), (14, 4, NAVY)), angle_deg=2, **HARD),
    "three repeats in view": Made(36, ((12, 9, NAVY), (30, 4, RED)), angle_deg=0.7, **HARD),
    "three uneven repeats in view, a fold": Made(
        36, ((12, 9, NAVY), (26, 4, RED)), angle_deg=0.7, even=False, fold=0.6, **HARD
    ),
    "forty repeats in view": Made(3, ((1, 0.8, NAVY),), angle_deg=1.2, fold=0.4, **HARD),
    "closely striped": Made(9, ((2, 3, NAVY), (6.5, 3, RED)), angle_deg=12, **HARD),
}


def lab(colour: str) -> np.ndarray:
    return rgb2lab(np.array([int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]))


def apart(one: str, other: str) -> float:
    return float(deltaE_ciede2000(lab(one), lab(other)))


def assert_found(swatch: Swatch, made: Made, pixel_mm: float, colours: float = 3.0) -> None:
    """The repeat within 0.1 % or 0.01 mm, centres and widths within 0.1 mm or a pixel, colours within 3 CIEDE2000."""
    repeat, period = swatch.repeat, made.repeat_mm
    assert repeat.width == pytest.approx(period, abs=max(0.01, 0.001 * period))
    assert swatch.width_sd_mm <= max(0.01, 0.001 * period)
    assert len(repeat.stripes) == len(made.stripes)
    assert apart(repeat.ground, made.ground) <= colours
    assert swatch.even == repeat.even == made.even
    truth = sorted(made.stripes)
    turns = [truth[turn:] + truth[:turn] for turn in range(len(truth))]
    within = max(0.1, pixel_mm)
    fitting = [turn for turn in turns if _fits(repeat.stripes, turn, period, within)]
    assert fitting, repeat
    assert (
        min(max(apart(s.colour, t[2]) for s, t in zip(repeat.stripes, turn, strict=True)) for turn in fitting)
        <= colours
    )


def _fits(stripes, truth, period: float, within: float) -> bool:
    off = np.array([stripe.at - at for stripe, (at, _, _) in zip(stripes, truth, strict=True)])
    off = (off - off[0] + period / 2) % period - period / 2
    widths = max(abs(stripe.width - width) for stripe, (_, width, _) in zip(stripes, truth, strict=True))
    return bool(np.abs(off - off.mean()).max() <= within and widths <= within)


@pytest.mark.parametrize("name", CLOTHS)
def test_the_repeat_is_found(name):
    made = CLOTHS[name]
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    assert_found(swatch, made, made.mm_per_px)
    assert swatch.angle_deg == pytest.approx(made.angle_deg, abs=0.05)


def test_perspective_is_taken_out():
    made = Made(16, ((4, 4, NAVY), (9, 2, RED)), angle_deg=4, even=False, noise=4, blur_px=0.8, falloff=0.3)
    corners = ((80.0, 40.0), (560.0, 75.0), (600.0, 380.0), (40.0, 350.0))
    swatch = read_swatch(picture_of(aslant(made, corners, 100, 65)), Corners(corners, 100, 65))
    assert_found(swatch, made, 0.2)
    assert swatch.angle_deg == pytest.approx(made.angle_deg, abs=0.1)


def test_without_the_corners_the_same_picture_is_refused():
    made = Made(16, ((4, 4, NAVY), (9, 2, RED)), angle_deg=4, even=False, noise=4, blur_px=0.8)
    corners = ((80.0, 40.0), (560.0, 75.0), (600.0, 380.0), (40.0, 350.0))
    with pytest.raises(BadInput, match="seen square on"):
        read_swatch(picture_of(aslant(made, corners, 100, 65)), PerPixel(0.2))


def test_a_ruler_beside_the_cloth_is_left_out_by_naming_the_part():
    made = Made(24, ((5, 6, NAVY),), angle_deg=1, noise=4)
    pixels = picture(made)
    pixels[:180] = 250
    pixels[:60, ::17] = 10
    swatch = read_swatch(picture_of(pixels), PerPixel(made.mm_per_px), part=(0, 185, 640, 400))
    assert_found(swatch, made, made.mm_per_px)


def test_the_scale_is_the_same_by_resolution_and_by_marks():
    assert by_dpi(254).mm == pytest.approx(0.1)  # 25.4 mm are an inch
    assert by_marks((100, 100), (400, 500), 100.0).mm == pytest.approx(0.2)  # 3-4-5: 500 px


def test_lines_where_repeats_start_are_a_period_apart_in_the_picture():
    made = Made(24, ((5, 6, NAVY),), angle_deg=-30)
    swatch = read_swatch(picture_of(picture(made)), PerPixel(made.mm_per_px))
    (x0, y0), (x1, y1) = swatch.starts_px[:, 0].T, swatch.starts_px[:, 1].T
    along = np.column_stack([x1 - x0, y1 - y0]) / np.hypot(x1 - x0, y1 - y0)[:, None]
    across = np.array([along[0][1], -along[0][0]])
    assert np.degrees(np.arctan2(-along[0][0], along[0][1])) == pytest.approx(-30, abs=0.05)
    assert np.diff(np.column_stack([x0, y0]) @ across) * made.mm_per_px == pytest.approx(24, abs=0.01)


def test_a_large_picture_is_made_smaller_and_read_alike():
    made = Made(24, ((5, 6, NAVY), (16, 2, RED)), angle_deg=2, noise=5, even=False)
    pixels = picture(made).repeat(5, axis=0).repeat(5, axis=1)
    swatch = read_swatch(picture_of(pixels), PerPixel(made.mm_per_px / 5))
    assert_found(swatch, made, made.mm_per_px)
