"""Changes to what is cut besides the drawn pieces, and ticks of what is cut, each as a project from a project."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

import msgspec

from core.derive.count import CutPiece, cut_pieces, layer_rows
from core.derive.cutting import cut_project
from core.errors import BadInput
from core.model.cloth import Cloth
from core.model.pattern import PanelName, Seam
from core.model.project import Layer, Pocket, Project, Strip
from core.model.validate import validate


def with_cloth(project: Project, cloth: Cloth, instead_of: str | None) -> Project:
    """The project with a cloth more, under a free id, or with it in the place of one of its own.

    Raises BadInput if there is no such cloth.
    """
    if instead_of is not None:
        old = project.cloth(instead_of)
        new = msgspec.structs.replace(cloth, id=old.id)
        cloths = tuple(new if one is old else one for one in project.cloths)
    else:
        used = {one.id for one in project.cloths}
        free = next(name for name in (cloth.id, *(f"{cloth.id}-{n}" for n in range(2, 1000))) if name not in used)
        cloths = (*project.cloths, msgspec.structs.replace(cloth, id=free))
    return msgspec.structs.replace(project, cloths=cloths)


def with_layers(project: Project, layers: tuple[Layer, ...]) -> Project:
    """The project with other layers; places and ticks of pieces that are no more go with them.

    Raises BadInput where a layer can't be had.
    """
    return _checked(msgspec.structs.replace(project, layers=layers))


def with_strips(project: Project, strips: tuple[Strip, ...]) -> Project:
    """The project with other strips; places and ticks of pieces that are no more go with them. Raises BadInput."""
    return _checked(msgspec.structs.replace(project, strips=strips))


def with_pockets(project: Project, pockets: tuple[Pocket, ...]) -> Project:
    """The project with other pockets; places and ticks of pieces that are no more go with them. Raises BadInput."""
    return _checked(msgspec.structs.replace(project, pockets=pockets))


def with_pocket(project: Project, index: int | None, pocket: Pocket) -> Project:
    """The project with a pocket more, or with the one at a place among its pockets changed.

    Its seam is left open at the mouth, unless it is open elsewhere for another reason. Raises BadInput.
    """
    before = None if index is None else project.pockets[index]
    kept = project.pockets if index is None else (*project.pockets[:index], *project.pockets[index + 1 :])
    at = len(kept) if index is None else index
    seams = tuple(
        msgspec.structs.replace(seam, open=_mouth(seam, before, pocket)) if pocket.seam == seam.name else seam
        for seam in project.seams
    )
    return with_pockets(msgspec.structs.replace(project, seams=seams), (*kept[:at], pocket, *kept[at:]))


def _mouth(seam: Seam, before: Pocket | None, pocket: Pocket) -> tuple[float, float] | None:
    """What a seam leaves open once a pocket lies in it: the mouth, if nothing or the mouth as it was is open now."""
    mine = before.opening if before and before.seam == seam.name else None
    return pocket.opening if seam.open in (None, mine) else seam.open


def ticked(project: Project, panels: Iterable[PanelName], cut: bool) -> Project:
    """The project with panels ticked off as cut, or not, in the order in which they stand on the list."""
    done = set(project.done) | set(panels) if cut else set(project.done) - set(panels)
    names = (*project.panel_names, *project.derived_panel_names)
    return msgspec.structs.replace(project, done=tuple(name for name in names if name in done))


@dataclass(frozen=True)
class ListRow:
    """A row of the list with the panels that it counts, and the place in the project of what it is derived from.

    `layer`, `pocket` and `strip` are places among the project's; all None for a drawn piece.
    """

    piece: CutPiece
    panels: tuple[PanelName, ...]
    layer: int | None = None
    strip: int | None = None
    pocket: int | None = None

    @property
    def derived(self) -> bool:
        """Whether it is no drawn piece."""
        return (self.layer, self.strip, self.pocket) != (None, None, None)


def rows_of(project: Project) -> tuple[ListRow, ...]:
    """The rows of a project's list, each with its panels, also where a layer or pocket can't be had."""
    rows = cut_pieces(project)
    layers = [index for index, layer in enumerate(project.layers) for _ in layer_rows(project, layer)]
    sources = [
        *({} for _ in project.pieces),
        *({"layer": index} for index in layers),
        *({"pocket": index} for index in range(len(project.pockets))),
        *({"strip": index} for index in range(len(project.strips))),
    ]
    names = iter(_names(project))
    return tuple(
        ListRow(row, tuple(itertools.islice(names, row.number)), **source)
        for row, source in zip(rows, sources, strict=True)
    )


def _names(project: Project) -> tuple[PanelName, ...]:
    """All panels in the order of the rows; where something can't be had, the names they would have."""
    try:
        return cut_project(project).panel_names
    except BadInput:
        return (*project.panel_names, *project.derived_panel_names)


def fresh_id(project: Project, name: str, otherwise: str) -> str:
    """An id for a new strip or pocket, made from its name, or from another where that is empty."""
    taken = {piece.id for piece in project.pieces} | set(project.panel_names)
    taken |= {strip.id for strip in project.strips} | {pocket.id for pocket in project.pockets}
    stem = "-".join(name.lower().replace("/", " ").split()) or otherwise
    names = (stem if count == 1 else f"{stem}-{count}" for count in range(1, len(taken) + 2))
    return next(one for one in names if one not in taken)


def _checked(project: Project) -> Project:
    validate(msgspec.structs.replace(project, placements={}, done=(), variants=()))
    names = set(cut_project(project).panel_names)
    kept = msgspec.structs.replace(
        project,
        placements={name: at for name, at in project.placements.items() if name in names},
        done=tuple(name for name in project.done if name in names),
    )
    validate(kept)
    return kept
