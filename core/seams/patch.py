"""What lies on a panel and continues its stripes: where it must lie on its cloth, and how far it is from that."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

import msgspec
import numpy as np

from core.geometry.paths import Points
from core.geometry.transform import placed, rotation
from core.model.cloth import WAYS, Cloth, Way
from core.model.panel import Panel, on_of, panels_of
from core.model.pattern import On, PanelName
from core.model.project import Placement, Project
from core.seams.stripes import Across, wrap, wrapped


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
    def steps(self) -> dict[Way, float]:
        """The largest step between it and the panel, anywhere on it, mm, across the stripes of every way there is.

        Where an even repeat lies end for end its mirror image counts as itself.
        """
        return {way: self._step(way) for way in self.cloth.ways}

    @property
    def apart_mm(self) -> float:
        """The largest of its steps, mm."""
        return max(self.steps.values(), default=0.0)

    def _step(self, way: Way) -> float:
        repeat = self.cloth.repeat_of(way)
        assert repeat is not None
        points = np.vstack([self.panel.net_ring, self.panel.middle])
        mine = Across.of(self.at, self.cloth, way)(points)
        theirs = Across.of(self.under_at, self.cloth, way)(self.on_panel(points))
        wanted = 2 * repeat.c - theirs if self._reversed else theirs
        return float(np.abs(wrap(mine - wanted, repeat.period)).max())

    @property
    def _reversed(self) -> bool:
        """Whether it lies end for end to the panel, which even repeats can't tell."""
        repeats = [self.cloth.repeat_of(way) for way in self.cloth.ways]
        return self.at.turned != self.under_at.turned and all(repeat and repeat.even for repeat in repeats)

    @cached_property
    def nearest(self) -> Placement:
        """Where its stripes continue the panel's, as near as may be to where it lies; on bowed bars at its middle."""
        turned = self.at.turned if self._reversed else self.wanted.turned
        here = msgspec.structs.replace(self.wanted, u=self.at.u, v=self.at.v, turned=turned, hold=self.at.hold)
        for _ in range(3 if self.cloth.bow_per_mm else 1):
            du, dv = self.cloth.shift_for(*(self._off(here, way) for way in WAYS))
            here = msgspec.structs.replace(here, u=round(here.u + du, 3) + 0.0, v=round(here.v + dv, 3) + 0.0)
        return here

    def _off(self, here: Placement, way: Way) -> float:
        """The shift across the stripes of a way, mm, by which a place misses the one wanted; 0 where there are none."""
        repeat, middle = self.cloth.repeat_of(way), self.panel.middle[None]
        if repeat is None:
            return 0.0
        mine, wanted = (float(Across.of(at, self.cloth, way)(middle)[0]) for at in (here, self.wanted))
        return wrapped((2 * repeat.c - wanted if self._reversed else wanted) - mine, repeat.period)


def patches(cut: Project) -> Iterator[Patch]:
    """All panels of a project, derived pieces being pieces, that lie on one of its others, of one striped cloth."""
    panels = {panel.name: panel for piece in cut.pieces for panel in panels_of(piece)}
    for piece in cut.pieces:
        cloth = cut.cloth(piece.cloth)
        for panel in panels_of(piece) if piece.on else ():
            on = on_of(panel)
            under = panels.get(on.panel)
            if under is not None and under.piece.cloth == cloth.id and cloth.ways:
                places = cut.placement(panel.name), cut.placement(under.name)
                yield Patch(panel, on, under, cloth, *places)
