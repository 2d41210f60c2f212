"""The window: the start page and the menus at once, the rooms of the workbench when they are wanted."""

from collections.abc import Iterator
from contextlib import ExitStack
from functools import cached_property
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING

from PySide6.QtCore import QEvent, QSettings, QSignalBlocker
from PySide6.QtGui import QCloseEvent, QDragEnterEvent, QDropEvent, QPaintEvent
from PySide6.QtWidgets import QApplication, QMainWindow, QMenu, QStackedWidget, QToolBar, QVBoxLayout, QWidget

from app.actions import allow_actions, make_actions, make_menus, make_tools, tint_actions
from app.asking import Asking
from app.help.place import HelpDesk
from app.icons import icon
from app.language_menu import language_menu
from app.languages import catalogues
from app.later import HEAVY, OF_DRAWINGS, IdleTime, made, make, read_behind
from app.messages import MessageBar
from app.mnemonics import plain, tell_apart
from app.start.recent import Recent, fill_samples, what_it_shows
from app.sweeping import Sweeping
from app.theme import apply_theme, current
from app.unit_choice import UnitChoice
from app.window_state import WindowState
from app.words import tr
from core.files.suffixes import DRAWN, SUFFIX

if TYPE_CHECKING:
    from app.desk import Desk
    from app.document import Document
    from app.edits import Edits
    from app.errands import Errands
    from app.filing import Filing
    from app.jobs import JobRunner
    from app.pages.ways_in import WaysIn
    from app.proving import Proving
    from app.safekeeping.keeper import Keeper
    from app.safekeeping.rescued_bar import RescuedBar
    from app.safekeeping.stamp import FileRead
    from app.start.start_page import StartPage

CLOTH_ROOMS = ("app.canvas.view", "app.readings.seam_table", "app.status", "app.inspector", "app.desk")
"""What is read before there can be a desk."""
PAGE_ROOMS = tuple(f"app.pages.{name}_page" for name in ("draft", "import", "cloth", "photo", "swatch"))
"""What is read before there can be a page by which something gets in."""


