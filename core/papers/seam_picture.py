"""A seam opened flat: the stripes of both panels as they meet once it is sewn, true to scale."""

from dataclasses import replace
from itertools import pairwise

import numpy as np
from shapely.geometry import LineString, Polygon

from core.geometry.paths import Points
from core.papers.cloth_drawing import stripe_areas
from core.papers.drawing import Area, Box, Drawing, Line, Primitive, Role, Text, joined, segment
from core.papers.figures import GRADES_MM, PanelFigures
from core.papers.lettering import LINE_HEIGHT
from core.papers.sheet import Sheet
from core.seams.garment import SeamLine
from core.seams.readings import Reading, SeamReading
from core.seams.runs import graded_runs
from core.seams.strip import Side, opened_ring
from core.units import Units

GRADE_ROLES: tuple[Role, ...] = ("step good", "step fair", "step poor")
NUMBER_MM = 2.7
ROOM_FOR_NUMBERS_MM = 14.0
STRAIGHT_MM = 0.02


def opened_seam(reading: SeamReading, sides: tuple[PanelFigures, PanelFigures], depth_mm: float) -> Drawing:
    """Both sides to a depth: x is the distance from the seam, left panel negative, y the height down it, mm."""
    line = _few_points(reading.line)
    names: tuple[Side, Side] = ("a", "b")
    halves = joined(_half(line, side, figures, depth_mm) for side, figures in zip(names, sides, strict=True))
    return halves + Drawing(tuple(_seam_line(reading)))


def columns_on_page(drawing: Drawing, readings: tuple[Reading, ...], windows: list[Sheet], units: Units) -> Drawing:
    """The opened seam in columns, one below the other's end, with heights on their left and steps on their right."""
    return joined(_column(drawing, readings, sheet, units) for sheet in windows)


def _column(drawing: Drawing, readings: tuple[Reading, ...], sheet: Sheet, units: Units) -> Drawing:
    frame, parts = sheet.frame, list[Primitive]()
    for reading in _apart([one for one in readings if sheet.window.top <= one.at_mm <= sheet.window.bottom], sheet.n):
        y = sheet.point(0.0, reading.at_mm)[1]
        parts += [segment((frame.left - 2.0, y), (frame.left, y), "height")]
        parts += [segment((frame.right, y), (frame.right + 2.0, y), "height")]
        parts.append(Text((frame.left - 2.6, y + 1.0), units.whole(reading.at_mm), NUMBER_MM, anchor="end"))
        step = units.fine(reading.step_mm).replace("-", "−") if reading.counts else "open"
        parts.append(Text((frame.right + 2.6, y + 1.0), step, NUMBER_MM, bold=True))
    border = Line(frame.corners, "rule", closed=True)
    return sheet.on_page(drawing) + Drawing((border, *parts))


def _apart(readings: list[Reading], n: float) -> list[Reading]:
    """Without those whose numbers would touch the numbers of the next one below."""
    pairs = pairwise(readings)
    kept = [one for one, below in pairs if (below.at_mm - one.at_mm) / n >= NUMBER_MM * LINE_HEIGHT]
    return kept + readings[-1:]


def _few_points(line: SeamLine) -> SeamLine:
    """The seam with only the heights at which an edge bends by more than a fiftieth of a millimetre."""
    kept = np.zeros(len(line.height), dtype=bool)
    for edge in (line.a, line.b):
        few = np.array(LineString(edge).simplify(STRAIGHT_MM).coords)
        kept |= (np.abs(edge[:, None] - few[None]).sum(axis=2) < 1e-9).any(axis=1)
    return replace(line, height=line.height[kept], a=line.a[kept], b=line.b[kept])


def _half(line: SeamLine, side: Side, figures: PanelFigures, depth_mm: float) -> Drawing:
    """One panel's stripes beside the seam, and its stitching line."""
    lying = replace(line, a=figures.on_cloth(line.a)) if side == "a" else replace(line, b=figures.on_cloth(line.b))
    edge = lying.a if side == "a" else lying.b
    band = _band(edge, side, depth_mm, figures.net_ring)
    if band is None:
        return Drawing()
    stripes = stripe_areas(figures.cloth, Box.round(band).grown(1.0)).inside(band)
    flat = [
        replace(part, points=ring)
        for part in stripes.parts
        if isinstance(part, Area)
        and len(ring := _few(_flat(opened_ring(lying, side, part.points), side, line.length))) > 2
    ]
    outline = Line(_few(_flat(opened_ring(lying, side, band), side, line.length)), "neighbour", closed=True)
    return Drawing((*flat, outline))


def _band(edge: Points, side: Side, depth_mm: float, net_ring: Points) -> Points | None:
    """The part of a panel within a depth of one of its edges, cloth mm."""
    inward = depth_mm if side == "a" else -depth_mm
    near = LineString(edge).buffer(inward, single_sided=True).intersection(Polygon(net_ring).buffer(0.01))
    parts = [part for part in getattr(near, "geoms", [near]) if isinstance(part, Polygon) and not part.is_empty]
    return np.array(max(parts, key=lambda part: part.area).exterior.coords)[:-1] if parts else None


def _flat(opened: Points, side: Side, length: float) -> Points:
    """Heights and depths as places: x negative on the left panel, y the height."""
    x = np.maximum(opened[:, 1], 0.0) * (-1.0 if side == "a" else 1.0)
    return np.column_stack([x, np.clip(opened[:, 0], 0.0, length)])


def _few(ring: Points) -> Points:
    """A closed outline without the points that its straight stretches don't need; two points of a mere sliver."""
    closed = LineString(np.vstack([ring, ring[:1]])).simplify(STRAIGHT_MM, preserve_topology=False)
    return np.array(closed.coords)[:-1]


def _seam_line(reading: SeamReading) -> list[Primitive]:
    """The seam itself, drawn by how much its step shows; thin where it is not sewn or not seen."""
    return [
        Line(
            np.column_stack([np.zeros(len(run.height)), run.height]),
            GRADE_ROLES[run.grade] if run.counts else "zero",
        )
        for run in graded_runs(reading, GRADES_MM)
    ]
