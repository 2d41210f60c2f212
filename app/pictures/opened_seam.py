"""A seam opened flat, painted pixel by pixel with the true stripes of both sides."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QImage, QPainterPath

from app.stripe_colours import Pixels, pixels_of
from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.model.panel import Panel, panels_of
from core.model.project import Project
from core.seams.garment import SeamLine
from core.seams.readings import SeamReading
from core.seams.strip import Side, edge_at, opened_ring
from core.seams.stripes import Across


@dataclass(frozen=True)
class View:
    """What part of a seam is on the screen: the height at the upper border, mm, and the scale, px per mm."""

    top_mm: float
    scale: float

    def y(self, height_mm: float) -> float:
        """Where a height lies below the upper border, px."""
        return (height_mm - self.top_mm) * self.scale

    def height(self, y: float) -> float:
        """The height at a distance below the upper border, mm."""
        return self.top_mm + y / self.scale


@dataclass(frozen=True, eq=False)
class OpenedSeam:
    """Both sides of a seam as the project places them."""

    reading: SeamReading
    sides: tuple[tuple[Side, Across, Panel], ...]

    @classmethod
    def of(cls, project: Project, reading: SeamReading) -> "OpenedSeam":
        """The seam of a reading taken from the project."""
        sides: tuple[Side, Side] = ("a", "b")
        across = [Across.of(project.placement(name), reading.cloth, reading.way) for name in reading.line.panels]
        panels = [_panel(project, name) for name in reading.line.panels]
        return cls(reading, tuple(zip(sides, across, panels, strict=True)))

    def image(self, view: View, middle: int, width: int, height: int) -> QImage:
        """Picture of `width` x `height` pixels, the seam left of column `middle`; `view` counts its pixels.

        The stripes go on beyond the panels' borders; `outline` says where these are.
        """
        heights = view.height(np.arange(height) + 0.5)
        pixels = np.empty((height, width), dtype=np.uint32)
        for side, across, _ in self.sides:
            columns = middle if side == "a" else width - middle
            half = self._half(side, across, heights, (np.arange(columns) + 0.5) / view.scale, 1.0 / view.scale)
            if side == "a":
                pixels[:, :middle] = half[:, ::-1]
            else:
                pixels[:, middle:] = half
        return QImage(pixels.data, width, height, 4 * width, QImage.Format.Format_RGB32).copy()

    def outline(self, view: View, corner: QPointF) -> QPainterPath:
        """Both panels' stitching lines; `corner` is where the seam meets the upper border of the picture."""
        sides = tuple((side, panel) for side, _, panel in self.sides)
        return _outline(self.reading.line, sides, view, corner.x(), corner.y())

    def _half(self, side: Side, across: Across, heights: Floats, depths: Floats, pixel_mm: float) -> Pixels:
        """Pixels of one side from the seam inwards."""
        line = self.reading.line
        points, inward = edge_at(line, side, heights)
        rate = across.rate_along(points, inward)
        return pixels_of(self.reading.repeat, across(points), rate, depths, pixel_mm)


def _panel(project: Project, name: str) -> Panel:
    return next(panel for panel in panels_of(project.piece_of(name)) if panel.name == name)


@lru_cache(maxsize=128)
def _ring(line: SeamLine, side: Side, panel: Panel) -> Points:
    return opened_ring(line, side, panel.net_ring)


@lru_cache(maxsize=8)
def _outline(line: SeamLine, sides: tuple[tuple[Side, Panel], ...], view: View, x: float, y: float) -> QPainterPath:
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.WindingFill)
    for side, panel in sides:
        ring = _ring(line, side, panel)
        across = x + ring[:, 1] * view.scale * (-1.0 if side == "a" else 1.0)
        down = y + (ring[:, 0] - view.top_mm) * view.scale
        path.addPolygon([QPointF(*point) for point in zip(across.tolist(), down.tolist(), strict=True)])
        path.closeSubpath()
    return path
