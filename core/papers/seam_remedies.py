"""What would close a seam: how far its stitching line is moved at a height, and how much is eased between stripes."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats
from core.model.project import Placement
from core.seams.readings import SeamReading
from core.seams.strip import edge_at
from core.seams.stripes import Across

LEAST_EFFECT = 0.5
"""Where moving the line by 1 mm changes the step by less than this, moving it is no remedy."""


def shifts_at(reading: SeamReading, at_a: Placement, at_b: Placement, heights: Floats) -> Floats:
    """How far the left edge is moved out, and the right edge in, to close the step at heights, mm; shape of heights.

    Negative where the left edge is moved in and the right edge out; nan where that is no remedy, as where both edges
    lean alike. A step of 3 mm takes 1.5 mm where the leans are opposite.
    """
    effect = _change_along_normal(reading, "a", at_a, heights) * -1.0
    other = _change_along_normal(reading, "b", at_b, heights)
    effect = effect - other if reading.lean == "alike" else effect + other
    usable = np.abs(effect) >= LEAST_EFFECT
    return np.where(usable, -reading.step_at(heights) / np.where(usable, effect, 1.0), np.nan)


def _change_along_normal(reading: SeamReading, side: str, at: Placement, heights: Floats) -> Floats:
    """Change of the across-coordinate per mm square to an edge into its panel."""
    points, inward = edge_at(reading.line, "a" if side == "a" else "b", heights)
    return Across.of(at, reading.cloth, reading.way).rate_along(points, inward)


@dataclass(frozen=True)
class LeadPair:
    """A lead stripe that meets the seam on both sides: its heights there, and what is eased since the pair above, mm.

    `ease_mm` is positive where the right edge is the longer and is eased in, negative where the left one is; None for
    the first pair. `span_mm` is the shorter of the two edges' lengths since then.
    """

    a_at_mm: float
    b_at_mm: float
    ease_mm: float | None = None
    span_mm: float | None = None


def lead_pairs(reading: SeamReading) -> tuple[LeadPair, ...]:
    """The lead stripes' pairs from the top down."""
    repeat = reading.repeat
    lead = next(kind for kind in repeat.kinds if repeat.lead_stripe in kind)[0].name
    met = sorted((one.a_at_mm, one.b_at_mm) for one in reading.crossings if one.stripe == lead)
    return tuple(_pair(met[index - 1] if index else None, here) for index, here in enumerate(met))


def _pair(before: tuple[float, float] | None, here: tuple[float, float]) -> LeadPair:
    if before is None:
        return LeadPair(*here)
    down_a, down_b = here[0] - before[0], here[1] - before[1]
    return LeadPair(*here, down_b - down_a, min(down_a, down_b))
