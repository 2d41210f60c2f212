"""A panel as it lies on the cloth: cutting line, stitching line, notches, grain arrow, name."""

from functools import cached_property, lru_cache

import numpy as np
import shapely
from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QFontMetricsF, QPainter, QPen, QPolygonF, QTransform
from PySide6.QtWidgets import QGraphicsItem, QStyleOptionGraphicsItem

from app.canvas.item import CanvasItem
from app.canvas.shapes import polygon, ring
from app.canvas.upright import UprightPicture
from app.theme import Size, Theme, current
from app.words import later, tr
from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.panel import Panel
from core.model.project import Placement
from core.papers.drawing import Drawing, Line, Role
from core.papers.panel_lines import NOTCH_MM, panel_lines

HELD = later("held")
ROUGH_MM = 0.2
"""An outline with fewer points strays from the true one by this much at most."""
WIDTHS = 48
ARROW_SHARE = 0.36
"""Length of the grain arrow as a share of the panel's."""


def transform_of(at: Placement) -> QTransform:
    """What brings a panel's own frame onto the cloth."""
    turn = rotation(at.turn_deg, at.turned)
    return QTransform(turn[0, 0], turn[1, 0], turn[0, 1], turn[1, 1], at.u, at.v)


class PanelItem(CanvasItem):
    """One panel; those of layers and strips are quiet: drawn fainter.

    It takes no mouse events itself: the view's gestures move panels through the document.
    """

    def __init__(self, panel: Panel, at: Placement, title: str, quiet: bool = False) -> None:
        super().__init__()
        self.panel, self._quiet = panel, quiet
        self.chosen = False
        self._widths = widths_down(panel)
        lines = panel_lines(panel)
        self._rings = _at_scales(*_points(lines, "cut line"))
        self._cut = tuple(polygon(points) for points in self._rings)
        self._net = tuple(polygon(points) for points in _at_scales(*_points(lines, "net line")))
        self._before = [polygon(points) for points in _points(lines, "line before")]
        self._notches = [QLineF(*start, *end) for start, end in _points(lines, "notch")]
        self._arrow = _arrow(panel)
        self._box = self._cut[0].boundingRect().adjusted(-NOTCH_MM, -NOTCH_MM, NOTCH_MM, NOTCH_MM)
        room = self.width_at(float(panel.middle[1])), float(np.ptp(panel.net_ring[:, 1]))
        self.name = NameTag(title, room, self)
        self.name.setPos(QPointF(*panel.middle))
        self.lie(at)

    def lie(self, at: Placement) -> None:
        """Lie where a placement says."""
        self.setTransform(transform_of(at))
        self._outline = self.transform().map(self._cut[1])
        self._reach = self._outline.boundingRect()
        self.name.show_held(at.hold)

    @cached_property
    def _chosen_lines(self) -> tuple[list[QLineF], ...]:
        """The cutting line as it is drawn with wide pens, at both scales."""
        return tuple(ring(points) for points in self._rings)

    def choose(self, chosen: bool) -> None:
        """Show whether the panel is selected; a selected one lies on top."""
        if chosen != self.chosen:
            self.chosen = chosen
            self.setZValue(1 if chosen else 0)
            self.update()

    def width_at(self, y: float) -> float:
        """How wide the panel's net is near a height in its own frame, mm."""
        return float(np.interp(y, *self._widths))

    def lying(self, role: Role) -> list[Points]:
        """The lines of a role as they are drawn when looked at closely, where they lie on the cloth, mm."""
        drawn = {"cut line": self._cut[:1], "net line": self._net[:1], "line before": self._before}
        notches = [QPolygonF([line.p1(), line.p2()]) for line in self._notches]
        shapes = notches if role == "notch" else drawn[role]
        return [np.array([(p.x(), p.y()) for p in self.transform().map(shape)]) for shape in shapes]

    def outline(self) -> QPolygonF:
        """The cutting line on the cloth."""
        return self._outline

    def covers(self, at: QPointF) -> bool:
        """Whether the panel lies over a place on the cloth, mm."""
        return self._reach.contains(at) and self._outline.containsPoint(at, Qt.FillRule.WindingFill)

    def boundingRect(self) -> QRectF:
        """The cutting line's box, in the panel's frame."""
        return self._box

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """The panel's paper, lightly over the stripes, and its lines."""
        theme = current()
        rough = painter.worldTransform().determinant() < 1
        cut, net = self._cut[rough], self._net[rough]
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)  # the outline smooths the fill's border
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("halo", 0.5 if self.chosen else 0.22 if self._quiet else 0.38))
        painter.drawPolygon(cut)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        ink = _pen(theme, "ink", 0.6 if self._quiet else 1.0, 1.0)
        if self.chosen:
            _paint_chosen(painter, self._chosen_lines[rough], theme)
        else:
            painter.setPen(ink)
            painter.drawPolygon(cut)
        painter.setPen(_pen(theme, "edge", 1.0, 1.0))
        painter.drawPolygon(net)
        if self._before:
            _paint_before(painter, self._before, theme)
        painter.setPen(ink)
        painter.drawLines(self._notches + self._arrow)


