"""Where panels moved by hand come to rest along the cloth: against the cut lines of others and the cut end."""

from collections.abc import Set
from dataclasses import dataclass
from itertools import product

import numpy as np

from core.geometry.polyline import Floats
from core.lay.forbidden import forbidden_by_slabs, merged
from core.lay.legal import cut_line, panels_on
from core.lay.remnant import missing_outlines
from core.lay.shapes import Shape
from core.lay.task import shape_of
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Project


@dataclass(frozen=True, eq=False)
class Stops:
    """Panels of one cloth that move together, by dw across the stripes and dv along them.

    `pairs` has what stays and what moves, each two that may touch: panels with half of what is spared round them, then
    flaws and what a remnant lacks. `start` is the dv that brings the first of them to the cut end.
    """

    pairs: tuple[tuple[Shape, Shape], ...]
    start: float

    @classmethod
    def of(cls, project: Project, cloth: Cloth, moving: Set[PanelName], passing: Set[PanelName]) -> "Stops":
        """What stops some panels of a cloth, moved from where a project puts them; nothing in `passing` does."""
        lines = {panel.name: cut_line(panel, project.placement(panel.name)) for panel in panels_on(project, cloth)}
        moved = [line for name, line in lines.items() if name in moving]
        stayed = [line for name, line in lines.items() if name not in moving and name not in passing]
        spots = [*(np.array(flaw) for flaw in cloth.flaw_outlines), *missing_outlines(cloth)]
        bare, roomy = (tuple(shape_of(line, cloth, margin) for line in moved) for margin in (0.0, cloth.spare_mm / 2))
        panels = product((shape_of(line, cloth, cloth.spare_mm / 2) for line in stayed), roomy)
        start = -min((shape.along[0] for shape in bare), default=0.0)
        return cls((*panels, *product((shape_of(spot, cloth) for spot in spots), bare)), start)

    def nearest(self, dw: float, dv: float, reach_mm: float) -> float:
        """The dv nearest to one at which the panels, moved by dw, touch something and overlap nothing.

        That is `dv` itself where there is none within `reach_mm`.
        """
        low, high = self._blocked(dw)
        at_end = [] if np.any((low < self.start) & (high > self.start)) else [self.start]
        rests = np.concatenate([low, high, at_end])
        near = rests[(np.abs(rests - dv) <= reach_mm) & (rests >= self.start)]
        return float(min(near, key=lambda rest: abs(rest - dv), default=dv))

    def _blocked(self, dw: float) -> tuple[Floats, Floats]:
        """Ends of the intervals of dv, disjoint, in which some panel would overlap something; (m,) each."""
        parts = [
            forbidden_by_slabs(stays, moves, np.array([dw]))
            for stays, moves in self.pairs
            if moves.reach[0] + dw < stays.reach[1] and moves.reach[1] + dw > stays.reach[0]
        ]
        low, high = (np.concatenate([part[side][0] for part in parts] or [np.empty(0)]) for side in (0, 1))
        there = np.isfinite(low)
        ends = merged(low[there], high[there], np.zeros(int(there.sum()), dtype=np.intp), 1)
        return ends[0][0][np.isfinite(ends[0][0])], ends[1][0][np.isfinite(ends[1][0])]
