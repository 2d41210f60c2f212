"""Laying matched panels on their cloths in little length: phases and turns stay, everything else may move."""

import itertools
import time
from collections.abc import Callable, Set
from dataclasses import dataclass, replace
from typing import Literal

import msgspec

from core.errors import CannotBeHad
from core.lay import engine
from core.lay.along import Lay, laid_again
from core.lay.bow import bars_mm, settled_lay
from core.lay.budget import Budget, moves_for
from core.lay.cloth_lay import ClothLay, cloth_lay
from core.lay.freedom import Freedom
from core.lay.legal import cut_lines, faults_of, panels_on
from core.lay.places import Arrangement, in_rows
from core.lay.remnant import open_ended
from core.lay.rescue import left_over, remedies
from core.lay.search import shortest
from core.lay.task import Task, task_of
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.model.validate import check_fits
from core.progress import Progress, part, silent
from core.seams.garment import Garment
from core.units import MM, Units
from core.wording import tr

MOST_OTHERS = 4
"""At most so many ways for groups to lie across the stripes are looked at besides the one given."""

TRIAL = 0.06
"""The share of the work that each of them gets."""

LONGER = 0.2
"""The share of work and time by which the lay of a bowed cloth may take longer."""

Status = Literal["done", "stopped", "out of time"]


@dataclass(frozen=True)
class LayResult:
    """What came of laying: the project with its new placements, and a lay for each cloth that has panels.

    `status` says whether all the work was done; the lays are legal in any case.
    """

    project: Project
    lays: tuple[ClothLay, ...]
    seconds: float
    status: Status

    def message(self, units: Units = MM) -> str:
        """One line for the maker."""
        return "; ".join(lay.message(units) for lay in self.lays)


Show = Callable[[dict[PanelName, Placement]], None]
"""Is given where panels of one cloth lie whenever a shorter lay was found: at any time one that can be cut."""


def _show_nothing(places: dict[PanelName, Placement]) -> None:
    pass


QUICK_BELOW = 20
"""Garments of fewer panels are worth a quick lay; larger ones repay the seconds that compiling takes."""


def quick_lay(project: Project, progress: Progress = silent) -> LayResult:
    """A lay in a hurry, for the plan in one go: as legal, a few parts in a hundred longer; where that doesn't fit, the
    whole search after all. Raises as `lay` does."""
    if len(project.panel_names) < QUICK_BELOW:
        with engine.uncompiled():
            found = lay(project, progress, quick=True)
        if all(on_cloth.fits for on_cloth in found.lays):
            return found
    return lay(project, progress)


def lay(
    project: Project, progress: Progress = silent, seconds: float = 30.0, seed: int = 0, quick: bool = False,
    show: Show = _show_nothing, only: Set[str] | None = None,
) -> LayResult:  # fmt: skip
    """Find positions for all panels that are not held; on striped cloth w = u - skew * v is kept modulo the period.

    Where no seam gets worse by it, panels are also turned end for end and groups of them shifted across the stripes.

    The work is counted, so that the same project and seed give the same lay; `seconds` only cuts it short, and so does
    `progress`; a cloth that was not begun by then is laid in rows. Lays that leave here are checked to be legal. A lay
    longer than its cloth is given all the same, and says what is missing; `quick` does a small part of the work; `show`
    is given each shorter lay as it is found; `only` are ids of the cloths to lay, all if not given. Raises BadInput for
    a panel wider than its cloth, CannotBeHad for one that has no place or for held panels that are in each other's way.
    """
    check_fits(project)
    progress(0.0, tr("getting ready: the first time takes some seconds"))
    engine.ready()
    began = time.monotonic()
    cloths = [c for c in project.cloths if panels_on(project, c) and (only is None or c.id in only)]
    total = sum(len(panels_on(project, cloth)) for cloth in cloths)
    status: Status = "done"
    done, lays, garment = 0, [], Garment.of(project)
    for cloth in cloths:
        share = done / total, (done + len(panels_on(project, cloth))) / total
        work = Work(
            part(progress, *share), began + seconds * share[1], seconds * (share[1] - share[0]), seed, quick, show
        )
        project, found, ended = _laid(project, cloth, garment, work)
        lays.append(found)
        status = ended if status == "done" else status
        done += len(panels_on(project, cloth))
    progress(1.0, "laid")
    return LayResult(project, tuple(lays), time.monotonic() - began, status)


@dataclass(frozen=True)
class Work:
    """How long one cloth may take: until `limit`, a time of `time.monotonic`, s; `seconds` more if it doesn't fit."""

    progress: Progress
    limit: float
    seconds: float
    seed: int
    quick: bool
    show: Show

    def part(self, start: float, end: float) -> "Work":
        """This work while it is done from one share of the whole to another."""
        return replace(self, progress=part(self.progress, start, end))

    def budget(self, task: Task, share: float = 1.0, more: float = 0.0) -> Budget:
        """Work for a task, or a share of what it is worth."""
        limit = max(self.limit, time.monotonic() + more * self.seconds)
        return Budget(max(int(moves_for(task, self.quick) * share), 1), limit, self.progress, task.cloth.title)


