"""Walking the seams: what is odd about a pattern whose file is in order. Every finding says what would put it right."""

from collections import Counter
from dataclasses import dataclass

from core.model.project import Placement, Project
from core.seams.garment import Garment, SeamLine
from core.seams.readings import SeamReading

LENGTHS_AGREE_MM = 0.5
"""Two edges whose lengths differ by no more than this are of one length."""


@dataclass(frozen=True)
class Finding:
    """Something to look at: where, what, and what would put it right."""

    place: str
    what: str
    right: str

    def __str__(self) -> str:
        return f"{self.place}: {self.what}; {self.right}"


def walk(project: Project, garment: Garment) -> tuple[Finding, ...]:
    """All findings about the seams of a validated project, in the order of the seams."""
    found = [finding for line in garment.seams for finding in _about(project, line)]
    return (*found, *_sewn_twice(garment))


def _about(project: Project, line: SeamLine) -> list[Finding]:
    place = f"seam {line.sewn.label!r}"
    return [
        Finding(place, what, right)
        for what, right in (*_lengths(line), *_direction(line), *_stretches(line), *_stripes(project, line))
    ]


def _lengths(line: SeamLine) -> list[tuple[str, str]]:
    a, b = line.edge_lengths
    if abs(a - b) <= LENGTHS_AGREE_MM:
        return []
    longer, by = (line.sewn.a, a - b) if a > b else (line.sewn.b, b - a)
    how = {
        "spread": f"it is eased in evenly ({100 * by / min(a, b):.1f} %), or true the edges",
        "top": "held at the top, it overhangs at the bottom",
        "bottom": "held at the bottom, it overhangs at the top",
    }[line.sewn.seam.join]
    return [(f"{longer} is {by:.1f} mm longer ({a:.1f} and {b:.1f} mm)", how)]


def _direction(line: SeamLine) -> list[tuple[str, str]]:
    if line.a[-1, 1] >= line.a[0, 1] or line.b[-1, 1] >= line.b[0, 1]:
        return []
    return [("both edges run upwards from its upper end", "a is the panel on the left seen from outside: exchange a and b")]


def _stretches(line: SeamLine) -> list[tuple[str, str]]:
    found = []
    for what, stretch in (("seen", line.sewn.seam.seen), ("open", line.sewn.seam.open)):
        if stretch is not None and stretch[1] > line.length + 0.1:
            found.append((f"{what} goes to {stretch[1]:g} mm", f"the seam ends at {line.length:.1f} mm"))
    if not line.counted_parts.any():
        found.append(("no part of it counts", "leave a stretch that is seen and sewn"))
    return found


def _stripes(project: Project, line: SeamLine) -> list[tuple[str, str]]:
    if line.cloth is None or line.cloth.repeat is None:
        striped = [project.cloth_of(panel).repeat is not None for panel in line.panels]
        return [("its panels are of two cloths", "its stripes can't be matched")] if any(striped) else []
    reading = SeamReading.of(line, Placement(), Placement())
    if reading is None:
        return []
    leans, reach = sorted(abs(lean) for lean in reading.leans_deg), line.cloth.grain_tolerance_deg
    if leans[0] <= reach + 1e-9 and leans[1] > 2 * reach + 0.5:
        straight = line.panels[0] if abs(reading.leans_deg[0]) < abs(reading.leans_deg[1]) else line.panels[1]
        what = f"the edge of {straight} runs along the stripes, the other leans {leans[1]:.2f} degrees"
        return [(what, "stripes cross one side only and no placement can make a chevron; lay the grain in mid-gore")]
    return []


def _sewn_twice(garment: Garment) -> list[Finding]:
    uses = Counter(ref for line in garment.seams for ref in (line.sewn.a, line.sewn.b))
    return [
        Finding(f"edge {ref!r}", f"it stands in {count} seams", "an edge is sewn once")
        for ref, count in uses.items()
        if count > 1
    ]
