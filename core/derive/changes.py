"""Changes to what is cut besides the drawn pieces, and ticks of what is cut, each as a project from a project."""

import itertools
from collections.abc import Iterable
from dataclasses import dataclass

import msgspec

from core.derive.count import CutPiece, cut_pieces
from core.derive.cutting import derived_pieces
from core.model.pattern import PanelName
from core.model.project import Layer, Project, Strip
from core.model.validate import validate


def with_layers(project: Project, layers: tuple[Layer, ...]) -> Project:
    """The project with other layers; places and ticks of pieces that are no more go with them.

    Raises BadInput where a layer can't be had.
    """
    return _checked(msgspec.structs.replace(project, layers=layers))


def with_strips(project: Project, strips: tuple[Strip, ...]) -> Project:
    """The project with other strips; places and ticks of pieces that are no more go with them. Raises BadInput."""
    return _checked(msgspec.structs.replace(project, strips=strips))


def ticked(project: Project, panels: Iterable[PanelName], cut: bool) -> Project:
    """The project with panels ticked off as cut, or not, in the order in which they stand on the list."""
    done = set(project.done) | set(panels) if cut else set(project.done) - set(panels)
    names = (*project.panel_names, *project.derived_panel_names)
    return msgspec.structs.replace(project, done=tuple(name for name in names if name in done))


@dataclass(frozen=True)
class ListRow:
    """A row of the list with the panels that it counts, and the place in the project of what it is derived from.

    `layer` and `strip` are places among the project's layers and strips; both None for a drawn piece.
    """

    piece: CutPiece
    panels: tuple[PanelName, ...]
    layer: int | None = None
    strip: int | None = None


def rows_of(project: Project) -> tuple[ListRow, ...]:
    """The rows of a project's list, each with its panels, also where a layer can't be had."""
    names = iter((*project.panel_names, *project.derived_panel_names))
    layers = [index for index, layer in enumerate(project.layers) for _ in layer.of]
    sources: list[tuple[int | None, int | None]] = [
        *((None, None) for _ in project.pieces),
        *((index, None) for index in layers),
    ]
    sources += [(None, index) for index in range(len(project.strips))]
    return tuple(
        ListRow(piece, tuple(itertools.islice(names, piece.number)), layer, strip)
        for piece, (layer, strip) in zip(cut_pieces(project), sources, strict=True)
    )


def fresh_strip_id(project: Project, name: str) -> str:
    """An id for a new strip, made from its name."""
    taken = {piece.id for piece in project.pieces} | {strip.id for strip in project.strips} | set(project.panel_names)
    stem = "-".join(name.lower().replace("/", " ").split()) or "strip"
    names = (stem if count == 1 else f"{stem}-{count}" for count in range(1, len(taken) + 2))
    return next(one for one in names if one not in taken)


def _checked(project: Project) -> Project:
    names = {*project.panel_names, *project.derived_panel_names}
    kept = msgspec.structs.replace(
        project,
        placements={name: at for name, at in project.placements.items() if name in names},
        done=tuple(name for name in project.done if name in names),
    )
    validate(kept)
    derived_pieces(kept)
    return kept
