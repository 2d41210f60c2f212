"""How near a match comes to the best there can be: proved in the background, while nothing else is worked on."""

import threading
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from PySide6.QtCore import QObject, QTimer, Signal

from app.command_line.proof_option import how_near
from app.document import Document
from app.jobs import JobRunner
from app.words import tr
from core.model.project import Project
from core.progress import Progress

if TYPE_CHECKING:
    from core.matching.bound import Bound

PROVE_S = 30.0
"""A proof may take this long."""

CALM_MS = 300
"""It begins when nothing has happened for so long."""

SAME_MM = 5e-4
"""A figure within this of the one that was proved is the same."""


@dataclass(frozen=True)
class Claim:
    """What was proved: of projects with this basis none has a figure below `low_mm`; `rms_mm` is the match's."""

    basis: tuple[Any, ...]
    rms_mm: float
    low_mm: float
    proved: bool

    @property
    def words(self) -> str:
        """What to say of it."""
        gap = max(self.rms_mm - self.low_mm, 0.0)
        near = how_near(gap / self.rms_mm if self.rms_mm else 0.0, gap, self.proved, self.low_mm > 0)
        return tr("proved {near}").format(near=near) if self.proved or self.low_mm > 0 else tr("nothing proved")


class Proving(QObject):
    """Proves the match of the document. It makes way for every other job, waits while a hand drags, starts again after
    changes that leave it the same task, and never moves a panel."""

    told = Signal()
    """What is to be said of the figure is something else."""

    def __init__(self, document: Document, jobs: JobRunner, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._jobs, self._runner = document, jobs, JobRunner(self)
        self._wanted: tuple[Any, ...] | None = None
        self._claim: Claim | None = None
        self._free = threading.Event()
        self._free.set()
        self._due = QTimer(self, singleShot=True, interval=CALM_MS)
        self._due.timeout.connect(self._begin)
        self._runner.failed.connect(self._give_up)
        jobs.started.connect(self._make_way)
        jobs.ended.connect(self._follow)
        document.undo.indexChanged.connect(self._follow)
        document.project_changed.connect(self._follow)
        document.placements_changed.connect(self._wait_for_hand)

    @property
    def busy(self) -> bool:
        """Whether a proof is under way or about to begin."""
        return self._runner.busy or self._due.isActive()

    @property
    def words(self) -> str:
        """What to say beside the garment's figure as it is shown; nothing where nothing is known of it."""
        rms, claim = self._document.measurement.rms_mm, self._claim
        if claim and rms is not None and abs(rms - claim.rms_mm) < SAME_MM and claim.basis == self._basis():
            return claim.words
        return tr("proving…") if self._runner.busy and not self._document.trying else ""

    def start(self) -> None:
        """Prove the match that the document holds."""
        self._wanted = self._basis()
        self._follow()

    def close(self) -> None:
        """Leave no thread behind."""
        self._due.stop()
        self._free.set()
        self._runner.close()

    def _make_way(self) -> None:
        self._due.stop()
        self._runner.cancel()
        self.told.emit()

    def _follow(self) -> None:
        """Begin anew, or not at all if the project is no longer the one that was matched."""
        self._make_way()
        self._free.set()
        known = self._claim is not None and self._claim.basis == self._wanted
        if self._wanted is not None and not known and self._wanted == self._basis():
            self._due.start()

    def _give_up(self) -> None:
        """Leave a match be that can't be proved, as on bowed bars."""
        self._wanted = None
        self.told.emit()

    def _wait_for_hand(self) -> None:
        """Let the proof rest while a hand drags."""
        self._free.clear() if self._document.trying else self._free.set()

    def _begin(self) -> None:
        document, rms = self._document, self._document.measurement.rms_mm
        if self._jobs.busy or document.trying or rms is None:
            return
        project, basis = document.kept, self._wanted or ()

        def done(bound: "Bound | None") -> None:
            if bound is not None:
                self._claim = Claim(basis, rms, bound.lower_bound_mm, bound.status == "proved")
            self.told.emit()

        self._runner.run(tr("Proving"), lambda progress: _proof(project, rms, self._patient(progress)), done)
        self.told.emit()

    def _patient(self, progress: Progress) -> Progress:
        """Progress that is asked in the proof's thread and waits there until no hand drags."""

        def ask(share: float, note: str) -> bool:
            while progress(share, note):
                if self._free.wait(0.05):
                    return True
            return False

        return ask

    def _basis(self) -> tuple[Any, ...]:
        """What the best figure depends on: all but where the panels lie that are free."""
        kept = self._document.kept
        names = kept.panel_names
        held = {name: kept.placement(name) for name in names if kept.placement(name).hold}
        turned = [kept.placement(name).turned for name in names]
        return kept.cloths, kept.pieces, kept.seams, kept.match, held, turned


def _proof(project: Project, rms_mm: float, progress: Progress) -> "Bound | None":
    from core.matching.bound import prove
    from core.matching.solve import MatchResult

    return prove(project, MatchResult(project, rms_mm, None, 0.0, "done", "matched"), progress, PROVE_S)