class NameTag(CanvasItem):
    """The panel's name on a light plate in its middle, and whether the panel is held; always upright.

    The name breaks into lines to stay inside the panel, and is left out where even that is too large.
    """

    def __init__(self, text: str, room_mm: tuple[float, float], parent: QGraphicsItem) -> None:
        super().__init__(parent)
        self._words, self._held = text.split(), False
        self._room_mm = room_mm
        self._font = current().font(Size.SMALL)
        self._metrics = QFontMetricsF(self._font)
        self._lines: list[tuple[QPointF, str]] = []
        self._box = QRectF()
        self._scale_px = 1.0
        self._picture = UprightPicture()
        self.setFlag(QGraphicsItem.GraphicsItemFlag.ItemIgnoresTransformations)
        self.setZValue(2)

    def show_held(self, held: bool) -> None:
        """Show whether the panel is held."""
        if held != self._held:
            self._held = held
            self.set_scale(self._scale_px)

    def set_scale(self, scale_px: float) -> None:
        """Break the name to suit the room there is at a scale, px per mm."""
        self.prepareGeometryChange()
        self._scale_px = scale_px
        room_wide, room_high = (side * scale_px for side in self._room_mm)
        lines = _broken(self._words, self._metrics, max(room_wide - 24, 0.0)) + [tr(HELD)] * self._held
        widths = [self._metrics.horizontalAdvance(line) for line in lines]
        wide, high = max(widths) + 12, self._metrics.height() * len(lines) + 4
        first = 2 - high / 2 + self._metrics.ascent()
        starts = [QPointF(-each / 2, first + i * self._metrics.height()) for i, each in enumerate(widths)]
        self._lines = list(zip(starts, lines, strict=True))
        self._box = QRectF(-wide / 2, -high / 2, wide, high)
        self.setVisible(self._held or (wide < 1.3 * room_wide and high < 0.5 * room_high))

    def boundingRect(self) -> QRectF:
        """The plate, px."""
        return self._box

    def draw(self, painter: QPainter, option: QStyleOptionGraphicsItem) -> None:
        """Plate and words; the plate of a held panel has a border, as if pinned down."""
        self._picture.put(painter, self._box, (current(), tuple(line for _, line in self._lines)), self._draw_plate)

    def _draw_plate(self, painter: QPainter) -> None:
        theme, box = current(), self._box
        painter.setPen(_pen(theme, "ink", 1.0, 1.0) if self._held else Qt.PenStyle.NoPen)
        painter.setBrush(theme.colour("halo", 0.9))
        painter.drawRoundedRect(box, 4, 4)
        painter.setPen(theme.colour("ink"))
        painter.setFont(self._font)
        for at, line in self._lines:
            painter.drawText(at, line)


def _at_scales(outline: Points) -> tuple[Points, Points]:
    """An outline as it is, and one with fewer points for scales below 1 px per mm."""
    return outline, shapely.get_coordinates(shapely.LinearRing(outline).simplify(ROUGH_MM))[:-1]


def widths_down(panel: Panel) -> tuple[Floats, Floats]:
    """Heights down a panel in its own frame, and how wide its net is there, mm; both of one shape."""
    ring = panel.net_ring
    after = np.roll(ring, -1, axis=0)
    low, high = ring[:, 1].min(), ring[:, 1].max()
    heights = np.linspace(low + 0.02 * (high - low), high - 0.02 * (high - low), WIDTHS)
    across = (ring[:, 1] <= heights[:, None]) != (after[:, 1] <= heights[:, None])
    with np.errstate(divide="ignore", invalid="ignore"):
        x = ring[:, 0] + (heights[:, None] - ring[:, 1]) / (after - ring)[:, 1] * (after - ring)[:, 0]
    return heights, np.where(across, x, -np.inf).max(axis=1) - np.where(across, x, np.inf).min(axis=1)


def _broken(words: list[str], metrics: QFontMetricsF, room: float) -> list[str]:
    """Words in lines that are no wider than the room, px, as far as single words allow."""
    lines = words[:1] or [""]
    for word in words[1:]:
        longer = f"{lines[-1]} {word}"
        if metrics.horizontalAdvance(longer) <= room:
            lines[-1] = longer
        else:
            lines.append(word)
    return lines


@lru_cache(maxsize=32)
def _pen(theme: Theme, role: str, alpha: float, width: float) -> QPen:
    """A pen of a role's colour that keeps its width, px."""
    pen = QPen(theme.colour(role, alpha), width)
    pen.setCosmetic(True)
    return pen


def _points(lines: Drawing, role: Role) -> list[Points]:
    return [part.points for part in lines.of(role).parts if isinstance(part, Line)]


def _paint_chosen(painter: QPainter, parts: list[QLineF], theme: Theme) -> None:
    """The outline of a selected panel: wide, on a halo."""
    for role, width in (("halo", 5.0), ("chosen", 2.5)):
        painter.setPen(_pen(theme, role, 1.0, width))
        painter.drawLines(parts)


def _paint_before(painter: QPainter, lines: list[QPolygonF], theme: Theme) -> None:
    """Lines as they were before they were shifted: fine dots."""
    pen = QPen(_pen(theme, "edge", 0.7, 1.0))
    pen.setDashPattern([1, 3])
    painter.setPen(pen)
    for line in lines:
        painter.drawPolyline(line)


def _arrow(panel: Panel) -> list[QLineF]:
    """The grain arrow, beside the name, along the panel's y axis."""
    x, y = panel.middle
    low, high = panel.net_ring[:, 1].min(), panel.net_ring[:, 1].max()
    half = (high - low) * ARROW_SHARE / 2
    barb = half / 14
    ends = [(y - half, 1.0), (y + half, -1.0)]
    lines = [QLineF(x, y - half, x, y + half)]
    for end, way in ends:
        lines += [QLineF(x, end, x + side * barb * 0.5, end + way * barb) for side in (-1, 1)]
    return lines
