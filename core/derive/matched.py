"""What lies on a panel and continues its stripes: where it must lie on its cloth, and how far it is from that."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import msgspec
import numpy as np

from core.derive.cutting import cut_project
from core.geometry.paths import Points
from core.geometry.transform import placed, rotation
from core.lay.task import end_for_end
from core.model.cloth import Cloth
from core.model.panel import Panel, on_of, panels_of
from core.model.pattern import On, PanelName
from core.model.project import Placement, Project
from core.seams.stripes import Across, wrap, wrapped

SAME_MM = 0.005
"""What lies no farther than this from where its stripes continue lies right."""


@dataclass(frozen=True, eq=False)
class Patch:
    """A panel that lies `on` another, `under`; `at` and `under_at` are where both lie on the cloth."""

    panel: Panel
    on: On
    under: Panel
    cloth: Cloth
    at: Placement
    under_at: Placement

    @property
    def name(self) -> PanelName:
        """The patch's own name."""
        return self.panel.name

    def on_panel(self, points: Points) -> Points:
        """Points of the patch, in its own frame, where they lie on the panel, in the panel's frame; shape (n, 2)."""
        return np.asarray((points - self.panel.middle) @ rotation(self.on.turn_deg, False).T + np.array(self.on.at))

    @cached_property
    def wanted(self) -> Placement:
        """Where it would lie if it were cut from the very place that it covers."""
        start = self.on_panel(np.zeros((1, 2)))
        (u, v), *_ = placed(start, self.under_at.u, self.under_at.v, self.under_at.turn_deg, self.under_at.turned)
        turn = self.under_at.turn_deg + self.on.turn_deg
        turn = turn if -180 < turn <= 180 else (turn + 180) % 360 - 180
        return Placement(u=float(u), v=float(v), turn_deg=round(turn, 6) + 0.0, turned=self.under_at.turned)

    @cached_property
    def steps(self) -> tuple[float, float | None]:
        """The largest step across the stripes between it and the panel, anywhere on it, mm; and along, or None.

        Where an even repeat lies end for end its mirror image counts as itself.
        """
        points = np.vstack([self.panel.net_ring, self.panel.middle])
        across = _largest(self._across(points), self.cloth.repeat.period) if self.cloth.repeat else 0.0
        crosswise = getattr(self.cloth, "crosswise", None)
        return across, _largest(self._along(points), crosswise.period) if crosswise else None

    @property
    def apart_mm(self) -> float:
        """The larger of its steps across and along, mm."""
        across, along = self.steps
        return max(across, along or 0.0)

    @property
    def _reversed(self) -> bool:
        """Whether it lies end for end to the panel, which an even repeat can't tell."""
        repeat = self.cloth.repeat
        return self.at.turned != self.under_at.turned and repeat is not None and repeat.even

    def _across(self, points: Points) -> Points:
        mine = Across.of(self.at, self.cloth.skew)(points)
        theirs = Across.of(self.under_at, self.cloth.skew)(self.on_panel(points))
        if self._reversed and self.cloth.repeat:
            return np.asarray(mine - (2 * self.cloth.repeat.c - theirs))
        return np.asarray(mine - theirs)

    def _along(self, points: Points) -> Points:
        return np.asarray(self._v(points, self.at) - self._v(self.on_panel(points), self.under_at))

    @staticmethod
    def _v(points: Points, at: Placement) -> Points:
        return placed(points, at.u, at.v, at.turn_deg, at.turned)[:, 1]

    @cached_property
    def nearest(self) -> Placement:
        """Where its stripes continue the panel's, as near as may be to where it lies."""
        wanted = self._wanted_or_reversed
        v = self.at.v + (wrapped(wanted.v - self.at.v, self._period_along) if self._period_along else 0.0)
        w = wanted.u - self.cloth.skew * wanted.v
        u = self.at.u + wrapped(w - (self.at.u - self.cloth.skew * v), self._period)
        return msgspec.structs.replace(wanted, u=round(u, 3) + 0.0, v=round(v, 3) + 0.0, hold=self.at.hold)

    @property
    def _wanted_or_reversed(self) -> Placement:
        if not self._reversed:
            return self.wanted
        return end_for_end(self.wanted, self.cloth)

    @property
    def _period(self) -> float:
        return self.cloth.repeat.period if self.cloth.repeat else 1.0

    @property
    def _period_along(self) -> float | None:
        crosswise = getattr(self.cloth, "crosswise", None)
        return crosswise.period if crosswise else None


def _largest(apart: Points, period: float) -> float:
    return float(np.abs(wrap(apart, period)).max())


def patches(cut: Project) -> Iterator[Patch]:
    """All panels of a project, derived pieces being pieces, that lie on another of the same striped cloth."""
    panels = {panel.name: panel for piece in cut.pieces for panel in panels_of(piece)}
    for piece in cut.pieces:
        cloth = cut.cloth(piece.cloth)
        for panel in panels_of(piece) if piece.on else ():
            on = on_of(panel)
            under = panels[on.panel]
            if under.piece.cloth == cloth.id and cloth.repeat is not None:
                places = cut.placement(panel.name), cut.placement(under.name)
                yield Patch(panel, on, under, cloth, *places)


def with_patches(project: Project) -> Project:
    """The project in which whatever lies on a panel lies on its cloth where its stripes go on from the panel's.

    Raises BadInput for a layer or pocket that can't be had, if anything lies on a panel.
    """
    if not any(piece.on for piece in project.pieces) and not any(strip.on for strip in project.strips):
        return project
    return project.placed(continued(cut_project(project)))


def continued(cut: Project) -> dict[PanelName, Placement]:
    """New places for what lies on panels that have one, so that its stripes go on; what is held or lies right stays."""
    return {
        patch.name: patch.nearest
        for patch in patches(cut)
        if patch.under.name in cut.placements
        and not patch.at.hold
        and (patch.name not in cut.placements or patch.apart_mm > SAME_MM)
    }
