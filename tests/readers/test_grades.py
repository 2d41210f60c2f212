import numpy as np
import pytest
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage, QPainter

from app.readings.grades import COLOURS, GRADES, Grades, colour_of, halo_for, paint_mark, pen_for


@pytest.mark.parametrize(
    ("step", "grade"),
    [(0, "good"), (2.0, "good"), (-2.0, "good"), (2.001, "fair"), (3.0, "fair"), (-3.01, "poor"), (11, "poor")],
)
def test_limits_belong_to_the_better_grade(step, grade):
    assert Grades().grade_of(step) == grade


def test_the_user_may_set_the_limits():
    assert Grades(good_mm=0.5, fair_mm=1.0).grade_of(0.8) == "fair"


def test_grades_differ_by_more_than_colour():
    pens = [pen_for(grade) for grade in GRADES]
    assert len({tuple(pen.dashPattern()) for pen in pens}) == 3
    assert pens[2].widthF() > pens[0].widthF()


def test_the_colours_are_those_of_okabe_and_ito():
    # Okabe and Ito, Color Universal Design (2008): blue 0,114,178; orange 230,159,0; vermilion 213,94,0
    wanted = {"good": (0, 114, 178), "fair": (230, 159, 0), "poor": (213, 94, 0)}
    assert {grade: colour_of(grade).getRgb()[:3] for grade in COLOURS} == wanted


def test_the_halo_is_wider_than_the_line():
    assert all(halo_for(grade, 3.0).widthF() > pen_for(grade, 3.0).widthF() for grade in GRADES)


def test_marks_differ_in_shape(light):
    shapes = []
    for grade in GRADES:
        image = QImage(16, 16, QImage.Format.Format_ARGB32)
        image.fill(Qt.GlobalColor.transparent)
        painter = QPainter(image)
        paint_mark(painter, grade, QPointF(8, 8), 5)
        painter.end()
        alpha = np.frombuffer(image.constBits(), np.uint8).reshape(16, 16, 4)[..., 3] > 100
        shapes.append(alpha)
        assert alpha[8, 8]
    assert all((one != other).sum() > 12 for i, one in enumerate(shapes) for other in shapes[:i])
