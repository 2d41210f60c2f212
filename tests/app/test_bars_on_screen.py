"""Bars across a cloth are read off the screen as stripes are."""

import pytest

from app.remedies.bar import EASED
from garments import repeat, ring, scattered

BARS = repeat("even", 45.0)


def shown(window):
    return window.desk.opened.closeup._seam.reading


def test_the_close_up_shows_the_bars_of_a_plaid_when_asked_and_its_stripes_again(window):
    window.document.open(scattered(ring(5, number=4, crosswise=BARS), 5))
    window.document.pick_seam(1)
    bar, measurement = window.desk.opened.bar, window.document.measurement
    assert bar.bars.isVisible()
    assert shown(window).way == "lengthwise"
    bar.bars.click()
    assert shown(window).way == "crosswise"
    assert shown(window).rms_mm == pytest.approx(measurement.crosswise[1].rms_mm)
    assert window.desk.opened.closeup.grab().toImage().pixel(5, 5)
    window.document.pick_seam(2)
    assert shown(window).rms_mm == pytest.approx(measurement.crosswise[2].rms_mm)
    bar._group.button(EASED).click()
    assert not bar.bars.isChecked()
    assert shown(window).way == "lengthwise"


def test_without_stripes_the_bars_are_what_table_and_close_up_read(window):
    window.document.open(scattered(ring(5, number=4, repeat=None, crosswise=BARS), 5))
    window.document.pick_seam(0)
    measurement = window.document.measurement
    assert not window.desk.opened.bar.bars.isVisible()
    assert shown(window).rms_mm == pytest.approx(measurement.crosswise[0].rms_mm)
    table = window.desk.table.model
    assert [table.reading(row) for row in range(4)] == list(measurement.crosswise)


def test_a_cloth_without_bars_offers_none(skirt):
    skirt.document.pick_seam(0)
    assert not skirt.desk.opened.bar.bars.isVisible()
