"""Numbers and captions as they stand on the screen."""

from core.seams.readings import SeamReading

DASH = "–"
_UNBROKEN = "\u00a0"


def figure(value: float | None, signed: bool = False, decimals: int = 1) -> str:
    """A number rounded to some decimals, with a true minus sign; a dash where there is none."""
    if value is None:
        return DASH
    text = f"{abs(value):.{decimals}f}"
    if float(text) == 0:
        return text
    return ("−" if value < 0 else "+" if signed else "") + text


def seam_in_words(reading: SeamReading) -> str:
    """What a seam's readings come to, in one line."""
    if reading.rms_mm is None or reading.worst is None:
        return "No part of this seam counts: it is open or not seen from end to end."
    size, height = reading.worst
    parts = (
        f"rms {figure(reading.rms_mm)} mm",
        f"worst {figure(size)} mm, {figure(height, decimals=0)} mm down",
        f"the step drifts {figure(abs(reading.drift_mm_per_m))} mm per m",
    )
    return "  ·  ".join(part.replace(" ", _UNBROKEN) for part in parts)


def what_can_meet(reading: SeamReading) -> str:
    """A warning where not every stripe can meet, else nothing."""
    if reading.all_stripes_meet_at_zero:
        return ""
    return "The repeat is uneven and the edges lean opposite ways: only the lead stripe can meet here."
