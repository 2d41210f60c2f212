"""One repeat of the cloth in even light, made from all the repeats that lie where they should."""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.swatch.period import Bands, Fit

Array = npt.NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Profile:
    """Linear light (places, 3) across one repeat `width` px wide, as it is where the picture is lit best.

    `spread` is the standard deviation of one repeat's light about it; `explained` the share, 0 to 1, of all variation
    across the stripes that the repeat accounts for.
    """

    light: Array
    width: float
    spread: float
    explained: float

    @property
    def places(self) -> Array:
        """Middles of the places, px from the repeat's start."""
        return (np.arange(len(self.light)) + 0.5) * self.width / len(self.light)


def profile_of(bands: Bands, fit: Fit) -> Profile:
    """Take the light that falls on the cloth out of every repeat, and average them."""
    surface = _Lighting.of(bands, fit)
    even = fit.cells / np.exp(surface.at_cells(fit))
    level = np.nanmean(even, axis=2, keepdims=True)
    mean = np.nanmean(level[fit.sound], axis=0)
    cells = (even / np.maximum(level, 1e-6) * mean)[fit.sound]
    low, high = np.percentile(cells, (12.5, 87.5), axis=0)
    light = _mean_between(cells, low, high)
    rest = cells - light
    spread = float(np.sqrt((rest**2).mean()))
    variation = light - light.mean(axis=0)
    whole = ~np.isnan(fit.off)
    everything = (even / np.maximum(level, 1e-6) * mean)[whole]
    total = float(((everything - light.mean(axis=0)) ** 2).mean())
    left = float(((everything - light) ** 2).mean())
    explained = max(0.0, 1 - left / total) if (variation**2).mean() > 1e-8 else 0.0
    return Profile(light * np.exp(surface.best(bands)), fit.period, spread, explained)


def _mean_between(cells: Array, low: Array, high: Array) -> Array:
    inside = (cells >= low) & (cells <= high)
    return np.asarray(np.where(inside, cells, 0).sum(axis=0) / np.maximum(inside.sum(axis=0), 1))


@dataclass(frozen=True, eq=False)
class _Lighting:
    """A smooth surface over the picture: the logarithm of the light that falls on the cloth, each channel its own."""

    amounts: Array
    size: tuple[float, float]
    powers: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, bands: Bands, fit: Fit) -> "_Lighting":
        across = min(3, fit.sound.any(axis=0).sum() - 1)
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
        bands, repeats, places, _ = fit.cells.shape
        offset = ((np.arange(places) + 0.5) / places - 0.5) * fit.period
        across = _middles_across(fit)[..., None] + offset
        along = np.broadcast_to(self._rows(bands)[:, None, None], across.shape)
        return np.asarray(self._terms(across, along) @ self.amounts)

    def _rows(self, bands: int) -> Array:
        return np.linspace(-0.5, 0.5, bands) * self.size[1]

    def best(self, bands: Bands) -> Array:
        """(3,) where the light is best, but for the best twentieth."""
        seen = np.isfinite(bands.light[..., 0])
        across = np.broadcast_to(np.arange(seen.shape[1]) + 0.5, seen.shape)[seen]
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
