"""The lay that grows before the eyes: each shorter one that the search finds is shown on the cloth, as a trial.

Nothing is kept of it: when the search ends, or the hand takes hold of a panel, the panels lie again where they lay.
"""

import time
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from app.document import Document
from app.jobs import JobRunner
from core.model.pattern import PanelName
from core.model.project import Placement, Project

if TYPE_CHECKING:
    from core.lay.lay import Show

SHOW_EVERY_S = 0.1
"""Lays are shown no more often than this."""


class Growing(QObject):
    """Brings lays from the thread of the search onto the screen, as long as nothing else is going on there."""

    shown = Signal()
    """Panels lie where a lay has them."""
    _found = Signal(object, object, object)

    def __init__(self, document: Document, jobs: JobRunner, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._search: object = None
        self._shown: Project | None = None
        self._found.connect(self._show)
        jobs.ended.connect(self.stop)

    def begin(self, project: Project) -> "Show":
        """What a search on a project, in a thread of its own, is to give its lays to."""
        search = self._search = object()
        places: dict[PanelName, Placement] = {}
        told_at = 0.0

        def show(found: dict[PanelName, Placement]) -> None:
            nonlocal told_at
            places.update(found)
            if time.monotonic() - told_at >= SHOW_EVERY_S:
                told_at = time.monotonic()
                self._found.emit(search, project, dict(places))

        return show

    def stop(self) -> None:
        """Take back what is shown."""
        self._search = None
        if self._document.trying and self._document.project is self._shown:
            self._document.cancel_trial()
        self._shown = None

    def _show(self, search: object, project: Project, places: dict[PanelName, Placement]) -> None:
        document = self._document
        if search is not self._search or document.kept is not project:
            return
        if not document.trying or document.project is self._shown:
            document.try_placements(places)
            self._shown = document.project
            self.shown.emit()
