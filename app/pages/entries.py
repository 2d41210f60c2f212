"""What is typed, chosen or ticked on a page. Every entry gives its value by `read`, and says when it was changed.

What stands in it, right or wrong, it gives by `stands` as plain data for a file, and takes back by `stand_again`.
"""

import math
from collections.abc import Sequence
from typing import Any

import msgspec
from PySide6.QtCore import QSize, QTimer, Signal
from PySide6.QtGui import QColor, QIcon, QPixmap
from PySide6.QtWidgets import (
    QCheckBox,
    QColorDialog,
    QComboBox,
    QLineEdit,
    QPushButton,
    QSpinBox,
    QStyle,
    QStyleOptionComboBox,
    QWidget,
)

from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, TARGET
from app.words import localised, tr
from core.errors import BadInput

HIGH = TARGET + GRID
MOST_WIDE = 72 * GRID
"""A choice is as wide as its longest text, but not wider than this."""
_MINUS = "-\u2212"


class Standing:
    """An entry in which nothing but its value can stand."""

    def stands(self) -> Any:
        """What stands there."""
        return self.read()

    def stand_again(self, stood: Any) -> None:
        """Have it stand there again."""
        self.show_value(stood)


class Words(QLineEdit):
    """A line of text."""

    edited = Signal()

    def __init__(self, name: str, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent)
        self.setAccessibleName(name)
        self.setMinimumHeight(HIGH)
        self.textChanged.connect(self.edited)

    def read(self) -> str:
        """What stands there, without blanks round it."""
        return self.text().strip()

    def show_value(self, value: str) -> None:
        """Show a text."""
        self.setText(value)

    def stands(self) -> Any:
        """The text, also one that means nothing."""
        return self.text()

    def stand_again(self, stood: Any) -> None:
        """Have the text stand there again."""
        self.setText(stood)


class Length(Words):
    """A length as people write it; without a unit it is in the page's."""

    def __init__(self, name: str, mm: float | None = None, placeholder: str = "", needed: bool = True) -> None:
        super().__init__(name)
        self._unit, self._needed = MM, needed
        self._exact: tuple[str, float | None] = ("", None)
        """The text that was last shown and the length it stands for, which it may round."""
        self.setPlaceholderText(placeholder)
        self.show_value(mm)

    def read(self) -> float | None:
        """The length, mm; None where nothing stands and nothing must. Raises BadInput."""
        text = self.text().strip()
        if text and text == self._exact[0]:
            return self._exact[1]
        if text:
            return self._read(text)
        if self._needed:
            raise BadInput(tr("a length is missing"), right=tr(self._unit.example))
        return None

    def _read(self, text: str) -> float:
        try:
            return self._unit.read(text)
        except BadInput as error:
            raise BadInput(error.what, right=tr(self._unit.example)) from None

    def show_value(self, value: float | None) -> None:
        """Show a length, mm."""
        text = "" if value is None else self._text(value)
        self._exact = text, value
        self.setText(text)

    def _text(self, mm: float) -> str:
        return self._unit.text(mm)

    def stands(self) -> Any:
        """The text, and the length it stands for where it was not typed, mm."""
        text = self.text().strip()
        return [self.text(), self._exact[1] if text == self._exact[0] else None]

    def stand_again(self, stood: Any) -> None:
        """Have the text stand there again, for the same length."""
        text, mm = stood
        self._exact = ("", None) if mm is None else (text.strip(), mm)
        self.setText(text)

    def show_unit(self, unit: LengthUnit) -> None:
        """Count in another unit; what stands there stays the same length."""
        try:
            mm = self.read()
        except BadInput:
            self._unit = unit
            return
        self._unit = unit
        if self.text().strip():
            self.show_value(mm)

    @property
    def meaning(self) -> str:
        """The length in the page's unit where it was typed in another, else nothing."""
        text = self.text().strip()
        if not text or not self._unit.is_foreign(text):
            return ""
        try:
            return f"{self._unit.text(self._unit.read(text))} {self._unit.name}"
        except BadInput:
            return ""


class SignedLength(Length):
    """A length that may be below zero: to the other side."""

    def _read(self, text: str) -> float:
        back = text[:1] in _MINUS
        return -super()._read(text[1:].strip()) if back else super()._read(text)

    def _text(self, mm: float) -> str:
        return _MINUS[1] + super()._text(-mm) if mm < 0 else super()._text(mm)


class Number(Words):
    """A number with a decimal point or comma, within limits."""

    def __init__(
        self,
        name: str,
        value: float | None,
        limits: tuple[float, float],
        unit: str = "",
        placeholder: str = "",
        needed: bool = True,
    ) -> None:
        super().__init__(name)
        self._limits, self._of, self._needed = limits, unit, needed
        self.setPlaceholderText(placeholder)
        self.show_value(value)

    def read(self) -> float | None:
        """The number. Raises BadInput if it is none or beyond the limits."""
        text = self.text().strip().replace("\u2212", "-")
        low, high = self._limits
        right = tr("{low:g} to {high:g}{of} is right", low=low, high=high, of=self._of)
        if not text:
            if self._needed:
                raise BadInput(tr("a number is missing"), right=right)
            return None
        try:
            value = float(text.replace(",", "."))
        except ValueError:
            value = math.nan
        if not math.isfinite(value):
            raise BadInput(tr("{text} is no number").format(text=repr(text[:20])), right=right)
        if not low <= value <= high:
            raise BadInput(tr("it is {value:g}{of}", value=value, of=self._of), right=right)
        return value

    def show_value(self, value: float | None) -> None:
        """Show a number."""
        self.setText("" if value is None else localised(f"{value:.6g}".replace("-", "\u2212")))


