"""What every page has: a heading, a form at the left, pictures and findings at the right, and the way on below."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QKeySequence, QShortcut, QShowEvent
from PySide6.QtWidgets import (
    QFrame,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app import units
from app.pages.entries import Choice
from app.pages.form import Form, Note, Section
from app.pages.lengths import UNITS, LengthUnit
from app.pages.rows import Rows
from app.tabbing import in_order, reached_in
from app.theme import GRID, ROOMY, SPACE, WIDE, Size, current
from app.words import tr

FORM_WIDE = 126 * GRID
FINDINGS_HIGH = 22 * GRID
BUTTON_HIGH = 8 * GRID


class Page(QWidget):
    """Takes the whole window until it is left or has made what it is for."""

    left = Signal()
    """Go back; nothing has been changed."""

    def __init__(self, title: str, form: Form, make: str) -> None:
        super().__init__()
        self.setAccessibleName(title)
        self.form = form
        self.way, self._empty = "", {}
        """By which way in it came up, and what stood in it then."""
        self.title = QLabel(title)
        self.words = Note()
        self.unit_choice = Choice(tr("Lengths in"), [(unit.name, unit) for unit in UNITS], kept_unit())
        self.unit_choice.setFixedWidth(18 * GRID)
        self.scroller = QScrollArea(widgetResizable=True)
        self.pictures = QVBoxLayout()
        self.findings = Findings()
        self.verdict = Note()
        self.back = QPushButton(tr("Go back"))
        self.back.clicked.connect(self.left)
        self.make = QPushButton(make, clicked=self.make_it)
        self.ways_on: tuple[QWidget, ...] = (self.back, self.make)
        self._lay_out()
        self.unit_choice.edited.connect(self._change_unit)
        form.show_unit(self.unit)
        for keys, act in ((("Esc",), self.left.emit), (("Ctrl+Return", "Ctrl+Enter"), self.make.click)):
            for key in keys:
                shortcut = QShortcut(QKeySequence(key), self, context=Qt.ShortcutContext.WidgetWithChildrenShortcut)
                shortcut.activated.connect(act)
        self.make.setToolTip("Ctrl+Enter")
        self.back.setToolTip("Esc")

    @property
    def unit(self) -> LengthUnit:
        """The unit that bare lengths are counted in."""
        unit: LengthUnit = self.unit_choice.read()
        return unit

    def _lay_out(self) -> None:
        head = QHBoxLayout(spacing=ROOMY)
        head.setContentsMargins(WIDE, SPACE, WIDE, SPACE)
        head.addWidget(self.title)
        head.addWidget(self.words, 1)
        self.head = head
        head.addWidget(QLabel(tr("Lengths in"), buddy=self.unit_choice))
        head.addWidget(self.unit_choice)
        self.scroller.setFixedWidth(FORM_WIDE)
        self.scroller.setFrameShape(QFrame.Shape.NoFrame)
        self.scroller.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.scroller.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.scroller.setWidget(self.form)
        self.form.narrowest = FORM_WIDE - self.scroller.verticalScrollBar().sizeHint().width()
        right = QVBoxLayout(spacing=SPACE)
        right.setContentsMargins(0, 0, WIDE, 0)
        right.addLayout(self.pictures, 1)
        right.addWidget(self.findings)
        across = QHBoxLayout(spacing=0)
        across.addWidget(self.scroller)
        across.addLayout(right, 1)
        page = QVBoxLayout(self)
        page.setContentsMargins(0, 0, 0, 0)
        page.setSpacing(0)
        page.addLayout(head)
        page.addLayout(across, 1)
        page.addWidget(_Rule())
        page.addLayout(self._foot())

    def _foot(self) -> QHBoxLayout:
        foot = QHBoxLayout(spacing=SPACE)
        foot.setContentsMargins(WIDE, SPACE, WIDE, SPACE)
        foot.addWidget(self.verdict, 1)
        self.foot = foot
        for button in (self.back, self.make):
            button.setMinimumHeight(BUTTON_HIGH)
            foot.addWidget(button)
        return foot

    def showEvent(self, event: QShowEvent) -> None:
        """Tab goes through the fields, then the pictures, then the way on; the head comes last, before the fields."""
        super().showEvent(event)
        pictures = (self.pictures.itemAt(at).widget() for at in range(self.pictures.count()))
        right = [one for part in (*pictures, self.findings) if part for one in reached_in(part)]
        in_order(*reached_in(self.form), *right, *self.ways_on)

    def make_it(self) -> None:
        """Do what the page is for."""
        raise NotImplementedError

    def put_away(self) -> None:
        """End what the page has begun; it will not come up again."""

    def begin(self, way: str) -> None:
        """It comes up, by this way in; what stands in it now nobody has filled in."""
        self.way, self._empty = way, self.stands()

    @property
    def filled_in(self) -> bool:
        """Whether something else stands in it than when it came up."""
        return self.stands() != self._empty

    def stands(self) -> dict[str, Any]:
        """The page half filled in, as plain data for a file."""
        return {"unit": self.unit.name, "form": self.form.stands()}

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Be filled in again as far as it was."""
        self.unit_choice.show_value(next((unit for unit in UNITS if unit.name == stood["unit"]), self.unit))
        self.form.stand_again(stood["form"])
        self.form.edited.emit()

    def block(self, why: str) -> None:
        """Say why nothing can be made yet."""
        self.verdict.say(why, wrong=True)
        self.make.setEnabled(False)

    def allow(self, what: str) -> None:
        """Say what will be made."""
        self.verdict.say(what)
        self.make.setEnabled(True)

    def _change_unit(self) -> None:
        untouched = {**self.stands(), "unit": ""} == {**self._empty, "unit": ""}
        units.choose(self.unit.name)
        self.form.show_unit(self.unit)
        self.form.edited.emit()
        if untouched:
            self.begin(self.way)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        theme = current()
        self.title.setFont(theme.font(Size.LARGE, bold=True))
        for kind in (Section, Note, Rows):
            for part in self.findChildren(kind):
                part.show_theme()
        self.findings.head.setFont(theme.font(Size.NORMAL, bold=True))
        self.make.setFont(theme.font(Size.NORMAL, bold=True))


def kept_unit() -> LengthUnit:
    """The unit that was chosen last."""
    return next(unit for unit in UNITS if unit.name == units.shown().name)


def whole(path: Path) -> str:
    """A file's path from the root on; nothing where no file is known."""
    return str(path.absolute()) if path.name else ""


class Findings(QWidget):
    """What is odd, one line each, with what would put it right."""

    def __init__(self) -> None:
        super().__init__()
        self.head, self.none = QLabel(tr("Findings")), Note()
        self.list = QListWidget(accessibleName=tr("Findings"), wordWrap=True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.list.setFixedHeight(FINDINGS_HIGH)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, SPACE)
        column.setSpacing(GRID)
        column.addWidget(self.head)
        column.addWidget(self.none)
        column.addWidget(self.list)

    def show_lines(self, lines: Sequence[str], none: str) -> None:
        """Show findings, or a word that there are none."""
        self.list.clear()
        self.list.addItems([line[:1].upper() + line[1:] for line in lines])
        self.list.setVisible(bool(lines))
        self.none.setText(none)
        self.none.setVisible(not lines)
        self.head.setText(tr("Findings ({count})").format(count=len(lines)) if lines else tr("Findings"))


class _Rule(QFrame):
    """A hairline across the page."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.HLine)
        self.setFrameShadow(QFrame.Shadow.Plain)
        self.setForegroundRole(self.palette().ColorRole.Midlight)
