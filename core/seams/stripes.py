"""Where things lie across the stripes of a cloth."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.cloth import Repeat, Stripe
from core.model.project import Placement

Ints = NDArray[np.intp]


@dataclass(frozen=True)
class Across:
    """The across-coordinate w = u - k v of a placed panel's points: w = x_rate * x + y_rate * y + start, mm."""

    x_rate: float
    y_rate: float
    start: float

    @classmethod
    def of(cls, at: Placement, skew: float) -> "Across":
        """For a panel that lies `at`, on a cloth whose stripes lean by `skew` mm of u per mm of v."""
        turn = rotation(at.turn_deg, at.turned)
        return cls(float(turn[0, 0] - skew * turn[1, 0]), float(turn[0, 1] - skew * turn[1, 1]), at.u - skew * at.v)

    def __call__(self, points: Points) -> Floats:
        """w of panel points, mm; shape (n,)."""
        return np.asarray(points[:, 0] * self.x_rate + points[:, 1] * self.y_rate + self.start)


def wrap(x: Floats, period: float) -> Floats:
    """x brought into [-period / 2, period / 2)."""
    return np.asarray((x + period / 2) % period - period / 2)


def wrapped(x: float, period: float) -> float:
    """One number brought into [-period / 2, period / 2)."""
    return (x + period / 2) % period - period / 2


def crossing_heights(height: Floats, w: Floats, places: Floats, spacing: float) -> tuple[Floats, Ints]:
    """Where w, linear between heights, meets the lines places + j * spacing, j integer.

    Returns the heights, ascending, and for each the index of its place. A line met exactly at an end (within 1e-7 mm)
    counts.
    """
    ends = w.copy()
    ends[0] -= math.copysign(1e-7, w[1] - w[0])
    ends[-1] += math.copysign(1e-7, w[-1] - w[-2])
    q = (ends - places[:, None]) / spacing
    up = np.ceil(q)
    first, count = np.minimum(up[:, :-1], up[:, 1:]), np.abs(np.diff(up, axis=1)).astype(np.intp)
    place, part = np.nonzero(count)
    times = count[place, part]
    rank = np.arange(times.sum()) - np.repeat(np.cumsum(times) - times, times)
    place, part = np.repeat(place, times), np.repeat(part, times)
    start = q[place, part]
    share = (first[place, part] + rank - start) / (q[place, part + 1] - start)
    found = height[part] + share * (height[part + 1] - height[part])
    order = np.argsort(found, kind="stable")
    return found[order], place[order]


def kinds_at(repeat: Repeat, w: Floats) -> Ints:
    """Index of the kind of stripe seen at across-coordinates w, -1 for the ground; shape of w."""
    starts = np.array([band[0] for band in repeat.bands])
    kinds = np.array([band[2] for band in repeat.bands])
    return np.asarray(kinds[np.searchsorted(starts, (w - repeat.origin) % repeat.width, side="right") - 1])


def band_borders(repeat: Repeat) -> Floats:
    """Places, from the cloth's zero, at which what is seen changes; each recurs every nominal repeat."""
    bands = repeat.bands
    before = bands[-1:] + bands[:-1]
    changes = [start for (start, _, kind), (_, _, last) in zip(bands, before, strict=True) if kind != last]
    return np.array(changes) + repeat.origin


def lead_centres_between(repeat: Repeat, low: float, high: float) -> Floats:
    """Across-coordinates of all centres of stripes of the lead's kind from low to high, ascending."""
    kind = next(kind for kind in repeat.kinds if repeat.lead_stripe in kind)
    return np.sort(np.concatenate([_centres(repeat, stripe, low, high) for stripe in kind]))


def _centres(repeat: Repeat, stripe: Stripe, low: float, high: float) -> Floats:
    place = repeat.origin + stripe.at
    first, last = math.ceil((low - place) / repeat.width), math.floor((high - place) / repeat.width)
    return np.asarray(np.arange(first, last + 1) * repeat.width + place)
