"""Where panels moved by hand come to rest along the cloth: against the cut lines of others and the cut end."""

from collections.abc import Callable, Set
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache, partial
from itertools import product

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.lay.forbidden import blocked_at, merged
from core.lay.legal import cut_line, panels_on
from core.lay.remnant import missing_outlines
from core.lay.shapes import Shape, sheared
from core.lay.task import shape_of
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project


@dataclass(frozen=True, eq=False)
class _Body:
    """Something on the cloth: its box in the sheared frame, mm, margin included, and its shape once that is asked for.

    Most of what lies on a cloth is never near to what moves, and a shape takes some ms.
    """

    reach: tuple[float, float]
    along: tuple[float, float]
    make: Callable[[], Shape]

    @classmethod
    def of(cls, line: Points, cloth: Cloth, margin_mm: float, make: Callable[[], Shape]) -> "_Body":
        """From its closed line on the cloth."""
        low, high = (end(sheared(line, cloth.skew), axis=0) for end in (np.min, np.max))
        (left, top), (right, bottom) = (low - 2 * margin_mm).tolist(), (high + 2 * margin_mm).tolist()
        return cls((left, right), (top, bottom), make)

    @cached_property
    def shape(self) -> Shape:
        """The exact shape."""
        return self.make()


def _panel_body(panel: Panel, at: Placement, cloth: Cloth, margin_mm: float) -> _Body:
    def make() -> Shape:
        return _moved(_resting(panel, at.turn_deg, at.turned, cloth, margin_mm), at.u - cloth.skew * at.v, at.v)

    return _Body.of(cut_line(panel, at), cloth, margin_mm, make)


def make_ready(project: Project, cloth: Cloth, panel: Panel) -> None:
    """Work out what `Stops.nearest` would otherwise need the first time that something comes near a panel."""
    at = project.placement(panel.name)
    _resting(panel, at.turn_deg, at.turned, cloth, cloth.spare_mm / 2)


@lru_cache(maxsize=512)
def _resting(panel: Panel, turn_deg: float, turned: bool, cloth: Cloth, margin_mm: float) -> Shape:
    """The shape of a panel that lies at u = v = 0."""
    return shape_of(cut_line(panel, Placement(turn_deg=turn_deg, turned=turned)), cloth, margin_mm)


def _moved(shape: Shape, dw: float, dv: float) -> Shape:
    """The shape moved by dw across the stripes and dv along them."""
    return replace(
        shape, ring=shape.ring + np.array([dw, dv]), cuts=shape.cuts + dw, low=shape.low + dv, high=shape.high + dv
    )


@dataclass(frozen=True, eq=False)
class Stops:
    """Panels of one cloth that move together, by dw across the stripes and dv along them.

    `pairs` has what stays and what moves, each two that may touch: panels with half of what is spared round them, then
    flaws and what a remnant lacks. `start` is the dv that brings the first of them to the cut end.
    """

    pairs: tuple[tuple[_Body, _Body], ...]
    start: float

    @classmethod
    def of(cls, project: Project, cloth: Cloth, moving: Set[PanelName], passing: Set[PanelName]) -> "Stops":
        """What stops some panels of a cloth, moved from where a project puts them; nothing in `passing` does."""
        here = panels_on(project, cloth)
        moved = [panel for panel in here if panel.name in moving]
        stayed = [panel for panel in here if panel.name not in moving and panel.name not in passing]
        spots = [*(np.array(flaw) for flaw in cloth.flaw_outlines), *missing_outlines(cloth)]

        def bodies(panels: list[Panel], margin_mm: float) -> list[_Body]:
            return [_panel_body(panel, project.placement(panel.name), cloth, margin_mm) for panel in panels]

        bare = bodies(moved, 0.0)
        flaws = [_Body.of(spot, cloth, 0.0, partial(shape_of, spot, cloth)) for spot in spots]
        panels = product(bodies(stayed, cloth.spare_mm / 2), bodies(moved, cloth.spare_mm / 2))
        start = -min((body.along[0] for body in bare), default=0.0)
        return cls((*panels, *product(flaws, bare)), start)

    def nearest(self, dw: float, dv: float, reach_mm: float) -> float:
        """The dv nearest to one at which the panels, moved by dw, touch something and overlap nothing.

        That is `dv` itself where there is none within `reach_mm`.
        """
        low, high = self._blocked(dw, (dv - reach_mm, dv + reach_mm))
        at_end = [] if np.any((low < self.start) & (high > self.start)) else [self.start]
        rests = np.concatenate([low, high, at_end])
        near = rests[(np.abs(rests - dv) <= reach_mm) & (rests >= self.start)]
        return float(min(near, key=lambda rest: abs(rest - dv), default=dv))

    def _blocked(self, dw: float, within: tuple[float, float]) -> tuple[Floats, Floats]:
        """Ends of the intervals of dv, disjoint, in which some panel would overlap something; (m,) each.

        What can't be met `within` two dv is left out.
        """
        parts = [
            blocked_at(stays.shape, moves.shape, dw)
            for stays, moves in self.pairs
            if moves.reach[0] + dw < stays.reach[1]
            and moves.reach[1] + dw > stays.reach[0]
            and moves.along[0] + within[0] < stays.along[1]
            and moves.along[1] + within[1] > stays.along[0]
        ]
        low, high = (np.concatenate([part[side] for part in parts] or [np.empty(0)]) for side in (0, 1))
        ends = merged(low, high, np.zeros(len(low), dtype=np.intp), 1)
        return ends[0][0][np.isfinite(ends[0][0])], ends[1][0][np.isfinite(ends[1][0])]
