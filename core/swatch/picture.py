"""Opening a picture of cloth, never more of it than is needed."""

import math
import warnings
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import numpy.typing as npt
from PIL import Image, ImageOps, UnidentifiedImageError

from core.errors import BadInput
from core.swatch.colour import light_of
from core.wording import tr

MOST_PIXELS = 120_000_000
"""A picture with more is refused."""
KEPT_PIXELS = 6_000_000
"""A picture with more is made smaller by a whole factor."""
FEWEST_PIXELS = 48
"""Least height and width."""

_LIGHT = light_of(np.arange(256) / 255).astype(np.float32)
_BROKEN = (OSError, SyntaxError, ValueError, EOFError, TypeError, IndexError, KeyError, OverflowError, MemoryError)


@dataclass(frozen=True, eq=False)
class Picture:
    """Linear light (height, width, 3), 0 to 1; `factor` pixels of the file in either direction make one of it."""

    light: npt.NDArray[np.float32]
    factor: int = 1


def open_picture(path: Path | str) -> Picture:
    """Read a picture file. Raises BadInput in one line if it is none, broken, too small or too large."""
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")
            with Image.open(path) as image:
                _check_size(str(path), *image.size)
                upright = ImageOps.exif_transpose(image)
                return _reduced(_on_white(upright))
    except BadInput:
        raise
    except UnidentifiedImageError:
        raise BadInput(tr("it is no picture"), str(path), tr("a PNG, JPEG, TIFF or WebP file is right")) from None
    except Image.DecompressionBombError:
        raise _too_large(str(path)) from None
    except _BROKEN as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else tr("it is broken")
        raise BadInput(
            tr("it can't be read ({reason})", reason=reason), str(path), tr("a whole picture file is right")
        ) from None


def picture_of(srgb: npt.NDArray[np.uint8]) -> Picture:
    """A picture from pixels (height, width, 3), sRGB 0 to 255. Raises BadInput if it is too small or too large."""
    _check_size("", srgb.shape[1], srgb.shape[0])
    return _reduced(Image.fromarray(srgb) if srgb.size > 3 * KEPT_PIXELS else srgb)


def _check_size(place: str, width: int, height: int) -> None:
    if min(width, height) < FEWEST_PIXELS:
        right = tr("at least {fewest_pixels} pixels each way, and several repeats in view", fewest_pixels=FEWEST_PIXELS)
        raise BadInput(tr("the picture is only {width} x {height} pixels", width=width, height=height), place, right)
    if width * height > MOST_PIXELS:
        raise _too_large(place)


def _too_large(place: str) -> BadInput:
    right = tr(
        "up to {most_pixels:.0f} million pixels is right: a corner of the cloth will do",
        most_pixels=MOST_PIXELS / 1000000.0,
    )
    return BadInput(tr("the picture is too large"), place, right)


def _on_white(image: Image.Image) -> Image.Image:
    if image.mode.startswith("I"):
        image = Image.fromarray((np.asarray(image, dtype=np.int64) >> 8).clip(0, 255).astype(np.uint8))
    if "A" in image.getbands() or "transparency" in image.info:
        layer = image.convert("RGBA")
        return Image.alpha_composite(Image.new("RGBA", layer.size, "white"), layer).convert("RGB")
    return image.convert("RGB")


def _reduced(image: Image.Image | npt.NDArray[np.uint8]) -> Picture:
    if not isinstance(image, Image.Image):
        return Picture(_LIGHT[image])
    factor = math.ceil(math.sqrt(image.width * image.height / KEPT_PIXELS))
    smaller = image.reduce(factor) if factor > 1 else image
    return Picture(_LIGHT[np.asarray(smaller)], factor)
