"""Pieces as drawn, the panels that are cut from them, and the seams that join the panels."""

from typing import Literal

import msgspec

PanelName = str
EdgeRef = str
Cut = Literal["pair", "single", "fold"]


class Edge(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A named side of a piece: SVG path data and the allowance beyond the stitching line, mm.

    `before_shift` is the path as it was before the stitching lines were shifted, if they were.
    """

    name: str
    path: str
    allowance: float = 0.0
    before_shift: str | None = None


class Notch(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A mark on an edge, `at` mm from the edge's start as drawn, along the line that is drawn."""

    edge: str
    at: float


class On(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Where on a panel a piece lies whose stripes go on from the panel's: a patch pocket, a flap, a placket, a belt.

    The middle of the box round its stitching line lies `at` (x, y) in the panel's own frame, mm; it is turned by
    `turn_deg` clockwise against the panel.
    """

    panel: PanelName
    at: tuple[float, float]
    turn_deg: float = 0.0

    @property
    def mirrored(self) -> "On":
        """The same place on the other panel of a pair."""
        return On(panel=other_side(self.panel), at=(-self.at[0], self.at[1]), turn_deg=-self.turn_deg)


class Piece(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A pattern piece as drawn: x right, y down towards the hem, face up, grain along y, edges clockwise.

    One whose `grain` is bias is drawn as it lies, at 45 degrees to the cloth's threads; its stripes meet nothing.
    `on` says on which panel it lies whose stripes it continues; of a pair the other one lies on the other side.
    """

    id: str
    cloth: str
    edges: tuple[Edge, ...]
    name: str = ""
    cut: Cut = "single"
    drawn: Literal["right", "left"] = "right"
    outline_is: Literal["net", "cut"] = "net"
    fold: str | None = None
    notches: tuple[Notch, ...] = ()
    grain: Literal["straight", "bias"] = "straight"
    on: On | None = None

    @property
    def title(self) -> str:
        """What the piece is called: its name, or its id."""
        return self.name or self.id

    @property
    def panel_names(self) -> tuple[PanelName, ...]:
        """The panels cut from it: `id.R` and `id.L` for a pair, else `id`."""
        return panel_names_of(self.id, self.cut)

    @property
    def edge_names(self) -> tuple[str, ...]:
        """Names of a panel's edges; a fold doubles every edge but the fold into `.R` and `.L`."""
        if self.cut != "fold":
            return tuple(edge.name for edge in self.edges)
        return tuple(f"{edge.name}.{side}" for edge in self.edges if edge.name != self.fold for side in "RL")


def panel_names_of(piece_id: str, cut: Cut) -> tuple[PanelName, ...]:
    """The panels cut from a piece with an id: `id.R` and `id.L` for a pair, else `id`."""
    return (f"{piece_id}.R", f"{piece_id}.L") if cut == "pair" else (piece_id,)


class Seam(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Two edges sewn together, seen from outside: `a` is `panel/edge` on the left, `b` the one on the right.

    Heights are mm from the seam's upper end; `both_sides` adds the mirrored seam.
    """

    name: str
    a: EdgeRef
    b: EdgeRef
    weight: float = 1.0
    both_sides: bool = False
    join: Literal["spread", "top", "bottom"] = "spread"
    seen: tuple[float, float] | None = None
    open: tuple[float, float] | None = None


class SewnSeam(msgspec.Struct, frozen=True):
    """One seam as it is sewn: a Seam, or the mirrored one that `both_sides` adds; `side` is R, L or None."""

    seam: Seam
    side: Literal["R", "L"] | None
    a: EdgeRef
    b: EdgeRef

    @property
    def label(self) -> str:
        """The seam's name, with its side where there are two."""
        return f"{self.seam.name} {self.side}" if self.side else self.seam.name


def panel_of(ref: EdgeRef) -> PanelName:
    """The panel that a `panel/edge` reference names."""
    return ref.partition("/")[0]


def edge_of(ref: EdgeRef) -> str:
    """The edge that a `panel/edge` reference names."""
    return ref.partition("/")[2]


def other_side(ref: str) -> str:
    """A reference with every .R and .L exchanged."""
    return "/".join(_swapped(part) for part in ref.split("/"))


def _swapped(name: str) -> str:
    swaps = {".R": ".L", ".L": ".R"}
    return name[:-2] + swaps[name[-2:]] if name[-2:] in swaps else name


def sewn_seams(seams: tuple[Seam, ...]) -> tuple[SewnSeam, ...]:
    """Every seam as sewn: the seams given, and after each its mirrored one where it stands for both sides."""
    sewn: list[SewnSeam] = []
    for seam in seams:
        if not seam.both_sides:
            sewn.append(SewnSeam(seam, None, seam.a, seam.b))
            continue
        left = (seam.a + "/").count(".L/") + (seam.b + "/").count(".L/")
        right = (seam.a + "/").count(".R/") + (seam.b + "/").count(".R/")
        sides: tuple[Literal["R", "L"], Literal["R", "L"]] = ("L", "R") if left > right else ("R", "L")
        sewn.append(SewnSeam(seam, sides[0], seam.a, seam.b))
        sewn.append(SewnSeam(seam, sides[1], other_side(seam.b), other_side(seam.a)))
    return tuple(sewn)
