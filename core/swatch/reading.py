"""Everything measured of stripes that run one way through a view, before colours are told apart."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.swatch.direction import Direction, Upright, find_directions, turned_upright, upright_range
from core.swatch.flat import Flat, pulled_flat
from core.swatch.multiple import true_multiple
from core.swatch.period import Fit, bands_of, first_period, fit_repeats
from core.swatch.profile import Profile, profile_of
from core.swatch.scale import View, mapped
from core.wording import tr

Array = npt.NDArray[np.float64]

LEAST_EXPLAINED = 0.5
"""What a repeat must at least account for, of all that varies across the stripes."""
_SURELY_APART = 0.0002
_JUMP_IN_PERIOD = 1.5
"""What an error of a jump in the middle of the picture adds to the width, times the number of repeats."""


@dataclass(frozen=True, eq=False)
class Reading:
    """Stripes of one direction: the view turned, its folds, all repeats fitted, one in even light.

    `times` shorter periods, alike but for small things, make the repeat.
    """

    upright: Upright
    flat: Flat
    fit: Fit
    profile: Profile
    times: int

    @property
    def period_sd(self) -> float:
        """Standard deviation, px, of the repeat's width, with what the jumps at folds add to it."""
        jumps = sum(fold.hidden_sd**2 for fold in self.flat.folds)
        return math.hypot(self.fit.period_sd, _JUMP_IN_PERIOD * math.sqrt(jumps) / self.fit.cells.shape[1])

    @property
    def astray(self) -> float:
        """Share of the places measured that were left out."""
        return 1 - float(self.fit.sound.sum()) / float(np.isfinite(self.fit.off).sum())

    @property
    def repeats(self) -> float:
        """How many are in view."""
        return float(np.isfinite(self.flat.bands.light[..., 0]).any(axis=0).sum()) / self.fit.period

    @property
    def angle(self) -> float:
        """How the stripes lean from upright in the view, clockwise, rad."""
        return upright_range(self.upright.angle - math.atan(self.fit.lean))

    def phases(self, x: Array, y: Array) -> Array:
        """How far into a repeat places of the view, px, lie, as a share of it from 0 to below 1."""
        across, along = self.upright.place_of(x, y)
        across, _ = self.flat.places(across, along)
        off = across - self.fit.start - self.fit.lean * (along - self.flat.bands.middles.mean())
        return np.asarray((off / self.fit.period) % 1.0)

    def starts(self, view: View, start_px: float) -> Array:
        """Ends (k, 2, 2), px of the file, of the lines that lie `start_px` into every repeat, from side to side."""
        fit, upright = self.fit, self.upright
        rows = upright.light.shape[0]
        middle = float(self.flat.bands.middles.mean())
        across = fit.start + start_px + (np.arange(-1, fit.cells.shape[1] + 1) + fit.first) * fit.period
        cos, sin = math.cos(upright.angle), math.sin(upright.angle)
        ends = []
        for along in (0.0, float(rows)):
            w = across + fit.lean * (along - middle)
            w = self.flat.places_seen(w, np.full_like(w, along))
            x = upright.origin[0] + w * cos - along * sin
            y = upright.origin[1] + w * sin + along * cos
            ends.append(mapped(view.to_file, np.column_stack([x, y])))
        return np.stack(ends, axis=1)


def best_reading(view: View) -> Reading:
    """The stripes of the first of the directions found in which the picture repeats itself.

    Raises BadInput if there are none.
    """
    error: BadInput | None = None
    for direction in find_directions(view):
        try:
            reading = read_direction(view, direction)
        except BadInput as refused:
            error = error or refused
            continue
        if reading.profile.explained >= LEAST_EXPLAINED:
            return reading
    raise error or BadInput(
        tr("the picture is patterned, but no stripes go through it"),
        "swatch",
        tr("a flat piece of striped cloth, seen square on, is right"),
    )


def read_direction(view: View, direction: Direction) -> Reading:
    """Measure the stripes of one direction. Raises BadInput if nothing repeats itself across it."""
    upright = turned_upright(view, direction.angle)
    bands = bands_of(upright)
    flat = pulled_flat(bands, first_period(bands))
    fit = _fit(flat, 1)
    times = true_multiple(fit)
    if times > 1:
        fit = _fit(flat, times)
    return Reading(upright, flat, fit, profile_of(view, upright, flat, fit), times)


def _fit(flat: Flat, times: int) -> Fit:
    """All repeats fitted; where edges one repeat apart say otherwise, they are believed: folds move them least."""
    fit = fit_repeats(flat.bands, times * flat.period)
    off = abs(fit.period - times * flat.period)
    if off <= times * (3 * math.hypot(flat.period_sd, fit.period_sd) + _SURELY_APART * flat.period):
        return fit
    held = fit_repeats(flat.bands, times * flat.period, held=True)
    return replace(held, period_sd=max(times * flat.period_sd, off / 2))
