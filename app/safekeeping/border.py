"""The window border: whatever goes wrong, the work is kept first, then a word is said; and what ends the program from
outside finds the work kept as well."""

import contextlib
import faulthandler
import logging
import signal
import socket
import sys
from collections.abc import Callable
from pathlib import Path
from types import TracebackType
from typing import TYPE_CHECKING, TextIO

from PySide6.QtCore import QObject, QSocketNotifier, QTimer
from PySide6.QtWidgets import QApplication

from app.jobs import one_line
from app.words import tr

if TYPE_CHECKING:
    from app.window import Window

TRACE = "crash.txt"
_MOST_TRACE_BYTES = 1_000_000
_log = logging.getLogger(__name__)


def guard(window: "Window") -> None:
    """Keep the work when something unexpected happens, then say so in one line and carry on."""

    def show(kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        if issubclass(kind, KeyboardInterrupt):
            window.close()
            return
        _log.debug("unexpected", exc_info=(kind, error, trace))
        kept = _last_resort(window.keeper.rescue)
        _last_resort(window.document.cancel_trial)
        what = tr("Something went wrong inside the program ({what}).")
        here = tr("Your work is still here, and kept on disk.") if kept else tr("Your work is still here: save it now.")
        window.messages.warn(
            " ".join((what.format(what=f"{kind.__name__}: {one_line(error)}"), here)),
            tr("Save as…"),
            window.filing.save_as,
        )

    sys.excepthook = show


def _last_resort(act: Callable[[], object]) -> object:
    """Do what must not fail again; returns False if it does."""
    try:
        return act()
    except Exception:
        _log.debug("failed after a failure", exc_info=True)
        return False


def guard_session(app: QApplication, window: "Window") -> None:
    """Keep the work when the desktop's session ends."""
    app.commitDataRequest.connect(lambda _: window.keeper.rescue())


class Ending(QObject):
    """Ends the window when the system asks for it: the work is kept for the next start, and nothing is asked."""

    def __init__(self, window: "Window") -> None:
        super().__init__(window)
        self._window, self._asked = window, False
        self._read, self._write = socket.socketpair()
        for end in (self._read, self._write):
            end.setblocking(False)
        self._notifier = QSocketNotifier(self._read.fileno(), QSocketNotifier.Type.Read, self)
        self._notifier.activated.connect(self._wake)
        signal.set_wakeup_fd(self._write.fileno(), warn_on_full_buffer=False)
        for name in ("SIGTERM", "SIGHUP"):
            if hasattr(signal, name):
                signal.signal(getattr(signal, name), self._ask)

    def _wake(self) -> None:
        """Let the interpreter run, which calls what waits for a signal."""
        with contextlib.suppress(BlockingIOError):
            self._read.recv(64)

    def _ask(self, number: int, frame: object) -> None:
        """A signal may come in the middle of an edit, which is finished first."""
        self._asked = True
        QTimer.singleShot(0, self._end)

    def _end(self) -> None:
        self._window.keeper.rescue()
        QApplication.exit(0)

    def close(self) -> None:
        """Give the signals back; the last edits are kept, and the window goes, if it was asked to."""
        if self._asked:
            self._window.keeper.rescue()
            self._window.leave_as_it_is()
        signal.set_wakeup_fd(-1)
        self._notifier.setEnabled(False)
        for end in (self._read, self._write):
            end.close()


def trace_crashes(folder: Path) -> TextIO | None:
    """Have a crash of the interpreter itself leave its trace in a file; None where the folder can't be written to."""
    path = folder / TRACE
    try:
        folder.mkdir(parents=True, exist_ok=True)
        mode = "w" if path.exists() and path.stat().st_size > _MOST_TRACE_BYTES else "a"
        file = path.open(mode, encoding="utf-8")
    except OSError:
        return None
    faulthandler.enable(file)
    return file


def end_tracing(file: TextIO | None) -> None:
    """The program ends as it should."""
    if file is None:
        return
    faulthandler.disable()
    file.close()
    path = Path(file.name)
    if path.stat().st_size == 0:
        path.unlink()
