"""The mismatch of seams in a placement: step at any height, rms, worst, drift, crossings, agreement, remedies.

All formulas are those of the design: with w = u - k v the coordinate across the stripes, c the matched axis and P the
true period, p = w - c on either side of a seam; step = wrap(p_a - p_b) where the edges lean alike, wrap(p_a + p_b)
where they lean opposite ways. A crosswise reading is the same of the bars: with their coordinate z for w and their
repeat for the stripes'.
"""

import math
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import Literal

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import WAYS, Cloth, Repeat, Way
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Flags, Garment, SeamLine
from core.seams.stripes import Across, Ints, band_borders, crossing_heights, kinds_at, wrap
from core.wording import tr

STRAIGHT_MM = 1e-6
"""An edge whose net change of w is smaller than this leans neither way."""

READING_EVERY_MM = 100.0


@dataclass(frozen=True)
class Reading:
    """The step at one height, mm; `counts` is False where the seam is open or not seen."""

    at_mm: float
    step_mm: float
    counts: bool


@dataclass(frozen=True)
class Crossing:
    """One stripe that meets the seam on both sides: the two heights, their difference, the step at a's height, mm."""

    stripe: str
    a_at_mm: float
    b_at_mm: float
    step_mm: float

    @property
    def along_gap_mm(self) -> float:
        """How far apart along the seam the two ends of the stripe meet it: b's height less a's, mm."""
        return self.b_at_mm - self.a_at_mm


