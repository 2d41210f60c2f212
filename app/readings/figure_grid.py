"""A few rows of captions and figures, under quiet headings; figures stand on the right."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QLabel, QVBoxLayout, QWidget

from app.theme import SPACE, TIGHT, WIDE, Size, current


class FigureGrid(QWidget):
    """Rows of words; the first column is a caption, the others are figures."""

    def __init__(self, name: str, heads: Sequence[str], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self._heads, self._rows = tuple(heads), ()
        self._holder: QWidget | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, SPACE)

    @property
    def rows(self) -> tuple[tuple[str, ...], ...]:
        """What is shown."""
        return self._rows

    def name_columns(self, heads: Sequence[str]) -> None:
        """Call the columns otherwise, from the next rows on."""
        self._heads = tuple(heads)

    def show_rows(self, rows: Sequence[tuple[str, ...]]) -> None:
        """Show other rows."""
        self._rows = tuple(rows)
        if self._holder:
            self._holder.hide()
            self._holder.deleteLater()
        self._holder = QWidget()
        grid = QGridLayout(self._holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(WIDE)
        grid.setVerticalSpacing(TIGHT)
        grid.setColumnStretch(0, 1)
        for line, row in enumerate((self._heads, *self._rows)):
            for place, text in enumerate(row):
                grid.addWidget(_label(text, place > 0, line == 0), line, place)
        self.layout().addWidget(self._holder)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.show_rows(self._rows)


def _label(text: str, is_figure: bool, is_head: bool) -> QLabel:
    label = QLabel(text)
    if is_figure:
        label.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
    if is_head:
        label.setFont(current().font(Size.NORMAL if not is_figure else Size.SMALL, bold=not is_figure))
        if is_figure:
            palette = label.palette()
            palette.setColor(label.foregroundRole(), current().colour("quiet"))
            label.setPalette(palette)
    return label
