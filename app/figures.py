"""Numbers and captions as they stand on the screen."""

from app import units
from app.words import localised, tr
from core.seams.readings import SeamReading

DASH = "–"
_UNBROKEN = "\u00a0"


def figure(value: float | None, signed: bool = False, decimals: int = 1) -> str:
    """A number rounded to some decimals, with a true minus sign; a dash where there is none."""
    if value is None:
        return DASH
    text = f"{abs(value):.{decimals}f}"
    sign = "" if float(text) == 0 else "−" if value < 0 else "+" if signed else ""
    return sign + localised(text)


def step(value: float | None, signed: bool = False) -> str:
    """A step or a place, given in mm, in the unit shown: to a tenth of a mm, or a thousandth of an inch."""
    return figure(None if value is None else value / units.size_mm(), signed, units.step_decimals())


def length(value: float | None) -> str:
    """A length or height, given in mm, in the unit shown: to a mm, or a sixteenth of an inch."""
    return DASH if value is None else units.shown().whole(value)


def drift(value: float | None, signed: bool = False) -> str:
    """A change of mm per m, in the unit shown, per metre or per yard."""
    name = units.shown().name
    share = 0.9144 / units.INCH_MM if name == "in" else 1 / units.size_mm()
    return figure(None if value is None else value * share, signed, units.step_decimals())


def rms(value: float, signed: bool = False) -> str:
    """A garment's figure, given in mm: to a place more than steps, but in inches; with its unit."""
    return f"{fine(value, signed)} {unit()}"


def fine(value: float | None, signed: bool = False) -> str:
    """A garment's figure, given in mm, without its unit; a dash where there is none."""
    size = None if value is None else value / units.size_mm()
    return figure(size, signed, min(units.step_decimals() + 1, 3))


def unit() -> str:
    """The unit shown."""
    return units.shown().name


def seam_in_words(reading: SeamReading) -> str:
    """What a seam's readings come to, in one line."""
    if reading.rms_mm is None or reading.worst is None:
        return tr("No part of this seam counts: it is open or not seen from end to end.")
    size, height = reading.worst
    parts = (
        tr("rms {step} {unit}").format(step=step(reading.rms_mm), unit=unit()),
        tr("worst {step} {unit}, {length} {unit} down").format(step=step(size), unit=unit(), length=length(height)),
        tr("the step drifts {drift} {rate}", drift=drift(abs(reading.drift_mm_per_m)), rate=_rate_in_words()),
    )
    return "  ·  ".join(part.replace(" ", _UNBROKEN) for part in parts)


def _rate_in_words() -> str:
    return {"mm": tr("mm per m"), "cm": tr("cm per m"), "in": tr("in per yd")}[units.shown().name]


def what_can_meet(reading: SeamReading) -> str:
    """A warning where not every stripe can meet, else nothing."""
    if reading.all_stripes_meet_at_zero:
        return ""
    if reading.way == "crosswise":
        return tr("The bars' repeat is uneven and the edges lean opposite ways: only the lead bar can meet here.")
    return tr("The repeat is uneven and the edges lean opposite ways: only the lead stripe can meet here.")
