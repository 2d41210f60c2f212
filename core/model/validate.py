"""What a project must satisfy beyond its keys and types. Raises one clear error at the first thing that is wrong."""

import math
import re
from collections import Counter
from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np
from shapely.geometry import Polygon
from shapely.validation import explain_validity

from core.errors import BadInput
from core.geometry.paths import LARGEST_MM, Points, flatten
from core.geometry.polyline import length, signed_area
from core.model.cloth import Cloth, Repeat, is_box
from core.model.panel import drawn_edges, panels_of, ring_of
from core.model.pattern import Edge, On, Piece, SewnSeam, edge_of, panel_of
from core.model.project import Layer, Pocket, Project
from core.model.validate_variant import check_variant

CORNER_GAP_MM = 0.01
SMALLEST_REPEAT_MM = 0.1
FARTHEST_SHIFT_MM = 50.0
"""An edge ends no farther than this from where it ended before its line was shifted."""
_COLOUR = re.compile(r"#[0-9a-fA-F]{6}")


def validate(project: Project) -> None:
    """Check a whole project. Raises BadInput that names the place, what is wrong there and what would be right."""
    _check_as_it_stands(project)
    _unique("variants", [variant.name for variant in project.variants])
    for variant in project.variants:
        check_variant(project, variant, _check_as_it_stands)


def _check_as_it_stands(project: Project) -> None:
    _filled("cloths", project.cloths, "a project has at least one cloth")
    _filled("pieces", project.pieces, "a project has at least one piece")
    _unique("cloths", [cloth.id for cloth in project.cloths])
    _unique("pieces", [piece.id for piece in project.pieces])
    _unique("panels", (*project.panel_names, *project.derived_panel_names))
    _unique("seams", [seam.name for seam in project.seams])
    for cloth in project.cloths:
        check_cloth(cloth)
    for piece in project.pieces:
        _check_piece(project, piece)
    _check_seams(project)
    _check_rest(project)


def _filled(place: str, values: Iterable[object], right: str) -> None:
    if not values:
        raise BadInput("it is empty", place, right)


def _unique(place: str, names: Iterable[str]) -> None:
    for name, count in Counter(names).items():
        if not name.strip():
            raise BadInput("a name or id is empty", place, "each needs one of its own")
        if count > 1:
            raise BadInput(f"{name!r} stands {count} times", place, "each needs one of its own")


def _within(place: str, what: str, value: float, low: float, high: float) -> None:
    if not low <= value <= high:
        raise BadInput(f"{what} is {value:g}", place, f"{low:g} to {high:g} is right")


def _colour(place: str, what: str, value: str) -> None:
    if not _COLOUR.fullmatch(value):
        raise BadInput(f"{what} is {value[:20]!r}", place, "a colour such as #23304d is right")


def check_cloth(cloth: Cloth) -> None:
    """Check one cloth. Raises BadInput that names the cloth, what is wrong and what would be right."""
    place = f"cloth {cloth.id!r}"
    _within(place, "width", cloth.width, 1, LARGEST_MM)
    for side in cloth.selvedge:
        _within(place, "selvedge", side, 0, cloth.width)
    if cloth.usable[1] - cloth.usable[0] < 1:
        raise BadInput("the selvedges leave no usable width", place, "their sum must be less than the width")
    if cloth.length is not None:
        _within(place, "length", cloth.length, 1, LARGEST_MM)
    _within(place, "skew_mm_per_m", cloth.skew_mm_per_m, -300, 300)
    _within(place, "grain_tolerance_deg", cloth.grain_tolerance_deg, 0, 45)
    _within(place, "shrinkage_percent", cloth.shrinkage_percent, 0, 50)
    if cloth.ease_percent is not None:
        _within(place, "ease_percent", cloth.ease_percent, 0, 20)
    if cloth.price_per_m is not None:
        _within(place, "price_per_m", cloth.price_per_m, 0, 1e6)
    _within(place, "spare_mm", cloth.spare_mm, 0, 100)
    for index, flaw in enumerate(cloth.flaws):
        _check_flaw(place, f"flaw {index + 1}", flaw)
    if cloth.remnant is not None:
        _check_spot(f"{place}, remnant", "outline", cloth.remnant.outline)
        for index, hole in enumerate(cloth.remnant.holes):
            _check_spot(f"{place}, remnant", f"hole {index + 1}", hole)
        if min(v for _, v in cloth.remnant.outline) < 0:
            raise BadInput("its outline starts before v = 0", f"{place}, remnant", "v is measured from the cut end")
    _within(place, "weft_skew_percent", cloth.weft_skew_percent, -30, 30)
    _within(place, "bow_percent", cloth.bow_percent, -30, 30)
    if cloth.repeat is not None:
        _check_repeat(f"{place}, repeat", cloth.repeat)
    if cloth.crosswise is not None:
        _check_repeat(f"{place}, crosswise", cloth.crosswise)


