"""Changes of a project that may let its seams match better: limits, holds and demands eased, pieces drawn otherwise."""

import functools
import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Literal

import msgspec
import numpy as np

from core.errors import BadInput
from core.geometry.beziers import path_data, transformed
from core.geometry.paths import Points, flatten, segments_of
from core.geometry.polyline import length
from core.matching.problem import mirrors_pairs
from core.matching.reasons import mean_slope
from core.model.cloth import Cloth
from core.model.panel import panels_of
from core.model.pattern import EdgeRef, PanelName, Piece, edge_of, panel_of
from core.model.project import Centre, Project
from core.model.validate import validate
from core.seams.edge_ends import EdgeEnd, edge_end, with_longer_edge, with_moved_end, with_piece
from core.seams.garment import Garment, SeamLine
from core.seams.readings import read_seam
from core.units import MM, Units
from core.wording import tr

Kind = Literal["match", "tolerance", "hold", "centre", "mirror pairs", "grain", "flare", "weights"]

Words = tuple[str, str]
"""What a change is, and what else it does."""

TRADE_MM = 3.0
"""By so much lesser pieces may lie off the grain over their length (Vilumsone-Nemes 2018, p. 216)."""

LEAST_TILT_DEG, LEAST_DRIFT_MM = 0.05, 0.2
"""Grain within this of a piece's middle, and leans that drift apart by less down a seam, are let be."""

STEEPEST_DEG = 60.0
"""An edge that leans more than this is a waist or a hem."""


@dataclass(frozen=True, eq=False)
class Proposal:
    """One change, as the project that has it, its panels where they were; `caution` says what else it does.

    `panel` is the panel that a hold is taken off.
    """

    kind: Kind
    what: str
    project: Project
    caution: str = ""
    panel: PanelName | None = None
    told: "Callable[[Units], Words] | None" = None
    """`what` and `caution` in other units, where they tell lengths."""

    def words(self, units: Units) -> "Words":
        """`what` and `caution` as they are shown."""
        return self.told(units) if self.told else (self.what, self.caution)


def proposals(project: Project, garment: Garment) -> tuple[Proposal, ...]:
    """All changes worth trying of a matched project; those that leave a piece without a sound outline are left out."""
    cloths = [cloth for cloth in project.cloths if any(_is_on(line, cloth) for line in garment.seams)]
    found = [proposal for cloth in cloths for proposal in _limits(project, garment, cloth)]
    found += [*_holds(project), *_demands(project, cloths)]
    found += [*_grains(project, garment), *_flares(project, garment), *_weights(project)]
    return tuple(proposal for proposal in found if _sound(proposal.project))


def _is_on(line: SeamLine, cloth: Cloth) -> bool:
    return line.cloth is not None and line.cloth.id == cloth.id


def _sound(project: Project) -> bool:
    try:
        validate(project)
    except BadInput:
        return False
    return True


# --- limits, holds, demands, weights


def longest_panel_mm(project: Project, garment: Garment, cloth: Cloth) -> float:
    """Length along the grain of the longest panel cut from a cloth, mm."""
    rings = [panel.net_ring for panel in garment.panels.values() if panel.piece.cloth == cloth.id]
    return max((float(np.ptp(ring[:, 1])) for ring in rings), default=0.0)


def _limits(project: Project, garment: Garment, cloth: Cloth) -> Iterator[Proposal]:
    now, long = cloth.grain_tolerance_deg, longest_panel_mm(project, garment, cloth)
    trade = round(math.degrees(math.atan2(TRADE_MM, long)), 3)
    tried: list[float] = []
    for limit in (now / 2, 2 * now, trade):
        limit = round(limit, 4)
        if not 0 < limit <= 45 or any(abs(limit - other) < 0.04 * other for other in (now, *tried)):
            continue
        tried.append(limit)
        what = tr("{title}: turns up to {limit:g}° instead of {now:g}°", title=cloth.title, limit=limit, now=now)
        caution = functools.partial(_off_grain, limit, trade, long)
        yield _telling("tolerance", _with_limit(project, cloth, limit), what, caution)


