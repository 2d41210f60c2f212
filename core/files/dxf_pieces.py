"""Pieces in the open DXF layout of sewn products: one block a piece, what a line means told by its layer.

The layers are those of ASTM D6673 and ANSI/AAMA 292 (from memory).
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Any

from core.errors import BadInput
from core.files.chaining import closed_up
from core.files.dxf_lines import DRAWN, MOST_ENTITIES, entities_within, stroke_of
from core.files.marks import nearer
from core.files.outlines import Drawing, Line, Outline, check_point, checked
from core.geometry.beziers import Point
from core.seams.walk import Finding
from core.wording import later, tr

BOUNDARY, CURVE_POINTS, NOTCHES, MIRROR, GRAIN, SEW = "1", "3", "4", "6", "7", "14"

_LEFT_OUT = {
    "8": later("internal lines"),
    "9": later("stripe marks"),
    "10": later("plaid marks"),
    "11": later("cut-outs"),
    "13": later("drill holes"),
}


@dataclass(frozen=True)
class PieceBlock:
    """The block of one piece: its name, what is in it, and millimetres in one unit of it."""

    name: str
    entities: tuple[Any, ...]
    size: float

    @property
    def place(self) -> str:
        """Where it is, for messages."""
        return tr("block {name!r}", name=self.name)

    def on(self, layer: str) -> Iterator[Any]:
        """Everything on a layer."""
        return (entity for entity in self.entities if entity.dxf.get("layer", "") == layer)

    def strokes(self, layer: str) -> list[Outline]:
        """The lines on a layer, mm."""
        drawn = [stroke_of(entity, self.size, self.place) for entity in self.on(layer) if entity.dxftype() in DRAWN]
        return checked(drawn) if any(stroke.segments for stroke in drawn) else []

    def points(self, layer: str) -> list[Point]:
        """The points on a layer, mm."""
        places = [entity.dxf.location for entity in self.on(layer) if entity.dxftype() == "POINT"]
        return [check_point((place.x * self.size, -place.y * self.size), self.place) for place in places]

    def line(self, layer: str) -> Line | None:
        """Both ends of the first line on a layer."""
        strokes = self.strokes(layer)
        return (strokes[0].segments[0][0], strokes[0].segments[-1][-1]) if strokes else None

    def texts(self) -> Iterator[tuple[str, str]]:
        """What its texts say, as `key: value`."""
        for entity in self.entities:
            if entity.dxftype() == "TEXT":
                key, _, value = entity.dxf.get("text", "").partition(":")
                yield key.strip().lower(), " ".join(value.split())

    @property
    def title(self) -> str:
        """What the piece is called in it, or the block's name."""
        return next((value for key, value in self.texts() if key == "piece name" and value), self.name)


def piece_blocks(document: Any, size: float) -> list[PieceBlock]:
    """The blocks that hold a piece in the order in which they are put into the drawing, or else all there are."""
    inserts = {insert.dxf.name: insert for insert in reversed(document.modelspace().query("INSERT"))}
    known = [(name, [insert]) for name, insert in reversed(inserts.items()) if name in document.blocks]
    sources = [(name, source) for name, source in known if _holds_piece(document.blocks.get(name))] or [
        (block.name, list(block)) for block in document.blocks if not block.name.startswith("*") and _holds_piece(block)
    ]
    blocks: list[PieceBlock] = []
    for name, source in sources:
        blocks.append(PieceBlock(name, tuple(entities_within(source)), size))
        if sum(len(block.entities) for block in blocks) > MOST_ENTITIES:
            raise BadInput(
                tr("it holds more than {most_entities} entities", most_entities=MOST_ENTITIES),
                right=tr("a file of one pattern is right"),
            )
    return blocks


def _holds_piece(block: Any) -> bool:
    return any(entity.dxftype() in DRAWN and entity.dxf.get("layer", "") == BOUNDARY for entity in block)


def pieces_drawing(blocks: Sequence[PieceBlock], findings: Iterable[Finding]) -> Drawing:
    """The outlines of all pieces with the marks that belong to them. Raises BadInput."""
    titles = [block.title for block in blocks]
    outlines: list[Outline] = []
    remarks = list(findings)
    for block, title in zip(blocks, titles, strict=True):
        outline = _outline(block, remarks)
        if outline is not None:
            outlines.append(replace(outline, label=title if titles.count(title) == 1 else block.name))
    return Drawing(tuple(outlines), tuple(remarks), all_pieces=True)


def _outline(block: PieceBlock, findings: list[Finding]) -> Outline | None:
    boundary, sewn = _ring(block, BOUNDARY, findings), _ring(block, SEW, findings)
    if boundary is None:
        return None
    if sewn is not None and not sewn.closed:
        what = tr("its sew line is not closed and was left out")
        findings.append(Finding(block.place, what, tr("state the allowance instead")))
    for layer, what in _LEFT_OUT.items():
        if any(block.on(layer)):
            right = tr("only outline, notches, grain, mirror and sew line count")
            findings.append(Finding(block.place, tr("its {what} were left out", what=tr(what)), right))
    ends = [(line.segments[0][0], line.segments[-1][-1]) for line in block.strokes(NOTCHES)]
    return replace(
        boundary,
        layer="",
        place=block.place,
        sew=sewn.segments if sewn is not None and sewn.closed else (),
        notches=(*block.points(NOTCHES), *(nearer(boundary, pair) for pair in ends)),
        smooth=tuple(block.points(CURVE_POINTS)),
        grain=block.line(GRAIN),
        mirror=block.line(MIRROR),
    )


def _ring(block: PieceBlock, layer: str, findings: list[Finding]) -> Outline | None:
    """The largest closed line on a layer, else the longest open one."""
    closed, loose, mended = closed_up(block.strokes(layer))
    findings += mended
    if closed:
        return max(closed, key=lambda outline: abs(outline.area_mm2))
    return max(loose, key=lambda outline: outline.length_mm, default=None)
