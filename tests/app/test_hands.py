"""What a hand does on the cloth, through real events."""

import gc
import math

import msgspec
import numpy as np
import pytest
from PySide6.QtCore import QObject, QPoint, QPointF, Qt
from PySide6.QtGui import QImage
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication

from core.files.project_file import read_project, write_project
from core.geometry.transform import placed
from core.matching.phase import best_shifts
from core.seams.readings import measure


def readings_of(measurement) -> list[tuple[float, tuple[float, float]]]:
    return [(reading.rms_mm, reading.worst) for reading in measurement.read]


def test_readings_after_a_drag_are_those_of_the_saved_project(skirt, mouse, tmp_path):
    skirt.actions_by_id["settle"].setChecked(False)
    before = readings_of(skirt.document.measurement)
    mouse.drag(mouse.on("side.R"), QPointF(37, 11))
    assert readings_of(skirt.document.measurement) != before
    write_project(tmp_path / "dragged.stripewright", skirt.document.kept)
    again = measure(read_project(tmp_path / "dragged.stripewright"))
    assert readings_of(skirt.document.measurement) == readings_of(again)
    assert skirt.document.measurement.rms_mm == again.rms_mm


def test_readings_follow_while_the_button_is_down(skirt, mouse):
    skirt.actions_by_id["settle"].setChecked(False)
    document, start = skirt.document, QPointF(mouse.on("side.R"))
    kept = document.kept
    mouse.press(start)
    mouse.move(start + QPointF(20, 0))
    assert document.kept is kept
    assert readings_of(document.measurement) == readings_of(measure(document.project))
    moved = document.project.placement("side.R").u - kept.placement("side.R").u
    assert moved == pytest.approx(20 / skirt.desk.view.scale_px, abs=1e-3)
    mouse.release(start + QPointF(20, 0))
    assert document.undo.undoText() == "Move Side gore R"


def test_a_drag_is_one_step_and_escape_takes_it_back(skirt, mouse):
    document, count = skirt.document, skirt.document.undo.count()
    kept, start = document.kept, QPointF(mouse.on("side.R"))
    mouse.press(start)
    mouse.move(start + QPointF(30, 5))
    assert document.trying
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Escape)
    mouse.release(start + QPointF(30, 5))
    assert document.project is kept
    assert document.undo.count() == count
    mouse.drag(start, QPointF(30, 5))
    assert document.undo.count() == count + 1


def test_a_long_drag_leaves_nothing_behind(skirt, mouse):
    view, start = skirt.desk.view, QPointF(mouse.on("side.R"))

    def all_there_is() -> tuple[int, int, int]:
        gc.collect()
        return len(view.scene().items()), len(skirt.findChildren(QObject)), len(gc.get_objects())

    def drag(frames: int) -> None:
        mouse.press(start)
        for frame in range(frames):
            mouse.move(start + QPointF(5 + frame % 50, frame % 30))
            QApplication.processEvents()
        QTest.keyClick(view, Qt.Key.Key_Escape)
        mouse.release(start)

    drag(40)
    items, objects, values = all_there_is()
    drag(120)
    assert all_there_is()[:2] == (items, objects)
    assert all_there_is()[2] < values + 200


def test_a_click_moves_nothing(skirt, mouse):
    kept = skirt.document.kept
    mouse.drag(mouse.on("side.R"), QPointF(2, 1), steps=2)
    assert skirt.document.kept is kept
    assert skirt.document.selection == ("side.R",)


def test_a_dragged_panel_settles_where_no_nearby_place_matches_better(skirt, mouse):
    document = skirt.document
    at, period = document.kept.placement("side.R"), document.kept.cloths[0].repeat.period
    away = best_shifts(document.kept, document.garment, "side.R")[0] % period + 6 * period
    mouse.drag(mouse.on("side.R"), QPointF(away * skirt.desk.view.scale_px + 0.8, 12))
    settled = document.kept.placement("side.R")
    assert settled.u == pytest.approx(at.u + away, abs=1e-3)

    def cost(du: float) -> float:
        moved = document.kept.placed({"side.R": type(settled)(u=settled.u + du, v=settled.v)})
        own = [r for r in measure(moved).read if "side.R" in r.line.panels]
        return math.fsum(r.line.sewn.seam.weight * r.mean_square for r in own)

    assert all(cost(0.0) <= cost(du) for du in (-1.5, -0.5, -0.2, 0.2, 0.5, 1.5))


