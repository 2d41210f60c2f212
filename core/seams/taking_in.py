"""Where no shift between two panels helps: one edge alone let out or taken in by the step, and what the girth does."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.model.project import Placement
from core.seams.readings import SeamReading
from core.seams.strip import edge_at
from core.seams.stripes import Across

LEAST_EFFECT = 0.5
"""Where letting an edge out by 1 mm changes the step by less than this, it is no remedy."""

PLACES = 101


@dataclass(frozen=True)
class TakingIn:
    """How far the left edge alone would be let out (positive) or taken in to close the seam, mm: least, most and mean.

    The garment's girth changes by as much at each height.
    """

    least_mm: float
    most_mm: float
    mean_mm: float


def taking_in(reading: SeamReading, at_a: Placement) -> TakingIn | None:
    """What letting out or taking in the left edge by the step comes to; None where that is no remedy either."""
    heights = np.linspace(0.0, reading.line.length, PLACES)
    heights = heights[[reading.line.counts(float(height)) for height in heights]]
    effect = _effect(reading, at_a, heights)
    if not len(heights) or np.abs(effect).min() < LEAST_EFFECT:
        return None
    by = -reading.step_at(heights) / effect
    return TakingIn(float(by.min()), float(by.max()), float(by.mean()))


def _effect(reading: SeamReading, at_a: Placement, heights: Floats) -> Floats:
    """By how much the step changes per mm that the left edge is let out, square to itself."""
    points, inward = edge_at(reading.line, "a", heights)
    across = Across.of(at_a, reading.cloth, reading.way)
    return np.asarray(across(points - inward) - across(points))
