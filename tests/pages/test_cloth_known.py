"""What a maker measures on her cloth: bars, counts of repeats, widths, a washed square, straightness, outlines."""

import math

import msgspec
import pytest
from PySide6.QtCore import QPoint, QPointF, QSettings, Qt
from PySide6.QtTest import QTest

from app.pages.cloth_page import ClothPage
from core.draft.measures import USUAL_CLOTH
from core.model.cloth import Remnant
from pages_hands import chosen, clicked, typed


@pytest.fixture
def page(shown) -> ClothPage:
    page = ClothPage()
    page.show_cloths((USUAL_CLOTH,), frozenset(), None)
    return shown(page)


def first(page: ClothPage):
    return page.cloths[0]


def test_a_check_gets_bars_of_its_own_and_loses_them_again(page):
    chosen(page.form.kind.entry, "both")
    typed(page.form.bars.width.entry, "30")
    typed(page.form.bars.origin.entry, "7")
    clicked(page.form.bars.stripes.add_button)
    typed(page.form.bars.stripes.rows[1][1], "25")
    bars = first(page).crosswise
    assert (bars.width, bars.origin, [stripe.at for stripe in bars.stripes]) == (30, 7, [12, 25])
    assert first(page).repeat == USUAL_CLOTH.repeat
    assert "Bars: " in page.told.text()
    assert "bars 30.0 mm" in page.verdict.text()
    chosen(page.form.kind.entry, "barred")
    assert first(page).ways == ("crosswise",)
    chosen(page.form.kind.entry, "striped")
    assert first(page) == USUAL_CLOTH


def test_a_bar_outside_its_repeat_is_told_below_the_bars(page):
    chosen(page.form.kind.entry, "both")
    typed(page.form.bars.stripes.rows[0][1], "24")
    assert "0 to below 24" in page.form.bars.stripes.note.text()
    assert not page.form.stripes_along.stripes.note.text()
    assert not page.make.isEnabled()


def test_counts_at_several_places_give_mean_spread_and_drift_and_the_error_of_the_forecast(page):
    part = page.form.stripes_along
    chosen(part.how.entry, "measured")
    for _ in range(2):
        clicked(part.counts.rows.add_button)
    for row, (over, at) in zip(part.counts.rows.rows, (("240", "0"), ("241", "1m"), ("242", "2m")), strict=True):
        typed(row[1], over)
        typed(row[2], at)
    assert first(page).repeat.width == pytest.approx(24.1)
    told = part.counts.told.text()
    assert "scatter by 0.100 mm" in told  # 24.0, 24.1, 24.2
    assert "+0.100 mm per metre" in told
    clicked(part.counts.use)
    assert float(QSettings().value("errors/repeat_percent")) == pytest.approx(100 * 0.1 / 24.1, rel=0.01)
    typed(part.counts.rows.rows[1][1], "266")
    assert "about 11 repeats" in part.counts.rows.note.text()
    assert not page.make.isEnabled()


def test_the_narrowest_width_counts(page):
    ruler = page.form.ruler
    clicked(page.form.sections[3].head)
    for number, (width, right) in enumerate((("1500", "10"), ("1492", "12"))):
        clicked(ruler.widths.add_button)
        typed(ruler.widths.rows[number][0], width)
        typed(ruler.widths.rows[number][2], right)
    clicked(ruler.take_widths)
    assert (first(page).width, first(page).selvedge) == (1492, (10, 12))
    assert first(page).repeat == USUAL_CLOTH.repeat


def test_a_washed_square_makes_the_whole_cloth_smaller(page):
    chosen(page.form.kind.entry, "both")
    clicked(page.form.sections[3].head)
    after = page.form.ruler.square.rows[1]
    assert not page.form.ruler.wash.isEnabled()
    typed(after[1], "490")
    typed(after[2], "480")
    assert "2.00 % across and 4.00 % along" in page.form.ruler.square_told.text()
    clicked(page.form.ruler.wash)
    cloth = first(page)
    assert cloth.width == pytest.approx(0.98 * 1500)
    assert cloth.repeat.width == pytest.approx(0.98 * 24)
    assert cloth.crosswise.width == pytest.approx(0.96 * 24)


