"""The window: canvas in the middle, seams at its right, and the wires between them."""

from pathlib import Path

from PySide6.QtCore import QEvent, QSettings, Qt, QTimer
from PySide6.QtGui import QActionGroup, QCloseEvent, QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import (
    QApplication,
    QMainWindow,
    QMenu,
    QSplitter,
    QStackedWidget,
    QTabWidget,
    QVBoxLayout,
    QWidget,
)

from app import units
from app.actions import KeySheet, allow_actions, make_actions, make_menus, make_tools, tint_actions
from app.as_sewn.page import AsSewnPage
from app.canvas.pane import CanvasPane
from app.canvas.view import CanvasView
from app.closeup import CloseUp
from app.cut_list import CutList
from app.document import Document
from app.edits import Edits
from app.errands import Errands
from app.filing import DRAWN, Filing
from app.garment_picture import GarmentPicture
from app.help.place import HelpDesk
from app.icons import icon
from app.inspector import Inspector
from app.jobs import JobRunner
from app.match_form import MatchForm
from app.messages import MessageBar, OfferBar
from app.mnemonics import plain, tell_apart
from app.move_form import MoveForm
from app.pages.ways_in import WaysIn
from app.panel_list import PanelList
from app.proving import Proving
from app.remedies.form import ShiftForm
from app.remedies.pane import RemedyPane
from app.safekeeping.keeper import Keeper
from app.safekeeping.rescued_bar import RescuedBar
from app.seam_table import SeamTable
from app.sewing.page import SewingPage
from app.start_page import StartPage
from app.status import Status
from app.theme import apply_theme, current
from app.variants.page import VariantsPage
from app.window_state import WindowState
from app.words import tr
from app.worn_view import WornView
from core.files.project_file import SUFFIX
from core.model.pattern import PanelName
from core.papers.choices import UnitName
from core.shifting.wish import ShiftWish

SEAMS_WIDE_PX = 460
PICTURES_EVERY_MS = 33
"""Close-up and garment follow a drag no faster than this; the readings follow every move."""


