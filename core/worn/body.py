"""The body that a garment's panels make once they are sewn: a surface of revolution as wide as they are together."""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np

from core.errors import CannotBeHad
from core.geometry.polyline import Floats
from core.model.pattern import PanelName
from core.model.project import Project
from core.seams.garment import Garment, SeamLine
from core.seams.order import WornChain, chains_as_worn
from core.wording import tr
from core.worn.patch import SHARES, Patch, free_side, patch, sewn_side

OPEN_SWEEP = math.pi
"""A garment that does not close, as an apron, goes half round the body."""
_STEEPEST = 0.05
"""A row lies at least this share of its distance below the one before, however full the cloth is."""


@dataclass(frozen=True, eq=False)
class WornBody:
    """A garment sewn up and hung, in rows from its upper border to its hem; R rows, n panels.

    `places` are the panels' places, (R, n, 3, 2) as in `Patch`; `borders` the angles at which panels begin and end,
    radians, growing from left to right as seen from outside, 0 at the middle of the front, (R, n + 1); `width` the
    panels' widths, mm, (R, n); `radius` and `drop` the distance from the axis and below the upper border, mm, (R,).
    `sided` tells whether there are a front and a back, `left_out` which panels are not sewn to these.
    """

    panels: tuple[PanelName, ...]
    closed: bool
    sided: bool
    left_out: tuple[PanelName, ...]
    places: Floats
    borders: Floats
    width: Floats
    radius: Floats
    drop: Floats


def worn_body(project: Project, garment: Garment) -> WornBody:
    """The body of the longest chain of panels; panels of other chains are left out and named.

    Raises CannotBeHad where no two panels are sewn together, or one has no side to be sewn by.
    """
    chains = chains_as_worn(project)
    chain = max(chains, key=lambda chain: len(chain.panels), default=WornChain(()))
    if len(chain.panels) < 2:
        raise CannotBeHad(tr("no two panels are sewn to each other; sew their sides together"))
    patches = _patches(chain, garment)
    width = np.stack([part.width for part in patches], axis=1)
    length = float(np.mean([part.length for part in patches]))
    radius, drop = _profile(width.sum(axis=1), length, math.tau if chain.closed else OPEN_SWEEP)
    rest = tuple(name for name in project.panel_names if name not in chain.panels)
    places = np.stack([part.places for part in patches], axis=1)
    borders = _borders(chain, width)
    return WornBody(chain.panels, chain.closed, chain.sided, rest, places, borders, width, radius, drop)


def _patches(chain: WornChain, garment: Garment) -> list[Patch]:
    joins: dict[tuple[PanelName, PanelName], list[SeamLine]] = {}
    for line in garment.seams:
        joins.setdefault(line.panels, []).append(line)
    ends = (chain.panels[-1], *chain.panels, chain.panels[0])
    sides = [_sides(pair, joins, garment, chain) for pair in pairwise(ends)]
    return [
        patch(garment.panels[name], before[1], after[0])
        for name, before, after in zip(chain.panels, sides[:-1], sides[1:], strict=True)
    ]


def _sides(
    pair: tuple[PanelName, PanelName],
    joins: dict[tuple[PanelName, PanelName], list[SeamLine]],
    garment: Garment,
    chain: WornChain,
) -> tuple[Floats, Floats]:
    """The right side of one panel and the left side of the next one."""
    around = pair == (chain.panels[-1], chain.panels[0])
    lines = joins.get(pair, []) if chain.closed or not around else []
    if lines:
        return sewn_side(lines, "a"), sewn_side(lines, "b")
    return free_side(garment.panels[pair[0]], left=False), free_side(garment.panels[pair[1]], left=True)


def _borders(chain: WornChain, width: Floats) -> Floats:
    """The angles between panels; the middle of the front hangs plumb, at 0."""
    along = np.concatenate([np.zeros((len(width), 1)), np.cumsum(width, axis=1)], axis=1)
    girth = along[:, -1:]
    middle = (along[:, chain.front] if chain.closed else girth[:, 0]) / 2
    return np.asarray((along - middle[:, None]) / girth * (math.tau if chain.closed else OPEN_SWEEP))


def _profile(girth: Floats, length: float, sweep: float) -> tuple[Floats, Floats]:
    """Radius and drop of every row: as far round as the cloth is wide, as far down the slant as it is long."""
    radius = girth / sweep
    slant, out = np.diff(SHARES) * length, np.diff(radius)
    down = np.sqrt(np.maximum(slant**2 - out**2, (_STEEPEST * slant) ** 2))
    return radius, np.concatenate([[0.0], np.cumsum(down)])