def test_on_a_skewed_cloth_panels_settle_along_its_stripes(skirt, mouse):
    document = skirt.document
    (cloth,) = document.kept.cloths
    leaning = msgspec.structs.replace(cloth, skew_mm_per_m=30.0)
    document.open(msgspec.structs.replace(document.kept, cloths=(leaning,)))
    document.select(("side.R", "side.L"))
    before, at = readings_of(document.measurement), document.kept.placement("side.L")
    down = 120.0
    across = 0.030 * down + 3 * cloth.repeat.period
    mouse.drag(mouse.on("side.R"), QPointF(across, down) * skirt.desk.view.scale_px + QPointF(1.2, 0))
    moved = document.kept.placement("side.L")
    assert moved.v - at.v == pytest.approx(down, abs=1)
    w_moved = moved.u - at.u - 0.030 * (moved.v - at.v)
    assert w_moved == pytest.approx(3 * cloth.repeat.period, abs=2e-3)
    for (rms, _), (earlier, _) in zip(readings_of(document.measurement), before, strict=True):
        assert rms == pytest.approx(earlier, abs=0.01)


def test_alt_suspends_settling(skirt, mouse):
    kept = skirt.document.kept.placement("side.R")
    mouse.drag(mouse.on("side.R"), QPointF(41, 12), keys=Qt.KeyboardModifier.AltModifier)
    moved = skirt.document.kept.placement("side.R").u - kept.u
    assert moved == pytest.approx(41 / skirt.desk.view.scale_px, abs=1e-3)


def test_several_panels_settle_on_whole_repeats_and_keep_their_steps(skirt, mouse):
    document = skirt.document
    document.select(("side.R", "side.L"))
    kept, before = document.kept, readings_of(document.measurement)
    period = kept.cloths[0].repeat.period
    mouse.drag(mouse.on("side.R"), QPointF(7 * period * skirt.desk.view.scale_px + 0.8, 12))
    moved = document.kept.placement("side.L").u - kept.placement("side.L").u
    assert moved == pytest.approx(7 * period, abs=1e-3)
    for (rms, _), (earlier, _) in zip(readings_of(document.measurement), before, strict=True):
        assert rms == pytest.approx(earlier, abs=0.01)


def test_nudges_move_by_one_ten_and_a_tenth(skirt):
    document = skirt.document
    document.select(("side.R",))
    start = document.kept.placement("side.R")
    for key, keys in (
        (Qt.Key.Key_Right, Qt.KeyboardModifier.NoModifier),
        (Qt.Key.Key_Right, Qt.KeyboardModifier.ShiftModifier),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.ControlModifier),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.AltModifier),
        (Qt.Key.Key_Up, Qt.KeyboardModifier.NoModifier),
    ):
        QTest.keyClick(skirt.desk.view, key, keys)
    at = document.kept.placement("side.R")
    assert at.u == pytest.approx(start.u + 1 + 10 - 0.1, abs=1e-6)
    assert at.v == pytest.approx(start.v + 0.1 - 1, abs=1e-6)


def test_nudges_that_follow_one_another_are_one_step(skirt):
    document = skirt.document
    document.select(("side.R",))
    kept, count = document.kept, document.undo.count()
    for _ in range(5):
        QTest.keyClick(skirt.desk.view, Qt.Key.Key_Right)
    assert document.undo.count() == count + 1
    document.select(("side.L",))
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Right)
    assert document.undo.count() == count + 2
    document.undo_step()
    document.undo_step()
    assert document.kept == kept


def test_the_turning_handle_stops_at_the_grain_tolerance(skirt, mouse):
    document = skirt.document
    document.select(("side.R",))
    limit = document.kept.cloths[0].grain_tolerance_deg
    knob = skirt.desk.view.handle_at() + skirt.desk.view.handle.knob()
    mouse.drag(knob, QPointF(300, 40))
    at = document.kept.placement("side.R")
    assert at.turn_deg == pytest.approx(limit)
    assert document.undo.undoText() == "Turn Side gore R"
    knob = skirt.desk.view.handle_at() + skirt.desk.view.handle.knob()
    mouse.drag(knob, QPointF(-300, 40))
    assert document.kept.placement("side.R").turn_deg == pytest.approx(-limit)


