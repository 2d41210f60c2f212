import msgspec
import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.figures import DASH, figure
from app.readings.grades import Grades
from app.readings.seam_model import AT, COLUMNS, DRAWING, DRIFT, GROUP, RMS, SEAM, WORST
from app.readings.seam_table import SeamTable
from core.model.project import Placement, Project
from core.seams.readings import Measurement, measure, remeasure
from garments import repeat, ring, scattered


@pytest.fixture
def table(qtbot: QtBot, light, skirt: Project, skirt_readings: Measurement) -> SeamTable:
    table = SeamTable()
    qtbot.addWidget(table)
    table.resize(520, 460)
    table.show_measurement(skirt, skirt_readings)
    with qtbot.waitExposed(table):
        table.show()
    return table


def text(table: SeamTable, row: int, column: int) -> str:
    return table.model.index(row, column).data()


@pytest.mark.parametrize(
    ("value", "signed", "wanted"),
    [(1.25, False, "1.2"), (-0.04, True, "0.0"), (-3.06, False, "−3.1"), (3.06, True, "+3.1"), (None, False, "–")],
)
def test_numbers_have_one_decimal_and_a_true_minus(value, signed, wanted):
    assert figure(value, signed) == wanted


def test_a_row_shows_the_readings_of_its_seam(table: SeamTable, skirt_readings: Measurement):
    assert table.model.rowCount() == len(skirt_readings.seams)
    for row, reading in enumerate(skirt_readings.read):
        assert text(table, row, SEAM) == reading.line.sewn.label
        assert float(text(table, row, RMS)) == pytest.approx(reading.rms_mm, abs=0.051)
        assert float(text(table, row, WORST)) == pytest.approx(reading.worst[0], abs=0.051)
        assert float(text(table, row, AT)) == pytest.approx(reading.worst[1], abs=0.51)
        drift = float(text(table, row, DRIFT).replace("−", "-"))
        assert drift == pytest.approx(reading.drift_mm_per_m, abs=0.051)


def test_a_picked_row_tells_which_seam_it_is(qtbot: QtBot, table: SeamTable):
    with qtbot.waitSignal(table.seam_picked, timeout=60_000) as told:
        cell = table.view.visualRect(table.model.index(3, RMS)).center()
        QTest.mouseClick(table.view.viewport(), Qt.MouseButton.LeftButton, pos=QPoint(cell))
    assert told.args == [3]


def test_rows_are_picked_and_left_by_keyboard(qtbot: QtBot, table: SeamTable):
    table.pick(2)
    with qtbot.waitSignal(table.seam_picked, timeout=60_000) as told:
        QTest.keyClick(table.view, Qt.Key.Key_Down)
    assert told.args == [3]
    with qtbot.waitSignal(table.seam_picked, timeout=60_000) as told:
        QTest.keyClick(table.view, Qt.Key.Key_Escape)
    assert told.args == [-1]
    assert not table.view.selectionModel().hasSelection()


def test_picking_from_outside_tells_nobody(qtbot: QtBot, table: SeamTable):
    with qtbot.assertNotEmitted(table.seam_picked):
        table.pick(4)
        table.pick(-1)
        table.pick(99)
    assert not table.view.selectionModel().hasSelection()


def test_new_readings_keep_the_row_that_is_picked(qtbot: QtBot, table: SeamTable, skirt: Project):
    table.pick(5)
    moved = skirt.placed({"side.R": Placement(u=321.0)})
    with qtbot.assertNotEmitted(table.seam_picked):
        table.show_measurement(moved, measure(moved))
    assert table.model.seam_at(table.view.currentIndex().row()) == 5


def test_only_cells_that_show_something_else_are_drawn_again(
    qtbot: QtBot, table: SeamTable, skirt: Project, skirt_readings: Measurement
):
    changed: list[tuple[int, int]] = []
    table.model.dataChanged.connect(lambda first, last: changed.append((first.row(), first.column())))
    before = {(row, column): table.model.text(row, column) for row in range(10) for column in range(len(COLUMNS))}
    moved = skirt.placed({"side.R": Placement(u=321.0)})
    after = remeasure(skirt_readings, moved, frozenset({"side.R"}))
    table.show_measurement(moved, after)
    table.model.redraw_drawings()
    rows = [i for i, line in enumerate(after.garment.seams) if "side.R" in line.panels]
    others = [cell for cell, text in before.items() if table.model.text(*cell) != text]
    assert sorted(changed) == sorted({*others, *((row, DRAWING) for row in rows)})