@dataclass(frozen=True, eq=False)
class SeamReading:
    """Everything to be read off one seam in one placement, of its stripes or of its bars, as `way` says.

    `w_a` and `w_b` are the coordinates across them at the line's heights; `raw` is the step there before it is wrapped;
    between heights all three are linear (to `BENT_MM` where bars are bowed), which makes every figure exact for the
    polylines. rms, worst and the height of the worst are None where no part of the seam counts.
    """

    line: SeamLine
    cloth: Cloth
    repeat: Repeat
    w_a: Floats
    w_b: Floats
    lean: Literal["alike", "opposite"]
    raw: Floats
    way: Way = "lengthwise"

    @classmethod
    def of(cls, line: SeamLine, at_a: Placement, at_b: Placement, way: Way = "lengthwise") -> "SeamReading | None":
        """Read a seam one way, or None where there is nothing to match that way."""
        repeat = line.cloth.repeat_of(way) if line.cloth else None
        if line.cloth is None or repeat is None:
            return None
        w_a = Across.of(at_a, line.cloth, way)(line.a)
        w_b = Across.of(at_b, line.cloth, way)(line.b)
        alike = bool(lean_alike(w_a[-1] - w_a[0], w_b[-1] - w_b[0]))
        raw = w_a - w_b if alike else w_a + w_b - 2 * repeat.c
        return cls(line, line.cloth, repeat, w_a, w_b, "alike" if alike else "opposite", raw, way)

    @property
    def label(self) -> str:
        """The seam's label, and that it is its bars that are read where it is."""
        return label_of(self.line, self.way)

    @property
    def period(self) -> float:
        """P, mm."""
        return self.repeat.period

    @property
    def net_changes(self) -> tuple[float, float]:
        """Change of w from top to bottom on a and on b, mm."""
        return float(self.w_a[-1] - self.w_a[0]), float(self.w_b[-1] - self.w_b[0])

    @property
    def leans_deg(self) -> tuple[float, float]:
        """How far each edge leans against the stripes on the whole, degrees; positive towards the right selvedge."""
        a, b = (math.degrees(math.asin(max(-1.0, min(1.0, d / self.line.length)))) for d in self.net_changes)
        return a, b

    def step_at(self, height: Floats) -> Floats:
        """Steps at heights, mm, in [-P/2, P/2)."""
        return wrap(np.interp(height, self.line.height, self.raw), self.period)

    @cached_property
    def mean_square(self) -> float | None:
        """Mean of the squared step over the counted length, mm2, integrated exactly."""
        spans = np.diff(self.line.height) * self.line.counted_parts
        total = spans.sum()
        return float(np.sum(spans * mean_wrapped_square(self.raw, self.period)) / total) if total > 0 else None

    @property
    def rms_mm(self) -> float | None:
        """Root mean square of the step over the counted length."""
        return None if self.mean_square is None else math.sqrt(max(self.mean_square, 0.0))

    @cached_property
    def worst(self) -> tuple[float, float] | None:
        """The largest |step| on the counted length and its height, mm."""
        parts = self.line.counted_parts
        if not parts.any():
            return None
        turns = np.floor(self.raw / self.period + 0.5)
        flips = parts & (turns[:-1] != turns[1:])
        if flips.any():
            return self.period / 2, self._first_flip(int(np.argmax(flips)))
        ends = np.concatenate([parts, [False]]) | np.concatenate([[False], parts])
        sizes = np.where(ends, np.abs(wrap(self.raw, self.period)), -1.0)
        index = int(np.argmax(sizes))
        return float(sizes[index]), float(self.line.height[index])

    def _first_flip(self, part: int) -> float:
        start, end = float(self.raw[part]), float(self.raw[part + 1])
        turn = math.floor(start / self.period + 0.5) + (0.5 if end > start else -0.5)
        share = min(max((turn * self.period - start) / (end - start), 0.0), 1.0)
        low, high = self.line.height[part : part + 2]
        return float(low + share * (high - low))

    @property
    def drift_mm_per_m(self) -> float:
        """Rate at which the step, before it is wrapped, changes down the whole seam, mm per m."""
        return float(self.raw[-1] - self.raw[0]) / self.line.length * 1000

    @property
    def easing_ratio(self) -> float | None:
        """Share of its length by which b would be eased to bring its crossings to a's heights.

        Stripes meet an edge L / |net change| apart per mm of repeat, so the ratio is |change of a| / |change of b| - 1:
        positive where b is the longer and is eased in, negative where a is. None where b runs along the stripes.
        """
        a, b = self.net_changes
        return abs(a) / abs(b) - 1 if abs(b) > STRAIGHT_MM else None

    @property
    def shift_mm(self) -> float | None:
        """The largest seam shift d that would close the seam: half the worst step; None where edges lean alike.

        None of bars too: they run across the seam, and moving its line hardly changes their step.
        """
        closes = self.lean == "opposite" and self.way == "lengthwise"
        return self.worst[0] / 2 if closes and self.worst else None

    def readings(self, heights: tuple[float, ...] | None) -> tuple[Reading, ...]:
        """Steps at the heights named, or at the top, every 100 mm and the bottom."""
        at = _heights_on(self.line.length, heights)
        steps = self.step_at(at)
        return tuple(Reading(float(h), float(s), self.line.counts(float(h))) for h, s in zip(at, steps, strict=True))

    @cached_property
    def crossings(self) -> tuple[Crossing, ...]:
        """For every kind of stripe the centre lines that reach the seam on both sides, paired from the best pair on."""
        kinds = self.repeat.kinds
        places = np.array([self.repeat.origin + stripe.at for kind in kinds for stripe in kind])
        kind_of = np.repeat(np.arange(len(kinds)), [len(kind) for kind in kinds])
        (a, place_a), (b, place_b) = self._met(places)
        pairs = [_paired(a[kind_of[place_a] == k], b[kind_of[place_b] == k]) for k in range(len(kinds))]
        steps = self.step_at(np.concatenate([pair[0] for pair in pairs])).tolist()
        names = [kind[0].name for kind, pair in zip(kinds, pairs, strict=True) for _ in pair[0]]
        heights = [np.concatenate(side).tolist() for side in zip(*pairs, strict=True)]
        return tuple(Crossing(*values) for values in zip(names, *heights, steps, strict=True))

    @cached_property
    def agreement(self) -> float:
        """Share of the sewn length along which both sides show the same kind of stripe, or both the ground."""
        line, borders = self.line, band_borders(self.repeat)
        (a, _), (b, _) = self._met(borders)
        cuts = np.sort(np.concatenate([line.height, a, b]))
        middle, span = (cuts[:-1] + cuts[1:]) / 2, np.diff(cuts)
        part = np.clip(np.searchsorted(line.height, middle, side="right") - 1, 0, len(line.height) - 2)
        span = span * line.sewn_parts[part]
        kinds = kinds_at(self.repeat, np.stack([np.interp(middle, line.height, w) for w in (self.w_a, self.w_b)]))
        total = float(span.sum())
        return float(np.sum(span * (kinds[0] == kinds[1]))) / total if total > 0 else 1.0

    def _met(self, places: Floats) -> tuple[tuple[Floats, Ints], tuple[Floats, Ints]]:
        """Where lines at places, recurring every nominal repeat, meet a and b."""
        height, width = self.line.height, self.repeat.width
        return crossing_heights(height, self.w_a, places, width), crossing_heights(height, self.w_b, places, width)

    @property
    def all_stripes_meet_at_zero(self) -> bool:
        """Whether a zero step means that every stripe meets: an even repeat, or edges that lean alike."""
        return self.repeat.even or self.lean == "alike"