def test_turning_leaves_the_middle_of_the_panel_where_it_is(skirt, mouse):
    document = skirt.document
    document.select(("side.R",))
    item = skirt.desk.view.scene_here.panels["side.R"]
    middle = QPointF(*document.garment.panels["side.R"].middle)
    before = item.mapToScene(middle)
    mouse.drag(skirt.desk.view.handle_at() + skirt.desk.view.handle.knob(), QPointF(20, 3))
    after = item.mapToScene(middle)
    assert document.kept.placement("side.R").turn_deg > 0
    assert math.hypot(after.x() - before.x(), after.y() - before.y()) < 0.01


def test_keys_turn_by_a_twentieth_of_a_degree_up_to_the_tolerance(skirt):
    document = skirt.document
    document.select(("side.R",))
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_BracketRight)
    assert document.kept.placement("side.R").turn_deg == pytest.approx(0.05)
    for _ in range(30):
        QTest.keyClick(skirt.desk.view, Qt.Key.Key_BracketLeft)
    assert document.kept.placement("side.R").turn_deg == pytest.approx(-0.5)
    assert "0.5°" in skirt.messages.text


def test_a_held_panel_stays_where_it_is(skirt, mouse):
    document = skirt.document
    document.select(("side.R",))
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_H)
    kept = document.kept
    assert kept.placement("side.R").hold
    mouse.drag(mouse.on("side.R"), QPointF(40, 10))
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Right)
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_BracketRight)
    assert document.kept is kept
    assert "held" in skirt.messages.text
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_H)
    assert not document.kept.placement("side.R").hold


def test_no_panel_is_turned_end_for_end_on_a_one_way_cloth(skirt):
    kept = skirt.document.kept
    skirt.document.select(("side.R",))
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_T)
    assert skirt.document.kept is kept
    assert "one-way" in skirt.messages.text


def test_a_panel_is_turned_end_for_end_about_its_middle_where_the_cloth_allows_it(window, pier_parasol):
    window.filing.open_sample(pier_parasol)
    window.edits.spread_new()
    window.document.select(("gore-3",))
    item = window.desk.view.scene_here.panels["gore-3"]
    before = item.outline().boundingRect().center()
    QTest.keyClick(window.desk.view, Qt.Key.Key_T)
    assert window.document.kept.placement("gore-3").turned
    after = item.outline().boundingRect().center()
    assert math.hypot(after.x() - before.x(), after.y() - before.y()) < 40
    QTest.keyClick(window.desk.view, Qt.Key.Key_T)
    assert not window.document.kept.placement("gore-3").turned


def test_tab_goes_through_all_panels(skirt):
    names = skirt.document.kept.panel_names
    skirt.document.select(())
    seen = []
    for _ in names:
        QTest.keyClick(skirt.desk.view, Qt.Key.Key_Tab)
        seen.append(skirt.document.current)
    assert tuple(seen) == names
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Backtab)
    assert skirt.document.current == names[-2]


def test_tab_brings_a_panel_into_view(skirt):
    view = skirt.desk.view
    view.set_scale(3.0)
    skirt.document.select(())
    for _ in skirt.document.kept.panel_names:
        QTest.keyClick(view, Qt.Key.Key_Tab)
        assert view.seen().intersects(view.scene_here.rect_of(skirt.document.selection))


def test_a_band_selects_what_it_touches_and_shift_adds(skirt, mouse):
    view = skirt.desk.view
    box = view.scene_here.panels["front.R"].outline().boundingRect()
    start = QPointF(view.mapFromScene(box.topLeft())) - QPointF(30, 20)
    mouse.drag(start, QPointF(view.mapFromScene(box.center())) - start)
    assert "front.R" in skirt.document.selection
    assert "back.L" not in skirt.document.selection
    mouse.press(mouse.on("back.L"), keys=Qt.KeyboardModifier.ShiftModifier)
    mouse.release(mouse.on("back.L"), keys=Qt.KeyboardModifier.ShiftModifier)
    assert {"front.R", "back.L"} <= set(skirt.document.selection)
    QTest.keyClick(view, Qt.Key.Key_A, Qt.KeyboardModifier.ControlModifier)
    assert set(skirt.document.selection) == set(skirt.document.kept.panel_names)


