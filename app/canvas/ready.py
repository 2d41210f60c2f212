"""What the first frame of a drag needs, worked out while the mouse rests over the cloth."""

from PySide6.QtCore import QObject, QTimer

from app.document import Document
from core.model.pattern import PanelName
from core.model.project import Project


class Readiness(QObject):
    """One panel's outline at a time, whenever nothing else is to be done."""

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._project: Project | None = None
        self._left: list[PanelName] = []
        self._work = QTimer(self, interval=0, timeout=self._next)

    def begin(self) -> None:
        """The hand has come near: get ready, unless that is done for the panels as they lie."""
        if self._document.kept is not self._project:
            self._project = self._document.kept
            self._left = list(self._document.panels)
            self._work.start()

    def _next(self) -> None:
        if not self._left or self._document.kept is not self._project:
            self._work.stop()
            return
        from core.lay.stops import make_ready
        from core.matching import phase  # noqa: F401

        panel = self._document.panels[self._left.pop()]
        make_ready(self._document.cut, self._document.cut.cloth_of(panel.name), panel)
