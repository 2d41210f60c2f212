"""Where bars fall at the waists and hems of panels: what shows at once when a bar sits just off an edge."""

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.polyline import length, points_at
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.order import chains_as_worn
from core.seams.sides import sides_of
from core.seams.stripes import Across, lead_centres_between, wrapped
from core.units import Units
from core.wording import later, tr

NOTHING_MM = 0.05
"""A bar that lies nearer to an edge than this lies on it."""


@dataclass(frozen=True)
class Level:
    """How far the middle of a panel's waist or hem lies from the nearest lead bar.

    `to_bar_mm` is measured along the cloth to the bar's centre on the stitching line: positive where the bar lies
    further towards the hem, negative where further towards the waist. `swing_mm` is by how much that changes along the
    edge, from its least to its most.
    """

    panel: PanelName
    edge: str
    side: Literal["top", "hem"]
    to_bar_mm: float
    swing_mm: float


@dataclass(frozen=True)
class Round:
    """The waists, or the hems, of panels that are sewn in a row: how evenly the bars fall round the garment.

    `low_mm` to `high_mm` is the narrowest range in which a bar lies at the middle of every one of them, signed as a
    level's distance.
    """

    side: Literal["top", "hem"]
    levels: tuple[Level, ...]
    low_mm: float
    high_mm: float

    @property
    def uneven_mm(self) -> float:
        """By how much the distance from edge to bar differs from panel to panel, at the most."""
        return self.high_mm - self.low_mm

    def words(self, units: Units) -> str:
        """Where the bars lie at these edges, and how unevenly, in one sentence."""
        return tr("{where}, uneven by {uneven}.", where=self.where(units), uneven=units.say(self.uneven_mm))

    def where(self, units: Units) -> str:
        """Between what distances the bars lie at these edges."""
        edges = tr("Waists") if self.side == "top" else tr("Hems")
        near, far = sorted((abs(self.low_mm), abs(self.high_mm)))
        if self.low_mm < 0 < self.high_mm:
            near, far, told = -self.low_mm, self.high_mm, later("{edges}: bars from {near} above to {far} below")
        elif units.bare(near) == units.bare(far):
            told = later("{edges}: bars {far} below") if self.low_mm >= 0 else later("{edges}: bars {far} above")
        else:
            below, above = later("{edges}: bars {near} to {far} below"), later("{edges}: bars {near} to {far} above")
            told = below if self.low_mm >= 0 else above
        return tr(told, edges=edges, near=units.bare(near), far=units.say(far))


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
    found = []
    for edge, side in zip(panel.net, sides_of(list(panel.net.values())), strict=True):
        if side in ("top", "hem"):
            z = np.asarray(across(panel.net[edge]))
            level = Level(panel.name, edge, side, down * _to_bar(cloth, across, panel, edge), float(np.ptp(z)))
            found.append(level)
    return tuple(found)


def find_rounds(project: Project, levels: Iterable[Level]) -> tuple[Round, ...]:
    """The levels of panels that are sewn in a row and lie on one cloth, waists and hems apart; only where two are."""
    levels, found = tuple(levels), []
    for chain in chains_as_worn(project) if levels else ():
        for cloth in dict.fromkeys(project.cloth_of(name).id for name in chain.panels):
            here = [one for one in levels if one.panel in chain.panels and project.cloth_of(one.panel).id == cloth]
            for side in ("top", "hem"):
                mine = tuple(one for one in here if one.side == side)
                if len({one.panel for one in mine}) > 1:
                    found.append(_round(project.cloth_of(mine[0].panel), mine))
    return tuple(found)


def _round(cloth: Cloth, levels: tuple[Level, ...]) -> Round:
    """The narrowest range of distances, each of them changed by whole periods: all but the widest gap between them."""
    assert cloth.crosswise is not None
    period = cloth.crosswise.period
    places = np.sort(np.array([one.to_bar_mm for one in levels]) % period)
    gaps = np.diff(np.append(places, places[0] + period))
    widest = int(np.argmax(gaps))
    low, wide = float(places[(widest + 1) % len(places)]), period - float(gaps[widest])
    low = wrapped(low + wide / 2, period) - wide / 2
    return Round(levels[0].side, levels, low, low + wide)


def _to_bar(cloth: Cloth, across: Across, panel: Panel, edge: str) -> float:
    """Change of z from the middle of an edge to the nearest centre of a lead bar, mm."""
    assert cloth.crosswise is not None
    line = panel.net[edge]
    z = float(across(points_at(line, np.array([length(line) / 2])))[0])
    centres = lead_centres_between(cloth.crosswise, z - cloth.crosswise.width, z + cloth.crosswise.width)
    return float(min(centres - z, key=abs))
