"""What is odd about allowances, and about what is cut besides the drawn pieces, of a project whose file is in order."""

from collections.abc import Iterator

from core.derive.cutting import cut_project
from core.derive.joined import joints_apart
from core.derive.strips import longest_bias_mm
from core.errors import BadInput
from core.geometry.offset import filled_bend
from core.model.cloth import Way
from core.model.panel import drawn_edges
from core.model.pattern import Piece
from core.model.project import Layer, Pocket, Project, Strip
from core.seams.patch import patches
from core.seams.walk import Finding
from core.units import MM, Units
from core.wording import later, listed, tr

FLAT_MM = 0.5
"""Two sides of a joined facing that lie no farther apart than this lie together."""

MOUTHS_AGREE_MM = 0.5
"""A pocket's mouth and the open stretch of its seam agree within this."""

MATCHES_MM = 0.05
"""What lies on a panel matches it if no step between them is larger."""


_SQUARE_TO: dict[Way, str] = {"lengthwise": later("{step} across"), "crosswise": later("{step} along")}


def find_odd(project: Project, units: Units = MM) -> tuple[Finding, ...]:
    """Findings about all edges of all pieces, then about layers, pockets and strips, of a validated project."""
    edges = [finding for piece in project.pieces for finding in _bends(piece, units)]
    strips = [finding for strip in project.strips for finding in _too_long(project, strip, units)]
    pockets = [finding for pocket in project.pockets for finding in _mouth(project, pocket, units)]
    return (*edges, *strips, *pockets, *_derived(project, units))


def _derived(project: Project, units: Units) -> Iterator[Finding]:
    """What can't be derived at all; else where joined pieces don't lie flat and patches don't match."""
    try:
        cut = cut_project(project)
    except BadInput as error:
        yield Finding(error.place, error.what, error.right)
        return
    for layer in project.layers:
        yield from _not_flat(project, layer, units) if layer.joined else ()
    yield from _other_cloths(cut)
    for patch in patches(cut):
        if {patch.name, patch.under.name} <= cut.placements.keys() and patch.apart_mm > MATCHES_MM:
            told = listed(tr(_SQUARE_TO[way], step=units.say_fine(step)) for way, step in patch.steps.items())
            what = tr("its stripes miss those of {name!r} by up to {told}", name=patch.under.name, told=told)
            yield Finding(tr("panel {name!r}", name=patch.name), what, tr("match the patches again, or lay again"))


def _other_cloths(cut: Project) -> Iterator[Finding]:
    for piece in cut.pieces:
        if piece.on and cut.cloth_of(piece.on.panel).id != piece.cloth:
            what = tr("it lies on {panel!r}, which is cut from another cloth", panel=piece.on.panel)
            yield Finding(tr("piece {id!r}", id=piece.id), what, tr("cut it from that cloth, or let it lie on none"))


def _not_flat(project: Project, layer: Layer, units: Units) -> Iterator[Finding]:
    for seam, apart in joints_apart(layer, project):
        if apart > FLAT_MM:
            what = tr(
                "laid flat its two sides at seam {seam!r} lie up to {apart} apart", seam=seam, apart=units.say(apart)
            )
            yield Finding(
                tr("layer {title!r}", title=layer.title),
                what,
                tr("ease it in there, or cut it in one piece for each panel"),
            )


def _mouth(project: Project, pocket: Pocket, units: Units) -> list[Finding]:
    """Where the mouth is not what the seam leaves open."""
    seam = next(seam for seam in project.seams if seam.name == pocket.seam)
    mouth = pocket.opening
    if seam.open and all(abs(a - b) <= MOUTHS_AGREE_MM for a, b in zip(seam.open, mouth, strict=True)):
        return []
    told = tr("from {start} to {end}", start=units.bare(mouth[0]), end=units.say(mouth[1]))
    what = tr("its mouth goes {told}, seam {name!r} is sewn all along", told=told, name=seam.name)
    if seam.open:
        left = tr("from {start} to {end}", start=units.bare(seam.open[0]), end=units.say(seam.open[1]))
        what = tr("its mouth goes {told}, seam {name!r} is open {left}", told=told, name=seam.name, left=left)
    return [Finding(tr("pocket {id!r}", id=pocket.id), what, tr("leave the seam open {told}", told=told))]


def _bends(piece: Piece, units: Units) -> list[Finding]:
    """Bends of the drawn line that are narrower than the allowance, so that the other line cuts them short."""
    by_cut = later("the cutting line cuts it short by {by}; a smaller allowance there follows it")
    by_net = later("the stitching line cuts it short by {by}; a smaller allowance there follows it")
    sign, cuts_short = (1.0, by_cut) if piece.outline_is == "net" else (-1.0, by_net)
    found = []
    for edge, line in zip(piece.edges, drawn_edges(piece), strict=True):
        bend = None if edge.name == piece.fold else filled_bend(line, sign * edge.allowance)
        if bend is not None:
            (x, y), by = bend
            at, allowance = f"({units.bare(x)}, {units.bare(y)})", units.say(edge.allowance)
            what = tr("its bend at {at} is narrower than the allowance of {allowance}", at=at, allowance=allowance)
            how = tr(cuts_short, by=units.say(by))
            found.append(Finding(tr("piece {id!r}, edge {name!r}", id=piece.id, name=edge.name), what, how))
    return found


def _too_long(project: Project, strip: Strip, units: Units) -> list[Finding]:
    cloth = project.cloth(strip.cloth)
    most = longest_bias_mm(cloth)
    if strip.grain != "bias" or strip.length <= most:
        return []
    gives, long = units.say_whole(most), units.say(strip.length)
    what = tr(
        "on the bias {title!r} gives {gives} in one length, the strip is {long} long",
        title=cloth.title,
        gives=gives,
        long=long,
    )
    return [
        Finding(tr("strip {id!r}", id=strip.id), what, tr("a larger number of shorter ones, joined along the grain"))
    ]
