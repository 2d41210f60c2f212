"""Whether a lay can be cut: an independent check of placements as they stand, with shapely."""

import math
from collections.abc import Iterator

import numpy as np
from shapely import STRtree, intersection
from shapely.geometry import Polygon

from core.geometry.paths import Points
from core.geometry.transform import placed
from core.lay.remnant import there
from core.model.cloth import Cloth
from core.model.panel import Panel, panels_of
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.units import MM, Units
from core.wording import tr

OVERLAP_MM2 = 0.01
"""Overlaps of a smaller area are none."""

GRID_MM = 1e-6
"""Overlaps are taken on this grid: without it, outlines that lie on each other but for the last digit are said not to
meet at all."""

BEYOND_MM = 1e-3
"""Cut lines may reach this far over a border."""


def cut_line(panel: Panel, at: Placement) -> Points:
    """A panel's cut line where it lies on the cloth; shape (n, 2), columns u and v."""
    return placed(panel.cut_ring, at.u, at.v, at.turn_deg, at.turned)


def panels_on(project: Project, cloth: Cloth) -> tuple[Panel, ...]:
    """All panels cut from a cloth, in the order of their pieces."""
    return tuple(panel for piece in project.pieces if piece.cloth == cloth.id for panel in panels_of(piece))


def cut_lines(project: Project, cloth: Cloth) -> dict[PanelName, Points]:
    """The cut lines of all panels on a cloth, where they lie."""
    return {panel.name: cut_line(panel, project.placement(panel.name)) for panel in panels_on(project, cloth)}


def find_faults(project: Project, cloth_id: str, units: Units = MM) -> tuple[str, ...]:
    """What is wrong with the placements on a cloth, a line each; empty if they can be cut as they stand.

    Panels that overlap, lie outside the usable width, on a flaw, before the cut end (v = 0) or beyond a length that is
    given; bias strips that lie off the bias by more than the cloth's grain tolerance. Raises BadInput if there is no
    such cloth.
    """
    cloth = project.cloth(cloth_id)
    lines = cut_lines(project, cloth)
    return (*faults_of(lines, cloth, units), *_beyond_length(lines, cloth, units), *_off_the_bias(project, cloth))


def faults_of(lines: dict[PanelName, Points], cloth: Cloth, units: Units = MM) -> tuple[str, ...]:
    """The faults of cut lines on a cloth, its length left out of account."""
    shapes = {name: Polygon(line) for name, line in lines.items()}
    return (
        *_outside(lines, cloth, units),
        *_on_flaws(shapes, cloth),
        *_off_remnant(shapes, cloth),
        *_overlaps(shapes, cloth, units),
    )


def _outside(lines: dict[PanelName, Points], cloth: Cloth, units: Units) -> Iterator[str]:
    for name, line in lines.items():
        (left, start), (right, _) = line.min(axis=0), line.max(axis=0)
        over = max(cloth.usable[0] - left, right - cloth.usable[1])
        if not over <= BEYOND_MM:
            yield tr("panel {name!r} lies {over} outside the usable width", name=name, over=units.say_fine(over))
        if not start >= -BEYOND_MM:
            yield tr("panel {name!r} lies {start} before the cut end", name=name, start=units.say_fine(-start))


def _beyond_length(lines: dict[PanelName, Points], cloth: Cloth, units: Units) -> Iterator[str]:
    length = math.inf if cloth.end is None else cloth.end
    for name, line in lines.items():
        over = float(line[:, 1].max()) - length
        if over > BEYOND_MM:
            yield tr("panel {name!r} lies {over} beyond the cloth's end", name=name, over=units.say_fine(over))


def _off_the_bias(project: Project, cloth: Cloth) -> Iterator[str]:
    for panel in panels_on(project, cloth):
        off = abs(math.remainder(project.placement(panel.name).turn_deg, 90.0))
        if panel.piece.grain == "bias" and off > cloth.grain_tolerance_deg + 1e-9:
            yield tr("panel {name!r} lies {off:.2f}° off the bias", name=panel.name, off=off)


def _on_flaws(shapes: dict[PanelName, Polygon], cloth: Cloth) -> Iterator[str]:
    for number, outline in enumerate(cloth.flaw_outlines, start=1):
        flaw = Polygon(outline)
        for name, shape in shapes.items():
            area = shape.intersection(flaw).area
            if area > OVERLAP_MM2:
                yield tr(
                    "panel {name!r} lies on flaw {number} with {area:.2f} mm2", name=name, number=number, area=area
                )


def _off_remnant(shapes: dict[PanelName, Polygon], cloth: Cloth) -> Iterator[str]:
    remnant = there(cloth)
    for name, shape in shapes.items() if remnant is not None else ():
        area = shape.difference(remnant).area
        if area > OVERLAP_MM2:
            yield tr("panel {name!r} lies off the remnant with {area:.2f} mm2", name=name, area=area)


def _overlaps(shapes: dict[PanelName, Polygon], cloth: Cloth, units: Units) -> Iterator[str]:
    names, polygons = list(shapes), np.array(list(shapes.values()), dtype=object)
    first, second = STRtree(polygons).query(polygons, predicate="dwithin", distance=cloth.spare_mm)
    for i, j in sorted(zip(first.tolist(), second.tolist(), strict=True)):
        area = intersection(polygons[i], polygons[j], grid_size=GRID_MM).area if i < j else 0.0
        if area > OVERLAP_MM2:
            yield tr("panels {one!r} and {other!r} overlap by {area:.2f} mm2", one=names[i], other=names[j], area=area)
        elif i < j and (gap := polygons[i].distance(polygons[j])) < cloth.spare_mm - BEYOND_MM:
            spare = units.say_fine(cloth.spare_mm)
            yield tr(
                "panels {one!r} and {other!r} lie {gap} apart, {spare} are to be spared",
                one=names[i],
                other=names[j],
                gap=units.say_fine(gap),
                spare=spare,
            )
