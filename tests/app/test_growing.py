"""While a lay is searched for, the cloth shows what was found so far, and keeps nothing of it."""

from core.lay.legal import find_faults
from core.lay.lying import Lying


def begin_to_lay(skirt, qtbot):
    kept, steps = skirt.document.kept, skirt.document.undo.count()
    skirt.errands.lay()
    qtbot.waitUntil(lambda: skirt.document.trying, timeout=60_000)
    assert skirt.document.kept is kept
    assert skirt.document.undo.count() == steps
    return kept


def test_cancel_throws_away_what_was_shown(skirt, qtbot):
    document = skirt.document
    kept = begin_to_lay(skirt, qtbot)
    cloth = document.project.cloths[0].id
    assert document.project.placements != kept.placements
    assert find_faults(document.cut, cloth) == ()
    assert skirt.desk.view.seen().contains(skirt.desk.view.scene_here.laid_rect())
    assert (
        skirt.desk.status.length.text() == f"lay {Lying.of(document.cut, document.cut.cloth(cloth)).length_mm:.0f} mm"
    )
    skirt.jobs.cancel()
    assert document.project is kept
    qtbot.wait(150)
    assert document.project is kept


def test_stopped_early_the_best_is_kept_as_one_step(skirt, qtbot):
    document = skirt.document
    begin_to_lay(skirt, qtbot)
    shown = skirt.desk.view.scene_here.lying.length_mm
    with qtbot.waitSignal(skirt.jobs.ended, timeout=60_000):
        skirt.jobs.finish_early()
    assert not document.trying
    assert document.undo.undoText() == "Lay on the cloth"
    assert Lying.of(document.cut, document.cut.cloths[0]).length_mm <= shown + 1e-3


def test_a_hand_on_a_panel_takes_hold_of_it_where_it_lies(skirt, qtbot, mouse):
    document = skirt.document
    begin_to_lay(skirt, qtbot)
    start = mouse.on("side.R")
    mouse.press(start)
    assert not document.trying
    mouse.release(start)
    skirt.jobs.cancel()


def test_what_is_laid_anew_is_shown_as_large_as_it_goes_unless_a_part_was_chosen(window, harbour_skirt, qtbot):
    assert window.filing.open_sample(harbour_skirt)
    view = window.desk.view
    window.edits.spread_new()
    whole = view.scene_here.laid_rect()
    assert view.seen().contains(whole)
    assert min(view.seen().width() / whole.width(), view.seen().height() / whole.height()) < 1.25
    view.zoom_in()
    scale = view.scale_px
    window.edits.spread_out()
    assert view.scale_px == scale
