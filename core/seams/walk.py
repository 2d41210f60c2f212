"""Walking the seams: what is odd about a pattern whose file is in order. Every finding says what would put it right."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, replace

from core.model.project import Placement, Project
from core.seams.garment import Garment, SeamLine
from core.seams.notches import NotchPair, notch_pairs
from core.seams.readings import SeamReading
from core.seams.remedy import LENGTH_METHODS, Method, Remedy
from core.seams.runs_through import RunThrough, runs_through
from core.units import MM, Units
from core.wording import later, tr

LENGTHS_AGREE_MM = 0.5
"""Two edges whose lengths differ by no more than this are of one length."""

NOTCHES_MEET_MM = 1.0
"""Two notches no farther apart than this down the seam meet."""

SMOOTH_DEG, SMOOTH_MM = 5.0, 1.5
"""A line that juts by less, in degrees or off a ruler laid across the seam, runs through smoothly."""

MEANT_BEYOND_DEG = 45.0
"""A line that turns by more at a seam is taken for a corner that is meant: a scallop, a point."""


@dataclass(frozen=True)
class Finding:
    """Something to look at: where, what, and what would put it right; `remedies` can be carried out by themselves.

    `seam` is the name of the seam it is about, empty for other findings.
    """

    place: str
    what: str
    right: str
    seam: str = ""
    remedies: tuple[Remedy, ...] = ()

    def __str__(self) -> str:
        return f"{self.place}: {self.what}; {self.right}"


def walk(project: Project, garment: Garment, units: Units = MM) -> tuple[Finding, ...]:
    """All findings about the seams of a validated project, in the order of the seams.

    What stands for both sides is walked once.
    """
    met: set[str] = set()
    found: list[Finding] = []
    for line in garment.seams:
        if line.sewn.seam.name not in met:
            met.add(line.sewn.seam.name)
            found += _about(project, garment, line, units)
    return (*found, *_sewn_twice(garment))


def _about(project: Project, garment: Garment, line: SeamLine, units: Units) -> Iterator[Finding]:
    seam = line.sewn.seam
    place = tr("seam {name!r} on both sides" if seam.both_sides else "seam {name!r}", name=seam.name)
    yield from (
        replace(finding, place=place, seam=seam.name)
        for finding in (
            *_lengths(line, units),
            *_direction(line),
            *_stretches(line, units),
            *_notches(garment, line, units),
            *_runs(garment, line, units),
            *_stripes(project, line),
        )
    )


def _offer(line: SeamLine, *methods: Method) -> tuple[Remedy, ...]:
    return tuple(Remedy(line.sewn, method) for method in methods)


def _lengths(line: SeamLine, units: Units) -> list[Finding]:
    a, b = line.edge_lengths
    if abs(a - b) <= LENGTHS_AGREE_MM:
        return []
    longer, by = (line.sewn.a, a - b) if a > b else (line.sewn.b, b - a)
    how = {
        "spread": tr("it is eased in evenly ({by:.1f} %), or true the edges", by=100 * by / min(a, b)),
        "top": tr("held at the top, it overhangs at the bottom"),
        "bottom": tr("held at the bottom, it overhangs at the top"),
    }[line.sewn.seam.join]
    what = tr("{longer} is {by} longer ({a} and {b})", longer=longer, by=units.say(by), a=units.bare(a), b=units.say(b))
    return [Finding("", what, how, remedies=_offer(line, *LENGTH_METHODS))]


def _direction(line: SeamLine) -> list[Finding]:
    a_up, b_up = (side[-1, 1] < side[0, 1] for side in (line.a, line.b))
    if not a_up or not b_up:
        return []
    right = tr("a is the panel on the left seen from outside: exchange a and b")
    what = tr("both edges run upwards from its upper end")
    return [Finding("", what, right, remedies=_offer(line, "exchange left and right"))]


def _stretches(line: SeamLine, units: Units) -> list[Finding]:
    found = []
    seen, opened = later("seen goes to {end}"), later("open goes to {end}")
    for what, stretch in ((seen, line.sewn.seam.seen), (opened, line.sewn.seam.open)):
        if stretch is not None and stretch[1] > line.length + 0.1:
            said = tr(what, end=units.say(stretch[1])), tr("the seam ends at {end}", end=units.say(line.length))
            found.append(Finding("", *said, remedies=_offer(line, "end the stretch with the seam")))
    if not line.counted_parts.any():
        found.append(Finding("", tr("no part of it counts"), tr("leave a stretch that is seen and sewn")))
    return found


def _notches(garment: Garment, line: SeamLine, units: Units) -> list[Finding]:
    return [found for pair in notch_pairs(garment, line) for found in _notch(line, pair, units)]


def _notch(line: SeamLine, pair: NotchPair, units: Units) -> list[Finding]:
    at = (pair.a_mm, pair.b_mm)
    if pair.a_mm is None or pair.b_mm is None:
        here, there = (line.sewn.b, line.sewn.a) if pair.a_mm is None else (line.sewn.a, line.sewn.b)
        height = pair.b_mm if pair.a_mm is None else pair.a_mm
        what = tr("the notch of {here} at {height} meets none", here=here, height=units.say(height or 0.0))
        ways: tuple[Method, ...] = ("mark the missing notch", "take the notch away")
        return [
            Finding(
                "", what, tr("one on {there} opposite, or none", there=there), remedies=_offer_notch(line, at, ways)
            )
        ]
    if abs(pair.apart_mm) <= NOTCHES_MEET_MM:
        return []
    apart = {"b": line.sewn.b, "apart": units.say(abs(pair.apart_mm)), "a": line.sewn.a}
    lower = tr("the notch of {b} is {apart} lower than that of {a}", **apart)
    what = lower if pair.apart_mm > 0 else tr("the notch of {b} is {apart} higher than that of {a}", **apart)
    ways = ("move the notch of the right edge", "move the notch of the left edge")
    right = tr("both at {a_mm} or both at {b_mm}", a_mm=units.bare(pair.a_mm), b_mm=units.say(pair.b_mm))
    return [Finding("", what, right, remedies=_offer_notch(line, at, ways))]


def _offer_notch(
    line: SeamLine, at: tuple[float | None, float | None], methods: tuple[Method, ...]
) -> tuple[Remedy, ...]:
    return tuple(Remedy(line.sewn, method, at) for method in methods)


def _runs(garment: Garment, line: SeamLine, units: Units) -> list[Finding]:
    return [_jut(line, run, units) for run in runs_through(garment, line) if juts(run)]


def juts(run: RunThrough) -> bool:
    """Whether the line across a seam's end juts in or out by more than would pass for a smooth one."""
    return SMOOTH_DEG < abs(run.juts_deg) <= MEANT_BEYOND_DEG and run.juts_mm > SMOOTH_MM


