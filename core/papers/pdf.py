"""Painting drawings onto PDF pages, full size: 1 mm of a drawing is 72/25.4 points of the page."""

import io
import math
from collections.abc import Iterable
from functools import lru_cache
from typing import Any

import numpy as np

from core.geometry.paths import Points
from core.papers.arrows import arrowhead
from core.papers.drawing import Area, Drawing, Line, Primitive, Spot, Text
from core.papers.layers import LAYERS, in_layers
from core.papers.lettering import face_name, printable, text_box, turned_by, width_of
from core.papers.page import Leaf
from core.papers.pdf_layers import LayerGroups
from core.papers.pens import HALO_MM, LABEL_GROUND, PENS, Pen
from core.wording import tr

POINTS_PER_MM = 72 / 25.4


def pdf_bytes(leaves: Iterable[Leaf], title: str, layers: bool = False) -> bytes:
    """A PDF of pages, each of its own size. The same drawings give the same bytes.

    With `layers` every primitive is on the layer of its role, which can be put out of sight (optional content).
    """
    from reportlab import rl_config
    from reportlab.pdfgen.canvas import Canvas

    rl_config.useA85 = 0  # binary streams: a fifth smaller, and the library is slow at the other kind
    buffer = io.BytesIO()
    canvas = Canvas(buffer, invariant=1, pageCompression=1)
    canvas.setTitle(title)
    canvas.setCreator("Stripewright")
    canvas.setSubject(tr("Papers for the cutting table"))
    groups = LayerGroups(canvas, LAYERS) if layers else None
    for leaf in leaves:
        canvas.setPageSize((leaf.page.width * POINTS_PER_MM, leaf.page.height * POINTS_PER_MM))
        painter = _Painter(canvas, leaf.page.height)
        _paint(painter, leaf.drawing, groups)
        canvas.showPage()
    if groups:
        groups.finish()
    canvas.save()
    return buffer.getvalue()


def _paint(painter: "_Painter", drawing: Drawing, groups: LayerGroups | None) -> None:
    if groups is None:
        painter.paint_all(drawing.parts)
        return
    for layer, parts in in_layers(drawing):
        with groups.on(layer):
            painter.paint_all(parts)


class _Painter:
    """Paints primitives on the page that a canvas has open; turns y down into PDF's y up."""

    def __init__(self, canvas: Any, height: float) -> None:
        self.canvas, self.height = canvas, height
        self._pen: Pen | None = None
        self._colour = ""

    def paint_all(self, parts: Iterable[Primitive]) -> None:
        for part in parts:
            self.paint(part)

    def paint(self, part: Primitive) -> None:
        if isinstance(part, Line):
            self._line(part)
        elif isinstance(part, Area):
            self._fill(part.points, part.colour)
        elif isinstance(part, Spot):
            self._spot(part)
        else:
            self._text(part)

    def _at(self, points: Points) -> Points:
        return points * (POINTS_PER_MM, -POINTS_PER_MM) + (0.0, self.height * POINTS_PER_MM)

    def _path(self, points: Points, closed: bool) -> Any:
        from reportlab.pdfgen.pathobject import PDFPathObject

        first, *rest = (f"{x:.3f} {y:.3f}" for x, y in self._at(points).tolist())
        return PDFPathObject(code=[f"{first} m", *(f"{pair} l" for pair in rest), *(["h"] if closed else [])])

    def _line(self, line: Line) -> None:
        self._take(PENS[line.role])
        self.canvas.drawPath(self._path(line.points, line.closed), stroke=1, fill=0)
        if line.arrow:
            self._fill(arrowhead(line.points), PENS[line.role].colour)

    def _take(self, pen: Pen) -> None:
        if pen == self._pen:
            return
        self._pen = pen
        self.canvas.setStrokeColorRGB(*_rgb(pen.colour))
        self.canvas.setLineWidth(pen.width * POINTS_PER_MM)
        self.canvas.setLineCap(0)
        self.canvas.setLineJoin(1)
        self.canvas.setDash([dash * POINTS_PER_MM for dash in pen.dashes])

    def _fill(self, points: Points, colour: str) -> None:
        self._dip(colour)
        self.canvas.drawPath(self._path(points, closed=True), stroke=0, fill=1)

    def _dip(self, colour: str) -> None:
        if colour != self._colour:
            self._colour = colour
            self.canvas.setFillColorRGB(*_rgb(colour))

    def _spot(self, spot: Spot) -> None:
        ((x, y),) = self._at(np.array([spot.at])).tolist()
        self._dip(PENS[spot.role].colour)
        self.canvas.circle(x, y, spot.radius * POINTS_PER_MM, stroke=0, fill=1)

    def _text(self, text: Text) -> None:
        if text.halo:
            self._fill(text_box(text, HALO_MM), LABEL_GROUND)
        (start,) = self._at(np.array([_start_of(text)])).tolist()
        t = math.radians(-text.angle_deg)
        self._dip(PENS[text.role].colour)
        line = self.canvas.beginText()
        line.setFont(face_name(text.bold), text.size * POINTS_PER_MM)
        if text.angle_deg:
            line.setTextTransform(math.cos(t), math.sin(t), -math.sin(t), math.cos(t), *start)
        else:
            line.setTextOrigin(*start)
        line.textOut(printable(text.text))
        self.canvas.drawText(line)


def _start_of(text: Text) -> Points:
    back = {"start": 0.0, "middle": 0.5, "end": 1.0}[text.anchor] * width_of(text.text, text.size, text.bold)
    return np.asarray(turned_by(np.array([[-back, 0.0]]), text.angle_deg)[0] + np.array(text.at))


@lru_cache(maxsize=256)
def _rgb(colour: str) -> tuple[float, float, float]:
    red, green, blue = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    return red, green, blue
