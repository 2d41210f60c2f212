"""The stripes of one repeat: where one colour ends and the next begins, and which colours there are."""

import math
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.swatch.colour import difference, lab_of
from core.swatch.profile import Profile
from core.wording import tr

Array = npt.NDArray[np.float64]

SAME_COLOUR = 3.0
"""Colours that differ by less, CIEDE2000, are one."""
LEAST_CONTRAST = 4.0
"""Two neighbours that differ by less, CIEDE2000, are one."""
LEAST_WIDTH_PX = 0.6
MOST_STRIPES = 60
_SMOOTH_PX = 0.8


@dataclass(frozen=True, eq=False)
class Segments:
    """One repeat cut into plain stretches: segment i runs from edge i to the next, the last one round to the first.

    Edges (m,) px, ascending, `blur` the Gaussian by which the picture softens them, px; `light` (m, 3) linear colours;
    `kind` (m,) segments of one colour have one number.
    """

    edges: Array
    width: float
    blur: float
    light: Array
    kind: npt.NDArray[np.intp]

    @property
    def widths(self) -> Array:
        """Widths (m,) px."""
        return np.asarray((np.roll(self.edges, -1) - self.edges) % self.width)

    @property
    def centres(self) -> Array:
        """Centres (m,) px, from 0 to below the repeat's width."""
        return np.asarray((self.edges + self.widths / 2) % self.width)


def find_segments(profile: Profile) -> Segments:
    """Cut a repeat into stretches of one colour. Raises BadInput if it is all of one."""
    edges = _merged(profile, _steep_places(profile))
    while True:
        segments = described(profile, edges, np.arange(len(edges)), 0.7)
        weak = _weakest(segments)
        if weak is None:
            break
        edges = _without(segments, weak)
        if len(edges) < 2:
            raise plain_cloth()
    return in_kinds(profile, segments)


def plain_cloth() -> BadInput:
    """The error for a cloth on which no stripe stands out."""
    return BadInput(
        tr("no stripe stands out from its ground"),
        "swatch",
        tr("stripes whose colours differ clearly, in sharp focus, are right"),
    )


def _steep_places(profile: Profile) -> Array:
    """Where the colour changes fastest, px, ascending."""
    from scipy.ndimage import gaussian_filter1d

    number = math.ceil(4 * profile.width)
    step = profile.width / number
    lab = lab_of(gaussian_filter1d(profile.evenly(number), _SMOOTH_PX / step, axis=0, mode="wrap"))
    change = np.linalg.norm(np.roll(lab, -1, axis=0) - np.roll(lab, 1, axis=0), axis=1) / (2 * step)
    least = min(max(0.7, 5 * float(np.percentile(change, 25))), 0.25 * float(change.max()))
    top = (change >= np.roll(change, 1)) & (change > np.roll(change, -1)) & (change > max(least, 0.3))
    if top.sum() < 2:
        raise plain_cloth()
    strongest = np.sort(np.argsort(np.where(top, -change, 0))[: min(int(top.sum()), 2 * MOST_STRIPES)])
    return np.asarray((strongest + 0.5) * step)


def _middle_colours(profile: Profile, edges: Array) -> Array:
    """The colour (m, 3) in the middle third of each stretch."""
    widths = (np.roll(edges, -1) - edges) % profile.width
    out = []
    for edge, width in zip(edges, widths, strict=True):
        off = (profile.places - edge - width / 2 + profile.width / 2) % profile.width - profile.width / 2
        near = np.abs(off) <= max(width / 6, np.abs(off).min())
        out.append(profile.light[near].mean(axis=0))
    return np.array(out)


def _merged(profile: Profile, edges: Array) -> Array:
    """The edges without those on whose two sides the colours look the same."""
    while True:
        lab = lab_of(_middle_colours(profile, edges))
        apart = difference(lab, np.roll(lab, 1, axis=0))
        weakest = int(np.argmin(apart))
        if apart[weakest] >= SAME_COLOUR:
            return edges
        edges = np.delete(edges, weakest)
        if len(edges) < 2:
            raise plain_cloth()


def _weakest(segments: Segments) -> int | None:
    """The segment that is too narrow or too like a neighbour to be one; None if all stand out."""
    lab = lab_of(segments.light)
    apart = difference(lab, np.roll(lab, 1, axis=0))
    nearest = np.minimum(apart, np.roll(apart, -1))
    doubtful = np.where(segments.widths < LEAST_WIDTH_PX, 0, nearest)
    weak = int(np.argmin(doubtful))
    return weak if doubtful[weak] < LEAST_CONTRAST else None


def _without(segments: Segments, weak: int) -> Array:
    """The edges without a weak segment's: one if it goes to the neighbour that it is like, both if it vanishes."""
    number = len(segments.edges)
    lab = lab_of(segments.light)
    before, after = (difference(lab[weak], lab[(weak + side) % number]) for side in (-1, 1))
    between = difference(lab[weak - 1], lab[(weak + 1) % number])
    if between < LEAST_CONTRAST and number > 2:
        return np.delete(segments.edges, [weak, (weak + 1) % number])
    return np.delete(segments.edges, weak if before <= after else (weak + 1) % number)


