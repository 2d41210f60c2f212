"""The unit in which a page's lengths are counted: what a bare number means there, and how lengths are written."""

from dataclasses import dataclass
from fractions import Fraction

from app.words import later, localised, number
from core.draft.lengths import MM_PER_INCH, length_mm
from core.units import UnitName

_SIXTEENTH_MM = 0.005
"""A length this close to a sixteenth of an inch is written as one."""


@dataclass(frozen=True)
class LengthUnit:
    """A unit of length."""

    name: UnitName
    mm: float
    example: str

    def read(self, text: str) -> float:
        """The length that a text gives, mm; a bare number counts in this unit. Raises BadInput."""
        bare = not any(sign.isalpha() or sign in "\"'″′" for sign in text)
        return length_mm(f"{text} {self.name}" if bare else text)

    def is_foreign(self, text: str) -> bool:
        """Whether a text names a unit that is not this one."""
        return any(sign.isalpha() or sign in "\"'″′" for sign in text) and not text.strip().endswith(self.name)

    def text(self, mm: float) -> str:
        """A length without its unit, as short as it can be."""
        if self is INCH and (fraction := _fraction(mm / MM_PER_INCH)):
            return fraction
        return localised(f"{mm / self.mm:.4f}".rstrip("0").rstrip("."))

    def told(self, mm: float) -> str:
        """A length to a tenth of a mm, with its unit."""
        decimals = 1 if self is MM else 2
        return f"{number(mm / self.mm, decimals)} {self.name}"

    def fine(self, mm: float, sign: str = "") -> str:
        """A length to a thousandth of a mm or finer, with its unit; with a sign of its own where `sign` is `+`."""
        decimals = 3 if self is MM else 4
        return localised(f"{mm / self.mm:{sign}.{decimals}f} {self.name}".replace("-", "\u2212"))


MM = LengthUnit("mm", 1.0, later("a length such as 640 or 25 1/2in is right"))
CM = LengthUnit("cm", 10.0, later("a length such as 64,5 or 25 1/2in is right"))
INCH = LengthUnit("in", MM_PER_INCH, later("a length such as 25 1/2 or 64cm is right"))
UNITS = (MM, CM, INCH)


def _fraction(inches: float) -> str:
    """Inches with a fraction in sixteenths at most, such as `25 1/2`; empty where they are no such number."""
    share = Fraction(round(inches * 16), 16)
    if abs(float(share) - inches) * MM_PER_INCH > _SIXTEENTH_MM:
        return ""
    whole, rest = divmod(share, 1)
    if rest == 0:
        return str(whole)
    return f"{whole} {rest}" if whole else str(rest)
