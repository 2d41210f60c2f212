"""Python's garbage is collected in the thread of the screen, while a window is open.

Left to itself the collector of reference cycles runs in whatever thread happens to allocate. A widget or an item of
the canvas that it finds there is destroyed outside the thread of the screen, which Qt does not survive: a crash now and
then, whenever a job or an import in the background makes many objects.
"""

import gc

from PySide6.QtCore import QObject, QTimer

EVERY_MS = 100
YOUNG, MIDDLE, OLD = 700, 10, 50
"""So many new objects, and so many collections of the younger, and a generation is collected."""

_open: set["Sweeping"] = set()


class Sweeping(QObject):
    """Collects garbage every now and then, in place of the collector's own habit, until it ends."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self._timer = QTimer(self, interval=EVERY_MS)
        self._timer.timeout.connect(sweep)
        self._timer.start()
        _open.add(self)
        gc.disable()

    def end(self) -> None:
        """Leave the collector to itself again, unless another window is open; no job may be running any more."""
        self._timer.stop()
        _open.discard(self)
        if not _open:
            gc.enable()


def sweep() -> None:
    """Collect the oldest generation that is due."""
    young, middle, old = gc.get_count()
    if young > YOUNG:
        gc.collect(2 if old > OLD else 1 if middle > MIDDLE else 0)
