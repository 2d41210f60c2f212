"""The step to expect once a placement has been laid, cut and sewn, with its spread, and what matters most in it.

The step at a height is what was planned plus a sum of small independent errors, so it is normally distributed about the
plan; wrapped as every step is, since stripes farther off than half a period meet the next ones.
"""

import math
from dataclasses import dataclass, fields, replace
from functools import cached_property

import numpy as np

from core.forecast.errors import Errors
from core.forecast.sensitivity import columns_of
from core.geometry.polyline import Floats
from core.model.cloth import WAYS
from core.model.pattern import SewnSeam
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import Measurement, SeamReading, measure
from core.seams.stripes import wrap

EVERY_MM = 4.0
"""Heights at which the step is looked at lie about so far apart."""

NODES, NODE_WEIGHTS = np.polynomial.hermite_e.hermegauss(48)

TENTH_MM = 0.1
"""The bit of a planned figure whose worth is told."""


@dataclass(frozen=True, eq=False)
class SeamForecast:
    """What to expect of one seam one way: at heights that count, the step planned and its standard deviation, mm.

    `weight` is what it weighs in the garment's figure; `variances` has, for each kind of error, the part of the squared
    deviation that is due to it, mm2, at each height.
    """

    reading: SeamReading
    heights: Floats
    steps: Floats
    variances: dict[str, Floats]

    weight: float

    @property
    def sewn(self) -> SewnSeam:
        """The seam."""
        return self.reading.line.sewn

    @property
    def label(self) -> str:
        """The seam's name; where bars are read, that too."""
        return self.reading.label

    @cached_property
    def deviations(self) -> Floats:
        """Standard deviation of the step at each height, mm."""
        return np.sqrt(sum(self.variances.values(), np.zeros_like(self.steps)))

    @property
    def deviation_mm(self) -> float:
        """Standard deviation of the step on the whole, mm: its root mean square over the heights."""
        return float(np.sqrt(np.mean(self.deviations**2)))

    @cached_property
    def mean_square(self) -> float:
        """Expected mean of the squared step, mm2."""
        return float(np.mean(expected_square(self.steps, self.deviations, self.reading.period)))

    @property
    def rms_mm(self) -> float:
        """The rms to expect, mm."""
        return math.sqrt(self.mean_square)

    def share_beyond(self, limit_mm: float) -> float:
        """The share of the seam on which the step is to be expected to be larger than a limit, mm."""
        sizes = np.abs(wrap(self.steps[:, None] + self.deviations[:, None] * _EVEN_DRAWS, self.reading.period))
        return float(np.mean(sizes > limit_mm))


@dataclass(frozen=True, eq=False)
class Forecast:
    """What to expect of a garment; seams that have nothing to match or nothing that counts are left out."""

    planned: Measurement
    errors: Errors
    seams: tuple[SeamForecast, ...]

    @cached_property
    def mean_square(self) -> float | None:
        """Expected square of the garment's figure, mm2; None where nothing is matched."""
        weights = [seam.weight for seam in self.seams]
        if not sum(weights):
            return None
        return sum(w * seam.mean_square for w, seam in zip(weights, self.seams, strict=True)) / sum(weights)

    @property
    def rms_mm(self) -> float | None:
        """The garment's figure to expect, mm."""
        return None if self.mean_square is None else math.sqrt(self.mean_square)

    @property
    def shares(self) -> dict[str, float]:
        """What part of the whole spread each kind of error makes, largest first; they add up to 1."""
        found = {field.name: 0.0 for field in fields(Errors)}
        for seam in self.seams:
            for name, variances in seam.variances.items():
                found[name] += seam.weight * float(np.mean(variances))
        total = sum(found.values())
        ranked = sorted(found.items(), key=lambda item: -item[1])
        return {name: value / total if total else 0.0 for name, value in ranked}

    @property
    def tenth_mm(self) -> float | None:
        """By how much the figure to expect would fall if the figure planned were `TENTH_MM` less, mm."""
        figure, expected = self.planned.rms_mm, self.mean_square
        if figure is None or expected is None:
            return None
        less = max(figure - TENTH_MM, 0.0)
        return math.sqrt(expected) - math.sqrt(max(expected - figure**2 + less**2, 0.0))


def forecast(project: Project, errors: Errors | None = None, garment: Garment | None = None) -> Forecast:
    """What to expect of the placements in a project with given errors; pass its garment if you have it already."""
    garment, errors = garment or Garment.of(project), errors or Errors()
    planned = measure(project, garment)
    read = [r for way in WAYS for r in planned.readings_of(way) if r and r.line.counted_parts.any()]
    return Forecast(planned, errors, tuple(_seam(project, garment, reading, errors) for reading in read))


def without(found: Forecast, error: str) -> Forecast:
    """The same forecast if one kind of error were not made at all."""
    seams = tuple(replace(seam, variances={**seam.variances, error: 0.0 * seam.steps}) for seam in found.seams)
    return replace(found, errors=replace(found.errors, **{error: 0.0}), seams=seams)


def _seam(project: Project, garment: Garment, reading: SeamReading, errors: Errors) -> SeamForecast:
    heights = _counted_heights(reading)
    variances: dict[str, Floats] = {}
    for (error, _), column in columns_of(project, garment, reading, heights, errors).items():
        variances[error] = np.asarray(variances.get(error, 0.0) + column**2)
    weight = reading.line.sewn.seam.weight * (project.match.crosswise_weight if reading.way == "crosswise" else 1.0)
    return SeamForecast(reading, heights, reading.step_at(heights), variances, weight)


def _counted_heights(reading: SeamReading) -> Floats:
    """Heights spread evenly over what counts of a seam, each standing for as much of it."""
    line = reading.line
    spans = np.diff(line.height) * line.counted_parts
    done = np.concatenate([[0.0], np.cumsum(spans)])
    number = max(math.ceil(done[-1] / EVERY_MM), 1)
    wanted = (np.arange(number) + 0.5) * done[-1] / number
    part = np.searchsorted(done, wanted, side="right") - 1
    return np.asarray(line.height[part] + wanted - done[part])


def expected_square(mean: Floats, deviation: Floats, period: float) -> Floats:
    """Expected square of a wrapped step that is normally distributed, mm2; arrays of one shape.

    By Gauss-Hermite quadrature, or for a spread broad against the period by the Fourier series of a wrapped square.
    """
    draws = wrap(mean[..., None] + deviation[..., None] * NODES, period)
    narrow = (draws * draws) @ NODE_WEIGHTS / NODE_WEIGHTS.sum()
    n = np.arange(1, 7)
    waves = np.cos(2 * np.pi * n * mean[..., None] / period) * np.exp(
        -2 * (np.pi * n * deviation[..., None] / period) ** 2
    )
    broad = period**2 * (1 / 12 + np.sum((-1.0) ** n * waves / (np.pi * n) ** 2, axis=-1))
    return np.asarray(np.where(deviation < period / 4, narrow, broad))


def _even_draws(number: int) -> Floats:
    """Values of the normal distribution that part it into stretches of equal chance."""
    from statistics import NormalDist

    normal = NormalDist()
    return np.array([normal.inv_cdf((k + 0.5) / number) for k in range(number)])


_EVEN_DRAWS = _even_draws(101)
