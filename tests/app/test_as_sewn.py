"""What to expect once it is sewn, beside the cloth."""

import pytest
from PySide6.QtCore import QSettings

from core.forecast.forecast import forecast


@pytest.fixture
def page(skirt):
    """The page, seen."""
    skirt.actions_by_id["as-sewn"].trigger()
    return skirt.desk.as_sewn


def test_the_figures_are_those_of_the_forecast_and_follow_the_cloth(skirt, page):
    for _ in range(2):
        found = forecast(skirt.document.kept)
        assert f"to be expected {found.rms_mm:.2f} mm" in page.told.text()
        rows = [page.table.topLevelItem(row) for row in range(page.table.topLevelItemCount())]
        assert [row.text(3) for row in rows] == [f"{seam.rms_mm:.2f}" for seam in found.seams]
        skirt.document.select(("side.R",))
        skirt.edits.nudge(5, 0)


def test_an_error_typed_counts_and_is_kept_and_can_be_put_back(page):
    before = page.told.text()
    page.errors.entries["cutting_mm"].setText("0,2")
    assert page.told.text() != before
    assert "cutting" not in page.told.text()
    assert QSettings().value("errors/cutting_mm") == "0,2"
    page.errors.entries["cutting_mm"].setText("much")
    assert page.told.wrong
    page.errors.usual.click()
    assert page.told.text() == before
