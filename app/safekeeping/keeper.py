"""Keeps unsaved work in a recovery file while the window goes on: every few seconds, in the background."""

import os
from collections.abc import Callable
from concurrent.futures import Future, ThreadPoolExecutor
from datetime import datetime
from pathlib import Path
from typing import Any

from PySide6.QtCore import QObject, QTimer, Signal

from app.document import Document
from app.safekeeping.folders import recovery_folder
from app.safekeeping.recovery import Origin, OwnFile
from app.safekeeping.stamp import DiskCopy
from app.words import tr
from core.errors import StripewrightError
from core.model.project import Project

Pages = list[dict[str, Any]]
"""Pages half filled in, the uppermost last, as plain data."""
EVERY_S = 10.0
"""How old a change may get before it is kept."""
_NOTHING: tuple[Project | None, Pages] = (None, [])
PATIENCE_S = 10.0
"""How long a rescue may wait for the disk."""


class Keeper(QObject):
    """The document's recovery file. What can't be kept is said once; the work goes on."""

    beat = Signal()
    """It is time to look after the file on disk, too."""
    failed = Signal(str)
    """The work can't be kept, in one line; said again only after it could be kept in between."""
    _ended = Signal(str)

    def __init__(
        self,
        document: Document,
        disk: DiskCopy,
        parent: QObject | None = None,
        folder: Path | None = None,
        every_s: float = EVERY_S,
        pages: Callable[[], Pages] = list,
    ) -> None:
        super().__init__(parent)
        self._document, self._disk, self._pages = document, disk, pages
        self._own = OwnFile(folder or recovery_folder())
        self._pool: ThreadPoolExecutor | None = None
        self._kept = _NOTHING
        self._fault = ""
        self._before = 0
        self._timer = QTimer(self, interval=round(1000 * every_s))
        self._timer.timeout.connect(self._tick)
        self._timer.start()
        self._ended.connect(self._take_fault)
        document.undo.cleanChanged.connect(self._follow_clean)

    @property
    def path(self) -> Path:
        """Where the work is kept."""
        return self._own.path

    def set_interval(self, every_s: float) -> None:
        """Keep more or less often."""
        self._timer.setInterval(round(1000 * every_s))

    # --- keeping

    def keep(self) -> None:
        """Begin to keep the work as it is, if it is neither saved nor kept already."""
        before, now = self._kept, self._work()
        if now == before:
            return
        if now == _NOTHING:
            self.forget()
            return
        self._kept = now
        origin, project = self._origin(now[1]), None if now[0] is before[0] else now[0]
        self._later(lambda: self._own.write(project, origin))

    def _work(self) -> tuple[Project | None, Pages]:
        """What is to be kept: the project, where it is not saved or a page stands on it, and the pages."""
        pages, document = self._pages(), self._document
        there = not document.is_empty and (pages or not document.undo.isClean())
        return document.kept if there else None, pages

    def rescue(self) -> bool:
        """Keep the work now; returns whether all of it is on disk, saved or kept."""
        self.keep()
        if self._pool:
            done: Future[None] = self._pool.submit(lambda: None)
            try:
                done.result(PATIENCE_S)
            except TimeoutError:
                return False
        return self._work() == _NOTHING or not self._fault

    def take_over(self, changes: int) -> None:
        """Work was brought back that had so many unsaved changes: it is this window's now."""
        self._before = changes
        self.rescue()

    def forget(self) -> None:
        """Nothing needs to be kept: the work is saved, or given up."""
        self._before, self._kept = 0, _NOTHING
        if self._pool:
            self._later(self._own.remove)

    def close(self, forget: bool = True) -> None:
        """End; what is kept goes with it, unless it is to be offered at the next start."""
        self._timer.stop()
        if forget:
            self.forget()
        if self._pool:
            self._pool.shutdown(wait=True)
            self._pool = None
        self._own.close()

    def _later(self, work: Callable[[], None]) -> None:
        """Do work on the disk in the background, one after the other."""
        self._pool = self._pool or ThreadPoolExecutor(1, "recovery")
        self._pool.submit(self._do, work)

    def _do(self, work: Callable[[], None]) -> None:
        try:
            work()
        except StripewrightError as error:
            fault = str(error)
        else:
            fault = ""
        self._report(fault)

    def _report(self, fault: str) -> None:
        """From the background: remember what went wrong at once, and say so when the screen has time."""
        known, self._fault = self._fault, fault
        if fault:
            self._kept = _NOTHING
        if fault and not known:
            self._ended.emit(fault)

    def _take_fault(self, fault: str) -> None:
        self.failed.emit(tr("Your unsaved work can't be kept safe: {fault}. Save it now and then.").format(fault=fault))

    def _origin(self, pages: Pages) -> Origin:
        undo, path = self._document.undo, self._document.path
        steps = abs(undo.index() - undo.cleanIndex()) if undo.cleanIndex() >= 0 else undo.index()
        when = datetime.now().isoformat(timespec="seconds")
        stamp = self._disk.stamp if self._disk.path == path else None
        return Origin(
            "" if self._document.is_empty else self._document.title,
            str(path) if path else None,
            stamp,
            steps + self._before,
            when,
            os.getpid(),
            undo.isClean(),
            pages,
        )

    # --- following

    def _tick(self) -> None:
        self.keep()
        self.beat.emit()

    def _follow_clean(self, clean: bool) -> None:
        if clean:
            self.forget()
