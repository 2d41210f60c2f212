"""The numbers of the papers, computed once: cards, tables and tests all read them from here.

Lengths are mm, angles degrees. Left and right are those of the cloth as it lies face up with its cut end at the top;
an offset to a stripe is measured straight across the cloth and is positive to the right of the stripe.
"""

import math
from dataclasses import dataclass
from functools import cached_property
from typing import Literal

import numpy as np
from shapely.geometry import LineString

from core.geometry.paths import LARGEST_MM, Points
from core.geometry.polyline import Floats, lengths_along, points_at, signed_area
from core.geometry.transform import placed, rotation
from core.model.cloth import WAYS, Cloth, Repeat
from core.model.panel import NotchMark, Panel, lines_before_shift
from core.model.pattern import PanelName, edge_of, panel_of
from core.model.project import Placement, Project
from core.seams.bands import straight_for_mm
from core.seams.garment import SeamLine
from core.seams.levels import Level, levels_of
from core.seams.patch import Patch, patches
from core.seams.readings import Measurement, SeamReading
from core.seams.stripes import Across, crossing_heights, lead_centres_between
from core.wording import listed, tr

GRADES_MM = (2.0, 3.0)
"""Up to the first a step is good, up to the second fair, beyond it poor."""


def grade_of(step_mm: float) -> Literal["good", "fair", "poor"]:
    """How much a step of this size is likely to show."""
    size = abs(step_mm)
    return "good" if size <= GRADES_MM[0] else "fair" if size <= GRADES_MM[1] else "poor"


@dataclass(frozen=True)
class GrainEnd:
    """One end of a panel's grain line.

    It lies on the stitching line of `edge`, `along_mm` from that edge's corner with `corner_with`, and on the cloth
    at (u, v). `off_lead_mm` is its offset to the nearest lead stripe's centre and `lead_mm` that centre's
    across-coordinate; both None where no lead stripe lies on the usable width.
    """

    edge: str
    corner_with: str
    along_mm: float
    edge_length_mm: float
    u_mm: float
    v_mm: float
    off_lead_mm: float | None
    lead_mm: float | None


@dataclass(frozen=True)
class EdgeMarks:
    """Where the centre lines of lead stripes and of lead bars meet a sewn edge.

    `meets_mm`, and `bars_mm` for bars, run along the stitching line from the edge's upper corner, which it shares with
    `corner_with`. `ref` is `panel/edge`, `partner` the edge it is sewn to in the seam `seam`; `downwards` says whether
    outline order leads away from the upper corner.
    """

    ref: str
    corner_with: str
    downwards: bool
    seam: str
    partner: str
    length_mm: float
    meets_mm: tuple[float, ...]
    bars_mm: tuple[float, ...] = ()

    @property
    def edge(self) -> str:
        """The edge's name."""
        return edge_of(self.ref)


@dataclass(frozen=True)
class Expected:
    """What a seam of the panel will show one way; the figures are None where nothing is matched.

    `seam` is its label, and that it is its bars where it is.
    """

    seam: str
    partner: str
    rms_mm: float | None
    worst_mm: float | None
    worst_at_mm: float | None