def test_spreading_out_changes_no_step(window, harbour_skirt):
    window.filing.open_sample(harbour_skirt)
    before = readings_of(window.document.measurement)
    assert not window.desk.unplaced.isHidden()
    window.edits.spread_new()
    assert window.desk.unplaced.isHidden()
    after = readings_of(window.document.measurement)
    assert [rms for rms, _ in after] == pytest.approx([rms for rms, _ in before], abs=0.01)
    assert "Can be cut" in window.desk.status.faults.text()


def test_what_is_typed_is_what_lies(skirt):
    document = skirt.document
    document.select(("side.R",))
    strip = skirt.desk.inspector
    for field, text, what, value in (
        (strip.u, "512.3", "u", 512.3),
        (strip.v, "77.7", "v", 77.7),
        (strip.turn, "0.35", "turn_deg", 0.35),
    ):
        field.setFocus()
        field.selectAll()
        QTest.keyClicks(field, text)
        QTest.keyClick(field, Qt.Key.Key_Return)
        assert getattr(document.kept.placement("side.R"), what) == pytest.approx(value)
    assert document.kept.placement("side.R").u == 512.3
    assert skirt.messages.text == ""
    strip.turn.selectAll()
    QTest.keyClicks(strip.turn, "2")
    QTest.keyClick(strip.turn, Qt.Key.Key_Return)
    assert document.kept.placement("side.R").turn_deg == 0.5
    over = strip.limit.text().removeprefix("±0.5° = ")
    assert f"0.5° off the grain, {over} over the panel's length" in skirt.messages.text
    strip.hold.click()
    assert document.kept.placement("side.R").hold
    assert not strip.u.isEnabled()


def test_the_strip_tells_the_offset_from_the_nearest_lead_stripe(skirt):
    document = skirt.document
    document.select(("side.R",))
    # The lead stripes of the sample lie at u = 4 + 22 j.
    skirt.edits.type_place("side.R", "u", 4 + 22 * 20 + 3.4)
    assert skirt.desk.inspector.beside.text() == "3.4 mm right of indigo"
    skirt.edits.type_place("side.R", "u", 4 + 22 * 20 - 2.0)
    assert skirt.desk.inspector.beside.text() == "2.0 mm left of indigo"


def pixels(view) -> np.ndarray:
    image = view.viewport().grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    return np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)[..., :3].astype(int)


def test_what_stays_is_drawn_once_and_the_same_in_a_drag(skirt, mouse):
    start = mouse.on("front.R")
    mouse.press(start)
    mouse.move(start + QPoint(60, 25))
    with_picture = pixels(skirt.desk.view)
    skirt.desk.view.still.drop()
    drawn = pixels(skirt.desk.view)
    mouse.release(start + QPoint(60, 25))
    assert np.mean(np.abs(with_picture - drawn).max(axis=2) > 24) < 0.002
    assert np.mean(np.abs(drawn - pixels(skirt.desk.view)).max(axis=2) > 24) < 0.02


def test_a_picture_that_no_longer_holds_is_given_up(skirt, mouse):
    start = mouse.on("front.R")
    mouse.press(start)
    mouse.move(start + QPoint(60, 25))
    skirt.document.undo_step()
    after_undo = pixels(skirt.desk.view)
    skirt.desk.view.still.drop()
    assert np.array_equal(after_undo, pixels(skirt.desk.view))
    mouse.release(start)


def test_the_close_up_follows_a_drag(skirt, mouse, qtbot):
    seam = next(i for i, line in enumerate(skirt.document.garment.seams) if "front.R" in line.panels)
    skirt.document.pick_seam(seam)
    before = skirt.desk.opened.closeup.grab().toImage()
    start = mouse.on("front.R")
    mouse.press(start)
    mouse.move(start + QPoint(23, 0), keys=Qt.KeyboardModifier.AltModifier)
    qtbot.waitUntil(lambda: skirt.desk.opened.closeup.grab().toImage() != before, timeout=60_000)
    mouse.release(start)


