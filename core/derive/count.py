"""What there is to cut and to buy."""

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.derive.cutting import cut_project, layer_pieces
from core.derive.notions import binding_mm, braid_mm, followed_mm
from core.errors import BadInput
from core.geometry.polyline import signed_area
from core.lay.legal import find_faults, panels_on
from core.model.cloth import Cloth
from core.model.pattern import Piece
from core.model.project import Layer, Pocket, Project
from core.wording import tr

if TYPE_CHECKING:
    from core.lay.cloth_lay import ClothLay

ROUNDED_UP_TO_MM = 10.0
"""Cloth is bought in whole centimetres."""


@dataclass(frozen=True)
class CutPiece:
    """A row of the list: a piece, how often it is cut, and how.

    `of` is the id of the piece that it is derived from, None for a drawn piece, for what is joined across pieces, for a
    pocket and for a strip. `mirrored` says that half of the number are cut mirrored. `grain` is straight or bias.
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

    The length is None until every panel on the cloth has a placement and they can be cut as they lie. `matching_mm` is
    bought besides so that bars can be brought to where the lay has them: one repeat along the cloth, and one more each
    way where pockets or welts lie on panels (Vilumsone-Nemes 2018, 228).
    """

    cloth: Cloth
    area_mm2: float
    length_mm: float | None
    matching_mm: float = 0.0

    @property
    def buy_mm(self) -> float | None:
        """The length of which enough is left once it has shrunk, rounded up to whole centimetres; None if not laid."""
        if self.length_mm is None:
            return None
        before = (self.length_mm + self.matching_mm) / (1 - self.cloth.shrinkage_percent / 100)
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
    """The rows of the list: drawn pieces, layers, pockets, strips; also where one of them can't be had."""
    layers = [row for layer in project.layers for row in layer_rows(project, layer)]
    pockets = [_pocket(project, pocket) for pocket in project.pockets]
    return (*_drawn(project), *layers, *pockets, *_strips(project))


def _drawn(project: Project) -> list[CutPiece]:
    return [_row(piece, piece.title, None, piece.cloth) for piece in project.pieces]


def layer_rows(project: Project, layer: Layer) -> list[CutPiece]:
    """The rows of a layer: one for each piece it lies under, or for each joined piece; one if those can't be had."""
    if layer.joined:
        return [CutPiece(name, None, layer.cloth, 1, False, "straight") for name in _joined_titles(project, layer)]
    drawn = {piece.id: piece for piece in project.pieces}
    return [_row(drawn[of], f"{drawn[of].title}, {layer.title}", of, layer.cloth) for of in layer.of]


def _joined_titles(project: Project, layer: Layer) -> list[str]:
    try:
        return [piece.title for piece in layer_pieces(layer, project)]
    except BadInput:
        return [layer.title]


def _pocket(project: Project, pocket: Pocket) -> CutPiece:
    number = 2 * len(project.bag_ids(pocket))
    return CutPiece(tr("{title}, pocket bag", title=pocket.title), None, pocket.cloth, number, True, "straight")


def _row(piece: Piece, name: str, of: str | None, cloth: str) -> CutPiece:
    return CutPiece(name, of, cloth, len(piece.panel_names), piece.cut == "pair", "straight")


def _strips(project: Project) -> list[CutPiece]:
    return [CutPiece(strip.title, None, strip.cloth, strip.number, False, strip.grain) for strip in project.strips]


def _need(whole: Project, cloth: Cloth) -> ClothNeed:
    placed = all(panel.name in whole.placements for panel in panels_on(whole, cloth))
    laid = placed and not find_faults(whole, cloth.id)
    if not laid:
        return _need_of(whole, cloth, None)
    from core.lay.cloth_lay import cloth_lay  # brings the whole search with it, which a list seldom needs

    return _need_of(whole, cloth, cloth_lay(whole, cloth).length_mm)


def need_as_laid(whole: Project, laid: "ClothLay") -> ClothNeed:
    """What a cloth needs by a lay of a project whose derived pieces are pieces like any other."""
    return _need_of(whole, laid.cloth, laid.length_mm)


def _need_of(whole: Project, cloth: Cloth, length_mm: float | None) -> ClothNeed:
    area = sum(abs(signed_area(panel.cut_ring)) for panel in panels_on(whole, cloth))
    return ClothNeed(cloth, area, length_mm, _matching_mm(whole, cloth))


def _matching_mm(whole: Project, cloth: Cloth) -> float:
    if cloth.crosswise is None:
        return 0.0
    patched = any(piece.on is not None and piece.cloth == cloth.id for piece in whole.pieces)
    return cloth.crosswise.period * (3 if patched else 1)