@dataclass(frozen=True, eq=False)
class PanelFigures:
    """Everything a placement card says. `number` counts the panels of all cloths in the order of the plan.

    `levels` says how far its waist and hem lie from bars, `patch` where it is sewn onto another panel whose stripes it
    continues, `carries` what is sewn onto it so.
    `paper` is how the paper piece lies: face up, face down, or as a half that is laid both ways about its fold.
    `lean_mm` is how far right of the grain line's top end its bottom end lies, straight across the cloth.
    """

    number: int
    panel: Panel
    cloth: Cloth
    at: Placement
    grain_top: GrainEnd
    grain_bottom: GrainEnd
    edges: tuple[EdgeMarks, ...]
    seams: tuple[Expected, ...]
    levels: tuple[Level, ...] = ()
    patch: Patch | None = None
    carries: tuple[Patch, ...] = ()

    @property
    def name(self) -> PanelName:
        """The panel's name in the project file."""
        return self.panel.name

    @property
    def side(self) -> Literal["right", "left"] | None:
        """Which of a pair it is, as worn."""
        if self.panel.piece.cut != "pair":
            return None
        return "right" if self.name.endswith(".R") else "left"

    @property
    def title(self) -> str:
        """The piece's name and the side."""
        return listed([self.panel.piece.title, *([tr(self.side)] if self.side else [])])

    @property
    def paper(self) -> Literal["up", "down", "half"]:
        """How the paper piece lies on the cloth."""
        if self.panel.piece.cut == "fold":
            return "half"
        return "down" if self.panel.mirrored else "up"

    @property
    def lean_mm(self) -> float:
        """The turn as a length: u of the grain line's bottom end less u of its top end."""
        return self.grain_bottom.u_mm - self.grain_top.u_mm

    @property
    def grain_length_mm(self) -> float:
        """Length of the grain line."""
        return math.hypot(self.lean_mm, self.grain_bottom.v_mm - self.grain_top.v_mm)

    def on_cloth(self, points: Points) -> Points:
        """Points of the panel's own frame brought to where it lies."""
        return placed(points, self.at.u, self.at.v, self.at.turn_deg, self.at.turned)

    @cached_property
    def net(self) -> dict[str, Points]:
        """The stitching line as it lies, edge by edge."""
        return {name: self.on_cloth(line) for name, line in self.panel.net.items()}

    @cached_property
    def net_ring(self) -> Points:
        """The closed stitching line as it lies; shape (n, 2)."""
        return self.on_cloth(self.panel.net_ring)

    @cached_property
    def cut_ring(self) -> Points:
        """The closed cutting line as it lies; shape (n, 2)."""
        return self.on_cloth(self.panel.cut_ring)

    @cached_property
    def lines_before(self) -> dict[str, Points]:
        """The edges whose lines were shifted as they were before, as they lie."""
        return {name: self.on_cloth(line) for name, line in lines_before_shift(self.panel).items()}

    @property
    def shifted_mm(self) -> float:
        """How far lines were shifted at most; 0 where none was."""
        now = self.panel.net if self.panel.piece.outline_is == "net" else self.panel.cut
        before = lines_before_shift(self.panel).items()
        return max((LineString(line).hausdorff_distance(LineString(now[name])) for name, line in before), default=0.0)

    @cached_property
    def patch_outlines(self) -> tuple[Points, ...]:
        """The stitching lines of what is sewn onto it, as they lie on it."""
        return tuple(self.on_cloth(patch.on_panel(patch.panel.net_ring)) for patch in self.carries)

    @cached_property
    def notches(self) -> tuple[NotchMark, ...]:
        """The notches as they lie."""
        turn = rotation(self.at.turn_deg, self.at.turned)
        return tuple(
            NotchMark(notch.edge, self.on_cloth(notch.point[None])[0], turn @ notch.out) for notch in self.panel.notches
        )

    def meeting_points(self, marks: EdgeMarks) -> Points:
        """Where the lead stripes of an edge's marks meet it on the cloth; shape (n, 2)."""
        return points_at(self.edge_line(marks), np.array(marks.meets_mm))

    def edge_line(self, marks: EdgeMarks) -> Points:
        """The stitching line of an edge from its upper corner on, as it lies; shape (n, 2)."""
        return self.on_cloth(_from_upper_corner(self.panel, marks.edge, marks.downwards))


@dataclass(frozen=True, eq=False)
class ClothFigures:
    """What the plan of one cloth says: the panels that lie on it, the length used and the share covered."""

    cloth: Cloth
    panels: tuple[PanelFigures, ...]

    @cached_property
    def length_mm(self) -> float:
        """From the cut end to the last cutting line."""
        return max(float(figures.cut_ring[:, 1].max()) for figures in self.panels)

    @cached_property
    def used_share(self) -> float:
        """Share of usable width times length used that lies within cutting lines."""
        left, right = self.cloth.usable
        covered = sum(signed_area(figures.panel.cut_ring) for figures in self.panels)
        return covered / ((right - left) * self.length_mm)


@dataclass(frozen=True, eq=False)
class Figures:
    """The numbers of all papers of a project in one placement."""

    project: Project
    measurement: Measurement
    cloths: tuple[ClothFigures, ...]

    @property
    def panels(self) -> tuple[PanelFigures, ...]:
        """All panels by number."""
        return tuple(panel for cloth in self.cloths for panel in cloth.panels)


def figures_of(project: Project, measurement: Measurement) -> Figures:
    """The numbers of the papers, for the placements in the project and their measurement."""
    cloths: list[ClothFigures] = []
    sewn_on = list(patches(project))
    first = 1
    for cloth in project.cloths:
        names = _in_order(project, measurement, cloth)
        panels = tuple(_panel_figures(project, measurement, name, first + i, sewn_on) for i, name in enumerate(names))
        first += len(panels)
        if panels:
            cloths.append(ClothFigures(cloth, panels))
    return Figures(project, measurement, tuple(cloths))


def _in_order(project: Project, measurement: Measurement, cloth: Cloth) -> list[PanelName]:
    """The panels of a cloth from the cut end on, those that begin level from left to right."""
    names = [name for name in project.panel_names if project.cloth_of(name).id == cloth.id]

    def start(name: PanelName) -> tuple[float, float]:
        at = project.placement(name)
        ring = placed(measurement.garment.panels[name].cut_ring, at.u, at.v, at.turn_deg, at.turned)
        return round(float(ring[:, 1].min())), float(ring[:, 0].min())

    return sorted(names, key=start)


