"""Units of length that drawings come in."""

from core.errors import BadInput
from core.wording import listed, tr

UNIT_MM = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "pt": 25.4 / 72, "px": 25.4 / 96}
"""Millimetres in one unit; px as the web counts them, 96 to the inch."""


def unit_mm(name: str) -> float:
    """Millimetres in a unit. Raises BadInput for a unit that is not known."""
    if name not in UNIT_MM:
        raise BadInput(
            tr("{name!r} is no unit", name=name[:20]), "units", tr("{unit_mm} are right", unit_mm=listed(UNIT_MM))
        )
    return UNIT_MM[name]
