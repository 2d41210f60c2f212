"""Asks for a photograph, for the rectangle in it whose size is known, and for that rectangle's corners."""

from collections.abc import Sequence

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QPushButton

from app.pages.entries import Choice, Length, Number
from app.pages.form import Field, Form, Note, Section
from app.pages.rows import Rows
from app.theme import TARGET
from app.words import later, spoken, tr
from core.swatch.scale import Corners, Point

INCH = 25.4
TYPED = (0.0, 0.0)
SHEETS = (
    (later("A4, lying across"), (297.0, 210.0)),
    (later("A4, upright"), (210.0, 297.0)),
    (later("Letter, lying across"), (11 * INCH, 8.5 * INCH)),
    (later("Letter, upright"), (8.5 * INCH, 11 * INCH)),
    (later("as typed"), TYPED),
)
"""Sheets and their widths and heights in the picture, mm (ISO 216; ANSI Y14.1)."""

CORNERS = (later("upper left"), later("upper right"), later("lower right"), later("lower left"))
FARTHEST_PX = 100_000


class PhotoForm(Form):
    """The photograph, the size of the rectangle in it, and its corners in pixels of the picture."""

    file_wanted = Signal()
    trace_wanted = Signal()

    def __init__(self) -> None:
        super().__init__()
        self._add_picture(self.section(tr("Photograph")))
        self._add_rectangle(self.section(tr("Rectangle of known size")))
        self._add_corners(self.section(tr("Its corners")))
        for field in (self.kind, self.wide, self.high):
            field.entry.edited.connect(self._show_fitting)
        self.follow(self.kind.entry, self.wide.entry, self.high.entry, self.places)
        self._show_fitting()

    def _add_picture(self, section: Section) -> None:
        self.file = QPushButton(tr("Open a photograph…"))
        self.file.clicked.connect(self.file_wanted)
        self.file.setMinimumHeight(TARGET)
        section.add_wide(self.file)
        told = tr(
            "Light paper on a dark table or the other way round, a sheet of paper beside it, all of both in view."
        )
        self.file_note = Note(told)
        section.add_wide(self.file_note)

    def _add_rectangle(self, section: Section) -> None:
        self.kind = section.add(Field(tr("It is"), Choice(tr("Rectangle of known size"), spoken(SHEETS))))
        self.wide = section.add(Field(tr("Wide"), Length(tr("Width of the rectangle"), 297.0), tr("in the picture")))
        self.high = section.add(Field(tr("High"), Length(tr("Height of the rectangle"), 210.0), tr("in the picture")))

    def _add_corners(self, section: Section) -> None:
        told = tr(
            "Click the corners in the picture: upper left, then clockwise. Drag a mark, or move it with the arrow keys "
            "by a pixel, with Shift by ten; keys 1 to 4 choose one."
        )
        section.add_wide(Note(told))
        self.places = Rows(tr("Corners of the rectangle"), (tr("across, px"), tr("down, px")), (1, 1))
        self.places.in_another = True  # the picture's marks stand in them
        section.add_wide(self.places)
        self.trace = QPushButton(tr("Trace the outlines"))
        self.trace.clicked.connect(self.trace_wanted)
        self.trace.setMinimumHeight(TARGET)
        section.add_wide(self.trace)

    def _show_fitting(self) -> None:
        typed = self.kind.entry.read() == TYPED
        for field in (self.wide, self.high):
            field.set_shown(typed)

    def show_file(self, name: str) -> None:
        """Tell which photograph is shown."""
        self.file.setText(tr("{name}: open another…").format(name=name))
        self.file.setAccessibleName(tr("Open another photograph than {name}").format(name=name))

    def show_marks(self, marks: Sequence[Point]) -> None:
        """Show where the corners marked so far lie."""
        blocked = self.blockSignals(True)
        if len(self.places.rows) == len(marks):
            for row, mark in zip(self.places.rows, marks, strict=True):
                for entry, value in zip(row, mark, strict=True):
                    entry.show_value(round(value, 1))
        else:
            self.places.show_rows([_row(number, mark) for number, mark in enumerate(marks)])
        self.blockSignals(blocked)

    def marks(self) -> tuple[Point, ...]:
        """The corners as they stand in the fields. Raises BadInput for what is no number."""
        return tuple((x, y) for x, y in self.places.read())

    def corners(self, marks: Sequence[Point]) -> Corners:
        """The rectangle as marked. Raises BadInput where it is none."""
        size = self.kind.entry.read()
        wide, high = self.read([self.wide, self.high]) if size == TYPED else size
        return Corners((marks[0], marks[1], marks[2], marks[3]), wide, high)


def _row(number: int, mark: Point) -> list[Number]:
    corner = tr(CORNERS[number])
    names = (
        tr("{corner} corner, across, px").format(corner=corner),
        tr("{corner} corner, down, px").format(corner=corner),
    )
    return [Number(name, round(value, 1), (0, FARTHEST_PX), " px") for name, value in zip(names, mark, strict=True)]
