"""The cloth measured by ruler: its repeat, its width, what it loses in the wash."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

import msgspec
import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.model.cloth import WAYS, Cloth, Remnant, Repeat, Way
from core.wording import tr


@dataclass(frozen=True)
class Count:
    """So many repeats over a length, mm, counted at a place along the cloth, mm from its cut end."""

    repeats: int
    length_mm: float
    at_mm: float = 0.0

    def __post_init__(self) -> None:
        if (
            self.repeats < 1
            or not math.isfinite(self.length_mm)
            or self.length_mm <= 0
            or not math.isfinite(self.at_mm)
        ):
            right = tr("a whole number of repeats over a length above 0 is right")
            raise BadInput(
                tr("{repeats} repeats over {length_mm:g} mm", repeats=self.repeats, length_mm=self.length_mm),
                "count",
                right,
            )

    @property
    def width_mm(self) -> float:
        """The width of one repeat by this count."""
        return self.length_mm / self.repeats


@dataclass(frozen=True)
class CountedRepeat:
    """A repeat by ruler.

    `spread_mm` is how the counts scatter about their mean, `width_sd_mm` how surely that is known; both None for a
    single count. `drift_mm_per_m` is by how much the repeat grows per metre of cloth; None where all counts were made
    at one place.
    """

    width_mm: float
    spread_mm: float | None
    width_sd_mm: float | None
    drift_mm_per_m: float | None

    def off_after(self, repeats: int) -> float | None:
        """How far off, mm (standard deviation), the stripes are that many repeats away; None if it isn't known."""
        return None if self.width_sd_mm is None else repeats * self.width_sd_mm


def counted_repeat(counts: Sequence[Count]) -> CountedRepeat:
    """The repeat from counts at several places; longer counts weigh more, as a ruler is misread by the same on each.

    Raises BadInput without any count, or where one differs from the others so much that a repeat was missed.
    """
    if not counts:
        raise BadInput(tr("there is no count"), "counts", tr("at least one, better three at places far apart"))
    widths = np.array([count.width_mm for count in counts])
    weights = np.array([count.repeats**2 for count in counts], dtype=float)
    mean = float(np.average(widths, weights=weights))
    usual = float(np.median(widths))
    beyond = np.abs(widths - usual) - usual * np.array([_miscounted(count) for count in counts])
    odd = int(np.argmax(beyond))
    if beyond[odd] > 0:
        right = tr("about {length_mm:.0f} repeats would be right there", length_mm=counts[odd].length_mm / usual)
        raise BadInput(
            tr(
                "count {odd} gives {width:.2f} mm, the others about {usual:.2f}",
                odd=odd + 1,
                width=widths[odd],
                usual=usual,
            ),
            "counts",
            right,
        )
    spread, sd = _scatter(widths, weights, mean)
    places = np.array([count.at_mm for count in counts])
    return CountedRepeat(mean, spread, sd, _drift(places, widths, weights))


def _miscounted(count: Count) -> float:
    """The share by which a count may differ from the others before it is more likely that a repeat was missed."""
    return min(0.1, 0.7 / count.repeats)


def _scatter(
    widths: npt.NDArray[np.float64], weights: npt.NDArray[np.float64], mean: float
) -> tuple[float | None, float | None]:
    """Standard deviations of one reading, and of the weighted mean."""
    if len(widths) < 2:
        return None, None
    squares = weights * (widths - mean) ** 2
    of_unit = float(squares.sum()) / (len(widths) - 1)
    return float(np.std(widths, ddof=1)), math.sqrt(of_unit / float(weights.sum()))


def _drift(
    places: npt.NDArray[np.float64], widths: npt.NDArray[np.float64], weights: npt.NDArray[np.float64]
) -> float | None:
    off = places - np.average(places, weights=weights)
    lever = float((weights * off**2).sum())
    return None if np.ptp(places) < 1 else 1000 * float((weights * off * widths).sum()) / lever


