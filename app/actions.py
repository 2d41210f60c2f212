"""All actions of the workbench in one table, which makes its menus, its toolbar and its sheet of keys."""

from collections.abc import Callable
from dataclasses import dataclass
from operator import attrgetter
from typing import TYPE_CHECKING

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import (
    QDialog,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QMenu,
    QScrollArea,
    QToolBar,
    QVBoxLayout,
    QWidget,
)

from app.icons import icon
from app.theme import ROOMY, SPACE, WIDE, Size, current
from app.words import tr

if TYPE_CHECKING:
    from app.window import Window

MENUS = ("&File", "&Edit", "&Panel", "P&lan", "&View", "&Help")


@dataclass(frozen=True)
class Row:
    """One action: `slot` is a path of attributes from the window; `needs` names what must be there to use it."""

    id: str
    text: str
    keys: str
    icon: str
    slot: str
    menu: str
    tip: str
    needs: str = "project"
    checkable: bool = False
    checked: bool = False
    """How it is at first."""
    rule: bool = False
    """Whether a line divides it from the action before it in its menu."""


TABLE = (
    Row(
        "draft",
        "New from &measurements",
        "Ctrl+N",
        "measure",
        "ways.from_measurements",
        "&File",
        "Draft a gored skirt or a canopy",
        needs="",
    ),
    Row(
        "drawing",
        "New from a &drawn pattern…",
        "Ctrl+Shift+N",
        "new",
        "ways.from_drawing",
        "&File",
        "Bring in a pattern drawn as SVG, DXF or PDF",
        needs="",
    ),
    Row(
        "photograph",
        "New from a &photograph…",
        "",
        "",
        "ways.from_photograph",
        "&File",
        "Trace paper pieces in a photograph",
        needs="",
    ),
    Row("open", "&Open…", "Ctrl+O", "open", "filing.ask_open", "&File", "Open a project", needs=""),
    Row("save", "&Save", "Ctrl+S", "save", "filing.save", "&File", "Save the project"),
    Row("save-as", "Save &as…", "Ctrl+Shift+S", "", "filing.save_as", "&File", "Save the project under another name"),
    Row(
        "add-drawing",
        "&Add pieces from a drawing…",
        "",
        "",
        "ways.add_drawing",
        "&File",
        "Bring more pieces into this project",
        rule=True,
    ),
    Row("quit", "&Quit", "Ctrl+Q", "", "close", "&File", "Close the workbench", needs="", rule=True),
    Row("undo", "&Undo", "Ctrl+Z", "undo", "document.undo_step", "&Edit", "Take the last step back", needs="undo"),
    Row("redo", "&Redo", "Ctrl+Shift+Z; Ctrl+Y", "redo", "document.redo_step", "&Edit", "Do it again", needs="redo"),
    Row("all", "Select &all", "Ctrl+A", "", "desk.select_all", "&Edit", "Select all panels on this cloth", rule=True),
    Row(
        "settle",
        "Settle on &matches and neighbours",
        "S",
        "settle",
        "desk.set_settling",
        "&Edit",
        "Dragged panels settle where their seams match best and against their neighbours; Alt suspends it",
        needs="",
        checkable=True,
        checked=True,
        rule=True,
    ),
    Row(
        "follow",
        "&Others follow",
        "O",
        "follow",
        "edits.set_following",
        "&Edit",
        "While panels are moved or turned, the other free panels go where their seams match best",
        needs="",
        checkable=True,
    ),
    Row(
        "hold", "&Hold", "H", "hold", "edits.switch_hold", "&Panel", "Hold the panel where it is, or let it go", "panel"
    ),
    Row(
        "turned",
        "&End for end",
        "T",
        "turn",
        "edits.turn_end_for_end",
        "&Panel",
        "Lay the panel end for end; not on a one-way cloth",
        "panel",
    ),
    Row(
        "turn-back",
        "Turn &left",
        "[",
        "",
        "edits.turn_left",
        "&Panel",
        "Turn the panel left by 0.05°",
        "panel",
        rule=True,
    ),
    Row("turn-on", "Turn &right", "]", "", "edits.turn_right", "&Panel", "Turn the panel right by 0.05°", "panel"),
    Row(
        "repeat-left",
        "A repeat to the le&ft",
        "Ctrl+Shift+Left",
        "",
        "edits.repeat_left",
        "&Panel",
        "Move the panel across by one repeat: no step changes",
        "panel",
        rule=True,
    ),
    Row(
        "repeat-right",
        "A repeat to the r&ight",
        "Ctrl+Shift+Right",
        "",
        "edits.repeat_right",
        "&Panel",
        "Move the panel across by one repeat: no step changes",
        "panel",
    ),
    Row(
        "other-side",
        "To the &other side",
        "X",
        "other-side",
        "edits.to_other_side",
        "&Panel",
        "Send the panel across the cloth's middle by whole repeats: no step changes",
        "panel",
    ),
    Row("move-by", "&Move by…", "M", "move", "ask_move", "&Panel", "Type how far to move and turn", "panel"),
    Row(
        "spread",
        "&Spread out",
        "Ctrl+E",
        "",
        "edits.spread_out",
        "&Panel",
        "Lay all panels side by side by whole repeats: no step changes",
        rule=True,
    ),
    Row(
        "patches",
        "Match &patches",
        "P",
        "",
        "edits.match_patches",
        "&Panel",
        "Move what lies on panels to where its stripes continue theirs",
    ),
    Row("cloth", "&Cloth…", "C", "cloth", "ways.cloth", "P&lan", "Width, stripes, flaws and limits of the cloth"),
    Row(
        "swatch",
        "&Repeat from a picture…",
        "",
        "",
        "ways.repeat_from_picture",
        "P&lan",
        "Read a cloth's stripes from a scan or a photograph",
    ),
    Row("add-cloth", "&Add a cloth…", "", "", "ways.add_cloth", "P&lan", "One more cloth, for interlining or lining"),
    Row(
        "shelf",
        "From the shel&f…",
        "",
        "",
        "from_shelf",
        "P&lan",
        "Take a cloth that was kept for other projects",
    ),
    Row(
        "keep-left",
        "Keep what is left on the s&helf…",
        "",
        "",
        "keep_left",
        "P&lan",
        "Put what is left of the cloth, once the panels are cut where they lie, on the shelf",
        "idle",
    ),
    Row(
        "what-counts",
        "What co&unts…",
        "",
        "",
        "ask_what_counts",
        "P&lan",
        "What lies on the centre, whether pairs mirror each other, how much bars count",
        rule=True,
    ),
    Row(
        "match",
        "&Match stripes",
        "Ctrl+M",
        "match",
        "errands.match",
        "P&lan",
        "Find the places across the stripes, and the turns, at which all seams match best",
        "idle",
        rule=True,
    ),
    Row(
        "shift",
        "Shift st&itching lines…",
        "Ctrl+Shift+M",
        "",
        "desk.ask_shift",
        "P&lan",
        "Move the stitching lines between panels by a hair so that the stripes meet; the girth stays",
        "idle",
    ),
    Row(
        "lay",
        "&Lay on the cloth",
        "Ctrl+L",
        "lay",
        "errands.lay",
        "P&lan",
        "Fit all panels on the cloth in little length; matches stay as they are",
        "idle",
    ),
    Row(
        "compare",
        "Wha&t does it cost in cloth?",
        "Ctrl+Shift+L",
        "",
        "errands.compare",
        "P&lan",
        "Lay it one way and end for end, matched and not, with another centre, and tell the lengths",
        "idle",
    ),
    Row(
        "papers",
        "&Papers…",
        "Ctrl+P",
        "papers",
        "errands.ask_papers",
        "P&lan",
        "Write cutting plan, placement cards and lists into a folder",
        "idle",
    ),
    Row(
        "sew",
        "Se&w edges together",
        "J",
        "sewing",
        "desk.pick_edges",
        "P&lan",
        "Pick two edges on the cloth to make a seam of them",
        rule=True,
    ),
    Row(
        "keep-variant",
        "Keep as a &variant",
        "Ctrl+K",
        "",
        "desk.keep_variant",
        "P&lan",
        "Keep how things stand under a name, to compare and to come back to",
    ),
    Row(
        "advise",
        "What would &help",
        "Ctrl+Shift+H",
        "",
        "desk.show_advice",
        "P&lan",
        "Work out what each change would gain: tolerances, holds, flares, grain",
        "idle",
    ),
    Row(
        "stop-lay",
        "Stop and &keep the best",
        "Ctrl+Shift+.",
        "",
        "jobs.finish_early",
        "P&lan",
        "End the laying and take the best lay so far",
        needs="early",
    ),
    Row("cancel", "&Cancel", "Ctrl+.", "cancel", "jobs.cancel", "P&lan", "Cancel what is being worked on", "job"),
    Row("zoom-in", "Zoom &in", "Ctrl++; Ctrl+=", "zoom-in", "desk.view.zoom_in", "&View", "Come nearer"),
    Row("zoom-out", "Zoom &out", "Ctrl+-", "zoom-out", "desk.view.zoom_out", "&View", "Go further off"),
    Row("fit", "&Fit", "F", "fit", "desk.view.fit", "&View", "Show the whole cloth"),
    Row("fit-width", "Fit &width", "W", "", "desk.view.fit_width", "&View", "Show the cloth's whole width"),
    Row("fit-panel", "Fit &panel", "Shift+F", "", "desk.view.fit_selection", "&View", "Show the selected panels large"),
    Row("true-size", "&True size", "Ctrl+0", "", "desk.view.true_size", "&View", "A millimetre is a millimetre"),
    Row(
        "closeup",
        "&Close-up",
        "F6",
        "closeup",
        "desk.show_closeup",
        "&View",
        "The picked seam as it will be sewn",
        rule=True,
    ),
    Row("garment", "&Garment", "F7", "garment", "desk.show_garment", "&View", "All panels side by side as worn"),
    Row("worn", "W&orn", "Shift+F7", "worn", "desk.show_worn", "&View", "The garment as it hangs, seen from any side"),
    Row("panels", "Pane&ls", "F5", "panels", "desk.show_panels", "&View", "All panels in a list, for the keys"),
    Row("sewing", "Se&wing", "F8", "sewing", "desk.show_sewing", "&View", "The seams, and what walking them finds"),
    Row(
        "cut-list", "Cut &list", "F9", "cut-list", "desk.show_cut_list", "&View", "What to cut and buy, and what is cut"
    ),
    Row(
        "variants",
        "&Variants",
        "F11",
        "variants",
        "desk.show_variants",
        "&View",
        "How things stood, and what would help",
    ),
    Row("as-sewn", "&As sewn", "F12", "", "desk.show_as_sewn", "&View", "What to expect once hands have cut and sewn"),
    Row("next-seam", "&Next seam", "N", "", "desk.next_seam", "&View", "Pick the next seam"),
    Row("last-seam", "Seam &before", "Shift+N", "", "desk.seam_before", "&View", "Pick the seam before"),
    Row(
        "mm",
        "Lengths in mi&llimetres",
        "",
        "",
        "show_mm",
        "&View",
        "Millimetres everywhere on the screen",
        checkable=True,
        rule=True,
    ),
    Row("cm", "Lengths in c&entimetres", "", "", "show_cm", "&View", "Centimetres on the screen", checkable=True),
    Row(
        "in",
        "Lengths in in&ches",
        "",
        "",
        "show_inches",
        "&View",
        "Inches on the screen: lengths with fractions, steps with three decimals",
        checkable=True,
    ),
    Row("dark", "&Dark", "", "", "set_dark", "&View", "Dark surroundings", needs="", checkable=True, rule=True),
    Row("help", "&Help…", "F1", "", "help.show", "&Help", "What step, lean, drift and the rest mean", needs=""),
    Row("keys", "&Keys", "Shift+F1", "", "show_keys", "&Help", "All keys on one sheet", needs=""),
)

