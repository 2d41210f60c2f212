"""From a photograph of paper pieces beside a rectangle of known size to outlines in mm, for the import page."""

from collections.abc import Sequence
from pathlib import Path
from typing import Any

import msgspec
import numpy as np
import numpy.typing as npt
from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QFileDialog, QSplitter, QWidget

from app.jobs import JobRunner
from app.pages.page import Page, whole
from app.pages.photo_form import PhotoForm
from app.pages.sheet import Sheet
from app.pages.swatch_picture import SwatchPicture
from app.words import later, tr
from core.errors import BadInput
from core.files.outlines import Drawing
from core.files.photo_in import traced
from core.progress import Progress
from core.swatch.colour import srgb_of
from core.swatch.picture import Picture, open_picture
from core.swatch.scale import Corners, Point

PICTURES = later("Pictures (*.png *.jpg *.jpeg *.tif *.tiff *.webp *.bmp);;All files (*)")

Opened = tuple[Picture, npt.NDArray[np.uint8]]
"""A picture, and its pixels as they are shown."""


class PhotoPage(Page):
    """Traces what lies on a table. Reading and tracing large pictures goes on behind the page."""

    made = Signal(object, object)
    """The path of the picture, and the drawing traced from it."""

    def __init__(self) -> None:
        self.form: PhotoForm
        super().__init__(tr("New from a photograph"), PhotoForm(), tr("Go on to the pieces"))
        self._path, self._coming = Path(), ()
        """The picture, and the marks that belong into it once it can be read."""
        self._picture: Picture | None = None
        self._drawing: Drawing | None = None
        self.jobs = JobRunner(self)
        self.photo, self.sheet = SwatchPicture(tr("Photograph of the piece")), Sheet()
        across = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        across.addWidget(self.photo)
        across.addWidget(self.sheet)
        across.setSizes([600, 260])
        self.pictures.addWidget(across, 1)
        self.photo.ask_marks(4)
        self._connect()
        self.words.say(tr("Paper pieces on a table they stand out from, with a sheet of known size beside them."))
        self._show(None)
        self.show_theme()

    def _connect(self) -> None:
        self.form.file_wanted.connect(self._ask_file)
        self.form.trace_wanted.connect(self.trace)
        self.form.edited.connect(self._typed)
        self.photo.marked.connect(self._marked)
        self.jobs.failed.connect(self._fail)
        self.jobs.started.connect(lambda title, _: self._wait(title))

    @property
    def first_field(self) -> QWidget:
        """Where the keys go when the page comes up."""
        return self.form.file

    def put_away(self) -> None:
        """Leave no work behind."""
        self.jobs.close()

    # --- the picture

    def _ask_file(self) -> None:
        path, _ = QFileDialog.getOpenFileName(self, tr("Open a photograph"), str(self._path.parent), tr(PICTURES))
        if path:
            self.open(Path(path))

    def open(self, path: Path, marks: Sequence[Point] = ()) -> None:
        """Read a picture behind the page, then show it, with marks where they were set before."""
        self.jobs.cancel()
        self._path, self._picture, self._coming = path, None, tuple(marks)
        self._show(None)
        self.jobs.run(tr("Opening the picture"), lambda _: _opened(path), self._take)

    def _take(self, opened: Opened) -> None:
        self._picture, pixels = opened
        self.photo.show_picture(pixels, self._picture.factor)
        self.photo.show_marks(self._coming)
        self.form.show_file(self._path.name)
        self._marked()

    def _marked(self) -> None:
        """Marks set by hand stand in the fields, and what was traced by others doesn't hold any more."""
        self.form.show_marks(self.photo.marks)
        self._show(None)

    def _typed(self) -> None:
        """Marks typed as numbers are put into the picture."""
        try:
            marks = self.form.marks()
        except BadInput as error:
            self._show(None)
            self.block(str(error)[:1].upper() + str(error)[1:])
            return
        if self._picture is not None:
            self.photo.show_marks(marks)
        self._show(None)

    # --- the tracing

    def trace(self) -> None:
        """Trace the outlines behind the page."""
        if self._picture is None:
            return
        picture = self._picture
        try:
            corners = self.form.corners(self.photo.marks)
        except BadInput as error:
            self._fail("; ".join(part for part in (error.what, error.right) if part))
            return
        self.jobs.run(tr("Tracing the outlines"), lambda progress: _traced(picture, corners, progress), self._show)

    def _show(self, drawing: Drawing | None) -> None:
        """Show what was traced; or, without anything, what is to be done next."""
        self._drawing = drawing
        self.sheet.show_drawing(drawing)
        if drawing is not None:
            self.sheet.show_taken(
                range(len(drawing.outlines)), -1, dict(enumerate(one.label for one in drawing.outlines))
            )
        self.sheet.setVisible(drawing is not None)
        self.findings.show_lines([str(found) for found in drawing.findings] if drawing else [], "")
        self.findings.setVisible(drawing is not None)
        missing = 4 - len(self.photo.marks)
        self.form.trace.setEnabled(self._picture is not None and not missing)
        if drawing is not None:
            number = len(drawing.outlines)
            told = (
                tr("1 outline traced, true to size.") if number == 1 else tr("{count} outlines traced, true to size.")
            )
            self.allow(told.format(count=number))
            return
        self.make.setEnabled(False)
        if self._picture is None:
            self.verdict.say(tr("Open a photograph."))
        elif missing:
            one = tr("Mark 1 more corner of the rectangle, clockwise from the upper left.")
            more = tr("Mark {count} more corners of the rectangle, clockwise from the upper left.")
            self.verdict.say(one if missing == 1 else more.format(count=missing))
        else:
            self.verdict.say(tr("Now trace the outlines."))

    def _wait(self, title: str) -> None:
        self.form.trace.setEnabled(False)
        self.make.setEnabled(False)
        self.verdict.say(f"{title}…")

    def _fail(self, why: str) -> None:
        self._show(None)
        told = why.replace(str(self._path), self._path.name)
        self.block(told if told.startswith(self._path.name) else told[:1].upper() + told[1:])

    def show_theme(self) -> None:
        """Follow a change between light and dark."""
        super().show_theme()
        self.sheet.show_theme()

    def stands(self) -> dict[str, Any]:
        """The fields, which photograph it is, and the marks in it."""
        marks = self._coming if self._picture is None else self.photo.marks
        return {**super().stands(), "file": whole(self._path), "marks": msgspec.to_builtins(marks)}

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Open the photograph again and mark it as it was; it is to be traced anew."""
        super().stand_again(stood)
        if stood["file"]:
            self.open(Path(stood["file"]), msgspec.convert(stood["marks"], tuple[Point, ...]))

    def make_it(self) -> None:
        """Hand over what was traced."""
        if self._drawing is not None and self.make.isEnabled():
            self.made.emit(self._path, self._drawing)


def _opened(path: Path) -> Opened:
    picture = open_picture(path)
    return picture, np.round(255 * srgb_of(picture.light)).astype(np.uint8)


def _traced(picture: Picture, corners: Corners, progress: Progress) -> Drawing:
    progress(0.1, tr("finding outlines"))
    return traced(picture, corners)
