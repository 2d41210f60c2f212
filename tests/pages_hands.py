"""What a person's hands do with the fields of a page."""

from PySide6.QtCore import Qt
from PySide6.QtTest import QTest


def typed(entry, text: str) -> None:
    """What a person does with a field: go there, mark all, type."""
    entry.setFocus()
    entry.selectAll()
    QTest.keyClicks(entry, text) if text else QTest.keyClick(entry, Qt.Key.Key_Delete)


def chosen(entry, value) -> None:
    """Choose one of a list with the keys."""
    wanted = next(index for index in range(entry.count()) if entry.itemData(index) == value)
    entry.setFocus()
    QTest.keyClick(entry, Qt.Key.Key_Home)
    for _ in range(wanted):
        QTest.keyClick(entry, Qt.Key.Key_Down)
    assert entry.read() == value


def clicked(button) -> None:
    """Click a button with the mouse."""
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
