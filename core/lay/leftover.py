"""What is left of a cloth once its lay has been cut out of it."""

import msgspec
import numpy as np
from shapely import affinity
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry
from shapely.ops import unary_union

from core.errors import CannotBeHad
from core.lay.legal import cut_lines, panels_on
from core.lay.remnant import polygons_in, there
from core.model.cloth import Cloth, Point, Remnant, Repeat
from core.model.project import Project
from core.wording import listed, tr

NARROW_MM = 40.0
"""Tongues of cloth between panels that are narrower than this are not counted as left."""

SMOOTHED_MM = 1.0
"""The outline of what is left keeps at least so far from every cut line, and has no finer detail."""


def leftover(project: Project, cloth_id: str) -> Cloth:
    """What is left of a cloth when all its panels have been cut where they lie: its largest part, as a remnant.

    v is measured from the remnant's own nearest point, so that stripes keep their places on it. Raises BadInput if
    there is no such cloth, CannotBeHad where the cloth's length is not known or next to nothing is left.
    """
    cloth = project.cloth(cloth_id)
    if cloth.end is None:
        raise CannotBeHad(tr("what is left of {title!r} can't be told: its length is not given", title=cloth.title))
    whole = box(0.0, 0.0, cloth.width, cloth.end)
    _check_laid(project, cloth)
    shape = there(cloth)
    cut = unary_union([Polygon(line) for line in cut_lines(project, cloth).values()])
    free = (whole if shape is None else whole.intersection(shape)).difference(cut.buffer(SMOOTHED_MM))
    kept = max(polygons_in(_without_tongues(free)), key=lambda part: part.area, default=None)
    if kept is None:
        raise CannotBeHad(tr("nothing that is worth keeping is left of {title!r}", title=cloth.title))
    return _as_remnant(cloth, kept)


def _check_laid(project: Project, cloth: Cloth) -> None:
    loose = [panel.name for panel in panels_on(project, cloth) if panel.name not in project.placements]
    if loose:
        raise CannotBeHad(
            tr(
                "what is left of {title!r} can't be told: {loose} have no places yet",
                title=cloth.title,
                loose=listed(loose),
            )
        )


def _without_tongues(free: BaseGeometry) -> BaseGeometry:
    half = NARROW_MM / 2
    opened = free.buffer(-half, join_style="mitre").buffer(half, join_style="mitre").intersection(free)
    return opened.simplify(SMOOTHED_MM / 2).buffer(0)


def _as_remnant(cloth: Cloth, kept: Polygon) -> Cloth:
    start = float(kept.bounds[1])
    moved = affinity.translate(kept, 0.0, -start)
    remnant = Remnant(outline=_corners(moved.exterior.coords), holes=tuple(_corners(r.coords) for r in moved.interiors))
    flaws = tuple(
        tuple((u, v - start) for u, v in flaw) for flaw in cloth.flaw_outlines if Polygon(flaw).intersects(kept)
    )
    repeat = None if cloth.repeat is None else _shifted(cloth.repeat, cloth.skew * start)
    crosswise = None if cloth.crosswise is None else _shifted(cloth.crosswise, -start)
    return msgspec.structs.replace(cloth, remnant=remnant, flaws=flaws, repeat=repeat, crosswise=crosswise, length=None)


def _shifted(repeat: Repeat, by_mm: float) -> Repeat:
    return msgspec.structs.replace(repeat, origin=round((repeat.origin + by_mm) % repeat.width, 6))


def _corners(coordinates: object) -> tuple[Point, ...]:
    """The corners of a ring, the first not repeated, to a hundredth of a millimetre."""
    return tuple((float(u), float(v)) for u, v in np.round(np.asarray(coordinates)[:-1], 2))
