import itertools

import numpy as np
import pytest
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QColor, QImage, QWheelEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.pictures.closeup import EMPTY, CloseUp
from app.pictures.closeup_rooms import spread_out
from app.pictures.opened_seam import OpenedSeam, View
from app.ruler_scale import divided
from core.geometry.transform import placed
from core.model.cloth import Repeat
from core.model.project import Placement, Project
from core.seams.readings import SeamReading, measure
from core.seams.strip import strip_across
from core.seams.stripes import Across, band_borders, kinds_at
from garments import ring


def channels(image: QImage) -> np.ndarray:
    """Red, green and blue; shape (height, width, 3)."""
    image = image.convertToFormat(QImage.Format.Format_RGB32)
    rows = np.frombuffer(image.constBits(), np.uint8).reshape(image.height(), image.width(), 4)
    return rows[..., 2::-1].astype(int).copy()


def seen_at(repeat: Repeat, w: np.ndarray) -> np.ndarray:
    """Colours at across-coordinates by what the repeat says is there; shape (n, 3)."""
    names = [repeat.ground, *(kind[0].colour for kind in repeat.kinds)]
    return np.array([QColor(name).getRgb()[:3] for name in names])[kinds_at(repeat, w) + 1]


def clear_of_borders(repeat: Repeat, w: np.ndarray, margin: float) -> np.ndarray:
    away = (w[:, None] - band_borders(repeat) + repeat.width / 2) % repeat.width - repeat.width / 2
    return np.abs(away).min(axis=1) > margin


def w_on_cloth(project: Project, panel: str, points: np.ndarray) -> np.ndarray:
    """u - k v of panel points, by placing them."""
    at, skew = project.placement(panel), project.cloth_of(panel).skew
    u, v = placed(points, at.u, at.v, at.turn_deg, at.turned).T
    return u - skew * v


PROJECTS = {
    "even": lambda: ring(3, 6, "even", 22.0),
    "uneven, skewed, turned": lambda: ring(5, 8, "uneven", 40.0, skew=12.0, one_way=False),
    "pairs": lambda: ring(7, 10, "half", 18.0, shape="pairs"),
}


def somewhere(project: Project) -> Project:
    names = enumerate(project.panel_names)
    return project.placed(
        {n: Placement(u=51.7 * i, v=9.0 * i, turn_deg=0.3 * (i % 3 - 1), turned=i % 4 == 3) for i, n in names}
    )


@pytest.mark.parametrize("kind", PROJECTS)
@pytest.mark.parametrize("scale", [0.8, 3.0, 9.0])
def test_the_seam_shows_on_both_sides_what_lies_there_on_the_cloth(light, kind, scale):
    project = somewhere(PROJECTS[kind]())
    for reading in measure(project).read[:3]:
        view = View(120.0, scale)
        picture = channels(OpenedSeam.of(project, reading).image(view, 100, 200, 300))
        heights = view.height(np.arange(300) + 0.5)
        heights = heights[heights < reading.line.length]
        for column, panel, points in (
            (99, reading.line.panels[0], reading.line.a),
            (100, reading.line.panels[1], reading.line.b),
        ):
            edge = np.stack([np.interp(heights, reading.line.height, points[:, i]) for i in (0, 1)], axis=1)
            w = w_on_cloth(project, panel, edge)
            sure = clear_of_borders(reading.repeat, w, 1.2 / scale)
            assert sure.mean() > 0.25
            assert np.abs(picture[: len(heights), column][sure] - seen_at(reading.repeat, w)[sure]).max() <= 2


@pytest.mark.parametrize("shift_mm", [0.0, 2.5, 5.0, 10.0])
@pytest.mark.parametrize("seed", range(3))
def test_the_picture_disagrees_where_the_colours_of_the_two_sides_do(light, seed, shift_mm):
    """Down the seam the two middle columns are alike on the share of its length that the readings call agreement."""
    project = ring(seed, 6, "even", 20.0)
    moved = project.placed({"g1": Placement(u=shift_mm)})
    reading = measure(moved).seams[0]
    rows = int(reading.line.length * 4)
    picture = channels(OpenedSeam.of(moved, reading).image(View(0.0, 4.0), 20, 40, rows))
    alike = (np.abs(picture[:, 19] - picture[:, 20]).sum(axis=1) < 380).mean()
    assert alike == pytest.approx(reading.agreement, abs=0.02)


