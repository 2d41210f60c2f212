"""The strip above the cloth: where the selected panel lies, in numbers that can be typed."""

from PySide6.QtCore import QSignalBlocker, QSize, Qt, QTimer
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QComboBox, QFrame, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QWidget

from app.commands import can_be_turned, turn_in_mm
from app.document import Document
from app.edits import Edits, panel_title
from app.figures import step, unit
from app.icons import icon
from app.length_box import DegreeBox, LengthBox
from app.steady import SteadyLabel
from app.stripes_beside import beside_lead
from app.theme import ROOMY, SPACE, TARGET, TIGHT, Size, current
from app.words import localised, tr
from core.model.pattern import PanelName
from core.model.project import Placement

CLOTHS_WIDE_PX = 180
NAMED_FROM_PX = 900
"""From this width on the strip names its switches beside their icons and tells the limit of turning."""
FIELDS_EVERY_MS = 33
"""The fields follow a drag no faster than this: setting one costs as much as reading a seam."""


class Inspector(QFrame):
    """u, v and turn of the panel selected last, whether it is turned and held; every change is an undo step."""

    def __init__(self, document: Document, edits: Edits, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document, self._edits = document, edits
        self.cloths = QComboBox(accessibleName=tr("Cloth shown"), toolTip=tr("The cloth that is shown"))
        self.cloths.setMinimumHeight(TARGET)
        self.name = QLabel()
        self.u = LengthBox(
            tr("Across"), tr("u: where the panel's origin lies across the cloth, from the left selvedge")
        )
        self.v = LengthBox(tr("Along"), tr("v: where the panel's origin lies along the cloth, from the cut end"))
        self.turn = _turn_field()
        self.limit = SteadyLabel(tr("Most that the panel may be turned"))
        self.turned = _switch(tr("End for end"), tr("Laid end for end (T); not on a one-way cloth"))
        self.hold = _switch(tr("Hold"), tr("Held panels stay where they are (H)"))
        self.beside = SteadyLabel(tr("Offset from the nearest lead stripe"))
        self._due = QTimer(self, singleShot=True, interval=FIELDS_EVERY_MS, timeout=self.show_panel)
        self._lay_out()
        self._connect()
        self.show_theme()
        self.show_cloths()
        self.show_panel()

    def _lay_out(self) -> None:
        self.setAccessibleName(tr("Selected panel"))
        row = QHBoxLayout(self)
        row.setContentsMargins(ROOMY, TIGHT, ROOMY, TIGHT)
        row.setSpacing(SPACE)
        row.addWidget(self.cloths)
        self.cloths.setMaximumWidth(CLOTHS_WIDE_PX)
        self.name.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        self.name.setMinimumWidth(112)
        row.addWidget(self.name, 1)
        for caption, field in (("u", self.u), ("v", self.v), (tr("turn"), self.turn)):
            label = QLabel(caption, buddy=field)
            row.addWidget(label)
            row.addWidget(field)
        row.addWidget(self.limit)
        for box in (self.turned, self.hold):
            row.addWidget(box)
        row.addWidget(self.beside)
        self.beside.setToolTip(tr("Where the panel's origin lies beside the nearest lead stripe"))
        self.limit.setToolTip(
            tr("How far this cloth lets a panel turn off the grain, and what that is over its length")
        )

    def _connect(self) -> None:
        document = self._document
        document.project_changed.connect(self.show_cloths)
        document.project_changed.connect(self.show_panel)
        document.selection_changed.connect(self.show_panel)
        document.placements_changed.connect(self._follow)
        self.u.valueChanged.connect(lambda mm: self._type_place("u", mm))
        self.v.valueChanged.connect(lambda mm: self._type_place("v", mm))
        self.turn.valueChanged.connect(self._type_turn)
        self.turn.limited.connect(self._tell_beyond)
        self.turned.clicked.connect(self._edits.turn_end_for_end)
        self.hold.clicked.connect(self._edits.switch_hold)

    # --- showing

    def show_cloths(self) -> None:
        """List the cloths that something is cut from; hidden where there is only one."""
        project = self._document.cut
        used = {piece.cloth for piece in project.pieces}
        shown = self.cloths.currentData()
        with QSignalBlocker(self.cloths):
            self.cloths.clear()
            for cloth in project.cloths:
                if cloth.id in used:
                    self.cloths.addItem(cloth.title, cloth.id)
            self.cloths.setCurrentIndex(max(self.cloths.findData(shown), 0))
        self.cloths.setVisible(self.cloths.count() > 1)

    def _follow(self, moved: frozenset[PanelName]) -> None:
        if self._document.current not in moved:
            return
        if not self._document.trying:
            self.show_panel()
        elif not self._due.isActive():
            self._due.start()

    def show_panel(self) -> None:
        """Show the panel selected last."""
        self._due.stop()
        name, count = self._document.current, len(self._document.selection)
        at = self._document.project.placement(name) if name else Placement()
        self._set_open(name, at, count)
        for field, value in ((self.u, at.u), (self.v, at.v), (self.turn, at.turn_deg)):
            if field.value() != value:
                with QSignalBlocker(field):
                    field.setValue(value)
        self.turned.setChecked(at.turned)
        self.hold.setChecked(at.hold)
        if (title := self._title(name, count)) != self.name.text():
            self.name.setText(title)
            self.name.setToolTip(title)
        self.beside.setText(self._beside(name, at) if count == 1 else "")
        self._tell_limit(name if count == 1 else None)

    def _set_open(self, name: PanelName | None, at: Placement, count: int) -> None:
        cloth = self._document.cut.cloth_of(name) if name else None
        for field in (self.u, self.v):
            field.setEnabled(count == 1 and not at.hold)
        self.turn.setEnabled(count == 1 and not at.hold and cloth is not None and cloth.grain_tolerance_deg > 0)
        self.turned.setEnabled(count >= 1 and not at.hold and cloth is not None and can_be_turned(cloth))
        self.hold.setEnabled(count >= 1)
        if cloth:
            limit = max(cloth.grain_tolerance_deg, abs(at.turn_deg))
            if limit != self.turn.maximum():
                with QSignalBlocker(self.turn):
                    self.turn.setRange(-limit, limit)

    def _tell_limit(self, name: PanelName | None) -> None:
        """The grain tolerance in degrees, and in a length over the panel's own."""
        limit = self._document.cut.cloth_of(name).grain_tolerance_deg if name else 0.0
        words = ""
        if name and limit > 0:
            words = f"±{localised(f'{limit:g}')}° = {step(turn_in_mm(self._document.panels[name], limit))} {unit()}"
        self.limit.setText(words)
        self.turn.setAccessibleDescription(
            tr("At most {words} over the panel's length").format(words=words) if words else ""
        )

    def show_unit(self) -> None:
        """Follow a change of the unit of lengths."""
        for field in (self.u, self.v):
            field.show_unit()
        self.show_panel()

    def _title(self, name: PanelName | None, count: int) -> str:
        if name is None:
            return tr("Nothing selected")
        return panel_title(self._document, name) if count == 1 else tr("{count} panels").format(count=count)

    def _beside(self, name: PanelName | None, at: Placement) -> str:
        return beside_lead(self._document.cut.cloth_of(name), at.u, at.v) if name else ""

    def minimumSizeHint(self) -> QSize:
        """The room that is needed without the names of the switches."""
        names = sum(switch.sizeHint().width() - switch.iconSize().width() for switch in (self.turned, self.hold))
        named = self.hold.toolButtonStyle() == Qt.ToolButtonStyle.ToolButtonTextBesideIcon
        return super().minimumSizeHint() - QSize(names - 2 * SPACE if named else 0, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Leave the names of the switches and the limit away where there is no room for them."""
        beside, alone = Qt.ToolButtonStyle.ToolButtonTextBesideIcon, Qt.ToolButtonStyle.ToolButtonIconOnly
        for switch in (self.turned, self.hold):
            switch.setToolButtonStyle(beside if event.size().width() >= NAMED_FROM_PX else alone)
        self.limit.setVisible(event.size().width() >= NAMED_FROM_PX)

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        self.name.setFont(current().font(Size.NORMAL, bold=True))
        self.turned.setIcon(icon("turn"))
        self.hold.setIcon(icon("hold"))

    # --- typing

    def _type_place(self, what: str, mm: float) -> None:
        if self._document.current and not self._document.trying:
            self._edits.type_place(self._document.current, what, mm)

    def _type_turn(self, turn_deg: float) -> None:
        if self._document.current and not self._document.trying:
            self._edits.type_turn(self._document.current, turn_deg)
            self.show_panel()

    def _tell_beyond(self) -> None:
        """More was typed than the cloth allows."""
        if self._document.current:
            self._edits.tell_limit((self._document.current,))


def _switch(name: str, tip: str) -> QToolButton:
    button = QToolButton(text=name, accessibleName=name, toolTip=tip, checkable=True, autoRaise=True)
    button.setMinimumHeight(TARGET)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    return button


def _turn_field() -> DegreeBox:
    field = DegreeBox(tr("Turn, °"), tr("How far the panel is turned off the grain, clockwise; its origin stays"))
    field.setFixedWidth(76)
    return field
