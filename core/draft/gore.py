"""One gore of a skirt: its outline in a frame with the grain along y and the hip, laid straight across, at y = 0.

The right-hand edge of the drawing (+x) comes first in every pair of values. Waist, top and hem are as wide along their
curves as they were asked to be; the hip is measured straight across. Points are complex, y down, mm.
"""

import math
from dataclasses import dataclass, replace
from typing import Literal

from core.draft.curves import CLOSE_MM, Curve, curve_length, middle_of, square_across, swung, unit
from core.errors import BadInput
from core.wording import tr

STEEPEST_DEG = 50.0
"""No edge leans more than this off the grain."""

_ROUNDS = 60

Pair = tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class GoreSpec:
    """What one gore must come to, mm.

    `shares` is how much of what the gore gains in width lies on each edge (a half each: grain in the middle; 0 and 1:
    grain on the edge with 0). `down` is the length of each edge from waist to hem, of which `below` lies below the
    hip. `depth`, if given, is the depth over which the flare is laid off on paper; None: the lean that the hem needs.
    `straight`: the edges run straight from waist to hem, the hip is what it comes to. `let_out` widens the waist on
    the second edge only.
    """

    place: str
    waist: float
    hip: float
    hem: float
    top: float
    shares: Pair
    down: Pair
    below: float
    depth: float | None
    straight: bool
    rise: float = 0.0
    let_out: float = 0.0


@dataclass(frozen=True)
class GoreEdge:
    """A seam edge: from the top by way of the waist and the hip down to the hem; `downs` are its directions there."""

    curves: tuple[Curve, ...]
    waist: complex
    hip: complex
    top_down: complex
    waist_down: complex
    hem_down: complex

    @property
    def top(self) -> complex:
        """The corner with the top edge."""
        return self.curves[0][0]

    @property
    def hem(self) -> complex:
        """The corner with the hem."""
        return self.curves[-1][-1]


@dataclass(frozen=True)
class Gore:
    """A drafted gore: its right and left edge, both downwards, and the curves across, from left to right."""

    right: GoreEdge
    left: GoreEdge

    @property
    def top(self) -> Curve:
        """The upper edge: the waist, or what stands above it."""
        return square_across(self.left.top, self.left.top_down, self.right.top, self.right.top_down)

    @property
    def waist(self) -> Curve:
        """The waist line; the upper edge where nothing rises above it."""
        return square_across(self.left.waist, self.left.waist_down, self.right.waist, self.right.waist_down)

    @property
    def hem(self) -> Curve:
        """The lower edge."""
        return square_across(self.left.hem, self.left.hem_down, self.right.hem, self.right.hem_down)

    @property
    def hip_mm(self) -> float:
        """Width straight across the hip."""
        return (self.right.hip - self.left.hip).real

    @property
    def middle_mm(self) -> float:
        """From the waist line down to the hem in the middle of the gore."""
        return (middle_of(self.hem) - middle_of(self.waist)).imag


@dataclass(frozen=True)
class _Laid:
    """Widths laid straight across so that the curves come out at the widths asked for, mm."""

    top: float
    waist: float
    hem: float
    out: float = 0.0


def draft_gore(spec: GoreSpec) -> Gore:
    """The gore that comes to what is asked. Raises BadInput where an edge would lean too far off the grain."""
    laid = _Laid(spec.top, spec.waist, spec.hem)
    for _ in range(_ROUNDS):
        gore = _built(spec, laid)
        error = _errors(spec, laid, gore)
        laid = _Laid(laid.top + error.top, laid.waist + error.waist, laid.hem + error.hem)
        if max(abs(error.top), abs(error.waist), abs(error.hem)) < CLOSE_MM:
            return gore if spec.let_out == 0 else _let_out(spec, laid)
    raise BadInput(tr("its edges flare too much"), spec.place, tr("more gores, or less sweep"))


def _errors(spec: GoreSpec, laid: _Laid, gore: Gore) -> _Laid:
    return _Laid(
        spec.top - curve_length(gore.top) if spec.rise else 0.0,
        spec.waist - curve_length(gore.waist),
        0.0 if spec.depth else spec.hem - curve_length(gore.hem),
    )


def _let_out(spec: GoreSpec, laid: _Laid) -> Gore:
    """The gore with its waist wider by `let_out` on the left edge alone."""
    laid = replace(laid, out=spec.let_out)
    for _ in range(_ROUNDS):
        gore = _built(spec, laid)
        error = spec.waist + spec.let_out - curve_length(gore.waist)
        laid = replace(laid, out=laid.out + error)
        if abs(error) < CLOSE_MM:
            return gore
    raise BadInput(tr("its waist can't be let out so far"), spec.place, tr("less to let out"))


