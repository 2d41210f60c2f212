"""What is asked of a drawing that is brought in: scale, pieces, lines, edges."""

import math
from pathlib import Path
from typing import Any

from PySide6.QtCore import QSignalBlocker, QSize, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QLabel, QListWidget, QListWidgetItem, QPushButton, QWidget

from app.pages.cloth_card import ClothCard
from app.pages.entries import Choice, Length, Number, Tick, Whole, Words
from app.pages.form import Field, Form, Note, Section
from app.pages.import_state import Asked, Common, Pieces
from app.pages.lengths import LengthUnit
from app.pages.rows import Rows
from app.theme import GRID, TARGET, TIGHT
from app.words import later, spoken, tr
from core.errors import BadInput
from core.files.units import UNIT_MM
from core.geometry.polyline import length
from core.model.panel import drawn_edges
from core.model.pattern import Piece
from core.model.project import Project

AS_DRAWN, FACTOR, KNOWN, SQUARE = "as drawn", "factor", "known", "square"
MOST_LISTED = 300
_ALL = ((later("once"), "single"), (later("as pairs"), "pair"))
_ONE = (
    (later("as all"), None),
    (later("once"), "single"),
    (later("as a pair"), "pair"),
    (later("on the fold"), "fold"),
)


class ImportForm(Form):
    """Asks for all that outlines need to become pieces."""

    file_wanted = Signal()
    reread = Signal()
    """Units or page are others: the file is to be read again."""
    taken_changed = Signal(int, bool)
    """An outline was ticked in the list, or no longer is."""
    looked_at = Signal(int)
    """Another outline is looked at."""
    moved = Signal(int)
    """The outline looked at is to come earlier (-1) or later (1)."""
    marking = Signal(bool)
    """Whether the sheet is to be marked."""

    def __init__(self, project: Project | None) -> None:
        super().__init__()
        self.drawn_mm: float | None = None
        """Distance between the marks, mm as drawn."""
        self._edges_for: tuple[str, ...] = ()
        self.squares: tuple[float, ...] = ()
        self.drawing = self.section(tr("Drawing"))
        self._add_drawing(self.drawing)
        self._add_cloth(self.section(tr("Cloth")), project)
        self.scale = self.section(tr("Scale"))
        self._add_scale(self.scale)
        self._add_pieces(self.section(tr("Pieces")))
        self._add_lines(self.section(tr("Lines")))
        self.one = self.section(tr("The piece looked at"))
        self._add_one(self.one)
        self._add_seams(self.section(tr("Seams")))
        rereading = (self.units, self.page)
        for field in rereading:
            field.entry.edited.connect(self.reread)
        self.follow(*(field.entry for field in self.fields if field not in rereading), self.edges)
        self.show_fitting()

    # --- making

    def _add_drawing(self, section: Section) -> None:
        self.file = QPushButton(tr("Choose a file…"))
        self.file.clicked.connect(self.file_wanted)
        self.file.setMinimumHeight(TARGET)
        section.add_wide(self.file)
        units = ((tr("as the file says"), None), *((unit, unit) for unit in UNIT_MM))
        self.units = section.add(Field(tr("One unit is"), Choice(tr("What one unit of the drawing is"), units)))
        self.page = section.add(Field(tr("Page"), Whole(tr("Page of the PDF"), 1, (1, 9999))))

    def _add_cloth(self, section: Section, project: Project | None) -> None:
        self.card: ClothCard | None = None
        self.cloth_choice: Field | None = None
        if project:
            cloths = [(cloth.title, cloth.id) for cloth in project.cloths]
            self.cloth_choice = section.add(Field(tr("Cut from"), Choice(tr("Cloth they are cut from"), cloths)))
        else:
            self.card = ClothCard()
            section.add_wide(self.card)

    def _add_scale(self, section: Section) -> None:
        hows = [(tr("as drawn"), AS_DRAWN), (tr("times a factor"), FACTOR), (tr("by a known length"), KNOWN)]
        self.how = section.add(Field(tr("True size"), Choice(tr("How the true size is found"), hows)))
        self.factor = section.add(Field(tr("Factor"), Number(tr("Factor"), 1.0, (1e-4, 1e4))))
        known = Length(tr("True length between the marks"), 100.0)
        self.known = section.add(Field(tr("True length"), known, tr("mark both its ends on the sheet")))
        side = Length(tr("True side of the square"), 100.0)
        self.square = section.add(Field(tr("Side of square"), side, tr("of the square drawn to check by")))

    def _add_pieces(self, section: Section) -> None:
        self.list = QListWidget(accessibleName=tr("Outlines"))
        self.list.setFixedHeight(36 * GRID)
        self.list.itemChanged.connect(self._ticked)
        self.list.currentItemChanged.connect(self._looked)
        section.add_wide(self.list)
        row = QWidget()
        buttons = QHBoxLayout(row)
        buttons.setContentsMargins(0, 0, 0, 0)
        buttons.setSpacing(TIGHT)
        for text, step in ((tr("Earlier"), -1), (tr("Later"), 1)):
            button = QPushButton(text, clicked=lambda _=False, step=step: self.moved.emit(step))
            button.setMinimumHeight(TARGET)
            button.setToolTip(tr("The order of the pieces is the order round a ring"))
            buttons.addWidget(button)
        buttons.addStretch(1)
        section.add_wide(row)
        self.cut = section.add(Field(tr("All are cut"), Choice(tr("How all pieces are cut"), spoken(_ALL))))

    def _add_lines(self, section: Section) -> None:
        lines = ((tr("stitching lines"), "net"), (tr("cutting lines"), "cut"))
        self.outline_is = section.add(Field(tr("Drawn are"), Choice(tr("What the lines drawn are"), lines)))
        self.allowance = section.add(
            Field(tr("Allowance"), Length(tr("Allowance of all edges"), 12.7), tr("of all edges"))
        )
        corner = Number(tr("Corner angle, degrees"), 20.0, (1, 170), "°")
        self.corner = section.add(Field(tr("Corner angle, °"), corner, tr("an edge ends at sharper turns")))

    def _add_one(self, section: Section) -> None:
        self.name = section.add(Field(tr("Name"), Words(tr("Name of the piece"))))
        self.own_cut = section.add(Field(tr("Is cut"), Choice(tr("How this piece is cut"), spoken(_ONE))))
        self.fold = section.add(Field(tr("Fold"), Choice(tr("Edge on the fold"), ()), tr("a straight edge")))
        turn = Number(tr("Turn, degrees clockwise"), 0.0, (-360, 360), "°")
        self.turn = section.add(Field(tr("Turn, °"), turn, tr("clockwise: grain upright, hem below")))
        self.edges = Rows(tr("Edges"), (tr("edge"), tr("allowance"), tr("length")), (3, 2, 2))
        section.add_wide(self.edges)

    def _add_seams(self, section: Section) -> None:
        told = tr("in the order of the list")
        self.ring = section.add(Field(tr("Ring"), Tick(tr("sew to a ring"), True), told))
        self.seams = Note()
        section.add_wide(self.seams)

    # --- showing

    def show_unit(self, unit: LengthUnit) -> None:
        """Count lengths in another unit."""
        super().show_unit(unit)
        if self.card:
            self.card.show_unit(unit)

    def show_drawing(self, path: Path, pieces: Pieces | None, has_pages: bool) -> None:
        """Show what was read from a file."""
        self.file.setText(tr("{name}: choose another…").format(name=path.name))
        self.file.setToolTip(str(path))
        self.file.setAccessibleName(tr("Choose another file than {name}").format(name=path.name))
        self.page.set_shown(has_pages)
        self.squares = pieces.squares if pieces else ()
        hows = [(tr("as drawn"), AS_DRAWN), (tr("times a factor"), FACTOR), (tr("by a known length"), KNOWN)]
        self.how.entry.offer([*hows, *([(tr("by a square on it"), SQUARE)] if self.squares else [])])
        self.show_fitting()

    def leave_out_file(self) -> None:
        """Ask for no file, its units and its scale: what is shown is known to be true to size."""
        self.drawing.hide()
        self.scale.hide()

    def show_list(self, pieces: Pieces | None, here: int) -> None:
        """List the outlines: the pieces first, in their order."""
        with QSignalBlocker(self.list):
            self.list.clear()
            if pieces is None:
                return
            rest = [index for index in range(len(pieces.drawing.outlines)) if index not in pieces.asked]
            rest.sort(key=lambda index: -_box_area(pieces, index))
            for index in [*pieces.asked, *rest][:MOST_LISTED]:
                item = self._item(pieces, index)
                self.list.addItem(item)
                if index == here:
                    self.list.setCurrentItem(item)

    def _item(self, pieces: Pieces, index: int) -> QListWidgetItem:
        outline, asked = pieces.drawing.outlines[index], pieces.asked.get(index)
        left, top, right, bottom = outline.box
        name = asked.name if asked else outline.label or tr("outline {index}").format(index=index + 1)
        size = tr("{right:.0f} × {bottom:.0f} mm as drawn", right=right - left, bottom=bottom - top)
        item = QListWidgetItem(
            f"{name}  ·  {size}"
            if outline.closed
            else tr("{name}  ·  open, {length_mm:.0f} mm", name=name, length_mm=outline.length_mm)
        )
        item.setData(Qt.ItemDataRole.UserRole, index)
        item.setSizeHint(QSize(0, TARGET))
        item.setCheckState(Qt.CheckState.Checked if asked else Qt.CheckState.Unchecked)
        if not outline.closed:
            item.setFlags(Qt.ItemFlag.NoItemFlags)
            item.setToolTip(tr("It is not closed, so it encloses nothing that could be cut"))
        return item

    def _ticked(self, item: QListWidgetItem) -> None:
        self.taken_changed.emit(item.data(Qt.ItemDataRole.UserRole), item.checkState() == Qt.CheckState.Checked)

    def _looked(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.looked_at.emit(item.data(Qt.ItemDataRole.UserRole))

    def show_one(self, asked: Asked | None) -> None:
        """Show what is asked of the piece looked at."""
        self.one.setVisible(asked is not None)
        if asked:
            blocked = self.blockSignals(True)
            shown = {self.name: asked.name, self.own_cut: asked.cut, self.turn: asked.turn_deg}
            for field, value in shown.items():
                field.entry.show_value(value)
            self._offer_folds(asked)
            self._edges_for = ()
            self.edges.show_rows([])
            self.blockSignals(blocked)
            self.show_fitting()

    def show_edges(self, asked: Asked, plain: tuple[str, ...], piece: Piece) -> None:
        """Show the edges of the piece looked at; rows stay while their edges are the same."""
        lines = drawn_edges(piece)
        lengths = [self.unit.told(length(line)) for line in lines]
        if self._edges_for != plain:
            self._edges_for = plain
            self.edges.show_rows([self._edge_row(asked, name) for name in plain])
        for row, edge, told in zip(self.edges.rows, piece.edges, lengths, strict=True):
            row[1].setPlaceholderText(self.unit.text(edge.allowance))
            row[2].setText(told)
        if asked.cut != "fold":
            asked.straight = tuple(name for name, line in zip(plain, lines, strict=True) if _is_straight(line))
            self._offer_folds(asked)

    def _offer_folds(self, asked: Asked) -> None:
        self.fold.entry.offer([(name, name) for name in asked.straight])
        if asked.fold:
            self.fold.entry.show_value(asked.fold)

    def _edge_row(self, asked: Asked, name: str) -> list[Any]:
        entry = Length(tr("Allowance of {name}").format(name=name), asked.allowances.get(name), needed=False)
        entry.show_unit(self.unit)
        return [Words(tr("Name of edge {name}").format(name=name), asked.names.get(name, name)), entry, QLabel()]

    def show_fitting(self) -> None:
        """Leave out the fields that have no say as things stand."""
        how = self.how.entry.read()
        for field, mine in ((self.factor, FACTOR), (self.known, KNOWN), (self.square, SQUARE)):
            field.set_shown(how == mine)
        self.fold.set_shown(self.own_cut.entry.read() == "fold")
        self.marking.emit(how == KNOWN)

    def show_seams(self, project: Project) -> None:
        """Tell which seams there will be."""
        self.seams.say(", ".join(sewn.label for sewn in project.sewn))

    def retitle(self, index: int, name: str) -> None:
        """Show an outline under another name in the list."""
        with QSignalBlocker(self.list):
            for row in range(self.list.count()):
                item = self.list.item(row)
                if item.data(Qt.ItemDataRole.UserRole) == index:
                    item.setText(f"{name}  ·  {item.text().rpartition('  ·  ')[2]}")

    # --- reading

    def common(self) -> Common:
        """What is asked of all outlines alike. Raises BadInput."""
        fields = [self.cut, self.outline_is, self.allowance, self.corner, self.ring]
        cut, outline_is, allowance, corner, ring = self.read(fields)
        return Common(self._scale(), outline_is, allowance, corner, cut, ring)

    def _scale(self) -> float:
        how = self.how.entry.read()
        if how == FACTOR:
            return float(self.factor.read())
        if how == KNOWN:
            true = self.known.read()
            if not self.drawn_mm:
                error = BadInput(tr("both ends are to be marked"), tr("true length"), tr("click them on the sheet"))
                self.known.complain(error)
                raise error
            self.known.say(
                tr(
                    "it is drawn {drawn_mm:.2f} mm long: × {true:.5f}",
                    drawn_mm=self.drawn_mm,
                    true=true / self.drawn_mm,
                )
            )
            return float(true / self.drawn_mm)
        if how == SQUARE:
            true = self.square.read()
            side = min(self.squares, key=lambda side: abs(math.log(side / true)) if true else side)
            self.square.say(tr("it is drawn {side:.2f} mm wide: × {true:.5f}", side=side, true=true / side))
            return float(true / side)
        return 1.0

    def read_one(self, asked: Asked) -> None:
        """Put what the fields ask of the piece looked at into `asked`. Raises BadInput."""
        asked.name, asked.cut, asked.turn_deg = self.read([self.name, self.own_cut, self.turn])
        asked.fold = self.fold.entry.read() if asked.cut == "fold" else None
        if asked.cut == "fold" and asked.fold is None:
            error = BadInput(tr("no edge of it is straight"), self.fold.caption, tr("cut it otherwise"))
            self.fold.complain(error)
            raise error
        for name, (new, allowance, _) in zip(self._edges_for, self.edges.read(), strict=True):
            asked.names[name] = new
            asked.allowances.pop(name, None)
            if allowance is not None:
                asked.allowances[name] = allowance


def _box_area(pieces: Pieces, index: int) -> float:
    left, top, right, bottom = pieces.drawing.outlines[index].box
    return (right - left) * (bottom - top)


def _is_straight(line: Any) -> bool:
    return length(line) - math.dist(line[0], line[-1]) < 0.01
