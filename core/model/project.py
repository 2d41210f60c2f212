"""The project: everything that the project file holds."""

from functools import cached_property
from typing import Literal

import msgspec

from core.errors import BadInput
from core.model.cloth import Cloth
from core.model.pattern import PanelName, Piece, Seam, SewnSeam, panel_names_of, sewn_seams


class Centre(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What lies on the centre of a panel or of a seam."""

    on: Literal["lead", "ground", "free"] = "free"
    seam: str | None = None
    panel: str | None = None


class Match(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is asked of the match; `mirror_pairs` None means: where there are pairs and the repeat is even.

    `crosswise_weight` is how much the steps of bars count where those of lengthwise stripes count 1.
    """

    mirror_pairs: bool | None = None
    centre: Centre = Centre()
    crosswise_weight: float = 1.0


class Placement(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Where a panel lies: its origin at (u, v), mm, turned by `turn_deg` clockwise, or end for end if `turned`."""

    u: float = 0.0
    v: float = 0.0
    turn_deg: float = 0.0
    turned: bool = False
    hold: bool = False


class Variant(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Another way the project may stand: placements, and what else differs from the project's own keys.

    `match` None means: as the project has it; `grain_tolerance_deg` by cloth id, degrees; `weights` by seam name;
    `pieces` replace the project's pieces of the same ids.
    """

    name: str
    placements: dict[PanelName, Placement] = {}
    match: Match | None = None
    grain_tolerance_deg: dict[str, float] = {}
    weights: dict[str, float] = {}
    pieces: tuple[Piece, ...] = ()
    note: str = ""


class Layer(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Pieces derived from others: interlining whole, or a facing or lining to a depth along an edge, mm.

    `allowance` None means: as the piece has them; `inner_allowance` is the one on the loose edge at the depth.
    """

    kind: Literal["interlining", "hem facing", "top lining"]
    of: tuple[str, ...]
    cloth: str
    edge: str | None = None
    depth: float | None = None
    name: str = ""
    allowance: float | None = None
    inner_allowance: float = 0.0

    @property
    def title(self) -> str:
        """What the layer is called: its name, or its kind."""
        return self.name or self.kind

    def piece_id(self, of: str) -> str:
        """Id of the piece that is derived from a piece."""
        return f"{of} {self.title}"


class Strip(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A straight-sided strip to cut besides the drawn pieces, mm; `allowance` is added all round."""

    id: str
    length: float
    width: float
    number: int
    cloth: str
    name: str = ""
    grain: Literal["straight", "bias"] = "straight"
    allowance: float = 0.0

    @property
    def title(self) -> str:
        """What the strip is called: its name, or its id."""
        return self.name or self.id

    @property
    def piece_ids(self) -> tuple[str, ...]:
        """Ids of the single pieces: the strip's own, numbered if there are several."""
        return (self.id,) if self.number == 1 else tuple(f"{self.id} {count + 1}" for count in range(self.number))


class Project(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, dict=True):
    """A whole project. Treat `placements` as read-only; `placed` gives a changed copy.

    `done` names the panels that are cut already and ticked off; derived ones count too.
    """

    format: Literal["stripewright-project"] = "stripewright-project"
    version: Literal[1] = 1
    title: str = ""
    cloths: tuple[Cloth, ...]
    pieces: tuple[Piece, ...]
    seams: tuple[Seam, ...] = ()
    match: Match = Match()
    placements: dict[PanelName, Placement] = {}
    heights: tuple[float, ...] | None = None
    layers: tuple[Layer, ...] = ()
    strips: tuple[Strip, ...] = ()
    done: tuple[PanelName, ...] = ()
    variants: tuple[Variant, ...] = ()

    @cached_property
    def panel_names(self) -> tuple[PanelName, ...]:
        """All panels, in the order of their pieces."""
        return tuple(name for piece in self.pieces for name in piece.panel_names)

    @cached_property
    def derived_panel_names(self) -> tuple[PanelName, ...]:
        """All panels of layers, then of strips: what is cut besides the panels of the drawn pieces."""
        pieces = {piece.id: piece for piece in self.pieces}
        layers = [(layer.piece_id(of), pieces[of].cut) for layer in self.layers for of in layer.of if of in pieces]
        strips = [name for strip in self.strips for name in strip.piece_ids]
        return (*(name for piece, cut in layers for name in panel_names_of(piece, cut)), *strips)

    @cached_property
    def sewn(self) -> tuple[SewnSeam, ...]:
        """All seams as sewn, mirrored ones included."""
        return sewn_seams(self.seams)

    def cloth(self, cloth_id: str) -> Cloth:
        """The cloth with an id. Raises BadInput if there is none."""
        return _found(self.cloths, cloth_id, "cloth")

    def piece_of(self, panel: PanelName) -> Piece:
        """The piece that a panel is cut from. Raises BadInput if there is none."""
        for piece in self.pieces:
            if panel in piece.panel_names:
                return piece
        raise BadInput(f"no panel {panel!r}", right=f"the panels are {', '.join(self.panel_names)}")

    def cloth_of(self, panel: PanelName) -> Cloth:
        """The cloth that a panel is cut from."""
        return self.cloth(self.piece_of(panel).cloth)

    def placement(self, panel: PanelName) -> Placement:
        """Where a panel lies; one with no placement lies at u = v = turn = 0."""
        return self.placements.get(panel, Placement())

    def placed(self, changes: dict[PanelName, Placement]) -> "Project":
        """A copy in which the panels named lie elsewhere."""
        return msgspec.structs.replace(self, placements={**self.placements, **changes})


def _found(values: tuple[Cloth, ...], wanted: str, what: str) -> Cloth:
    for value in values:
        if value.id == wanted:
            return value
    raise BadInput(f"no {what} {wanted!r}", right=f"the ids are {', '.join(value.id for value in values)}")
