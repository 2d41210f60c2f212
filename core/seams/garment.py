"""The geometry of a garment that does not change while panels move: panels, and each seam's two edges side by side."""

import math
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along, points_at
from core.model.cloth import Cloth
from core.model.panel import Panel, panels_of
from core.model.pattern import PanelName, Seam, SewnSeam, edge_of, panel_of
from core.model.project import Project

Flags = NDArray[np.bool_]

BENT_MM = 0.0025
"""A bowed bar is taken as straight over stretches on which it bends by no more than this."""


@dataclass(frozen=True, eq=False)
class SeamLine:
    """A seam opened flat: the two net edges, each in its panel's frame, at common heights.

    Between two successive heights both edges are straight, so whatever is linear in the points is linear there; where
    bars are bowed, heights are so close that a bow strays from that by no more than `BENT_MM`.
    `cloth` is the striped or barred cloth of both panels, or None where there is nothing to match.
    """

    sewn: SewnSeam
    cloth: Cloth | None
    height: Floats
    a: Points
    b: Points
    edge_lengths: tuple[float, float]

    @cached_property
    def panels(self) -> tuple[PanelName, PanelName]:
        """The panels on the left and on the right of the seam."""
        return panel_of(self.sewn.a), panel_of(self.sewn.b)

    @property
    def length(self) -> float:
        """Length of the sewn seam, mm: a's edge if spread, else the shorter edge."""
        return float(self.height[-1])

    @cached_property
    def sewn_parts(self) -> Flags:
        """Which stretches between heights are sewn (not open); shape (n - 1,)."""
        return ~self._inside(self.sewn.seam.open, default=False)

    @cached_property
    def counted_parts(self) -> Flags:
        """Which stretches between heights count: sewn and seen; shape (n - 1,)."""
        return self.sewn_parts & self._inside(self.sewn.seam.seen, default=True)

    def counts(self, height: float) -> bool:
        """Whether a height counts in rms and worst."""
        seam = self.sewn.seam
        seen = seam.seen is None or seam.seen[0] <= height <= seam.seen[1]
        is_open = seam.open is not None and seam.open[0] < height < seam.open[1]
        return seen and not is_open

    def _inside(self, stretch: tuple[float, float] | None, default: bool) -> Flags:
        middle = (self.height[:-1] + self.height[1:]) / 2
        if stretch is None:
            return np.full(len(middle), default)
        return np.asarray((middle > stretch[0]) & (middle < stretch[1]))


@dataclass(frozen=True, eq=False)
class Garment:
    """All panels by name and all seams as sewn, ready to be measured in any placement."""

    panels: dict[PanelName, Panel]
    seams: tuple[SeamLine, ...]

    @classmethod
    def of(cls, project: Project) -> "Garment":
        """The garment of a validated project."""
        panels = {panel.name: panel for piece in project.pieces for panel in panels_of(piece)}
        return cls(panels, tuple(_seam_line(project, panels, sewn) for sewn in project.sewn))


def _seam_line(project: Project, panels: dict[PanelName, Panel], sewn: SewnSeam) -> SeamLine:
    a = panels[panel_of(sewn.a)].net[edge_of(sewn.a)]
    b = panels[panel_of(sewn.b)].net[edge_of(sewn.b)][::-1]
    along_a, along_b = lengths_along(a), lengths_along(b)
    length_a, length_b = float(along_a[-1]), float(along_b[-1])
    length, lift_a, lift_b, stretch_b = joined(sewn.seam, length_a, length_b)
    cloth = _common_cloth(project, sewn)
    borders = [border for stretch in (sewn.seam.seen, sewn.seam.open) for border in stretch or ()]
    height = np.sort(np.concatenate([[0.0, length], along_a - lift_a, (along_b - lift_b) / stretch_b, borders]))
    height = height[(height >= 0) & (height <= length)]
    height = height[np.concatenate([[True], np.diff(height) > 1e-9])]
    height[-1] = length
    if cloth is not None and cloth.is_bowed:
        height = _divided(height, 2 * math.sqrt(BENT_MM / abs(cloth.bow_per_mm)) / max(1.0, stretch_b))
    return SeamLine(
        sewn,
        cloth,
        height,
        points_at(a, height + lift_a),
        points_at(b, height * stretch_b + lift_b),
        (length_a, length_b),
    )


def _divided(height: Floats, most: float) -> Floats:
    """Ascending heights with others between, evenly, so that none lie farther apart than `most`, mm."""
    counts = np.maximum(1, np.ceil(np.diff(height) / most)).astype(np.intp)
    ends = zip(height[:-1].tolist(), height[1:].tolist(), counts.tolist(), strict=True)
    parts = [np.linspace(low, high, count, endpoint=False) for low, high, count in ends]
    return np.append(np.concatenate(parts), height[-1])


def joined(seam: Seam, length_a: float, length_b: float) -> tuple[float, float, float, float]:
    """Length of the seam, distance of its upper end down each edge, and b's mm per mm of the seam."""
    if seam.join == "spread":
        return length_a, 0.0, 0.0, length_b / length_a
    shorter = min(length_a, length_b)
    if seam.join == "top":
        return shorter, 0.0, 0.0, 1.0
    return shorter, length_a - shorter, length_b - shorter, 1.0


def _common_cloth(project: Project, sewn: SewnSeam) -> Cloth | None:
    a, b = project.cloth_of(panel_of(sewn.a)), project.cloth_of(panel_of(sewn.b))
    return a if a.id == b.id and a.ways else None