class Whole(Standing, QSpinBox):
    """A whole number within limits."""

    edited = Signal()

    def __init__(self, name: str, value: int, limits: tuple[int, int]) -> None:
        super().__init__(accessibleName=name)
        self.setRange(*limits)
        self.setValue(value)
        self.setMinimumHeight(HIGH)
        self.valueChanged.connect(lambda _: self.edited.emit())

    def read(self) -> int:
        """The number."""
        return self.value()

    def show_value(self, value: int) -> None:
        """Show a number."""
        self.setValue(value)


class Choice(QComboBox):
    """One of several."""

    edited = Signal()

    def __init__(self, name: str, choices: Sequence[tuple[str, Any]], value: Any = None) -> None:
        super().__init__(accessibleName=name)
        self._waiting: Any = None
        """What is to be chosen as soon as it is offered."""
        self._came = QTimer(self, singleShot=True, interval=0)
        self._came.timeout.connect(self.edited)
        self.setMinimumHeight(HIGH)
        self.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
        self.setMinimumContentsLength(8)
        self.offer(choices)
        self.show_value(value)
        self.currentIndexChanged.connect(lambda _: self.edited.emit())
        self.activated.connect(self._forget_waiting)

    def offer(self, choices: Sequence[tuple[str, Any]]) -> None:
        """Offer these (text, value); the one chosen stays so where it is still there."""
        kept = self.read()
        blocked = self.blockSignals(True)
        self.clear()
        for text, value in choices:
            self.addItem(text, value)
        self.setMinimumWidth(min(self._room_wanted(), MOST_WIDE))
        self.show_value(kept)
        if self._waiting is not None and self._take_waiting():
            self._came.start()
        self.blockSignals(blocked)

    def _room_wanted(self) -> int:
        """How wide it must be to show whatever is chosen, px."""
        option = QStyleOptionComboBox()
        self.initStyleOption(option)
        metrics, texts = self.fontMetrics(), [self.itemText(index) for index in range(self.count())]
        size = QSize(max(map(metrics.horizontalAdvance, texts), default=0), metrics.height())
        return self.style().sizeFromContents(QStyle.ContentsType.CT_ComboBox, option, size, self).width()

    def read(self) -> Any:
        """The value chosen."""
        return self.currentData()

    def show_value(self, value: Any) -> None:
        """Choose a value; the first one where it isn't offered."""
        found = next((index for index in range(self.count()) if self.itemData(index) == value), 0)
        self.setCurrentIndex(found if self.count() else -1)

    def stands(self) -> Any:
        """The value chosen, plain."""
        return msgspec.to_builtins(self.read()) if self._waiting is None else self._waiting

    def stand_again(self, stood: Any) -> None:
        """Choose a value again: now, or when it is offered, which is then said."""
        self._waiting = stood
        self._take_waiting()

    def _take_waiting(self) -> bool:
        offered = [msgspec.to_builtins(self.itemData(index)) for index in range(self.count())]
        if self._waiting not in offered:
            return False
        self.setCurrentIndex(offered.index(self._waiting))
        self._waiting = None
        return True

    def _forget_waiting(self) -> None:
        """A hand has chosen another."""
        self._waiting = None


class Tick(Standing, QCheckBox):
    """Yes or no."""

    edited = Signal()

    def __init__(self, text: str, ticked: bool = False) -> None:
        super().__init__(text, accessibleName=text)
        self.setChecked(ticked)
        self.setMinimumHeight(HIGH)
        self.toggled.connect(lambda _: self.edited.emit())

    def read(self) -> bool:
        """Whether it is ticked."""
        return self.isChecked()

    def show_value(self, value: bool) -> None:
        """Tick it or not."""
        self.setChecked(value)


class Colour(Standing, QPushButton):
    """A colour, shown on a button that asks for another."""

    edited = Signal()

    def __init__(self, name: str, value: str) -> None:
        super().__init__()
        self._name = name
        self.setMinimumHeight(HIGH)
        self.show_value(value)
        self.clicked.connect(self._ask)

    def read(self) -> str:
        """The colour as #rrggbb."""
        return self._value

    def show_value(self, value: str) -> None:
        """Show a colour."""
        self._value = value
        patch = QPixmap(4 * GRID, 4 * GRID)
        patch.fill(QColor(value))
        self.setIcon(QIcon(patch))
        self.setText(value)
        self.setToolTip(tr("{name}: choose another").format(name=self._name))
        self.setAccessibleName(f"{self._name}, {value}")

    def _ask(self) -> None:
        chosen = QColorDialog.getColor(QColor(self._value), self.window(), self._name)
        if chosen.isValid():
            self.show_value(chosen.name())
            self.edited.emit()
