"""What must hold for all that is cut besides the drawn pieces, and for what lies on panels."""

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM
from core.model.pattern import On, Piece
from core.model.project import Layer, Pocket, Project
from core.model.rules import check_cloth_of, check_name, check_stretch, unique, within
from core.wording import listed, tr


def check_derived(project: Project, cloths: set[str]) -> None:
    """Check what is cut besides the drawn pieces: layers, pockets, strips, and what lies on panels. Raises BadInput."""
    for index, layer in enumerate(project.layers):
        _check_layer(project, tr("layer {index} ({title})", index=index + 1, title=layer.title), layer, cloths)
    unique(
        tr("strips and pockets"), [*(strip.id for strip in project.strips), *(pocket.id for pocket in project.pockets)]
    )
    for piece in project.pieces:
        if piece.on is not None:
            _check_on(project, f"{tr('piece {id!r}', id=piece.id)}, on", piece.on, piece)
    for pocket in project.pockets:
        _check_pocket(project, tr("pocket {id!r}", id=pocket.id), pocket, cloths)
    for strip in project.strips:
        place = tr("strip {id!r}", id=strip.id)
        check_cloth_of(place, strip.cloth, cloths)
        check_name(place, "id", strip.id)
        within(place, "length", strip.length, 1, LARGEST_MM)
        within(place, "width", strip.width, 1, LARGEST_MM)
        within(place, "number", strip.number, 1, 10_000)
        within(place, "allowance", strip.allowance, 0, 1000)
        if strip.on is not None and strip.grain == "bias":
            raise BadInput(
                tr("it is on the bias and lies on a panel"),
                f"{place}, on",
                tr("straight grain, turned by 45 degrees"),
            )
        if strip.on is not None:
            _check_on(project, f"{place}, on", strip.on)


def _check_pocket(project: Project, place: str, pocket: Pocket, cloths: set[str]) -> None:
    check_cloth_of(place, pocket.cloth, cloths)
    check_name(place, "id", pocket.id)
    if pocket.seam not in {seam.name for seam in project.seams}:
        names = ", ".join(seam.name for seam in project.seams) or "none"
        raise BadInput(
            tr("there is no seam {seam!r}", seam=pocket.seam), place, tr("the seams are {names}", names=names)
        )
    check_stretch(place, "opening", pocket.opening)
    within(place, "width", pocket.width, 1, LARGEST_MM)
    within(place, "depth", pocket.depth, 1, LARGEST_MM)
    within(place, "allowance", pocket.allowance, 0, 1000)
    if pocket.number is not None and (not 2 <= pocket.number <= 1000 or pocket.number % 2):
        raise BadInput(
            tr("number is {number}", number=pocket.number),
            place,
            tr("an even number from 2 on: half of the bags are mirrored"),
        )


def _check_on(project: Project, place: str, on: On, piece: Piece | None = None) -> None:
    """What lies on a panel lies on one of a drawn piece that lies on none itself; a pair on both panels of a pair."""
    under = {name: other for other in project.pieces for name in other.panel_names if other is not piece}
    if on.panel not in under:
        raise BadInput(
            tr("there is no panel {panel!r} to lie on", panel=on.panel),
            place,
            tr("the panels are {under}", under=listed(under)),
        )
    if under[on.panel].on is not None:
        raise BadInput(
            tr("panel {panel!r} lies on another itself", panel=on.panel), place, tr("a panel that lies on none")
        )
    if piece is not None and piece.cut == "pair" and under[on.panel].cut != "pair":
        raise BadInput(
            tr("it is a pair and panel {panel!r} is not", panel=on.panel),
            place,
            tr("a panel of a pair, or a single piece"),
        )
    for value in on.at:
        within(place, "at", value, -LARGEST_MM, LARGEST_MM)
    within(place, "turn_deg", on.turn_deg, -360, 360)


def _check_layer(project: Project, place: str, layer: Layer, cloths: set[str]) -> None:
    pieces = {piece.id: piece for piece in project.pieces}
    check_cloth_of(place, layer.cloth, cloths)
    check_name(place, "name", layer.title)
    for name in layer.of:
        if name not in pieces:
            raise BadInput(
                tr("there is no piece {name!r}", name=name),
                place,
                tr("the pieces are {pieces}", pieces=listed(pieces)),
            )
        if layer.edge is not None and layer.edge not in {edge.name for edge in pieces[name].edges}:
            raise BadInput(
                tr("piece {name!r} has no edge {edge!r}", name=name, edge=layer.edge),
                place,
                tr("an edge of every piece named"),
            )
        if layer.edge is not None and layer.edge == pieces[name].fold:
            raise BadInput(
                tr("edge {edge!r} of piece {name!r} is its fold", edge=layer.edge, name=name),
                place,
                tr("an edge that is cut"),
            )
    if layer.kind != "interlining" and (layer.edge is None or layer.depth is None):
        raise BadInput(tr("it has no edge or no depth"), place, tr("a facing or lining follows an edge to a depth"))
    if layer.joined and layer.kind == "interlining":
        raise BadInput(tr("it is joined but follows no edge"), place, tr("a facing or lining can be joined"))
    if layer.depth is not None:
        within(place, "depth", layer.depth, 1, LARGEST_MM)
    for allowance in (layer.inner_allowance, layer.allowance or 0.0):
        within(place, "allowance", allowance, 0, 1000)
