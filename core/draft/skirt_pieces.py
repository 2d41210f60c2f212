"""The pieces of a gored skirt: what they and their edges are called, and how a drafted gore becomes a piece."""

from dataclasses import dataclass
from typing import Literal

from core.draft.curves import Curve, curve_length, halves, segment_of
from core.draft.gore import Gore, GoreEdge
from core.draft.measures import Allowances, Grain, SkirtMeasures
from core.geometry.beziers import path_data
from core.model.pattern import Edge, Notch, Piece
from core.wording import later, tr

Curves = tuple[Curve, ...]

_TITLES = {
    "front": later("Front gore"),
    "side-front": later("Side front gore"),
    "side": later("Side gore"),
    "side-back": later("Side back gore"),
    "back": later("Back gore"),
}
_SIDES = {1: ("side",), 2: ("side-front", "side-back"), 3: ("side-front", "side", "side-back")}


@dataclass(frozen=True)
class GoreNames:
    """What one piece is called and how it is cut; `front` and `back` name its edges as seams refer to them.

    For a pair they are edges of its right panel, for a gore on a centre those on the wearer's right.
    """

    id: str
    name: str
    cut: Literal["pair", "single", "fold"]
    front: str
    back: str
    grain: Grain

    @property
    def on_centre(self) -> bool:
        """Whether the gore lies on the centre front or the centre back."""
        return self.cut != "pair"

    @property
    def right_panel(self) -> str:
        """The panel on the wearer's right, or the one on the centre."""
        return self.id if self.on_centre else f"{self.id}.R"


def named_gores(measures: SkirtMeasures) -> tuple[GoreNames, ...]:
    """The pieces from front to back."""
    between = measures.pieces - 2
    sides = _SIDES.get(between, tuple(f"side-{number + 1}" for number in range(between)))
    ids = ("front", *sides, "back")
    return tuple(_named(measures, index, ids[index]) for index in range(measures.pieces))


def _named(measures: SkirtMeasures, index: int, piece_id: str) -> GoreNames:
    name = tr(_TITLES[piece_id]) if piece_id in _TITLES else tr("Side {number} gore", number=piece_id[len("side-") :])
    last = measures.pieces - 1
    if measures.copies[index] == 1:
        return GoreNames(piece_id, name, measures.centre_gores, "front.R", "back.R", "middle")
    front, back = "centre" if index == 0 else "front", "centre" if index == last else "back"
    grain = measures.grain if isinstance(measures.grain, str) else measures.grain[index]
    return GoreNames(piece_id, name, "pair", front, back, grain)


def skirt_piece(measures: SkirtMeasures, names: GoreNames, gore: Gore) -> Piece:
    """The piece of a drafted gore: a pair as the wearer's right panel, its topmost corner at y = 0."""
    outline = _half(names, gore) if names.cut == "fold" else _whole(names, gore)
    lift = min(gore.right.top.imag, gore.left.top.imag) * 1j
    return Piece(
        id=names.id,
        name=names.name,
        cloth=measures.cloth.id,
        cut=names.cut,
        fold="fold" if names.cut == "fold" else None,
        edges=tuple(
            Edge(
                name=name,
                path=path_data(tuple(segment_of(tuple(point - lift for point in curve)) for curve in curves)),
                allowance=_allowance(measures.allowances, name),
            )
            for name, curves in outline
        ),
        notches=tuple(notch for name, edge, up in _seam_edges(names, gore) for notch in _notches(name, edge, up)),
    )


def _whole(names: GoreNames, gore: Gore) -> list[tuple[str, Curves]]:
    right, left = _edge_names(names)
    return [
        ("waist", (gore.top,)),
        (right, gore.right.curves),
        ("hem", _reversed((gore.hem,))),
        (left, _reversed(gore.left.curves)),
    ]


def _half(names: GoreNames, gore: Gore) -> list[tuple[str, Curves]]:
    """The half on the wearer's right: of a front gore the left one of the drawing, of a back gore the right one."""
    (top_left, top_right), (hem_left, hem_right) = halves(gore.top), halves(gore.hem)
    fold = (top_right[0], hem_right[0])
    if names.id == "front":
        hem = _reversed((hem_left,))
        return [("waist", (top_left,)), ("fold", (fold,)), ("hem", hem), ("back", _reversed(gore.left.curves))]
    hem = _reversed((hem_right,))
    return [("waist", (top_right,)), ("front", gore.right.curves), ("hem", hem), ("fold", (fold[::-1],))]


def _reversed(curves: Curves) -> Curves:
    return tuple(curve[::-1] for curve in reversed(curves))


def _edge_names(names: GoreNames) -> tuple[str, str]:
    """What the right and the left edge of the drawing are called."""
    if not names.on_centre:
        return names.front, names.back
    return ("back.L", "back.R") if names.id == "front" else ("front.R", "front.L")


def _seam_edges(names: GoreNames, gore: Gore) -> list[tuple[str, GoreEdge, bool]]:
    """The seam edges as drawn: name, edge, and whether it is drawn upwards."""
    if names.cut == "fold":
        return [("back", gore.left, True)] if names.id == "front" else [("front", gore.right, False)]
    right, left = _edge_names(names)
    return [(right, gore.right, False), (left, gore.left, True)]


def _notches(name: str, edge: GoreEdge, upwards: bool) -> list[Notch]:
    """Notches at the hip, and at the waist where the skirt rises above it."""
    lengths = [curve_length(curve) for curve in edge.curves]
    places = [sum(lengths[:number]) for number in range(1, len(lengths))]
    return [Notch(edge=name, at=round(sum(lengths) - at if upwards else at, 4)) for at in places]


def _allowance(allowances: Allowances, edge: str) -> float:
    kinds = {"waist": allowances.waist, "hem": allowances.hem, "centre": allowances.centre, "fold": 0.0}
    return kinds.get(edge, allowances.seam)


def cut_width_mm(measures: SkirtMeasures, names: GoreNames, gore: Gore) -> float:
    """Width across the cloth of the piece's cutting line, allowances on, mm.

    Waist and hem meet the seams at right angles, so a corner moves out along and square to the seam's edge.
    """
    allowances, edges = measures.allowances, _edge_names(names)
    reaches = []
    for side, name, edge in zip((1, -1), edges, (gore.right, gore.left), strict=True):
        out = side * -1j * _allowance(allowances, name)
        reaches.append(
            max(
                side * (edge.top - edge.top_down * allowances.waist + edge.top_down * out).real,
                side * (edge.hip + edge.hem_down * out).real,
                side * (edge.hem + edge.hem_down * (allowances.hem + out)).real,
            )
        )
    return reaches[0] + reaches[1]
