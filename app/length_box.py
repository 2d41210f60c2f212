"""A field for a place or a length: shows it in the unit of the workbench, takes it in any."""

import math

from PySide6.QtCore import QSignalBlocker, Qt, Signal
from PySide6.QtGui import QValidator
from PySide6.QtWidgets import QDoubleSpinBox

from app import units
from app.figures import figure, step
from app.theme import TARGET
from core.draft.lengths import length_mm
from core.errors import BadInput
from core.geometry.paths import LARGEST_MM

_STEP_MM = {"mm": 1.0, "cm": 1.0, "in": units.INCH_MM / 16}
_MINUS = "-\u2212"


class LengthBox(QDoubleSpinBox):
    """Its value is mm. Arrow keys and the wheel step by a millimetre or a sixteenth of an inch."""

    def __init__(self, name: str, tip: str, least_mm: float = -LARGEST_MM) -> None:
        super().__init__(toolTip=tip, keyboardTracking=False)
        self._name = name
        self.setDecimals(3)
        self.setRange(least_mm, LARGEST_MM)
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.setMinimumHeight(TARGET)
        self.setFixedWidth(92)
        self.show_unit()

    def show_unit(self) -> None:
        """Follow a change of the unit."""
        name = units.shown().name
        self.setAccessibleName(f"{self._name}, {name}")
        self.setSingleStep(_STEP_MM[name])
        self.setSuffix(f" {name}")
        with QSignalBlocker(self):
            self.setValue(self.value())
        self.lineEdit().setText(self.textFromValue(self.value()) + self.suffix())

    def textFromValue(self, value: float) -> str:
        """The length in the unit shown, without its name."""
        return step(value)

    def valueFromText(self, text: str) -> float:
        """Mm. What was shown stands for the value it may have rounded; what can't be read changes nothing."""
        if text == self.textFromValue(self.value()) + self.suffix():
            return self.value()
        try:
            return typed_mm(text.removesuffix(self.suffix()))
        except BadInput:
            return self.value()

    def validate(self, text: str, at: int) -> tuple[QValidator.State, str, int]:
        """Anything may stand there while it is being typed; only a length is taken."""
        try:
            typed_mm(text.removesuffix(self.suffix()))
        except BadInput:
            return QValidator.State.Intermediate, text, at
        return QValidator.State.Acceptable, text, at

    def fixup(self, text: str) -> str:
        """What can't be read gives way to what stood there."""
        return self.textFromValue(self.value()) + self.suffix()


class DegreeBox(QDoubleSpinBox):
    """An angle, degrees; typed with a point or a comma. `limited`: one beyond the limits was brought inside."""

    limited = Signal()

    def __init__(self, name: str, tip: str, most_deg: float = 180.0) -> None:
        super().__init__(accessibleName=name, toolTip=tip, keyboardTracking=False, decimals=2)
        self.setRange(-most_deg, most_deg)
        self.setSingleStep(0.05)
        self.setSuffix("°")
        self.setAlignment(Qt.AlignmentFlag.AlignRight)
        self.setMinimumHeight(TARGET)

    def textFromValue(self, value: float) -> str:
        """With a true minus sign."""
        return figure(value, decimals=2)

    def valueFromText(self, text: str) -> float:
        """Degrees; what can't be read changes nothing."""
        value = _number(text)
        return self.value() if value is None else value

    def validate(self, text: str, at: int) -> tuple[QValidator.State, str, int]:
        """Anything may stand there while it is being typed; only an angle inside the limits is taken."""
        value = _number(text)
        inside = value is not None and self.minimum() - 1e-9 <= value <= self.maximum() + 1e-9
        return QValidator.State.Acceptable if inside else QValidator.State.Intermediate, text, at

    def fixup(self, text: str) -> str:
        """What is beyond the limits is brought inside; what can't be read gives way to what stood there."""
        value = _number(text)
        if value is not None and not self.minimum() <= value <= self.maximum():
            self.limited.emit()
        value = self.value() if value is None else min(max(value, self.minimum()), self.maximum())
        return self.textFromValue(value) + self.suffix()


def _number(text: str) -> float | None:
    plain = text.strip().removesuffix("°").strip().replace("\u2212", "-").replace(",", ".")
    try:
        value = float(plain)
    except ValueError:
        return None
    return value if math.isfinite(value) else None


def typed_mm(text: str) -> float:
    """A length as typed, mm: below zero too, with a point or a comma, in any unit; a bare one in the unit shown.

    Raises BadInput.
    """
    bare = text.strip()
    sign = -1.0 if bare[:1] and bare[0] in _MINUS else 1.0
    bare = bare.lstrip(_MINUS + "+").strip()
    has_unit = any(letter.isalpha() or letter in "\"'″′" for letter in bare)
    return sign * length_mm(bare if has_unit else f"{bare} {units.shown().name}")
