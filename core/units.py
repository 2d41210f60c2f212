"""Lengths as numbers to read: millimetres, centimetres, or inches with fractions to a sixteenth."""

from dataclasses import dataclass
from typing import Literal

from core.wording import number, tr

UnitName = Literal["mm", "cm", "in"]

SIXTEENTHS = 16
INCH_MM = 25.4


def mm(value: float) -> str:
    """A length to a tenth of a millimetre, without a negative zero."""
    return number(value, 1)


@dataclass(frozen=True)
class Units:
    """One way of writing lengths, used for a whole page. Values are always given in mm."""

    name: UnitName = "mm"

    @property
    def title(self) -> str:
        """The unit in words."""
        return {"mm": tr("millimetres"), "cm": tr("centimetres"), "in": tr("inches")}[self.name]

    @property
    def nothing_mm(self) -> float:
        """Half of the last place: what is smaller is written as nothing."""
        return INCH_MM / SIXTEENTHS / 2 if self.name == "in" else 0.05

    @property
    def ruler_mm(self) -> float:
        """What a ruler counts by: ten millimetres, a centimetre, an inch."""
        return INCH_MM if self.name == "in" else 10.0

    @property
    def rate_name(self) -> str:
        """The unit of a change along a seam."""
        return {"mm": "mm/m", "cm": "cm/m", "in": "in/yd"}[self.name]

    def bare(self, value: float) -> str:
        """A length without its unit: a tenth of a millimetre, a hundredth of a centimetre, a sixteenth of an inch."""
        if self.name == "in":
            return _sixteenths(value)
        return mm(value) if self.name == "mm" else number(value / 10, 2)

    def decimal(self, value: float, places: int = 1) -> str:
        """A length for a table that is read by programs: mm to so many places, cm one more, inches two; no unit."""
        size, more = {"mm": (1.0, 0), "cm": (10.0, 1), "in": (INCH_MM, 2)}[self.name]
        return f"{round(value / size, places + more) + 0.0:.{places + more}f}"

    def say(self, value: float) -> str:
        """A length with its unit."""
        return f"{self.bare(value)} {self.name}"

    def say_whole(self, value: float) -> str:
        """A height with its unit."""
        return f"{self.whole(value)} {self.name}"

    def fine(self, value: float) -> str:
        """A step, which is small: hundredths of a millimetre, thousandths of a centimetre or an inch; no unit."""
        if abs(value) >= 100 and self.name != "in":
            return self.whole(value)
        if self.name == "mm":
            return number(value, 2)
        return number(value / (10 if self.name == "cm" else INCH_MM), 3)

    def say_fine(self, value: float) -> str:
        """A step with its unit."""
        return f"{self.fine(value)} {self.name}"

    def whole(self, value: float) -> str:
        """A height down a seam, to a millimetre or a sixteenth of an inch; no unit."""
        if self.name == "in":
            return _sixteenths(value)
        return f"{round(value) + 0:d}" if self.name == "mm" else number(value / 10, 1)

    def rate(self, per_m: float) -> str:
        """A change of mm in a metre; no unit."""
        if self.name == "in":
            return number(per_m * 0.9144 / INCH_MM, 3)
        return self.bare(per_m)

    def ruled(self, count: int) -> str:
        """A number on a ruler: so many times `ruler_mm`."""
        return f"{count * 10}" if self.name == "mm" else f"{count}"


MM = Units()
"""How lengths are written where nothing else was chosen, as on the command line."""


def _sixteenths(value: float) -> str:
    """Inches, "3 5/16"; the fraction in its lowest terms."""
    count = round(abs(value) / INCH_MM * SIXTEENTHS)
    whole, part = divmod(count, SIXTEENTHS)
    sign = "-" if value < 0 and count else ""
    if not part:
        return f"{sign}{whole}"
    size = SIXTEENTHS
    while part % 2 == 0:
        part, size = part // 2, size // 2
    return f"{sign}{whole} {part}/{size}" if whole else f"{sign}{part}/{size}"
