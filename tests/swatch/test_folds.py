"""A fold hides cloth: the repeat is that of the cloth beside it, and where that can't be told it does not look sure."""

import pytest

from core.swatch.picture import picture_of
from core.swatch.scale import PerPixel
from core.swatch.swatch import read_swatch
from swatch.made import Fold, Made, folded
from swatch.test_made_cloths import GREEN, NAVY, RED, assert_found

SPOILED = {"noise": 4, "blur_px": 0.8, "falloff": 0.25, "weave": 0.1}


def cloth(repeat: float, kind: str = "two", **keys) -> Made:
    stripes = {
        "one": ((0.3 * repeat, 0.4 * repeat, NAVY),),
        "two": ((0.25 * repeat, 0.2 * repeat, NAVY), (0.6 * repeat, 0.08 * repeat, RED)),
        "three": ((0.2 * repeat, 0.1 * repeat, NAVY), (0.45 * repeat, 0.14 * repeat, RED), (0.75 * repeat, 2, GREEN)),
        "taking turns": ((0.2 * repeat, 0.18 * repeat, NAVY), (0.7 * repeat, 0.18 * repeat, RED)),
    }[kind]
    return Made(repeat, stripes, **{"size": (640, 200), "even": kind in ("one", "taking turns"), **SPOILED, **keys})


FOLDED = {
    "along, a third of a millimetre in three repeats": (cloth(36, "three"), Fold(0.33, 0.4)),
    "along, in four repeats": (cloth(30, angle_deg=-2), Fold(1.2, 0.55, 1.5)),
    "along, in five repeats": (cloth(25), Fold(1.0, 0.35)),
    "along, in seven repeats": (cloth(18), Fold(1.0, 0.35)),
    "along, several millimetres": (cloth(21, "one", angle_deg=3), Fold(4.0, 0.6, -1)),
    "along, in ten repeats whose colours take turns": (cloth(12.5, "taking turns", angle_deg=1), Fold(0.8, 0.45)),
    "along, soft": (cloth(15, "three", angle_deg=1), Fold(1.5, 0.5, 0, 0.8)),
    "oblique": (cloth(16, "three", angle_deg=2), Fold(2.0, 0.5, 35)),
    "oblique the other way": (cloth(9, angle_deg=-1), Fold(0.9, 0.4, -50)),
    "across": (cloth(14, "three", angle_deg=1, size=(640, 300)), Fold(2.5, 0.5, 88)),
    "two of them along": (cloth(13), Fold(1.1, 0.3), Fold(0.7, 0.7)),
}


@pytest.mark.parametrize("name", FOLDED)
def test_the_repeat_is_that_beside_the_fold(name):
    made, *folds = FOLDED[name]
    swatch = read_swatch(picture_of(folded(made, *folds)), PerPixel(made.mm_per_px))
    assert_found(swatch, made, made.mm_per_px)


def test_what_a_fold_hides_is_told():
    swatch = read_swatch(picture_of(folded(cloth(18), Fold(1.3, 0.4))), PerPixel(0.2))
    assert any("hides 1.3 mm" in note for note in swatch.notes)


def test_lines_where_repeats_start_lie_nearer_to_each_other_across_a_fold():
    swatch = read_swatch(picture_of(folded(cloth(18), Fold(1.3, 0.4))), PerPixel(0.2))
    places = 0.2 * swatch.starts_px[:, 0, 0]
    assert places[-1] - places[0] == pytest.approx(18 * (len(places) - 1) - 1.3, abs=0.05)


@pytest.mark.parametrize(("repeat", "at"), [(61.0, 0.5), (55.0, 0.3), (47.0, 0.7)])
def test_with_two_repeats_in_view_a_fold_may_go_unnoticed_but_the_reading_never_looks_sure(repeat, at):
    swatch = read_swatch(picture_of(folded(cloth(repeat, size=(640, 100)), Fold(1.0, at))), PerPixel(0.2))
    assert abs(swatch.repeat.width - repeat) < 0.001 * repeat or swatch.confidence < 0.6
    assert any("repeats are in view" in note for note in swatch.notes)


@pytest.mark.parametrize(("repeat", "told"), [(25.0, True), (12.5, False)], ids=["five repeats", "ten repeats"])
def test_that_every_second_repeat_may_differ_unseen_is_told_where_a_fold_leaves_few(repeat, told):
    swatch = read_swatch(picture_of(folded(cloth(repeat), Fold(1.0, 0.35))), PerPixel(0.2))
    assert any("every second one" in note for note in swatch.notes) == told
    assert swatch.confidence < 0.75 if told else swatch.confidence > 0.75