TOOLS = (
    ("open", "save"),
    ("undo", "redo"),
    ("cloth", "match", "lay", "papers"),
    ("hold", "turned", "settle", "follow"),
    ("zoom-out", "fit", "zoom-in"),
)
"""The toolbar's groups."""
NAMED = ("cloth", "match", "lay", "papers")
"""Tools that show their name beside their icon."""

HANDS = (
    ("Drag", "Move panels; they settle where they match"),
    ("Alt while dragging", "Move freely"),
    ("Esc", "Take a drag back, or select nothing"),
    ("Arrow keys", "Move the selected panels by 1 mm"),
    ("Shift + arrow keys", "Move by 10 mm"),
    ("Ctrl or Alt + arrow keys", "Move by 0.1 mm"),
    ("Tab, Shift + Tab", "Go from panel to panel"),
    ("Shift or Ctrl + click", "Add a panel to the selection, or take it out"),
    ("Drag on bare cloth", "Select what the band touches"),
    ("Wheel", "Zoom at the cursor"),
    ("Shift + wheel", "Move along the cloth"),
    ("Middle button, Space + drag", "Move the view"),
)
"""What hands and keys do on the cloth itself."""


def make_actions(window: "Window") -> dict[str, QAction]:
    """An action for every row of the table, by id, connected to the window."""
    actions = {}
    for row in TABLE:
        action = actions[row.id] = QAction(tr(row.text), window, checkable=row.checkable, checked=row.checked)
        action.setShortcuts([QKeySequence(key) for key in row.keys.split("; ") if key])
        tip = tr(row.tip)
        action.setToolTip(f"{tip} ({row.keys.split('; ')[0]})" if row.keys else tip)
        action.setStatusTip(tip)
        signal = action.toggled if row.checkable else action.triggered
        signal.connect(_caller(window, row))
        window.addAction(action)
    return actions


