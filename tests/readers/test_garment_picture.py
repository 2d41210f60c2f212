import itertools
import math

import numpy as np
import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QColor, QImage
from pytestqt.qtbot import QtBot
from shapely.geometry import Polygon

from app.pictures.garment_picture import EMPTY, GarmentPicture
from app.pictures.worn_layout import APART_MM, lay_out
from core.geometry.transform import placed
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import Measurement, measure
from core.seams.stripes import kinds_at
from garments import ring


@pytest.fixture
def picture(qtbot: QtBot, light, skirt: Project, skirt_readings: Measurement) -> GarmentPicture:
    widget = GarmentPicture()
    qtbot.addWidget(widget)
    widget.resize(900, 800)
    widget.show_garment(skirt, skirt_readings)
    return widget


def test_the_cloth_in_the_picture_is_the_cloth_under_the_panel(picture: GarmentPicture, skirt: Project):
    """Any pixel inside a panel has the colour that lies on the cloth below that place of the panel."""
    picture.resize(1500, 1400)
    image = picture.grab().toImage().convertToFormat(QImage.Format.Format_RGB32)
    rng = np.random.default_rng(4)
    sure = 0
    for transform, laid in picture._laid():
        turn = math.radians(laid.turn_deg)
        for x, y in rng.uniform((-25, 150), (25, 700), (60, 2)):
            u = laid.x + x * math.cos(turn) - y * math.sin(turn)
            v = laid.y + x * math.sin(turn) + y * math.cos(turn)
            at = transform.map(QPointF(u, v))
            pixel = QPointF(int(at.x()) + 0.5, int(at.y()) + 0.5)
            back = transform.inverted()[0].map(pixel)
            px, py = back.x() - laid.x, back.y() - laid.y
            local = np.array([[px * math.cos(turn) + py * math.sin(turn), py * math.cos(turn) - px * math.sin(turn)]])
            spot, cloth = skirt.placement(laid.panel.name), skirt.cloth_of(laid.panel.name)
            on_cloth = placed(local, spot.u, spot.v, spot.turn_deg, spot.turned)[0]
            w = on_cloth[0] - cloth.skew * on_cloth[1]
            blur = 1.0 / transform.m11()
            kinds = set(kinds_at(cloth.repeat, w + np.linspace(-blur, blur, 41)).tolist())
            if len(kinds) == 1:
                kind = kinds.pop()
                wanted = QColor(cloth.repeat.ground if kind < 0 else cloth.repeat.kinds[kind][0].colour)
                shown = QColor(image.pixel(int(at.x()), int(at.y())))
                assert max(abs(p - q) for p, q in zip(shown.getRgb(), wanted.getRgb(), strict=True)) <= 2
                sure += 1
    assert sure > 100


def test_the_skirt_has_a_front_and_a_back(picture: GarmentPicture):
    front, back = (row.row for row in picture._rows)
    assert (front.part, back.part) == ("front", "back")
    assert front.panels == ("side.R", "side-front.R", "front.R", "front.L", "side-front.L", "side.L")
    assert back.panels == ("side-back.L", "back.L", "back.R", "side-back.R")


@pytest.mark.parametrize("shape", ["ring", "chain", "branch", "pairs", "fold"])
def test_panels_lie_beside_each_other_without_covering_each_other(shape):
    project = ring(2, 9 if shape == "fold" else 8, shape=shape)
    for row in lay_out(project, Garment.of(project)):
        shapes = [Polygon(panel.at(panel.panel.net_ring)) for panel in row.panels]
        for one, other in itertools.pairwise(shapes):
            assert one.intersection(other).area < 0.01 * min(one.area, other.area)
            assert one.distance(other) <= APART_MM + 1e-6
        low = np.min([shape.bounds[:2] for shape in shapes], axis=0)
        high = np.max([shape.bounds[2:] for shape in shapes], axis=0)
        assert low == pytest.approx((0, 0), abs=1e-6)
        assert high == pytest.approx((row.width, row.height), abs=1e-6)


def test_straight_gores_close_at_their_seams():
    project = ring(6, 6, curved=False)
    garment = Garment.of(project)
    for row in lay_out(project, garment):
        laid = {panel.panel.name: panel for panel in row.panels}
        for line in garment.seams:
            if line.panels in zip(row.row.panels, row.row.panels[1:], strict=False):
                a, b = (laid[name].at(edge) for name, edge in zip(line.panels, (line.a, line.b), strict=True))
                assert np.hypot(*(a[-1] - b[-1])) < 0.05 * line.length
                assert np.hypot(*(a[0] - b[0])) < 1e-6


def test_a_place_tells_its_panel(picture: GarmentPicture):
    for transform, laid in picture._laid():
        middle = laid.at(np.array([laid.panel.middle]))[0]
        assert picture.panel_at(transform.map(QPointF(*middle))) == laid.panel.name
    assert picture.panel_at(QPointF(1, 1)) is None


def test_everything_stays_inside_the_widget(picture: GarmentPicture):
    for size in ((240, 200), (500, 900), (1200, 300)):
        picture.resize(*size)
        for transform, laid in picture._laid():
            points = [transform.map(QPointF(*point)) for point in laid.at(laid.panel.net_ring).tolist()]
            assert all(0 <= p.x() <= size[0] and 0 <= p.y() <= size[1] for p in points)
        assert not picture.grab().isNull()


def test_a_moved_panel_is_drawn_anew(picture: GarmentPicture, skirt: Project):
    before = picture.grab().toImage()
    assert picture.grab().toImage() == before
    at = skirt.placement("front.R")
    moved = skirt.placed({"front.R": type(at)(u=at.u + 5, v=at.v, turn_deg=at.turn_deg)})
    picture.show_garment(moved, measure(moved, picture._measurement.garment))
    assert picture.grab().toImage() != before


def test_without_a_project_it_says_what_to_do(qtbot: QtBot, light):
    widget = GarmentPicture()
    qtbot.addWidget(widget)
    widget.show_garment(None, None)
    assert widget.accessibleDescription() == EMPTY
    assert widget.panel_at(QPointF(50, 50)) is None
    assert not widget.grab().isNull()


def test_both_themes_can_be_drawn(qtbot: QtBot, dark, parasol: Project):
    widget = GarmentPicture()
    qtbot.addWidget(widget)
    widget.show_garment(parasol, measure(parasol))
    assert widget.grab().toImage().pixelColor(2, 2) == dark.colour("surface")
