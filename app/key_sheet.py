"""All keys of the workbench on one sheet, made from the table of actions."""

from PySide6.QtCore import QSize, Qt
from PySide6.QtWidgets import QDialog, QGridLayout, QHBoxLayout, QLabel, QScrollArea, QVBoxLayout, QWidget

from app.action_table import HANDS, MENUS, TABLE
from app.actions import keys_in_words
from app.theme import ROOMY, SPACE, WIDE, Size, current
from app.words import tr


class KeySheet(QDialog):
    """All keys of the workbench on one sheet."""

    def __init__(self, parent: QWidget) -> None:
        super().__init__(parent)
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.setWindowTitle(tr("Keys"))
        self.setAccessibleName(tr("Keys"))
        sheet = QWidget()
        columns = QHBoxLayout(sheet)
        columns.setContentsMargins(WIDE, WIDE, WIDE, WIDE)
        columns.setSpacing(3 * WIDE)
        hands = [(tr("On the cloth"), ""), *((tr(what), tr(keys)) for keys, what in HANDS)]
        for menus, more in ((MENUS[:3], []), (MENUS[3:4], hands), (MENUS[4:], [])):
            columns.addLayout(_column([part for menu in menus for part in _menu_part(menu)] + more))
        scroll = QScrollArea(widgetResizable=True, accessibleName=tr("Keys"))
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setWidget(sheet)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scroll)
        room = self.screen().availableSize() - QSize(2 * WIDE, 4 * WIDE)
        self.resize((sheet.sizeHint() + QSize(ROOMY, ROOMY)).boundedTo(room))


def _menu_part(menu: str) -> list[tuple[str, str]]:
    """Heading and lines of the actions of one menu that have keys."""
    keyed = (row for row in TABLE if row.menu == menu and row.keys)
    rows = [(_plain(tr(row.text)), ", ".join(keys_in_words(row.keys))) for row in keyed]
    return [(_plain(tr(menu)), ""), *rows] if rows else []


def _column(lines: list[tuple[str, str]]) -> QGridLayout:
    grid = QGridLayout()
    grid.setHorizontalSpacing(WIDE)
    grid.setVerticalSpacing(SPACE)
    for index, (what, keys) in enumerate(lines):
        label = QLabel(what)
        if not keys:
            label.setFont(current().font(Size.NORMAL, bold=True))
            label.setContentsMargins(0, SPACE if index else 0, 0, 0)
        grid.addWidget(label, index, 0)
        grid.addWidget(QLabel(keys), index, 1)
    grid.setRowStretch(len(lines), 1)
    return grid


def _plain(text: str) -> str:
    return text.replace("&", "").removesuffix("…")
