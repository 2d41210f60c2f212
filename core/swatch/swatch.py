"""The repeat of a striped cloth from a picture of it."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.model.cloth import Repeat
from core.progress import Progress, silent
from core.swatch.colour import srgb_of
from core.swatch.direction import Direction, Upright, find_directions, turned_upright, upright_range
from core.swatch.period import Bands, Fit, bands_of, first_period, fit_repeats, true_multiple
from core.swatch.picture import Picture
from core.swatch.profile import Profile, profile_of
from core.swatch.repeat import repeat_of
from core.swatch.scale import Scale, View, mapped, view_of
from core.swatch.stripes import find_segments, plain_cloth
from core.wording import tr

LEAST_EXPLAINED = 0.5
"""What a repeat must at least account for, of all that varies across the stripes."""
SURELY_EXPLAINED = 0.7
NOTABLY_ASTRAY = 0.25
ENOUGH_REPEATS = 5.0
"""With fewer repeats in view a fold along the stripes can hide in them, or pass for part of a longer repeat."""
EVEN_SHARE = 0.0007
"""Repeats whose mean is known no better than to this share of their width do not lie flat, or differ on the cloth."""
PROFILE_PLACES = 480


@dataclass(frozen=True, eq=False)
class Swatch:
    """A repeat read from a picture, and how well.

    `width_sd_mm` is the standard deviation of the repeat's width as the repeats in view scatter; the scale's own error
    comes on top. `angle_deg` is how the stripes lean from upright in the picture, clockwise, -45 to 135: stripes within
    45 degrees of upright are read from left to right, others from top to bottom. `confidence`, 0 to 1, is the share of
    all that varies across the stripes that the repeat accounts for, less where few repeats are in view, where some were
    left out, and where their width scatters. `profile_srgb` (n, 3), 0 to 1, is the colour
    across one repeat from its start. `repeats` is how many are in view. `starts_px` (k, 2, 2) are the two ends, px of
    the file, of the lines at which repeats start in the picture.
    """

    repeat: Repeat
    width_sd_mm: float
    angle_deg: float
    confidence: float
    repeats: float
    profile_srgb: npt.NDArray[np.float64]
    starts_px: npt.NDArray[np.float64]
    notes: tuple[str, ...] = ()

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
    reading = _best_reading(view)
    progress(0.6, tr("telling the colours apart"))
    segments = find_segments(reading.profile)
    repeat, start_px = repeat_of(segments, view.mm_per_px)
    progress(1.0, "done")
    return _swatch(view, reading, repeat, start_px)


@dataclass(frozen=True, eq=False)
class _Reading:
    upright: Upright
    bands: Bands
    fit: Fit
    profile: Profile
    times: int
    """So many shorter periods, alike but for small things, make the repeat."""

    @property
    def astray(self) -> float:
        """Share of the places measured that were left out."""
        return 1 - float(self.fit.sound.sum()) / float(np.isfinite(self.fit.off).sum())


def _best_reading(view: View) -> _Reading:
    """The first of the directions found in which the picture repeats itself."""
    error: BadInput | None = None
    for direction in find_directions(view):
        try:
            reading = _reading(view, direction)
        except BadInput as refused:
            error = error or refused
            continue
        if reading.profile.explained >= LEAST_EXPLAINED:
            return reading
    raise error or BadInput(
        tr("the picture is patterned, but no stripes go through it"),
        "swatch",
        tr("a flat piece of striped cloth, seen square on, is right"),
    )


def _reading(view: View, direction: Direction) -> _Reading:
    upright = turned_upright(view, direction.angle)
    bands = bands_of(upright)
    fit = fit_repeats(bands, first_period(bands))
    times = true_multiple(fit)
    if times > 1:
        fit = fit_repeats(bands, times * fit.period)
    return _Reading(upright, bands, fit, profile_of(view, upright, bands, fit), times)


def _swatch(view: View, reading: _Reading, repeat: Repeat, start_px: float) -> Swatch:
    fit, profile = reading.fit, reading.profile
    angle = upright_range(reading.upright.angle - math.atan(fit.lean))
    across = srgb_of(profile.evenly(PROFILE_PLACES))
    shift = round(start_px / profile.width * PROFILE_PLACES)
    repeats = float(np.isfinite(reading.bands.light[..., 0]).any(axis=0).sum()) / fit.period
    return Swatch(
        repeat=repeat,
        width_sd_mm=fit.period_sd * view.mm_per_px,
        angle_deg=math.degrees(angle),
        confidence=_confidence(reading, repeats),
        repeats=repeats,
        profile_srgb=np.roll(across, -shift, axis=0),
        starts_px=_starts(view, reading, start_px),
        notes=tuple(_notes(reading, repeats)),
    )


def _confidence(reading: _Reading, repeats: float) -> float:
    scatter = max(reading.fit.period_sd / reading.fit.period, 1e-9)
    enough = min(1.0, repeats / ENOUGH_REPEATS) * min(1.0, EVEN_SHARE / scatter)
    return min(1.0, reading.profile.explained) * enough * (1 - reading.astray)


def _notes(reading: _Reading, repeats: float) -> Iterator[str]:
    explained, fit = reading.profile.explained, reading.fit
    if repeats < ENOUGH_REPEATS:
        yield (
            tr(
                "only {repeats:.1f} repeats are in view: five or more make the width surer, and a fold along "
                "the stripes could go unnoticed",
                repeats=repeats,
            )
        )
        if reading.times > 1:
            yield (
                tr(
                    "parts of 1/{times} of it differ little: the true repeat may be so much shorter, if the "
                    "cloth does not lie flat",
                    times=reading.times,
                )
            )
    if fit.period_sd > EVEN_SHARE * fit.period:
        yield tr("the repeats in view differ in width: the cloth does not lie flat, or a fold lies along the stripes")
    if reading.astray > NOTABLY_ASTRAY:
        yield (
            tr(
                "{astray:.0f} % of the places measured were left out: the cloth does not lie flat there, and "
                "a fold along the stripes can change the repeat",
                astray=100 * reading.astray,
            )
        )
    if explained < SURELY_EXPLAINED:
        yield tr(
            "the repeat accounts for only {explained:.0f} % of what is seen: check it by ruler",
            explained=100 * explained,
        )


def _starts(view: View, reading: _Reading, start_px: float) -> npt.NDArray[np.float64]:
    """The lines in the file's pixels at which repeats start, from the picture's one side to its other."""
    fit, upright = reading.fit, reading.upright
    rows = upright.light.shape[0]
    middle = float(reading.bands.middles.mean())
    across = fit.start + start_px + (np.arange(-1, fit.cells.shape[1] + 1) + fit.first) * fit.period
    cos, sin = math.cos(upright.angle), math.sin(upright.angle)
    ends = []
    for along in (0.0, float(rows)):
        w = across + fit.lean * (along - middle)
        x = upright.origin[0] + w * cos - along * sin
        y = upright.origin[1] + w * sin + along * cos
        ends.append(mapped(view.to_file, np.column_stack([x, y])))
    return np.stack(ends, axis=1)
