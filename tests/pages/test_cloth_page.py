"""The cloth page: one undo step, the repeat measured, what is wrong, what is told."""

import math
from operator import attrgetter

import msgspec
import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QColorDialog

from app.pages.cloth_page import ClothPage
from conftest import SAMPLES
from core.draft.measures import USUAL_CLOTH
from core.files.project_file import read_project
from core.model.cloth import Cloth, Repeat, Stripe
from core.model.panel import panels_of
from pages_hands import chosen, clicked, typed


@pytest.fixture
def page(shown) -> ClothPage:
    page = ClothPage()
    page.show_cloths((USUAL_CLOTH,), frozenset(), None)
    return shown(page)


@pytest.fixture
def skirt(window):
    assert window.filing.open_sample(SAMPLES / "harbour-skirt.stripewright")
    window.edits.spread_new()
    return window


def test_all_that_is_changed_of_a_cloth_is_one_undo_step(skirt):
    document = skirt.document
    before, steps = document.kept, document.undo.count()
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_C)
    form = skirt.ways.page.form
    typed(form.wide.entry, "140cm")
    typed(form.left_selvedge.entry, "1/2in")
    typed(form.skew.entry, "-4,5")
    clicked(form.one_way.entry) if not form.one_way.entry.isChecked() else None
    chosen(form.limited.entry, True)
    typed(form.length.entry, "4,5m")
    assert form.easing.entry.text() == ""
    typed(form.easing.entry, "1,5")
    clicked(skirt.ways.page.make)
    assert document.undo.count() == steps + 1
    (cloth, *rest) = document.kept.cloths
    assert (cloth.width, cloth.selvedge[0], cloth.skew_mm_per_m, cloth.length) == (1400, 12.7, -4.5, 4500)
    assert cloth.ease_percent == 1.5
    assert (document.kept.pieces, document.kept.placements, tuple(rest)) == (
        before.pieces,
        before.placements,
        before.cloths[1:],
    )
    skirt.actions_by_id["undo"].trigger()
    assert document.kept == before
    assert cloth.title in document.undo.redoText()


def test_keeping_a_cloth_as_it_is_changes_nothing(skirt):
    before, steps = skirt.document.kept, skirt.document.undo.count()
    skirt.actions_by_id["cloth"].trigger()
    clicked(skirt.ways.page.make)
    assert skirt.document.kept == before
    assert skirt.document.undo.count() == steps


def test_a_second_cloth_is_one_undo_step_and_can_be_taken_out(skirt):
    before = skirt.document.kept
    skirt.actions_by_id["add-cloth"].trigger()
    page = skirt.ways.page
    typed(page.form.name.entry, "Stiff muslin")
    typed(page.form.wide.entry, "1100")
    clicked(page.make)
    added = skirt.document.kept.cloths[-1]
    assert (added.name, added.width, added.repeat) == ("Stiff muslin", 1100, None)
    assert skirt.document.kept.cloths[:-1] == before.cloths
    skirt.actions_by_id["cloth"].trigger()
    page = skirt.ways.page
    assert not page.out.isEnabled()  # pieces are cut from the first one
    chosen(page.which, added.id)
    assert page.out.isEnabled()
    clicked(page.out)
    clicked(page.make)
    assert skirt.document.kept.cloths == before.cloths
    skirt.actions_by_id["undo"].trigger()
    skirt.actions_by_id["undo"].trigger()
    assert skirt.document.kept == before


def test_a_cloth_goes_through_the_page_unchanged(shown):
    for name in ("harbour-skirt", "pier-parasol", "boathouse-plaid"):
        cloths = read_project(SAMPLES / f"{name}.stripewright").cloths
        page = ClothPage()
        page.show_cloths(cloths, frozenset(), None)
        shown(page)
        for cloth in cloths:
            chosen(page.which, cloth.id)
        assert page.cloths == cloths


def test_flaws_of_other_shapes_are_kept(page):
    outline = ((100.0, 100.0), (140.0, 100.0), (120.0, 160.0))
    cloth = msgspec.structs.replace(USUAL_CLOTH, flaws=((0.0, 0.0, 5.0, 5.0), outline, (30.0, 0.0, 35.0, 5.0)))
    page.show_cloths((cloth,), frozenset(), None)
    assert page.cloths == (cloth,)
    page.form.flaws.take_out(0)
    assert page.cloths[0].flaws == ((30.0, 0.0, 35.0, 5.0), outline)


def test_a_repeat_measured_over_several_is_their_share(page):
    chosen(page.form.stripes_along.how.entry, "measured")
    ((count, over, _),) = page.form.stripes_along.counts.rows.rows
    typed(count.lineEdit(), "7")
    typed(over, "169,4 mm")
    assert page.cloths[0].repeat.width == pytest.approx(169.4 / 7)
    assert "24.200 mm" in page.form.stripes_along.counts.told.text()


def test_the_tolerance_is_told_in_millimetres(skirt):
    skirt.actions_by_id["cloth"].trigger()
    page = skirt.ways.page
    typed(page.form.tolerance.entry, "1")
    rings = [panel.cut_ring[:, 1] for piece in skirt.document.kept.pieces for panel in panels_of(piece)]
    longest = max(ring.max() - ring.min() for ring in rings)
    assert f"{longest * math.tan(math.radians(1)):.1f} mm" in page.form.tolerance.note.text()


