"""Lengths that no lay can beat: what lies abreast has no more than the usable width, at every v."""

import math
from collections.abc import Iterable

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import signed_area
from core.lay.shapes import Shape

MOST_ABREAST = 20
"""So many lanes at most are counted."""

_WIDER_MM = 1e-6


def least_length(rings: Iterable[Points], usable_mm: float, spare_mm: float = 0.0) -> float:
    """A length, mm, below which outlines, (n, 2) each, can't lie within a width, so much free between any two.

    They may be shifted, turned end for end and mirrored, not turned otherwise. The largest of three bounds: the longest
    outline; the area over the width; and for each m, where no more than m outlines can lie abreast that are wide enough
    there, the m-th part of the lengths along which each is.
    """
    rings = list(rings)
    longest = max((float(np.ptp(ring[:, 1])) for ring in rings), default=0.0)
    area = sum(abs(signed_area(ring)) for ring in rings) / usable_mm
    return max(longest, area, _by_lanes(rings, usable_mm, spare_mm))


def _by_lanes(rings: list[Points], usable_mm: float, spare_mm: float) -> float:
    profiles = [_widths(ring) for ring in rings]
    best = 0.0
    for abreast in range(1, min(len(rings), MOST_ABREAST + 1)):
        wide = (usable_mm - abreast * spare_mm) / (abreast + 1) + _WIDER_MM
        if wide > 0:
            best = max(best, math.fsum(_length_of(wide, *profile) for profile in profiles) / abreast)
    return best


def _widths(ring: Points) -> tuple[Points, Points, Points]:
    """How long each slab of an outline along v is, and how wide it is at its two ends, gaps not counted; (slabs,)."""
    shape = Shape.of(ring[:, ::-1])
    there, run = np.isfinite(shape.low), np.diff(shape.cuts)
    start = np.where(there, shape.high - shape.low, 0.0).sum(axis=1, where=there)
    rate = np.where(there, shape.high_rate - shape.low_rate, 0.0).sum(axis=1)
    return run, start, start + rate * run


def _length_of(wide: float, run: Points, start: Points, end: Points) -> float:
    """The length along which an outline is at least so wide."""
    low, high = np.minimum(start, end), np.maximum(start, end)
    share = np.where(high > low, (high - wide) / np.where(high > low, high - low, 1.0), high >= wide)
    return float((np.clip(share, 0.0, 1.0) * run).sum())
