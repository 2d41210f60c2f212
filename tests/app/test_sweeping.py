"""Objects of the screen are destroyed in the thread of the screen, whatever thread makes the garbage."""

import gc
import threading
from typing import ClassVar

from PySide6.QtCore import QObject

from app.sweeping import EVERY_MS, Sweeping


class Cycle:
    """Garbage that only the collector finds, and that tells where it was found."""

    found: ClassVar[set[str]] = set()

    def __init__(self) -> None:
        self.itself = self

    def __del__(self) -> None:
        self.found.add(threading.current_thread().name)


def litter() -> None:
    for _ in range(20_000):
        Cycle()


def in_background() -> None:
    thread = threading.Thread(target=litter, name="background")
    thread.start()
    thread.join()


def test_garbage_of_a_job_is_collected_in_the_thread_of_the_screen(qtbot):
    Cycle.found.clear()
    parent = QObject()
    sweeping = Sweeping(parent)
    in_background()
    assert not Cycle.found
    qtbot.waitUntil(lambda: Cycle.found == {threading.main_thread().name}, timeout=20 * EVERY_MS)
    sweeping.end()


def test_without_it_a_background_thread_collects(qapp):
    """The reason for it, seen: the collector works where objects are made."""
    was = gc.isenabled()
    gc.enable()
    Cycle.found.clear()
    in_background()
    assert "background" in Cycle.found
    if not was:
        gc.disable()
