"""From a drawn pattern to a project: the sheet above, the pieces that its outlines make below."""

from pathlib import Path
from typing import Any

import msgspec
from PySide6.QtCore import QPointF, QSignalBlocker, Qt, QTimer, Signal
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QApplication, QFileDialog, QSplitter, QWidget

from app.filing import DRAWINGS
from app.pages.import_form import ImportForm
from app.pages.import_state import Pieces, Result
from app.pages.numbers import longest_panel_mm, summary
from app.pages.page import Page, whole
from app.pages.pattern_picture import PatternPicture
from app.pages.sheet import Sheet
from app.words import tr
from core.draft.measures import usual_cloth
from core.errors import BadInput
from core.files.joining import with_pieces_of
from core.files.outlines import Drawing
from core.files.pattern_in import read_drawing
from core.files.to_pieces import Wishes
from core.model.cloth import Cloth
from core.model.project import Project

MANY, REST_MS = 12, 150
"""Of more pieces than this they are made again only when nothing was typed for so long."""


class ImportPage(Page):
    """Brings pieces in: as a new project, or into `project` where one is given."""

    made = Signal(object)
    """The new project, or the one given with the pieces added."""
    cloth_wanted = Signal()

    def __init__(self, project: Project | None = None) -> None:
        self.form: ImportForm
        title = tr("Add pieces from a drawing") if project else tr("New from a drawn pattern")
        super().__init__(title, ImportForm(project), tr("Add to this project") if project else tr("Make the project"))
        self._project, self._path = project, Path()
        self._pieces: Pieces | None = None
        self._traced: Drawing | None = None
        """What was traced from a photograph; None where the drawing is that of the file."""
        self._result: Result | None = None
        self._here = -1
        self._soon = QTimer(self, singleShot=True, interval=REST_MS)
        self._soon.timeout.connect(self.rebuild)
        self.sheet, self.picture = Sheet(), PatternPicture(tr("The pieces appear here."), each=True)
        across = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        across.addWidget(self.sheet)
        across.addWidget(self.picture)
        across.setSizes([400, 500])
        self.pictures.addWidget(across)
        self._connect()
        self.words.say(tr("Click the outlines that are pieces."))
        self.show_theme()

    def _connect(self) -> None:
        form = self.form
        form.edited.connect(self._edited)
        form.file_wanted.connect(self._ask_file)
        form.reread.connect(self._read)
        form.taken_changed.connect(self._take, Qt.ConnectionType.QueuedConnection)  # the list is written anew
        form.looked_at.connect(self.look_at)
        form.moved.connect(self._move)
        form.marking.connect(self._mark)
        if form.card:
            form.card.wanted.connect(self.cloth_wanted)
        self.sheet.clicked.connect(self._clicked)
        self.sheet.marked.connect(self._marked)
        self.picture.picked.connect(self._picked)

    @property
    def first_field(self) -> QWidget:
        """Where the keys go when the page comes up."""
        return self.form.file

    @property
    def cloth(self) -> Cloth:
        """The cloth that the pieces are cut from."""
        form = self.form
        if self._project and form.cloth_choice:
            return self._project.cloth(form.cloth_choice.entry.read())
        return form.card.cloth if form.card else usual_cloth()

    def take_cloth(self, cloth: Cloth) -> None:
        """Cut from another cloth."""
        if self.form.card:
            self.form.card.show_cloth(cloth)
        self.rebuild()

    @property
    def project(self) -> Project | None:
        """What the fields came to when they were last in order: the pieces brought in, as a project."""
        return self._result.project if self._result else None

    @property
    def longest_mm(self) -> float | None:
        """Length of the longest panel, mm."""
        return longest_panel_mm(self._result.project) if self._result else None

    # --- the file

    def _ask_file(self) -> None:
        path, _ = QFileDialog.getOpenFileName(self, tr("Open a drawn pattern"), str(self._path.parent), tr(DRAWINGS))
        if path:
            self.open(Path(path))

    def open(self, path: Path) -> None:
        """Read a drawing."""
        self._path = path
        self._read()

    def begin_with(self, path: Path) -> None:
        """Read the drawing that the page came up for, which nobody has filled in."""
        self.open(path)
        self.begin(self.way)

    def _read(self) -> None:
        form, has_pages = self.form, self._path.suffix.lower() == ".pdf"
        drawing, trouble = None, ""
        QApplication.setOverrideCursor(QCursor(Qt.CursorShape.WaitCursor))
        try:
            drawing = read_drawing(self._path, form.units.entry.read(), form.page.read() if has_pages else 1)
        except BadInput as error:
            trouble = str(error).replace(str(self._path), self._path.name)
        finally:
            QApplication.restoreOverrideCursor()
        self._show_drawing(drawing, trouble, has_pages)

    def open_traced(self, path: Path, drawing: Drawing) -> None:
        """Make pieces of what was traced from a photograph, true to size."""
        self._path, self._traced = path, drawing
        self.title.setText(tr("Pieces from a photograph"))
        self.form.leave_out_file()
        self._show_drawing(drawing, "")

    def _show_drawing(self, drawing: Drawing | None, trouble: str, has_pages: bool = False) -> None:
        self._result = None
        self._pieces = Pieces(drawing) if drawing else None
        self.form.show_drawing(self._path, self._pieces, has_pages)
        self.sheet.show_drawing(self._pieces.drawing if self._pieces else None)
        self._begin(trouble)

    def _begin(self, trouble: str) -> None:
        """Look at the first piece of what was read."""
        form, pieces = self.form, self._pieces
        self._here = next(iter(pieces.asked), -1) if pieces else -1
        form.show_list(pieces, self._here)
        form.show_one(pieces.asked.get(self._here) if pieces else None)
        if pieces is None:
            self.picture.show_project(None)
            self.sheet.show_taken((), -1, {})
            self.findings.show_lines([trouble], "")
            self.block(trouble)
            return
        self._propose_ring(pieces)
        self.rebuild()

    def _propose_ring(self, pieces: Pieces) -> None:
        """Sew to a ring what can be sewn to one."""
        blocked = self.form.blockSignals(True)
        self.form.ring.entry.show_value(pieces.make_a_ring(Wishes(cloth=self.cloth)))
        self.form.blockSignals(blocked)

    # --- choosing

    def _clicked(self, index: int) -> None:
        """Take the outline that was clicked, or look at it; what is looked at is left."""
        if self._pieces is None:
            return
        taken = index in self._pieces.asked
        if taken and index != self._here:
            self.look_at(index)
            self.form.show_list(self._pieces, self._here)
        else:
            self._take(index, not taken)

    def _take(self, index: int, taken: bool) -> None:
        self._settle()
        if self._pieces is None:
            return
        self._pieces.take(index, taken)
        self._here = index if taken else next(iter(self._pieces.asked), -1)
        self.form.show_one(self._pieces.asked.get(self._here))
        self.form.show_list(self._pieces, self._here)
        self.rebuild()

    def look_at(self, index: int) -> None:
        """Look at another outline."""
        self._settle()
        if self._pieces and index != self._here:
            self._here = index
            self.form.show_one(self._pieces.asked.get(index))
            self.rebuild()

    def _picked(self, piece_id: str) -> None:
        ids = self._pieces.ids() if self._pieces else {}
        for index, known in ids.items():
            if known == piece_id and index != self._here:
                self.look_at(index)
                self.form.show_list(self._pieces, index)

    def _move(self, step: int) -> None:
        self._settle()
        if self._pieces and self._here in self._pieces.asked:
            self._pieces.move(self._here, step)
            self.form.show_list(self._pieces, self._here)
            self.rebuild()

    def _mark(self, on: bool) -> None:
        if on != self.sheet.marking:
            self.sheet.mark(on)
        told = (
            tr("Click both ends of a line whose length you know.") if on else tr("Click the outlines that are pieces.")
        )
        self.words.say(told)

    def _marked(self, drawn_mm: float | None) -> None:
        self.form.drawn_mm = drawn_mm
        self.rebuild()

    # --- what comes of it

    def _settle(self) -> None:
        """Take in what was typed last, before anything else is looked at."""
        if self._soon.isActive():
            self.rebuild()

    def _edited(self) -> None:
        """Make the pieces again: at once, or of many pieces once the keys rest."""
        if self._pieces and len(self._pieces.asked) > MANY:
            self._soon.start()
        else:
            self.rebuild()

    def rebuild(self) -> None:
        """Make the pieces as the fields say, or say why that can't be."""
        self._soon.stop()
        if self._pieces is None:
            return
        self.form.show_fitting()
        try:
            result = self._made_of(self._pieces)
        except BadInput as error:
            self._show_sheet(self._pieces)
            self.picture.fade()
            self.findings.show_lines([str(found) for found in self._pieces.remarks], "")
            self.block(str(error)[:1].upper() + str(error)[1:])
            return
        self._result = result
        self._show_sheet(self._pieces)
        self._show_pieces(self._pieces, result)

    def _made_of(self, pieces: Pieces) -> Result:
        here = pieces.asked.get(self._here)
        if here:
            self.form.read_one(here)
            self.form.retitle(self._here, here.name)
        result = pieces.project(self.form.common(), Wishes(cloth=self.cloth, title=self._path.stem))
        if self._project:
            with_pieces_of(self._project, result.project)
        return result

    def _show_sheet(self, pieces: Pieces) -> None:
        names = {index: asked.name for index, asked in pieces.asked.items()}
        self.sheet.show_taken(pieces.asked, self._here, names)

    def _show_pieces(self, pieces: Pieces, result: Result) -> None:
        ids = pieces.ids()
        self.picture.show_project(result.project, self.unit)
        if self._here in ids:
            piece = next(piece for piece in result.project.pieces if piece.id == ids[self._here])
            self.form.show_edges(pieces.asked[self._here], result.edges[self._here], piece)
            self.picture.pick(piece.id)
        self.form.show_seams(result.project)
        lines = dict.fromkeys(str(found) for found in (*pieces.remarks, *result.findings))
        self.findings.show_lines(list(lines), tr("Nothing odd was found."))
        self.allow(summary(result.project))

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        super().show_theme()
        self.sheet.show_theme()

    # --- what stands there

    def stands(self) -> dict[str, Any]:
        """The fields, which drawing it is, what is asked of its outlines, and the marks on the sheet."""
        form = self.form
        return {
            **super().stands(),
            "file": whole(self._path),
            "reading": [form.units.entry.read(), form.page.entry.read()],
            "traced": msgspec.to_builtins(self._traced),
            "asked": self._pieces.stands() if self._pieces else [],
            "here": self._here,
            "marks": [[mark.x(), mark.y()] for mark in self.sheet.marks],
        }

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Read the drawing again, and ask of it what was asked."""
        if stood["file"]:
            self._open_again(stood)
        if self._pieces:
            self._pieces.stand_again(stood["asked"])
            self._here = stood["here"] if stood["here"] in self._pieces.asked else -1
            self.form.show_one(self._pieces.asked.get(self._here))
            self.form.show_list(self._pieces, self._here)
            self.rebuild()
        super().stand_again(stood)
        self._settle()
        if self.sheet.marking:
            self.sheet.show_marks([QPointF(x, y) for x, y in stood["marks"]])

    def _open_again(self, stood: dict[str, Any]) -> None:
        path, (unit, page) = Path(stood["file"]), stood["reading"]
        if stood["traced"]:
            self.open_traced(path, msgspec.convert(stood["traced"], Drawing))
            return
        with QSignalBlocker(self.form):
            self.form.units.entry.show_value(unit)
            self.form.page.entry.show_value(page)
        self.open(path)

    def make_it(self) -> None:
        """Hand over the project."""
        self._settle()
        if self._result and self.make.isEnabled():
            made = self._result.project
            self.made.emit(with_pieces_of(self._project, made) if self._project else made)
