"""How far the nearest bars lie from waists and hems: marks on the panels of the garment picture."""

from collections.abc import Iterable
from dataclasses import dataclass

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainter, QPen, QTransform

from app.figures import step, unit
from app.theme import GRID, Size, current
from app.words import tr
from core.geometry.polyline import length, points_at
from core.model.panel import Panel
from core.seams.levels import Level

_UP, _DOWN = "↑", "↓"
_TRIES = 3
"""A mark that would cover another one is moved inwards up to so many times, and then left out."""


@dataclass(frozen=True)
class LevelMark:
    """What is marked at the middle of an edge, px; `inward` is a unit vector into the panel."""

    text: str
    at: QPointF
    inward: QPointF


def mark_of(level: Level, panel: Panel, to_widget: QTransform) -> LevelMark:
    """A level marked on its panel: the distance, and whether the bar lies further up or down the panel."""
    line = panel.net[level.edge]
    middle, inner = points_at(line, np.array([length(line) / 2]))[0], panel.middle
    at, towards = (to_widget.map(QPointF(*point.tolist())) for point in (middle, inner))
    way = towards - at
    size = max((way.x() ** 2 + way.y() ** 2) ** 0.5, 1e-6)
    arrow = _DOWN if level.to_bar_mm >= 0 else _UP
    return LevelMark(f"{arrow} {step(abs(level.to_bar_mm))}", at, way / size)


def paint_marks(painter: QPainter, marks: Iterable[LevelMark]) -> list[QRectF]:
    """Paint plates with the figures, just inside their edges, none over another; says where they are."""
    theme, taken = current(), list[QRectF]()
    painter.setFont(theme.font(Size.SMALL))
    metrics = painter.fontMetrics()
    for mark in marks:
        wide, high = metrics.horizontalAdvance(mark.text) + 2 * GRID, metrics.height()
        boxes = (
            QRectF(-wide / 2, -high / 2, wide, high).translated(mark.at + mark.inward * (high * (0.8 + 1.1 * tried)))
            for tried in range(_TRIES)
        )
        free = next((box for box in boxes if not any(box.intersects(other) for other in taken)), None)
        if free is not None:
            taken.append(free)
            painter.setPen(QPen(theme.colour("edge"), 1.0))
            painter.setBrush(theme.colour("halo", 0.94))
            painter.drawRoundedRect(free, 3, 3)
            painter.setPen(theme.colour("ink"))
            painter.drawText(free.topLeft() + QPointF(GRID, metrics.ascent()), mark.text)
    return taken


def level_in_words(level: Level) -> str:
    """An edge, and how far the nearest bar lies from it."""
    far = f"{step(abs(level.to_bar_mm))} {unit()}"
    if level.to_bar_mm < 0:
        return tr("{edge}: nearest bar {far} above").format(edge=level.edge, far=far)
    return tr("{edge}: nearest bar {far} below").format(edge=level.edge, far=far)