class Window(QMainWindow):
    """One project at a time."""

    def __init__(self) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self.document = Document(self)
        self.edits = Edits(self.document)
        self.jobs = JobRunner(self)
        self.whole = QWidget()
        self.messages = MessageBar(self.whole)
        self.filing = Filing(self.document, self.messages, self)
        self.keeper = Keeper(self.document, self.filing.disk, self)
        self.rescued = RescuedBar(self.document, self.filing, self.keeper, self.messages)
        self.help = HelpDesk(self)
        self.errands = Errands(self.document, self.jobs, self.messages, self)
        self.proving = Proving(self.document, self.jobs, self)
        self.pages = QStackedWidget()
        self.ways = WaysIn(self.document, self.filing, self.messages, self.pages, self)
        self._make_parts()
        self._lay_out()
        self.actions_by_id = make_actions(self)
        self._make_menus()
        self._dress()
        self._connect()
        self._show_all()
        self.state = WindowState(
            self, {"across": self.across, "right": self.right}, {"side": self.side, "pictures": self.pictures}
        )
        self.state.restore()

    # --- making

    def _make_parts(self) -> None:
        self.pane = CanvasPane(self.document, self.edits)
        self.inspector = Inspector(self.document, self.edits)
        self.unplaced = OfferBar(
            tr("These panels have no places yet."),
            {tr("Match stripes"): self.errands.match, tr("Spread out"): self.edits.spread_new},
        )
        self.table = SeamTable()
        self.closeup = CloseUp()
        self.opened = RemedyPane(self.closeup)
        self.garment = GarmentPicture()
        self.worn = WornView()
        self.sewing = SewingPage(self.document, self.view, self.messages)
        self.panel_list = PanelList(self.document, self.edits)
        self.cut_list = CutList(self.document, self.messages)
        self.variants = VariantsPage(self.document, self.errands, self.jobs, self.messages)
        self.as_sewn = AsSewnPage(self.document)
        self.start = StartPage(self.filing, self.ways)
        self.status = Status(self.document, self.view, self.jobs)
        self._moved: frozenset[PanelName] = frozenset()
        self._pictures_due = QTimer(self, singleShot=True, interval=PICTURES_EVERY_MS)
        self._pictures_due.timeout.connect(self._show_moved)

    @property
    def view(self) -> CanvasView:
        """The view on the cloth."""
        return self.pane.view

    def _lay_out(self) -> None:
        desk = QWidget()
        column = QVBoxLayout(desk)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        for part in (self.unplaced, self.inspector, self.pane):
            column.addWidget(part, 1 if part is self.pane else 0)
        self.pictures = QTabWidget(documentMode=True)
        self.pictures.setAccessibleName(tr("Pictures"))
        self.pictures.tabBar().setAccessibleName(tr("Which picture"))
        self.pictures.addTab(self.opened, tr("Close-up"))
        self.pictures.addTab(self.garment, tr("Garment"))
        self.pictures.addTab(self.worn, tr("Worn"))
        self.right = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        self.right.addWidget(self.table)
        self.right.addWidget(self.pictures)
        self.right.setStretchFactor(1, 1)
        self.right.setSizes([380, 480])
        self.side = QTabWidget(documentMode=True)
        self.side.setAccessibleName(tr("Beside the cloth"))
        self.side.tabBar().setAccessibleName(tr("What is beside the cloth"))
        for part, title in (
            (self.right, tr("Readings")),
            (self.panel_list, tr("Panels")),
            (self.sewing, tr("Sewing")),
            (self.cut_list, tr("Cut list")),
            (self.variants, tr("Variants")),
            (self.as_sewn, tr("As sewn")),
        ):
            self.side.addTab(part, title)
        self.across = QSplitter(Qt.Orientation.Horizontal, childrenCollapsible=False)
        self.across.addWidget(desk)
        self.across.addWidget(self.side)
        self.across.setStretchFactor(0, 1)
        self.across.setSizes([1000, SEAMS_WIDE_PX])
        self.pages.addWidget(self.start)
        self.pages.addWidget(self.across)
        rows = QVBoxLayout(self.whole)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addWidget(self.rescued)
        rows.addWidget(self.pages)
        self.setCentralWidget(self.whole)
        self.setStatusBar(self.status)

    def _make_menus(self) -> None:
        menus = make_menus(self, self.actions_by_id)
        self.recent_menu, samples = QMenu(tr("&Recent"), self), QMenu(tr("Sa&mples"), self)
        self.filing.fill_samples(samples)
        for menu in (self.recent_menu, samples):
            menu.setToolTipsVisible(True)
            menus["&File"].insertMenu(self.actions_by_id["save"], menu)
        self.filing.recent_changed.connect(lambda: self.filing.fill_recent(self.recent_menu))
        self.filing.fill_recent(self.recent_menu)
        for menu in (*menus.values(), samples):
            tell_apart(menu)
        self.tools = make_tools(self.actions_by_id)
        self.addToolBar(self.tools)
        self.actions_by_id["settle"].setChecked(self.view.settles)
        self._unit = units.shown().name
        one_of = QActionGroup(self)
        for name in units.NAMES:
            self.actions_by_id[name].setChecked(name == self._unit)
            one_of.addAction(self.actions_by_id[name])
        self.actions_by_id["dark"].setChecked(current().dark)

    def _connect(self) -> None:
        document = self.document
        document.project_changed.connect(self._show_all)
        document.placements_changed.connect(self._follow)
        document.seam_changed.connect(self._show_seam)
        document.title_changed.connect(self._show_title)
        document.selection_changed.connect(self._show_selected)
        document.undo.indexChanged.connect(self._allow)
        self.errands.growing.shown.connect(self.view.keep_all_seen)
        self.jobs.started.connect(self._allow)
        self.jobs.ended.connect(self._allow)
        self.errands.matched.connect(self.proving.start)
        self.proving.told.connect(self._show_proof)
        self.table.seam_picked.connect(document.pick_seam)
        self.table.sewing_wanted.connect(self.show_sewing)
        self.ways.turned.connect(self._show_place)
        self.edits.told.connect(self.messages.say)
        self.inspector.cloths.activated.connect(self._show_cloth)
        self.pictures.currentChanged.connect(self._turn_page)
        self.worn.panel_clicked.connect(lambda name: document.select((name,)))
        self.opened.wanted.connect(self.errands.take_shift)
        self.keeper.failed.connect(self.messages.say)
        self.keeper.beat.connect(self.filing.look_at_disk)

    # --- showing

    def _show_all(self) -> None:
        self.ways.leave_all()
        self.pages.setCurrentIndex(0 if self.document.is_empty else 1)
        self._follow(frozenset(self.document.panels))
        self._show_title()
        self._show_place()

    def _show_place(self) -> None:
        """Show tools and status with the cloth only, not at the start or beside a page."""
        at_cloth = self.pages.currentWidget() is self.across
        self.tools.setVisible(at_cloth)
        self.status.setVisible(at_cloth)
        self._allow()
        if at_cloth:
            self._show_unit()
            self.view.setFocus()

    def _follow(self, moved: frozenset[PanelName]) -> None:
        document = self.document
        self.table.show_measurement(document.project, document.measurement)
        self._show_proof()
        self.unplaced.setVisible(not document.project.placements.keys() >= document.panels.keys())
        self._moved |= moved
        if not document.trying:
            self._show_moved()
        elif not self._pictures_due.isActive():
            self._pictures_due.start()

    def _show_proof(self) -> None:
        words = self.proving.words
        self.table.figure.show_proof(words)
        self.status.show_proof(words)

    def _show_moved(self) -> None:
        """Show the pictures of what has moved since they were shown last."""
        self._pictures_due.stop()
        moved, self._moved = self._moved, frozenset()
        self._show_pictures(moved)

    def _show_pictures(self, moved: frozenset[PanelName] | None = None) -> None:
        document = self.document
        if self.pictures.currentWidget() is self.garment:
            self.garment.show_garment(document.project, document.measurement)
        elif self.pictures.currentWidget() is self.worn:
            self.worn.show_garment(document.project, document.measurement)
        elif moved is None or document.reading is None or moved & set(document.reading.line.panels):
            self.opened.show_seam(document.project, document.reading, document.trying)

    def _turn_page(self) -> None:
        """Show the picture that has come up."""
        self._show_pictures()

    def _show_seam(self) -> None:
        self.table.pick(self.document.seam)
        if self.document.seam >= 0:
            self.pictures.setCurrentWidget(self.opened)
            self._show_cloth_of(self.document.garment.seams[self.document.seam].panels[0])
        self._show_pictures()

    def _show_selected(self) -> None:
        """Follow the selection, to another cloth if it lies on one."""
        if self.document.current and self.document.current not in self.view.scene_here.panels:
            self._show_cloth_of(self.document.current)
        self._allow()

    def _show_cloth_of(self, panel: PanelName) -> None:
        """Bring the cloth of a panel up."""
        index = self.inspector.cloths.findData(self.document.cut.cloth_of(panel).id)
        if index != self.inspector.cloths.currentIndex():
            self.inspector.cloths.setCurrentIndex(index)
            self._show_cloth()

    def _show_cloth(self) -> None:
        self.view.show_cloth(self.inspector.cloths.currentData())

    def _show_title(self) -> None:
        name = "Stripewright" if self.document.is_empty else f"{self.document.title}[*] – Stripewright"
        self.setWindowTitle(name)
        self.setWindowModified(not self.document.undo.isClean())

    def _allow(self) -> None:
        document, at_cloth = self.document, self.pages.currentWidget() is self.across
        there = {
            "project": at_cloth,
            "panel": at_cloth and bool(document.selection),
            "undo": at_cloth and document.undo.canUndo(),
            "redo": at_cloth and document.undo.canRedo(),
            "idle": at_cloth and not self.jobs.busy,
            "job": self.jobs.busy,
            "early": self.jobs.can_stop,
        }
        allow_actions(self.actions_by_id, {name for name, true in there.items() if true})
        self.actions_by_id["undo"].setText(f"{tr('&Undo')} {plain(document.undo.undoText())}".rstrip())
        self.actions_by_id["redo"].setText(f"{tr('&Redo')} {plain(document.undo.redoText())}".rstrip())

    # --- what actions do

    def select_all(self) -> None:
        """Select all panels on the cloth that is shown."""
        self.document.select(tuple(self.view.scene_here.panels))

    def set_settling(self, settles: bool) -> None:
        """Let dragged panels settle on matches, or not."""
        self.view.settles = settles

    def set_following(self, follows: bool) -> None:
        """Let the other free panels follow those that are moved, or not."""
        self.edits.others_follow = follows

    def turn_left(self) -> None:
        """Turn the selected panels a step anticlockwise."""
        self.edits.turn_by(-1)

    def turn_right(self) -> None:
        """Turn the selected panels a step clockwise."""
        self.edits.turn_by(1)

    def repeat_left(self) -> None:
        """Move the selected panels a repeat to the left."""
        self.edits.nudge_by_repeats(-1)

    def repeat_right(self) -> None:
        """Move the selected panels a repeat to the right."""
        self.edits.nudge_by_repeats(1)

    def ask_move(self) -> None:
        """Ask how far the selected panels are to be moved and turned."""
        MoveForm(self.edits, self).open()

    def from_shelf(self) -> None:
        """Take a cloth from the shelf."""
        self.ways.from_shelf(self.inspector.cloths.currentData())

    def keep_left(self) -> None:
        """Put what is left of the cloth shown on the shelf."""
        self.errands.keep_left(self.inspector.cloths.currentData())

    def ask_what_counts(self) -> None:
        """Ask what counts when stripes are matched."""
        MatchForm(self.document, self).open()

    def ask_shift(self) -> None:
        """Ask how far stitching lines may be moved, and move them."""
        ShiftForm(self.opened.wish, self._shift, self).open()

    def _shift(self, wish: ShiftWish) -> None:
        self.opened.wish = wish
        self.errands.shift(wish)

    def show_mm(self, on: bool) -> None:
        """Show lengths in millimetres."""
        self._choose_unit("mm", on)

    def show_cm(self, on: bool) -> None:
        """Show lengths in centimetres."""
        self._choose_unit("cm", on)

    def show_inches(self, on: bool) -> None:
        """Show lengths in inches."""
        self._choose_unit("in", on)

    def _choose_unit(self, name: UnitName, on: bool) -> None:
        if on and units.shown().name != name:
            units.choose(name)
        self._show_unit()

    def _show_unit(self) -> None:
        """Follow a change of the unit of lengths, here or on a page."""
        if self._unit == units.shown().name:
            return
        self._unit = units.shown().name
        for name in units.NAMES:
            self.actions_by_id[name].setChecked(name == self._unit)
        lists = self.panel_list, self.sewing, self.cut_list, self.variants, self.as_sewn
        for part in (self.pane, self.inspector, self.table, self.opened, *lists, self.status):
            part.show_unit()

    def show_closeup(self) -> None:
        """Show the close-up."""
        self.side.setCurrentWidget(self.right)
        self.pictures.setCurrentWidget(self.opened)

    def show_garment(self) -> None:
        """Show the garment picture."""
        self.side.setCurrentWidget(self.right)
        self.pictures.setCurrentWidget(self.garment)

    def show_worn(self) -> None:
        """Show the garment as it hangs."""
        self.side.setCurrentWidget(self.right)
        self.pictures.setCurrentWidget(self.worn)

    def show_panels(self) -> None:
        """Show the list of panels, with the keys in it."""
        self.side.setCurrentWidget(self.panel_list)
        self.panel_list.table.setFocus()

    def show_sewing(self) -> None:
        """Show the sewing page."""
        self.side.setCurrentWidget(self.sewing)

    def show_cut_list(self) -> None:
        """Show the cut list."""
        self.side.setCurrentWidget(self.cut_list)

    def show_as_sewn(self) -> None:
        """Show what to expect once it is sewn."""
        self.side.setCurrentWidget(self.as_sewn)

    def show_variants(self) -> None:
        """Show the variants."""
        self.side.setCurrentWidget(self.variants)

    def show_advice(self) -> None:
        """Work out what would help, and show it."""
        self.show_variants()
        self.variants.help.advise()

    def keep_variant(self) -> None:
        """Keep how things stand as a variant."""
        self.show_variants()
        self.variants.keep()

    def pick_edges(self) -> None:
        """Begin picking edges on the cloth to sew them together, or end it."""
        self.show_sewing()
        self.sewing.pick_on_cloth()

    def next_seam(self) -> None:
        """Pick the next seam."""
        self._step_seam(1)

    def seam_before(self) -> None:
        """Pick the seam before."""
        self._step_seam(-1)

    def _step_seam(self, step: int) -> None:
        if count := len(self.document.garment.seams):
            here = self.document.seam if self.document.seam >= 0 or step > 0 else 0
            self.document.pick_seam((here + step) % count)

    def set_dark(self, dark: bool) -> None:
        """Dress the workbench in dark or light."""
        apply_theme(QApplication.instance(), dark)
        self._dress()
        QSettings().setValue("dark", dark)

    def _dress(self) -> None:
        """Follow the theme."""
        tint_actions(self.actions_by_id)
        self.setWindowIcon(icon("app"))
        for part in (
            self.view,
            self.messages,
            self.rescued,
            self.unplaced,
            self.inspector,
            self.start,
            self.status,
            self.panel_list,
            self.sewing,
            self.cut_list,
            self.variants,
            self.as_sewn,
            self.ways,
            self.help,
            self.opened,
        ):
            part.show_theme()

    def show_keys(self) -> None:
        """Show the sheet of keys."""
        KeySheet(self).show()

    # --- files by dropping, closing, state

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take project files and drawings."""
        if _dropped(event):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the project file, or the drawing, that was dropped."""
        if path := _dropped(event):
            event.acceptProposedAction()
            if path.suffix == SUFFIX:
                self.filing.open_path(path)
            else:
                self.ways.open_drawing(path)

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes; leave no thread behind."""
        self.document.cancel_trial()
        if not self.filing.may_leave():
            event.ignore()
            return
        self._end(forget=True)
        event.accept()

    def leave_as_it_is(self) -> None:
        """End without a question; unsaved work is offered at the next start."""
        self._end(forget=False)

    def _end(self, forget: bool) -> None:
        """Leave no thread and no timer behind."""
        self._pictures_due.stop()
        self.help.close()
        self.keeper.close(forget)
        self.rescued.let_go()
        self.proving.close()
        self.jobs.close()
        self.ways.put_away_all()
        self.opened.close_jobs()
        self.state.keep()

    def changeEvent(self, event: QEvent) -> None:
        """Look at the file on disk when the user comes back to the window."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            self.filing.look_at_disk()


def _dropped(event: QDragEnterEvent | QDropEvent) -> Path | None:
    """The first project file or drawing among what is dragged."""
    paths = (Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile())
    return next((path for path in paths if path.suffix in (SUFFIX, *DRAWN)), None)
