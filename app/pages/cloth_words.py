"""What a cloth is, in words."""

from app.pages.lengths import MM, LengthUnit
from core.model.cloth import Cloth, Repeat


def cloth_in_words(cloth: Cloth, unit: LengthUnit = MM) -> str:
    """Width, length, repeat, one line."""
    parts = [f"{unit.told(cloth.width)} wide"]
    parts.append("as much as it takes" if cloth.length is None else f"{unit.told(cloth.length)} long")
    if cloth.repeat is None:
        parts.append("plain")
    else:
        parts.append(f"repeat {unit.told(cloth.repeat.width)}, {'even' if cloth.repeat.even else 'uneven'}")
    if cloth.one_way:
        parts.append("one-way")
    return ", ".join(parts)


def repeat_in_words(repeat: Repeat, unit: LengthUnit = MM) -> str:
    """Whether it is even, which axis is matched, and its true period."""
    axis = unit.told(repeat.axis % repeat.width)
    if repeat.even:
        mirror = f"Even: it is its own mirror image; the axis that is matched lies at {axis}."
    else:
        name = repeat.lead_stripe.name
        mirror = f"Uneven: it has no mirror axis; the middle of {name}, at {axis}, is matched."
    period = f"True period {unit.told(repeat.period)}"
    if abs(repeat.period - repeat.width) < 1e-6:
        return f"{mirror} {period}."
    times = round(repeat.width / repeat.period)
    return f"{mirror} {period}: the pattern comes back {times} times in a repeat."