def hem_length(spec: GoreSpec) -> float:
    """Length along the hem of a gore that is flared from the hip over a depth laid off on paper, mm."""
    edges = [_below(spec, side, spec.hip, spec.hem) for side in (0, 1)]
    (right, right_down), (left, left_down) = ((hip + spec.below * down, down) for hip, down in edges)
    return curve_length(square_across(left, left_down, right, right_down))


def _built(spec: GoreSpec, laid: _Laid) -> Gore:
    return Gore(_edge(spec, laid, 0), _edge(spec, laid, 1))


def _edge(spec: GoreSpec, laid: _Laid, side: Literal[0, 1]) -> GoreEdge:
    sign, share, above = 1 - 2 * side, spec.shares[side], spec.down[side] - spec.below
    hip, down = _straight(spec, laid, side) if spec.straight else _below(spec, side, spec.hip, laid.hem)
    waist_x = laid.waist / 2 if spec.straight else spec.hip / 2 - share * (spec.hip - laid.waist)
    waist_x += laid.out * side
    slant = complex(sign * share * (laid.top - laid.waist), -spec.rise)
    leaving = None
    if spec.rise:
        leaving = unit(unit(hip - complex(sign * waist_x, -above)) - unit(slant))
    upper = _swung_to_length(spec, sign * waist_x, hip, leaving, down, above)
    curves, waist_down = (upper, (hip, hip + spec.below * down)), unit(upper[1] - upper[0])
    if not spec.rise:
        return GoreEdge(curves, upper[0], hip, waist_down, waist_down, down)
    risen = _swung_to_length(spec, (upper[0] + slant).real, upper[0], None, waist_down, spec.rise)
    return GoreEdge((risen, *curves), upper[0], hip, unit(risen[1] - risen[0]), waist_down, down)


def _below(spec: GoreSpec, side: int, hip: float, hem: float) -> tuple[complex, complex]:
    """The hip corner of an edge and the direction in which it runs down from there, flared from the hip."""
    sign, depth = 1 - 2 * side, spec.depth or spec.below
    slope = spec.shares[side] * (hem - hip) / depth
    _check_lean(spec, math.atan(slope))
    return complex(sign * hip / 2, 0), unit(complex(sign * slope, 1))


def _straight(spec: GoreSpec, laid: _Laid, side: int) -> tuple[complex, complex]:
    """The same for an edge that runs straight from the waist."""
    sign, share = 1 - 2 * side, spec.shares[side]
    sine = share * (laid.hem - laid.waist) / spec.down[side]
    _check_lean(spec, math.asin(min(max(sine, -1.0), 1.0)))
    hip = laid.waist / 2 + (spec.down[side] - spec.below) * sine
    return complex(sign * hip, 0), complex(sign * sine, math.sqrt(1 - sine * sine))


def _check_lean(spec: GoreSpec, lean: float) -> None:
    if abs(math.degrees(lean)) > STEEPEST_DEG:
        raise BadInput(
            tr("an edge leans {lean:.0f} degrees off the grain", lean=abs(math.degrees(lean))),
            spec.place,
            tr(
                "up to {steepest_deg:g} is right: more gores, less sweep, or the grain in the middle",
                steepest_deg=STEEPEST_DEG,
            ),
        )


def _swung_to_length(
    spec: GoreSpec, x: float, bottom: complex, leaving: complex | None, arriving: complex, length: float
) -> Curve:
    """A smooth curve of a given length that comes down to a point from a given x."""
    aside = abs(bottom.real - x)
    if aside > length * math.sin(math.radians(STEEPEST_DEG)):
        raise BadInput(
            tr(
                "an edge has to go {aside:.0f} mm aside on its {length:.0f} mm above the hip or the waist",
                aside=aside,
                length=length,
            ),
            spec.place,
            tr("more depth there, more gores, or less difference between the girths"),
        )
    y = bottom.imag - math.sqrt(length * length - aside * aside)
    for _ in range(_ROUNDS):
        curve = swung(complex(x, y), bottom, leaving, arriving, length)
        error = curve_length(curve) - length
        if abs(error) < CLOSE_MM / 10:
            break
        y += error * length / (bottom.imag - y)
    return curve
