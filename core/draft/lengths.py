"""Lengths as people write them: 40, 70cm, 70,5 cm, 25in, 2 1/4yd, 2¼ yd, 5ft 3in."""

import re
import unicodedata

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM
from core.wording import later, tr

MM_PER_INCH = 25.4

_MM_PER = {
    "": 1.0,
    "mm": 1.0,
    "cm": 10.0,
    "m": 1000.0,
    "in": MM_PER_INCH,
    "inch": MM_PER_INCH,
    "inches": MM_PER_INCH,
    '"': MM_PER_INCH,
    "″": MM_PER_INCH,
    "ft": 12 * MM_PER_INCH,
    "'": 12 * MM_PER_INCH,
    "′": 12 * MM_PER_INCH,
    "yd": 36 * MM_PER_INCH,
    "yds": 36 * MM_PER_INCH,
    "yard": 36 * MM_PER_INCH,
    "yards": 36 * MM_PER_INCH,
}
_WHOLE, _SHARE = r"(?P<whole>\d+(?:[.,]\d+)?)", r"(?P<over>\d+)\s*[/⁄]\s*(?P<under>\d+)"
_SHARE_ALONE = _SHARE.replace("P<", "P<only_")
_PART = re.compile(rf"\s*(?:{_SHARE_ALONE}|{_WHOLE}(?:\s+{_SHARE})?)\s*(?P<unit>[^\W\d]+|[\"'″′])?")
_RIGHT = later("a length such as 640, 64cm, 25 1/2in or 2 1/4yd is right")


def length_mm(text: str) -> float:
    """The length that a text gives, mm; without a unit it is in mm, several parts with units add up.

    Raises BadInput for anything else.
    """
    plain = _without_small_fractions(text)
    parts, at = [], 0
    while found := _PART.match(plain, at):
        parts.append(found)
        at = found.end()
    if not parts or plain[at:].strip() or (len(parts) > 1 and not all(part["unit"] for part in parts)):
        raise BadInput(tr("{given!r} is no length", given=text[:40]), right=tr(_RIGHT))
    value = sum(_value(part, text) for part in parts)
    if value > LARGEST_MM:
        raise BadInput(
            tr("{given!r} is longer than {largest_mm:g} m", given=text[:40], largest_mm=LARGEST_MM / 1000),
            right=tr(_RIGHT),
        )
    return value


def _value(part: re.Match[str], text: str) -> float:
    unit = (part["unit"] or "").lower()
    if unit not in _MM_PER:
        raise BadInput(
            tr("{given!r} has an unknown unit {unit!r}", given=text[:40], unit=unit),
            right=tr("mm, cm, m, in, ft and yd are right"),
        )
    over, under = part["over"] or part["only_over"], part["under"] or part["only_under"]
    if under and int(under) == 0:
        raise BadInput(tr("{given!r} has a fraction over 0", given=text[:40]), right=tr(_RIGHT))
    number = float((part["whole"] or "0").replace(",", ".")) + (int(over) / int(under) if over and under else 0.0)
    return number * _MM_PER[unit]


def _without_small_fractions(text: str) -> str:
    """The text with characters such as ¼ written as 1/4, parted from the whole number before them."""
    return "".join(
        " " + unicodedata.normalize("NFKC", sign) if unicodedata.decomposition(sign).startswith("<fraction>") else sign
        for sign in text
    )
