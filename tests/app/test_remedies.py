"""What would close a seam: shown in the close-up before anything is changed, and applied as one step."""

import pytest

from app.remedies.bar import AS_IT_IS, EASED, SHIFTED
from app.remedies.form import ShiftForm
from app.remedies.pane import RemedyPane
from core.files.project_file import project_to_bytes
from core.matching.solve import match
from core.model.project import Placement
from core.seams.readings import measure
from core.shifting.wish import ShiftWish
from near_gores import gore, made, near_skirt


@pytest.fixture
def skirt(window):
    """Three gores, matched, the seam whose steps are largest picked."""
    window.document.open(match(near_skirt(1, 3)).project)
    readings = window.document.measurement.seams
    window.document.pick_seam(max(range(3), key=lambda index: readings[index].rms_mm))
    return window


def choose(window, qtbot, choice: int) -> None:
    window.desk.opened.bar._group.button(choice).click()
    qtbot.waitUntil(lambda: not window.desk.opened.jobs.busy, timeout=60_000)


def rms_shown(window) -> float:
    return window.desk.opened.closeup._seam.reading.rms_mm


def test_a_shift_is_seen_before_it_is_applied_and_taken_back_in_one_step(skirt, qtbot):
    before = project_to_bytes(skirt.document.kept)
    as_it_is = rms_shown(skirt)
    steps = skirt.document.undo.count()
    view = skirt.desk.opened.closeup.view
    choose(skirt, qtbot, SHIFTED)
    shifted = rms_shown(skirt)
    assert shifted < 0.5 * as_it_is
    assert "→" in skirt.desk.opened.bar.words.text()
    assert skirt.desk.opened.closeup.view.scale == view.scale
    assert project_to_bytes(skirt.document.kept) == before
    assert skirt.document.undo.count() == steps
    skirt.desk.opened.bar.apply_button.click()
    assert skirt.document.undo.count() == steps + 1
    assert skirt.document.reading.rms_mm == pytest.approx(shifted, abs=1e-6)
    assert skirt.desk.opened.bar.choice == AS_IT_IS
    assert rms_shown(skirt) == pytest.approx(shifted, abs=1e-6)
    skirt.document.undo_step()
    assert project_to_bytes(skirt.document.kept) == before


def test_one_seam_after_the_other_keeps_the_shift_of_the_first(skirt, qtbot):
    first = skirt.document.seam
    choose(skirt, qtbot, SHIFTED)
    skirt.desk.opened.bar.apply_button.click()
    closed = skirt.document.reading.rms_mm
    skirt.document.pick_seam((first + 1) % 3)
    choose(skirt, qtbot, SHIFTED)
    skirt.desk.opened.bar.apply_button.click()
    assert skirt.document.measurement.seams[first].rms_mm == pytest.approx(closed, abs=0.01)


def test_easing_is_shown_and_changes_nothing(skirt, qtbot):
    before = project_to_bytes(skirt.document.kept)
    as_it_is = rms_shown(skirt)
    choose(skirt, qtbot, EASED)
    assert rms_shown(skirt) <= as_it_is + 0.02
    assert skirt.desk.opened.bar.words.text()
    assert not skirt.desk.opened.bar.apply_button.isVisible()
    choose(skirt, qtbot, AS_IT_IS)
    assert rms_shown(skirt) == pytest.approx(as_it_is)
    assert project_to_bytes(skirt.document.kept) == before


def test_a_drag_shows_the_seam_as_it_is(skirt, qtbot):
    choose(skirt, qtbot, EASED)
    panel = skirt.document.reading.line.panels[0]
    at = skirt.document.kept.placement(panel)
    skirt.document.try_placements({panel: Placement(u=at.u + 5, v=at.v, turn_deg=at.turn_deg)})
    skirt.desk._show_moved()
    assert skirt.desk.opened.bar.choice == AS_IT_IS
    assert rms_shown(skirt) == pytest.approx(skirt.document.reading.rms_mm)
    skirt.document.cancel_trial()


def test_where_leans_are_alike_it_says_what_letting_out_would_do(window, qtbot):
    project = made([gore("a", 8, 8), gore("b", 8, -7)], [{"name": "s", "a": "a/r", "b": "b/l"}])
    window.document.open(project)
    window.document.pick_seam(0)
    choose(window, qtbot, SHIFTED)
    assert "lean alike" in window.desk.opened.bar.words.text()
    assert "change the girth" in window.desk.opened.bar.words.text()
    assert not window.desk.opened.bar.apply_button.isEnabled()


def test_all_lines_are_shifted_in_the_background_as_one_step(skirt, qtbot):
    before = measure(skirt.document.kept).rms_mm
    skirt.desk.ask_shift()
    form = skirt.findChild(ShiftForm)
    assert (form.cap.value(), form.ends.read()) == (2.0, "free")
    form.cap.setValue(1.0)
    form._shift()
    qtbot.waitUntil(lambda: not skirt.jobs.busy, timeout=60_000)
    assert skirt.document.undo.undoText() == "Shift stitching lines"
    assert skirt.document.measurement.rms_mm < 0.5 * before
    assert "without that" in skirt.messages.text
    assert skirt.desk.opened.wish == ShiftWish(1.0, "free")
    skirt.document.undo_step()
    assert skirt.document.measurement.rms_mm == pytest.approx(before)


def test_a_shift_of_a_project_that_has_changed_is_put_aside(skirt, qtbot):
    choose(skirt, qtbot, SHIFTED)
    found, project = skirt.desk.opened._found, skirt.document.kept
    panel = skirt.document.kept.panel_names[0]
    skirt.document.place("Move", {panel: Placement(u=7.0)})
    changed = project_to_bytes(skirt.document.kept)
    skirt.errands.take_shift(found, project)
    assert project_to_bytes(skirt.document.kept) == changed
    assert "changed meanwhile" in skirt.messages.text


def test_nothing_picked_shows_no_choice(window):
    assert isinstance(window.desk.opened, RemedyPane)
    assert not window.desk.opened.bar.isVisible()


def test_the_view_that_is_chosen_is_bold_from_the_start(skirt):
    skirt.document.pick_seam(0)
    buttons = skirt.desk.opened.bar._group.buttons()
    assert [button.font().bold() or button.font().weight() > 400 for button in buttons] == [True, False, False]
