"""The repeat of a cloth from a picture of it: mark the scale, see what is found over the photo, correct it, use it."""

import math
from pathlib import Path
from typing import Any

import msgspec
import numpy as np
from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCursor
from PySide6.QtWidgets import QApplication, QFileDialog, QSplitter, QWidget

from app.figures import figure
from app.pages.cloth_words import ways_in_words
from app.pages.form import Note
from app.pages.page import Page, whole
from app.pages.repeat_picture import RepeatPicture
from app.pages.swatch_form import SwatchForm
from app.pages.swatch_picture import SwatchPicture
from app.words import later, number, tr
from core.errors import BadInput
from core.model.cloth import Cloth
from core.model.validate_cloth import check_cloth
from core.swatch.colour import srgb_of
from core.swatch.picture import Picture, open_picture
from core.swatch.scale import Point
from core.swatch.swatch import Swatch, read_swatch

PICTURES = later("Pictures (*.png *.jpg *.jpeg *.tif *.tiff *.webp *.bmp);;All files (*)")


class SwatchPage(Page):
    """Reads a repeat from a picture, for one of the cloths given."""

    made = Signal(object)
    """The cloth with its new repeat."""

    def __init__(self, cloths: tuple[Cloth, ...]) -> None:
        self.form: SwatchForm
        super().__init__(tr("Repeat from a picture"), SwatchForm(cloths), tr("Use this repeat"))
        self._cloths = {cloth.id: cloth for cloth in cloths}
        self._path = Path()
        self._picture: Picture | None = None
        self._swatch: Swatch | None = None
        self.photo, self.repeat, self.told = SwatchPicture(), RepeatPicture(), Note()
        across = QSplitter(Qt.Orientation.Vertical, childrenCollapsible=False)
        across.addWidget(self.photo)
        across.addWidget(self.repeat)
        across.setSizes([520, 300])
        self.pictures.addWidget(across, 1)
        self.pictures.addWidget(self.told)
        self._connect()
        self.photo.ask_marks(self.form.marks_needed)
        self._show(None)
        self.follow()
        self.show_theme()

    def _connect(self) -> None:
        form = self.form
        form.file_wanted.connect(self._ask_file)
        form.find_wanted.connect(self.find)
        form.scale_changed.connect(self._scale_changed)
        form.edited.connect(self.follow)
        self.photo.marked.connect(self._scale_changed)
        form.part_asked.connect(self.photo.ask_part)
        self.photo.part_dragged.connect(form.show_part)

    @property
    def first_field(self) -> QWidget:
        """Where the keys go when the page comes up."""
        return self.form.file

    def _ask_file(self) -> None:
        path, _ = QFileDialog.getOpenFileName(
            self, tr("Open a picture of the cloth"), str(self._path.parent), tr(PICTURES)
        )
        if path:
            self.open(Path(path))

    def open(self, path: Path) -> None:
        """Show a picture."""
        self._path, self._picture = path, None
        try:
            self._picture = open_picture(path)
        except BadInput as error:
            self.form.file_note.say(str(error).replace(str(path), path.name), wrong=True)
        else:
            pixels = np.round(255 * srgb_of(self._picture.light)).astype(np.uint8)
            self.photo.show_picture(pixels, self._picture.factor)
            self.form.file_note.say(path.name)
            self.form.size_px = (pixels.shape[1] * self._picture.factor, pixels.shape[0] * self._picture.factor)
            self.form.show_part(None)
        self._scale_changed()

    def _scale_changed(self) -> None:
        """What was found before doesn't hold any more."""
        self._show(None)
        self.photo.ask_marks(self.form.marks_needed)
        self._show_part()
        self.follow()

    def _show_part(self) -> None:
        """Show which part of the picture counts, as far as it can be read."""
        try:
            self.photo.show_part(self.form.read_part())
        except BadInput:
            self.photo.show_part(None)

    def find(self) -> None:
        """Look for the repeat."""
        if self._picture is None:
            return
        QApplication.setOverrideCursor(QCursor(Qt.CursorShape.WaitCursor))
        try:
            swatch = read_swatch(self._picture, self.form.scale(self.photo.marks), self.form.read_part())
        except BadInput as error:
            self._show(None)
            self.block("; ".join(part for part in (error.what, error.right) if part).capitalize())
        else:
            self._show(swatch)
            self.follow()
        finally:
            QApplication.restoreOverrideCursor()

    def _show(self, swatch: Swatch | None) -> None:
        self._swatch = swatch
        self.photo.show_swatch(swatch)
        self.repeat.setVisible(swatch is not None)
        bars = swatch.crosswise if swatch else None
        if swatch and bars:
            self.form.show_found(swatch.repeat, bars.repeat, swatch.weft_skew_percent or 0.0)
        else:
            self.form.show_found(swatch.repeat if swatch else None)
        of_bars = tuple(tr("Bars: {note}").format(note=note) for note in (bars.notes if bars else ()))
        notes = (swatch.notes if swatch else ()) + of_bars
        self.findings.show_lines(notes, "")
        self.findings.setVisible(bool(notes))

    def follow(self) -> None:
        """Show the repeat that the fields say, or what is missing."""
        self.told.say("")
        if self._swatch is None:
            self._say_next()
            return
        try:
            cloth = self._cloth()
        except BadInput as error:
            self.repeat.fade()
            self.block(str(error)[:1].upper() + str(error)[1:])
            return
        if self._swatch.crosswise is None:
            across = self.form.way_across.read() == "crosswise"
            cloth = msgspec.structs.replace(cloth, **{"repeat" if across else "crosswise": None})
        self.repeat.show_cloth(cloth, self.unit)
        self.told.say(ways_in_words(cloth, self.unit))
        self.allow(self._in_words(self._swatch))

    def _say_next(self) -> None:
        """Say what is to be done before there is a repeat to use."""
        self.make.setEnabled(False)
        missing = self.form.marks_needed - len(self.photo.marks)
        if self._picture is None:
            self.verdict.say(tr("Open a picture of the cloth."))
        elif missing > 0:
            one, more = tr("Mark 1 more place in the picture."), tr("Mark {count} more places in the picture.")
            self.verdict.say(one if missing == 1 else more.format(count=missing))
        else:
            self.verdict.say(tr("Now find the repeat."))
        self.form.find.setEnabled(self._picture is not None and missing <= 0)

    def _in_words(self, swatch: Swatch) -> str:
        told = tr(
            "Found {width} over {repeats} repeats, standard deviation {sd}, leaning {lean}°, confidence {sure}."
        ).format(
            width=self.unit.fine(swatch.repeat.width),
            repeats=number(swatch.repeats, 1),
            sd=self.unit.fine(swatch.width_sd_mm),
            lean=number(swatch.angle_deg, 2),
            sure=f"{swatch.confidence:.0%}",
        )
        further = tr("Where the first repeat begins on the cloth is still to be measured.")
        return " ".join(part for part in (told, self._bars(swatch), self._slip(swatch), further) if part)

    def _bars(self, swatch: Swatch) -> str:
        if swatch.crosswise is None:
            return ""
        return tr(
            "Bars across them {width}, standard deviation {sd}, skewed by {skew} %: stripes along the cloth are those "
            "nearer to upright."
        ).format(
            width=self.unit.fine(swatch.crosswise.repeat.width),
            sd=self.unit.fine(swatch.crosswise.width_sd_mm),
            skew=figure(swatch.weft_skew_percent, signed=True, decimals=2),
        )

    def _slip(self, swatch: Swatch) -> str:
        """What a mark that is a pixel off does to the repeat."""
        if self.form.marks_needed != 2:
            return ""
        (x0, y0), (x1, y1) = self.photo.marks
        off = swatch.repeat.width / math.hypot(x1 - x0, y1 - y0)
        return tr("A mark a pixel off changes it by {off}.").format(off=self.unit.fine(off))

    def _cloth(self) -> Cloth:
        wanted = self.form.wanted()
        keys = {"repeat" if way == "lengthwise" else way: repeat for way, repeat in wanted.repeats.items()}
        cloth = msgspec.structs.replace(self._cloths[wanted.cloth_id], **keys)
        if wanted.skew_percent is not None:
            cloth = msgspec.structs.replace(cloth, weft_skew_percent=wanted.skew_percent)
        check_cloth(cloth)
        return cloth

    def stands(self) -> dict[str, Any]:
        """The fields, which picture it is, the marks in it, and whether the repeat was found."""
        marks = msgspec.to_builtins(self.photo.marks)
        return {**super().stands(), "file": whole(self._path), "marks": marks, "found": self._swatch is not None}

    def stand_again(self, stood: dict[str, Any]) -> None:
        """Open the picture again, mark it as it was, and find the repeat again where it was found."""
        if stood["file"]:
            self.open(Path(stood["file"]))
        super().stand_again(stood)
        self.photo.show_marks(msgspec.convert(stood["marks"], tuple[Point, ...]))
        self.form.part.edited.emit()
        if stood["found"]:
            self.find()
            super().stand_again(stood)

    def make_it(self) -> None:
        """Hand the cloth over with its repeat."""
        if self.make.isEnabled():
            self.made.emit(self._cloth())