def _with_limit(project: Project, cloth: Cloth, limit: float) -> Project:
    changed = msgspec.structs.replace(cloth, grain_tolerance_deg=limit)
    cloths = tuple(changed if one.id == cloth.id else one for one in project.cloths)
    return msgspec.structs.replace(project, cloths=cloths)


def _telling(kind: Kind, project: Project, what: str, caution: Callable[[Units], str]) -> Proposal:
    """A change whose caution tells lengths."""
    return Proposal(kind, what, project, caution(MM), told=lambda units: (what, caution(units)))


def _off_grain(limit: float, trade: float, long: float, units: Units) -> str:
    off = tr(
        "{off} off the grain over {length}",
        off=units.say(long * math.tan(math.radians(limit))),
        length=units.say_whole(long),
    )
    if limit <= trade * 1.001:
        return tr("{off}; main pieces are best left on it", off=off)
    trade_says = tr(
        "the trade allows {trade_mm} for lesser pieces, none for main ones", trade_mm=units.say_whole(TRADE_MM)
    )
    return tr("{off}; {trade_says}, and more may hang askew", off=off, trade_says=trade_says)


def _holds(project: Project) -> Iterator[Proposal]:
    held = [name for name in project.panel_names if project.placement(name).hold and name not in project.done]
    for name in held:
        what = tr("{name} let go", name=name)
        yield Proposal("hold", what, _let_go(project, [name]), tr("only if it is not cut or pinned down yet"), name)
    if len(held) > 1:
        yield Proposal("hold", tr("all held panels let go"), _let_go(project, held), tr("only if none is cut yet"))


def _let_go(project: Project, panels: list[PanelName]) -> Project:
    return project.placed({name: msgspec.structs.replace(project.placement(name), hold=False) for name in panels})


def _demands(project: Project, cloths: list[Cloth]) -> Iterator[Proposal]:
    match, centre = project.match, project.match.centre
    if centre.on != "free":
        freed = msgspec.structs.replace(match, centre=Centre(on="free", seam=centre.seam, panel=centre.panel))
        what = tr("any part of the repeat on the centre of {name}", name=centre.seam or centre.panel)
        lead, ground = tr("the lead stripe is no longer centred there"), tr("the ground is no longer centred there")
        caution = lead if centre.on == "lead" else ground
        yield Proposal("centre", what, msgspec.structs.replace(project, match=freed), caution)
    pairs = {piece.cloth for piece in project.pieces if piece.cut == "pair"}
    if any(cloth.id in pairs and mirrors_pairs(project, cloth) for cloth in cloths):
        apart = msgspec.structs.replace(match, mirror_pairs=False)
        what = tr("left and right panels each for itself, not mirrored")
        caution = tr("the two halves of the garment then show their stripes at different places")
        yield Proposal("mirror pairs", what, msgspec.structs.replace(project, match=apart), caution)


def _weights(project: Project) -> Iterator[Proposal]:
    if len({seam.weight for seam in project.seams}) > 1:
        alike = tuple(msgspec.structs.replace(seam, weight=1.0) for seam in project.seams)
        caution = tr("the figure is then that of seams which all count alike; seams that show more get no preference")
        yield Proposal("weights", tr("all seams weigh alike"), msgspec.structs.replace(project, seams=alike), caution)


# --- pieces drawn otherwise


def _uncut(project: Project, piece: Piece) -> bool:
    return not set(piece.panel_names) & set(project.done)


def _grains(project: Project, garment: Garment) -> Iterator[Proposal]:
    for piece in project.pieces:
        bears = any(one.on is not None and one.on.panel in piece.panel_names for one in project.pieces)
        tilt = None if piece.cut == "fold" or bears else _tilt_deg(garment, piece)
        if tilt is None or abs(tilt) < LEAST_TILT_DEG or not _uncut(project, piece):
            continue
        what = tr("{title}: the grain in its middle, turned by {tilt:.2f}°", title=piece.title, tilt=abs(tilt))
        caution = tr(
            "both edges then lean alike much; the piece hangs on another grain and takes other room on the cloth"
        )
        yield Proposal("grain", what, with_piece(project, _turned_piece(piece, tilt)), caution)


