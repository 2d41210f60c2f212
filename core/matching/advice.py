"""What to change: why each seam is left with steps, and what each change would gain, found by matching anew."""

from collections.abc import Sequence
from dataclasses import dataclass

import msgspec

from core.errors import Stopped
from core.matching.proposals import Kind, Proposal, Words, proposals
from core.matching.reasons import LEAST_MM, Reason, parts_of, told
from core.matching.solve import match
from core.model.cloth import WAYS, Way
from core.model.pattern import PanelName
from core.model.project import Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment, SeamLine
from core.seams.readings import Measurement, SeamReading, label_of, measure
from core.units import Units
from core.wording import tr

AT_LIMIT_DEG = 1e-3
"""A panel turned to within this of the tolerance is at its limit."""

LEAST_GAIN_MM = 0.0005


@dataclass(frozen=True, eq=False)
class Change:
    """One change, carried out and matched: the project with its placements, and the garment's figure, mm.

    `gain_mm` is how much lower that is than the figure matched without it, under the same weights; negative where it
    costs.
    """

    kind: Kind
    what: str
    caution: str
    project: Project
    rms_mm: float
    gain_mm: float
    offer: Proposal | None = None

    @property
    def panel(self) -> PanelName | None:
        """The panel that a hold was taken off."""
        return self.offer.panel if self.offer else None

    def words(self, units: Units) -> Words:
        """`what` and `caution` as they are shown."""
        return self.offer.words(units) if self.offer else (self.what, self.caution)


@dataclass(frozen=True, eq=False)
class SeamReasons:
    """A seam as matched, and the reasons for what is left of its steps one way, the first one first."""

    line: SeamLine
    way: Way
    rms_mm: float
    reasons: tuple[Reason, ...]

    @property
    def label(self) -> str:
        """The seam's label, and that it is its bars where it is."""
        return label_of(self.line, self.way)


@dataclass(frozen=True, eq=False)
class Advice:
    """What was found for a project: its figure as it stands and as matched, mm, its seams, and changes by gain."""

    project: Project
    now_mm: float
    matched_mm: float
    seams: tuple[SeamReasons, ...]
    changes: tuple[Change, ...]

    @property
    def gains(self) -> tuple[Change, ...]:
        """The changes that make the figure lower."""
        return tuple(change for change in self.changes if change.gain_mm > LEAST_GAIN_MM)


def advise(project: Project, progress: Progress = silent) -> Advice | None:
    """Match the project as it is and under every change worth trying. None where no stripes are to match.

    Raises Stopped.
    """
    garment = Garment.of(project)
    now = measure(project, garment).rms_mm
    base = _matched(project, part(progress, 0.0, 0.1), tr("the project as it is"))
    offers = proposals(base, garment)
    matched_mm = measure(base, garment).rms_mm
    if now is None or matched_mm is None:
        return None
    changes = []
    for index, offer in enumerate(offers):
        share = part(progress, 0.1 + 0.9 * index / len(offers), 0.1 + 0.9 * (index + 1) / len(offers))
        changes.append(_change(offer, base, _matched(offer.project, share, offer.what)))
    seams = _reasons(base, garment, changes)
    if now - matched_mm > 1e-3:
        caution = tr("panels that are not held move")
        changes.append(Change("match", tr("the stripes matched"), caution, base, matched_mm, now - matched_mm))
    return Advice(project, now, matched_mm, seams, tuple(sorted(changes, key=lambda change: -change.gain_mm)))


def _matched(project: Project, progress: Progress, what: str) -> Project:
    result = match(project, lambda share, _: progress(share, tr("Trying: {what}", what=what)))
    if result.status == "stopped" or not progress(1.0, tr("Trying: {what}", what=what)):
        raise Stopped(tr("stopped before all changes were tried"))
    return result.project


def _change(offer: Proposal, base: Project, solved: Project) -> Change:
    before = measure(msgspec.structs.replace(base, seams=solved.seams)).rms_mm or 0.0
    rms = measure(solved).rms_mm or 0.0
    return Change(offer.kind, offer.what, offer.caution, solved, rms, before - rms, offer)


# --- reasons


def _reasons(base: Project, garment: Garment, changes: Sequence[Change]) -> tuple[SeamReasons, ...]:
    measured = measure(base, garment)
    eased = [(change, measure(change.project)) for change in changes if change.kind in _OBSTACLES]
    return tuple(found for way in WAYS for found in _reasons_of(base, measured, way, eased))


def _reasons_of(
    base: Project, measured: Measurement, way: Way, eased: list[tuple[Change, Measurement]]
) -> list[SeamReasons]:
    """The reasons one way: of the steps of stripes, or of bars."""
    readings = measured.readings_of(way)
    loose = _bridges([None if reading is None else reading.line for reading in readings])
    found = []
    for index, reading in enumerate(readings):
        if reading is not None and reading.rms_mm is not None:
            parts = parts_of(reading, index not in loose and not _tied(base, reading))
            others = [(change, other.readings_of(way)[index]) for change, other in eased]
            reasons = told(parts, _obstacles(base, reading, others))
            found.append(SeamReasons(reading.line, way, reading.rms_mm, reasons))
    return found


_OBSTACLES: tuple[Kind, ...] = ("hold", "tolerance", "centre", "mirror pairs")


def _obstacles(
    base: Project, reading: SeamReading, eased: list[tuple[Change, SeamReading | None]]
) -> tuple[Reason, ...]:
    """What the project asks for and by how much of this seam's mean square it is to blame, by its having been eased."""
    found: dict[tuple[str, PanelName | None], Reason] = {}
    before = reading.mean_square or 0.0
    for change, after in eased:
        if before < LEAST_MM**2 or after is None or after.mean_square is None or change.gain_mm < LEAST_GAIN_MM:
            continue
        share = 1 - after.mean_square / before
        reason = _obstacle(base, reading, change, min(max(share, 0.0), 1.0))
        key = change.kind, change.panel
        if reason and (key not in found or reason.share > found[key].share):
            found[key] = reason
    return tuple(found.values())


def _obstacle(base: Project, reading: SeamReading, change: Change, share: float) -> Reason | None:
    if change.kind == "hold":
        return Reason("hold", share, panels=(change.panel,)) if change.panel else None
    if change.kind == "centre":
        return Reason("centre", share)
    if change.kind == "mirror pairs":
        return Reason("mirror pairs", share)
    limit = reading.cloth.grain_tolerance_deg
    stuck = tuple(n for n in reading.line.panels if abs(base.placement(n).turn_deg) > limit - AT_LIMIT_DEG)
    return Reason("tolerance", share, deg=limit, panels=stuck)


def _tied(project: Project, reading: SeamReading) -> bool:
    """Whether both panels of a seam are held, so that nothing round a ring makes any difference to it."""
    return all(project.placement(name).hold for name in reading.line.panels)


def _bridges(lines: list[SeamLine | None]) -> set[int]:
    """Places of the seams without which their panels would not hang together: those that lie on no ring."""
    found = set()
    for place, line in enumerate(lines):
        others = [other for other in lines if other is not None and other is not line]
        if line is not None and not _joined(others, *line.panels):
            found.add(place)
    return found


def _joined(lines: list[SeamLine], start: PanelName, end: PanelName) -> bool:
    reached = {start}
    for _ in lines:
        more = {name for line in lines if reached & set(line.panels) for name in line.panels}
        if more <= reached:
            break
        reached |= more
    return end in reached
