"""Layers and strips on the canvas: what is cut besides the drawn pieces lies on its cloth like any other panel."""

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtTest import QTest

from app.errands import laid
from core.files.project_file import read_project, write_project
from core.lay.cloth_lay import cloth_lay
from core.lay.legal import find_faults
from core.model.cloth import Cloth
from core.model.project import Layer, Project, Strip

LINING = ("front interlining.R", "front interlining.L")


@pytest.fixture
def lined(skirt):
    """The skirt with an interlining from a plain cloth of its own and a waistband from the striped one."""
    kept: Project = skirt.document.kept
    striped = kept.cloths[0]
    project = msgspec.structs.replace(
        kept,
        cloths=(*kept.cloths, Cloth(id="muslin", name="Muslin", width=1500.0)),
        layers=(Layer(kind="interlining", of=("front",), cloth="muslin"),),
        strips=(Strip(id="band", name="Waistband", length=720.0, width=80.0, number=1, cloth=striped.id),),
    )
    skirt.document.change("Line it", project)
    return skirt


def cloth_titles(window) -> list[str]:
    return [window.desk.inspector.cloths.itemText(row) for row in range(window.desk.inspector.cloths.count())]


def show_cloth(window, title: str) -> None:
    window.desk.inspector.cloths.setCurrentIndex(window.desk.inspector.cloths.findText(title))
    window.desk.inspector.cloths.activated.emit(window.desk.inspector.cloths.currentIndex())


def test_every_cloth_with_something_on_it_can_be_shown(lined):
    assert cloth_titles(lined) == [lined.document.kept.cloths[0].title, "Muslin"]
    assert "band" in lined.desk.view.scene_here.panels
    show_cloth(lined, "Muslin")
    assert set(lined.desk.view.scene_here.panels) == set(LINING)


def test_the_drawn_pieces_stay_the_project(lined):
    assert [piece.id for piece in lined.document.kept.pieces] == [piece.id for piece in lined.document.project.pieces]
    assert "band" not in lined.document.kept.panel_names
    assert len(lined.document.garment.panels) == 10


def test_panels_without_places_are_offered_them(lined):
    assert lined.desk.unplaced.isVisible()
    lined.edits.spread_new()
    assert not lined.desk.unplaced.isVisible()
    kept = lined.document.cut
    assert not any(find_faults(kept, "muslin"))
    assert not any(fault for fault in find_faults(kept, kept.cloths[0].id) if "band" in fault)


def test_a_derived_panel_is_dragged_nudged_turned_held_and_saved(lined, mouse, tmp_path):
    lined.edits.spread_new()
    lined.document.select((LINING[0],))
    assert set(lined.desk.view.scene_here.panels) == set(LINING)
    before, steps = lined.document.kept.placement(LINING[0]), lined.document.undo.count()
    mouse.drag(mouse.on(LINING[0]), QPointF(30, 12))
    dragged = lined.document.kept.placement(LINING[0])
    assert dragged.u - before.u == pytest.approx(30 / lined.desk.view.scale_px, abs=0.01)
    QTest.keyClick(lined.desk.view, Qt.Key.Key_Left)
    assert lined.document.kept.placement(LINING[0]).u == pytest.approx(dragged.u - 1.0)
    lined.edits.turn_by(1)
    lined.edits.turn_end_for_end()
    lined.edits.switch_hold()
    assert lined.document.kept.placement(LINING[0]).hold
    assert lined.document.undo.count() > steps
    write_project(tmp_path / "lined.stripewright", lined.document.kept)
    assert read_project(tmp_path / "lined.stripewright") == lined.document.kept


def test_readings_do_not_depend_on_layers(lined):
    before = lined.document.measurement.rms_mm
    lined.edits.spread_new()
    lined.document.select(("band",))
    lined.edits.nudge(5.0, 5.0)
    assert lined.document.measurement.rms_mm == before


def test_laying_lays_all_cloths_and_undo_takes_it_back(lined, qtbot):
    lined.edits.spread_new()
    lined.edits.type_place("band", "u", 9000.0)
    before = lined.document.kept
    lined.errands.lay()
    lined.jobs.finish_early()
    qtbot.waitUntil(lambda: not lined.jobs.busy, timeout=60_000)
    cut = lined.document.cut
    assert [find_faults(cut, cloth.id) for cloth in cut.cloths] == [(), ()]
    assert lined.document.kept.layers == before.layers
    lined.document.undo_step()
    assert lined.document.kept == before


def test_a_lay_that_was_ended_at_once_makes_no_cloth_longer(lined):
    lined.edits.spread_new()
    kept = lined.document.kept
    lined.document.place("Move the band off", {"band": msgspec.structs.replace(kept.placement("band"), u=9000.0)})
    before = lined.document.cut
    result = laid(lined.document.kept, lambda share, note: False, lambda places: None)
    muslin = next(found for found in result.lays if found.cloth.id == "muslin")
    assert muslin.length_mm <= cloth_lay(before, muslin.cloth).length_mm
    after = lined.document.cut_of(result.project)
    assert [find_faults(after, cloth.id) for cloth in after.cloths] == [(), ()]


def test_a_layer_that_cannot_be_had_is_said(lined):
    kept = lined.document.kept
    bad = msgspec.structs.replace(kept.layers[0], kind="hem facing", edge="hem", depth=5000.0)
    lined.document.change("Face it", msgspec.structs.replace(kept, layers=(bad,)))
    assert set(lined.document.panels) == set(kept.panel_names)
    assert "front" in lined.desk.status.faults.toolTip()
