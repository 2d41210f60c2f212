"""The undoable command, and the changes of placement that a maker's hand asks for.

A project is an immutable value, so one command serves every intent: it holds the value before and the one after. What
the intent does to the placements is worked out here, by functions that take and give values.
"""

import math
import time
from typing import TYPE_CHECKING

import msgspec
import numpy as np
from PySide6.QtGui import QUndoCommand

from core.geometry.transform import placed, rotation
from core.lay.rungs import on_rungs, rungs_of
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project

if TYPE_CHECKING:
    from app.document import Document

SERIES_S = 1.0
"""Nudges that follow one another within this time are one step."""

Changes = dict[PanelName, Placement]


class ChangeProject(QUndoCommand):
    """One step of the history: the project before it and after it."""

    def __init__(self, document: "Document", text: str, before: Project, after: Project, series: str = "") -> None:
        super().__init__(text)
        self._document, self._before, self._after, self._series = document, before, after, series
        self._when = time.monotonic()

    def id(self) -> int:
        """Only steps that belong to a series may merge."""
        return 1 if self._series else -1

    def redo(self) -> None:
        """Hold the project after."""
        self._document.take(self._after)

    def undo(self) -> None:
        """Hold the project before."""
        self._document.take(self._before)

    def mergeWith(self, other: QUndoCommand) -> bool:
        """Take in the next step of the same series, if it came soon enough."""
        if not isinstance(other, ChangeProject) or other._series != self._series:
            return False
        if other._when - self._when > SERIES_S:
            return False
        self._after, self._when = other._after, other._when
        return True


def free_panels(project: Project, panels: tuple[PanelName, ...]) -> tuple[PanelName, ...]:
    """Those of the panels that are not held."""
    return tuple(name for name in panels if not project.placement(name).hold)


def shifted(project: Project, panels: tuple[PanelName, ...], du: float, dv: float) -> Changes:
    """The panels moved by du across and dv along the cloth, mm."""
    return {name: moved_to(project.placement(name), du, dv) for name in panels}


def moved_to(at: Placement, du: float, dv: float) -> Placement:
    """A placement moved by du and dv, mm."""
    return msgspec.structs.replace(at, u=_on_step(at.u + du), v=_on_step(at.v + dv))


def to_other_side(project: Project, panel: Panel) -> Placement:
    """The panel moved to about its mirror image's place across the cloth's middle, by whole repeats of a striped cloth.

    What it shows of the stripes stays, and so does every step.
    """
    at, cloth = project.placement(panel.name), project.cloth_of(panel.name)
    box = placed(panel.cut_ring, at.u, at.v, at.turn_deg, at.turned)[:, 0]
    away = sum(cloth.usable) - float(box.min() + box.max())
    if cloth.repeat is None:
        return moved_to(at, away, 0.0)
    return by_repeats(project, panel.name, round(away / cloth.repeat.period))


def by_repeats(project: Project, name: PanelName, repeats: int) -> Placement:
    """The panel moved across by whole repeats of its striped cloth, along its bars if there are any."""
    cloth = project.cloth_of(name)
    across = cloth.repeat.period * repeats if cloth.repeat else 0.0
    return moved_to(project.placement(name), *cloth.shift_for(across, 0.0))


def clamped_turn(turn_deg: float, project: Project, panel: Panel) -> float:
    """A turn of a panel kept inside its cloth's grain tolerance, degrees; from where it lies, if on the bias."""
    limit = project.cloth_of(panel.name).grain_tolerance_deg
    rest = 90.0 * round(project.placement(panel.name).turn_deg / 90.0) if panel.piece.grain == "bias" else 0.0
    return round(min(max(turn_deg, rest - limit), rest + limit), 4) + 0.0


def turned_to(project: Project, panel: Panel, turn_deg: float) -> Placement:
    """The panel turned about its own middle, as far as the grain tolerance lets it."""
    return about_middle(panel, project.placement(panel.name), turn_deg=clamped_turn(turn_deg, project, panel))


def end_for_end(project: Project, panel: Panel) -> Placement:
    """The panel turned end for end about its own middle."""
    at = project.placement(panel.name)
    return about_middle(panel, at, turned=not at.turned)


