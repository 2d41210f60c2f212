"""The open project as the workbench holds it: the values, what is selected, and the history of changes."""

from pathlib import Path

from PySide6.QtCore import QObject, Signal
from PySide6.QtGui import QUndoStack

from app.commands import ChangeProject
from app.words import tr
from core.derive.cutting import derived_pieces, with_derived
from core.errors import BadInput
from core.files.project_file import write_project
from core.model.cloth import Cloth
from core.model.panel import Panel, panels_of
from core.model.pattern import PanelName, Piece
from core.model.project import Placement, Project
from core.model.variants import fitting
from core.seams.garment import Garment
from core.seams.readings import Measurement, SeamReading, measure, remeasure

NOTHING = Project(cloths=(Cloth(id="cloth", width=1400.0),), pieces=())
"""What the workbench holds before a project is open."""


class Document(QObject):
    """The project, its garment and its measurement, kept in step; and path, selection, seam and undo stack.

    The project changes only through commands on the undo stack. While a hand is dragging, `try_placements` shows a
    placement without keeping it: `project` and `measurement` are then those of the trial, `kept` is what counts.
    """

    project_changed = Signal()
    """Cloths, pieces or seams are others: everything is to be drawn afresh."""
    placements_changed = Signal(object)
    """The panels in this frozenset lie elsewhere; the measurement follows them already."""
    selection_changed = Signal()
    seam_changed = Signal()
    title_changed = Signal()

    def __init__(self, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.undo = QUndoStack(self)
        self.undo.setUndoLimit(1000)
        self.undo.cleanChanged.connect(self.title_changed)
        self.path: Path | None = None
        self.selection: tuple[PanelName, ...] = ()
        self.seam = -1
        self.kept = NOTHING
        self._rebuild(NOTHING)

    def _rebuild(self, project: Project) -> None:
        self.project = project
        self.garment = Garment.of(project)
        self.measurement: Measurement = measure(project, self.garment)
        self._derived, self.derived_fault = _derived(project)
        self.panels: dict[PanelName, Panel] = dict(self.garment.panels)
        self.panels |= {panel.name: panel for piece in self._derived for panel in panels_of(piece)}
        self._cut = project, self.cut_of(project)

    def cut_of(self, project: Project) -> Project:
        """The kept project, or a trial of it, with derived pieces as pieces: all that is cut and lies on cloth."""
        if not self._derived:
            return project
        return with_derived(project, self._derived)

    @property
    def cut(self) -> Project:
        """The project as shown, with all derived pieces as pieces."""
        if self._cut[0] is not self.project:
            self._cut = self.project, self.cut_of(self.project)
        return self._cut[1]

    @property
    def is_empty(self) -> bool:
        """Whether no project is open."""
        return self.kept is NOTHING

    @property
    def trying(self) -> bool:
        """Whether a placement is shown that is not kept yet."""
        return self.project is not self.kept

    @property
    def title(self) -> str:
        """What the window calls the project: the file's name, or its title before it has a file."""
        return self.path.stem if self.path else self.kept.title or tr("Untitled")

    @property
    def current(self) -> PanelName | None:
        """The panel selected last."""
        return self.selection[-1] if self.selection else None

    @property
    def reading(self) -> SeamReading | None:
        """The reading of the seam that is picked, if it has one."""
        return self.measurement.main[self.seam] if self.seam >= 0 else None

    # --- opening and saving

    def open(self, project: Project, path: Path | None = None) -> None:
        """Hold another project, with an empty history."""
        self.undo.clear()
        self.path = path
        self.selection, self.seam = (), -1
        self.kept = project
        self._rebuild(project)
        self.project_changed.emit()
        self.selection_changed.emit()
        self.seam_changed.emit()
        self.title_changed.emit()

    def begin(self, project: Project, path: Path | None = None) -> None:
        """Hold a project that was just made or brought back: it counts as changed until it is saved."""
        self.open(project, path)
        self.undo.resetClean()

    def save(self, path: Path) -> None:
        """Write the project to a file. Raises BadInput if the place can't be written to."""
        write_project(path, self.kept)
        self.path = path
        self.undo.setClean()
        self.title_changed.emit()

    # --- changing

    def change(self, text: str, project: Project, series: str = "") -> None:
        """Make `project` the one that counts, as one undo step; steps of one series, if it is named, become one.

        Its variants lose what names panels, cloths or seams that it no longer has.
        """
        self.cancel_trial()
        project = fitting(project)
        if project != self.kept:
            self.undo.push(ChangeProject(self, text, self.kept, project, series))

    def place(self, text: str, changes: dict[PanelName, Placement], series: str = "") -> None:
        """Lay panels elsewhere, as one undo step."""
        self.change(text, self.kept.placed(changes), series)

    def take(self, project: Project) -> None:
        """Hold a value of the project, as a command does when it is done or undone."""
        self.kept = project
        self._show(project)

    def undo_step(self) -> None:
        """Take the last step back; a drag under way is dropped first."""
        self.cancel_trial()
        self.undo.undo()

    def redo_step(self) -> None:
        """Do the step again that was taken back last."""
        self.cancel_trial()
        self.undo.redo()

    def try_placements(self, changes: dict[PanelName, Placement]) -> None:
        """Show panels elsewhere, with all readings, without changing the project."""
        self._show(self.kept.placed(changes))

    def keep_trial(self, text: str) -> None:
        """Make what is shown the one that counts, as one undo step."""
        if self.project != self.kept:
            self.undo.push(ChangeProject(self, text, self.kept, self.project))
        else:
            self.cancel_trial()

    def cancel_trial(self) -> None:
        """Show again what counts."""
        if self.trying:
            self._show(self.kept)

    def _show(self, project: Project) -> None:
        before = self.project
        if _same_garment(before, project):
            moved = moved_panels(before, project)
            self.project = project
            self.measurement = remeasure(self.measurement, project, moved)
            if moved:
                self.placements_changed.emit(moved)
            return
        self._rebuild(project)
        self.selection = tuple(name for name in self.selection if name in self.panels)
        self.seam = self.seam if self.seam < len(project.sewn) else -1
        self.project_changed.emit()
        self.selection_changed.emit()
        self.seam_changed.emit()

    # --- selecting

    def select(self, panels: tuple[PanelName, ...]) -> None:
        """Select panels; the last one is the current one."""
        if panels != self.selection:
            self.selection = panels
            self.selection_changed.emit()

    def pick_seam(self, index: int) -> None:
        """Pick a seam by its place among the measurement's seams (-1 none), and select its two panels."""
        if index == self.seam:
            return
        self.seam = index
        self.seam_changed.emit()
        if index >= 0:
            self.select(self.garment.seams[index].panels)


def moved_panels(before: Project, after: Project) -> frozenset[PanelName]:
    """The panels that lie differently in two projects of one garment."""
    names = before.placements.keys() | after.placements.keys()
    return frozenset(name for name in names if before.placements.get(name) != after.placements.get(name))


def _same_garment(before: Project, after: Project) -> bool:
    parts = ("pieces", "seams", "cloths", "layers", "strips", "pockets")
    return all(getattr(before, part) == getattr(after, part) for part in parts)


def _derived(project: Project) -> tuple[tuple[Piece, ...], str]:
    """All derived pieces; or none, and why they can't be had."""
    try:
        return derived_pieces(project), ""
    except BadInput as error:
        return (), str(error)