def _tilt_deg(garment: Garment, piece: Piece) -> float | None:
    """How far the middle between a piece's two sewn sides leans off its grain, degrees; None unless it has two."""
    leans: dict[str, float] = {}
    for line in garment.seams:
        for name, ref, edge in zip(line.panels, (line.sewn.a, line.sewn.b), (line.a, line.b), strict=True):
            if line.cloth is not None and name in piece.panel_names:
                x, y = edge[-1] - edge[0]
                leans[edge_of(ref)] = math.degrees(math.atan2(-x if garment.panels[name].mirrored else x, y))
    steep = [lean for lean in leans.values() if abs(lean) < STEEPEST_DEG]
    return sum(steep) / 2 if len(steep) == 2 else None


def _turned_piece(piece: Piece, by_deg: float) -> Piece:
    """The piece turned clockwise in its own frame about the middle of its stitching line."""
    panel = next(panel for panel in panels_of(piece) if not panel.mirrored)
    cos, sin = math.cos(math.radians(by_deg)), math.sin(math.radians(by_deg))
    turn = np.array([[cos, -sin], [sin, cos]])
    matrix = np.column_stack([turn, panel.middle - turn @ panel.middle])

    def turned(path: str) -> str:
        return path_data(transformed(segments_of(path), matrix))

    edges = tuple(
        msgspec.structs.replace(
            edge, path=turned(edge.path), before_shift=edge.before_shift and turned(edge.before_shift)
        )
        for edge in piece.edges
    )
    return msgspec.structs.replace(piece, edges=edges)


def _flares(project: Project, garment: Garment) -> Iterator[Proposal]:
    seen: set[str] = set()
    for line in garment.seams:
        pieces = [project.piece_of(name) for name in line.panels]
        known = line.sewn.seam.name in seen or pieces[0] is pieces[1]
        if known or line.cloth is None or not all(_uncut(project, piece) for piece in pieces):
            continue
        seen.add(line.sewn.seam.name)
        drift = _drift(project, line)
        turned = {project.placement(name).turned for name in line.panels}
        if drift is not None and abs(drift) >= LEAST_DRIFT_MM and len(turned) == 1:
            yield _shared_flare(project, line, drift / 2 if turned.pop() else -drift / 2)


def _drift(project: Project, line: SeamLine) -> float | None:
    """By how much the step drifts down a seam in the mean, mm; None unless the edges lean opposite ways."""
    reading = read_seam(project, line)
    if reading is None or reading.lean != "opposite" or reading.mean_square is None:
        return None
    return mean_slope(reading) * line.length


def _shared_flare(project: Project, line: SeamLine, out: float) -> Proposal:
    """The seam's lower end moved by `out` mm from a's panel outwards, b's edge going in by as much."""
    sewn = line.sewn
    changed = _moved_below(_moved_below(project, sewn.a, True, out), sewn.b, False, out)
    takes = project.piece_of(panel_of(sewn.a if out > 0 else sewn.b)).title
    caution = tr(
        "the girth stays at every height and the edges keep their lengths; look at the hem's run before cutting"
    )

    def told(units: Units) -> Words:
        return tr(
            "{name}: {out} of flare given to {takes}", name=sewn.seam.name, out=units.say(abs(out)), takes=takes
        ), caution

    return Proposal("flare", told(MM)[0], changed, caution, told=told)


def _moved_below(project: Project, ref: EdgeRef, is_a: bool, right: float) -> Project:
    """The lower end of an edge moved to the right as worn, mm; the edge's length stays."""
    end = edge_end(project, ref, is_a, "lower")
    drawn_as_worn = edge_end(project, ref, True, "upper").at_start
    way = right if drawn_as_worn else -right
    line = _drawn(project, end)
    x, y = line[-1] - line[0] if not end.at_start else line[0] - line[-1]
    rise = math.copysign(math.sqrt(max(x * x + y * y - (x + way) ** 2, 0.0)), y) - y
    moved = with_moved_end(project, end, np.array([way, rise]))
    return with_longer_edge(moved, end, length(line) - length(_drawn(moved, end)))


def _drawn(project: Project, end: EdgeEnd) -> Points:
    """A drawn edge as a polyline."""
    edges = next(piece.edges for piece in project.pieces if piece.id == end.piece)
    return flatten(next(edge.path for edge in edges if edge.name == end.edge))
