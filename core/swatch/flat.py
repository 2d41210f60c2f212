"""The picture as if its folds were pulled flat: what they hide is given its room, and left out."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from core.swatch.direction import DARKEST
from core.swatch.edges import Edges, edges_of, linked_multiple, links_of
from core.swatch.folds import Fold, find_fold
from core.swatch.period import Bands, read_line

Array = npt.NDArray[np.float64]

MOST_FOLDS = 2
_FURTHEST = (0.35, 0.8)
"""Share of a repeat to either side of a fold that is left out at most, with few repeats in view and with many."""
_MANY = 6
_BESIDE_PX = 3.0
"""Edges nearer than this to what does not lie flat are not trusted."""
_BENT = 3.0
"""Colours are not read nearer to a fold than this many times what it hides."""
_LEAST_OFF = 0.03
"""What differs less in log light from the neighbouring repeats is taken to lie flat."""


@dataclass(frozen=True, eq=False)
class Flat:
    """Bands pulled flat, and the folds taken out of them, one after the other.

    `period` is how far apart, px, edges that are one repeat apart usually lie, `period_sd` how surely it is known.
    """

    bands: Bands
    folds: tuple[Fold, ...]
    period: float
    period_sd: float

    def places(self, across: Array, along: Array) -> tuple[Array, npt.NDArray[np.bool_]]:
        """Where places of the picture lie once it is flat, px across, and whether they do not lie in a fold.

        Cloth bends before a fold and after it, even where the ground is plain and nothing is seen of that.
        """
        clear = np.ones(across.shape, dtype=bool)
        for fold in self.folds:
            beyond = fold.beyond(across, along)
            clear &= np.abs(beyond) > max(fold.reach, min(_BENT * abs(fold.hidden), _FURTHEST[0] * fold.period))
            across = across + fold.hidden * (beyond > 0)
        return across, clear

    def places_seen(self, across: Array, along: Array) -> Array:
        """Where places of the flat picture are seen, px across; what is hidden lies at its fold."""
        for fold in reversed(self.folds):
            beyond = fold.beyond(across, along)
            across = across - (np.clip(beyond, 0, fold.hidden) if fold.hidden > 0 else fold.hidden * (beyond > 0))
        return across


def pulled_flat(bands: Bands, period: float) -> Flat:
    """Take out the folds that hide cloth; where nothing is known then, the neighbouring repeats stand in.

    `period` is a first guess, px, half or a third of the repeat where stripes of two or three colours take turns.
    """
    edges = edges_of(bands)
    period *= linked_multiple(edges, period)
    opened, folds = bands, list[Fold]()
    while len(folds) < MOST_FOLDS:
        fold = find_fold(edges, opened, period)
        if fold is None or any(abs(fold.at - other.at) < fold.period / 2 for other in folds):
            break
        period = fold.period
        folds.append(_settled(edges, opened.middles, replace(fold, reach=_reach(opened, fold))))
        opened, edges = _opened(opened, folds[-1]), _edges_opened(edges, bands.middles, folds[-1])
    links = links_of(edges, period, 0.25)
    usual = links.usual() if len(links.left) else (period, math.inf)
    return Flat(_filled(opened, period) if folds else bands, tuple(folds), *usual)


def _edges_opened(edges: Edges, middles: Array, fold: Fold) -> Edges:
    """The edges where they lie once a fold is opened; those in it are left out."""
    beyond = fold.beyond(edges.at, middles[edges.band])
    there = replace(edges, at=edges.at + fold.hidden * (beyond > 0))
    return there.only(np.abs(beyond) > fold.reach + _BESIDE_PX)


def _settled(edges: Edges, middles: Array, fold: Fold) -> Fold:
    """The fold with what it hides found anew from edges that lie flat, up to three repeats apart on either side."""
    for _ in range(2):
        opened, off = _edges_opened(edges, middles, fold), []
        for times in (1, 2, 3):
            links = links_of(opened, times * fold.period, 0.25 / times)
            along = middles[links.band]
            over = (fold.beyond(links.left, along) < 0) & (fold.beyond(links.right, along) > fold.hidden)
            off.append(links.apart[over] - times * fold.period)
        every = np.concatenate(off)
        if len(every) < 4:
            break
        fold = replace(fold, hidden=fold.hidden - float(np.median(every)))
    return fold


def _opened(bands: Bands, fold: Fold) -> Bands:
    """The bands with a fold opened; NaN where the cloth is not seen flat."""
    columns = bands.light.shape[1] + max(0, round(fold.hidden))
    at = np.arange(columns, dtype=float) + 0.5
    lines = []
    for line, middle in zip(bands.light, bands.middles, strict=True):
        beyond = fold.beyond(at, middle)
        after = beyond > fold.hidden / 2
        source = at - np.where(after, fold.hidden, 0.0)
        off = fold.beyond(source, middle)
        folded = (np.abs(off) <= fold.reach) | (after != (off > 0))
        lines.append(np.where(folded[:, None], np.nan, read_line(line, source)))
    return Bands(np.stack(lines), bands.rows)


def _filled(bands: Bands, period: float) -> Bands:
    """Gaps between what is seen of a band filled with the mean of what is seen one repeat before and after."""
    return Bands(np.where(np.isnan(bands.light), _beside(bands, period), bands.light), bands.rows)


def _beside(bands: Bands, period: float) -> Array:
    """The light (bands, columns, 3) one repeat before and after, their mean; NaN outside what is seen of the band."""
    at = np.arange(bands.light.shape[1], dtype=float) + 0.5
    out = []
    for line in bands.light:
        seen = np.flatnonzero(np.isfinite(line[:, 0]))
        both = np.stack([read_line(line, at - period), read_line(line, at + period)])
        known = np.isfinite(both)
        mean = np.where(known, both, 0).sum(axis=0) / np.maximum(known.sum(axis=0), 1)
        inside = (np.arange(len(line)) >= seen[0]) & (np.arange(len(line)) <= seen[-1])
        out.append(np.where(known.any(axis=0) & inside[:, None], mean, np.nan))
    return np.stack(out)


def _reach(bands: Bands, fold: Fold) -> float:
    """How far from a fold, px, the picture differs from the repeats beside it."""
    opened = _opened(bands, fold)
    off = np.abs(np.log((opened.light + DARKEST) / (_beside(opened, fold.period) + DARKEST))).mean(axis=2)
    at = np.arange(opened.light.shape[1], dtype=float) + 0.5
    beyond = np.stack([fold.beyond(at, middle) for middle in bands.middles])
    most = 3 * float(np.nanmedian(off)) + _LEAST_OFF
    sides = (_reach_beyond(off, away, fold, most) for away in (-beyond, beyond - fold.hidden))
    return max(fold.reach, *sides)


def _reach_beyond(off: Array, away: Array, fold: Fold, most: float) -> float:
    """How far to one side the bands are more than `most` off, as far as no edge shows that they lie flat."""
    step, reach = max(2.0, fold.period / 60), 0.0
    furthest = _FURTHEST[off.shape[1] > _MANY * fold.period] * fold.period
    for near in np.arange(0, furthest - step, step):
        ring = off[(away > near) & (away <= near + step) & np.isfinite(off)]
        if ring.size and float(np.median(ring)) > most:
            reach = float(near + step)
        elif ring.size and near > max(reach, fold.clear) + 2 * step:
            break
    return reach