@pytest.mark.parametrize("column", [RMS, WORST, AT, DRIFT])
@pytest.mark.parametrize("order", list(Qt.SortOrder))
def test_rows_sort_by_any_figure_and_keep_the_pick(table: SeamTable, skirt_readings: Measurement, column, order):
    table.pick(6)
    table.view.sortByColumn(column, order)
    shown = [COLUMNS[column].value(skirt_readings.seams[table.model.seam_at(row)]) for row in range(10)]
    assert shown == sorted(shown, reverse=order == Qt.SortOrder.DescendingOrder)
    assert table.model.seam_at(table.view.currentIndex().row()) == 6


def test_rows_change_places_only_when_readings_stand_still(qtbot: QtBot, table: SeamTable, skirt: Project):
    table.view.sortByColumn(RMS, Qt.SortOrder.AscendingOrder)
    before = [table.model.seam_at(row) for row in range(10)]
    moved = skirt.placed({"front.R": Placement(u=333.0), "back.L": Placement(u=77.7)})
    after = measure(moved)
    table.show_measurement(moved, after)
    assert [table.model.seam_at(row) for row in range(10)] == before
    wanted = sorted(range(10), key=lambda seam: after.seams[seam].rms_mm)
    assert wanted != before
    qtbot.waitUntil(lambda: [table.model.seam_at(row) for row in range(10)] == wanted, timeout=60_000)


def test_a_seam_that_meets_all_along_has_its_worst_step_nowhere(qtbot: QtBot, light, skirt: Project):
    table = SeamTable()
    qtbot.addWidget(table)
    mirrored = skirt.placed({name: Placement() for name in skirt.panel_names})
    axis = msgspec.structs.replace(mirrored.cloths[0].repeat, origin=0.0)
    on_axis = msgspec.structs.replace(mirrored, cloths=(msgspec.structs.replace(mirrored.cloths[0], repeat=axis),))
    readings = measure(on_axis)
    table.show_measurement(on_axis, readings)
    meeting = [row for row, reading in enumerate(readings.seams) if reading.worst[0] < 0.05]
    assert [text(table, row, AT) for row in meeting] == [DASH] * len(meeting)
    assert meeting


def test_a_seam_without_stripes_shows_dashes(qtbot: QtBot, light, skirt: Project):
    plain = msgspec.structs.replace(skirt.cloths[0], repeat=None)
    project = msgspec.structs.replace(skirt, cloths=(plain, *skirt.cloths[1:]))
    table = SeamTable()
    qtbot.addWidget(table)
    table.show_measurement(project, measure(project))
    assert [text(table, 0, column) for column in (RMS, WORST, AT, DRIFT)] == [DASH] * 4
    assert "No stripes to match" in table.model.index(0, SEAM).data(Qt.ItemDataRole.ToolTipRole)
    assert not table.grab().isNull()


def test_an_uneven_repeat_with_opposite_leans_is_explained(qtbot: QtBot, light, parasol: Project):
    table = SeamTable()
    qtbot.addWidget(table)
    table.show_measurement(parasol, measure(parasol))
    assert "only the lead stripe can meet here" in table.model.index(0, SEAM).data(Qt.ItemDataRole.ToolTipRole)


def test_without_seams_it_says_what_a_seam_is(qtbot: QtBot, light):
    table = SeamTable()
    qtbot.addWidget(table)
    table.show_measurement(None, None)
    with qtbot.waitExposed(table):
        table.show()
    assert not table.view.isVisible()
    assert table.model.rowCount() == 0


def test_seams_that_are_not_measured_yet_show_dashes(qtbot: QtBot, light, skirt: Project):
    table = SeamTable()
    qtbot.addWidget(table)
    table.show_measurement(skirt, None)
    assert table.model.rowCount() == len(skirt.sewn)
    assert text(table, 0, RMS) == DASH


def test_the_figure_counts_seams_by_their_worst_step(table: SeamTable, skirt_readings: Measurement):
    grades = Grades(good_mm=9.0, fair_mm=10.5)
    table.set_grades(grades)
    worst = [reading.worst[0] for reading in skirt_readings.read]
    counts = table.figure.counts()
    assert counts["good"] == sum(step <= 9.0 for step in worst)
    assert counts["fair"] == sum(9.0 < step <= 10.5 for step in worst)
    assert counts["poor"] == sum(step > 10.5 for step in worst)


