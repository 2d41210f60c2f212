"""A list of rows with figures: words at the left, figures at the right, rows that can be told apart by keys."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QHeaderView, QTreeWidget, QTreeWidgetItem, QWidget

from app.theme import GRID, Size, current

ROW_HIGH = 7 * GRID
KEY = Qt.ItemDataRole.UserRole


class FigureTree(QTreeWidget):
    """The first column holds words, the others figures; `KEY` data of the first cell tells what a row stands for."""

    def __init__(self, name: str, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(name)
        self.setFrameShape(QTreeWidget.Shape.NoFrame)
        self.setUniformRowHeights(True)
        self.setTextElideMode(Qt.TextElideMode.ElideRight)
        self.setAllColumnsShowFocus(True)
        self.show_theme()

    def show_heads(self, heads: Sequence[str], tips: Sequence[str]) -> None:
        """Show other headings; the tips say what they mean."""
        self.setHeaderLabels(list(heads))
        self.header().setStretchLastSection(False)
        self.header().setMinimumSectionSize(10 * GRID)
        for column, tip in enumerate(tips):
            self.headerItem().setToolTip(column, tip)
            mode = QHeaderView.ResizeMode.ResizeToContents if column else QHeaderView.ResizeMode.Stretch
            self.header().setSectionResizeMode(column, mode)
            if column:
                self.headerItem().setTextAlignment(column, Qt.AlignmentFlag.AlignRight)

    def row(
        self, parent: QTreeWidget | QTreeWidgetItem, cells: Sequence[str], key: object, tip: str = ""
    ) -> QTreeWidgetItem:
        """A row more; returns it."""
        item = QTreeWidgetItem(parent, list(cells))
        item.setSizeHint(0, QSize(0, ROW_HIGH))
        item.setData(0, KEY, key)
        item.setToolTip(0, tip or cells[0])
        for column in range(1, self.columnCount()):
            item.setTextAlignment(column, Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
        return item

    def heading(self, text: str) -> QTreeWidgetItem:
        """A row that only heads others."""
        item = self.row(self, [text], None)
        item.setFont(0, current().font(Size.NORMAL, bold=True))
        return item

    @property
    def key(self) -> object:
        """What the current row stands for; None where there is none."""
        item = self.currentItem()
        return item.data(0, KEY) if item else None

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        palette = self.palette()
        palette.setColor(QPalette.ColorRole.Highlight, current().colour("selected"))
        palette.setColor(QPalette.ColorRole.HighlightedText, current().colour("text"))
        self.setPalette(palette)
