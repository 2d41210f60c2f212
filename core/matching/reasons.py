"""Why a seam is left with the steps it has: what they consist of, and what holds them there."""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from core.geometry.polyline import Floats
from core.model.pattern import PanelName
from core.seams.readings import SeamReading
from core.seams.stripes import wrapped
from core.units import MM, Units
from core.wording import tr

What = Literal["lean", "curve", "ring", "offset", "hold", "tolerance", "centre", "mirror pairs"]

LEAST_SHARE = 0.02
"""Reasons that account for less of a seam's mean squared step are not told."""

LEAST_LEAN_DEG = 0.01

LEAST_MM = 0.005
"""A seam with a smaller figure has nothing left to explain."""


@dataclass(frozen=True)
class Reason:
    """One reason and the share of the seam's mean squared step that it accounts for, 0 to 1.

    What the steps consist of: `lean` - the edges lean unlike by `deg` on the whole, so that the step drifts by
    `drift_mm` down the seam; `curve` - the edges bend unlike; `ring` or `offset` - one step all the way down, because
    the steps round a ring of panels can't all be zero, or because something else keeps the panels there. `mm` is the
    root mean square of that part alone, for `ring` and `offset` the step itself.

    What holds them there: `hold` of `panels`, `tolerance` (`panels` are turned as far as `deg` allows), `centre`,
    `mirror pairs`. Their share is what vanishes when that one is eased and all is matched anew.
    """

    what: What
    share: float
    deg: float | None = None
    mm: float | None = None
    drift_mm: float | None = None
    panels: tuple[PanelName, ...] = ()

    @property
    def is_obstacle(self) -> bool:
        """Whether it is something that the project asks for, not what the steps consist of."""
        return self.what in ("hold", "tolerance", "centre", "mirror pairs")


def parts_of(reading: SeamReading, in_ring: bool) -> tuple[Reason, ...]:
    """What a seam's steps consist of: one step all the way, a drift, and the rest, which bends.

    The step before it is wrapped is split by least squares over the counted length; the three squares add up to its
    mean square. Where it goes beyond half a period and round, no one step is the seam's: the drift is then to blame.
    """
    spans = np.diff(reading.line.height) * reading.line.counted_parts
    if (reading.rms_mm or 0.0) < LEAST_MM:
        return ()
    raw, height = reading.raw, _from_middle(spans, reading.line.height)
    mean, slope = _mean(spans, raw, np.ones_like(raw)), mean_slope(reading)
    drift = slope**2 * _mean(spans, height, height)
    bend = max(_mean(spans, raw - mean, raw - mean) - drift, 0.0)
    offset = 0.0 if _wraps(reading) else float(wrapped(mean, reading.period))
    total = max(offset**2 + drift + bend, 1e-12)
    deg, whole = unlike_deg(reading), slope * reading.line.length
    return (
        Reason("ring" if in_ring else "offset", offset**2 / total, mm=offset),
        Reason("lean", drift / total, deg=deg, mm=math.sqrt(drift), drift_mm=whole),
        Reason("curve", bend / total, mm=math.sqrt(bend)),
    )


def _wraps(reading: SeamReading) -> bool:
    turns = np.floor(reading.raw / reading.period + 0.5)
    return bool(np.any((turns[1:] != turns[:-1]) & reading.line.counted_parts))


def mean_slope(reading: SeamReading) -> float:
    """Mean rate at which the step changes down the length that counts, mm per mm, by least squares.

    On straight edges that lean by a and b it is sin a - sin b.
    """
    spans = np.diff(reading.line.height) * reading.line.counted_parts
    height = _from_middle(spans, reading.line.height)
    return _mean(spans, height, reading.raw) / max(_mean(spans, height, height), 1e-12)


def unlike_deg(reading: SeamReading) -> float:
    """By how much the leans of the two edges differ in the mean, degrees: a - b where sin a - sin b is the slope."""
    a, b = reading.leans_deg
    lean = math.radians((a - b) / 2 if reading.lean == "opposite" else (a + b) / 2)
    return math.degrees(2 * math.asin(max(-1.0, min(1.0, mean_slope(reading) / 2 / math.cos(lean)))))


def _from_middle(spans: Floats, height: Floats) -> Floats:
    """Heights from the middle of the length that counts, mm."""
    return height - _mean(spans, height, np.ones_like(height))


def told(parts: tuple[Reason, ...], obstacles: tuple[Reason, ...]) -> tuple[Reason, ...]:
    """The reasons that matter, in order: what holds more than half of it, what it consists of, lesser obstacles."""
    kept = [one for one in (*parts, *obstacles) if one.share >= LEAST_SHARE or _leans(one)]
    if any(one.is_obstacle and one.share > 0.5 for one in kept):
        kept = [Reason("offset", one.share, mm=one.mm) if one.what == "ring" else one for one in kept]
    return tuple(sorted(kept, key=_order))


def _leans(reason: Reason) -> bool:
    return reason.what == "lean" and abs(reason.deg or 0.0) >= LEAST_LEAN_DEG


def _order(reason: Reason) -> tuple[int, float]:
    rank = 1 if not reason.is_obstacle else 0 if reason.share > 0.5 else 2
    return rank, -reason.share


def _mean(spans: Floats, one: Floats, other: Floats) -> float:
    """Mean of the product of two functions that are linear between heights, over the stretches that count."""
    ends = one[:-1] * other[:-1] + one[1:] * other[1:]
    across = one[:-1] * other[1:] + one[1:] * other[:-1]
    return float(spans @ (ends / 3 + across / 6) / spans.sum())


def in_words(reason: Reason, units: Units = MM) -> str:
    """A reason as a clause."""
    step = units.say_fine(abs(reason.mm or 0))
    panels = tr(" and ").join(reason.panels)
    limited = tr("{panels} turned as far as {deg:g}° allows", panels=panels or tr("panels"), deg=reason.deg or 0)
    drift = units.say(abs(reason.drift_mm or 0))
    words = {
        "lean": tr("the leans differ by {deg:.2f}°, {drift} of drift down it", deg=abs(reason.deg or 0), drift=drift),
        "curve": tr("the edges bend unlike, {step} rms", step=step),
        "ring": tr(
            "a step of {step} all the way down, since the steps round the ring of panels can't all be zero", step=step
        ),
        "offset": tr("a step of {step} all the way down", step=step),
        "hold": tr("{panels} is held", panels=panels),
        "tolerance": limited if reason.deg else tr("no panel may turn off the grain"),
        "centre": tr("what is asked of the centre"),
        "mirror pairs": tr("left and right panels mirror each other"),
    }
    return words[reason.what]
