"""Which panel is seen on each pixel, and where it lies across the stripes of its cloth."""

import math
from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import Way
from core.model.project import Project
from core.seams.stripes import Across
from core.worn.body import WornBody
from core.worn.sight import Floats32, Pixels32, Sight

_COLUMNS = 1024
"""Parts of a turn in which the panel is looked up; where one begins in the part, it is set right after."""


@dataclass(frozen=True, eq=False)
class Places:
    """What is seen on a sight's pixels, all of shape (m,).

    `panel` is a place among the body's panels, -1 where there is none; `w` lies across the stripes, mm; `to_seam` is
    the distance from the nearer side of the panel along the row, mm. `z` lies across the bars, mm; None where no cloth
    has any.
    """

    panel: Pixels32
    w: Floats32
    to_seam: Floats32
    z: Floats32 | None = None


@dataclass(frozen=True, eq=False)
class Stripes:
    """The across-coordinates of a body's panels as a project places them: w = w0 + w1 t + w2 t^2 at share t.

    `rates` has the shape (3, R * n), and so has `bar_rates`, of z across the bars, if there are any; `owner`,
    (R * columns,), tells the panel in parts of a turn from -pi on.
    """

    body: WornBody
    rates: Floats32
    bar_rates: Floats32 | None
    owner: Pixels32
    begin: Floats32
    angle: Floats32
    width: Floats32

    @classmethod
    def of(cls, body: WornBody, project: Project) -> "Stripes":
        """The stripes of a project's placements on its body."""
        begin, owner = body.borders[:, :-1], _owners(body)
        begin = (begin + math.pi) % math.tau - math.pi
        angle = np.maximum(np.diff(body.borders, axis=1), 1e-9)
        flat = (begin, angle, body.width)
        return cls(body, *_both_rates(body, project), owner, *(part.astype(np.float32).ravel() for part in flat))

    def moved(self, project: Project) -> "Stripes":
        """The same body with other placements."""
        return Stripes(self.body, *_both_rates(self.body, project), self.owner, self.begin, self.angle, self.width)

    def seen(self, sight: Sight, turn: float) -> Places:
        """What a sight sees of the body turned by `turn` radians to the left."""
        angle = sight.angle + np.float32(turn % math.tau)
        np.subtract(angle, np.float32(math.tau), out=angle, where=angle >= np.float32(math.pi))
        column = ((angle + np.float32(math.pi)) * np.float32(_COLUMNS / math.tau)).astype(np.int32)
        column &= _COLUMNS - 1
        column += sight.row * np.int32(_COLUMNS)
        panel = self.owner[column]
        share, at = self._share(sight, angle, panel)
        self._set_right(sight, angle, panel, share, at)
        to_seam = np.minimum(share, np.float32(1) - share)
        to_seam *= self.width[at]
        z = None if self.bar_rates is None else _at_share(self.bar_rates, share, at)
        return Places(panel, _at_share(self.rates, share, at), to_seam, z)

    def _share(self, sight: Sight, angle: Floats32, panel: Pixels32) -> tuple[Floats32, Pixels32]:
        at = sight.row * np.int32(len(self.body.panels))
        at += np.maximum(panel, 0)
        share = angle - self.begin[at]
        if self.body.closed:
            for wrong, whole in ((share < np.float32(-math.pi / 2), math.tau), (share >= 1.5 * math.pi, -math.tau)):
                np.add(share, np.float32(whole), out=share, where=wrong)
        share /= self.angle[at]
        return share, at

    def _set_right(self, sight: Sight, angle: Floats32, panel: Pixels32, share: Floats32, at: Pixels32) -> None:
        """Give to the neighbour what lies beyond a panel's side; in the gap of an open body there is no panel."""
        number = len(self.body.panels)
        for beyond, step in ((share < 0, -1), (share > 1, 1)):
            wrong = np.flatnonzero(beyond & (panel >= 0))
            other = panel[wrong] + step
            other = other % number if self.body.closed else np.where((other < 0) | (other >= number), -1, other)
            part = Sight(sight.pixel[wrong], sight.row[wrong], angle[wrong], sight.facing[wrong])
            panel[wrong] = other
            share[wrong], at[wrong] = self._share(part, part.angle, other)
        np.clip(share, 0, 1, out=share)


def _at_share(rates: Floats32, share: Floats32, at: Pixels32) -> Floats32:
    """A coordinate at shares of rows."""
    value: Floats32 = share * rates[2][at]
    value += rates[1][at]
    value *= share
    value += rates[0][at]
    return value


def _both_rates(body: WornBody, project: Project) -> tuple[Floats32, Floats32 | None]:
    """What `across_rates` gives for stripes, and for bars where a cloth has any."""
    barred = any(project.cloth_of(name).crosswise for name in body.panels)
    return across_rates(body, project, "lengthwise"), across_rates(body, project, "crosswise") if barred else None


def across_rates(body: WornBody, project: Project, way: Way) -> Floats32:
    """The coordinate across the stripes of one way, c0, c1 and c2 of every row of every panel; shape (3, R * n).

    A parabola through what it is at both ends of a row and in its middle.
    """
    columns = []
    for index, name in enumerate(body.panels):
        across = Across.of(project.placement(name), project.cloth_of(name), way)
        c0, c1, c2 = np.moveaxis(body.places[:, index], 1, 0)
        first, middle, last = (across(c0 + t * (c1 + t * c2)) for t in (0.0, 0.5, 1.0))
        bend = 2 * first - 4 * middle + 2 * last
        columns.append(np.stack([first, last - first - bend, bend]))
    table: Floats = np.stack(columns, axis=-1)
    return np.ascontiguousarray(table.reshape(3, -1), dtype=np.float32)


def _owners(body: WornBody) -> Pixels32:
    """The panel at the middle of each part of a turn, row by row; -1 in the gap of an open body."""
    middles = np.linspace(-math.pi, math.pi, 2 * _COLUMNS + 1)[None, 1::2]
    first = body.borders[:, :1]
    inside = (middles - first) % math.tau + first if body.closed else middles
    owners = np.full(inside.shape, -1, np.int32)
    for border in body.borders.T[:-1]:
        owners += inside >= border[:, None]
    return np.where(inside < body.borders[:, -1:], owners, len(body.panels) - 1 if body.closed else -1).ravel()
