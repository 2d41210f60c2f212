"""The period of the stripes: first by autocorrelation, then from every repeat in view."""

import itertools
import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.swatch.direction import DARKEST, Upright
from core.wording import later, tr

Array = npt.NDArray[np.float64]
Truths = npt.NDArray[np.bool_]

MOST_BANDS = 24
LEAST_PERIOD_PX = 6.0
LEAST_ALIKE = 0.45
"""Least autocorrelation of what is taken for a repeat."""
_NEARLY = 0.85
_BANDS_THAT_COUNT = 4
_PIXEL_ERROR = 0.007
"""Standard deviation, px, of where a repeat is found, that has nothing to do with the cloth; as made pictures show."""
_PIXEL_DRIFT = 0.03
"""The same, px, of the distance from the first repeat in view to the last: where edges meet pixels changes slowly."""
_TOO_FINE = later("photograph it closer, or scan it finer")


@dataclass(frozen=True, eq=False)
class Bands:
    """The picture cut into bands across the stripes: mean light (n, columns, 3), NaN where unseen; rows (n, 2)."""

    light: Array
    rows: Array

    @property
    def middles(self) -> Array:
        """Middles (n,), px along."""
        return np.asarray(self.rows.mean(axis=1))


def bands_of(upright: Upright) -> Bands:
    """Means down each column of every band; a column counts where half as much of it is seen as of others there."""
    rows = upright.light.shape[0]
    number = int(np.clip(rows // 20, 2, MOST_BANDS))
    cuts = np.linspace(0, rows, number + 1).astype(int)
    means = []
    for start, end in itertools.pairwise(cuts):
        part = upright.light[start:end]
        seen = np.isfinite(part[..., 0])
        count = seen.sum(axis=0)
        total = np.where(seen[..., None], part, 0).sum(axis=0, dtype=float)
        enough = count >= max(1, (end - start) / 8, int(count.max()) / 2)
        means.append(np.where(enough[:, None], total / np.maximum(count, 1)[:, None], np.nan))
    light = np.stack(means)
    used = np.isfinite(light[..., 0]).sum(axis=1) > light.shape[1] / 4
    return Bands(light[used], np.column_stack([cuts[:-1], cuts[1:]]).astype(float)[used])


def first_period(bands: Bands) -> float:
    """The shortest shift, px, after which the picture is like itself again.

    Raises BadInput if there is none with at least two repeats in view.
    """
    alike = _autocorrelation(_levelled(np.log(bands.light + DARKEST)))
    start = int(np.argmax(alike < 0.2))
    end = len(alike) // 2 + 2
    if start == 0 or start + 2 >= end:
        raise _none_found()
    best = start + int(np.argmax(alike[start:end]))
    if alike[best] < LEAST_ALIKE:
        raise _none_found()
    shortest = best
    for parts in range(2, best // 4 + 1):
        lag = _peak_near(alike, best / parts, max(2.0, 0.03 * best / parts))
        if lag > start and alike[lag] > _NEARLY * alike[best]:
            shortest = lag
    return _sharpened(alike, shortest)


def _none_found() -> BadInput:
    right = tr("a flat piece of cloth, seen square on, with at least two, better five or more repeats in view is right")
    return BadInput(tr("no stripes that repeat are seen in the picture"), "swatch", right)


def _levelled(value: Array) -> Array:
    """Every band without its slow change across, a parabola; NaN becomes 0 in all channels."""
    out = np.zeros_like(value)
    x = np.linspace(-1, 1, value.shape[1])
    for band, line in enumerate(value):
        seen = np.isfinite(line[:, 0])
        slow = np.vander(x[seen], 3)
        out[band, seen] = line[seen] - slow @ np.linalg.lstsq(slow, line[seen], rcond=None)[0]
    return out


def _autocorrelation(value: Array) -> Array:
    """Likeness (lags) of a set of lines with themselves, shifted: 1 is the same, 0 unrelated."""
    seen = (value != 0).any(axis=-1, keepdims=True).astype(float)
    columns = value.shape[1]
    size = 2 * columns

    def spectrum(lines: Array) -> npt.NDArray[np.complex128]:
        return np.fft.rfft(lines, size, axis=1)

    whole, power, mask = spectrum(value), spectrum(value**2), spectrum(seen)
    product = np.fft.irfft((whole * whole.conj()).sum(axis=(0, 2)), size)[:columns]
    energy = np.fft.irfft((power * mask.conj() + mask * power.conj()).sum(axis=(0, 2)), size)[:columns]
    return np.asarray(2 * product / np.maximum(energy, 1e-9 * energy[0] + 1e-12))


def _peak_near(alike: Array, lag: float, reach: float) -> int:
    low, high = max(0, math.floor(lag - reach)), min(len(alike), math.ceil(lag + reach) + 1)
    return low + int(np.argmax(alike[low:high]))


def _sharpened(alike: Array, lag: int) -> float:
    """The period from the furthest multiple of it that is still within view."""
    period, times = lag + _vertex(alike, lag), 1
    reach = min(2.5, 0.3 * period)
    while 2 * times * period < 0.7 * len(alike):
        times *= 2
        at = _peak_near(alike, times * period, reach)
        period = (at + _vertex(alike, at)) / times
    return period


def _vertex(values: Array, at: int) -> float:
    """Where between the places the parabola through three values is highest, from -0.5 to 0.5."""
    if not 0 < at < len(values) - 1:
        return 0.0
    before, here, after = values[at - 1 : at + 2]
    bend = before - 2 * here + after
    return float(np.clip((before - after) / (2 * bend), -0.5, 0.5)) if bend < 0 else 0.0


@dataclass(frozen=True, eq=False)
class Fit:
    """Repeats all over the picture, brought onto one: repeat j of band b starts at `start + j * period + lean * v_b`.

    Lengths px of the upright picture, `v_b` the band's middle from their mean. `cells` (bands, repeats, places, 3) is
    their light, NaN where unseen; `off` (bands, repeats) how far each lies from where it should; `sound` which of them
    lie where they should.
    """

    period: float
    start: float
    lean: float
    period_sd: float
    cells: Array
    off: Array
    sound: Truths
    first: int


def fit_repeats(bands: Bands, period: float, held: bool = False) -> Fit:
    """Fit period, start and lean to all repeats in view, leaving out those that folds or other things displace.

    `held`: the period is known, and stays. Raises BadInput if fewer than two repeats are whole.
    """
    seen = np.flatnonzero(np.isfinite(bands.light[..., 0]).mean(axis=0) > 0.5)
    room = float(np.ptp(seen)) if len(seen) else 0.0
    fit = _cut(bands, period, float(seen.min(initial=0)) + 0.5 + room % period / 2, 0.0)
    for _ in range(6):
        before = fit.period, fit.start, fit.lean
        fit = _improved(bands, fit, held)
        moved = np.abs(np.subtract((fit.period, fit.start, fit.lean), before)) * (
            fit.cells.shape[1],
            1,
            np.ptp(bands.middles),
        )
        if moved.max() < 1e-3:
            break
    return fit


def _cut(bands: Bands, period: float, start: float, lean: float) -> Fit:
    """The cells at a period, start and lean, nothing fitted yet."""
    if period < LEAST_PERIOD_PX:
        raise BadInput(tr("one repeat is only {period:.1f} pixels wide", period=period), "swatch", tr(_TOO_FINE))
    columns, places = bands.light.shape[1], 2 * math.ceil(period)
    lean_at = lean * (bands.middles - bands.middles.mean())
    first = math.floor((-start - float(lean_at.max())) / period)
    last = math.ceil((columns - start - float(lean_at.min())) / period)
    number = last - first
    phase = (np.arange(number * places) + 0.5) / places * period + start + first * period
    cells = np.stack(
        [read_line(line, phase + shift) for line, shift in zip(bands.light, lean_at, strict=True)]
    ).reshape(len(bands.light), number, places, 3)
    whole: npt.NDArray[np.bool_] = np.isfinite(cells.mean(axis=(2, 3), dtype=float))
    used = np.flatnonzero(whole.sum(axis=0))
    if len(used) < 2:
        raise _none_found()
    low, high = int(used[0]), int(used[-1]) + 1
    off = np.where(whole[:, low:high], 0.0, np.nan)
    return Fit(period, start, lean, math.nan, cells[:, low:high], off, whole[:, low:high], first + low)


def read_line(line: Array, at: Array) -> Array:
    """A line (columns, 3) of pixels at places px, between their middles by straight lines."""
    position = at - 0.5
    whole = np.floor(position).astype(int)
    inside = (whole >= 0) & (whole < len(line) - 1)
    left = np.clip(whole, 0, len(line) - 2)
    part = (position - whole)[:, None]
    value = line[left] * (1 - part) + line[left + 1] * part
    return np.where(inside[:, None], value, np.nan)


def levelled_cells(cells: Array) -> Array:
    """The logarithm of the cells' light, each less its mean: the light that falls on it drops out."""
    value = np.log(np.maximum(cells, 0) + DARKEST)
    return np.asarray(value - value.mean(axis=2, keepdims=True))


def _improved(bands: Bands, fit: Fit, held: bool) -> Fit:
    value = levelled_cells(fit.cells)
    pattern = np.median(value[fit.sound], axis=0)
    off = _offsets(value, pattern, fit.period)
    repeat, band = np.arange(off.shape[1]) + fit.first, bands.middles - bands.middles.mean()
    known = np.isfinite(off)
    terms = np.stack(
        [np.ones_like(off), np.broadcast_to(repeat * (not held), off.shape), np.broadcast_to(band[:, None], off.shape)],
        axis=-1,
    )
    amounts, rest = _robust(terms[known], off[known])
    spread = 1.4826 * float(np.median(np.abs(rest)))
    reach = max(3.5 * spread, 0.25)
    cut = _cut(bands, fit.period + amounts[1], fit.start + amounts[0], fit.lean + amounts[2])
    left = np.full(off.shape, np.nan)
    left[known] = rest
    return _with_soundness(cut, fit, left, reach)


def _with_soundness(cut: Fit, before: Fit, left: Array, reach: float) -> Fit:
    """The newly cut cells with what is known of them from the ones before: offsets, soundness, the period's spread."""
    shift = cut.first - before.first
    off: Array = np.full_like(cut.off, np.nan)
    for column in range(off.shape[1]):
        if 0 <= column + shift < left.shape[1]:
            off[:, column] = left[:, column + shift]
    off[np.isnan(cut.off)] = np.nan
    sound = np.asarray(np.abs(np.nan_to_num(off, nan=np.inf)) <= reach)
    if sound.sum() < 2:
        sound = np.isfinite(cut.off)
    return replace(cut, off=off, sound=sound, period_sd=_period_sd(off, sound))


def _period_sd(off: Array, sound: Truths) -> float:
    """Standard deviation, px, of the period, from how far the sound repeats lie from where they should.

    Bands share the cloth's own waviness: their mean is one reading of each repeat, no surer than the mean of
    `_BANDS_THAT_COUNT`. Pixels add an error of their own.
    """
    used = [j for j in range(off.shape[1]) if sound[:, j].any()]
    means = np.array([off[sound[:, j], j].mean() for j in used])
    within = off - off.mean(axis=0, where=sound, keepdims=True) if len(used) == off.shape[1] else off
    bands = min(_BANDS_THAT_COUNT, int(sound.sum(axis=0).max()))
    variance = float(within[sound].var()) / bands
    if len(used) > 2:
        variance = max(variance, float((means**2).sum()) / (len(used) - 2))
    lever = float(np.var(used)) * len(used)
    return math.hypot(math.sqrt((variance + _PIXEL_ERROR**2) / max(lever, 0.25)), _PIXEL_DRIFT / (np.ptp(used) + 1))


def _offsets(value: Array, pattern: Array, period: float) -> Array:
    """How far (bands, repeats) each cell's stripes lie to the right of the pattern's, px; NaN where unseen."""
    places = pattern.shape[0]
    whole = np.isfinite(value).all(axis=(2, 3))
    product = np.fft.rfft(np.nan_to_num(value), axis=2) * np.fft.rfft(pattern, axis=0).conj()
    alike = np.fft.irfft(product.sum(axis=3), places, axis=2)
    reach = max(2, places // 4)
    lags = np.arange(-reach, reach + 1)
    near = alike[:, :, lags]
    best = np.argmax(near, axis=2)
    out = np.full(whole.shape, np.nan)
    for band, repeat in zip(*np.nonzero(whole), strict=True):
        line, at = near[band, repeat], int(best[band, repeat])
        if 0 < at < len(line) - 1:
            out[band, repeat] = (lags[at] + _vertex(line, at)) * period / places
    return out


def _robust(terms: Array, values: Array) -> tuple[Array, Array]:
    """Amounts of the terms that fit the values, and what is left: least sum, then Tukey's biweight."""
    weight: Array = np.ones(len(values))
    amounts, rest = np.zeros(terms.shape[1]), values
    for turn in range(24):
        root = np.sqrt(weight)[:, None]
        amounts = np.asarray(np.linalg.lstsq(terms * root, values * root[:, 0], rcond=None)[0], dtype=float)
        rest = values - terms @ amounts
        if turn < 12:
            weight = 1 / np.maximum(np.abs(rest), 0.02)
            continue
        reach = 4.685 * max(1.4826 * float(np.median(np.abs(rest))), 0.02)
        weight = np.clip(1 - (rest / reach) ** 2, 0, None) ** 2
    return amounts, rest
