"""Where things lie across the stripes of a cloth."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.cloth import Repeat
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
        return cls(
            float(turn[0, 0] - skew * turn[1, 0]), float(turn[0, 1] - skew * turn[1, 1]), at.u - skew * at.v
        )

    def __call__(self, points: Points) -> Floats:
        """w of panel points, mm; shape (n,)."""
        return np.asarray(points[:, 0] * self.x_rate + points[:, 1] * self.y_rate + self.start)


def wrap(x: Floats, period: float) -> Floats:
    """x brought into [-period / 2, period / 2)."""
    return np.asarray((x + period / 2) % period - period / 2)


def wrapped(x: float, period: float) -> float:
    """One number brought into [-period / 2, period / 2)."""
    return (x + period / 2) % period - period / 2


def crossing_heights(height: Floats, w: Floats, places: Floats, spacing: float) -> Floats:
    """Where a line that is straight between heights crosses the lines places + j * spacing, j integer; ascending.

    A line met exactly at an end (within 1e-7 mm) counts.
    """
    found = [_crossings_of(height, (w - place) / spacing, 1e-7 / spacing) for place in places]
    return np.sort(np.concatenate(found)) if found else np.empty(0)


def _crossings_of(height: Floats, q: Floats, slack: float) -> Floats:
    """Heights at which q, linear between heights, is an integer."""
    q = q.copy()
    q[0] -= math.copysign(slack, q[1] - q[0])
    q[-1] += math.copysign(slack, q[-1] - q[-2])
    low, high = np.minimum(q[:-1], q[1:]), np.maximum(q[:-1], q[1:])
    first, count = np.ceil(low), np.maximum(np.ceil(high) - np.ceil(low), 0).astype(int)
    part = np.repeat(np.arange(len(count)), count)
    rank = np.arange(len(part)) - np.repeat(np.cumsum(count) - count, count)
    share = (first[part] + rank - q[part]) / (q[part + 1] - q[part])
    return np.asarray(height[part] + share * (height[part + 1] - height[part]))


def kinds_at(repeat: Repeat, w: Floats) -> Ints:
    """Index of the kind of stripe seen at across-coordinates w, -1 for the ground; shape of w."""
    starts = np.array([band[0] for band in repeat.bands])
    kinds = np.array([band[2] for band in repeat.bands])
    return np.asarray(kinds[np.searchsorted(starts, (w - repeat.origin) % repeat.width, side="right") - 1])


def band_borders(repeat: Repeat) -> Floats:
    """Places, from the cloth's zero, at which what is seen changes; each recurs every nominal repeat."""
    bands = repeat.bands
    changes = [start for (start, _, kind), before in zip(bands, bands[-1:] + bands[:-1], strict=True) if kind != before[2]]
    return np.array(changes) + repeat.origin


def lead_centres_between(repeat: Repeat, low: float, high: float) -> Floats:
    """Across-coordinates of all centres of stripes of the lead's kind from low to high, ascending."""
    kind = next(kind for kind in repeat.kinds if repeat.lead_stripe in kind)
    centres = [
        np.arange(math.ceil((low - place) / repeat.width), math.floor((high - place) / repeat.width) + 1) * repeat.width + place
        for place in (repeat.origin + stripe.at for stripe in kind)
    ]
    return np.sort(np.concatenate(centres))
