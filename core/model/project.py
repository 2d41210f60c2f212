"""The project: everything that the project file holds."""

from functools import cached_property
from typing import Literal

import msgspec

from core.errors import BadInput
from core.model.cloth import Cloth
from core.model.pattern import On, PanelName, Piece, Seam, SewnSeam, panel_names_of, sewn_seams
from core.wording import later, listed, tr


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


KINDS = (later("interlining"), later("hem facing"), later("top lining"))
"""The kinds of layers, as their titles are where they have no names."""


class Layer(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Pieces derived from others: interlining whole, or a facing or lining to a depth along an edge, mm.

    `allowance` None means: as the piece has them; `inner_allowance` is the one on the loose edge at the depth. `joined`
    bands of panels that are sewn together are cut in one, as far as the cloth is wide enough.
    """

    kind: Literal["interlining", "hem facing", "top lining"]
    of: tuple[str, ...]
    cloth: str
    edge: str | None = None
    depth: float | None = None
    name: str = ""
    allowance: float | None = None
    inner_allowance: float = 0.0
    joined: bool = False

    @property
    def title(self) -> str:
        """What the layer is called: its name, or its kind."""
        return self.name or tr(self.kind)

    @property
    def _stem(self) -> str:
        return self.name or self.kind

    def piece_id(self, of: str) -> str:
        """Id of the piece that is derived from a piece."""
        return f"{of} {self._stem}"

    def joined_ids(self, number: int) -> tuple[str, ...]:
        """Ids of the pieces of a joined layer: its title, numbered if there are several."""
        return numbered(self._stem, number)


class Strip(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A straight-sided strip to cut besides the drawn pieces, mm; `allowance` is added all round.

    `on` says on which panel it lies whose stripes it continues; of several every second lies on the other side.
    """

    id: str
    length: float
    width: float
    number: int
    cloth: str
    name: str = ""
    grain: Literal["straight", "bias"] = "straight"
    allowance: float = 0.0
    on: On | None = None

    @property
    def title(self) -> str:
        """What the strip is called: its name, or its id."""
        return self.name or self.id

    @property
    def piece_ids(self) -> tuple[str, ...]:
        """Ids of the single pieces: the strip's own, numbered if there are several."""
        return numbered(self.id, self.number)


class Pocket(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A pocket in a seam: its mouth goes from where to where down the seam (`opening`), mm from the upper end.

    The bag reaches `width` into the panel and hangs `depth` below the seam side. `number` bags are cut, half of them
    mirrored; None means two for every seam as sewn.
    """

    id: str
    seam: str
    opening: tuple[float, float]
    width: float
    depth: float
    cloth: str
    name: str = ""
    number: int | None = None
    allowance: float = 0.0

    @property
    def title(self) -> str:
        """What the pocket is called: its name, or its id."""
        return self.name or self.id


def numbered(name: str, number: int) -> tuple[str, ...]:
    """A name for each of several: the name itself where there is but one."""
    return (name,) if number == 1 else tuple(f"{name} {count + 1}" for count in range(number))


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
    pockets: tuple[Pocket, ...] = ()
    done: tuple[PanelName, ...] = ()
    variants: tuple[Variant, ...] = ()

    @cached_property
    def panel_names(self) -> tuple[PanelName, ...]:
        """All panels, in the order of their pieces."""
        return tuple(name for piece in self.pieces for name in piece.panel_names)

    @cached_property
    def derived_panel_names(self) -> tuple[PanelName, ...]:
        """All panels of layers, then of pockets and strips: what is cut besides the panels of the drawn pieces.

        How many pieces a joined layer makes is told by its shape alone: for such a one all names it may need are here.
        """
        layers = [name for layer in self.layers for name in self._layer_panels(layer)]
        pockets = [
            name for pocket in self.pockets for bag in self.bag_ids(pocket) for name in panel_names_of(bag, "pair")
        ]
        return (*layers, *pockets, *(name for strip in self.strips for name in strip.piece_ids))

    def _layer_panels(self, layer: Layer) -> tuple[PanelName, ...]:
        pieces = {piece.id: piece for piece in self.pieces}
        under = [pieces[of] for of in layer.of if of in pieces]
        if layer.joined:
            most = sum(len(piece.panel_names) for piece in under)
            return tuple(dict.fromkeys((layer.title, *layer.joined_ids(most))))
        return tuple(name for piece in under for name in panel_names_of(layer.piece_id(piece.id), piece.cut))

    def bag_ids(self, pocket: Pocket) -> tuple[str, ...]:
        """Ids of the pieces of a pocket, each of them a pair of bags."""
        sewn = sum(one.seam.name == pocket.seam for one in self.sewn)
        return numbered(pocket.id, sewn if pocket.number is None else pocket.number // 2)

    @cached_property
    def sewn(self) -> tuple[SewnSeam, ...]:
        """All seams as sewn, mirrored ones included."""
        return sewn_seams(self.seams)

    def cloth(self, cloth_id: str) -> Cloth:
        """The cloth with an id. Raises BadInput if there is none."""
        return _found(self.cloths, cloth_id)

    def piece_of(self, panel: PanelName) -> Piece:
        """The piece that a panel is cut from. Raises BadInput if there is none."""
        for piece in self.pieces:
            if panel in piece.panel_names:
                return piece
        raise BadInput(
            tr("no panel {panel!r}", panel=panel),
            right=tr("the panels are {panel_names}", panel_names=listed(self.panel_names)),
        )

    def cloth_of(self, panel: PanelName) -> Cloth:
        """The cloth that a panel is cut from."""
        return self.cloth(self.piece_of(panel).cloth)

    def placement(self, panel: PanelName) -> Placement:
        """Where a panel lies; one with no placement lies at u = v = turn = 0."""
        return self.placements.get(panel, Placement())

    def placed(self, changes: dict[PanelName, Placement]) -> "Project":
        """A copy in which the panels named lie elsewhere."""
        return msgspec.structs.replace(self, placements={**self.placements, **changes})


def _found(values: tuple[Cloth, ...], wanted: str) -> Cloth:
    for value in values:
        if value.id == wanted:
            return value
    raise BadInput(
        tr("no cloth {wanted!r}", wanted=wanted),
        right=tr("the ids are {ids}", ids=listed(value.id for value in values)),
    )
