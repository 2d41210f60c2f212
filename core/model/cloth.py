"""A cloth and the stripe repeat on it."""

import itertools
import math
from functools import cached_property
from typing import Literal, TypeGuard, TypeVar, cast

import msgspec
import numpy as np
from numpy.typing import NDArray

Way = Literal["lengthwise", "crosswise"]
"""Which stripes are meant: those that run along the cloth, or the bars that run across it."""

WAYS: tuple[Way, ...] = ("lengthwise", "crosswise")

Coordinate = TypeVar("Coordinate", float, NDArray[np.float64])
"""One number or an array of them, mm."""

SAME_MM = 1e-3
"""Two places of a repeat closer than this are one place."""


class Stripe(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A band on the ground: `at` is its centre from the repeat's origin, mm."""

    name: str
    at: float
    width: float
    colour: str


class Repeat(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, dict=True):
    """One period of a pattern: of the stripes across the cloth, or of the bars along it.

    `origin` is where the first repeat starts, mm of u from the left selvedge, for bars mm of v from the cut end along
    the left selvedge; later stripes are painted over earlier. Bars lie over the stripes; their `ground` is seen only
    where the cloth has no stripes.
    """

    width: float
    stripes: tuple[Stripe, ...]
    ground: str = "#ffffff"
    origin: float = 0.0
    lead: str | None = None

    @cached_property
    def kinds(self) -> tuple[tuple[Stripe, ...], ...]:
        """Stripes of one width and colour are of one kind; kinds in order of their first stripe."""
        found: dict[tuple[int, str], list[Stripe]] = {}
        for stripe in self.stripes:
            found.setdefault((round(stripe.width / SAME_MM), stripe.colour.lower()), []).append(stripe)
        return tuple(tuple(stripes) for stripes in found.values())

    @cached_property
    def lead_stripe(self) -> Stripe:
        """The stripe that the eye follows: the one named, or the first."""
        return next((stripe for stripe in self.stripes if stripe.name == self.lead), self.stripes[0])

    @cached_property
    def period(self) -> float:
        """P: the smallest shift, mm, that maps the repeat on itself."""
        most = math.gcd(*(len(kind) for kind in self.kinds))
        fits = (n for n in range(most, 0, -1) if most % n == 0 and self._maps_on_itself(1.0, self.width / n))
        return self.width / next(fits)

    @cached_property
    def axes(self) -> tuple[float, ...]:
        """All mirror axes within one period, mm from the origin, ascending; empty for an uneven repeat."""
        kind = min(self.kinds, key=len)
        sums = {(kind[0].at + other.at) % self.width for other in kind}
        axes = {(s / 2 + half) % self.period for s in sums for half in (0.0, self.width / 2)}
        found: list[float] = []
        for axis in sorted(axes):
            if self._maps_on_itself(-1.0, 2 * axis) and all(self._apart(axis, a, self.period) > SAME_MM for a in found):
                found += [axis, (axis + self.period / 2) % self.period]
        return tuple(sorted(found))

    @property
    def even(self) -> bool:
        """Whether the repeat is its own mirror image about some axis."""
        return bool(self.axes)

    @cached_property
    def axis(self) -> float:
        """The axis that is matched, mm from the origin.

        Even: the mirror axis nearest to the lead stripe's centre; uneven: the lead stripe's centre.
        """
        lead = self.lead_stripe.at
        if not self.even:
            return lead
        nearest = min(self.axes, key=lambda axis: self._apart(axis, lead, self.period))
        return lead + (nearest - lead + self.period / 2) % self.period - self.period / 2

    @property
    def c(self) -> float:
        """The matched axis as an across-coordinate on the cloth, mm."""
        return self.origin + self.axis

    @cached_property
    def bands(self) -> tuple[tuple[float, float, int], ...]:
        """What is seen across one nominal repeat: (from, to, index into kinds or -1 for ground), mm from the origin."""
        edges = {0.0, self.width}
        for stripe in self.stripes:
            edges |= {(stripe.at + side * stripe.width / 2) % self.width for side in (-1, 1)}
        cuts = sorted(edges)
        seen = [(a, b, self.kind_at((a + b) / 2)) for a, b in itertools.pairwise(cuts) if b - a > 1e-9]
        merged: list[tuple[float, float, int]] = []
        for start, end, kind in seen:
            if merged and merged[-1][2] == kind:
                merged[-1] = (merged[-1][0], end, kind)
            else:
                merged.append((start, end, kind))
        return tuple(merged)

    def kind_at(self, place: float) -> int:
        """Index into `kinds` of the stripe seen at a place, mm from the origin; -1 for the ground."""
        for stripe in reversed(self.stripes):
            if self._apart(place, stripe.at, self.width) < stripe.width / 2:
                return next(index for index, kind in enumerate(self.kinds) if stripe in kind)
        return -1

    @cached_property
    def ground_middle(self) -> float:
        """Middle of the widest stretch of ground, mm from the origin; the axis plus half a period if there is none."""
        opposite = self.axis + self.period / 2
        grounds = [(a, b) for a, b, kind in self.bands if kind == -1]
        if len(grounds) > 1 and grounds[0][0] == 0 and grounds[-1][1] == self.width:
            grounds[0:1], grounds[-1:] = [], [(grounds[-1][0], self.width + grounds[0][1])]
        if not grounds:
            return opposite
        widest = max(b - a for a, b in grounds)
        middles = [(a + b) / 2 for a, b in grounds if b - a > widest - SAME_MM]
        return min(middles, key=lambda middle: self._apart(middle, opposite, self.period))

    def _maps_on_itself(self, sign: float, shift: float) -> bool:
        """Whether x -> sign * x + shift sends every stripe to a stripe of its kind."""
        return all(
            any(self._apart(sign * stripe.at + shift, other.at, self.width) <= SAME_MM for other in kind)
            for kind in self.kinds
            for stripe in kind
        )

    @staticmethod
    def _apart(a: float, b: float, period: float) -> float:
        return abs((a - b + period / 2) % period - period / 2)


Point = tuple[float, float]
"""A place on the cloth: u and v, mm."""

Box = tuple[float, float, float, float]
"""Two opposite corners, u, v, u, v, mm, the smaller numbers first."""


class Remnant(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is left of a cloth: its outline, and holes in it; corners (u, v), mm, the first not repeated."""

    outline: tuple[Point, ...]
    holes: tuple[tuple[Point, ...], ...] = ()


class Cloth(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One length of fabric, face up in a single layer; u runs across it from the left selvedge, v along it.

    `width` includes the selvedges; `length` None means as much as it takes; flaws are rectangles (u, v, u, v) or
    outlines of three points (u, v) and more, mm. `remnant` is what there is of it, if not the whole width. `spare_mm`
    is left free between any two panels.
    `shrinkage_percent` is what it loses in length when it is first wetted and pressed. `ease_percent` is the share of
    its length by which an edge can be eased onto another at most; None means: as much as is usual.

    `repeat` is that of the stripes along it, `crosswise` that of the bars across it. `weft_skew_percent` and
    `bow_percent` say how the bars lie, 100 x distance / width (ASTM D3882): skew is positive where they reach the right
    selvedge further on (at larger v), bow where their middle is further on than both ends; a bow is a parabola.
    """

    id: str
    width: float
    name: str = ""
    selvedge: tuple[float, float] = (0.0, 0.0)
    length: float | None = None
    one_way: bool = False
    skew_mm_per_m: float = 0.0
    grain_tolerance_deg: float = 0.25
    flaws: tuple[tuple[float | Point, ...], ...] = ()
    remnant: Remnant | None = None
    spare_mm: float = 0.0
    repeat: Repeat | None = None
    crosswise: Repeat | None = None
    weft_skew_percent: float = 0.0
    bow_percent: float = 0.0
    shrinkage_percent: float = 0.0
    ease_percent: float | None = None
    price_per_m: float | None = None

    @property
    def usable(self) -> tuple[float, float]:
        """From where to where across the cloth a piece may lie, mm of u."""
        return self.selvedge[0], self.width - self.selvedge[1]

    @property
    def end(self) -> float | None:
        """The v at which the cloth ends, its length or where its remnant ends, mm; None: as much as it takes."""
        ends = [] if self.length is None else [self.length]
        ends += [max(v for _, v in self.remnant.outline)] if self.remnant else []
        return min(ends, default=None)

    @property
    def flaw_boxes(self) -> tuple[Box, ...]:
        """The flaws that are rectangles."""
        return tuple(flaw for flaw in self.flaws if is_box(flaw))

    @property
    def flaw_outlines(self) -> tuple[tuple[Point, ...], ...]:
        """All flaws as outlines, in the order of the file."""
        return tuple(_corners(flaw) if is_box(flaw) else cast(tuple[Point, ...], flaw) for flaw in self.flaws)

    @property
    def skew(self) -> float:
        """k: mm of u per mm of v by which the stripes lean."""
        return self.skew_mm_per_m / 1000

    @property
    def weft_skew(self) -> float:
        """s: mm of v per mm of u by which the bars lean, their bow left out."""
        return self.weft_skew_percent / 100

    @property
    def bow_per_mm(self) -> float:
        """q: the parabola of the bars' bow is q u (width - u), mm of v; per mm."""
        return 4 * self.bow_percent / 100 / self.width

    @property
    def is_bowed(self) -> bool:
        """Whether the cloth has bars and these are bowed."""
        return self.crosswise is not None and self.bow_percent != 0

    def repeat_of(self, way: Way) -> Repeat | None:
        """The repeat of the stripes that run one way, or None where there are none."""
        return self.repeat if way == "lengthwise" else self.crosswise

    @property
    def ways(self) -> tuple[Way, ...]:
        """The ways in which there are stripes to match."""
        return tuple(way for way in WAYS if self.repeat_of(way) is not None)

    def w(self, u: Coordinate, v: Coordinate) -> Coordinate:
        """The coordinate across the stripes: the u at which the stripe through a point begins at the cut end, mm."""
        return u - self.skew * v

    def z(self, u: Coordinate, v: Coordinate) -> Coordinate:
        """The coordinate across the bars: the v at which the bar through a point meets the left selvedge, mm."""
        return v - self.weft_skew * u - self.bow_per_mm * u * (self.width - u)

    def weft_skew_at(self, u: float) -> float:
        """mm of v per mm of u by which a bar leans at u, its bow taken in."""
        return self.weft_skew + self.bow_per_mm * (self.width - 2 * u)

    def shift_for(self, dw: float, dz: float) -> tuple[float, float]:
        """The shift (du, dv), mm, that changes w by dw and z by dz, a bow left out of account."""
        room = 1 - self.skew * self.weft_skew
        return (dw + self.skew * dz) / room, (dz + self.weft_skew * dw) / room

    @property
    def title(self) -> str:
        """What the cloth is called: its name, or its id."""
        return self.name or self.id


def is_box(flaw: tuple[float | Point, ...]) -> TypeGuard[Box]:
    """Whether a flaw is given by two opposite corners."""
    return len(flaw) == 4 and not any(isinstance(part, tuple) for part in flaw)


def _corners(box: Box) -> tuple[Point, ...]:
    u0, v0, u1, v1 = box
    return (u0, v0), (u1, v0), (u1, v1), (u0, v1)
