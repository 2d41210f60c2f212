"""How rulers are divided and numbered in the unit shown."""

from app import units
from app.figures import length
from app.words import localised

_STEPS_MM = tuple(mantissa * 10**power for power in range(-1, 5) for mantissa in (1, 2, 5))
_STEPS_INCH = (
    (1 / 8, 2),
    (1 / 4, 4),
    (1 / 2, 4),
    (1, 8),
    (3, 3),
    (6, 6),
    (12, 12),
    (36, 6),
    (72, 6),
    (144, 12),
)
"""Inches from figure to figure, and the parts between them."""


def divided(scale_px: float, apart_px: float) -> tuple[float, int]:
    """Mm from figure to figure, which are at least `apart_px` apart at a scale of px per mm; parts between them."""
    if units.shown().name == "in":
        steps = ((inches * units.INCH_MM, parts) for inches, parts in _STEPS_INCH)
        last = _STEPS_INCH[-1][0] * units.INCH_MM, _STEPS_INCH[-1][1]
        return next((step for step in steps if step[0] * scale_px >= apart_px), last)
    mm = next((mm for mm in _STEPS_MM if mm * scale_px >= apart_px), _STEPS_MM[-1])
    return mm, 10 if mm * scale_px >= 120 or str(mm)[0] == "1" else 5 if str(mm)[0] == "5" else 4


def ruled(mm: float) -> str:
    """The figure at a place of a ruler, without its unit."""
    if units.shown().name == "in":
        return length(mm).replace("-", "\u2212")
    value = round(mm / units.size_mm(), 3)
    return localised(f"{value:g}".replace("-", "\u2212"))