@pytest.fixture
def closeup(qtbot: QtBot, light, skirt: Project) -> CloseUp:
    widget = CloseUp()
    qtbot.addWidget(widget)
    widget.resize(560, 600)
    widget.show_seam(skirt, measure(skirt).seams[3])
    with qtbot.waitExposed(widget):
        widget.show()
    return widget


def reading_of(closeup: CloseUp) -> SeamReading:
    return closeup._seam.reading


def test_the_widget_shows_the_strips_where_its_ruler_says(closeup: CloseUp, skirt: Project):
    """20 px beside the seam, clear of ticks, the pixels are the cloth at that height and depth."""
    closeup.zoom(1.5, 200)
    closeup.scroll_to(400.0)
    reading, view, cloth = reading_of(closeup), closeup.view, closeup._rooms().cloth
    picture = channels(closeup.grab().toImage())
    heights = view.height(np.arange(cloth.height()) + 0.5)
    depth = np.array([20.5 / view.scale])
    seam_x = cloth.left() + cloth.width() // 2
    for side, panel, column in (("a", reading.line.panels[0], seam_x - 21), ("b", reading.line.panels[1], seam_x + 20)):
        across = Across.of(skirt.placement(panel), reading.cloth)
        w = strip_across(reading.line, side, across, heights, depth)[:, 0]
        sure = clear_of_borders(reading.repeat, w, 1.2 / view.scale)
        shown = picture[cloth.top() : cloth.top() + cloth.height(), column]
        assert sure.mean() > 0.5
        assert np.abs(shown[sure] - seen_at(reading.repeat, w)[sure]).max() <= 2


def test_the_first_window_is_magnified_and_holds_the_worst_place(closeup: CloseUp):
    view, reading = closeup.view, reading_of(closeup)
    assert view.scale > 1.5
    assert 0 <= view.y(reading.worst[1]) <= closeup._rooms().cloth.height()


def test_the_first_window_stays_about_the_worst_place_at_another_size_until_another_is_chosen(closeup: CloseUp):
    worst = reading_of(closeup).worst[1]
    for height in (300, 900):
        closeup.resize(560, height)
        view, cloth = closeup.view, closeup._rooms().cloth
        assert view.top_mm - 1 <= worst <= view.height(cloth.height()) + 1
    closeup.scroll_to(400.0)
    top = closeup.view.top_mm
    closeup.resize(560, 600)
    assert closeup.view.top_mm == top


def test_a_low_close_up_leaves_its_room_to_the_cloth(closeup: CloseUp):
    closeup.resize(560, 310)
    assert closeup._rooms().cloth.height() > 200


def test_the_same_seam_stays_in_the_same_window_while_its_panels_move(closeup: CloseUp, skirt: Project):
    closeup.zoom(2.0, 100)
    before = closeup.view
    moved = skirt.placed({"side.R": Placement(u=5.0)})
    garment_reading = reading_of(closeup)
    again = SeamReading.of(garment_reading.line, *(moved.placement(name) for name in garment_reading.line.panels))
    closeup.show_seam(moved, again)
    assert closeup.view == before


def test_a_double_click_shows_the_whole_seam(closeup: CloseUp):
    QTest.mouseDClick(closeup, Qt.MouseButton.LeftButton, pos=closeup._rooms().cloth.center())
    view, height = closeup.view, closeup._rooms().cloth.height()
    assert view.height(0) < 0
    assert view.height(height) > reading_of(closeup).line.length


def test_the_wheel_zooms_about_the_cursor(closeup: CloseUp):
    closeup.scroll_to(400.0)
    cloth = closeup._rooms().cloth
    at = QPointF(cloth.center().x(), cloth.top() + 90.0)
    before = closeup.view
    event = QWheelEvent(
        at, closeup.mapToGlobal(at), QPoint(), QPoint(0, 240), Qt.MouseButton.NoButton,
        Qt.KeyboardModifier.NoModifier, Qt.ScrollPhase.NoScrollPhase, False,
    )  # fmt: skip
    QApplication.sendEvent(closeup, event)
    assert closeup.view.scale > before.scale
    assert closeup.view.height(90.0) == pytest.approx(before.height(90.0), abs=1e-6)


def test_a_drag_scrolls_by_as_much(closeup: CloseUp):
    closeup.scroll_to(400.0)
    before, start = closeup.view, closeup._rooms().cloth.center()
    QTest.mousePress(closeup, Qt.MouseButton.LeftButton, pos=start)
    QTest.mouseMove(closeup, start + QPoint(0, -60))
    QTest.mouseRelease(closeup, Qt.MouseButton.LeftButton, pos=start + QPoint(0, -60))
    assert closeup.view.top_mm == pytest.approx(before.top_mm + 60 / before.scale, abs=1e-6)


