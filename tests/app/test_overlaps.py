"""What a hand on the cloth is told at once: what overlaps, and how long the lay becomes; where panels come to rest."""

import math

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtWidgets import QPushButton
from shapely.affinity import translate

from core.files.project_file import read_project, write_project
from core.lay.legal import find_faults
from core.lay.lying import Lying
from core.matching.phase import best_shifts
from core.matching.solve import match
from core.seams.readings import measure


@pytest.fixture
def skirt_matched(harbour_skirt, tmp_path):
    """The ten-panel skirt as it is left by matching alone: every panel across, none along the cloth."""
    path = tmp_path / "matched.stripewright"
    write_project(path, match(read_project(harbour_skirt)).project)
    return path


def middle_of(window, panel: str) -> QPointF:
    return window.desk.view.scene_here.panels[panel].outline().boundingRect().center()


def test_a_panel_dragged_over_another_is_marked_and_the_length_follows(skirt, mouse):
    skirt.actions_by_id["settle"].setChecked(False)
    scene, status = skirt.desk.view.scene_here, skirt.desk.status
    assert scene.clash.shown == 0
    assert status.length.text() == f"lay {scene.lying.length_mm:.0f} mm"
    start = QPointF(mouse.on("side.R"))
    front, side = (skirt.desk.view.mapFromScene(middle_of(skirt, panel)) for panel in ("front.R", "side.R"))
    over = QPointF(front - side)
    mouse.press(start)
    mouse.move(start + over + QPointF(0, 20))
    fresh = Lying.of(skirt.document.cut, scene.cloth)
    assert scene.lying.overlapping == fresh.overlapping >= {"side.R", "front.R"}
    assert scene.clash.shown == len(fresh.overlapping)
    assert status.faults.text().startswith(f"{len(fresh.overlapping)} panels overlap")
    assert status.length.text() == f"lay {fresh.length_mm:.0f} mm"
    mouse.release(start + over + QPointF(0, 20))
    assert status.faults.text().startswith(f"{len(fresh.overlapping)} panels overlap")
    assert "overlap by" in status.faults.toolTip()
    skirt.document.undo_step()
    assert scene.clash.shown == 0
    assert status.faults.text() == "Can be cut as it lies"


def touching_from_below(shape, others) -> float:
    """How far along a shape has to be moved to touch the others from behind, found by halving."""
    low, high = max(other.bounds[3] for other in others) - shape.bounds[3], 5000.0
    for _ in range(50):
        middle = (low + high) / 2
        if any(translate(shape, 0, middle).intersects(other) for other in others):
            low = middle
        else:
            high = middle
    return high


@pytest.mark.parametrize("keys", [Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.AltModifier])
def test_a_dragged_panel_comes_to_rest_against_its_neighbours_unless_alt_is_down(skirt, mouse, keys):
    shapes = dict(skirt.desk.view.scene_here.lying.shapes)
    own = shapes.pop("side.R")
    start = QPointF(mouse.on("side.R"))
    away = QPointF(0, touching_from_below(own, shapes.values()) * skirt.desk.view.scale_px + 4)
    mouse.press(start)
    mouse.move(start + away, keys=keys)
    mouse.release(start + away)
    lies = skirt.desk.view.scene_here.lying.shapes["side.R"]
    assert not find_faults(skirt.document.cut, skirt.desk.view.scene_here.cloth.id)
    touches = any(translate(lies, 0, -0.1).intersects(other) for other in shapes.values())
    assert touches == (keys == Qt.KeyboardModifier.NoModifier)


@pytest.fixture
def barred(skirt):
    """The skirt on a cloth whose bars are 100 mm apart and lean."""
    kept = skirt.document.kept
    bars = msgspec.structs.replace(kept.cloths[0].repeat, width=100.0)
    cloth = msgspec.structs.replace(kept.cloths[0], crosswise=bars, weft_skew_percent=2.0)
    skirt.document.open(msgspec.structs.replace(kept, cloths=(cloth, *kept.cloths[1:])))
    return skirt


def test_on_a_barred_cloth_a_dragged_panel_comes_to_rest_where_its_bars_match(barred, mouse):
    document, period = barred.document, 100.0
    before = document.kept.placement("side.R")
    away = best_shifts(document.kept, document.garment, "side.R", "crosswise")[0] % period + 2 * period
    mouse.drag(mouse.on("side.R"), QPointF(0, away * barred.desk.view.scale_px + 3))
    after = document.kept.placement("side.R")
    assert (after.v - before.v) - 0.02 * (after.u - before.u) == pytest.approx(away, abs=2e-3)

    def cost(dv: float) -> float:
        moved = document.kept.placed({"side.R": msgspec.structs.replace(after, v=after.v + dv)})
        own = [one for one in measure(moved).crosswise if "side.R" in one.line.panels]
        return math.fsum(one.line.sewn.seam.weight * one.mean_square for one in own)

    assert all(cost(0.0) <= cost(dv) for dv in (-20, -5, -1, -0.2, 0.2, 1, 5, 20))


def test_panels_dragged_together_on_a_barred_cloth_keep_their_steps_by_whole_repeats(barred, mouse):
    document = barred.document
    document.select(("side.R", "side.L"))
    before = document.kept.placement("side.L")
    mouse.drag(mouse.on("side.R"), QPointF(0, 200.0 * barred.desk.view.scale_px + 3))
    after = document.kept.placement("side.L")
    assert (after.v - before.v) - 0.02 * (after.u - before.u) == pytest.approx(200.0, abs=2e-3)


def test_panels_that_were_only_matched_lie_on_one_heap_and_are_offered_to_be_laid_or_spread_out(window, skirt_matched):
    assert window.filing.open_path(skirt_matched)
    overlapping = len(window.desk.view.scene_here.lying.overlapping)
    assert overlapping == len(window.document.panels)
    assert not window.desk.heaped.isHidden()
    assert window.desk.status.faults.text().startswith(f"{overlapping} panels overlap")
    before = window.document.measurement.rms_mm
    button = next(one for one in window.desk.heaped.findChildren(QPushButton) if one.text() == "Spread out")
    button.click()
    assert window.desk.heaped.isHidden()
    assert window.desk.status.faults.text() == "Can be cut as it lies"
    assert window.document.measurement.rms_mm == pytest.approx(before, abs=1e-3)


def test_panels_without_places_overlap_nothing_and_are_told_as_such(window, harbour_skirt):
    window.filing.open_sample(harbour_skirt)
    assert window.desk.view.scene_here.clash.shown == 0
    assert window.desk.heaped.isHidden()
    assert not window.desk.unplaced.isHidden()
    assert window.desk.status.faults.text() == f"{len(window.document.panels)} panels have no place yet"
