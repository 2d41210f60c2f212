"""The unit in which the whole workbench shows lengths: one choice, kept from day to day."""

from PySide6.QtCore import QSettings

from core.units import INCH_MM, UnitName, Units

NAMES: tuple[UnitName, ...] = ("mm", "cm", "in")
SIZE_MM: dict[UnitName, float] = {"mm": 1.0, "cm": 10.0, "in": INCH_MM}
STEP_DECIMALS: dict[UnitName, int] = {"mm": 1, "cm": 2, "in": 3}
"""Places after the point of steps and of places on the cloth; lengths are in sixteenths where they are in inches."""

_shown: Units | None = None


def shown() -> Units:
    """The unit that was chosen last; mm before that."""
    global _shown
    if _shown is None:
        kept = QSettings().value("unit", "mm")
        _shown = Units(next((name for name in NAMES if name == kept), "mm"))
    return _shown


def choose(name: UnitName) -> None:
    """Show lengths in another unit from now on; whoever shows some asks again."""
    global _shown
    _shown = Units(name)
    QSettings().setValue("unit", name)


def forget() -> None:
    """Look up again what was chosen, as when the settings are others."""
    global _shown
    _shown = None


def size_mm() -> float:
    """Mm in the unit shown."""
    return SIZE_MM[shown().name]


def step_decimals() -> int:
    """Places after the point of a step in the unit shown."""
    return STEP_DECIMALS[shown().name]
