"""Edges of stripes, band by band, and which of them lie one repeat apart."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.swatch.direction import DARKEST
from core.swatch.period import Bands

Array = npt.NDArray[np.float64]

_SMOOTH_PX = 1.2
_MARGIN_PX = 13
"""Across so many pixels all must be seen."""
_LEAST_SHARE = 0.2
"""Edges with less of the strength of the strong ones are left out: noise has such too."""
_MOST_UNLIKE = 0.3
_FEW_LINKED = 0.35


@dataclass(frozen=True, eq=False)
class Edges:
    """Edges of stripes: `band` (n,) in which each lies, `at` (n,) px across, `change` (n, 3) of log light per px."""

    band: npt.NDArray[np.intp]
    at: Array
    change: Array

    def only(self, which: npt.NDArray[np.bool_]) -> "Edges":
        """Some of them."""
        return Edges(self.band[which], self.at[which], self.change[which])


@dataclass(frozen=True, eq=False)
class Links:
    """Pairs of edges that are the same of two neighbouring repeats: their `left` and `right` px across and `band`."""

    band: npt.NDArray[np.intp]
    left: Array
    right: Array

    @property
    def apart(self) -> Array:
        """How far apart (n,), px, the two edges lie."""
        return np.asarray(self.right - self.left)

    def usual(self) -> tuple[float, float]:
        """The distance, px, that links have in the middle, and its standard deviation: bands count as four at most."""
        middle = float(np.median(self.apart))
        scatter = 1.4826 * float(np.median(np.abs(self.apart - middle)))
        bands = max(1, len(np.unique(self.band)))
        return middle, 1.25 * scatter / math.sqrt(max(1.0, len(self.left) * min(1.0, 4 / bands)))


def edges_of(bands: Bands) -> Edges:
    """All clear edges, to a fraction of a pixel."""
    from scipy.ndimage import gaussian_filter1d, maximum_filter1d

    unseen = np.isnan(bands.light[..., 0])
    value = np.log(np.where(unseen[..., None], 0.0, bands.light) + DARKEST)
    slope = gaussian_filter1d(value, _SMOOTH_PX, axis=1, order=1, mode="nearest")
    strength = np.linalg.norm(slope, axis=2)
    here, before, after = strength[:, 1:-1], strength[:, :-2], strength[:, 2:]
    top = (here > before) & (here >= after)
    top &= ~maximum_filter1d(unseen, _MARGIN_PX, axis=1, mode="constant", cval=1)[:, 1:-1]
    if not top.any():
        return Edges(np.zeros(0, dtype=np.intp), np.zeros(0), np.zeros((0, 3)))
    top &= here > _LEAST_SHARE * np.percentile(here[top], 97)
    band, column = np.nonzero(top)
    low, mid, high = before[top], here[top], after[top]
    vertex = (low - high) / (2 * (low - 2 * mid + high))
    return Edges(band, column + 1.5 + vertex, slope[band, column + 1])


def links_of(edges: Edges, period: float, reach: float) -> Links:
    """Pairs of edges a period, px, apart, but for `reach` of it, each the other's nearest of its like."""
    found = [_links_in(edges, np.flatnonzero(edges.band == band), period, reach) for band in np.unique(edges.band)]
    pairs = np.concatenate(found) if found else np.zeros((0, 2), dtype=np.intp)
    return Links(edges.band[pairs[:, 0]], edges.at[pairs[:, 0]], edges.at[pairs[:, 1]])


def _links_in(edges: Edges, mine: npt.NDArray[np.intp], period: float, reach: float) -> npt.NDArray[np.intp]:
    """Numbers (n, 2) of the linked edges of one band."""
    at, change = edges.at[mine], edges.change[mine]
    off = np.abs(at - at[:, None] - period)
    size = np.linalg.norm(change, axis=1)
    unlike = np.linalg.norm(change - change[:, None], axis=2) / np.maximum(size, size[:, None])
    off[(off > reach * period) | (unlike > _MOST_UNLIKE)] = np.inf
    to, back = np.argmin(off, axis=1), np.argmin(off, axis=0)
    index = np.arange(len(mine))
    mutual = np.isfinite(off[index, to]) & (back[to] == index)
    return np.column_stack([mine[mutual], mine[to[mutual]]])


def linked_multiple(edges: Edges, period: float) -> int:
    """The fewest periods after which most edges come again: more than one where stripes of two colours take turns."""
    shares = [_linked_share(edges, times * period) for times in range(1, 5)]
    return 1 + next(number for number, share in enumerate(shares) if share >= _FEW_LINKED * max(shares))


def _linked_share(edges: Edges, period: float) -> float:
    """Of the edges that have room for another one a period further on, the share that has one like it there."""
    last = np.full(int(edges.band.max(initial=0)) + 1, -np.inf)
    np.maximum.at(last, edges.band, edges.at)
    able = int((edges.at + 0.9 * period < last[edges.band]).sum())
    return len(links_of(edges, period, 0.25).left) / able if able >= 8 else 0.0
