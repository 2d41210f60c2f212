"""Where things lie across the stripes of a cloth, lengthwise or crosswise."""

import math
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.geometry.paths import Points
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.cloth import Cloth, Repeat, Stripe, Way
from core.model.project import Placement

Ints = NDArray[np.intp]


@dataclass(frozen=True)
class Bow:
    """What a bow takes off a coordinate: q u (width - u), with u = x_rate * x + y_rate * y + start, mm."""

    x_rate: float
    y_rate: float
    start: float
    q: float
    width: float


@dataclass(frozen=True)
class Across:
    """The coordinate of a placed panel's points across the stripes of one way, mm: w across lengthwise stripes, z
    across bars. It is x_rate * x + y_rate * y + start, less what a bow takes off."""

    x_rate: float
    y_rate: float
    start: float
    bow: Bow | None = None

    @classmethod
    def of(cls, at: Placement, cloth: Cloth, way: Way = "lengthwise") -> "Across":
        """For a panel that lies `at` on a cloth."""
        (ux, uy), (vx, vy) = rotation(at.turn_deg, at.turned).tolist()
        if way == "lengthwise":
            k = cloth.skew
            return cls(ux - k * vx, uy - k * vy, at.u - k * at.v)
        s = cloth.weft_skew
        bow = Bow(ux, uy, at.u, cloth.bow_per_mm, cloth.width) if cloth.bow_per_mm else None
        return cls(vx - s * ux, vy - s * uy, at.v - s * at.u, bow)

    def __call__(self, points: Points) -> Floats:
        """The coordinate of panel points, mm; shape (n,)."""
        straight = points[:, 0] * self.x_rate + points[:, 1] * self.y_rate + self.start
        if self.bow is None:
            return np.asarray(straight)
        u = self._u(points, self.bow)
        return np.asarray(straight - self.bow.q * u * (self.bow.width - u))

    def rate_along(self, points: Points, direction: Points) -> Floats:
        """Change of the coordinate per mm from points on in unit directions, both of shape (n, 2); shape (n,)."""
        straight = direction[:, 0] * self.x_rate + direction[:, 1] * self.y_rate
        if self.bow is None:
            return np.asarray(straight)
        to_u = direction[:, 0] * self.bow.x_rate + direction[:, 1] * self.bow.y_rate
        return np.asarray(straight - self.bow.q * (self.bow.width - 2 * self._u(points, self.bow)) * to_u)

    @staticmethod
    def _u(points: Points, bow: Bow) -> Floats:
        return np.asarray(points[:, 0] * bow.x_rate + points[:, 1] * bow.y_rate + bow.start)


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
    """Index of the kind of stripe seen at coordinates w across them, -1 for the ground; shape of w."""
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
