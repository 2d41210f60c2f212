"""Outlines on a cloth: flaws that are no rectangles, what there is of a remnant, and holes in it; typed or drawn."""

from dataclasses import dataclass, replace
from typing import Any, Literal

import msgspec
from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QHBoxLayout, QPushButton

from app.pages.entries import Choice, SignedLength
from app.pages.form import Section
from app.pages.lengths import MM, LengthUnit
from app.pages.rows import Rows
from app.theme import SPACE, TARGET
from app.words import tr
from core.errors import BadInput
from core.model.cloth import Cloth, Point, Remnant, is_box

Kind = Literal["flaw", "remnant", "hole"]
_NEW_MM = 60.0
_NO_LENGTH_MM = 1000.0


@dataclass(frozen=True)
class Spot:
    """An outline of a kind."""

    kind: Kind
    points: tuple[Point, ...]


class OutlinesPart(QObject):
    """All outlines of a cloth, one at a time with its corners in rows. `edited` is said at every change."""

    edited = Signal()
    drawing_wanted = Signal(bool)

    def __init__(self, section: Section, parent: QObject) -> None:
        super().__init__(parent)
        self.unit, self._spots, self._cloth = MM, [], Cloth(id="main", width=1400.0)
        self.which = Choice(tr("Which outline"), ())
        self.add_flaw = QPushButton(tr("Flaw"), clicked=lambda: self.add("flaw"))
        self.add_remnant = QPushButton(tr("Remnant"), clicked=lambda: self.add("remnant"))
        self.add_hole = QPushButton(tr("Hole"), clicked=lambda: self.add("hole"))
        self.draw = QPushButton(tr("Draw it on the picture"), checkable=True)
        self.out = QPushButton(tr("Take it out"), clicked=self.take_out)
        tips = (tr("One more flaw of any outline"), tr("The outline of what there is"), tr("A hole in what there is"))
        for button, tip in zip((self.add_flaw, self.add_remnant, self.add_hole), tips, strict=True):
            button.setToolTip(tip)
            button.setAccessibleName(tip)
        self.draw.setToolTip(tr("Click corner after corner; a click on the first one, or Enter, closes the outline"))
        heads = (tr("corner, across"), tr("along"))
        self.corners = Rows(tr("Corners of the outline"), heads, (1, 1), tr("Add a corner"), self._new_corner)
        self.which.in_another = self.corners.in_another = True
        self._lay_out(section)
        self.which.edited.connect(self._show_chosen)
        self.corners.edited.connect(self._read_corners)
        self.draw.toggled.connect(self.drawing_wanted)

    def _lay_out(self, section: Section) -> None:
        for widgets in ((self.add_flaw, self.add_remnant, self.add_hole), (self.which, self.draw, self.out)):
            row = QHBoxLayout(spacing=SPACE)
            for widget in widgets:
                widget.setMinimumHeight(TARGET)
                row.addWidget(widget, 1 if widget is self.which else 0)
            if self.which not in widgets:
                row.addStretch(1)
            section.add_row(tr("Add an outline") if self.which not in widgets else "", row)
        section.add_wide(self.corners)

    # --- showing

    def show_cloth(self, cloth: Cloth, unit: LengthUnit) -> None:
        """Show a cloth's outlines."""
        self.unit, self._cloth = unit, cloth
        flaws = [Spot("flaw", flaw) for flaw in cloth.flaws if not is_box(flaw)]
        there = [Spot("remnant", cloth.remnant.outline)] if cloth.remnant else []
        holes = [Spot("hole", hole) for hole in cloth.remnant.holes] if cloth.remnant else []
        self._spots = [*flaws, *there, *holes]
        self._offer(0)

    def show_size(self, cloth: Cloth) -> None:
        """New outlines are made to fit a cloth of this size."""
        self._cloth = cloth

    def _offer(self, at: int) -> None:
        blocked = self.which.blockSignals(True)
        self.which.offer([(_title(self._spots, index), index) for index in range(len(self._spots))])
        self.which.show_value(at)
        self.which.blockSignals(blocked)
        self._show_chosen()

    def _show_chosen(self) -> None:
        """Show the corners of the outline chosen; nothing to choose from where there is none."""
        points = self.chosen
        for widget in (self.which, self.draw, self.out, self.corners):
            widget.setVisible(bool(points))
        self.add_hole.setEnabled(any(spot.kind == "remnant" for spot in self._spots))
        self.add_remnant.setEnabled(not self.add_hole.isEnabled())
        self.corners.show_rows([self._row(point) for point in points])
        self.edited.emit()

    @property
    def chosen(self) -> tuple[Point, ...]:
        """The corners of the outline chosen."""
        at = self.which.read()
        return self._spots[at].points if self._spots and at is not None else ()

    def _row(self, point: Point) -> list[Any]:
        entries = [SignedLength(tr("Corner, across"), point[0]), SignedLength(tr("Corner, along"), point[1])]
        for entry in entries:
            entry.show_unit(self.unit)
        return entries

    def _new_corner(self, number: int) -> list[Any]:
        """One more, half-way between the last and the first."""
        (u, v), (a, b) = self.chosen[-1], self.chosen[0]
        return self._row(((u + a) / 2, (v + b) / 2))

    # --- changing

    def add(self, kind: Kind) -> None:
        """One more outline: a square in the middle, for a remnant all of the cloth; to be drawn or typed."""
        end = self._cloth.end or _NO_LENGTH_MM
        middle, half = (self._cloth.width / 2, end / 2), min(_NEW_MM, end) / 2
        u0, v0, u1, v1 = middle[0] - half, middle[1] - half, middle[0] + half, middle[1] + half
        if kind == "remnant":
            u0, v0, u1, v1 = 0.0, 0.0, self._cloth.width, end
        self._spots.append(Spot(kind, ((u0, v0), (u1, v0), (u1, v1), (u0, v1))))
        self._offer(len(self._spots) - 1)
        self.draw.setFocus()

    def take_out(self) -> None:
        """One outline less; with a remnant's own its holes go too."""
        gone = self._spots.pop(self.which.read())
        if gone.kind == "remnant":
            self._spots = [spot for spot in self._spots if spot.kind == "flaw"]
        self._offer(0)
        self.add_flaw.setFocus()

    def show_points(self, points: tuple[Point, ...]) -> None:
        """Put the corners of the outline chosen elsewhere, as they were drawn."""
        at = self.which.read()
        self._spots[at] = replace(self._spots[at], points=points)
        self._offer(at)

    def _read_corners(self) -> None:
        try:
            points = tuple((u, v) for u, v in self.corners.read())
        except BadInput:
            points = ()
        if points:
            at = self.which.read()
            self._spots[at] = replace(self._spots[at], points=points)
        self.edited.emit()

    def read(self) -> tuple[tuple[tuple[Point, ...], ...], Remnant | None]:
        """The flaws, and the remnant. Raises BadInput where a corner can't be read."""
        self.corners.read()
        points = {kind: tuple(spot.points for spot in self._spots if spot.kind == kind) for kind in ("flaw", "hole")}
        outline = next((spot.points for spot in self._spots if spot.kind == "remnant"), None)
        return points["flaw"], None if outline is None else Remnant(outline=outline, holes=points["hole"])

    # --- what stands there

    def stands(self) -> Any:
        """All outlines, which of them is chosen, and what stands in its corners, plain."""
        return [msgspec.to_builtins(self._spots), self.which.read() or 0, self.corners.stands()]

    def stand_again(self, stood: Any) -> None:
        """Have all of it stand there again."""
        spots, at, corners = stood
        self._spots = msgspec.convert(spots, list[Spot])
        self._offer(at)
        if self._spots:
            self.corners.stand_again(corners)


def _title(spots: list[Spot], index: int) -> str:
    kind = spots[index].kind
    number = sum(spot.kind == kind for spot in spots[: index + 1])
    words = {"flaw": tr("flaw outline {number}"), "remnant": tr("remnant"), "hole": tr("hole {number}")}
    return words[kind].format(number=number)
