"""The repeat of a striped cloth from a picture of it."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from core.model.cloth import Repeat
from core.progress import Progress, silent
from core.swatch.colour import srgb_of
from core.swatch.gaps import with_gaps
from core.swatch.known import colours_of
from core.swatch.picture import Picture
from core.swatch.plaid import plaid_of
from core.swatch.profile import Profile
from core.swatch.reading import Reading, best_reading
from core.swatch.repeat import repeat_of
from core.swatch.ruler import scaled_repeat
from core.swatch.scale import Scale, View, view_of
from core.swatch.stripes import Segments, find_segments, plain_cloth, unexplained
from core.swatch.sureness import confidence_in, doubts_about
from core.wording import tr

PROFILE_PLACES = 480


@dataclass(frozen=True, eq=False)
class Swatch:
    """A repeat read from a picture, and how well.

    `width_sd_mm` is the standard deviation of the repeat's width: the repeats in view scatter, pixels have a size, a
    fold's jump is known only so well, marks are set to the nearest pixel. `angle_deg` is how the stripes lean from
    upright in the picture, clockwise, -45 to 135: stripes within 45 degrees of upright are read from left to right,
    others from top to bottom. `confidence`, 0 to 1, is the share of all that varies across the stripes that the repeat
    accounts for, less where few repeats are in view, where some were left out, where their width scatters, where
    stripes are too fine for the picture or for their colours to be known, and where a fold may lie elsewhere.
    `profile_srgb` (n, 3), 0 to 1, is the colour across one repeat from its start. `repeats` is how many are in view.
    `starts_px` (k, 2, 2) are the two ends, px of the file, of the lines at which repeats start in the picture.

    Where bars cross the stripes, `crosswise` is what was read of them, their lengths along the stripes, and
    `weft_skew_percent` how far they have run along the stripes by the right, to the width they cross (ASTM D3882); the
    stripes are then those nearer to upright.
    """

    repeat: Repeat
    width_sd_mm: float
    angle_deg: float
    confidence: float
    repeats: float
    profile_srgb: npt.NDArray[np.float64]
    starts_px: npt.NDArray[np.float64]
    notes: tuple[str, ...] = ()
    crosswise: "Swatch | None" = None
    weft_skew_percent: float | None = None

    @property
    def even(self) -> bool:
        """Whether the repeat is its own mirror image about some axis."""
        return self.repeat.even


def read_swatch(
    picture: Picture, scale: Scale, part: tuple[float, float, float, float] | None = None, progress: Progress = silent
) -> Swatch:
    """Read the repeat from a picture of known scale, or from the part of it that shows cloth.

    `part` is left, top, right, bottom in px of the file. Raises BadInput if the picture shows no stripes that repeat,
    or is too coarse for them.
    """
    progress(0.0, tr("looking for stripes"))
    view = view_of(picture, scale, part)
    if view.light[view.seen].std(axis=0).max() < 2e-3:
        raise plain_cloth()
    progress(0.2, tr("measuring every repeat in view"))
    first = best_reading(view)
    progress(0.6, tr("telling the colours apart"))
    segments = _cut(first.profile)
    plaid = plaid_of(view, first, segments)
    progress(1.0, "done")
    if plaid.bars is None:
        return _swatch(view, scale, first, segments)
    swatch, bars = (_swatch(view, scale, way, _cut(way.profile)) for way in (plaid.stripes, plaid.bars))
    bars = _along(bars, plaid.skew_percent)
    return replace(swatch, crosswise=bars, weft_skew_percent=plaid.skew_percent)


def _cut(profile: Profile) -> Segments:
    """The stretches of one colour, narrow gaps among them."""
    return with_gaps(profile, find_segments(profile))


def _swatch(view: View, scale: Scale, reading: Reading, segments: Segments) -> Swatch:
    """All that is known of the repeat."""
    repeat, start_px = repeat_of(segments, view.mm_per_px)
    unclear, colours = unexplained(reading.profile, segments), colours_of(reading, segments, repeat)
    across = srgb_of(reading.profile.evenly(PROFILE_PLACES))
    shift = round(start_px / reading.profile.width * PROFILE_PLACES)
    return Swatch(
        repeat=repeat,
        width_sd_mm=math.hypot(reading.period_sd * view.mm_per_px, scale.share_sd * repeat.width),
        angle_deg=math.degrees(reading.angle),
        confidence=confidence_in(reading, unclear, colours),
        repeats=reading.repeats,
        profile_srgb=np.roll(across, -shift, axis=0),
        starts_px=reading.starts(view, start_px),
        notes=tuple(doubts_about(reading, unclear, colours, view.mm_per_px)),
    )


def _along(bars: Swatch, skew_percent: float) -> Swatch:
    """Bars with lengths along the stripes, that were measured square across the bars."""
    longer = math.hypot(1, skew_percent / 100)
    return replace(bars, repeat=scaled_repeat(bars.repeat, longer), width_sd_mm=bars.width_sd_mm * longer)