def _jut(line: SeamLine, run: RunThrough, units: Units) -> Finding:
    out, into, method = _ENDS[run.end]
    names = run.a.edge if run.a.edge == run.b.edge else tr("{one} and {other}", one=run.a.edge, other=run.b.edge)
    size = tr(
        "{juts_deg:.1f} degrees, {juts_mm} over {reach_mm}",
        juts_deg=abs(run.juts_deg),
        juts_mm=units.say(run.juts_mm),
        reach_mm=units.say_whole(run.reach_mm),
    )
    return Finding(
        "",
        tr(out if run.juts_deg > 0 else into, names=names, size=size),
        tr("smooth the run so that its two angles there make 180 degrees"),
        remedies=_offer(line, method),
    )


_ENDS: dict[str, tuple[str, str, Method]] = {
    "upper": (
        later("{names} juts out at the top by {size}"),
        later("{names} juts in at the top by {size}"),
        "smooth the run at the top",
    ),
    "lower": (
        later("{names} juts out at the bottom by {size}"),
        later("{names} juts in at the bottom by {size}"),
        "smooth the run at the bottom",
    ),
}


def _stripes(project: Project, line: SeamLine) -> list[Finding]:
    if line.cloth is None:
        said = tr("its panels are of two cloths"), tr("its stripes can't be matched")
        return [Finding("", *said)] if any(project.cloth_of(panel).ways for panel in line.panels) else []
    reading = SeamReading.of(line, Placement(), Placement())
    if reading is None:
        return []
    leans, reach = sorted(abs(lean) for lean in reading.leans_deg), line.cloth.grain_tolerance_deg
    if leans[0] <= reach + 1e-9 and leans[1] > 2 * reach + 0.5:
        straight = line.panels[0] if abs(reading.leans_deg[0]) < abs(reading.leans_deg[1]) else line.panels[1]
        what = tr(
            "the edge of {straight} runs along the stripes, the other leans {lean:.2f} degrees",
            straight=straight,
            lean=leans[1],
        )
        right = tr("stripes cross one side only and no placement can make a chevron; lay the grain in mid-gore")
        return [Finding("", what, right)]
    return []


def _sewn_twice(garment: Garment) -> list[Finding]:
    uses = Counter(ref for line in garment.seams for ref in (line.sewn.a, line.sewn.b))
    return [
        Finding(tr("edge {ref!r}", ref=ref), tr("it stands in {count} seams", count=count), tr("an edge is sewn once"))
        for ref, count in uses.items()
        if count > 1
    ]