def _laid(project: Project, cloth: Cloth, garment: Garment, work: Work) -> tuple[Project, ClothLay, Status]:
    _check_held(project, cloth)
    before = bars_mm(project, cloth, garment) if cloth.is_bowed else None
    task = task_of(project, cloth, Freedom(project, cloth, garment).either_way, work.progress)
    if not task.complete:
        project = _checked(project, Lay(task, in_rows(task)))
        return project, _with_bars(cloth_lay(project, cloth), before, project, garment), "stopped"
    project, task = _best_start(project, task, garment, work)
    budget = work.part(0.2, 1.0 if cloth.end is None else 0.7).budget(task)
    found = _shortest(project, task, garment, budget, work)
    project = _checked(project, found)
    lay = cloth_lay(project, cloth)
    if not lay.fits and budget.ended != "stopped" and cloth.end is not None:
        left = left_over(found.task, found.at, cloth.end, work.part(0.7, 0.8).budget(task, 0.3, 0.5), work.seed)
        if cloth.remnant is not None:
            project, lay = _hanging_over(project, lay, garment, work.part(0.8, 0.85))
        more = work.part(0.85, 1.0).budget(task, 1.0, 1.0)
        lay = replace(lay, left_over=left, remedies=remedies(project, cloth, lay.missing_mm, left, more, work.seed))
    return project, _with_bars(lay, before, project, garment), budget.ended or "done"


def _with_bars(lay: ClothLay, before: float | None, project: Project, garment: Garment) -> ClothLay:
    """A lay that tells the rms of its bars, if it was asked for before."""
    return lay if before is None else replace(lay, bars_mm=(before, bars_mm(project, lay.cloth, garment) or 0.0))


def _hanging_over(project: Project, lay: ClothLay, garment: Garment, work: Work) -> tuple[Project, ClothLay]:
    """A lay on a remnant that is too short as it would be on a longer one, where panels hang over its end by less."""
    longer = open_ended(lay.cloth)
    task = task_of(project, longer, Freedom(project, lay.cloth, garment).either_way, work.progress)
    if not task.complete:
        return project, lay
    other = _checked(
        project, _shortest(project, task, garment, work.budget(task, 1.0, 0.5), replace(work, show=_show_nothing))
    )
    hanging = cloth_lay(other, lay.cloth)
    return (other, hanging) if hanging.missing_mm < lay.missing_mm else (project, lay)


def _shortest(project: Project, task: Task, garment: Garment, budget: Budget, work: Work) -> Lay:
    """The shortest lay found, on barred cloth shifted along where that is free and makes it shorter; on a bowed one one
    of the shortest, its bars brought together where they lie."""
    lays: list[Arrangement] = []

    def show(at: Arrangement) -> None:
        lays.append(at)
        work.show(Lay(task, at).places)

    found = shortest(task, budget, work.seed, show=show)
    if not task.cloth.is_bowed:
        return _along(project, Lay(task, found), garment) if task.cloth.crosswise else Lay(task, found)
    more = work.part(0.9, 1.0).budget(task, LONGER, LONGER)
    return settled_lay(project, task, [*lays, found], garment, more, work.seed)


def _along(project: Project, found: Lay, garment: Garment) -> Lay:
    """A lay on barred cloth, or one in which groups are shifted along the cloth for a smaller length."""
    project = found.on(project)
    again = laid_again(found, project, Freedom(project, found.task.cloth, garment).along)
    return again if again.length_mm < found.length_mm - 1e-6 else found


def _best_start(project: Project, task: Task, garment: Garment, work: Work) -> tuple[Project, Task]:
    """Of the ways in which groups may lie across the stripes the one that a short search makes most of."""
    others = list(itertools.islice(Freedom(project, task.cloth, garment).others(), MOST_OTHERS))
    if not others or not task.loose:
        return project, task
    each = 0.2 / (len(others) + 1)
    trial = work.part(0.0, each)
    best, least = (project, task), shortest(task, trial.budget(task, TRIAL), work.seed).length(task)
    for number, other in enumerate(others, start=1):
        if time.monotonic() > work.limit:
            break
        trial = work.part(number * each, (number + 1) * each)
        rival = task_of(other, task.cloth, Freedom(other, task.cloth, garment).either_way, trial.progress)
        if not rival.complete:
            break
        length = shortest(rival, trial.budget(rival, TRIAL), work.seed).length(rival)
        if length < least - 1e-6:
            best, least = (other, rival), length
    return best


def _checked(project: Project, found: Lay) -> Project:
    """The project with what was found. Raises CannotBeHad if it can't be cut after all."""
    project, cloth = found.on(project), found.task.cloth
    faults = faults_of(cut_lines(project, cloth), cloth)
    if faults:
        raise CannotBeHad(tr("no legal lay was found on {title!r}: {fault}", title=cloth.title, fault=faults[0]))
    return project


def _check_held(project: Project, cloth: Cloth) -> None:
    held = {name: line for name, line in cut_lines(project, cloth).items() if project.placement(name).hold}
    faults = faults_of(held, msgspec.structs.replace(cloth, spare_mm=0.0))
    if faults:
        raise CannotBeHad(tr("what is held on {title!r} can't stay there: {fault}", title=cloth.title, fault=faults[0]))
