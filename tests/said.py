"""All that widgets say: shown, painted, spoken to those who listen, or told where the mouse rests."""

import html
import re
from collections.abc import Iterator, Sequence

from PySide6.QtCore import QAbstractListModel, QBuffer, QModelIndex, Qt
from PySide6.QtGui import QAction
from PySide6.QtSvg import QSvgGenerator
from PySide6.QtWidgets import (
    QAbstractButton,
    QAbstractItemView,
    QAbstractSpinBox,
    QComboBox,
    QGroupBox,
    QHeaderView,
    QLabel,
    QLineEdit,
    QStyle,
    QStyleOptionComboBox,
    QTabBar,
    QWidget,
)

from made_up import bare_words, unbracketed

Said = tuple[str, str]
"""Who says it, and what."""

OF_A_WIDGET = ("windowTitle", "toolTip", "statusTip", "whatsThis", "accessibleName", "accessibleDescription")
SHOWN = {
    QAbstractButton: "text",
    QLabel: "text",
    QLineEdit: "placeholderText",
    QGroupBox: "title",
}
ROLES = (
    Qt.ItemDataRole.DisplayRole,
    Qt.ItemDataRole.ToolTipRole,
    Qt.ItemDataRole.StatusTipRole,
    Qt.ItemDataRole.AccessibleTextRole,
    Qt.ItemDataRole.AccessibleDescriptionRole,
)
TEXT = re.compile(r"<text[^>]*>(.*?)</text>", re.S)


def said(root: QWidget) -> Iterator[Said]:
    """Whatever can be read or heard of a widget and what is in it, as far as it is seen."""
    for widget in (root, *(one for one in root.findChildren(QWidget) if one.isVisibleTo(root))):
        if not isinstance(widget, QAbstractSpinBox | QLineEdit) or not widget.objectName().startswith("qt_"):
            yield from ((_who(widget), text) for text in _of(widget) if text)
    for action in root.findChildren(QAction):
        yield from ((f"action {action.text()!r}", one) for one in (action.text(), action.toolTip()) if one)


UNITS = {"mm", "cm", "in", "pt", "px", "dpi", "yd", "m²", "yd²"}
KEYS = {"Ctrl", "Shift", "Alt", "Esc", "Enter", "Left", "Right"}
OWN = {"Stripewright", "SVG", "DXF", "PDF", "JSON", "svg", "png"}
OF_QT = {"Scroll Left", "Scroll Right", "Cancel", "Close"}
"""What the toolkit says in the languages that it has."""
POINT = re.compile(r"\d\.\d")
COLOUR = re.compile(r"#[0-9a-f]{6}")


def said_bare(root: QWidget, known: Sequence[str] = ()) -> Iterator[tuple[str, str, str]]:
    """Who says what that has not gone through the language spoken, and why it is thought so."""
    told = list(said(root))
    for who, text in told:
        yield from ((who, text, why) for why in bare(text, known))
    whole = " ".join([*(text for _, text in told), *known])
    yield from (("painted", text, why) for text, why in bare_lines(painted(root), known, whole))


def bare(text: str, known: Sequence[str] = (), depth: int = 0, ends: int = 0) -> Iterator[str]:
    """What is wrong with a text, which may begin and end so many brackets deep."""
    whole = COLOUR.sub(" ", "[" * depth + text + "]" * ends)
    if text not in OF_QT and (words := [one for one in bare_words(whole, known) if one not in UNITS | KEYS | OWN]):
        yield " ".join(words)
    if POINT.search(unbracketed(whole)):
        yield "a decimal point"


def bare_lines(texts: list[str], known: Sequence[str], whole: str) -> Iterator[tuple[str, str]]:
    """A text that is wrapped comes line by line; one that is cut off ends in a mark and never closes its bracket, and
    must be told in full somewhere."""
    depth = 0
    for text in texts:
        ends = max(depth + text.count("[") - text.count("]"), 0)
        yield from ((text, why) for why in bare(text, known, depth, ends))
        depth = ends
        if depth and text.endswith("…"):
            depth = 0
            if text[:-1] not in whole:
                yield text, "cut off"


def _who(widget: QWidget) -> str:
    inside = type(widget.parent()).__name__
    return f"{type(widget).__name__} in {inside}"


def _of(widget: QWidget) -> Iterator[str]:
    yield from (getattr(widget, name)() for name in OF_A_WIDGET)
    yield from (getattr(widget, name)() for kind, name in SHOWN.items() if isinstance(widget, kind))
    if isinstance(widget, QAbstractSpinBox):
        yield from (part for name in ("prefix", "suffix", "specialValueText") if (part := getattr(widget, name)()))
    if isinstance(widget, QComboBox):
        yield from (widget.itemText(index) for index in range(widget.count()))
    if isinstance(widget, QTabBar):
        yield from (part for tab in range(widget.count()) for part in (widget.tabText(tab), widget.tabToolTip(tab)))
    if isinstance(widget, QAbstractItemView) and not isinstance(widget, QHeaderView) and widget.model():
        yield from _cells(widget, QModelIndex())


def _cells(view: QAbstractItemView, parent: QModelIndex) -> Iterator[str]:
    model = view.model()
    for column in range(1 if isinstance(model, QAbstractListModel) else model.columnCount(parent)):
        for role in ROLES:
            yield str(model.headerData(column, Qt.Orientation.Horizontal, role) or "")
        for row in range(model.rowCount(parent)):
            index = model.index(row, column, parent)
            yield from (str(index.data(role) or "") for role in ROLES)
            if column == 0:
                yield from _cells(view, index)


def painted(widget: QWidget) -> list[str]:
    """The texts that a widget and what is in it paint, as they are painted: cut off where they don't fit."""
    file, picture = QBuffer(), QSvgGenerator()
    file.open(QBuffer.OpenModeFlag.ReadWrite)
    picture.setOutputDevice(file)
    picture.setSize(widget.size())
    widget.render(picture)
    return [html.unescape(text).strip() for text in TEXT.findall(bytes(file.data().data()).decode())]


def cut_off(root: QWidget) -> Iterator[tuple[str, str, str]]:
    """Labels, buttons and choices that are seen and have less room than their words need."""
    for widget in root.findChildren(QWidget):
        if widget.isVisibleTo(root) and (text := _words_of(widget)) and not _has_room(widget):
            yield _who(widget), text, f"cut off: {widget.size().toTuple()} of {widget.sizeHint().toTuple()}"


def _words_of(widget: QWidget) -> str:
    if isinstance(widget, QComboBox):
        return widget.currentText()
    return widget.text() if isinstance(widget, QLabel | QAbstractButton) else ""


def _has_room(widget: QWidget) -> bool:
    wide, high = widget.width() + 1, widget.height() + 1
    if isinstance(widget, QComboBox):
        return _room_of(widget) >= widget.fontMetrics().horizontalAdvance(widget.currentText())
    if isinstance(widget, QLabel) and widget.wordWrap():
        return widget.heightForWidth(widget.width()) <= high
    return widget.sizeHint().width() <= wide


def _room_of(choice: QComboBox) -> int:
    option = QStyleOptionComboBox()
    choice.initStyleOption(option)
    box, field = QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
    return choice.style().subControlRect(box, option, field, choice).width()