def test_the_strip_leads_to_a_place(closeup: CloseUp):
    strip = closeup._rooms().overview
    QTest.mouseClick(closeup, Qt.MouseButton.LeftButton, pos=strip.center())
    middle = closeup.view.height(closeup._rooms().cloth.height() / 2)
    assert middle == pytest.approx(reading_of(closeup).line.length / 2, abs=3.0)


def test_keys_scroll_zoom_and_fit(closeup: CloseUp):
    QTest.keyClick(closeup, Qt.Key.Key_Home)
    top = closeup.view
    QTest.keyClick(closeup, Qt.Key.Key_Down)
    assert closeup.view.top_mm > top.top_mm
    QTest.keyClick(closeup, Qt.Key.Key_End)
    end = closeup.view.height(closeup._rooms().cloth.height())
    assert end == pytest.approx(reading_of(closeup).line.length + 12.0, abs=0.1)
    QTest.keyClick(closeup, Qt.Key.Key_Minus)
    smaller = closeup.view.scale
    QTest.keyClick(closeup, Qt.Key.Key_Plus)
    assert closeup.view.scale > smaller
    QTest.keyClick(closeup, Qt.Key.Key_0)
    assert closeup.view.scale < smaller


def test_it_says_in_words_what_it_shows(qtbot: QtBot, light, parasol: Project):
    widget = CloseUp()
    qtbot.addWidget(widget)
    reading = measure(parasol).seams[1]
    widget.show_seam(parasol, reading)
    said = widget.accessibleDescription().replace("\u00a0", " ")
    assert reading.line.sewn.label in said
    assert f"rms {reading.rms_mm:.1f} mm" in said
    assert "only the lead stripe can meet here" in said


def test_without_a_seam_it_says_what_to_do(qtbot: QtBot, closeup: CloseUp, skirt: Project):
    closeup.show_seam(skirt, None)
    assert closeup.accessibleDescription() == EMPTY
    assert closeup.view is None
    QTest.keyClick(closeup, Qt.Key.Key_Down)
    QTest.mouseClick(closeup, Qt.MouseButton.LeftButton, pos=QPoint(200, 200))
    assert not closeup.grab().isNull()


@pytest.mark.parametrize("size", [(304, 240), (380, 300), (460, 420), (1200, 200), (620, 1400)])
def test_it_can_be_drawn_at_any_size(closeup: CloseUp, size):
    closeup.resize(*size)
    rooms = closeup._rooms()
    assert rooms.cloth.width() >= 140
    parts = [
        part for part in (rooms.overview, rooms.ruler, rooms.readings, rooms.cloth, rooms.crossings) if part.width()
    ]
    assert all(one.right() < other.left() for one, other in itertools.pairwise(parts))
    assert parts[-1].right() <= closeup.width()
    assert not closeup.grab().isNull()


def test_labels_keep_clear_of_each_other_and_stay_in_their_room():
    wanted = [10.0, 11.0, 12.0, 300.0, 394.0, 395.0, 396.0]
    places = spread_out(wanted, 18.0, 9.0, 400.0)
    assert all(b - a >= 18.0 - 1e-9 for a, b in itertools.pairwise(places))
    assert places[0] >= 9.0
    assert places[-1] <= 400.0
    assert places[3] == 300.0


@pytest.mark.parametrize(("scale", "wanted"), [(0.7, 100), (4.0, 20), (9.0, 5), (40.0, 2)])
def test_the_ruler_counts_in_ones_twos_and_fives(scale, wanted):
    assert divided(scale, 44.0)[0] == wanted


def test_a_stretch_that_is_open_is_veiled(qtbot: QtBot, light, skirt: Project):
    at = [line.sewn.seam.open for line in measure(skirt).garment.seams]
    index = next(i for i, stretch in enumerate(at) if stretch)
    widget = CloseUp()
    qtbot.addWidget(widget)
    widget.resize(560, 600)
    reading = measure(skirt).seams[index]
    widget.show_seam(skirt, reading)
    widget.fit()
    cloth, view = widget._rooms().cloth, widget.view
    picture = channels(widget.grab().toImage())[cloth.top() : cloth.bottom(), cloth.center().x() + 25]
    inside = picture[int(view.y(at[index][0])) + 3 : int(view.y(at[index][1])) - 3]
    below = picture[int(view.y(at[index][1])) + 3 : int(view.y(600))]
    assert inside.min() > below.min() + 40