def test_columns_explain_themselves(table: SeamTable):
    for column in range(table.model.columnCount()):
        tip = table.model.headerData(column, Qt.Orientation.Horizontal, Qt.ItemDataRole.ToolTipRole)
        assert len(tip.split()) > 4


def test_cells_can_be_heard(table: SeamTable):
    said = table.model.index(0, RMS).data(Qt.ItemDataRole.AccessibleTextRole)
    assert said == f"Rms {text(table, 0, RMS)} mm"


@pytest.fixture
def plaid() -> Project:
    return scattered(ring(3, number=5, crosswise=repeat("even", 45.0)), 3)


@pytest.fixture
def both(qtbot: QtBot, light, plaid: Project) -> SeamTable:
    table = SeamTable()
    qtbot.addWidget(table)
    table.resize(446, 400)
    table.show_measurement(plaid, measure(plaid))
    with qtbot.waitExposed(table):
        table.show()
    return table


def test_a_plaid_has_figures_for_its_stripes_and_for_its_bars(both: SeamTable, plaid: Project):
    found = measure(plaid)
    for row in range(5):
        seam = both.model.seam_at(row)
        for shift, reading in ((0, found.seams[seam]), (GROUP, found.crosswise[seam])):
            assert float(text(both, row, RMS + shift)) == pytest.approx(reading.rms_mm, abs=0.051)
            assert float(text(both, row, WORST + shift)) == pytest.approx(reading.worst[0], abs=0.051)
            assert both.model.grade(row, WORST + shift) == Grades().grade_of(reading.worst[0])
    said = both.model.index(0, RMS + GROUP).data(Qt.ItemDataRole.AccessibleTextRole)
    assert said == f"Bars: Rms {text(both, 0, RMS + GROUP)} mm"


def test_the_figures_of_a_plaid_have_room_in_a_narrow_window(both: SeamTable):
    header = both.view.horizontalHeader()
    shown = [column for column in range(len(COLUMNS)) if not both.view.isColumnHidden(column)]
    assert {RMS, WORST, RMS + GROUP, WORST + GROUP, DRAWING, DRAWING + GROUP} < set(shown)
    assert header.length() <= both.view.viewport().width()
    metrics = both.view.fontMetrics()
    for column in (RMS, WORST, RMS + GROUP, WORST + GROUP):
        assert all(metrics.horizontalAdvance(text(both, row, column)) < header.sectionSize(column) for row in range(5))
    both.resize(900, 400)
    assert not any(both.view.isColumnHidden(column) for column in range(len(COLUMNS)))


@pytest.mark.parametrize("column", [RMS + GROUP, WORST + GROUP, WORST])
def test_a_plaid_sorts_by_its_bars_or_by_its_stripes(both: SeamTable, plaid: Project, column: int):
    found = measure(plaid)
    both.view.sortByColumn(column, Qt.SortOrder.DescendingOrder)
    readings = found.crosswise if column > DRAWING else found.seams
    values = [COLUMNS[column].value(readings[both.model.seam_at(row)]) for row in range(5)]
    assert values == sorted(values, reverse=True)


def test_only_figures_that_read_otherwise_are_drawn_again_on_a_plaid_too(both: SeamTable, plaid: Project):
    changed: list[tuple[int, int]] = []
    both.model.dataChanged.connect(lambda first, last: changed.append((first.row(), first.column())))
    name = plaid.panel_names[1]
    at = plaid.placement(name)
    moved = plaid.placed({name: msgspec.structs.replace(at, v=at.v + 4.0)})
    both.show_measurement(moved, remeasure(measure(plaid), moved, frozenset({name})))
    assert changed
    assert all(column > DRAWING for _, column in changed)


def test_a_table_changes_between_cloths_with_bars_and_without(both: SeamTable, plaid: Project):
    striped = msgspec.structs.replace(plaid.cloths[0], crosswise=None)
    project = msgspec.structs.replace(plaid, cloths=(striped,))
    both.show_measurement(project, measure(project))
    assert all(both.view.isColumnHidden(column) for column in range(RMS + GROUP, len(COLUMNS)))
    assert not any(both.view.isColumnHidden(column) for column in range(DRAWING + 1))
    both.show_measurement(plaid, measure(plaid))
    assert not both.view.isColumnHidden(RMS + GROUP)


def test_the_tip_of_a_row_tells_of_both_ways(both: SeamTable):
    tip = both.model.index(0, SEAM).data(Qt.ItemDataRole.ToolTipRole)
    assert [line.split(":")[0] for line in tip.splitlines()[1:]] == ["Stripes", "Bars"]
