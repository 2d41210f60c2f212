"""The colours of a striped cloth, looked up for many places at once and blended where a pixel covers several."""

from functools import lru_cache

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QColor

from core.geometry.polyline import Floats
from core.model.cloth import Repeat
from core.seams.stripes import kinds_at

PLAIN = "#f4f1ea"
"""What a cloth without stripes looks like."""
_PLACES = 8192
"""Places in one repeat whose colours are kept; a power of two."""

Pixels = NDArray[np.uint32]


def colour_of_kind(repeat: Repeat, kind: int) -> QColor:
    """What a kind of stripe looks like; -1 is the ground."""
    return QColor(repeat.ground if kind < 0 else repeat.kinds[kind][0].colour)


def pixels_of(repeat: Repeat, start: Floats, rate: Floats, depth: Floats, pixel_mm: float) -> Pixels:
    """Colours as 0xffRRGGBB at across-coordinates start (m,) + rate (m,) * depth (n,), mm, depths >= 0; shape (m, n).

    Each is blended over `pixel_mm` of w.
    """
    most = float(depth[-1]) * float(np.abs(rate).max(initial=0.0)) + repeat.width
    clear = np.ceil(most / repeat.width) * repeat.width
    per_mm = _PLACES / repeat.width
    first = (((start - repeat.origin) % repeat.width + clear) * per_mm).astype(np.float32)
    places = np.multiply.outer((rate * per_mm).astype(np.float32), depth.astype(np.float32))
    places += first[:, None]
    return _blended(repeat, pixel_mm)[places.astype(np.int32) & (_PLACES - 1)]


def colours_round(repeat: Repeat, pixel_mm: float, places: int) -> Pixels:
    """Colours as 0xffRRGGBB at so many places round one repeat, a power of two, each blended over `pixel_mm` of w."""
    return _blended(repeat, pixel_mm)[_PLACES // places // 2 :: _PLACES // places]


def _blended(repeat: Repeat, pixel_mm: float) -> Pixels:
    return _colours(repeat, round(min(pixel_mm * _PLACES / repeat.width, 4 * _PLACES)))


@lru_cache(maxsize=64)
def _colours(repeat: Repeat, blend: int) -> Pixels:
    """Colours round one repeat, each the mean of `blend` neighbours."""
    kinds = kinds_at(repeat, repeat.origin + (np.arange(_PLACES) + 0.5) * repeat.width / _PLACES)
    palette = np.array([_channels(repeat, kind) for kind in range(-1, len(repeat.kinds))])
    colours = palette[kinds + 1]
    if blend > 1:
        reach = blend // 2
        around = np.take(colours, np.arange(-reach - 1, _PLACES + reach), axis=0, mode="wrap")
        sums = np.cumsum(around, axis=0)
        colours = (sums[2 * reach + 1 :] - sums[: -2 * reach - 1]) / (2 * reach + 1)
    red, green, blue = np.rint(colours).astype(np.uint32).T
    return np.asarray(np.uint32(0xFF000000) | red << 16 | green << 8 | blue, dtype=np.uint32)


def _channels(repeat: Repeat, kind: int) -> tuple[float, float, float]:
    colour = colour_of_kind(repeat, kind)
    return float(colour.red()), float(colour.green()), float(colour.blue())
