"""Whether every second, third… repeat differs a little from the others, and the true one is so much longer."""

import math

import numpy as np
import numpy.typing as npt

from core.swatch.period import Fit, levelled_cells

Array = npt.NDArray[np.float64]
Truths = npt.NDArray[np.bool_]

_FEWEST = 4
"""Of fewer repeats nobody can say that every second differs."""
_LEAST_UNLIKE, _ASIDE_PX = 0.08, 0.6
"""Repeats that differ less in log light, or as if one lay so many px aside, are one."""


def true_multiple(fit: Fit) -> int:
    """How many of the periods make one repeat: 1, unless every second, third… one differs (a fine line, say)."""
    lines, noise = _lines_of(fit)
    seen = np.isfinite(lines[:, 0, 0])
    if seen.sum() < _FEWEST:
        return 1
    per_px = fit.cells.shape[2] / fit.period
    pattern = np.median(lines[seen], axis=0)
    slope = np.abs(np.roll(pattern, -1, axis=0) - np.roll(pattern, 1, axis=0)) / 2 * per_px
    least = np.maximum(_ASIDE_PX * slope, _LEAST_UNLIKE)
    for times in range(2, min(8, len(seen) // 2) + 1):
        if _differ(lines, seen, times, noise, least, max(3, round(1.5 * per_px))):
            return times
    return 1


def _lines_of(fit: Fit) -> tuple[Array, Array]:
    """Each repeat (repeats, places, 3), levelled, over the bands in which it is sound, and how surely it is known."""
    from scipy.ndimage import gaussian_filter1d

    value = gaussian_filter1d(levelled_cells(fit.cells), 1.0, axis=2, mode="wrap")
    lines, noise = np.full(value.shape[1:], np.nan), []
    shift = np.nan_to_num(fit.off) / fit.period * value.shape[2]
    for repeat in np.flatnonzero(fit.sound.sum(axis=0) >= max(2, len(fit.sound) / 4)):
        sound = np.flatnonzero(fit.sound[:, repeat])
        mine = np.stack([np.roll(value[band, repeat], -round(shift[band, repeat]), axis=0) for band in sound])
        lines[repeat] = np.median(mine, axis=0)
        noise.append(_spread(mine) / math.sqrt(len(sound)))
    return lines, np.median(noise, axis=0) if noise else np.zeros(lines.shape[1:])


def _differ(lines: Array, seen: Truths, times: int, noise: Array, least: Array, width: int) -> bool:
    """Whether all repeats of one class modulo `times` differ alike from the others, by more than those scatter."""
    from scipy.ndimage import uniform_filter1d

    number = np.arange(len(lines))
    for rest in range(times):
        one, other = (lines[seen & mine] for mine in (number % times == rest, number % times != rest))
        if len(one) < 2 or len(other) < 2:
            continue
        apart = one - np.median(other, axis=0)
        enough = np.maximum(5 * np.hypot(noise, _spread(other)), least)
        clear = ((apart > enough).all(axis=0) | (apart < -enough).all(axis=0)).any(axis=1)
        if (uniform_filter1d(clear.astype(float), width, mode="wrap") > 0.999).any():
            return True
    return False


def _spread(lines: Array) -> Array:
    return np.asarray(1.4826 * np.median(np.abs(lines - np.median(lines, axis=0)), axis=0))
