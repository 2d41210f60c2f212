"""The pieces side by side as they will be cut: cutting and stitching line, notches, grain, edges with their lengths."""

import itertools
import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QFontMetricsF, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPen, QPolygonF, QTransform
from PySide6.QtWidgets import QSizePolicy, QWidget

from app.canvas.panels import NOTCH_MM, widths_down
from app.canvas.shapes import polygon
from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, SPACE, TIGHT, WIDE, Size, current
from app.words import tr
from core.geometry.paths import Points
from core.geometry.polyline import length, outward, points_at, tangent_at
from core.model.panel import Panel, panels_of
from core.model.pattern import Piece
from core.model.project import Project

SIMPLER_MM = 0.05
"""Outlines with fewer points stray from the true ones by this much at most."""

_FADED = 0.45
_LARGEST_SCALE = 4.0


@dataclass(frozen=True, eq=False)
class Shown:
    """A piece as it is shown, and all that are like it."""

    panel: Panel
    pieces: tuple[Piece, ...]

    @property
    def title(self) -> str:
        """Its name, or the first and the last of those alike."""
        first, last = self.pieces[0].title, self.pieces[-1].title
        return first if len(self.pieces) == 1 else tr("{first} to {last}").format(first=first, last=last)

    @property
    def told(self) -> str:
        """How often it is cut, and how."""
        number = len(self.pieces)
        cut = self.pieces[0].cut
        if cut == "pair":
            return tr("cut {count}, a pair, one mirrored").format(count=2 * number)
        if cut == "fold":
            return tr("cut on the fold") if number == 1 else tr("cut {count}, on the fold").format(count=number)
        return tr("cut once") if number == 1 else tr("cut {count}, all alike").format(count=number)


def shown_pieces(project: Project, each: bool = False) -> tuple[Shown, ...]:
    """Every piece of a project, neighbours that are alike together, or each for itself."""
    groups = [tuple(alike) for _, alike in itertools.groupby(project.pieces, key=_what_is_cut)]
    if each:
        groups = [(piece,) for piece in project.pieces]
    return tuple(Shown(panels_of(pieces[0])[0], pieces) for pieces in groups)


def _what_is_cut(piece: Piece) -> tuple[object, ...]:
    return piece.edges, piece.notches, piece.cut, piece.drawn, piece.outline_is


