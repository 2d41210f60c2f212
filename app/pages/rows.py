"""A table whose cells are entries: one row for each stripe, flaw, gore or edge."""

from collections.abc import Callable, Sequence
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLabel, QPushButton, QToolButton, QVBoxLayout, QWidget

from app.icons import icon
from app.pages.form import Note
from app.tabbing import in_order
from app.theme import TARGET, TIGHT, Size, current
from app.words import tr
from core.errors import BadInput

Row = list[Any]


class Rows(QWidget):
    """Rows of entries under headings; where `make` is given, rows can be added and taken out.

    `make(number)` makes the entries of a new row. `edited` is said when an entry changes, or the number of rows.
    What stood in rows that are not there yet waits for rows of the same number and kind, and goes into the first ones.
    """

    edited = Signal()

    def __init__(
        self,
        name: str,
        heads: Sequence[str],
        stretches: Sequence[int],
        add: str = "",
        make: Callable[[int], Row] | None = None,
    ) -> None:
        super().__init__()
        self.setAccessibleName(name)
        self.rows: list[Row] = []
        self.heads, self._stretches, self._make = tuple(heads), tuple(stretches), make
        self._outs: list[QToolButton] = []
        self._holder: QWidget | None = None
        self._waiting: list[Any] = []
        self.note = Note()
        self.note.hide()
        self.column = QVBoxLayout(self)
        self.column.setContentsMargins(0, 0, 0, 0)
        self.column.setSpacing(TIGHT)
        self.column.addWidget(self.note)
        self.add_button = QPushButton(add, clicked=self.add_new)
        self.add_button.setMinimumHeight(TARGET)
        self.add_button.setVisible(bool(add))
        self.column.addWidget(self.add_button, 0, Qt.AlignmentFlag.AlignLeft)

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows."""
        if self._holder:
            self._holder.hide()
            self._holder.deleteLater()
        known = {id(entry) for row in self.rows for entry in row}
        self.rows, self._outs = [list(row) for row in rows], []
        for entry in (entry for row in self.rows for entry in row if id(entry) not in known):
            if hasattr(entry, "edited"):
                entry.edited.connect(self.edited)
        self._holder = QWidget()
        grid = QGridLayout(self._holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(TIGHT)
        grid.setVerticalSpacing(TIGHT)
        for column, stretch in enumerate(self._stretches):
            grid.setColumnStretch(column, stretch)
        if rows:
            self._fill_heads(grid)
        for number, row in enumerate(self.rows):
            self._fill_row(grid, number, row)
        self.column.insertWidget(0, self._holder)
        self._holder.show()
        self._order_keys()
        if rows:
            self._take_waiting()

    def _fill_heads(self, grid: QGridLayout) -> None:
        for column, head in enumerate(self.heads):
            label = QLabel(head)
            label.setFont(current().font(Size.SMALL))
            grid.addWidget(label, 0, column)

    def _fill_row(self, grid: QGridLayout, number: int, row: Row) -> None:
        for column, entry in enumerate(row):
            grid.addWidget(entry, number + 1, column)
        if self._make:
            out = QToolButton(autoRaise=True, toolTip=tr("Take this row out"))
            out.setAccessibleName(tr("Take row {number} out").format(number=number + 1))
            out.setIcon(icon("cancel"))
            out.setMinimumSize(TARGET, TARGET)
            out.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            out.clicked.connect(lambda _=False: self.take_out(self.rows.index(row)))
            grid.addWidget(out, number + 1, len(row))
            self._outs.append(out)

    def _order_keys(self) -> None:
        """Keys go through the rows one by one, then to the button below."""
        order = [entry for number, row in enumerate(self.rows) for entry in [*row, *self._outs[number : number + 1]]]
        order = [widget for widget in order if widget.focusPolicy() != Qt.FocusPolicy.NoFocus]
        if order:
            in_order(self.add_button, *order, self.add_button)

    def add_new(self) -> None:
        """Put one more row at the end."""
        if self._make:
            made = self._make(len(self.rows))
            self.show_rows([*self.rows, made])
            made[0].setFocus()
            self.edited.emit()

    def take_out(self, number: int) -> None:
        """Take a row out."""
        rows = [row for index, row in enumerate(self.rows) if index != number]
        self.show_rows(rows)
        self.add_button.setFocus()
        self.edited.emit()

    def read(self) -> list[list[Any]]:
        """The values of all rows. What is wrong is said below. Raises BadInput with the row as its place."""
        self.note.hide()
        return [[self._value(number, entry) for entry in row] for number, row in enumerate(self.rows)]

    def _value(self, number: int, entry: Any) -> Any:
        if not hasattr(entry, "read"):
            return None
        try:
            return entry.read()
        except BadInput as error:
            self.complain(
                BadInput(
                    error.what,
                    tr("row {number}, {name}").format(number=number + 1, name=entry.accessibleName()),
                    error.right,
                )
            )
            raise

    def complain(self, error: BadInput) -> None:
        """Say below the rows what is wrong."""
        self.note.say(str(error), wrong=True)
        self.note.show()

    # --- what stands there

    def stands(self) -> list[Any]:
        """What stands in all rows, right or wrong, each with the kind of its entry; None where there is only a word."""
        rows = [
            [[type(entry).__name__, entry.stands()] if _stands(entry) else None for entry in row] for row in self.rows
        ]
        return self._waiting or rows

    def stand_again(self, stood: list[Any]) -> None:
        """Have it stand there again."""
        if self._make:
            self._waiting = []
            more = [self._make(number) for number in range(len(self.rows), len(stood))]
            self.show_rows([*self.rows, *more][: len(stood)])
        self._waiting = stood
        self._take_waiting()

    def _take_waiting(self) -> None:
        stood, self._waiting = self._waiting, self._waiting if not self.rows else []
        if [_kinds(row) for row in self.rows] != [[cell and cell[0] for cell in row] for row in stood]:
            return
        for row, cells in zip(self.rows, stood, strict=True):
            for entry, cell in zip(row, cells, strict=True):
                if cell:
                    entry.stand_again(cell[1])

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        for out in self._outs:
            out.setIcon(icon("cancel"))


def _stands(entry: Any) -> bool:
    return hasattr(entry, "stands")


def _kinds(row: Row) -> list[str | None]:
    return [type(entry).__name__ if _stands(entry) else None for entry in row]