def narrowest(widths: Sequence[tuple[float, float, float]]) -> tuple[float, tuple[float, float]]:
    """(width, (left, right selvedge)), mm, that hold everywhere, from readings (width, left, right selvedge) at places.

    The narrowest width and the broadest selvedges count. Raises BadInput without a reading, or if nothing is usable.
    """
    if not widths:
        raise BadInput(tr("no width was measured"), "width", tr("readings at several places, the narrowest counts"))
    width = min(reading[0] for reading in widths)
    left, right = (max(reading[side] for reading in widths) for side in (1, 2))
    if not (math.isfinite(width + left + right) and min(left, right) >= 0 and width - left - right >= 1):
        raise BadInput(
            tr("the selvedges leave no usable width"),
            "width",
            tr("their sum must be less than the narrowest width"),
        )
    return width, (left, right)


@dataclass(frozen=True)
class Shrinkage:
    """What a cloth loses when it is first washed and pressed, percent across (from selvedge to selvedge) and along."""

    across_percent: float
    along_percent: float

    @property
    def factors(self) -> tuple[float, float]:
        """What is left of 1 mm, across and along."""
        return 1 - self.across_percent / 100, 1 - self.along_percent / 100


def shrinkage_of(before: tuple[float, float], after: tuple[float, float]) -> Shrinkage:
    """Shrinkage from a marked square: its sides (across, along), mm, before and after washing; negative if it grew.

    Raises BadInput if a side is not above 0, or lost more than half, or grew by more than a fifth.
    """
    if not all(math.isfinite(side) and side > 0 for side in (*before, *after)):
        raise BadInput(tr("a side of the square is not above 0"), "shrinkage", tr("sides across and along, in mm"))
    across, along = (100 * (1 - late / early) for early, late in zip(before, after, strict=True))
    for name, percent in (("across", across), ("along", along)):
        if not -20 <= percent <= 50:
            raise BadInput(f"{percent:.1f} % {name}", "shrinkage", tr("-20 to 50 % is right: sides before, then after"))
    return Shrinkage(across, along)


def shrunk_repeat(repeat: Repeat, shrinkage: Shrinkage, way: Way = "lengthwise") -> Repeat:
    """The repeat after washing: stripes lose what the cloth loses across, bars what it loses along."""
    return scaled_repeat(repeat, shrinkage.factors[WAYS.index(way)])


def scaled_repeat(repeat: Repeat, factor: float) -> Repeat:
    """The repeat with all its lengths larger by a factor."""
    stripes = tuple(
        msgspec.structs.replace(stripe, at=stripe.at * factor, width=stripe.width * factor) for stripe in repeat.stripes
    )
    return msgspec.structs.replace(repeat, width=repeat.width * factor, origin=repeat.origin * factor, stripes=stripes)


def washed(cloth: Cloth, shrinkage: Shrinkage) -> Cloth:
    """The cloth after washing: all its measures smaller, nothing left to lose."""
    across, along = shrinkage.factors
    return msgspec.structs.replace(
        cloth,
        width=cloth.width * across,
        selvedge=(cloth.selvedge[0] * across, cloth.selvedge[1] * across),
        length=None if cloth.length is None else cloth.length * along,
        skew_mm_per_m=cloth.skew_mm_per_m * across / along,
        flaws=tuple(_smaller(flaw, shrinkage) for flaw in cloth.flaws),
        remnant=None if cloth.remnant is None else _shrunk_remnant(cloth.remnant, shrinkage),
        repeat=None if cloth.repeat is None else shrunk_repeat(cloth.repeat, shrinkage),
        crosswise=None if cloth.crosswise is None else shrunk_repeat(cloth.crosswise, shrinkage, "crosswise"),
        weft_skew_percent=cloth.weft_skew_percent * along / across,
        bow_percent=cloth.bow_percent * along / across,
        shrinkage_percent=0.0,
    )


def _smaller(flaw: tuple[Any, ...], shrinkage: Shrinkage) -> Any:
    """A flaw after washing: its numbers are u and v in turn, or points (u, v)."""
    factors = shrinkage.factors
    return tuple(
        _smaller(part, shrinkage) if isinstance(part, tuple) else part * factors[index % 2]
        for index, part in enumerate(flaw)
    )


def _shrunk_remnant(remnant: Remnant, shrinkage: Shrinkage) -> Remnant:
    outline, *holes = (_smaller(ring, shrinkage) for ring in (remnant.outline, *remnant.holes))
    return Remnant(outline=outline, holes=tuple(holes))