@dataclass(frozen=True, eq=False)
class Measurement:
    """The readings of all seams in one placement; None stands for a seam with nothing to match that way.

    `seams` are read by the lengthwise stripes, `crosswise` by the bars, both in the order of the garment's seams; a
    step of bars counts `crosswise_weight` times as much as one of stripes.
    """

    garment: Garment
    seams: tuple[SeamReading | None, ...]
    crosswise: tuple[SeamReading | None, ...]
    crosswise_weight: float = 1.0

    @cached_property
    def rms_mm(self) -> float | None:
        """The garment's figure: sqrt(sum(weight * rms^2) / sum(weight)); None where nothing is matched.

        Each seam counts once for each way in which it has a figure, crosswise with `crosswise_weight` times its weight.
        """
        crosswise = [(weight * self.crosswise_weight, square) for weight, square in _squares(self.crosswise)]
        return _root_mean([*_squares(self.seams), *crosswise])

    def rms_of(self, way: Way) -> float | None:
        """The figure of one way alone; None where nothing is matched that way."""
        return _root_mean(_squares(self.readings_of(way)))

    def readings_of(self, way: Way) -> tuple[SeamReading | None, ...]:
        """The readings of all seams one way."""
        return self.seams if way == "lengthwise" else self.crosswise

    @cached_property
    def main(self) -> tuple[SeamReading | None, ...]:
        """Of every seam its lengthwise reading, or the crosswise one where its cloth has bars only."""
        pairs = zip(self.seams, self.crosswise, strict=True)
        return tuple(bars if stripes is None else stripes for stripes, bars in pairs)

    @cached_property
    def worse(self) -> tuple[SeamReading | None, ...]:
        """Of every seam the reading whose largest step is larger: that of its stripes, or that of its bars."""
        return tuple(max(pair, key=_largest) for pair in zip(self.seams, self.crosswise, strict=True))

    @property
    def read(self) -> tuple[SeamReading, ...]:
        """All readings there are: those of stripes, then those of bars."""
        return tuple(reading for reading in (*self.seams, *self.crosswise) if reading is not None)


def _largest(reading: SeamReading | None) -> float:
    """The largest step of a reading, mm; less than any where there is none."""
    if reading is None:
        return -2.0
    return reading.worst[0] if reading.worst else -1.0


def _squares(readings: tuple[SeamReading | None, ...]) -> list[tuple[float, float]]:
    """Weight and mean square step, mm2, of the seams that have one."""
    return [(r.line.sewn.seam.weight, r.mean_square) for r in readings if r and r.mean_square is not None]


def _root_mean(squares: list[tuple[float, float]]) -> float | None:
    total = sum(weight for weight, _ in squares)
    return math.sqrt(max(sum(weight * square for weight, square in squares) / total, 0.0)) if total > 0 else None