class PatternPicture(QWidget):
    """Shows the pieces of a project; a click, or Enter, shows one of them large, another one all of them again.

    `each` shows every piece for itself, and always which of them was picked last.
    """

    picked = Signal(str)
    """The piece picked last, by its id."""

    def __init__(self, empty: str, each: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._empty, self._each, self._unit = empty, each, MM
        self._shown: tuple[Shown, ...] = ()
        self._faded = False
        self._large = False
        self._pick = 0
        self.setAccessibleName(tr("Pieces"))
        self.setMinimumSize(60 * GRID, 40 * GRID)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setToolTip(tr("Click a piece to see it large, and again to see all"))
        self._describe()

    def sizeHint(self) -> QSize:
        """Room for a row of gores."""
        return QSize(180 * GRID, 110 * GRID)

    def show_project(self, project: Project | None, unit: LengthUnit = MM) -> None:
        """Show the pieces of a project, lengths in a unit."""
        self._shown = shown_pieces(project, self._each) if project else ()
        self._unit, self._faded = unit, False
        self._pick = min(self._pick, max(len(self._shown) - 1, 0))
        self._large = self._large and bool(self._shown)
        self._describe()
        self.update()

    def fade(self) -> None:
        """Show that what is seen is not what the fields say now."""
        self._faded = True
        self.update()

    def pick(self, piece_id: str) -> None:
        """Mark a piece."""
        for index, shown in enumerate(self._shown):
            if piece_id in {piece.id for piece in shown.pieces}:
                self._pick = index
                self.update()

    def _describe(self) -> None:
        words = [f"{shown.title}, {shown.told}" for shown in self._shown]
        self.setAccessibleDescription("; ".join(words) or self._empty)

    # --- painting

    def paintEvent(self, event: QPaintEvent) -> None:
        """The pieces, or what to do to see any."""
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        painter.fillRect(self.rect(), current().colour("surface"))
        if not self._shown:
            painter.setPen(current().colour("quiet"))
            area = self.rect().adjusted(WIDE, WIDE, -WIDE, -WIDE)
            painter.drawText(area, Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, self._empty)
        painter.setOpacity(_FADED if self._faded else 1.0)
        for index, place in self._places():
            self._paint_piece(
                painter, self._shown[index], place, index == self._pick and (self._each or self.hasFocus())
            )
        painter.setOpacity(1.0)
        if self.hasFocus():
            painter.setPen(QPen(current().colour("accent"), 2.0))
            painter.drawRect(QRectF(self.rect()).adjusted(1, 1, -1, -1))
        painter.end()

    def _places(self) -> list[tuple[int, QRectF]]:
        """The pieces that are shown and the cell of each, px."""
        if not self._shown:
            return []
        area = QRectF(self.rect()).adjusted(SPACE, SPACE, -SPACE, -SPACE)
        if self._large:
            return [(self._pick, area)]
        sizes = [_size(shown.panel) for shown in self._shown]
        return _rows(sizes, area, self._words_high())

    def _words_high(self) -> float:
        return 2 * QFontMetricsF(current().font(Size.SMALL)).height() + 2 * TIGHT

    def _paint_piece(self, painter: QPainter, shown: Shown, cell: QRectF, chosen: bool) -> None:
        words = self._words_high()
        room = cell.adjusted(SPACE, TIGHT, -SPACE, -words - TIGHT)
        to_px = _fitted(shown.panel, room)
        self._paint_lines(painter, shown.panel, to_px, chosen)
        metrics = QFontMetricsF(current().font(Size.SMALL))
        for name in shown.panel.net:
            _paint_edge_words(painter, metrics, to_px, shown.panel, name, self._unit)
        bottom = to_px.mapRect(_drawn(shown.panel)[0].boundingRect()).bottom()
        self._paint_title(painter, shown, QRectF(cell.left(), bottom + TIGHT, cell.width(), words))

    def _paint_lines(self, painter: QPainter, panel: Panel, to_px: QTransform, chosen: bool) -> None:
        theme = current()
        cut, net = (to_px.map(line) for line in _drawn(panel))
        painter.setPen(QPen(theme.colour("accent"), 2.0) if chosen else QPen(theme.colour("text"), 1.2))
        painter.setBrush(theme.colour("selected") if chosen else theme.colour("raised"))
        painter.drawPolygon(cut)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        dashed = QPen(theme.colour("edge"), 1.0)
        dashed.setDashPattern([6, 3])
        painter.setPen(dashed)
        painter.drawPolygon(net)
        painter.setPen(QPen(theme.colour("text"), 1.0))
        for mark in panel.notches:
            painter.drawLine(to_px.map(QLineF(*mark.point, *(mark.point + NOTCH_MM * mark.out))))
        painter.setPen(QPen(theme.colour("quiet"), 1.0))
        painter.drawLines(_grain_arrow(panel, to_px))

    def _paint_title(self, painter: QPainter, shown: Shown, room: QRectF) -> None:
        theme = current()
        font = theme.font(Size.SMALL, bold=True)
        high = QFontMetricsF(font).height()
        middle = Qt.AlignmentFlag.AlignHCenter | Qt.AlignmentFlag.AlignTop
        for text, role, bold, top in ((shown.title, "text", True, 0.0), (shown.told, "quiet", False, high)):
            font = theme.font(Size.SMALL, bold=bold)
            painter.setFont(font)
            painter.setPen(theme.colour(role))
            fitting = QFontMetricsF(font).elidedText(text, Qt.TextElideMode.ElideRight, room.width())
            painter.drawText(room.adjusted(0, top, 0, 0), middle, fitting)

    # --- hands

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Show the piece that is clicked large, or all again."""
        if event.button() != Qt.MouseButton.LeftButton:
            return
        for index, cell in self._places():
            if cell.contains(event.position()):
                self._pick_one(index)
                self._large = not self._large and len(self._shown) > 1
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Left and right go from piece to piece, Enter shows one large or all."""
        steps = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
        if self._shown and event.key() in steps:
            self._pick_one((self._pick + steps[Qt.Key(event.key())]) % len(self._shown))
        elif self._shown and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Space):
            self._large = not self._large
        else:
            super().keyPressEvent(event)
        self.update()

    def _pick_one(self, index: int) -> None:
        self._pick = index
        self.picked.emit(self._shown[index].pieces[0].id)


@lru_cache(maxsize=256)
def _drawn(panel: Panel) -> tuple[QPolygonF, QPolygonF]:
    """Cutting and stitching line with as few points as are needed at the largest scale there is."""
    cut, net = (shapely.LinearRing(ring).simplify(SIMPLER_MM) for ring in (panel.cut_ring, panel.net_ring))
    return polygon(shapely.get_coordinates(cut)[:-1]), polygon(shapely.get_coordinates(net)[:-1])


@lru_cache(maxsize=256)
def _size(panel: Panel) -> tuple[float, float]:
    wide, high = np.ptp(panel.cut_ring, axis=0)
    return float(wide), float(high)


