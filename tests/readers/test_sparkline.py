import numpy as np
import pytest
from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QImage, QPainter

from app.readings.grades import COLOURS, Grades
from app.readings.sparkline import SparklineCache, paint_sparkline, range_mm
from core.model.project import Placement, Project
from core.seams.readings import measure

CELL = QRectF(30, 20, 120, 26)


def painted(reading, grades=Grades()) -> np.ndarray:  # noqa: B008
    image = QImage(180, 66, QImage.Format.Format_RGB32)
    image.fill(QColor("#00ff00"))
    painter = QPainter(image)
    paint_sparkline(painter, CELL, reading, grades)
    painter.end()
    return np.frombuffer(image.constBits(), np.uint8).reshape(66, 180, 4)[..., 2::-1].copy()


def near(picture: np.ndarray, colour: str) -> np.ndarray:
    wanted = np.array([int(colour[i : i + 2], 16) for i in (1, 3, 5)])
    return np.abs(picture.astype(int) - wanted).sum(axis=2) < 60


@pytest.mark.parametrize("u", [0.0, 3.0, 8.5, 11.0])
def test_nothing_is_drawn_outside_the_cell(light, skirt: Project, u):
    for reading in measure(skirt.placed({"side.R": Placement(u=u)})).read:
        outside = painted(reading)
        inside = outside[20:46, 30:150].copy()
        outside[20:46, 30:150] = (0, 255, 0)
        assert (outside == (0, 255, 0)).all()
        assert not (inside == (0, 255, 0)).all()


def test_grades_are_drawn_where_they_are(light, skirt: Project):
    found = set()
    for reading in measure(skirt).read:
        picture = painted(reading)
        heights = np.linspace(0, reading.line.length, 400)
        steps = np.abs(reading.step_at(heights))
        for grade, low, high in (("good", -1, 2), ("fair", 2, 3), ("poor", 3, 99)):
            there = ((steps > low) & (steps <= high)).mean() > 0.1
            if there:
                found.add(grade)
                assert near(picture, COLOURS[grade]).any()
            elif not ((steps > low - 0.2) & (steps <= high + 0.2)).any():
                assert not near(picture, COLOURS[grade]).any()
    assert found == {"good", "fair", "poor"}


def test_the_line_follows_the_step(light, skirt: Project):
    """Where the whole seam is good, the line's height in the cell is the step, top of the seam on the left."""
    reading = measure(skirt).seams[0]
    shifted = skirt.placed({"front.R": Placement(u=0.6), "front.L": Placement(u=2 * 4.0 - 0.6 - 1.0)})
    reading = measure(shifted).seams[0]
    step = float(reading.step_at(np.array([400.0]))[0])
    assert 0.2 < abs(step) < 1.9
    rows = np.nonzero(near(painted(reading), COLOURS["good"])[:, 60:120].any(axis=1))[0]
    expected = CELL.center().y() - step / range_mm(reading.period, Grades()) * (CELL.height() - 4) / 2
    assert rows.mean() == pytest.approx(expected, abs=1.0)


def test_a_picture_is_kept_until_the_reading_changes(light, skirt: Project):
    readings = measure(skirt)
    image = QImage(180, 66, QImage.Format.Format_RGB32)
    painter = QPainter(image)
    cache = SparklineCache()
    image.fill(Qt.GlobalColor.white)
    cache.paint(painter, CELL, readings.seams[1], Grades())
    before = image.copy()
    image.fill(Qt.GlobalColor.white)
    cache.paint(painter, CELL, readings.seams[1], Grades())
    assert image == before
    moved = measure(skirt.placed({"front.R": Placement(u=55.0)}))
    cache.paint(painter, CELL, moved.seams[1], Grades())
    painter.end()
    assert image != before