def _caller(window: "Window", row: Row) -> Callable[[bool], None]:
    """Calls a row's slot, with the check mark if it has one; what the slot belongs to is made when it is called."""

    def call(checked: bool = False) -> None:
        slot = attrgetter(row.slot)(window)
        slot(checked) if row.checkable else slot()

    return call


def tint_actions(actions: dict[str, QAction]) -> None:
    """Give the actions their icons in the colours of the current theme."""
    for row in TABLE:
        if row.icon:
            actions[row.id].setIcon(icon(row.icon))


def allow_actions(actions: dict[str, QAction], there: set[str]) -> None:
    """Enable the actions whose needs are there."""
    for row in TABLE:
        actions[row.id].setEnabled(not row.needs or row.needs in there)


def make_menus(window: "Window", actions: dict[str, QAction]) -> dict[str, QMenu]:
    """The menu bar, by the table."""
    menus = {name: window.menuBar().addMenu(tr(name)) for name in MENUS}
    for menu in menus.values():
        menu.setToolTipsVisible(True)
    for row in TABLE:
        if row.rule:
            menus[row.menu].addSeparator()
        menus[row.menu].addAction(actions[row.id])
    return menus


def make_tools(actions: dict[str, QAction]) -> QToolBar:
    """The toolbar."""
    bar = QToolBar(tr("Tools"), movable=False, floatable=False)
    bar.setAccessibleName(tr("Tools"))
    bar.setContextMenuPolicy(Qt.ContextMenuPolicy.PreventContextMenu)
    bar.setIconSize(QSize(24, 24))
    for index, group in enumerate(TOOLS):
        if index:
            bar.addSeparator()
        for name in group:
            bar.addAction(actions[name])
            button = bar.widgetForAction(actions[name])
            button.setAccessibleName(actions[name].text().replace("&", ""))
            button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
            if name in NAMED:
                button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
    return bar


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
        scroll = QScrollArea(widgetResizable=True)
        scroll.setFrameShape(QScrollArea.Shape.NoFrame)
        scroll.setWidget(sheet)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(scroll)
        room = self.screen().availableSize() - QSize(2 * WIDE, 4 * WIDE)
        self.resize((sheet.sizeHint() + QSize(ROOMY, ROOMY)).boundedTo(room))


def _menu_part(menu: str) -> list[tuple[str, str]]:
    """Heading and lines of the actions of one menu that have keys."""
    rows = [(_plain(tr(row.text)), row.keys.replace("; ", ", ")) for row in TABLE if row.menu == menu and row.keys]
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