def _rows(sizes: list[tuple[float, float]], area: QRectF, words: float) -> list[tuple[int, QRectF]]:
    """Cells in as many rows as show the pieces largest."""
    best: tuple[float, list[tuple[int, QRectF]]] = (0.0, [])
    for count in range(1, min(len(sizes), 6) + 1):
        per = math.ceil(len(sizes) / count)
        rows = [list(range(start, min(start + per, len(sizes)))) for start in range(0, len(sizes), per)]
        scale = _scale(sizes, rows, area, words)
        if scale > best[0] * 1.02:
            best = scale, _cells(sizes, rows, area, words, scale)
    return best[1]


def _scale(sizes: list[tuple[float, float]], rows: list[list[int]], area: QRectF, words: float) -> float:
    across = min((area.width() - 4 * SPACE * len(row)) / sum(sizes[index][0] for index in row) for row in rows)
    high = sum(max(sizes[index][1] for index in row) for row in rows)
    down = (area.height() - len(rows) * (words + 4 * TIGHT)) / high
    return max(min(across, down, _LARGEST_SCALE), 1e-3)


def _cells(
    sizes: list[tuple[float, float]], rows: list[list[int]], area: QRectF, words: float, scale: float
) -> list[tuple[int, QRectF]]:
    cells, top = [], area.top()
    highs = [max(sizes[index][1] for index in row) * scale + words + 4 * TIGHT for row in rows]
    spare_down = max(area.height() - sum(highs), 0.0) / (len(rows) + 1)
    for row, high in zip(rows, highs, strict=True):
        top += spare_down
        wides = [sizes[index][0] * scale for index in row]
        pad = (area.width() - sum(wides)) / len(row)
        left = area.left()
        for index, wide in zip(row, wides, strict=True):
            own = sizes[index][1] * scale + words + 4 * TIGHT
            cells.append((index, QRectF(left, top, wide + pad, own)))
            left += wide + pad
        top += high
    return cells


def _fitted(panel: Panel, room: QRectF) -> QTransform:
    """From the panel's frame to px, as large as the room allows."""
    low, (wide, high) = panel.cut_ring.min(axis=0), _size(panel)
    scale = max(min(room.width() / wide, room.height() / high, _LARGEST_SCALE), 1e-3)
    left, top = room.center().x() - scale * wide / 2, room.top() + max(room.height() - scale * high, 0) / 2
    return QTransform(scale, 0, 0, scale, left - scale * low[0], top - scale * low[1])


def _grain_arrow(panel: Panel, to_px: QTransform) -> list[QLineF]:
    x, y = panel.middle
    half = 0.2 * np.ptp(panel.net_ring[:, 1])
    top, bottom = to_px.map(QPointF(x, y - half)), to_px.map(QPointF(x, y + half))
    lines = [QLineF(top, bottom)]
    for end, way in ((top, 1), (bottom, -1)):
        lines += [QLineF(end, end + QPointF(side * GRID, way * 2 * GRID)) for side in (-1, 1)]
    return lines


@lru_cache(maxsize=1024)
def _writing(panel: Panel, name: str) -> tuple[float, float, Points, Points, float]:
    """Of an edge its length, where along it its words stand, that place, the direction there, the panel's width, mm."""
    line = panel.net[name]
    at_mm = _where_to_write(line)
    place = points_at(line, np.array([at_mm]))[0]
    return length(line), at_mm, place, tangent_at(line, at_mm), float(np.interp(place[1], *widths_down(panel)))


def _paint_edge_words(
    painter: QPainter, metrics: QFontMetricsF, to_px: QTransform, panel: Panel, name: str, unit: LengthUnit
) -> None:
    """An edge's name and length along it, inside the piece, where there is room."""
    long, at_mm, place, along, wide = _writing(panel, name)
    scale, told = to_px.m11(), unit.told(long)
    steep, wide = abs(along[1]) > abs(along[0]), wide * scale
    room = 2 * min(at_mm, long - at_mm) * scale - GRID
    text = next((words for words in (f"{name}  {told}", name) if metrics.horizontalAdvance(words) < room), "")
    if not text or (steep and wide < 4 * metrics.height()):
        return
    angle = math.degrees(math.atan2(along[1], along[0]))
    angle = angle - 180 if angle > 90.01 else angle + 180 if angle < -90.01 else angle
    painter.save()
    painter.translate(to_px.map(QPointF(*place)) + QPointF(*(-outward(along) * (metrics.height() / 2 + TIGHT))))
    painter.rotate(angle)
    painter.setFont(current().font(Size.SMALL))
    painter.setPen(current().colour("text"))
    at = QPointF(-metrics.horizontalAdvance(text) / 2, metrics.ascent() - metrics.height() / 2)
    painter.drawText(at, text)
    painter.restore()


def _where_to_write(line: Points) -> float:
    """Distance along an edge at which its words stand, mm: lower down where it runs down, for gores are wider there."""
    down, across = line[-1, 1] - line[0, 1], line[-1, 0] - line[0, 0]
    share = 0.5 if abs(down) < abs(across) else 0.65 if down > 0 else 0.35
    return share * length(line)
