"""Bars across a cloth are read off the screen as stripes are."""

import msgspec
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QPainter, QPixmap
from PySide6.QtTest import QTest

from app.level_marks import LevelMark, paint_marks
from app.readings.seam_model import GROUP, WORST
from app.remedies.bar import EASED
from core.matching.solve import match
from core.seams.levels import find_levels, find_rounds
from core.units import MM
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
    assert bar.bars.font().bold()
    assert window.desk.opened.closeup._words()[0].endswith(", bars")
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


def test_a_figure_of_the_bars_that_is_clicked_shows_them_in_the_close_up(window):
    window.document.open(scattered(ring(5, number=4, crosswise=BARS), 5))
    view = window.desk.table.view
    for column, way in ((WORST + GROUP, "crosswise"), (WORST, "lengthwise")):
        cell = view.visualRect(view.model().index(2, column)).center()
        QTest.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=cell)
        assert shown(window).way == way
        assert shown(window).line is window.document.garment.seams[2]


def test_edges_on_the_cloth_and_the_garment_are_graded_by_what_is_worse(window):
    project = match(ring(5, number=4, crosswise=BARS)).project
    first, _, third, _ = project.panel_names
    off = {first: {"u": project.placement(first).u + 7}, third: {"v": project.placement(third).v + 12}}
    moved = {name: msgspec.structs.replace(project.placement(name), **change) for name, change in off.items()}
    window.document.open(project.placed(moved))
    found = window.document.measurement
    pairs = list(zip(found.seams, found.crosswise, strict=True))
    worst = [max(one.worst[0] for one in pair) for pair in pairs]
    assert {max(pair, key=lambda one: one.worst[0]).way for pair in pairs} == {"lengthwise", "crosswise"}
    badges = [[edge.badge.step_mm for edge in edges] for edges in window.desk.view.scene_here.edges]
    assert badges == [[size] * 2 for size in worst]
    window.desk.show_panels()
    assert [window.desk.panel_list.model.text(row, 5).split()[0] for row in range(4)] == [
        f"{max(size for size, pair in zip(worst, pairs, strict=True) if name in pair[0].line.panels):.1f}"
        for name in window.document.panels
    ]


def test_where_bars_fall_at_waists_and_hems_is_told_and_marked(window, qtbot):
    project = match(ring(5, number=4, crosswise=BARS)).project
    window.document.open(project)
    levels = find_levels(project, window.document.garment)
    rounds = find_rounds(project, levels)
    label = window.desk.table.levels
    qtbot.waitUntil(lambda: label.isVisible(), timeout=60_000)
    assert label.text() == "  ·  ".join(one.where(MM) for one in rounds)
    assert label.toolTip().splitlines() == [one.words(MM) for one in rounds]
    window.desk.show_garment()
    told = window.desk.garment._told("g1").splitlines()
    window.desk.show_panels()
    tip = window.desk.panel_list.model.index(1, 0).data(Qt.ItemDataRole.ToolTipRole).splitlines()
    for level in (level for level in levels if level.panel == "g1"):
        way = "below" if level.to_bar_mm > 0 else "above"
        line = f"{level.edge}: nearest bar {abs(level.to_bar_mm):.1f} mm {way}"
        assert line in told
        assert line in tip
    window.document.open(scattered(ring(5, number=4), 5))
    qtbot.waitUntil(lambda: not label.isVisible(), timeout=60_000)


def test_marks_of_levels_stand_inside_their_panels_and_not_on_each_other(qtbot):
    picture = QPixmap(400, 300)
    picture.fill(Qt.GlobalColor.white)
    painter = QPainter(picture)
    marks = [LevelMark("↓ 12.3", QPointF(100, 50), QPointF(0, 1)), LevelMark("↑ 4.5", QPointF(110, 50), QPointF(0, 1))]
    taken = paint_marks(painter, [*marks, LevelMark("↑ 0.7", QPointF(300, 250), QPointF(0, -1))])
    painter.end()
    assert len(taken) == 3
    assert not any(one.intersects(other) for i, one in enumerate(taken) for other in taken[:i])
    assert taken[0].top() > 50
    assert taken[2].bottom() < 250


def test_a_cloth_without_bars_offers_none(skirt):
    skirt.document.pick_seam(0)
    assert not skirt.desk.opened.bar.bars.isVisible()