def test_axis_and_true_period_are_told_in_words(page):
    """Two like stripes half a repeat apart: the pattern comes back twice in what was called one repeat."""
    two = tuple(Stripe(name=f"s{at}", at=at, width=6.0, colour="#203040") for at in (6.0, 26.0))
    repeat = Repeat(width=40.0, stripes=two)
    page.show_cloths((Cloth(id="main", width=1500.0, repeat=repeat),), frozenset(), None)
    assert "Even" in page.told.text()
    assert "6.0 mm" in page.told.text()
    assert "True period 20.0 mm" in page.told.text()
    page.form.stripes_along.stripes.rows[1][3].show_value("#903040")
    typed(page.form.stripes_along.stripes.rows[1][1], "20")
    assert page.told.text().startswith("Uneven")


def test_stripes_are_added_coloured_and_taken_out(page, monkeypatch):
    form = page.form
    clicked(form.stripes_along.stripes.add_button)
    typed(form.stripes_along.stripes.rows[1][0], "rust")
    typed(form.stripes_along.stripes.rows[1][1], "2")
    typed(form.stripes_along.stripes.rows[1][2], "3")
    monkeypatch.setattr(QColorDialog, "getColor", lambda *_: QColor("#a0421c"))
    clicked(form.stripes_along.stripes.rows[1][3])
    chosen(form.stripes_along.lead.entry, "rust")
    repeat = page.cloths[0].repeat
    assert repeat.stripes[1] == Stripe(name="rust", at=2.0, width=3.0, colour="#a0421c")
    assert repeat.lead_stripe.name == "rust"
    clicked(form.stripes_along.stripes._outs[0])
    assert [stripe.name for stripe in page.cloths[0].repeat.stripes] == ["rust"]
    clicked(form.stripes_along.stripes._outs[0])
    assert "there is no stripe" in form.stripes_along.stripes.note.text()
    assert not page.make.isEnabled()


def test_flaws_are_typed_as_rectangles(page):
    form = page.form
    clicked(form.flaw_section.head)
    clicked(form.flaws.add_button)
    for entry, text in zip(form.flaws.rows[0], ("200", "260", "90cm", "94cm"), strict=True):
        typed(entry, text)
    assert page.cloths[0].flaws == ((200, 900, 260, 940),)
    typed(form.flaws.rows[0][1], "150")
    assert "no area" in form.flaws.note.text()
    assert not page.make.isEnabled()


@pytest.mark.parametrize(
    ("field", "text", "says"),
    [
        ("wide", "wide", "no length"),
        ("wide", "0", "width is 0"),
        ("left_selvedge", "2m", "selvedge is 2000"),
        ("right_selvedge", "1495", "no usable width"),
        ("tolerance", "50", "0 to 45° is right"),
        ("tolerance", "nan", "no number"),
        ("skew", "1e308", "-300 to 300 mm per m is right"),
        ("stripes_along.width", "0", "width is 0"),
    ],
)
def test_a_bad_field_says_so_and_blocks_the_way(page, field, text, says):
    entry = attrgetter(field)(page.form).entry
    typed(entry, text)
    problems = [field.problem for field in page.form.fields if field.problem]
    assert len(problems) == 1
    assert says in problems[0]
    assert not page.make.isEnabled()
    page.made.connect(lambda cloths: pytest.fail("it was kept"))
    clicked(page.make)


def test_a_stripe_outside_the_repeat_is_told_below_the_stripes(page):
    typed(page.form.stripes_along.stripes.rows[0][1], "24")
    assert "'stripe'" in page.form.stripes_along.stripes.note.text()
    assert "0 to below 24" in page.form.stripes_along.stripes.note.text()
    assert page.form.stripes_along.stripes.note.isVisible()
    assert not page.make.isEnabled()
    typed(page.form.stripes_along.stripes.rows[0][1], "23")
    assert not page.form.stripes_along.stripes.note.isVisible()
    assert page.make.isEnabled()


def test_a_cloth_too_narrow_for_a_panel_is_a_finding(skirt):
    skirt.actions_by_id["cloth"].trigger()
    page = skirt.ways.page
    typed(page.form.wide.entry, "200")
    told = [page.findings.list.item(index).text() for index in range(page.findings.list.count())]
    assert len(told) == 1
    assert "usable width" in told[0]


def test_the_keys_go_through_the_rows_in_order(page):
    clicked(page.form.stripes_along.stripes.add_button)
    first, second = page.form.stripes_along.stripes.rows
    outs, add = page.form.stripes_along.stripes._outs, page.form.stripes_along.stripes.add_button
    wanted = [
        page.form.stripes_along.ground.entry,
        *first,
        outs[0],
        *second,
        outs[1],
        add,
        page.form.stripes_along.lead.entry,
    ]
    wanted[0].setFocus()
    walked = [wanted[0]]
    for _ in wanted[1:]:
        QTest.keyClick(page.focusWidget(), Qt.Key.Key_Tab)
        walked.append(page.focusWidget())
    assert [widget.accessibleName() or widget.text() for widget in walked] == [
        widget.accessibleName() or widget.text() for widget in wanted
    ]