def _check_flaw(place: str, what: str, flaw: tuple[float | tuple[float, float], ...]) -> None:
    right = "[u, v, u, v] of two opposite corners, smaller first, or three and more points [u, v]"
    points = [part for part in flaw if isinstance(part, tuple)]
    if is_box(flaw):
        for value in flaw:
            _within(place, what, value, -LARGEST_MM, LARGEST_MM)
        if flaw[0] >= flaw[2] or flaw[1] >= flaw[3]:
            raise BadInput(f"{what} has no area", place, right)
    elif len(points) < len(flaw) or len(points) < 3:
        raise BadInput(f"{what} is neither two corners nor an outline", place, right)
    else:
        _check_spot(place, what, points)


def _check_spot(place: str, what: str, points: Sequence[tuple[float, float]]) -> None:
    """An outline on the cloth: three corners and more, within bounds, that does not cross itself."""
    for value in (value for point in points for value in point):
        _within(place, what, value, -LARGEST_MM, LARGEST_MM)
    _check_simple(place, what, np.array(points).reshape(-1, 2))


def _check_repeat(place: str, repeat: Repeat) -> None:
    _within(place, "width", repeat.width, SMALLEST_REPEAT_MM, LARGEST_MM)
    _within(place, "origin", repeat.origin, -LARGEST_MM, LARGEST_MM)
    _colour(place, "ground", repeat.ground)
    _filled(f"{place}, stripes", repeat.stripes, "a repeat has at least one stripe; a plain cloth has no repeat")
    for stripe in repeat.stripes:
        where = f"{place}, stripe {stripe.name!r}"
        if not 0 <= stripe.at < repeat.width:
            raise BadInput(
                f"at is {stripe.at:g}", where, f"its centre lies within the repeat: 0 to below {repeat.width:g}"
            )
        if not 0 < stripe.width <= repeat.width:
            raise BadInput(f"width is {stripe.width:g}", where, f"above 0 and up to {repeat.width:g} is right")
        _colour(where, "colour", stripe.colour)
    names = [stripe.name for stripe in repeat.stripes]
    if repeat.lead is not None and repeat.lead not in names:
        raise BadInput(f"lead is {repeat.lead!r}", place, f"one of its stripes is right: {', '.join(names)}")


def _check_piece(project: Project, piece: Piece) -> None:
    place = f"piece {piece.id!r}"
    _check_name(place, "id", piece.id)
    if piece.cloth not in {cloth.id for cloth in project.cloths}:
        ids = ", ".join(cloth.id for cloth in project.cloths)
        raise BadInput(f"its cloth {piece.cloth!r} is not there", place, f"the cloths are {ids}")
    _check_shape(piece)


@lru_cache(maxsize=1024)
def _check_shape(piece: Piece) -> None:
    """Check edges, outline, fold and notches. Few of many pieces change: what was sound once is not looked at again."""
    place = f"piece {piece.id!r}"
    if len(piece.edges) < 2:
        raise BadInput("it has fewer than two edges", place, "a closed outline needs at least two")
    _unique(f"{place}, edges", [edge.name for edge in piece.edges])
    for edge in piece.edges:
        if "/" in edge.name:
            raise BadInput("its name has a / in it", f"{place}, edge {edge.name!r}", "/ parts panel and edge")
        _within(f"{place}, edge {edge.name!r}", "allowance", edge.allowance, 0, 1000)
    lines = drawn_edges(piece)
    for edge in piece.edges:
        _check_before_shift(f"{place}, edge {edge.name!r}", edge)
    _check_outline(piece, place, lines)
    _check_fold(piece, place, lines)
    _check_notches(piece, place, lines)
    _check_both_lines(piece, place)


