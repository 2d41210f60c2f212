"""What is made when it is wanted, or beforehand in idle time.

A part that can wait is a `cached_property`: whoever wants it first makes it, and whether that is a user, an action or
idle time makes no difference. `made` tells which parts are there already, without making them.
"""

import importlib
import threading
from collections import deque
from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from PySide6.QtCore import QObject, QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.tabbing import in_order, reached_in

PAUSE_MS = 10
"""Between two slices of work the window has so long for everything else."""
HEAVY = (
    "core.files.project_file",
    "core.derive.matched",
    "core.lay.remnant",
    "core.papers.panel_lines",
    "core.worn.body",
)
"""Rooms that bring large libraries with them; none of them knows the screen, so that another thread can read them."""
OF_DRAWINGS = (
    "core.files.svg_in",
    "core.files.dxf_in",
    "core.files.pdf_in",
)
"""What reads drawn patterns, the same way: only when one is looked for."""
_DONE = object()

Made = TypeVar("Made", bound=QWidget)


def made(owner: object, *names: str) -> list[object]:
    """Those of an owner's parts that have been made."""
    return [vars(owner)[name] for name in names if name in vars(owner)]


def make(owner: object, *names: str) -> None:
    """See to it that these parts of an owner are there."""
    for name in names:
        getattr(owner, name)


class Place(QWidget):
    """Where a widget will be, once somebody looks; `want` makes it and gives it to `take`. Tab goes on to it from the
    one `after` which it stands.
    """

    def __init__(self, want: Callable[[], object], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._want = want
        self.after: QWidget | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)

    def take(self, widget: Made) -> Made:
        """Hold the widget, and return it."""
        self.layout().addWidget(widget)
        widget.show()
        self.layout().activate()
        in_order(*([self.after] if self.after else []), *reached_in(widget))
        return widget

    def showEvent(self, event: QShowEvent) -> None:
        """Somebody looks."""
        super().showEvent(event)
        self._want()


class IdleTime(QObject):
    """Works through slices of work, one after the other, whenever nothing else is to be done."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._waiting: deque[tuple[Iterator[object], int]] = deque()
        self._begun = False
        self._timer = QTimer(self, timeout=self._slice)

    def add(self, slices: Iterable[object], pause_ms: int = PAUSE_MS) -> None:
        """Work through these as well; each one that is asked for is a slice, and short.

        What somebody waits for has no pause between its slices: the window then does what has come up meanwhile.
        """
        self._waiting.append((iter(slices), pause_ms))
        if self._begun:
            self._wait()

    def begin(self) -> None:
        """There is idle time from now on."""
        self._begun = True
        self._wait()

    def end(self) -> None:
        """No more; what was not begun is dropped."""
        self._timer.stop()
        self._waiting.clear()

    def _slice(self) -> None:
        if self._waiting and next(self._waiting[0][0], _DONE) is _DONE:
            self._waiting.popleft()
        self._wait()

    def _wait(self) -> None:
        """Wait for the next slice, if there is one."""
        if not self._waiting:
            self._timer.stop()
        elif not self._timer.isActive() or self._timer.interval() != self._waiting[0][1]:
            self._timer.start(self._waiting[0][1])


def read_behind(names: tuple[str, ...]) -> Iterator[object]:
    """Read heavy rooms in the background; a slice is a look at whether they are there."""
    ended = threading.Event()

    def read() -> None:
        for name in names:
            if not ended.is_set():
                importlib.import_module(name)

    reading = threading.Thread(target=read, name="reading")
    reading.start()
    try:
        while reading.is_alive():
            yield None
    finally:
        ended.set()
