"""How surely the colours of stripes are known.

Of a stripe narrower than the picture's blur only its width times its contrast is seen: a stronger colour on a narrower
stripe looks the same. How far the two can be told apart follows from what plain stripes leave of the profile, more at
some places than at others: the covariance of an estimate by least squares (White, Econometrica 48, 1980).
"""

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.model.cloth import Repeat
from core.swatch.colour import difference, hex_of, lab_of
from core.swatch.profile import Profile
from core.swatch.reading import Reading
from core.swatch.stripes import Segments, shapes, step

Array = npt.NDArray[np.float64]

NOTABLE = 1.5
"""A colour known no better, CIEDE2000, may well be three off, which is seen."""
_PLAIN_MISFIT = 0.0005
"""What a lens and a sensor leave at the least of the model of a blur, linear light."""
_STEP_PX = 0.01
_FOLDED = 6.0
"""How many times less surely colours are known where cloth has a fold: beside it repeats lie bent, and in shade."""


@dataclass(frozen=True)
class Colours:
    """How surely a repeat's colours are known.

    `worst_sd` is the greatest standard deviation, CIEDE2000; `unsure` are the names of stripes known worse than
    `NOTABLE`; `ground` tells whether the ground is among what is known worse.
    """

    worst_sd: float
    unsure: tuple[str, ...] = ()
    ground: bool = False


def colours_of(reading: Reading, segments: Segments, repeat: Repeat) -> Colours:
    """How surely the colours of the repeat that the segments make are known."""
    every = colour_sd(reading.profile, segments) * (_FOLDED if reading.flat.folds else 1.0)
    shown = {hex_of(light): every[kind] for light, kind in zip(segments.light, segments.kind, strict=True)}
    unsure = tuple(stripe.name for stripe in repeat.stripes if shown[stripe.colour] > NOTABLE)
    return Colours(float(every.max()), unsure, bool(shown[repeat.ground] > NOTABLE))


def colour_sd(profile: Profile, segments: Segments) -> Array:
    """Standard deviation (kinds,), CIEDE2000, of every kind's colour: edges, blur and colours are unknown at once."""
    number, kinds = len(segments.edges), int(segments.kind.max()) + 1
    slopes, left = _slopes(profile, segments), _left(profile, segments)
    inverse = np.linalg.pinv(slopes.T @ slopes)
    spread = inverse @ (slopes.T * left @ slopes) @ inverse
    out = np.zeros(kinds)
    for kind in range(kinds):
        at = number + 1 + kind + kinds * np.arange(3)
        out[kind] = _apart(segments.light[int(np.argmax(segments.kind == kind))], spread[np.ix_(at, at)])
    return out


def _left(profile: Profile, segments: Segments) -> Array:
    """Variance (3 n,) of the profile about the segments, weighed: edges leave more than plain cloth."""
    seen = shapes(profile.places, segments.edges, segments.width, segments.blur)
    left = profile.weight[:, None] * (profile.light - seen @ segments.light) ** 2
    return np.asarray(left.ravel() + _PLAIN_MISFIT**2)


def _slopes(profile: Profile, segments: Segments) -> Array:
    """How the profile (3 n,) changes with the edges, the blur, and the kinds' red, green, blue; weighed."""
    edges, width, blur, light = segments.edges, segments.width, segments.blur, segments.light
    seen = shapes(profile.places, edges, width, blur)
    tie = np.eye(int(segments.kind.max()) + 1)[segments.kind]
    jumps = light - np.roll(light, 1, axis=0)
    off = (profile.places[:, None] - edges + width / 2) % width - width / 2
    steep = (step(off + _STEP_PX, blur) - step(off - _STEP_PX, blur)) / (2 * _STEP_PX)
    by_edge = -steep[:, None, :] * jumps.T
    wider = shapes(profile.places, edges, width, blur * (1 + _STEP_PX))
    by_blur = ((wider - seen) @ light / (_STEP_PX * blur))[..., None]
    by_colour = np.einsum("nk,cd->ncdk", seen @ tie, np.eye(3)).reshape(len(seen), 3, -1)
    slopes = np.concatenate([by_edge, by_blur, by_colour], axis=2)
    return np.asarray((np.sqrt(profile.weight)[:, None, None] * slopes).reshape(3 * len(seen), -1))


def _apart(light: Array, spread: Array) -> float:
    """How far apart look a colour and one that lies a standard deviation off, the way it is known least."""
    sizes, ways = np.linalg.eigh(spread)
    ways = ways * np.sqrt(np.maximum(sizes, 0))
    near = np.clip(np.concatenate([light + ways.T, light - ways.T]), 0, 1)
    return float(difference(lab_of(near), lab_of(light)).max())
