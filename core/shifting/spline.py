"""How far a line is moved at every height: a smooth cubic spline, held between bounds by its coefficients alone."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats

DEGREE = 3
SPACING_MM = 35.0
"""Knots lie about so far apart."""

FEWEST, MOST = 8, 60
"""A spline has at least and at most so many coefficients."""


@dataclass(frozen=True)
class Spline:
    """A clamped cubic B-spline over a line of some length, mm, with `count` coefficients.

    It lies between its least and its largest coefficient, and so does its slope among `slopes`.
    """

    count: int
    length: float

    @classmethod
    def over(cls, length: float) -> "Spline":
        """The spline for a line of some length, mm."""
        return cls(min(max(round(length / SPACING_MM) + DEGREE, FEWEST), MOST), length)

    @property
    def knots(self) -> Floats:
        """Knots as shares of the length, the first and last repeated."""
        inner = np.linspace(0.0, 1.0, self.count - DEGREE + 1)
        return np.concatenate([np.zeros(DEGREE), inner, np.ones(DEGREE)])

    def values(self, shares: Floats) -> Floats:
        """What each coefficient adds at shares of the length, 0 to 1; shape (m, count)."""
        from scipy.interpolate import BSpline

        inside = np.clip(shares, 0.0, 1.0)
        return np.asarray(BSpline.design_matrix(inside, self.knots, DEGREE).toarray())

    @property
    def slopes(self) -> Floats:
        """Coefficients of the slope, mm per mm, from those of the spline; shape (count - 1, count)."""
        knots = self.knots
        span = (knots[DEGREE + 1 : DEGREE + self.count] - knots[1 : self.count]) * self.length
        return np.asarray(DEGREE / span[:, None] * np.diff(np.eye(self.count), axis=0))

    @property
    def bends(self) -> Floats:
        """Second differences of the coefficients; shape (count - 2, count)."""
        return np.asarray(np.diff(np.eye(self.count), 2, axis=0))
