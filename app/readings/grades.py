"""How a step is judged, and how its grade is drawn: by colour, dash pattern and weight together."""

from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app.theme import current

Grade = Literal["good", "fair", "poor"]
GRADES: tuple[Grade, ...] = ("good", "fair", "poor")
"""From the best on; their places agree with `core.seams.runs`."""

COLOURS: dict[Grade, str] = {"good": "#0072B2", "fair": "#E69F00", "poor": "#D55E00"}
"""Blue, orange and vermilion of Okabe and Ito's set for colour-blind eyes."""

_DASHES: dict[Grade, list[float]] = {"good": [], "fair": [3.0, 2.2], "poor": [1.0, 1.0]}
_WEIGHTS: dict[Grade, float] = {"good": 1.0, "fair": 1.0, "poor": 1.7}


@dataclass(frozen=True)
class Grades:
    """Up to which step, mm, a seam is good, and up to which it is fair; beyond that it is poor."""

    good_mm: float = 2.0
    fair_mm: float = 3.0

    def grade_of(self, step_mm: float) -> Grade:
        """The grade of a step of either sign."""
        size = abs(step_mm)
        return "good" if size <= self.good_mm else "fair" if size <= self.fair_mm else "poor"

    @property
    def limits_mm(self) -> tuple[float, float]:
        """Where one grade ends and the next begins."""
        return self.good_mm, self.fair_mm


def is_broken(grade: Grade) -> bool:
    """Whether a grade's line is dashed or dotted."""
    return bool(_DASHES[grade])


def colour_of(grade: Grade) -> QColor:
    """The colour that stands for a grade; never use it alone."""
    return QColor(COLOURS[grade])


@lru_cache(maxsize=64)
def pen_for(grade: Grade, width: float = 2.0, cosmetic: bool = True) -> QPen:
    """The pen of a grade, `width` px wide for a good step: solid, dashed, or dotted and heavier.

    A cosmetic pen keeps its width, in the screen's own pixels, however the painter is scaled. Joins and caps are those
    that are quickest to draw: what they are for is smooth, and dots are small.
    """
    pen = _plain(colour_of(grade), width * _WEIGHTS[grade], cosmetic)
    if is_broken(grade):
        pen.setDashPattern(_DASHES[grade])
    else:
        pen.setCapStyle(Qt.PenCapStyle.SquareCap)  # lines that follow each other leave no gap
    return pen


@lru_cache(maxsize=64)
def halo_for(grade: Grade, width: float = 2.0, cosmetic: bool = True) -> QPen:
    """The light line to draw under `pen_for` wherever there are stripes below."""
    return _plain(current().colour("halo"), width * _WEIGHTS[grade] + 2.0, cosmetic)


def _plain(colour: QColor, width: float, cosmetic: bool) -> QPen:
    pen = QPen(colour, width)
    pen.setCosmetic(cosmetic)
    pen.setJoinStyle(Qt.PenJoinStyle.BevelJoin)
    pen.setCapStyle(Qt.PenCapStyle.FlatCap)
    return pen


_MARKS: dict[Grade, list[tuple[float, float]]] = {
    "fair": [(0, -1.2), (1.2, 0), (0, 1.2), (-1.2, 0)],
    "poor": [(0, -1.15), (1.25, 1.0), (-1.25, 1.0)],
}


def paint_mark(painter: QPainter, grade: Grade, centre: QPointF, radius: float = 4.0) -> None:
    """The mark of a grade: a disc, a diamond or a triangle in its colour, outlined so that it shows on any ground."""
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(current().colour("text", 0.75), 1.0))
    painter.setBrush(colour_of(grade))
    if grade == "good":
        painter.drawEllipse(centre, radius, radius)
    else:
        painter.drawPolygon(QPolygonF([centre + QPointF(x, y) * radius for x, y in _MARKS[grade]]))
    painter.restore()
