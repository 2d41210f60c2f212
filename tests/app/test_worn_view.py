"""The worn view turns under the hand, says from where the garment is seen, and leaves no timer behind."""

import math

import numpy as np
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest

from app.pictures.worn_view import WornView
from app.stripe_colours import colour_of_kind
from core.seams.stripes import kinds_at


@pytest.fixture
def worn(skirt) -> WornView:
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_F7, Qt.KeyboardModifier.ShiftModifier)
    assert skirt.desk.pictures.currentWidget() is skirt.desk.places["worn"]
    skirt.desk.worn.grab()
    return skirt.desk.worn


def test_keys_turn_and_tilt_and_words_say_from_where(worn):
    assert worn.accessibleDescription().startswith("From the front")
    QTest.keyClick(worn, Qt.Key.Key_Left)
    assert "5° round to the wearer's left" in worn.words()
    QTest.keyClick(worn, Qt.Key.Key_End)
    assert worn.words().startswith("From the back")
    QTest.keyClick(worn, Qt.Key.Key_Home)
    for _ in range(40):
        QTest.keyClick(worn, Qt.Key.Key_Up)
    assert worn.words() == "From the front, 80° from above"


def test_the_cloth_goes_with_the_hand(worn):
    """A stripe taken in the middle of the garment lies under the cursor again after the drag."""
    at, to = QPoint(worn.width() // 2, worn.height() // 2), QPoint(worn.width() // 2 + 12, worn.height() // 2)
    taken = worn.panel_at(at)
    before = worn.turn
    QTest.mousePress(worn, Qt.MouseButton.LeftButton, pos=at)
    QTest.mouseMove(worn, to)
    worn.grab()
    assert worn.turn < before
    assert worn.panel_at(to) == taken
    QTest.mouseRelease(worn, Qt.MouseButton.LeftButton, pos=to)


def test_a_click_selects_the_panel_under_it(worn, skirt):
    at = QPoint(worn.width() // 2 + 30, worn.height() // 2)
    QTest.mouseClick(worn, Qt.MouseButton.LeftButton, pos=at)
    assert skirt.document.selection == ("front.L",)


def test_the_colours_are_those_of_the_stripes_on_the_panel(worn, skirt):
    """Seen squarely in the middle of the front, pixels differ from their stripe's own colour by the shade alone."""
    worn.look_from(0.15, 0.05)
    worn.zoom(4.0, worn.height() / 2)
    picture = worn._coarse()
    frame, (seen,) = worn._layers
    places = worn._stripes.seen(seen.sight, worn.turn)
    repeat = skirt.document.kept.cloths[0].repeat
    agree = checked = 0
    for at in range(0, len(seen.sight.pixel), 311):
        if seen.sight.facing[at] < 0.7 or places.to_seam[at] * frame.scale < 4:
            continue
        around = set(kinds_at(repeat, places.w[at] + np.linspace(-2, 2, 9) / frame.scale).tolist())
        if len(around) == 1:
            pixel = int(seen.sight.pixel[at])
            colour = picture.pixelColor(pixel % frame.wide, pixel // frame.wide)
            checked += 1
            agree += _differs_by_shade_alone(colour, colour_of_kind(repeat, around.pop()))
    assert checked > 12
    assert agree == checked


def _differs_by_shade_alone(seen: QColor, own: QColor) -> bool:
    seen_rgb, own_rgb = seen.getRgb()[:3], own.getRgb()[:3]
    shade = sum(seen_rgb) / sum(own_rgb)
    return 0.6 < shade <= 1.02 and math.dist(seen_rgb, [shade * channel for channel in own_rgb]) < 8


def test_what_stands_still_is_drawn_finely(worn, qtbot):
    coarse = worn._picture
    qtbot.waitUntil(lambda: worn._picture is not coarse and not worn._work.isActive(), timeout=60_000)
    assert worn._picture.size() == coarse.size()


def test_what_can_not_be_hung_is_said(window, skirt):
    import msgspec

    skirt.desk.show_worn()
    skirt.document.open(msgspec.structs.replace(skirt.document.kept, seams=()))
    skirt.desk.worn.grab()
    assert "sewn to each other" in skirt.desk.worn.words()