def about_middle(panel: Panel, at: Placement, **changes: float | bool) -> Placement:
    """A placement with another turn that leaves the panel's middle where it is."""
    after = msgspec.structs.replace(at, **changes)
    before_uv = placed(panel.middle[None], at.u, at.v, at.turn_deg, at.turned)[0]
    u, v = before_uv - rotation(after.turn_deg, after.turned) @ panel.middle
    return msgspec.structs.replace(after, u=_on_step(float(u)), v=_on_step(float(v)))


def turn_in_mm(panel: Panel, turn_deg: float) -> float:
    """How far off the grain a turn brings one end of a panel against the other, mm: over its length along the grain."""
    ring = panel.net_ring
    return float(np.ptp(ring[:, 1])) * math.sin(math.radians(turn_deg))


def can_be_turned(cloth: Cloth) -> bool:
    """Whether panels may lie end for end on a cloth."""
    return not cloth.one_way


def holding(project: Project, panels: tuple[PanelName, ...]) -> Changes:
    """The panels held; or let go again, if all of them are held."""
    hold = any(not project.placement(name).hold for name in panels)
    return {name: msgspec.structs.replace(project.placement(name), hold=hold) for name in panels}


def without_places(project: Project) -> tuple[PanelName, ...]:
    """The panels that have not been placed yet."""
    return tuple(name for name in project.panel_names if name not in project.placements)


GAP_MM = 15.0
"""Room between panels that are spread out."""


def spread_out(project: Project, known: dict[PanelName, Panel], panels: tuple[PanelName, ...]) -> Changes:
    """Panels laid side by side in rows from the cut end on, each moved by whole repeats of stripes and bars.

    The step of no seam changes by it. Held panels stay, and nothing is done to keep clear of them; panels that are not
    among those spread out are kept clear of, where they have places.
    """
    changes: Changes = {}
    for cloth in project.cloths:
        mine = [known[name] for name in free_panels(project, panels) if project.cloth_of(name).id == cloth.id]
        others = [known[name] for name in project.placements if name in known and name not in panels]
        start = max((_end_of(project, other) for other in others if other.piece.cloth == cloth.id), default=0.0)
        changes |= _in_rows(project, cloth, mine, start + GAP_MM)
    return changes


def _end_of(project: Project, panel: Panel) -> float:
    """The largest v of a panel's cut line, mm."""
    at = project.placement(panel.name)
    return float(placed(panel.cut_ring, at.u, at.v, at.turn_deg, at.turned)[:, 1].max())


def _in_rows(project: Project, cloth: Cloth, panels: list[Panel], start_v: float) -> Changes:
    changes: Changes = {}
    left, right = cloth.usable
    at_u, row_v, row_end = left, start_v, start_v
    for panel in panels:
        at = project.placement(panel.name)
        here = placed(panel.cut_ring, 0.0, 0.0, at.turn_deg, at.turned)
        (low_u, low_v), (high_u, high_v) = here.min(axis=0), here.max(axis=0)
        u, v = _on_phase(cloth, panel, at, at_u - low_u, row_v - low_v)
        if u + high_u > right and at_u > left:
            at_u, row_v = left, row_end + GAP_MM
            u, v = _on_phase(cloth, panel, at, at_u - low_u, row_v - low_v)
        changes[panel.name] = msgspec.structs.replace(at, u=_on_step(u), v=_on_step(v))
        at_u, row_end = u + high_u + GAP_MM, max(row_end, v + float(high_v))
    return changes


def _on_phase(cloth: Cloth, panel: Panel, at: Placement, least_u: float, least_v: float) -> tuple[float, float]:
    """The first u and v from these on that keep the panel's place within the stripes and the bars."""
    u, v = float(least_u), float(least_v)
    if cloth.repeat is not None:
        there, period = at.u + cloth.skew * (v - at.v), cloth.repeat.period
        u = there + math.ceil((u - there) / period - 1e-9) * period
    if cloth.crosswise is None:
        return u, v
    middle = rotation(at.turn_deg, at.turned) @ panel.middle
    rungs = rungs_of(cloth, [(at, middle)], np.array([[cloth.w(u, v)]]))
    on_bars = float(on_rungs(np.array([[v]]), rungs, True)[0, 0])
    return u + cloth.skew * (on_bars - v), on_bars


def _on_step(mm: float) -> float:
    """A place to the thousandth of a millimetre, so that files stay readable."""
    return round(mm, 3) + 0.0