class Window(QMainWindow):
    """One project at a time. Its start page is up, or nothing yet if it `awaits` a project."""

    def __init__(self, awaits: bool = False) -> None:
        super().__init__()
        self.setAcceptDrops(True)
        self.idle, self._ends = IdleTime(self), ExitStack()
        self._ends.callback(Sweeping(self).end)
        self.recent, self.help, self.asks = Recent(self), HelpDesk(self), Asking(self)
        self.whole, self.pages = QWidget(), QStackedWidget()
        self.messages = MessageBar(self.whole)
        self._lay_out()
        make(self, *([] if awaits else ["start"]))
        self.actions_by_id = make_actions(self)
        self._make_menus()
        self._dress()
        self._allow()
        self._show_title()
        self.state = WindowState(self)
        self.state.restore()

    # --- what is made when it is wanted

    @cached_property
    def start(self) -> "StartPage":
        """The start page."""
        from app.start.start_page import StartPage

        start = StartPage(self)
        self.pages.addWidget(start)
        return start

    @cached_property
    def document(self) -> "Document":
        """The open project."""
        from app.document import Document

        document = Document(self)
        document.project_changed.connect(self._show_project)
        document.title_changed.connect(self._show_title)
        document.selection_changed.connect(self._allow)
        document.undo.indexChanged.connect(self._allow)
        return document

    @cached_property
    def edits(self) -> "Edits":
        """What hands do to panels."""
        from app.edits import Edits

        edits = Edits(self.document)
        edits.told.connect(self.messages.say)
        return edits

    @cached_property
    def jobs(self) -> "JobRunner":
        """What is worked on in the background."""
        from app.jobs import JobRunner

        jobs = JobRunner(self)
        jobs.started.connect(self._allow)
        jobs.ended.connect(self._allow)
        self._ends.callback(jobs.close)
        return jobs

    @cached_property
    def filing(self) -> "Filing":
        """Opening and saving."""
        from app.filing import Filing

        return Filing(self.document, self.recent, self.messages, self)

    @cached_property
    def keeper(self) -> "Keeper":
        """What keeps unsaved work."""
        from app.safekeeping.keeper import Keeper

        keeper = Keeper(self.document, self.filing.disk, self, pages=self._pages_half_filled)
        keeper.failed.connect(self.messages.say)
        keeper.beat.connect(self.filing.look_at_disk)
        return keeper

    @cached_property
    def rescued(self) -> "RescuedBar":
        """What offers unsaved work of a window that is gone."""
        from app.safekeeping.rescued_bar import RescuedBar

        bar = RescuedBar(
            self.document, self.filing, self.keeper, self.messages, lambda pages: self.ways.stand_again(pages)
        )
        self.whole.layout().insertWidget(0, bar)
        self._ends.callback(bar.let_go)
        return bar

    @cached_property
    def errands(self) -> "Errands":
        """Match, Lay, Papers and the like."""
        from app.errands import Errands

        errands = Errands(self.document, self.jobs, self.messages, self)
        errands.matched.connect(self.proving.start)
        return errands

    @cached_property
    def proving(self) -> "Proving":
        """What proves a match."""
        from app.proving import Proving

        proving = Proving(self.document, self.jobs, self)
        self._ends.callback(proving.close)
        return proving

    @cached_property
    def ways(self) -> "WaysIn":
        """The pages by which something gets into the workbench."""
        from app.pages.ways_in import WaysIn

        ways = WaysIn(self.document, self.filing, self.messages, self.pages, lambda: self.home, self)
        ways.turned.connect(self._show_place)
        ways.looking.connect(lambda: self.idle.add(read_behind(OF_DRAWINGS)))
        ways.begun.connect(lambda: self.edits.spread_new())
        self._ends.callback(ways.put_away_all)
        return ways

    @cached_property
    def desk(self) -> "Desk":
        """The cloth, and what is beside it; tools and status come with it."""
        from app.desk import Desk

        desk = Desk(self.document, self.edits, self.errands, self.proving, self.jobs, self.messages)
        desk.set_settling(self.actions_by_id["settle"].isChecked())
        self.pages.addWidget(desk)
        self.setStatusBar(desk.status)
        desk.status.setVisible(False)
        desk.show_theme()  # a widget that gets its place in a window that is shown loses the fonts it was given
        self.state.follow({"across": desk, "right": desk.right}, {"side": desk.side, "pictures": desk.pictures})
        self._ends.callback(desk.end)
        return desk

    @cached_property
    def tools(self) -> QToolBar:
        """The toolbar."""
        tools = make_tools(self.actions_by_id)
        self.addToolBar(tools)
        tools.setVisible(self.at_cloth)
        return tools

    def opening(self, read: "FileRead") -> Iterator[object]:
        """Open what was read, a slice at a time, unless somebody was quicker and has begun something else."""
        for room in CLOTH_ROOMS:
            yield import_module(room)
        yield make(self, "filing", "errands", "keeper")
        if self.document.is_empty and not made(self, "ways"):
            yield self.filing.take(read, read.path)
            yield self.recent.remember(read.path)

    def rest(self) -> Iterator[object]:
        """Make what nobody has wanted yet, a slice at a time, and offer what was not saved the last time."""
        yield from read_behind(HEAVY)
        yield self.rescued.look()
        for start in made(self, "start"):
            yield from start.show_cloths()
        for room in CLOTH_ROOMS:
            yield import_module(room)
        for name in ("errands", "ways", "desk", "tools"):
            yield make(self, name)
        for name in self.desk.places:
            yield make(self.desk, name)
        for room in PAGE_ROOMS:
            yield import_module(room)

    # --- making

    def _lay_out(self) -> None:
        rows = QVBoxLayout(self.whole)
        rows.setContentsMargins(0, 0, 0, 0)
        rows.setSpacing(0)
        rows.addWidget(self.pages)
        self.setCentralWidget(self.whole)

    def _make_menus(self) -> None:
        menus = make_menus(self, self.actions_by_id)
        self.recent_menu, samples = QMenu(tr("&Recent"), self), QMenu(tr("Sa&mples"), self)
        fill_samples(samples, lambda path: self.open_sample(path))
        for menu in (self.recent_menu, samples):
            menu.setToolTipsVisible(True)
            menus["&File"].insertMenu(self.actions_by_id["save"], menu)
        self.recent.changed.connect(self._fill_recent)
        self._fill_recent()
        if len(catalogues.codes()) > 1:
            menus["&View"].addMenu(language_menu(self.messages.say, self.messages.warn, self))
        for menu in (*menus.values(), samples):
            tell_apart(menu)
        self.unit = UnitChoice(self.actions_by_id, self._show_unit, self)
        with QSignalBlocker(self.actions_by_id["dark"]):
            self.actions_by_id["dark"].setChecked(current().dark)

    def _show_unit(self) -> None:
        for desk in made(self, "desk"):
            desk.show_unit()

    def _fill_recent(self) -> None:
        self.recent.fill(self.recent_menu, lambda path: self.filing.open_path(path))

    # --- showing

    @property
    def home(self) -> QWidget:
        """What is shown while no page is up: the desk, or the start page before a project is open."""
        return self.start if self.document.is_empty else self.desk

    def _pages_half_filled(self) -> list[dict[str, object]]:
        """What stands in pages, to be kept."""
        return [page for ways in made(self, "ways") for page in ways.stand()]

    @property
    def at_cloth(self) -> bool:
        """Whether the desk is shown."""
        return self.pages.currentWidget() in made(self, "desk")

    def _show_project(self) -> None:
        """Another project is open: bring it up, and keep it safe."""
        for ways in made(self, "ways"):
            ways.leave_all()
        make(self, "desk", "tools", "keeper")
        self.pages.setCurrentWidget(self.home)
        self._show_title()
        self._show_place()

    def _show_place(self) -> None:
        """Show tools and status with the cloth only, not at the start or beside a page; keep what a page is given."""
        make(self, "keeper")
        at_cloth = self.at_cloth
        for part in (*made(self, "tools"), *(desk.status for desk in made(self, "desk"))):
            part.setVisible(at_cloth)
        self._allow()
        if at_cloth:
            self.unit.follow()
            self.desk.view.setFocus()

    def _show_title(self) -> None:
        empty = not made(self, "document") or self.document.is_empty
        self.setWindowTitle("Stripewright" if empty else f"{self.document.title}[*] – Stripewright")
        self.setWindowModified(not empty and not self.document.undo.isClean())

    def _allow(self) -> None:
        """Allow the actions for which everything is there."""
        if not made(self, "document"):
            allow_actions(self.actions_by_id, set())
            return
        document, at_cloth = self.document, self.at_cloth
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
        undo, redo = plain(document.undo.undoText()), plain(document.undo.redoText())
        self.actions_by_id["undo"].setText(tr("&Undo {step}", step=undo) if undo else tr("&Undo"))
        self.actions_by_id["redo"].setText(tr("&Redo {step}", step=redo) if redo else tr("&Redo"))

    # --- what actions do

    def open_sample(self, path: Path) -> None:
        """Open a sample with its panels side by side, and say what comes next; as long as it is only looked at, it
        needn't be saved."""
        if self.filing.open_sample(path):
            self.edits.spread_new()
            if self.desk.heaped.isVisible():
                self.edits.spread_out()
            self.document.undo.setClean()
            self.messages.say(what_it_shows(path), tr("Match stripes"), self.errands.match)

    def set_dark(self, dark: bool) -> None:
        """Dress the workbench in dark or light."""
        apply_theme(QApplication.instance(), dark)
        self._dress()
        QSettings().setValue("dark", dark)

    def _dress(self) -> None:
        """Follow the theme."""
        tint_actions(self.actions_by_id)
        self.setWindowIcon(icon("app"))
        for part in (self.messages, self.help, *made(self, "start", "rescued", "ways", "desk")):
            part.show_theme()

    # --- files by dropping

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        """Take project files and drawings."""
        if _dropped(event):
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        """Open the project file, or the drawing, that was dropped."""
        if path := _dropped(event):
            event.acceptProposedAction()
            if path.suffix.lower() == SUFFIX:
                self.filing.open_path(path)
            else:
                self.ways.open_drawing(path)

    # --- coming and going

    def paintEvent(self, event: QPaintEvent) -> None:
        """Once the window is seen there is time for the rest."""
        super().paintEvent(event)
        self.idle.begin()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Ask about unsaved changes; leave no thread behind."""
        for document in made(self, "document"):
            document.cancel_trial()
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
        self.idle.end()
        self.help.close()
        for keeper in made(self, "keeper"):
            keeper.close(forget)
        self._ends.close()
        self.state.keep()

    def changeEvent(self, event: QEvent) -> None:
        """Look at the file on disk when the user comes back to the window."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self.isActiveWindow():
            for filing in made(self, "filing"):
                filing.look_at_disk()


def _dropped(event: QDragEnterEvent | QDropEvent) -> Path | None:
    """The first project file or drawing among what is dragged."""
    paths = (Path(url.toLocalFile()) for url in event.mimeData().urls() if url.isLocalFile())
    return next((path for path in paths if path.suffix.lower() in (SUFFIX, *DRAWN)), None)
