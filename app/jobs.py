"""Long work in the background, with progress and Cancel.

One job runs at a time. Its work is a function of values that gets a progress callback; its result is handed over in
the thread of the screen. Cancel frees the screen at once: the thread ends as soon as its work asks the callback, and
what it still brings is dropped. Work that has something to show at any time can be stopped early and is kept.
"""

import logging
import threading
import time
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QThread, Signal

from app.words import tr
from core.errors import StripewrightError
from core.progress import Progress

Work = Callable[[Progress], Any]
TELL_EVERY_S = 0.04
"""Progress is told no more often than this."""

_log = logging.getLogger(__name__)


class Job(QThread):
    """One piece of work in a thread of its own; `result` or `error` is set when it has finished."""

    told = Signal(float, str)

    def __init__(self, work: Work, parent: QObject) -> None:
        super().__init__(parent)
        self.result: Any = None
        self.error = ""
        self._work = work
        self._stopped = threading.Event()
        self._told_at = 0.0

    def stop(self) -> None:
        """Ask the work to end."""
        self._stopped.set()

    @property
    def stopped(self) -> bool:
        """Whether the work was asked to end."""
        return self._stopped.is_set()

    def run(self) -> None:
        """Do the work; the job border: nothing that goes wrong in it goes further than one line."""
        try:
            self.result = self._work(self._progress)
        except StripewrightError as error:
            self.error = str(error)
        except Exception as error:
            _log.debug("a job failed", exc_info=True)
            self.error = tr("Something went wrong inside the program ({kind}: {what})").format(
                kind=type(error).__name__, what=one_line(error)
            )

    def _progress(self, share: float, note: str) -> bool:
        now = time.monotonic()
        if now - self._told_at >= TELL_EVERY_S and not self.stopped:
            self._told_at = now
            self.told.emit(share, note)
        return not self.stopped


class JobRunner(QObject):
    """Runs one job at a time for the window."""

    started = Signal(str, bool)
    """What is being done, and whether it can be stopped early and kept."""
    progressed = Signal(float, str)
    """Share done from 0 to 1, what is being done."""
    ended = Signal()
    """The screen is free again: the job is done, has failed or was cancelled."""
    failed = Signal(str)
    """What went wrong, in one line."""

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._job: Job | None = None
        self._can_stop = False
        self._ending: set[Job] = set()

    @property
    def can_stop(self) -> bool:
        """Whether the job that runs can be stopped early and kept."""
        return self._job is not None and self._can_stop

    @property
    def busy(self) -> bool:
        """Whether a job runs whose result is wanted."""
        return self._job is not None

    def run(self, title: str, work: Work, done: Callable[[Any], None], can_stop: bool = False) -> None:
        """Start work; `done` gets its result in this thread. Does nothing while another job runs."""
        if self.busy:
            return
        job = self._job = Job(work, self)
        job.told.connect(lambda share, note: self._tell(job, share, note))
        job.finished.connect(lambda: self._finish(job, done))
        self._can_stop = can_stop
        self.started.emit(title, can_stop)
        job.start()

    def finish_early(self) -> None:
        """Have the job that runs end soon with what it has."""
        if self._job:
            self._job.stop()

    def cancel(self) -> None:
        """Drop the job that runs."""
        job, self._job = self._job, None
        if job:
            self._ending.add(job)
            job.stop()
            self.ended.emit()

    def close(self) -> None:
        """Cancel, and wait until no thread is left."""
        self.cancel()
        for job in self._ending:
            job.wait()
            job.deleteLater()
        self._ending.clear()

    def _tell(self, job: Job, share: float, note: str) -> None:
        if job is self._job:
            self.progressed.emit(share, note)

    def _finish(self, job: Job, done: Callable[[Any], None]) -> None:
        self._ending.discard(job)
        job.deleteLater()
        if job is not self._job:
            return
        self._job = None
        self.ended.emit()
        if job.error:
            self.failed.emit(job.error)
        else:
            done(job.result)


def one_line(error: BaseException) -> str:
    """What an exception says, in one line."""
    return " ".join(str(error).split())[:160]