def _check_before_shift(place: str, edge: Edge) -> None:
    """The line as it was before a shift is a path, and lies within reach of the line as it is."""
    if edge.before_shift is None:
        return
    try:
        old, new = flatten(edge.before_shift), flatten(edge.path)
    except BadInput as error:
        raise BadInput(error.what, f"{place}, before_shift", error.right) from None
    apart = float(np.hypot(*(old[[0, -1]] - new[[0, -1]]).T).max())
    if apart > FARTHEST_SHIFT_MM:
        right = f"the path before the line was shifted, within {FARTHEST_SHIFT_MM:g} mm of it, or no such key"
        raise BadInput(f"before_shift ends {apart:.0f} mm off the path", place, right)


def _check_outline(piece: Piece, place: str, lines: list[Points]) -> None:
    for edge, after in zip(piece.edges, piece.edges[1:] + piece.edges[:1], strict=True):
        end, start = flatten(edge.path)[-1], flatten(after.path)[0]
        gap = float(np.hypot(*(end - start)))
        if gap > CORNER_GAP_MM:
            raise BadInput(
                f"the outline is open: {edge.name!r} ends at {_point(end)}, {after.name!r} starts at {_point(start)}",
                place,
                "each edge starts where the one before it ends",
            )
    _check_simple(place, "outline", ring_of(lines))
    if signed_area(ring_of(lines)) < 0:
        raise BadInput("the edges go round anticlockwise", place, "clockwise as you look at it is right")


def _check_simple(place: str, what: str, ring: Points) -> None:
    if len(ring) < 3:
        raise BadInput(f"its {what} encloses nothing", place, "a closed outline is right")
    shape = Polygon(ring)
    if not shape.is_valid:
        raise BadInput(
            f"its {what} crosses itself ({explain_validity(shape)})", place, "edges that don't cross are right"
        )
    if shape.area < 1:
        raise BadInput(f"its {what} encloses {shape.area:.3g} mm2", place, "at least 1 mm2 is right")


def _check_fold(piece: Piece, place: str, lines: list[Points]) -> None:
    if piece.cut != "fold":
        if piece.fold is not None:
            raise BadInput(f"it names a fold but is cut {piece.cut}", place, '"cut": "fold" is right')
        return
    names = [edge.name for edge in piece.edges]
    if piece.fold not in names:
        raise BadInput(f"its fold is {piece.fold!r}", place, f"one of its edges is right: {', '.join(names)}")
    line = lines[names.index(piece.fold)]
    if length(line) - math.dist(line[0], line[-1]) > CORNER_GAP_MM:
        raise BadInput("its fold is curved", place, "a straight centre edge is right")
    if len(names) < 3:
        raise BadInput("it has too few edges beside the fold", place, "at least two are right")


def _check_notches(piece: Piece, place: str, lines: list[Points]) -> None:
    lengths = {edge.name: length(line) for edge, line in zip(piece.edges, lines, strict=True)}
    for notch in piece.notches:
        if notch.edge not in lengths:
            raise BadInput(f"a notch on edge {notch.edge!r}", place, f"its edges are {', '.join(lengths)}")
        _within(f"{place}, notch on {notch.edge!r}", "at", notch.at, 0, lengths[notch.edge])


def _check_both_lines(piece: Piece, place: str) -> None:
    other = "cutting line" if piece.outline_is == "net" else "stitching line"
    for panel in panels_of(piece):
        for what, ring in (("stitching line", panel.net_ring), ("cutting line", panel.cut_ring)):
            wrong = f"{what} (allowances taken {'on' if what == 'cutting line' else 'off'})" if what == other else what
            _check_simple(place, wrong, ring)
            if signed_area(ring) < 0:
                raise BadInput(
                    f"an allowance is wider than the piece: its {what} turns inside out", place, "smaller ones"
                )


def _check_seams(project: Project) -> None:
    edges = {f"{panel}/{edge}" for piece in project.pieces for panel in piece.panel_names for edge in piece.edge_names}
    _check_weights(project)
    for seam in project.seams:
        place = f"seam {seam.name!r}"
        for what in ("seen", "open"):
            _check_stretch(place, what, getattr(seam, what))
    for sewn in project.sewn:
        for which, ref in (("a", sewn.a), ("b", sewn.b)):
            if ref not in edges:
                raise BadInput(f"{which} is {ref!r}", f"seam {sewn.label!r}", _edge_hint(project, ref))
        if sewn.a == sewn.b:
            raise BadInput(
                f"edge {sewn.a!r} is sewn to itself", f"seam {sewn.label!r}", "two different edges are right"
            )
    _check_doubles(project.sewn)