def measure(project: Project, garment: Garment | None = None) -> Measurement:
    """Read every seam for the placements in the project; pass its garment if you have it already."""
    garment = garment or Garment.of(project)
    seams, crosswise = (tuple(read_seam(project, line, way) for line in garment.seams) for way in WAYS)
    return Measurement(garment, seams, crosswise, project.match.crosswise_weight)


def read_seam(project: Project, line: SeamLine, way: Way = "lengthwise") -> SeamReading | None:
    """Read one seam one way for the placements in the project."""
    a, b = line.panels
    return _reading(line, project.placement(a), project.placement(b), way)


@lru_cache(maxsize=256)
def _reading(line: SeamLine, at_a: Placement, at_b: Placement, way: Way) -> SeamReading | None:
    """A reading is the same wherever it is asked for: what has been worked out on it needn't be again."""
    return SeamReading.of(line, at_a, at_b, way)


def remeasure(before: Measurement, project: Project, moved: frozenset[PanelName]) -> Measurement:
    """The measurement after some panels moved: only their seams are read again."""
    seams, crosswise = list(before.seams), list(before.crosswise)
    for index, line in enumerate(before.garment.seams):
        if moved.intersection(line.panels):
            seams[index] = read_seam(project, line)
            crosswise[index] = read_seam(project, line, "crosswise")
    return Measurement(before.garment, tuple(seams), tuple(crosswise), before.crosswise_weight)


def label_of(line: SeamLine, way: Way) -> str:
    """What a seam read one way is called: its label, and that it is its bars where it is."""
    return line.sewn.label if way == "lengthwise" else tr("{label}, bars", label=line.sewn.label)


def lean_alike(change_a: Floats, change_b: Floats) -> Flags:
    """Whether two edges lean alike, from their net changes of w, mm; works on arrays of one shape."""
    straight = np.minimum(np.abs(change_a), np.abs(change_b)) < STRAIGHT_MM
    return np.asarray((change_a * change_b > 0) | straight)


def mean_wrapped_square(raw: Floats, period: float) -> Floats:
    """Exact means of wrap(x)^2 over each stretch on which x runs linearly from raw[i] to raw[i + 1].

    Works along the last axis: shape (..., n) gives (..., n - 1). With F the antiderivative of wrap(x)^2,
    F(x) = n P^3 / 12 + wrap(x)^3 / 3 where n is the nearest whole number of periods, the mean is
    (F(end) - F(start)) / (end - start).
    """
    start, end = raw[..., :-1], raw[..., 1:]
    base = np.floor(start / period + 0.5)
    start, end = start - base * period, end - base * period
    span = end - start
    steady = np.abs(span) < 1e-5 * period
    turns = np.floor(end / period + 0.5)
    rest = end - turns * period
    rise = turns * (period**3 / 12) + (rest * rest * rest - start * start * start) / 3
    middle = wrap((start + end) / 2, period)
    return np.where(steady, middle * middle + span * span / 12, rise / np.where(steady, 1.0, span))


def _heights_on(length: float, heights: tuple[float, ...] | None) -> Floats:
    if heights is not None:
        return np.array([min(height, length) for height in heights if height <= length + 1e-6])
    every = np.arange(0.0, length - 1e-6, READING_EVERY_MM)
    return np.concatenate([every, [length]])


def _paired(a: Floats, b: Floats) -> tuple[Floats, Floats]:
    """Two ascending lists of heights paired in order, starting from the two that lie closest together."""
    if not len(a) or not len(b):
        return a[:0], b[:0]
    above = np.clip(np.searchsorted(b, a), 0, len(b) - 1)
    below = np.maximum(above - 1, 0)
    nearest = np.where(np.abs(b[below] - a) <= np.abs(b[above] - a), below, above)
    i = int(np.argmin(np.abs(b[nearest] - a)))
    j = int(nearest[i])
    before, after = min(i, j), min(len(a) - i, len(b) - j)
    return a[i - before : i + after], b[j - before : j + after]
