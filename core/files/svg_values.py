"""Values of SVG attributes: lengths (in pixels, 96 to the inch), lists of numbers, transforms, view boxes."""

import math
import re
from collections.abc import Sequence

import numpy as np

from core.errors import BadInput
from core.geometry.paths import Points
from core.wording import later, tr

_NUMBER = r"[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?"
_LENGTH = re.compile(rf"({_NUMBER})\s*([a-zA-Z%]*)")
_TRANSFORM = re.compile(r"[\s,]*([a-zA-Z]+)\s*\(([^()]*)\)")
_PIXELS = {"": 1.0, "px": 1.0, "in": 96.0, "cm": 96 / 2.54, "mm": 96 / 25.4, "pt": 96 / 72, "pc": 16.0, "q": 96 / 101.6}

LARGEST = 1e7
"""No number in a drawing of a pattern is larger than this."""

IDENTITY: Points = np.array([[1.0, 0.0, 0.0], [0.0, 1.0, 0.0]])


def pixels(text: str, whole: float) -> float:
    """A length in pixels; `whole` is what 100 % stands for. Raises BadInput for anything that is no length."""
    found = _LENGTH.fullmatch(text.strip())
    if not found:
        raise BadInput(
            tr("{given!r} is no length", given=text[:30]),
            right=tr("a number with mm, cm, in, pt, px or nothing is right"),
        )
    if found[2] == "%":
        return bounded(float(found[1]) / 100 * whole)
    if found[2].lower() not in _PIXELS:
        raise BadInput(
            tr("the unit {found!r} has no fixed size", found=found[2][:10]), right=tr("mm, cm, in, pt or px is right")
        )
    return bounded(float(found[1]) * _PIXELS[found[2].lower()])


def numbers(text: str) -> list[float]:
    """A list of numbers parted by blanks or commas. Raises BadInput."""
    if re.sub(_NUMBER, " ", text).strip(" \t\r\n\f,"):
        raise BadInput(
            tr("{found!r} is no list of numbers", found=text.strip()[:40]),
            right=tr("numbers parted by blanks or commas are right"),
        )
    return [bounded(float(word)) for word in re.findall(_NUMBER, text)]


def bounded(value: float) -> float:
    """The number itself. Raises BadInput if it is not finite, or larger than anything in a pattern."""
    if not abs(value) <= LARGEST:
        raise BadInput(
            tr("the number {value:g} is too large", value=value),
            right=tr("up to {largest:g} is right", largest=LARGEST),
        )
    return value


def combined(outer: Points, inner: Points) -> Points:
    """The map that applies `inner` first, then `outer`; all of shape (2, 3). Raises BadInput if it enlarges too far."""
    both = np.hstack([outer[:, :2] @ inner[:, :2], (outer[:, :2] @ inner[:, 2] + outer[:, 2])[:, None]])
    bounded(float(np.abs(both).max()))
    return both


def transform(text: str) -> Points:
    """The map that a `transform` attribute stands for; shape (2, 3). Raises BadInput."""
    matrix, position = IDENTITY, 0
    while text[position:].strip(" \t\r\n\f,"):
        found = _TRANSFORM.match(text, position)
        if not found:
            raise BadInput(
                tr("transform {found!r} can't be read", found=text[position:].strip()[:30]), right=tr(_TRANSFORMS)
            )
        matrix = combined(matrix, _one_transform(found[1], numbers(found[2])))
        position = found.end()
    return matrix


_TRANSFORMS = later("matrix, translate, scale, rotate, skewX and skewY are right")


def _one_transform(name: str, values: Sequence[float]) -> Points:
    match name, list(values):
        case "matrix", [a, b, c, d, e, f]:
            return np.array([[a, c, e], [b, d, f]])
        case "translate", [x, *rest] if len(rest) < 2:
            return np.array([[1.0, 0.0, x], [0.0, 1.0, rest[0] if rest else 0.0]])
        case "scale", [x, *rest] if len(rest) < 2:
            return np.array([[x, 0.0, 0.0], [0.0, rest[0] if rest else x, 0.0]])
        case "rotate", [angle]:
            return _rotated(math.radians(angle))
        case "rotate", [angle, x, y]:
            there, back = np.array([[1.0, 0.0, x], [0.0, 1.0, y]]), np.array([[1.0, 0.0, -x], [0.0, 1.0, -y]])
            return combined(combined(there, _rotated(math.radians(angle))), back)
        case "skewX", [angle]:
            return np.array([[1.0, math.tan(math.radians(angle)), 0.0], [0.0, 1.0, 0.0]])
        case "skewY", [angle]:
            return np.array([[1.0, 0.0, 0.0], [math.tan(math.radians(angle)), 1.0, 0.0]])
    raise BadInput(
        tr("transform {name!r} with {count} numbers", name=name[:20], count=len(values)), right=tr(_TRANSFORMS)
    )


def _rotated(angle: float) -> Points:
    return np.array([[math.cos(angle), -math.sin(angle), 0.0], [math.sin(angle), math.cos(angle), 0.0]])


def fitted(box: Sequence[float], width: float, height: float, aspect: str) -> Points:
    """The map of a view box (x, y, width, height) onto a viewport, as `preserveAspectRatio` asks; shape (2, 3)."""
    x, y, box_width, box_height = box
    across, down = width / box_width, height / box_height
    if "none" in aspect:
        return np.array([[across, 0.0, -x * across], [0.0, down, -y * down]])
    scale = max(across, down) if "slice" in aspect else min(across, down)
    spare_x, spare_y = width - scale * box_width, height - scale * box_height
    share_x = 0.0 if "xMin" in aspect else 1.0 if "xMax" in aspect else 0.5
    share_y = 0.0 if "YMin" in aspect else 1.0 if "YMax" in aspect else 0.5
    return np.array([[scale, 0.0, share_x * spare_x - x * scale], [0.0, scale, share_y * spare_y - y * scale]])
