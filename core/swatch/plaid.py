"""Checks and plaids: stripes that run both ways, each read where the other way shows nothing but its ground.

In cloth woven of coloured yarns the two ways mix wherever they cross: the colour of a stripe is the one it has on the
ground of the bars, and the colour of a bar the one it has on the ground of the stripes.
"""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt
from scipy.ndimage import gaussian_filter1d

from core.errors import BadInput
from core.swatch.colour import difference, lab_of
from core.swatch.direction import Direction, crossing_direction
from core.swatch.reading import Reading, read_direction
from core.swatch.repeat import ground_of
from core.swatch.scale import View
from core.swatch.stripes import LEAST_CONTRAST, Segments, find_segments, unexplained

LEAST_BARS_MM = 2.0
"""Bars that come again sooner are the weave."""
LEAST_BARS = 2.5
"""Fewer repeats of bars in view are not told from folds."""
LEAST_EXPLAINED, MOST_UNCLEAR = 0.7, 0.1
"""Share of what varies that bars account for, and share of their repeat that plain bars may leave."""
MOST_SKEW_DEG = 15.0
_LOOKS = 96
_MARGIN_PX = 2.0
_LEAST_GROUND = 0.1
"""Share of the picture that must be ground of the other way for colours to be read there."""
_PLACES_PER_PX = 4


@dataclass(frozen=True, eq=False)
class Plaid:
    """Stripes, and the bars that cross them if there are any; stripes are those nearer to upright in the picture."""

    stripes: Reading
    bars: Reading | None

    @property
    def skew_percent(self) -> float:
        """How far bars have run along the stripes, to the width they cross: 100 x distance / width (ASTM D3882).

        Positive where they reach the right side further along.
        """
        if self.bars is None:
            return 0.0
        off = (self.bars.angle - self.stripes.angle) % math.pi - math.pi / 2
        return 100 * math.tan(off)


def plaid_of(view: View, first: Reading) -> Plaid:
    """The stripes already read and what crosses them, each read anew on the ground of the other."""
    second = _crossing(view, first)
    if second is None:
        return Plaid(first, None)
    other, one = find_segments(second.profile), find_segments(first.profile)
    first, second = _on_ground(view, first, second, other), _on_ground(view, second, first, one)
    upright = abs(first.angle) <= math.pi / 4
    return Plaid(first, second) if upright else Plaid(second, first)


def _crossing(view: View, reading: Reading) -> Reading | None:
    """The stripes that cross those already read about square, if there are any."""
    direction = crossing_direction(view, reading.upright.angle, math.radians(MOST_SKEW_DEG))
    if direction is None:
        return None
    try:
        found = read_direction(view, direction)
        return found if _stands_out(found, view.mm_per_px) else None
    except BadInput:
        return None


def _stands_out(reading: Reading, mm_per_px: float) -> bool:
    """Whether bars are really there: not the weave, not a fold that happens to come again. Raises BadInput for some."""
    lab = lab_of(gaussian_filter1d(reading.profile.evenly(_LOOKS), 1.0, axis=0, mode="wrap"))
    contrast = float(difference(lab[:, None], lab).max())
    coarse = reading.fit.period * mm_per_px >= LEAST_BARS_MM and reading.repeats >= LEAST_BARS
    if not (coarse and contrast >= LEAST_CONTRAST and reading.profile.explained >= LEAST_EXPLAINED):
        return False
    return unexplained(reading.profile, find_segments(reading.profile)) < MOST_UNCLEAR


def _on_ground(view: View, reading: Reading, other: Reading, segments: Segments) -> Reading:
    """The reading made anew where the other way shows its ground; as it was, where that is too little."""
    ground = view.seen & _shows_ground(view, other, segments)
    if ground.mean() < _LEAST_GROUND:
        return reading
    try:
        return read_direction(replace(view, seen=ground), Direction(reading.upright.angle, 1.0))
    except BadInput:
        return reading


def _shows_ground(view: View, reading: Reading, segments: Segments) -> npt.NDArray[np.bool_]:
    """Which pixels of the view (height, width) lie well within the ground between the stripes read."""
    number = math.ceil(_PLACES_PER_PX * segments.width)
    at = (np.arange(number) + 0.5) * segments.width / number
    clear = np.ones(number, dtype=bool)
    margin = _MARGIN_PX + 2 * segments.blur
    for edge, wide, kind in zip(segments.edges, segments.widths, segments.kind, strict=True):
        if kind != ground_of(segments):
            off = (at - edge + margin) % segments.width
            clear &= off > wide + 2 * margin
    height, width = view.seen.shape
    out = np.empty((height, width), dtype=bool)
    for start in range(0, height, 256):
        y, x = np.mgrid[start : min(start + 256, height), :width] + 0.5
        phase = reading.phases(x, y) * number
        out[start : start + 256] = clear[np.minimum(phase.astype(np.intp), number - 1)]
    return out
