"""Which way the stripes run in a picture."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt
from scipy.ndimage import affine_transform

from core.swatch.scale import View

Array = npt.NDArray[np.float64]

DARKEST = 0.01
"""Added to light before its logarithm is taken, so that black stays finite."""
_PIXELS = 250_000
_TRIALS = 13
_STANDS_OUT, _LEAST_SWING = 1000.0, 0.02
"""What crosses stripes has so many times the power that is usual in its sector, and swings by so much in log light."""


@dataclass(frozen=True)
class Direction:
    """A direction of stripes: how they lean from upright in the view, clockwise, rad; `share` of the variation seen."""

    angle: float
    share: float


def upright_range(angle: float) -> float:
    """The same direction between -45 (excluded) and 135 degrees, rad.

    Stripes within 45 degrees of upright are read from left to right, others from top to bottom.
    """
    return math.pi - (3 * math.pi / 4 - angle) % math.pi - math.pi / 4


def find_directions(view: View, most: int = 3) -> tuple[Direction, ...]:
    """Directions in which the picture looks striped, the most striped first."""
    value, seen = _one_channel(*_small(view))
    found = [_refined(value, seen, angle, repeats) for angle, repeats in _peaks(_spectrum(value, seen), most)]
    return tuple(sorted(found, key=lambda direction: -direction.share))


def crossing_direction(view: View, angle: float, reach: float) -> Direction | None:
    """The direction, square to one but for `reach`, rad, in which the picture looks striped; None if in none."""
    value, seen = _one_channel(*_small(view))
    value = _without_stripes(value, seen, angle)
    spectrum = _spectrum(value, seen)
    off = (spectrum.angles - angle) % math.pi - math.pi / 2
    spectrum.power[np.abs(off) > reach] = 0
    usual = float(np.median(spectrum.power[spectrum.power > 0])) if spectrum.power.any() else 0.0
    if spectrum.power.max() <= max(_STANDS_OUT * usual, (_LEAST_SWING * spectrum.window / 2) ** 2):
        return None
    return next((_refined(value, seen, *peak) for peak in _peaks(spectrum, 1)), None)


def _without_stripes(value: Array, seen: npt.NDArray[np.bool_], angle: float) -> Array:
    """What is left when everything along each line of a direction is made alike; 0 where no cloth is seen."""
    y, x = np.nonzero(seen)
    across = x * math.cos(angle) + y * math.sin(angle)
    place = across - across.min()
    line = place.astype(np.intp)
    count = np.maximum(np.bincount(line), 1)
    middle = np.bincount(line, place) / count
    mean = np.bincount(line, value[seen]) / count
    out = np.zeros_like(value)
    out[seen] = value[seen] - np.interp(place, middle, mean)
    return out


def _small(view: View) -> tuple[Array, npt.NDArray[np.bool_]]:
    """Block means of the view's log light, at most `_PIXELS` of them."""
    height, width = view.seen.shape
    block = max(1, math.ceil(math.sqrt(height * width / _PIXELS)))
    rows, columns = height // block, width // block
    cut = view.light[: rows * block, : columns * block]
    light = cut.reshape(rows, block, columns, block, 3).mean(axis=(1, 3), dtype=float)
    seen = view.seen[: rows * block, : columns * block].reshape(rows, block, columns, block).all(axis=(1, 3))
    return np.log(light + DARKEST), np.asarray(seen)


def _one_channel(value: Array, seen: npt.NDArray[np.bool_]) -> tuple[Array, npt.NDArray[np.bool_]]:
    """The mix of the three channels that varies most, without what changes slowly; 0 where no cloth is seen."""
    rows, columns = seen.shape
    y, x = np.mgrid[-1 : 1 : rows * 1j, -1 : 1 : columns * 1j]
    slow = np.stack([np.ones_like(x), x, y, x * x, x * y, y * y], axis=-1)
    amounts, *_ = np.linalg.lstsq(slow[seen], value[seen], rcond=None)
    rest = (value - slow @ amounts) * seen[..., None]
    flat = rest[seen]
    mix = np.linalg.eigh(flat.T @ flat)[1][:, -1]
    return rest @ mix, seen


@dataclass(frozen=True, eq=False)
class _Spectrum:
    """Power of regular patterns, their angles, rad, and how often they repeat across the picture, all of one shape.

    `window` is the sum of what each pixel counts: a wave that swings by a has the power (a window / 2) squared.
    """

    power: Array
    angles: Array
    repeats: Array
    window: float


