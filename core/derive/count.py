"""What there is to cut and to buy."""

import math
from dataclasses import dataclass

from core.derive.cutting import cut_project
from core.derive.notions import binding_mm, braid_mm, followed_mm
from core.geometry.polyline import signed_area
from core.lay.lay import cloth_lay
from core.lay.legal import find_faults, panels_on
from core.model.cloth import Cloth
from core.model.pattern import Piece
from core.model.project import Project

ROUNDED_UP_TO_MM = 10.0
"""Cloth is bought in whole centimetres."""


@dataclass(frozen=True)
class CutPiece:
    """A row of the list: a piece, how often it is cut, and how.

    `of` is the id of the piece that it is derived from, None for a drawn piece and for a strip. `mirrored` says that
    half of the number are cut mirrored. `grain` is straight or bias.
    """

    name: str
    of: str | None
    cloth: str
    number: int
    mirrored: bool
    grain: str


@dataclass(frozen=True)
class ClothNeed:
    """What is cut from a cloth: the area within all cut lines, mm2, and the length of the lay, mm.

    The length is None until every panel on the cloth has a placement and they can be cut as they lie.
    """

    cloth: Cloth
    area_mm2: float
    length_mm: float | None

    @property
    def buy_mm(self) -> float | None:
        """The length of which enough is left once it has shrunk, rounded up to whole centimetres; None if not laid."""
        if self.length_mm is None:
            return None
        before = self.length_mm / (1 - self.cloth.shrinkage_percent / 100)
        return ROUNDED_UP_TO_MM * math.ceil(before / ROUNDED_UP_TO_MM - 1e-9)

    @property
    def cost(self) -> float | None:
        """What the length to buy costs, in the currency of the price; None if not laid or without a price."""
        if self.buy_mm is None or self.cloth.price_per_m is None:
            return None
        return self.buy_mm / 1000 * self.cloth.price_per_m


@dataclass(frozen=True)
class CuttingList:
    """Everything to cut and to buy for a project as it stands; lengths in mm.

    `followed_mm` has title and length round the garment of every facing and lining.
    """

    pieces: tuple[CutPiece, ...]
    binding_mm: float
    braid_mm: float
    followed_mm: tuple[tuple[str, float], ...]
    cloths: tuple[ClothNeed, ...]

    @property
    def count(self) -> int:
        """How many pieces are cut in all."""
        return sum(piece.number for piece in self.pieces)


def cutting_list(project: Project) -> CuttingList:
    """The list of a validated project. Raises BadInput for a layer that can't be had."""
    whole = cut_project(project)
    return CuttingList(
        cut_pieces(project),
        binding_mm(project),
        braid_mm(project),
        followed_mm(project),
        tuple(_need(whole, cloth) for cloth in whole.cloths if panels_on(whole, cloth)),
    )


def cut_pieces(project: Project) -> tuple[CutPiece, ...]:
    """The rows of the list: drawn pieces, layers, strips; told without working any shape out."""
    return (*_drawn(project), *_layers(project), *_strips(project))


def _drawn(project: Project) -> list[CutPiece]:
    return [_row(piece, piece.title, None, piece.cloth) for piece in project.pieces]


def _layers(project: Project) -> list[CutPiece]:
    drawn = {piece.id: piece for piece in project.pieces}
    return [
        _row(drawn[of], f"{drawn[of].title}, {layer.title}", of, layer.cloth)
        for layer in project.layers
        for of in layer.of
    ]


def _row(piece: Piece, name: str, of: str | None, cloth: str) -> CutPiece:
    return CutPiece(name, of, cloth, len(piece.panel_names), piece.cut == "pair", "straight")


def _strips(project: Project) -> list[CutPiece]:
    return [CutPiece(strip.title, None, strip.cloth, strip.number, False, strip.grain) for strip in project.strips]


def _need(whole: Project, cloth: Cloth) -> ClothNeed:
    panels = panels_on(whole, cloth)
    area = sum(abs(signed_area(panel.cut_ring)) for panel in panels)
    placed = all(panel.name in whole.placements for panel in panels)
    laid = placed and not find_faults(whole, cloth.id)
    return ClothNeed(cloth, area, cloth_lay(whole, cloth).length_mm if laid else None)
