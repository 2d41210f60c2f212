"""The figures of variants as they stand in a table, worked out only where they may have changed."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from app.figures import DASH, figure, fine, length, step, unit
from app.words import later, tr
from core.model.project import Project, Variant

if TYPE_CHECKING:
    from core.derive.compare import Standing

BEST = "• "
"""Stands before the best figure of a column."""


@dataclass(frozen=True)
class Head:
    """A column: its title, its unit, what it means, its text, and the value of which the least is best."""

    title: str
    unit: Callable[[], str]
    meaning: str
    text: "Callable[[Standing], str]"
    value: "Callable[[Standing], float | None]"

    @property
    def heading(self) -> str:
        """Title and, below it, the unit."""
        return f"{tr(self.title)}\n{self.unit()}"


HEADS = (
    Head(
        later("Rms"),
        unit,
        later("The garment's figure under the variant's own weights"),
        lambda s: fine(s.rms_mm),
        lambda s: s.rms_mm,
    ),
    Head(
        later("Alike"),
        unit,
        later("The garment's figure when all are judged by the weights that the seams have now"),
        lambda s: fine(s.alike_rms_mm),
        lambda s: s.alike_rms_mm,
    ),
    Head(later("Worst"), unit, later("The largest step on any seam"), lambda s: step(s.worst_mm), lambda s: s.worst_mm),
    Head(
        later("Turn"),
        lambda: "°",
        later("The largest turn off the grain"),
        lambda s: figure(s.longest_turn_deg, decimals=2),
        lambda s: s.longest_turn_deg,
    ),
    Head(
        later("Lay"), unit, later("Cloth that all lays take together"), lambda s: length(s.lay_mm), lambda s: s.lay_mm
    ),
)


def cells(standings: "Sequence[Standing]") -> list[list[tuple[str, bool]]]:
    """For every variant its figures and whether each is the best of its column; none is where all are equal."""
    columns = []
    for head in HEADS:
        texts = [head.text(one) for one in standings]
        values = [value for one in standings if (value := head.value(one)) is not None]
        best = next(
            (t for t, one in zip(texts, standings, strict=True) if values and head.value(one) == min(values)), ""
        )
        columns.append([(text, text == best and len(set(texts) - {DASH}) > 1) for text in texts])
    return [list(row) for row in zip(*columns, strict=True)]


def more(standing: "Standing") -> str:
    """What a row says besides its figures."""
    lines = [tr("Worst on {seam}").format(seam=standing.worst_seam)] if standing.worst_seam else []
    if standing.turned:
        lines.append(tr("{count} panels lie end for end").format(count=standing.turned))
    if standing.cut_elsewhere:
        lines.append(tr("{count} panels that are cut already lie elsewhere in it").format(count=standing.cut_elsewhere))
    return "\n".join(lines)


class Standings:
    """Figures of a project and its variants; those of variants that nothing has touched are remembered."""

    def __init__(self) -> None:
        self._base: Project | None = None
        self._known: list[tuple[Variant, Standing]] = []

    def of(self, project: Project) -> "tuple[Standing, list[Standing]]":
        """The figures as the project stands, and those of its variants."""
        from core.derive.compare import present_standing, standing_of

        known = self._known if self._base is not None and _alike(self._base, project) else []
        found = []
        for variant in project.variants:
            old = next((standing for one, standing in known if one is variant or one == variant), None)
            found.append(old or standing_of(project, variant))
        self._base, self._known = project, list(zip(project.variants, found, strict=True))
        return present_standing(project), found


def _alike(one: Project, other: Project) -> bool:
    """Whether two projects differ in nothing that a variant's figures depend on."""
    parts = ("cloths", "pieces", "seams", "match", "layers", "strips", "done")
    placed_alike = not one.done or one.placements == other.placements
    return placed_alike and all(getattr(one, part) == getattr(other, part) for part in parts)