def _check_weights(project: Project) -> None:
    for seam in project.seams:
        if not 0 <= seam.weight <= 1e6:
            raise BadInput(f"weight is {seam.weight:g}", f"seam {seam.name!r}", "0 to 1000000 is right")


def _check_stretch(place: str, what: str, stretch: tuple[float, float] | None) -> None:
    if stretch is not None and not 0 <= stretch[0] < stretch[1] <= LARGEST_MM:
        raise BadInput(f"{what} is {list(stretch)}", place, "[from, to] in mm down the seam, from below to, is right")


def _check_doubles(sewn: tuple[SewnSeam, ...]) -> None:
    known: dict[frozenset[str], str] = {}
    for seam in sewn:
        pair = frozenset((seam.a, seam.b))
        if pair in known:
            raise BadInput(
                f"it sews the same two edges as {known[pair]!r}",
                f"seam {seam.label!r}",
                "a seam that is its own mirror image has no both_sides",
            )
        known[pair] = seam.label


def _edge_hint(project: Project, ref: str) -> str:
    for piece in project.pieces:
        if panel_of(ref) in piece.panel_names:
            return f"no edge {edge_of(ref)!r} there; the edges are {', '.join(piece.edge_names)}"
    return f"panel/edge is right; the panels are {', '.join(project.panel_names)}"


def _check_rest(project: Project) -> None:
    cloths = {cloth.id for cloth in project.cloths}
    _check_places(project)
    for name in project.done:
        _check_panel(project, f"done, {name!r}", name)
    for height in project.heights or ():
        _within("heights", "a height", height, 0, LARGEST_MM)
    _check_centre(project)
    _check_derived(project, cloths)


def _check_places(project: Project) -> None:
    for name, at in project.placements.items():
        place = f"placement {name!r}"
        _check_panel(project, place, name)
        for what in ("u", "v"):
            _within(place, what, getattr(at, what), -LARGEST_MM, LARGEST_MM)
        _within(place, "turn_deg", at.turn_deg, -360, 360)


def _check_panel(project: Project, place: str, name: str) -> None:
    names = (*project.panel_names, *project.derived_panel_names)
    if name not in names:
        raise BadInput("there is no such panel", place, f"the panels are {', '.join(names)}")


def _check_centre(project: Project) -> None:
    centre = project.match.centre
    _within("match", "crosswise_weight", project.match.crosswise_weight, 0, 1e6)
    if centre.seam is not None and centre.panel is not None:
        raise BadInput("it names a seam and a panel", "match, centre", "one of the two is right")
    if centre.seam is not None and centre.seam not in {seam.name for seam in project.seams}:
        raise BadInput(f"there is no seam {centre.seam!r}", "match, centre", "the name of a seam is right")
    if centre.panel is not None and centre.panel not in project.panel_names:
        names = ", ".join(project.panel_names)
        raise BadInput(f"there is no panel {centre.panel!r}", "match, centre", f"the panels are {names}")


def _check_derived(project: Project, cloths: set[str]) -> None:
    for index, layer in enumerate(project.layers):
        _check_layer(project, f"layer {index + 1} ({layer.title})", layer, cloths)
    _unique("strips and pockets", [*(strip.id for strip in project.strips), *(pocket.id for pocket in project.pockets)])
    for piece in project.pieces:
        if piece.on is not None:
            _check_on(project, f"piece {piece.id!r}, on", piece.on, piece)
    for pocket in project.pockets:
        _check_pocket(project, f"pocket {pocket.id!r}", pocket, cloths)
    for strip in project.strips:
        place = f"strip {strip.id!r}"
        _check_cloth_of(place, strip.cloth, cloths)
        _check_name(place, "id", strip.id)
        _within(place, "length", strip.length, 1, LARGEST_MM)
        _within(place, "width", strip.width, 1, LARGEST_MM)
        _within(place, "number", strip.number, 1, 10_000)
        _within(place, "allowance", strip.allowance, 0, 1000)
        if strip.on is not None and strip.grain == "bias":
            raise BadInput(
                "it is on the bias and lies on a panel", f"{place}, on", "straight grain, turned by 45 degrees"
            )
        if strip.on is not None:
            _check_on(project, f"{place}, on", strip.on)


