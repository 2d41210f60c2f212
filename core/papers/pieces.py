"""What the papers are about: the panels that have a place, drawn or derived, and what is drawn of them full size."""

from collections.abc import Iterator
from dataclasses import dataclass, replace

import msgspec
import numpy as np

from core.derive.cutting import derived_pieces, with_derived
from core.model.panel import Panel
from core.model.pattern import Piece
from core.model.project import Placement, Project
from core.papers.choices import LineChoice
from core.papers.figures import Figures, PanelFigures, figures_of
from core.papers.pattern import PatternPiece, pattern_piece
from core.seams.readings import measure
from core.wording import tr

SAME_MM = 1e-3


@dataclass(frozen=True, eq=False)
class LaidProject:
    """`given` is the project as it was given, `project` the one in which derived pieces that have places are pieces
    like any other; `without_place` are the derived pieces that have none yet."""

    given: Project
    project: Project
    without_place: tuple[Piece, ...]

    @property
    def title(self) -> str:
        """What the papers are headed with."""
        return self.given.title or tr("Cutting papers")

    def has_card(self, panel: PanelFigures) -> bool:
        """Whether a panel gets a card: every drawn one, and of the derived ones those whose stripes matter."""
        return bool(panel.cloth.ways) or panel.panel.piece in self.given.pieces


def laid_project(project: Project) -> LaidProject:
    """The project as its papers see it. Raises BadInput for a layer that can't be had."""
    derived = derived_pieces(project)
    placed = tuple(piece for piece in derived if all(name in project.placements for name in piece.panel_names))
    rest = tuple(piece for piece in derived if piece not in placed)
    return LaidProject(project, with_derived(project, placed), rest)


def pattern_pieces(laid: LaidProject, figures: Figures, lines: LineChoice) -> tuple[PatternPiece, ...]:
    """What is drawn full size: every panel on striped cloth; of a piece on plain cloth one panel, as it is drawn.

    Strips of plain cloth are left out, for they are ruled on it, and plain pieces of a shape that is drawn already.
    """
    kept: list[PanelFigures] = []
    for panel in _candidates(laid, figures):
        if panel.cloth.ways or not any(_same_shape(panel.panel, other.panel) for other in kept):
            kept.append(panel)
    return tuple(pattern_piece(panel, lines) for panel in kept)


def _candidates(laid: LaidProject, figures: Figures) -> Iterator[PanelFigures]:
    """Striped panels first, then one of every plain piece, upright and without a number."""
    strips = {name for strip in laid.given.strips for name in strip.piece_ids}
    unplaced = msgspec.structs.replace(laid.project, pieces=laid.without_place, seams=(), placements={})
    rest = figures_of(unplaced, measure(unplaced)).panels if laid.without_place else ()
    yield from (panel for panel in figures.panels if panel.cloth.ways)
    plain = [panel for panel in figures.panels if not panel.cloth.ways]
    for panel in (*plain, *rest):
        if panel.panel.piece.id not in strips and not panel.panel.mirrored:
            yield _upright(laid, panel)


def _upright(laid: LaidProject, panel: PanelFigures) -> PanelFigures:
    """A panel as its piece is drawn, wherever it lies; on plain cloth, for there is nothing to show of another."""
    plain = msgspec.structs.replace(panel.cloth, repeat=None, crosswise=None)
    alone = msgspec.structs.replace(
        laid.project,
        cloths=(plain,),
        pieces=(panel.panel.piece,),
        seams=(),
        placements={name: Placement() for name in panel.panel.piece.panel_names},
    )
    drawn = next(one for one in figures_of(alone, measure(alone)).panels if one.name == panel.name)
    return replace(drawn, number=0)


def _same_shape(one: Panel, other: Panel) -> bool:
    """Whether two panels have the same lines, as they are drawn."""
    pairs = ((one.cut_ring, other.cut_ring), (one.net_ring, other.net_ring))
    return all(a.shape == b.shape and np.allclose(a, b, atol=SAME_MM) for a, b in pairs)