def shapes(places: Array, edges: Array, width: float, blur: float) -> Array:
    """How much (places, m) of each segment's colour is seen at each place; rows add up to 1."""
    off = places[:, None] - edges
    steps = np.zeros_like(off)
    for turn in (-1, 0, 1):
        steps += step(off - turn * width, blur)
    after = np.roll(steps, -1, axis=1)
    seen = steps - after
    seen[:, -1] += 1
    return seen


def step(off: Array, blur: float) -> Array:
    """What a pixel sees, 0 to 1, whose middle lies `off` px beyond a blurred edge: the mean of what falls on it."""
    from scipy.special import ndtr

    ends = (off[None] + np.array([0.5, -0.5])[:, None, None]) / blur
    total = ends * ndtr(ends) + np.exp(-(ends**2) / 2) / math.sqrt(2 * math.pi)
    return np.asarray(blur * (total[0] - total[1]))


def described(
    profile: Profile, edges: Array, kind: npt.NDArray[np.intp], blur: float, steps: int | None = None
) -> Segments:
    """Edges, blur and colours that describe the profile best; segments of one kind share their colour.

    It starts from those given, and gives up after so many steps, if told.
    """
    from scipy.optimize import least_squares

    places, width, root = profile.places, profile.width, np.sqrt(profile.weight)[:, None]
    tie = np.eye(int(kind.max()) + 1)[kind]
    gaps = (np.roll(edges, -1) - edges) % width
    low, high = edges - 0.45 * np.roll(gaps, 1), edges + 0.45 * gaps

    def colours(values: Array) -> tuple[Array, Array]:
        seen = shapes(places, values[:-1], width, values[-1]) @ tie
        weighed = seen.T * profile.weight
        square = weighed @ seen + 1e-6 * np.eye(seen.shape[1])
        return seen, np.asarray(np.linalg.solve(square, weighed @ profile.light), dtype=float)

    def rest(values: Array) -> Array:
        seen, light = colours(values)
        beyond = np.minimum(light, 0) + np.maximum(light - 1, 0)
        return np.concatenate([(root * (profile.light - seen @ light)).ravel(), 3 * beyond.ravel()])

    most = max(0.6, min(6.0, width / 6))
    start = np.append(edges, min(blur, 0.9 * most))
    bounds = (np.append(low, 0.1), np.append(high, most))
    found = least_squares(rest, start, bounds=bounds, x_scale=0.2, max_nfev=steps).x
    light = np.clip(colours(found)[1], 0, 1)[kind]
    return _from_zero(Segments(found[:-1], width, float(found[-1]), light, kind))


def _from_zero(segments: Segments) -> Segments:
    """The same with edges from 0 to below the width, ascending."""
    edges = segments.edges % segments.width
    order = np.argsort(edges)
    return replace(segments, edges=edges[order], light=segments.light[order], kind=segments.kind[order])


def in_kinds(profile: Profile, segments: Segments) -> Segments:
    """Segments whose colours look the same share one; fine ones may take another's if that describes them as well."""
    kind = _clustered(segments)
    best = described(profile, segments.edges, kind, segments.blur)
    for fine in np.argsort(best.widths):
        if best.widths[fine] > 4 * best.blur or (best.kind == best.kind[fine]).sum() > 1:
            continue
        best = _with_known_colour(profile, best, int(fine))
    return best


def _clustered(segments: Segments) -> npt.NDArray[np.intp]:
    """Kinds (m,), numbered from 0: the widest segments first, each taking the kind that looks like it, or a new one."""
    lab = lab_of(segments.light)
    kind = np.full(len(lab), -1)
    leaders: list[int] = []
    for index in np.argsort(-segments.widths):
        like = [number for number, lead in enumerate(leaders) if difference(lab[index], lab[lead]) < SAME_COLOUR]
        if not like:
            leaders.append(int(index))
        kind[index] = like[0] if like else len(leaders) - 1
    return kind


def _with_known_colour(profile: Profile, segments: Segments, fine: int) -> Segments:
    """The fine segment in the colour of a wider one, where the profile is described no worse by that."""
    number = len(segments.edges)
    beside = {segments.kind[fine - 1], segments.kind[(fine + 1) % number], segments.kind[fine]}
    kept, least = segments, 1.1 * misfit(profile, segments) + 2e-4
    for other in sorted(set(segments.kind.tolist()) - beside):
        kind = segments.kind.copy()
        kind[fine] = other
        kind = np.unique(kind, return_inverse=True)[1]
        tried = described(profile, segments.edges, kind, segments.blur)
        if misfit(profile, tried) < least:
            kept, least = tried, misfit(profile, tried)
    return kept


def misfit(profile: Profile, segments: Segments) -> float:
    """Root mean square of what the segments leave of the profile."""
    seen = shapes(profile.places, segments.edges, segments.width, segments.blur)
    rest = ((profile.light - seen @ segments.light) ** 2).mean(axis=1)
    return float(np.sqrt((profile.weight * rest).mean()))


def unexplained(profile: Profile, segments: Segments) -> float:
    """Share, 0 to 1, of what varies across the repeat that plain stripes, blurred, don't account for."""
    mean = (profile.weight[:, None] * profile.light).mean(axis=0)
    total = float((profile.weight * ((profile.light - mean) ** 2).mean(axis=1)).mean())
    return min(1.0, misfit(profile, segments) ** 2 / max(total, 1e-9))