def test_keys_move_a_panel_by_a_repeat_and_no_step_changes(skirt):
    document = skirt.document
    document.select(("side.R",))
    start, before = document.kept.placement("side.R"), readings_of(document.measurement)
    keys = Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.ShiftModifier
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_Right, keys)
    at = document.kept.placement("side.R")
    assert (at.u, at.v) == (pytest.approx(start.u + document.kept.cloths[0].repeat.period, abs=2e-3), start.v)
    for (rms, worst), (rms_before, worst_before) in zip(readings_of(document.measurement), before, strict=True):
        assert (rms, *worst) == pytest.approx((rms_before, *worst_before), abs=0.01)


def test_the_other_side_is_the_mirrored_place_to_half_a_repeat(skirt):
    document = skirt.document
    (cloth,) = document.kept.cloths
    document.select(("side.R",))
    item, before = skirt.desk.view.scene_here.panels["side.R"], readings_of(document.measurement)
    middle, start = item.outline().boundingRect().center().x(), document.kept.placement("side.R")
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_X)
    there, at = item.outline().boundingRect().center().x(), document.kept.placement("side.R")
    assert there == pytest.approx(sum(cloth.usable) - middle, abs=cloth.repeat.period / 2 + 1)
    repeats = (at.u - start.u) / cloth.repeat.period
    assert repeats == pytest.approx(round(repeats), abs=1e-3)
    assert (at.v, at.turn_deg) == (start.v, start.turn_deg)
    assert readings_of(document.measurement)[0][0] == pytest.approx(before[0][0], abs=0.01)
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_X)
    assert document.kept.placement("side.R").u == pytest.approx(start.u, abs=1e-2)


@pytest.mark.parametrize("keys", [Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier])
def test_a_click_with_a_key_adds_and_takes_out(skirt, mouse, keys):
    for panel in ("side.R", "side.L", "side.R"):
        mouse.press(mouse.on(panel), keys=keys)
        mouse.release(mouse.on(panel), keys=keys)
    assert skirt.document.selection == ("side.L",)


def test_what_a_drag_does_can_be_typed(skirt, qtbot):
    """Move by: across, along and turn of all selected panels, one step."""
    from app.move_form import MoveForm

    document = skirt.document
    document.select(("side.R", "side.L"))
    kept, count = document.kept, document.undo.count()
    QTest.keyClick(skirt.desk.view, Qt.Key.Key_M)
    (form,) = skirt.findChildren(MoveForm)
    for field, text in ((form.across, "12,5"), (form.along, "-1 1/2in"), (form.turn, "0,1")):
        field.selectAll()
        QTest.keyClicks(field, text)
    QTest.keyClick(form, Qt.Key.Key_Return)
    assert document.undo.count() == count + 1
    for name in ("side.R", "side.L"):
        panel, was, now = document.panels[name], kept.placement(name), document.kept.placement(name)
        moved = placed(panel.middle[None], now.u, now.v, now.turn_deg, now.turned)[0]
        moved -= placed(panel.middle[None], was.u, was.v, was.turn_deg, was.turned)[0]
        assert moved == pytest.approx([12.5, -38.1], abs=2e-3)
        assert now.turn_deg == pytest.approx(was.turn_deg + 0.1)


def test_the_tolerance_is_told_as_a_length_over_the_panel(skirt):
    """3 mm over 700 mm is a quarter of a degree (the trade's figure for lesser pieces)."""
    document = skirt.document
    document.select(("side.R",))
    ring = document.panels["side.R"].net_ring
    limit = document.kept.cloths[0].grain_tolerance_deg
    most = (ring[:, 1].max() - ring[:, 1].min()) * math.sin(math.radians(limit))
    assert skirt.desk.inspector.limit.text() == f"±{limit:g}° = {most:.1f} mm"
    assert math.degrees(math.asin(3 / 700)) == pytest.approx(0.25, abs=0.01)
