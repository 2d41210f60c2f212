"""What a project must satisfy beyond its keys and types. Raises one clear error at the first thing that is wrong."""

import math

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM, Points
from core.model.panel import panels_of
from core.model.pattern import SewnSeam, edge_of, panel_of
from core.model.project import Project
from core.model.rules import check_stretch, filled, unique, within
from core.model.validate_cloth import check_cloth
from core.model.validate_derived import check_derived
from core.model.validate_piece import check_piece
from core.model.validate_variant import check_variant
from core.wording import listed, tr


def validate(project: Project) -> None:
    """Check a whole project. Raises BadInput that names the place, what is wrong there and what would be right."""
    _check_as_it_stands(project)
    unique("variants", [variant.name for variant in project.variants])
    for variant in project.variants:
        check_variant(project, variant, _check_as_it_stands)


def _check_as_it_stands(project: Project) -> None:
    filled("cloths", project.cloths, tr("a project has at least one cloth"))
    filled("pieces", project.pieces, tr("a project has at least one piece"))
    unique("cloths", [cloth.id for cloth in project.cloths])
    unique("pieces", [piece.id for piece in project.pieces])
    unique("panels", (*project.panel_names, *project.derived_panel_names))
    unique("seams", [seam.name for seam in project.seams])
    for cloth in project.cloths:
        check_cloth(cloth)
    for piece in project.pieces:
        check_piece(project, piece)
    _check_seams(project)
    _check_rest(project)


def _check_seams(project: Project) -> None:
    edges = {f"{panel}/{edge}" for piece in project.pieces for panel in piece.panel_names for edge in piece.edge_names}
    _check_weights(project)
    for seam in project.seams:
        place = tr("seam {name!r}", name=seam.name)
        for what in ("seen", "open"):
            check_stretch(place, what, getattr(seam, what))
    for sewn in project.sewn:
        for which, ref in (("a", sewn.a), ("b", sewn.b)):
            if ref not in edges:
                raise BadInput(
                    tr("{which} is {ref!r}", which=which, ref=ref),
                    tr("seam {label!r}", label=sewn.label),
                    _edge_hint(project, ref),
                )
        if sewn.a == sewn.b:
            raise BadInput(
                tr("edge {a!r} is sewn to itself", a=sewn.a),
                tr("seam {label!r}", label=sewn.label),
                tr("two different edges are right"),
            )
    _check_doubles(project.sewn)


def _check_weights(project: Project) -> None:
    for seam in project.seams:
        if not 0 <= seam.weight <= 1e6:
            raise BadInput(
                tr("weight is {weight:g}", weight=seam.weight),
                tr("seam {name!r}", name=seam.name),
                tr("0 to 1000000 is right"),
            )


def _check_doubles(sewn: tuple[SewnSeam, ...]) -> None:
    known: dict[frozenset[str], str] = {}
    for seam in sewn:
        pair = frozenset((seam.a, seam.b))
        if pair in known:
            raise BadInput(
                tr("it sews the same two edges as {known!r}", known=known[pair]),
                tr("seam {label!r}", label=seam.label),
                tr("a seam that is its own mirror image has no both_sides"),
            )
        known[pair] = seam.label


def _edge_hint(project: Project, ref: str) -> str:
    for piece in project.pieces:
        if panel_of(ref) in piece.panel_names:
            return tr(
                "no edge {edge_of!r} there; the edges are {edge_names}",
                edge_of=edge_of(ref),
                edge_names=listed(piece.edge_names),
            )
    return tr("panel/edge is right; the panels are {panel_names}", panel_names=listed(project.panel_names))


def _check_rest(project: Project) -> None:
    cloths = {cloth.id for cloth in project.cloths}
    _check_places(project)
    for name in project.done:
        _check_panel(project, tr("done, {name!r}", name=name), name)
    for height in project.heights or ():
        within("heights", tr("a height"), height, 0, LARGEST_MM)
    _check_centre(project)
    check_derived(project, cloths)


def _check_places(project: Project) -> None:
    for name, at in project.placements.items():
        place = tr("placement {name!r}", name=name)
        _check_panel(project, place, name)
        for what in ("u", "v"):
            within(place, what, getattr(at, what), -LARGEST_MM, LARGEST_MM)
        within(place, "turn_deg", at.turn_deg, -360, 360)


def _check_panel(project: Project, place: str, name: str) -> None:
    names = (*project.panel_names, *project.derived_panel_names)
    if name not in names:
        raise BadInput(tr("there is no such panel"), place, tr("the panels are {names}", names=listed(names)))


def _check_centre(project: Project) -> None:
    centre = project.match.centre
    within("match", "crosswise_weight", project.match.crosswise_weight, 0, 1e6)
    if centre.seam is not None and centre.panel is not None:
        raise BadInput(tr("it names a seam and a panel"), "match, centre", tr("one of the two is right"))
    if centre.seam is not None and centre.seam not in {seam.name for seam in project.seams}:
        raise BadInput(
            tr("there is no seam {seam!r}", seam=centre.seam), "match, centre", tr("the name of a seam is right")
        )
    if centre.panel is not None and centre.panel not in project.panel_names:
        names = ", ".join(project.panel_names)
        raise BadInput(
            tr("there is no panel {panel!r}", panel=centre.panel),
            "match, centre",
            tr("the panels are {names}", names=names),
        )


def check_fits(project: Project) -> None:
    """Check that no panel is wider than the usable width of its cloth. Raises BadInput that names the first that is."""
    for piece in project.pieces:
        cloth = project.cloth(piece.cloth)
        room = cloth.usable[1] - cloth.usable[0]
        for panel in panels_of(piece):
            at = project.placement(panel.name)
            wide = _width_across(panel.cut_ring, math.radians(at.turn_deg))
            if wide > room + 1e-6:
                raise BadInput(
                    tr(
                        "its cutting line is {wide:.1f} mm wide, the usable width of {title!r} is {room:.1f} mm",
                        wide=wide,
                        title=cloth.title,
                        room=room,
                    ),
                    tr("panel {name!r}", name=panel.name),
                    tr("a narrower piece, a seam across it, or a wider cloth"),
                )


def _width_across(ring: Points, turn: float) -> float:
    across = ring[:, 0] * math.cos(turn) - ring[:, 1] * math.sin(turn)
    return float(across.max() - across.min())
