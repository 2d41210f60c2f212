"""Where bars fall at the waists and hems of panels: what shows at once when a bar sits just off an edge."""

from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.polyline import length, points_at
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.sides import sides_of
from core.seams.stripes import Across, lead_centres_between


@dataclass(frozen=True)
class Level:
    """How far the middle of a panel's waist or hem lies from the nearest lead bar.

    `to_bar_mm` is measured along the cloth to the bar's centre on the stitching line: positive where the bar lies
    further towards the hem, negative where further towards the waist.
    """

    panel: PanelName
    edge: str
    side: Literal["top", "hem"]
    to_bar_mm: float


def find_levels(project: Project, garment: Garment) -> tuple[Level, ...]:
    """The levels of all panels on barred cloth, as they are placed; panels in the order of their pieces."""
    return tuple(
        level
        for name, panel in garment.panels.items()
        for level in levels_of(panel, project.cloth_of(name), project.placement(name))
    )


def levels_of(panel: Panel, cloth: Cloth, at: Placement) -> tuple[Level, ...]:
    """The levels of one panel that lies `at` on a cloth; none where it has no bars."""
    if cloth.crosswise is None:
        return ()
    across, down = Across.of(at, cloth, "crosswise"), -1.0 if at.turned else 1.0
    return tuple(
        Level(panel.name, edge, side, down * _to_bar(cloth, across, panel, edge))
        for edge, side in zip(panel.net, sides_of(list(panel.net.values())), strict=True)
        if side in ("top", "hem")
    )


def _to_bar(cloth: Cloth, across: Across, panel: Panel, edge: str) -> float:
    """Change of z from the middle of an edge to the nearest centre of a lead bar, mm."""
    assert cloth.crosswise is not None
    line = panel.net[edge]
    z = float(across(points_at(line, np.array([length(line) / 2])))[0])
    centres = lead_centres_between(cloth.crosswise, z - cloth.crosswise.width, z + cloth.crosswise.width)
    return float(min(centres - z, key=abs))
