"""A line moved sideways by a distance that changes along it; places on it keep their distance from its start."""

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along, outward, points_at

DENSE_MM = 4.0
ROUNDS = 3
"""How often points are slid along the line until their distances are right; each round is right to second order."""


def dense(line: Points, apart_mm: float = DENSE_MM) -> Points:
    """The polyline with points added so that none lie farther apart than given; shape (n, 2)."""
    along = lengths_along(line)
    extra = np.linspace(0.0, along[-1], int(np.ceil(along[-1] / apart_mm)) + 1)
    places = np.unique(np.concatenate([along, extra]))
    places = places[np.concatenate([[True], np.diff(places) > 1e-3])]
    return points_at(line, np.concatenate([places[:-1], along[-1:]]))


def ways_out(line: Points) -> Points:
    """Unit vectors square to a polyline at its points, out of a piece that it runs round clockwise; shape (n, 2)."""
    steps = np.diff(line, axis=0)
    steps = steps / np.hypot(*steps.T)[:, None]
    ways = np.vstack([steps[:1], steps[:-1] + steps[1:], steps[-1:]])
    return outward(ways / np.hypot(*ways.T)[:, None])


def moved_sideways(line: Points, out: Points, by: Floats, end_stays: bool) -> Points:
    """The points of a polyline moved by `by` mm along unit vectors `out`, and slid along it to keep their places.

    The distance of every point from the first along the line stays what it was; where the end must stay (`by` is 0
    there), all distances change in one proportion instead. Shapes (n, 2), (n, 2), (n,); gives (n, 2).
    """
    wanted = lengths_along(line)
    moved = line + by[:, None] * out
    for _ in range(ROUNDS):
        here = lengths_along(moved)
        goal = wanted * (here[-1] / wanted[-1]) if end_stays else wanted
        along = np.empty_like(moved)
        along[1:-1], along[0], along[-1] = moved[2:] - moved[:-2], moved[1] - moved[0], moved[-1] - moved[-2]
        along /= np.hypot(along[:, 0], along[:, 1])[:, None]
        moved = moved + (goal - here)[:, None] * along
    return moved
