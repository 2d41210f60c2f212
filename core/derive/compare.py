"""What each variant of a project comes to, side by side with how things stand."""

import math
from dataclasses import dataclass, replace

import msgspec

from core.derive.cutting import cut_project
from core.errors import BadInput
from core.lay.cloth_lay import cloth_lay
from core.model.project import Placement, Project, Variant
from core.model.variants import in_force
from core.seams.garment import Garment
from core.seams.readings import Measurement, measure


@dataclass(frozen=True)
class Standing:
    """The figures of one way to stand; lengths mm, angles degrees; None where there is nothing to tell.

    `rms_mm`: the garment's figure under its own weights, `alike_rms_mm`: under the project's present ones.
    `worst_mm` at `worst_seam`; `turned`: panels that lie end for end; `longest_turn_deg`: the largest turn off the
    grain; `lay_mm`: cloth of all lays together, None unless every panel has a place; `cut_elsewhere`: panels ticked off
    as cut that lie elsewhere here.
    """

    name: str
    rms_mm: float | None
    alike_rms_mm: float | None
    worst_mm: float | None
    worst_seam: str
    turned: int
    longest_turn_deg: float
    lay_mm: float | None
    cut_elsewhere: int = 0


def standings(project: Project) -> tuple[Standing, ...]:
    """The figures of every variant, in the project's order."""
    return tuple(standing_of(project, variant) for variant in project.variants)


def standing_of(project: Project, variant: Variant) -> Standing:
    """The figures of a variant."""
    after = in_force(project, variant)
    elsewhere = sum(_far(project.placement(name), after.placement(name)) for name in project.done)
    return replace(present_standing(after, variant.name, project), cut_elsewhere=elsewhere)


def present_standing(project: Project, name: str = "", weights_of: Project | None = None) -> Standing:
    """The figures of the project as it stands; `weights_of` is the project whose weights all are judged by."""
    measurement = measure(project)
    worst, seam = _worst(measurement)
    places = [project.placement(panel) for panel in project.panel_names]
    return Standing(
        name,
        measurement.rms_mm,
        measurement.rms_mm if weights_of is None else _alike(project, weights_of),
        worst,
        seam,
        sum(at.turned for at in places),
        max((abs(at.turn_deg) for at in places), default=0.0),
        _lay_mm(project),
    )


def _alike(project: Project, weights_of: Project) -> float | None:
    """The figure of a project's placements and pieces under another's weights, mm."""
    weighed = msgspec.structs.replace(project, seams=weights_of.seams)
    return measure(weighed, Garment.of(weighed)).rms_mm


def _worst(measurement: Measurement) -> tuple[float | None, str]:
    readings = (*measurement.seams, *measurement.crosswise)
    found = [(reading.worst[0], reading.line.sewn.label) for reading in readings if reading and reading.worst]
    return max(found, key=lambda one: one[0], default=(None, ""))


def _lay_mm(project: Project) -> float | None:
    """Cloth of all lays together, mm; None unless every panel has a place."""
    try:
        cut = cut_project(project)
    except BadInput:
        return None
    if not set(cut.panel_names) <= cut.placements.keys():
        return None
    used = {piece.cloth for piece in cut.pieces}
    return math.fsum(cloth_lay(cut, cloth).length_mm for cloth in cut.cloths if cloth.id in used)


def _far(one: Placement, other: Placement) -> bool:
    """Whether two places are further apart than can be seen: a tenth of a millimetre, a hundredth of a degree."""
    apart = math.hypot(one.u - other.u, one.v - other.v)
    return apart > 0.1 or abs(one.turn_deg - other.turn_deg) > 0.01 or one.turned != other.turned