def test_two_lengths_that_a_person_measures_give_bow_skew_and_lean(page):
    """ASTM D3882: 100 x distance / width; AATCC TM179: 100 x 2 (AC - BD) / (AC + BD)."""
    form = page.form
    clicked(form.sections[4].head)
    lean, skew, square, bow = form.straight.measured.rows
    for row, by, over in ((lean, "-3", "1500"), (skew, "30", "1500"), (bow, "-45", "150cm")):
        typed(row[1], by)
        typed(row[2], over)
    cloth = first(page)
    assert (cloth.skew_mm_per_m, cloth.weft_skew_percent, cloth.bow_percent) == (-2, 2, -3)
    assert f"{math.degrees(math.atan(0.02)):+.2f}" in form.weft.note.text()
    assert "bowed" in form.straight.told.text()
    typed(square[1], "510")
    typed(square[2], "500")
    assert first(page).weft_skew_percent == pytest.approx(100 * 2 * 10 / 1010, abs=1e-3)


def test_a_remnant_with_a_hole_is_typed_by_its_corners(page):
    form = page.form
    clicked(form.flaw_section.head)
    assert not form.outlines.add_hole.isEnabled()
    clicked(form.outlines.add_remnant)
    typed(form.outlines.corners.rows[2][1], "800")
    clicked(form.outlines.add_hole)
    clicked(form.outlines.corners._outs[3])
    remnant = first(page).remnant
    assert remnant.outline == ((0, 0), (1500, 0), (1500, 800), (0, 1000))
    assert len(remnant.holes[0]) == 3
    assert "a remnant, to 1000.0 mm" in page.verdict.text()
    typed(form.outlines.corners.rows[0][0], "0.7m")
    assert first(page).remnant.holes[0][0][0] == 700
    chosen(form.outlines.which, 0)
    clicked(form.outlines.out)
    assert first(page) == USUAL_CLOTH


def at(page, u: float, v: float) -> QPoint:
    return page.whole.mapFromScene(QPointF(u, v))


def test_a_flaw_is_drawn_corner_by_corner_and_a_corner_dragged(page):
    form, port = page.form, page.whole.viewport()
    clicked(form.flaw_section.head)
    clicked(form.outlines.add_flaw)
    clicked(form.outlines.draw)
    for u, v in ((300, 200), (600, 200), (450, 500)):
        QTest.mouseClick(port, Qt.MouseButton.LeftButton, pos=at(page, u, v))
    QTest.keyClick(page.whole, Qt.Key.Key_Return)
    (flaw,) = first(page).flaws
    off = [math.dist(a, b) for a, b in zip(flaw, ((300, 200), (600, 200), (450, 500)), strict=True)]
    assert max(off) < 1500 / page.whole.width() * 2
    assert not form.outlines.draw.isChecked()
    QTest.mousePress(port, Qt.MouseButton.LeftButton, pos=at(page, *flaw[2]))
    QTest.mouseMove(port, at(page, 700, 600))
    QTest.mouseRelease(port, Qt.MouseButton.LeftButton, pos=at(page, 700, 600))
    assert first(page).flaws[0][2][0] == pytest.approx(700, abs=5)


def test_escape_gives_a_drawing_up_and_the_outline_stays(page):
    outline = ((0.0, 0.0), (900.0, 0.0), (800.0, 700.0))
    page.show_cloths((msgspec.structs.replace(USUAL_CLOTH, remnant=Remnant(outline=outline)),), frozenset(), None)
    page.left.connect(lambda: pytest.fail("the page was left"))
    clicked(page.form.flaw_section.head)
    clicked(page.form.outlines.draw)
    QTest.mouseClick(page.whole.viewport(), Qt.MouseButton.LeftButton, pos=at(page, 100, 100))
    QTest.keyClick(page.whole, Qt.Key.Key_Escape)
    assert not page.form.outlines.draw.isChecked()
    assert first(page).remnant.outline == outline