def _panel_figures(
    project: Project, measurement: Measurement, name: PanelName, number: int, sewn_on: list[Patch]
) -> PanelFigures:
    panel, cloth, at = measurement.garment.panels[name], project.cloth_of(name), project.placement(name)
    top, bottom = _grain_ends(panel, cloth, at)
    lines = [line for line in measurement.garment.seams if name in line.panels]
    marks = {ref: (line, partner) for line in lines for ref, partner in _edges_of(line, name)}
    edges = tuple(_edge_marks(panel, cloth, at, ref, line, partner) for ref, (line, partner) in marks.items())
    ways = zip(measurement.garment.seams, measurement.seams, measurement.crosswise, strict=True)
    seams = tuple(
        _expected(line, reading, name)
        for line, *readings in ways
        if name in line.panels
        for reading in [one for one in readings if one] or readings[:1]
    )
    own = next((patch for patch in sewn_on if patch.name == name), None)
    carries = tuple(patch for patch in sewn_on if patch.under.name == name)
    levels = levels_of(panel, cloth, at)
    return PanelFigures(number, panel, cloth, at, top, bottom, edges, seams, levels, own, carries)


def _edges_of(line: SeamLine, name: PanelName) -> list[tuple[str, str]]:
    """The panel's edge in a seam and the other one; both ways round where it is sewn to itself."""
    both = [(line.sewn.a, line.sewn.b), (line.sewn.b, line.sewn.a)]
    return [(ref, partner) for ref, partner in both if panel_of(ref) == name]


def _expected(line: SeamLine, reading: SeamReading | None, name: PanelName) -> Expected:
    partner = _edges_of(line, name)[0][1]
    worst = reading.worst if reading else None
    rms = reading.rms_mm if reading else None
    label = reading.label if reading else line.sewn.label
    return Expected(label, partner, rms, worst[0] if worst else None, worst[1] if worst else None)


def _edge_marks(panel: Panel, cloth: Cloth, at: Placement, ref: str, line: SeamLine, partner: str) -> EdgeMarks:
    edge, downwards = edge_of(ref), ref == line.sewn.a
    points = _from_upper_corner(panel, edge, downwards)
    along = _stations(cloth, lengths_along(points))
    points = points_at(points, along)
    meets, bars = (_lead_meetings(cloth.repeat_of(way), along, Across.of(at, cloth, way)(points)) for way in WAYS)
    corner = _corners(panel, edge)[0 if downwards else 1]
    return EdgeMarks(ref, corner, downwards, line.sewn.label, partner, float(along[-1]), meets, bars)


def _stations(cloth: Cloth, along: Floats) -> Floats:
    """Distances along an edge between which stripes and bars are straight."""
    return np.union1d(along, np.arange(0.0, along[-1], straight_for_mm(cloth))) if cloth.bow_per_mm else along


def _lead_meetings(repeat: Repeat | None, along: Floats, w: Floats) -> tuple[float, ...]:
    if repeat is None:
        return ()
    kind = next(kind for kind in repeat.kinds if repeat.lead_stripe in kind)
    places = np.array([repeat.origin + stripe.at for stripe in kind])
    return tuple(crossing_heights(along, w, places, repeat.width)[0].tolist())


def _from_upper_corner(panel: Panel, edge: str, downwards: bool) -> Points:
    """An edge's stitching line from its upper corner on: a seam's a runs downwards in outline order, b upwards."""
    return panel.net[edge] if downwards else panel.net[edge][::-1]


def _corners(panel: Panel, edge: str) -> tuple[str, str]:
    """The edges that an edge meets at its start and at its end, in outline order."""
    names = list(panel.net)
    index = names.index(edge)
    return names[index - 1], names[(index + 1) % len(names)]


def _grain_ends(panel: Panel, cloth: Cloth, at: Placement) -> tuple[GrainEnd, GrainEnd]:
    """Where the upright line through the panel's middle meets the stitching line first and last."""
    x = float(panel.middle[0])
    found: list[tuple[float, str, float]] = []
    for edge, line in panel.net.items():
        along = lengths_along(line)
        hits, _ = crossing_heights(along, line[:, 0], np.array([x]), 4 * LARGEST_MM)
        found += [(float(np.interp(hit, along, line[:, 1])), edge, float(hit)) for hit in hits]
    top, bottom = min(found), max(found)
    return _grain_end(panel, cloth, at, *top[1:]), _grain_end(panel, cloth, at, *bottom[1:])


def _grain_end(panel: Panel, cloth: Cloth, at: Placement, edge: str, hit: float) -> GrainEnd:
    line = panel.net[edge]
    total = float(lengths_along(line)[-1])
    point = placed(points_at(line, np.array([hit])), at.u, at.v, at.turn_deg, at.turned)[0]
    from_start = line[0, 0] <= line[-1, 0]
    corner = _corners(panel, edge)[0 if from_start else 1]
    u, v = float(point[0]), float(point[1])
    lead = _nearest_lead(cloth, u, v)
    off = None if lead is None else u - cloth.skew * v - lead
    return GrainEnd(edge, corner, hit if from_start else total - hit, total, u, v, off, lead)


def _nearest_lead(cloth: Cloth, u: float, v: float) -> float | None:
    """Across-coordinate of the lead stripe's centre nearest to a point, of those on the usable width."""
    if cloth.repeat is None:
        return None
    left, right = cloth.usable
    centres = lead_centres_between(cloth.repeat, left - cloth.skew * v, right - cloth.skew * v)
    w = u - cloth.skew * v
    return float(centres[np.argmin(np.abs(centres - w))]) if len(centres) else None
