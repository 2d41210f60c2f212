"""Every dialog and side page: whatever can be used has a name, is reached by Tab and is large enough to hit."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QAbstractSpinBox, QApplication, QComboBox, QDialog, QLabel, QLineEdit

from app.theme import TARGET

USED = (QAbstractButton, QAbstractSpinBox, QComboBox, QLineEdit)
PARTS_OF_QT = ("qt_", "ScrollLeftButton", "ScrollRightButton", "QTabBar")


def usable(holder) -> list:
    """What can be used in a widget, without the parts that Qt's own widgets are made of."""
    found = [widget for kind in USED for widget in holder.findChildren(kind) if widget.isVisibleTo(holder)]
    own = [w for w in found if not w.objectName().startswith(PARTS_OF_QT) and type(w.parent()) not in (QComboBox,)]
    return [w for w in own if not isinstance(w.parent(), (QAbstractSpinBox, QComboBox)) and not _is_corner(w)]


def _is_corner(widget) -> bool:
    return type(widget).__name__ == "QTableCornerButton" or type(widget.parent()).__name__ == "QTableView"


def name_of(widget) -> str:
    words = widget.text() if isinstance(widget, QAbstractButton) else ""
    labels = [label.text() for label in widget.window().findChildren(QLabel) if label.buddy() is widget]
    return widget.accessibleName() or words or " ".join(labels)


def told(widget) -> str:
    return f"{type(widget).__name__} {name_of(widget)!r} {widget.size().toTuple()} in {type(widget.parent()).__name__}"


def check(holder) -> None:
    parts = usable(holder)
    assert [told(part) for part in parts if not name_of(part)] == []
    small = [part for part in parts if part.height() < TARGET or part.width() < TARGET]
    assert [told(part) for part in small if not _is_inline(part)] == []
    unreached = [part for part in parts if part.isEnabled() and not part.focusPolicy() & Qt.FocusPolicy.TabFocus]
    assert [told(part) for part in unreached if part.focusProxy() is None] == []


def _is_inline(part) -> bool:
    """A link in running text: SC 2.5.8 makes an exception of those."""
    return isinstance(part, QAbstractButton) and part.property("flat") is True


SIDES = "show_closeup show_garment show_worn show_panels show_sewing show_cut_list show_variants"


def test_sides_of_the_window(skirt):
    skirt.document.select(("front.R",))
    skirt.document.pick_seam(0)
    for side in SIDES.split():
        getattr(skirt.desk, side)()
        QApplication.processEvents()
        check(skirt.desk)
    check(skirt.tools)


def test_dialogs(skirt):
    skirt.document.select(("front.R",))
    for action in ("move-by", "keys", "papers"):
        skirt.actions_by_id[action].trigger()
        QApplication.processEvents()
        dialogs = [dialog for dialog in skirt.findChildren(QDialog) if dialog.isVisible()]
        assert dialogs, action
        for dialog in dialogs:
            assert dialog.accessibleName() or dialog.windowTitle()
            check(dialog)
            dialog.close()


def test_pages(skirt):
    for way in ("from_measurements", "cloth"):
        getattr(skirt.ways, way)()
        QApplication.processEvents()
        check(skirt.ways.page)
        skirt.ways.leave_all()
