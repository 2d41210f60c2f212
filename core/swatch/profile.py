"""One repeat of the cloth in even light, made from all the repeats that lie where they should."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.swatch.direction import Upright
from core.swatch.flat import Flat
from core.swatch.period import Bands, Fit
from core.swatch.scale import View

Array = npt.NDArray[np.float64]

PLACES_PER_PX = 4
MOST_PIXELS = 2_000_000
"""Of a view with more pixels, only every second, third… row is averaged."""


@dataclass(frozen=True, eq=False)
class Profile:
    """Linear light (n, 3) at `places` (n,) px, ascending, across one repeat of `width` px, lit as the best part is.

    `weight` (n,) is how surely each is known, 1 on the average; `explained` the share, 0 to 1, of all that varies
    across the stripes that the repeat accounts for.
    """

    light: Array
    places: Array
    weight: Array
    width: float
    explained: float

    def evenly(self, number: int) -> Array:
        """Light (number, 3) at places evenly spaced, the first half a space from the start."""
        at = (np.arange(number) + 0.5) * self.width / number
        return np.stack([np.interp(at, self.places, channel, period=self.width) for channel in self.light.T], axis=-1)


def profile_of(view: View, upright: Upright, flat: Flat, fit: Fit) -> Profile:
    """Take the light that falls on the cloth out of every repeat, and average the pixels of the view."""
    bands = flat.bands
    lighting = _Lighting.of(bands, fit)
    smooth = np.exp(lighting.at_cells(fit))
    level = (fit.cells / smooth).mean(axis=2, keepdims=True)
    mean = level[fit.sound].mean(axis=0)
    gain = smooth * np.maximum(level, 1e-6) / mean
    phase, light, weight = _averaged(view, upright, flat, fit, gain)
    light = light * np.exp(lighting.best(bands, fit))
    return Profile(light, phase * fit.period, weight / weight.mean(), fit.period, _explained(fit, fit.cells / gain))


def _settled(sound: npt.NDArray[np.bool_]) -> npt.NDArray[np.bool_]:
    """The sound cells whose neighbours along the stripes are sound too, if enough of them are left."""
    from scipy.ndimage import binary_erosion

    inner = binary_erosion(sound, np.ones((3, 1)), border_value=1)
    return inner if inner.sum() >= max(4, 0.3 * sound.sum()) else sound


def _explained(fit: Fit, even: Array) -> float:
    """Share of what varies in all whole cells, in even light, that is the same in all sound ones."""
    pattern = even[fit.sound].mean(axis=0)
    everything = even[np.isfinite(fit.off)]
    total = float(((everything - pattern.mean(axis=0)) ** 2).mean())
    left = float(((everything - pattern) ** 2).mean())
    return max(0.0, 1 - left / total) if total > 1e-8 else 0.0


def _averaged(view: View, upright: Upright, flat: Flat, fit: Fit, gain: Array) -> tuple[Array, Array, Array]:
    """Phases, mean light and numbers of the pixels of all sound repeats: nothing is interpolated, nothing softened."""
    skip = max(1, round(view.seen.size / MOST_PIXELS))
    y, x = np.nonzero(view.seen[::skip])
    light = view.light[::skip][y, x]
    across, along = upright.place_of(x.astype(float) + 0.5, skip * y.astype(float) + 0.5)
    across, clear = flat.places(across, along)
    bands = flat.bands
    band = np.searchsorted(bands.rows[:, 0], along, side="right") - 1
    position = (across - fit.start - fit.lean * (along - bands.middles.mean())) / fit.period - fit.first
    repeat = np.floor(position).astype(np.intp)
    known = clear & (band >= 0) & (along < bands.rows[band, 1]) & (repeat >= 0) & (repeat < fit.sound.shape[1])
    known[known] = _settled(fit.sound)[band[known], repeat[known]]
    band, repeat, position, light = band[known], repeat[known], position[known], light[known]
    part = ((position - repeat) * gain.shape[2]).astype(np.intp)
    light = light / gain[band, repeat, np.minimum(part, gain.shape[2] - 1)]
    phase = (position - fit.off[band, repeat] / fit.period) % 1.0
    return _binned(phase, light, max(8, math.ceil(PLACES_PER_PX * fit.period)))


def _binned(phase: Array, light: Array, places: int) -> tuple[Array, Array, Array]:
    """Means (n,), (n, 3) of phase and light, 0 to 1, by phase; and how many pixels (n,) they are of."""
    bins = np.minimum((phase * places).astype(np.intp), places - 1)
    count = np.bincount(bins, minlength=places)
    full = np.nonzero(count)[0]
    means = [np.bincount(bins, values, places)[full] / count[full] for values in (phase, *light.T)]
    return means[0], np.stack(means[1:], axis=-1), count[full].astype(float)


@dataclass(frozen=True, eq=False)
class _Lighting:
    """A smooth surface over the picture: the logarithm of the light that falls on the cloth, each channel its own."""

    amounts: Array
    size: tuple[float, float]
    powers: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, bands: Bands, fit: Fit) -> "_Lighting":
        across = min(3, fit.sound.any(axis=0).sum() // 2)
        along = min(3, fit.sound.any(axis=1).sum() - 1)
        powers = tuple((i, j) for i in range(across + 1) for j in range(along + 1) if i + j <= 3)
        size = (float(bands.light.shape[1]), float(np.ptp(bands.middles)) or 1.0)
        blank = cls(np.zeros((len(powers), 3)), size, powers)
        terms = blank._terms(_middles_across(fit)[fit.sound], _along(bands, fit)[fit.sound])
        gains = np.log(np.maximum(fit.cells.mean(axis=2)[fit.sound], 1e-4))
        return cls(np.linalg.lstsq(terms, gains - gains.mean(axis=0), rcond=None)[0], size, powers)

    def _terms(self, across: Array, along: Array) -> Array:
        x, y = across / self.size[0] * 2 - 1, along / self.size[1] * 2
        return np.stack([x**i * y**j for i, j in self.powers], axis=-1)

    def at_cells(self, fit: Fit) -> Array:
        """At every place of every cell (bands, repeats, places, 3)."""
        bands, _, places, _ = fit.cells.shape
        offset = ((np.arange(places) + 0.5) / places - 0.5) * fit.period
        across = _middles_across(fit)[..., None] + offset
        along = np.broadcast_to(self._rows(bands)[:, None, None], across.shape)
        return np.asarray(self._terms(across, along) @ self.amounts)

    def _rows(self, bands: int) -> Array:
        return np.linspace(-0.5, 0.5, bands) * self.size[1]

    def best(self, bands: Bands, fit: Fit) -> Array:
        """(3,) where the light is best, but for the best twentieth; not beyond the middles of the outer repeats."""
        seen = np.isfinite(bands.light[..., 0])
        across = np.broadcast_to(np.arange(seen.shape[1]) + 0.5, seen.shape)[seen]
        middles = _middles_across(fit)[fit.sound]
        across = np.clip(across, middles.min(), middles.max())
        along = np.broadcast_to(self._rows(len(seen))[:, None], seen.shape)[seen]
        values = self._terms(across, along) @ self.amounts
        total = values.sum(axis=1)
        return np.asarray(values[total >= np.percentile(total, 95)].mean(axis=0))


def _middles_across(fit: Fit) -> Array:
    """Across-places (bands, repeats), px, of the cells' middles; the lean is too small to count."""
    repeats = np.arange(fit.cells.shape[1]) + fit.first + 0.5
    return np.broadcast_to(fit.start + repeats * fit.period, fit.cells.shape[:2])


def _along(bands: Bands, fit: Fit) -> Array:
    return np.broadcast_to((bands.middles - bands.middles.mean())[:, None], fit.cells.shape[:2])
