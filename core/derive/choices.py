"""What choices cost in cloth: the same garment laid one way or end for end, matched or not, with another centre."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import msgspec

from core.derive.count import ClothNeed, need_as_laid
from core.derive.cutting import cut_project
from core.derive.matched import with_patches
from core.errors import CannotBeHad
from core.lay.lay import lay
from core.lay.rescue import END_FOR_END
from core.matching.solve import match
from core.model.cloth import Cloth
from core.model.project import Centre, Project
from core.progress import Progress, part, silent
from core.wording import later, tr

AS_IT_IS = later("as it is")
NOT_MATCHED = later("stripes not matched")
ONE_WAY = later("all panels one way")
LESS_STRICT = (END_FOR_END, NOT_MATCHED)
"""What allows the lay as it is as well, so that it never takes more."""

CENTRES = {
    "lead": later("the lead stripe on the centre"),
    "ground": later("the ground on the centre"),
    "free": later("the centre left free"),
}


@dataclass(frozen=True)
class Choice:
    """One way to cut the garment, and what each of the cloths compared takes with it."""

    what: str
    cloths: tuple[ClothNeed, ...]

    @property
    def length_mm(self) -> float:
        """The lengths of all lays together, mm."""
        return sum(need.length_mm or 0.0 for need in self.cloths)

    @property
    def cost(self) -> float | None:
        """What all the lengths to buy cost, in the currency of the prices; None where one has no price."""
        costs = [need.cost for need in self.cloths]
        return None if None in costs else sum(cost for cost in costs if cost is not None)


def compared(project: Project, progress: Progress = silent, seconds: float = 30.0) -> tuple[Choice, ...]:
    """Lay a garment once for each choice, with the same work: first as it is, then the others there are.

    Compared are the cloths that are striped or one-way and that drawn pieces are cut from, as if they were as long as
    it takes; a lay takes at most `seconds`. Panels without places are matched first. When `progress` stops it, choices
    not yet laid are left out. Raises CannotBeHad if there is nothing to choose, and as `match` and `lay` do.
    """
    ids = frozenset(cloth.id for cloth in _chosen(project))
    if not ids:
        raise CannotBeHad(tr("there is nothing to compare: no cloth of the garment is striped or one-way"))
    project = _on_cloths(project, length=None)
    start = project if project.placements.keys() >= set(project.panel_names) else match(project).project
    ways = list(_ways(start))
    found: list[Choice] = []
    for number, (what, other) in enumerate(ways):
        told = part(progress, number / len(ways), (number + 1) / len(ways))
        if not told(0.0, what):
            break
        cut = cut_project(with_patches(_matched_anew(start, other)))
        laid = lay(cut, told, seconds, only=ids)
        if laid.status == "stopped":
            break
        needs = tuple(need_as_laid(cut, one) for one in laid.lays)
        found.append(Choice(what, _at_most(needs, found[0].cloths) if what in LESS_STRICT else needs))
    progress(1.0, "compared")
    return tuple(found)


def _at_most(needs: Sequence[ClothNeed], most: Sequence[ClothNeed]) -> tuple[ClothNeed, ...]:
    return tuple(min(pair, key=lambda need: need.length_mm or 0.0) for pair in zip(needs, most, strict=True))


def _chosen(project: Project) -> list[Cloth]:
    used = {piece.cloth for piece in project.pieces}
    return [cloth for cloth in project.cloths if cloth.id in used and (_striped(cloth) or cloth.one_way)]


def _striped(cloth: Cloth) -> bool:
    return cloth.repeat is not None or cloth.crosswise is not None


def _ways(project: Project) -> Iterator[tuple[str, Project]]:
    """The project as it is, then changed in one respect at a time."""
    yield AS_IT_IS, project
    chosen = _chosen(project)
    if any(cloth.one_way for cloth in chosen):
        yield END_FOR_END, _on_cloths(project, one_way=False)
    if not all(cloth.one_way for cloth in chosen):
        yield ONE_WAY, _on_cloths(project, one_way=True)
    if any(_striped(cloth) for cloth in chosen):
        yield NOT_MATCHED, _on_cloths(project, repeat=None, crosswise=None)
    centre = project.match.centre
    for on, what in CENTRES.items() if centre.panel or centre.seam else ():
        if on != centre.on:
            changed: Centre = msgspec.structs.replace(centre, on=on)
            yield what, msgspec.structs.replace(project, match=msgspec.structs.replace(project.match, centre=changed))


def _on_cloths(project: Project, **changes: object) -> Project:
    ids = {cloth.id for cloth in _chosen(project)}
    cloths = (msgspec.structs.replace(cloth, **changes) if cloth.id in ids else cloth for cloth in project.cloths)
    return msgspec.structs.replace(project, cloths=tuple(cloths))


def _matched_anew(before: Project, other: Project) -> Project:
    """The changed project, matched again where its panels can't stay as they were matched."""
    turned = any(other.placement(name).turned and other.cloth_of(name).one_way for name in other.panel_names)
    return match(other).project if turned or other.match != before.match else other