def _check_pocket(project: Project, place: str, pocket: Pocket, cloths: set[str]) -> None:
    _check_cloth_of(place, pocket.cloth, cloths)
    _check_name(place, "id", pocket.id)
    if pocket.seam not in {seam.name for seam in project.seams}:
        names = ", ".join(seam.name for seam in project.seams) or "none"
        raise BadInput(f"there is no seam {pocket.seam!r}", place, f"the seams are {names}")
    _check_stretch(place, "opening", pocket.opening)
    _within(place, "width", pocket.width, 1, LARGEST_MM)
    _within(place, "depth", pocket.depth, 1, LARGEST_MM)
    _within(place, "allowance", pocket.allowance, 0, 1000)
    if pocket.number is not None and (not 2 <= pocket.number <= 1000 or pocket.number % 2):
        raise BadInput(f"number is {pocket.number}", place, "an even number from 2 on: half of the bags are mirrored")


def _check_on(project: Project, place: str, on: On, piece: Piece | None = None) -> None:
    """What lies on a panel lies on one of a drawn piece that lies on none itself; a pair on both panels of a pair."""
    under = {name: other for other in project.pieces for name in other.panel_names if other is not piece}
    if on.panel not in under:
        raise BadInput(f"there is no panel {on.panel!r} to lie on", place, f"the panels are {', '.join(under)}")
    if under[on.panel].on is not None:
        raise BadInput(f"panel {on.panel!r} lies on another itself", place, "a panel that lies on none")
    if piece is not None and piece.cut == "pair" and under[on.panel].cut != "pair":
        raise BadInput(f"it is a pair and panel {on.panel!r} is not", place, "a panel of a pair, or a single piece")
    for value in on.at:
        _within(place, "at", value, -LARGEST_MM, LARGEST_MM)
    _within(place, "turn_deg", on.turn_deg, -360, 360)


def _check_layer(project: Project, place: str, layer: Layer, cloths: set[str]) -> None:
    pieces = {piece.id: piece for piece in project.pieces}
    _check_cloth_of(place, layer.cloth, cloths)
    _check_name(place, "name", layer.title)
    for name in layer.of:
        if name not in pieces:
            raise BadInput(f"there is no piece {name!r}", place, f"the pieces are {', '.join(pieces)}")
        if layer.edge is not None and layer.edge not in {edge.name for edge in pieces[name].edges}:
            raise BadInput(f"piece {name!r} has no edge {layer.edge!r}", place, "an edge of every piece named")
        if layer.edge is not None and layer.edge == pieces[name].fold:
            raise BadInput(f"edge {layer.edge!r} of piece {name!r} is its fold", place, "an edge that is cut")
    if layer.kind != "interlining" and (layer.edge is None or layer.depth is None):
        raise BadInput("it has no edge or no depth", place, "a facing or lining follows an edge to a depth")
    if layer.joined and layer.kind == "interlining":
        raise BadInput("it is joined but follows no edge", place, "a facing or lining can be joined")
    if layer.depth is not None:
        _within(place, "depth", layer.depth, 1, LARGEST_MM)
    for allowance in (layer.inner_allowance, layer.allowance or 0.0):
        _within(place, "allowance", allowance, 0, 1000)


def _check_cloth_of(place: str, cloth: str, cloths: set[str]) -> None:
    if cloth not in cloths:
        raise BadInput(f"its cloth {cloth!r} is not there", place, f"the cloths are {', '.join(sorted(cloths))}")


def _check_name(place: str, what: str, name: str) -> None:
    if "/" in name or name.endswith((".R", ".L")):
        raise BadInput(f"its {what} has a / in it or ends in .R or .L", place, "those mark edges and sides")


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
                    f"its cutting line is {wide:.1f} mm wide, the usable width of {cloth.title!r} is {room:.1f} mm",
                    f"panel {panel.name!r}",
                    "a narrower piece, a seam across it, or a wider cloth",
                )


def _width_across(ring: Points, turn: float) -> float:
    across = ring[:, 0] * math.cos(turn) - ring[:, 1] * math.sin(turn)
    return float(across.max() - across.min())


def _point(point: Points) -> str:
    return f"({point[0]:g}, {point[1]:g})"