def _spectrum(value: Array, seen: npt.NDArray[np.bool_]) -> _Spectrum:
    rows, columns = value.shape
    window = np.outer(np.hanning(rows), np.hanning(columns)) * seen
    power = np.abs(np.fft.rfft2(value * window)) ** 2
    fy, fx = np.meshgrid(np.fft.fftfreq(rows), np.fft.rfftfreq(columns), indexing="ij")
    repeats = np.hypot(fx * columns, fy * rows)
    power[(repeats < 1.8) | (np.hypot(fx, fy) > 0.3)] = 0
    return _Spectrum(power, np.arctan2(fy, fx), repeats, float(window.sum()))


def _peaks(spectrum: _Spectrum, most: int) -> list[tuple[float, float]]:
    """(angle, repeats across the picture) of the strongest regular patterns, at least 4 degrees apart."""
    power, angles, repeats = spectrum.power, spectrum.angles, spectrum.repeats
    found: list[tuple[float, float]] = []
    for _ in range(most):
        at = np.unravel_index(int(np.argmax(power)), power.shape)
        if power[at] <= 0:
            break
        found.append((float(angles[at]), float(repeats[at])))
        apart = np.abs((angles - angles[at] + math.pi / 2) % math.pi - math.pi / 2)
        power[apart < max(math.radians(4), 1.5 / repeats[at])] = 0
    return found


def _refined(value: Array, seen: npt.NDArray[np.bool_], angle: float, repeats: float) -> Direction:
    """The angle near a first one at which the profile across the stripes varies most."""
    y, x = np.nonzero(seen)
    data = value[seen]
    centre = (x.mean(), y.mean())
    x, y = x - centre[0], y - centre[1]
    length, half_range, share = float(np.hypot(np.ptp(x), np.ptp(y))), min(0.8 / repeats, math.radians(20)), 0.0
    while True:
        step = 2 * half_range / (_TRIALS - 1)
        trials = angle + np.linspace(-half_range, half_range, _TRIALS)
        shares = [_share(data, x * math.cos(t) + y * math.sin(t), max(1.0, step * length / 2)) for t in trials]
        best = int(np.argmax(shares))
        angle, share = float(trials[best]), float(shares[best])
        if step * length < 0.5:
            return Direction(upright_range(angle), share)
        half_range = 2 * step


def _share(data: Array, across: Array, bin_px: float) -> float:
    """Share of the variation that is left when everything along one line across is averaged."""
    bins = np.floor((across - across.min()) / bin_px).astype(np.intp)
    count = np.bincount(bins)
    total = np.bincount(bins, weights=data)
    mean = total / np.maximum(count, 1)
    noise = (len(count) - 1) * float(data.var()) / len(data)
    between = float((count * (mean - data.mean()) ** 2).sum()) / len(data)
    return (between - noise) / float(data.var() + 1e-12)


@dataclass(frozen=True, eq=False)
class Upright:
    """The view turned so that its stripes run down: light (rows along, columns across, 3); NaN where no cloth is seen.

    A place (across, along), px, lies in the view at `origin + across * n + along * t`, where n = (cos a, sin a) and
    t = (-sin a, cos a).
    """

    light: npt.NDArray[np.float32]
    angle: float
    origin: tuple[float, float]

    def place_of(self, x: Array, y: Array) -> tuple[Array, Array]:
        """(across, along), px, of places of the view."""
        cos, sin = math.cos(self.angle), math.sin(self.angle)
        x, y = x - self.origin[0], y - self.origin[1]
        return x * cos + y * sin, y * cos - x * sin


def turned_upright(view: View, angle: float) -> Upright:
    """Turn a view so that stripes leaning by `angle`, rad, run down."""
    height, width = view.seen.shape
    cos, sin = math.cos(angle), math.sin(angle)
    corners = np.array([(x * cos + y * sin, -x * sin + y * cos) for x in (0, width) for y in (0, height)])
    low, size = corners.min(axis=0), np.ceil(np.ptp(corners, axis=0)).astype(int)
    turn = np.array([[cos, sin], [-sin, cos]])
    start = turn @ np.array([low[1] + 0.5, low[0] + 0.5]) - 0.5
    light = np.where(view.seen[..., None], view.light, np.float32(np.nan))
    channels = [
        affine_transform(light[..., channel], turn, start, (size[1], size[0]), order=1, cval=np.nan, output=np.float32)
        for channel in range(3)
    ]
    origin = (float(low[0] * cos - low[1] * sin), float(low[0] * sin + low[1] * cos))
    return Upright(np.stack(channels, axis=-1), angle, origin)
