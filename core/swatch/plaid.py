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


def plaid_of(view: View, first: Reading, segments: Segments) -> Plaid:
    """The stripes already read, and cut into `segments`, with what crosses them, each read on the other's ground."""
    direction = crossing_direction(view, first.upright.angle, math.radians(MOST_SKEW_DEG))
    if direction is None:
        return Plaid(first, None)
    try:
        second = read_direction(_on_ground(view, first, segments), direction)
        if not _stands_out(second, view.mm_per_px):
            return Plaid(first, None)
        other = _on_ground(view, second, find_segments(second.profile))
        first = read_direction(other, Direction(first.upright.angle, 1.0))
    except BadInput:
        return Plaid(first, None)
    upright = abs(first.angle) <= math.pi / 4
    return Plaid(first, second) if upright else Plaid(second, first)


def _stands_out(reading: Reading, mm_per_px: float) -> bool:
    """Whether bars are really there: not the weave, not a fold that happens to come again. Raises BadInput for some."""
    lab = lab_of(gaussian_filter1d(reading.profile.evenly(_LOOKS), 1.0, axis=0, mode="wrap"))
    contrast = float(difference(lab[:, None], lab).max())
    coarse = reading.fit.period * mm_per_px >= LEAST_BARS_MM and reading.repeats >= LEAST_BARS
    if not (coarse and contrast >= LEAST_CONTRAST and reading.profile.explained >= LEAST_EXPLAINED):
        return False
    return unexplained(reading.profile, find_segments(reading.profile)) < MOST_UNCLEAR


def _on_ground(view: View, reading: Reading, segments: Segments) -> View:
    """The view where stripes that were read show their ground; all of it where that is too little."""
    ground = view.seen & _shows_ground(view, reading, segments)
    return replace(view, seen=ground) if ground.mean() >= _LEAST_GROUND else view


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
