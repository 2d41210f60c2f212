"""What is asked of the outlines of a drawing, kept apart from the fields that ask it."""

from dataclasses import dataclass, field, replace
from typing import Any, Literal

import msgspec

from app.words import tr
from core.errors import BadInput
from core.files.choosing import chosen, square_side
from core.files.outlines import Drawing, Outline
from core.files.to_pieces import OwnWishes, Wishes, piece_ids, project_from
from core.model.pattern import Cut
from core.model.project import Project
from core.seams.walk import Finding

SMALLEST_MM2 = 2000.0
"""An outline with less area is no piece unless it is chosen."""


@dataclass
class Asked:
    """What is asked of one outline: its name, how it is cut, names and allowances of its edges by what they are called
    without being asked, mm.
    """

    name: str
    cut: Cut | None = None
    fold: str | None = None
    turn_deg: float = 0.0
    names: dict[str, str] = field(default_factory=dict)
    allowances: dict[str, float] = field(default_factory=dict)
    straight: tuple[str, ...] = ()
    """Its straight edges, one of which may lie on a fold."""

    def names_for(self, edges: tuple[str, ...]) -> dict[str, str]:
        """New names of those edges that get one."""
        return {edge: name for edge in edges if (name := self.names.get(edge, edge)) != edge}


@dataclass
class Common:
    """What is asked of all outlines alike, mm and degrees."""

    scale: float = 1.0
    outline_is: Literal["net", "cut"] = "net"
    allowance: float = 12.7
    corner_deg: float = 20.0
    cut: Literal["single", "pair"] = "single"
    ring: bool = True


@dataclass(frozen=True)
class Result:
    """A project made of outlines, and what there is to say about it.

    `edges` tells for every outline what the edges of its piece are called without being asked, first edge first.
    """

    project: Project
    findings: tuple[Finding, ...]
    edges: dict[int, tuple[str, ...]]


class Pieces:
    """The outlines of a drawing that become pieces, in order, and what is asked of them."""

    def __init__(self, drawing: Drawing) -> None:
        self.drawing = drawing
        self.asked: dict[int, Asked] = {}
        self.remarks: tuple[Finding, ...] = drawing.findings
        self._propose()

    def _propose(self) -> None:
        """Take the outlines that are pieces as long as nobody says otherwise."""
        try:
            found, remarks = chosen(self.drawing, (), SMALLEST_MM2, 1.0, None)
        except BadInput as error:
            self.remarks = (Finding(error.place or "outlines", error.what, error.right),)
            return
        self.remarks = tuple(remarks)
        places = {id(outline.segments): index for index, outline in enumerate(self.drawing.outlines)}
        for outline in found:
            self.asked[places[id(outline.segments)]] = Asked(outline.label)

    @property
    def squares(self) -> tuple[float, ...]:
        """Sides of the squares on the sheet that may be there to check the scale by, mm as drawn."""
        return tuple(side for outline in self.drawing.outlines if (side := square_side(outline)) is not None)

    def make_a_ring(self, base: Wishes) -> bool:
        """Whether there are several pieces and they can be sewn to a ring in their order."""
        try:
            return len(self.asked) > 1 and bool(self.project(Common(), base).project.seams)
        except BadInput:
            return False

    def take(self, index: int, taken: bool) -> None:
        """Make a piece of an outline, or leave it."""
        if taken and index not in self.asked:
            label = self.drawing.outlines[index].label or tr("piece {index}").format(index=index + 1)
            self.asked[index] = Asked(label)
        elif not taken:
            self.asked.pop(index, None)

    def move(self, index: int, step: int) -> None:
        """Let an outline come earlier (-1) or later (1) among the pieces."""
        order = list(self.asked)
        place = order.index(index)
        other = min(max(place + step, 0), len(order) - 1)
        order[place], order[other] = order[other], order[place]
        self.asked = {one: self.asked[one] for one in order}

    def stands(self) -> list[Any]:
        """What is asked of each outline, plain."""
        return list(msgspec.to_builtins(list(self.asked.items())))

    def stand_again(self, stood: list[Any]) -> None:
        """Ask it again, as far as the outlines are there."""
        asked = msgspec.convert(stood, list[tuple[int, Asked]])
        self.asked = {index: each for index, each in asked if index < len(self.drawing.outlines)}

    def project(self, common: Common, base: Wishes) -> Result:
        """The project that these outlines make, and all there is to say about it.

        `base` gives its title and cloth. Raises BadInput where nothing is chosen, or an outline is no piece.
        """
        drawing, wishes = self._drawing(), self._wishes(base, common, {})
        project, findings = project_from(drawing, wishes)
        edges = {
            index: tuple(edge.name for edge in piece.edges)
            for index, piece in zip(self.asked, project.pieces, strict=True)
        }
        names = {index: asked.names_for(edges[index]) for index, asked in self.asked.items()}
        if any(names.values()):
            project, findings = project_from(drawing, self._wishes(base, common, names))
        return Result(project, findings, edges)

    def ids(self) -> dict[int, str]:
        """The id of the piece of every outline; of names that stand more than once each has a number."""
        return dict(zip(self.asked, piece_ids(self._outlines()), strict=True))

    def _outlines(self) -> list[Outline]:
        return [
            replace(self.drawing.outlines[index], label=asked.name or tr("piece {index}").format(index=index + 1))
            for index, asked in self.asked.items()
        ]

    def _drawing(self) -> Drawing:
        if not self.asked:
            raise BadInput(
                tr("no outline is chosen"), "pieces", tr("choose those that are pieces, on the sheet or in the list")
            )
        return Drawing(tuple(self._outlines()), self.drawing.findings, self.drawing.page, all_pieces=True)

    def _wishes(self, base: Wishes, common: Common, names: dict[int, dict[str, str]]) -> Wishes:
        own, renamed = {}, {}
        for index, piece_id in self.ids().items():
            asked, edges = self.asked[index], names.get(index, {})
            allowances = {edges.get(edge, edge): mm for edge, mm in asked.allowances.items()}
            own[piece_id] = OwnWishes(asked.turn_deg, asked.cut, asked.fold, allowances)
            renamed |= {f"{piece_id}/{edge}": name for edge, name in edges.items()}
        return replace(
            base,
            scale=common.scale,
            smallest_mm2=1.0,
            outline_is=common.outline_is,
            allowance=common.allowance,
            corner_deg=common.corner_deg,
            cut=common.cut,
            ring=common.ring,
            names=renamed,
            own=own,
        )
