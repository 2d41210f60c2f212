"""Folds that hide some of the cloth: found where the repeats come nearer to each other."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.swatch.edges import Edges, Links, links_of
from core.swatch.period import Bands

Array = npt.NDArray[np.float64]
Truths = npt.NDArray[np.bool_]

LEAST_JUMP_PX = 0.15
_SURE = 6.0
"""A jump so many times its standard deviation is one."""
_AS_GOOD = 1.5
"""Folds that leave no more than this many times what the best leaves might be it as well."""
_DEGREES = np.array([-83, -80, -76, -69, -61, -53, -45, -37, -29, -22, -16, -11, -7, -4, -2, -1, 0])
_DEGREES = np.concatenate([_DEGREES, -_DEGREES[-2::-1]]).astype(float)
"""Trial angles between a fold and the stripes."""
_WIDTHS_PX = np.array([0.0, 4.0, 8.0, 14.0, 22.0, 34.0, 52.0, 80.0])
"""Trial widths of a fold."""
_REACHES = (0.25, 0.45)
"""Shares of a repeat by which a fold may bring edges nearer to each other or apart: the likelier ones first."""
_MOST_HIDDEN = 0.6
"""Share of a repeat: what is nearer or further by more is another stripe."""
_FEWEST_LINKS = 4
_AGREEING = 0.3
"""Share of a jump by which a link that shows it may differ."""


@dataclass(frozen=True)
class Fold:
    """A fold through an upright picture, at across-place `at` px where along is `middle`, `slope` px across per px.

    Beyond it everything lies `hidden` px too near (if below 0, too far), with a standard deviation of `hidden_sd`.
    `period` is the repeat, px, beside it; `other` what the repeat would be if the fold lay elsewhere, where the picture
    can't tell. Within `reach` px of it, to either side, the cloth does not lie flat; nearer than `clear` px there is no
    edge that lies where it should.
    """

    at: float
    slope: float
    middle: float
    hidden: float
    hidden_sd: float
    period: float
    other: float | None
    clear: float
    reach: float = 2.0

    def beyond(self, across: Array, along: Array | float) -> Array:
        """How far beyond the fold places (…), px, lie, px across."""
        return np.asarray(across - self.at - self.slope * (along - self.middle))


def find_fold(edges: Edges, bands: Bands, period: float) -> Fold | None:
    """The fold without which the repeats are most alike; None if they are alike as they lie.

    `period` is a first guess, px. Each pair of edges one repeat apart has the true period as its distance, or lies
    across the fold.
    """
    tries = (_fold_among(links_of(edges, period, reach), bands) for reach in _REACHES)
    return next((fold for fold in tries if fold is not None), None)


def _fold_among(links: Links, bands: Bands) -> Fold | None:
    if len(np.unique(links.band)) < 2:
        return None
    along = bands.middles[links.band] - bands.middles.mean()
    trials = _tried(links, along, bands.light.shape[1])
    if not np.isfinite(trials.left).any():
        return None
    jump = _refined(links, along, trials)
    if not (_is_sure(jump, len(np.unique(links.band))) and _is_one_way(jump, links)):
        return None
    return _as_fold(jump, trials, links, along, bands)


@dataclass(frozen=True, eq=False)
class _Trials:
    """Trial folds, slopes by places, without width: the mean distance of links beside them, and what they leave.

    `left` is a sum of squares, larger where cloth would be added and not hidden, which folds don't do; infinite where
    too few links lie beside or across.
    """

    slope: Array
    at: Array
    beside: Array
    left: Array


def _tried(links: Links, along: Array, columns: int) -> _Trials:
    """All folds at some angles to the stripes, a pixel apart."""
    slope = np.tan(np.radians(_DEGREES))
    margin = min(3.0 * columns, float(np.abs(slope).max() * np.abs(along).max()))
    at = np.arange(-margin, columns + margin)
    off = links.apart - links.apart.mean()
    number, whole = len(off), float((off**2).sum())
    inside, total = np.empty((len(slope), len(at))), np.empty((len(slope), len(at)))
    for row, lean in enumerate(slope):
        before, after = (_summed(side - lean * along, off, at) for side in (links.left, links.right))
        inside[row], total[row] = before[0] - after[0], before[1] - after[1]
    able = (inside >= _FEWEST_LINKS) & (number - inside >= _FEWEST_LINKS)
    inside, outside = np.maximum(inside, 1), np.maximum(number - inside, 1)
    left = np.where(able, whole - total**2 * (1 / inside + 1 / outside), np.inf) + 1e-6
    return _Trials(slope, at, links.apart.mean() - total / outside, np.where(total > 0, _AS_GOOD * left, left))


def _summed(places: Array, values: Array, at: Array) -> tuple[Array, Array]:
    """How many of the places lie before each of `at`, and the sum of their values."""
    order = np.argsort(places)
    count = np.searchsorted(places[order], at)
    return count.astype(float), np.append(0.0, np.cumsum(values[order]))[count]


@dataclass(frozen=True, eq=False)
class _Jump:
    """A fold of some width: `share` (n,) of its jump that each link crosses, and what is `left` of each, px."""

    slope: float
    at: float
    beside: float
    hidden: float
    share: Array
    left: Array


def _refined(links: Links, along: Array, trials: _Trials) -> _Jump:
    """The fold near the best of the trials, wide or narrow, that leaves the least sum of distances."""
    row, place = np.unravel_index(int(np.argmin(trials.left)), trials.left.shape)
    jump = _best_near(links, along, trials.slope[row], trials.at[place], 3.0)
    return _best_near(links, along, jump.slope, jump.at, 1.0)


def _best_near(links: Links, along: Array, slope: float, at: float, reach: float) -> _Jump:
    """The best of folds up to ten times `reach` px and some angles aside."""
    degrees = math.degrees(math.atan(slope)) + np.linspace(-0.6, 0.6, 7) * reach * (1 + 0.06 * abs(slope))
    trials = np.stack(
        np.meshgrid(np.tan(np.radians(degrees)), at + reach * np.arange(-10, 11), _WIDTHS_PX, indexing="ij"), axis=-1
    ).reshape(-1, 3)
    share = _shares(links, along, trials)
    beside, hidden, left = _least_distances(links.apart, share)
    score = np.abs(left).sum(axis=1) * (1 + 1e-4 * trials[:, 2])
    best = int(np.argmin(score))
    return _Jump(
        float(trials[best, 0]),
        float(trials[best, 1]),
        float(beside[best]),
        float(hidden[best]),
        share[best],
        left[best],
    )


def _shares(links: Links, along: Array, trials: Array) -> Array:
    """What share (trials, n) of a fold's jump each link crosses; trials are slope, place and width."""
    cut = trials[:, 1:2] + trials[:, :1] * along
    wide = np.maximum(trials[:, 2:], 1e-3)
    after, before = (np.clip((side - cut) / wide + 0.5, 0, 1) for side in (links.right, links.left))
    return np.asarray(after - before)


