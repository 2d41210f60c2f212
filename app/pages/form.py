"""A form: sections of entries with captions, each with room beside it for what it means or what is wrong with it."""

from collections.abc import Iterable, Iterator
from typing import Any

from PySide6.QtCore import QEvent, QObject, Qt, Signal
from PySide6.QtWidgets import (
    QFormLayout,
    QGridLayout,
    QLabel,
    QLayout,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.pages.entries import Length
from app.pages.lengths import MM, LengthUnit
from app.theme import GRID, ROOMY, SPACE, TARGET, TIGHT, WIDE, Size, current
from core.errors import BadInput

CAPTION_WIDE, ENTRY_WIDE = 30 * GRID, 44 * GRID


class Note(QLabel):
    """Words beside an entry: quiet ones on what it means, or a warning of what is wrong."""

    def __init__(self, text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(text, parent, wordWrap=True)
        self.wrong = False
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.show_theme()

    def say(self, text: str, wrong: bool = False) -> None:
        """Say something."""
        if text != self.text() or wrong != self.wrong:
            self.wrong = wrong
            self.setText(text)
            self.show_theme()

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.setFont(current().font(Size.SMALL))
        palette = self.palette()
        palette.setColor(self.foregroundRole(), current().colour("warning" if self.wrong else "quiet"))
        self.setPalette(palette)


class Field:
    """An entry with its caption and its note."""

    def __init__(self, caption: str, entry: Any, hint: str = "", tip: str = "") -> None:
        self.caption, self.entry, self.hint, self.tip = caption, entry, hint, tip or hint
        self.label = QLabel(caption, buddy=entry)
        self.label.setMinimumHeight(entry.minimumHeight())
        self.note = Note(hint)
        entry.setToolTip(self.tip)
        self.shown = True

    @property
    def problem(self) -> str:
        """What is wrong with it, or nothing."""
        return self.note.text() if self.note.wrong else ""

    def read(self) -> Any:
        """The entry's value; what is wrong stands beside it. Raises BadInput with the caption as its place."""
        try:
            value = self.entry.read()
        except BadInput as error:
            self.complain(error)
            raise BadInput(error.what, self.caption, error.right) from None
        self.say((isinstance(self.entry, Length) and self.entry.meaning) or self.hint)
        return value

    def complain(self, error: BadInput) -> None:
        """Say beside it what is wrong."""
        self.note.say("; ".join(part for part in (error.what, error.right) if part), wrong=True)
        self.entry.setAccessibleDescription(self.note.text())

    def say(self, text: str) -> None:
        """Say beside it what it means."""
        self.note.say(text)
        self.entry.setAccessibleDescription(text)

    def set_shown(self, shown: bool) -> None:
        """Show it or leave it out."""
        self.shown = shown
        for part in (self.label, self.entry, self.note):
            part.setVisible(shown)


class Section(QWidget):
    """A heading with what belongs under it; one that folds begins folded."""

    def __init__(self, title: str, folds: bool = False) -> None:
        super().__init__()
        self.fields: list[Field] = []
        self.body = QWidget()
        self.grid = QGridLayout(self.body)
        self.grid.setContentsMargins(0, 0, 0, 0)
        self.grid.setHorizontalSpacing(SPACE)
        self.grid.setVerticalSpacing(TIGHT)
        self.grid.setColumnMinimumWidth(0, CAPTION_WIDE)
        self.grid.setColumnMinimumWidth(1, ENTRY_WIDE)
        self.grid.setColumnStretch(2, 1)
        self.head = self._folding_head(title) if folds else QLabel(title)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(TIGHT)
        column.addWidget(self.head)
        column.addWidget(self.body)
        self.show_theme()

    def _folding_head(self, title: str) -> QToolButton:
        head = QToolButton(text=title, accessibleName=title, checkable=True, autoRaise=True)
        head.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        head.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        head.setMinimumHeight(TARGET)
        head.toggled.connect(self._fold)
        self.body.hide()
        head.setArrowType(Qt.ArrowType.RightArrow)
        return head

    def _fold(self, is_open: bool) -> None:
        self.head.setArrowType(Qt.ArrowType.DownArrow if is_open else Qt.ArrowType.RightArrow)
        self.body.setVisible(is_open)

    def unfold(self) -> None:
        """Open it, if it folds."""
        if isinstance(self.head, QToolButton):
            self.head.setChecked(True)

    @property
    def unfolded(self) -> bool:
        """Whether it folds and is open."""
        return isinstance(self.head, QToolButton) and self.head.isChecked()

    def add(self, field: Field) -> Field:
        """Put a field on the next row."""
        row = self.grid.rowCount()
        top = Qt.AlignmentFlag.AlignTop
        self.grid.addWidget(field.label, row, 0, top)
        self.grid.addWidget(field.entry, row, 1, top)
        self.grid.addWidget(field.note, row, 2, Qt.AlignmentFlag.AlignVCenter)
        self.fields.append(field)
        return field

    def add_row(self, caption: str, row: QLayout) -> None:
        """Put several widgets side by side on the next row, under a caption that may be empty."""
        line = self.grid.rowCount()
        if caption:
            self.grid.addWidget(QLabel(caption), line, 0)
        self.grid.addLayout(row, line, 1 if caption else 0, 1, 2 if caption else 3)

    def add_wide(self, widget: QWidget) -> QWidget:
        """Put a widget on the next row across all columns."""
        self.grid.addWidget(widget, self.grid.rowCount(), 0, 1, 3)
        return widget

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.head.setFont(current().font(Size.NORMAL, bold=True))


class Form(QWidget):
    """Sections one below the other. `edited` is said at every change of an entry."""

    edited = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.sections: list[Section] = []
        self.unit = MM
        self.narrowest = 0
        """Its width where it scrolls, px; 0 where another form holds it."""
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(WIDE, ROOMY, WIDE, WIDE)
        self._column.setSpacing(WIDE)
        self._column.setAlignment(Qt.AlignmentFlag.AlignTop)

    def event(self, event: QEvent) -> bool:
        """Be as high as the words need, so that nothing is squeezed where the page scrolls."""
        done = super().event(event)
        if self.narrowest and event.type() == QEvent.Type.LayoutRequest:
            high = self._column.totalHeightForWidth(self.narrowest)
            if high != self.minimumHeight():
                self.setMinimumHeight(high)
        return done

    def section(self, title: str, folds: bool = False) -> Section:
        """A new section at the end."""
        section = Section(title, folds)
        self.sections.append(section)
        self._column.addWidget(section)
        return section

    def follow(self, *entries: QObject) -> None:
        """Say `edited` whenever one of these entries is."""
        for entry in entries:
            entry.edited.connect(self.edited)

    @property
    def fields(self) -> list[Field]:
        """All fields, in order."""
        return [field for section in self.sections for field in section.fields]

    def read(self, fields: Iterable[Field]) -> list[Any]:
        """The values of fields; every one that is wrong says so. Raises the first BadInput."""
        values, wrong = [], []
        for field in fields:
            try:
                values.append(field.read())
            except BadInput as error:
                wrong.append(error)
        if wrong:
            raise wrong[0]
        return values

    def complain(self, field: Field, error: BadInput) -> None:
        """Say beside a field what is wrong with it, and bring its section into sight."""
        field.complain(error)
        for section in self.sections:
            if field in section.fields:
                section.unfold()

    def show_unit(self, unit: LengthUnit) -> None:
        """Count lengths in another unit."""
        self.unit = unit
        blocked = self.blockSignals(True)
        for entry in self.findChildren(Length):
            entry.show_unit(unit)
        self.blockSignals(blocked)

    # --- what stands there

    def stands(self) -> dict[str, Any]:
        """What stands in the entries, right or wrong, as plain data for a file, and which sections are open."""
        entries = [[type(entry).__name__, entry.stands()] for entry in _entries(self)]
        return {"entries": entries, "open": [section.unfolded for section in self.sections]}

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Have it stand there again; nothing where it was another form's. `edited` is not said."""
        entries = list(_entries(self))
        if [type(entry).__name__ for entry in entries] != [kind for kind, _ in stood["entries"]]:
            return
        for section in (section for section, is_open in zip(self.sections, stood["open"], strict=False) if is_open):
            section.unfold()
        blocked = self.blockSignals(True)
        for entry, (_, value) in zip(entries, stood["entries"], strict=True):
            entry.stand_again(value)
        self.blockSignals(blocked)


def _entries(of: QObject) -> Iterator[Any]:
    """All below a form in which something can stand, in the order in which it was put there; a whole table is one."""
    for child in of.children():
        if hasattr(child, "stands"):
            yield child
        elif not getattr(child, "in_another", False):
            yield from _entries(child)


def add_row(form: QFormLayout, caption: str, field: QWidget) -> None:
    """Add a field to a dialog, its caption level with it however high it is."""
    label = QLabel(caption, buddy=field)
    label.setMinimumHeight(field.sizeHint().height())
    form.addRow(label, field)
