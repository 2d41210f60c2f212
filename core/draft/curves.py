"""Curves of a draft as Bezier control points in the complex plane: x to the right, y (the imaginary part) down, mm."""

import cmath
import math

import numpy as np

from core.geometry.beziers import Segment

Curve = tuple[complex, ...]
"""Two control points of a straight line, or four of a cubic."""

CLOSE_MM = 1e-5
"""Lengths that are looked for are met within this."""

_PLACES, _WEIGHTS = np.polynomial.legendre.leggauss(6)
_GAUSS = tuple(((1 + place) / 2, weight / 2) for place, weight in zip(_PLACES.tolist(), _WEIGHTS.tolist(), strict=True))


def unit(vector: complex) -> complex:
    """The vector's direction, of length 1."""
    return vector / abs(vector)


def curve_length(curve: Curve) -> float:
    """Length along a line or cubic, mm (Gauss's rule with 6 places; exact to 1e-6 for the gentle curves of a gore)."""
    if len(curve) == 2:
        return abs(curve[1] - curve[0])
    a, b, c, d = curve
    first, second, third = 3 * (b - a), 6 * (c - 2 * b + a), 3 * (d - a) + 9 * (b - c)
    return sum([weight * abs((third * t + second) * t + first) for t, weight in _GAUSS])


def square_across(left: complex, left_down: complex, right: complex, right_down: complex) -> Curve:
    """The curve from a gore's left edge to its right one that meets both at right angles: nearly an arc of a circle.

    `left_down` and `right_down` are the edges' unit directions there, downwards.
    """
    leaving, arriving = left_down * -1j, right_down * -1j
    chord = abs(right - left)
    if abs(leaving - arriving) < 1e-12:
        return (left, left + chord / 3 * leaving, right - chord / 3 * arriving, right)
    turn = abs(cmath.phase(arriving / leaving))
    reach = chord / (3 * math.cos(turn / 4) ** 2)
    return (left, left + reach * leaving, right - reach * arriving, right)


def swung(top: complex, bottom: complex, leaving: complex | None, arriving: complex, length: float) -> Curve:
    """A smooth curve down from one point to another between given unit directions; straight where it can be.

    `leaving` None lets it leave straight towards the other point.
    """
    chord = unit(bottom - top)
    leaving = leaving or chord
    if abs(leaving - arriving) < 1e-9 and abs(leaving - chord) < 1e-9:
        return (top, bottom)
    return (top, top + length / 3 * leaving, bottom - length / 3 * arriving, bottom)


def halves(curve: Curve) -> tuple[Curve, Curve]:
    """A cubic cut in two at its middle parameter."""
    a, b, c, d = curve
    ab, bc, cd = (a + b) / 2, (b + c) / 2, (c + d) / 2
    abc, bcd = (ab + bc) / 2, (bc + cd) / 2
    middle = (abc + bcd) / 2
    return (a, ab, abc, middle), (middle, bcd, cd, d)


def middle_of(curve: Curve) -> complex:
    """The point of a cubic at its middle parameter."""
    return halves(curve)[0][-1]


def segment_of(curve: Curve) -> Segment:
    """The curve as control points (x, y)."""
    return tuple((point.real, point.imag) for point in curve)