def _least_distances(apart: Array, share: Array) -> tuple[Array, Array, Array]:
    """The period (k,), the jump (k,) and what is left (k, n) that explain distances with the least sum of the rest."""
    weight = np.ones_like(share)
    for _ in range(8):
        total, mean = weight.sum(axis=1), (weight * share).sum(axis=1)
        square, value, product = (
            (weight * other).sum(axis=1) for other in (share**2, np.broadcast_to(apart, share.shape), share * apart)
        )
        slope = (product - mean * value / total) / np.maximum(square - mean**2 / total, 1e-9)
        start = (value - slope * mean) / total
        left = apart - start[:, None] - slope[:, None] * share
        weight = 1 / np.maximum(np.abs(left), 0.03)
    return start, -slope, left


def _is_sure(jump: _Jump, bands: int) -> bool:
    """Whether the jump stands out; bands see one cloth, and count as four at most."""
    if abs(jump.hidden) > _MOST_HIDDEN * jump.beside:
        return False
    agreeing = np.abs(jump.left) < _AGREEING * abs(jump.hidden)
    for group, least in ((jump.share > 0.8, 0.6), (jump.share < 0.2, 0.7)):
        if group.sum() < _FEWEST_LINKS or float(agreeing[group].mean()) < least:
            return False
    return abs(jump.hidden) > max(LEAST_JUMP_PX, _SURE * _jump_sd(jump, bands))


def _jump_sd(jump: _Jump, bands: int) -> float:
    """Standard deviation, px, of the jump."""
    scatter = 1.4826 * float(np.median(np.abs(jump.left)))
    counts = [float((jump.share > 0.8).sum()), float((jump.share < 0.2).sum())]
    return scatter * math.sqrt(sum(1 / max(count * min(1.0, 4 / bands), 1.0) for count in counts))


def _is_one_way(jump: _Jump, links: Links) -> bool:
    """Whether few links are off the other way: a ridge rises and falls again, and hides nothing."""
    off = (jump.beside - links.apart) / jump.hidden
    return bool((off < -0.4).sum() < 0.5 * (np.abs(off - 1) < _AGREEING).sum())


def _as_fold(jump: _Jump, trials: _Trials, links: Links, along: Array, bands: Bands) -> Fold:
    sound = np.abs(jump.left) < max(0.1, _AGREEING * abs(jump.hidden) / 2)
    ends = np.concatenate([(side - jump.slope * along - jump.at)[sound] for side in (links.left, links.right)])
    hidden = jump.hidden if jump.hidden > -0.1 * jump.beside else jump.hidden + jump.beside
    return Fold(
        at=jump.at,
        slope=jump.slope,
        middle=float(bands.middles.mean()),
        hidden=hidden,
        hidden_sd=_jump_sd(jump, len(np.unique(links.band))),
        period=jump.beside,
        other=_other_period(jump, trials),
        clear=float(np.percentile(np.abs(ends), 100 * min(1.0, 4 / len(ends)))),
    )


def _other_period(jump: _Jump, trials: _Trials) -> float | None:
    """The repeat that differs most among folds that might be it as well; None if all give one repeat."""
    rivals = trials.beside[trials.left <= _AS_GOOD**2 * trials.left.min()]
    off = np.abs(rivals - jump.beside)
    return float(rivals[int(np.argmax(off))]) if off.max() > 0.004 * jump.beside else None
