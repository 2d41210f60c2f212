"""Laying matched panels on their cloths in little length: phases and turns stay, everything else may move."""

import time
from dataclasses import dataclass
from typing import Literal

from core.errors import CannotBeHad
from core.geometry.polyline import signed_area
from core.lay.budget import Budget, moves_for
from core.lay.legal import cut_lines, faults_of, panels_on
from core.lay.search import shortest
from core.lay.task import task_of
from core.model.cloth import Cloth
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.model.validate import check_fits
from core.progress import Progress, part, silent

Status = Literal["done", "stopped", "out of time"]


@dataclass(frozen=True)
class ClothLay:
    """The lay on one cloth. `length_mm` is the largest v of any cut line, `used_share` the share of usable width times
    length that cut lines cover; `available_mm` is None where the cloth is as long as it takes."""

    cloth: Cloth
    panels: tuple[PanelName, ...]
    length_mm: float
    available_mm: float | None
    used_share: float

    @property
    def missing_mm(self) -> float:
        """How much longer the cloth would have to be; 0.0 if the lay fits."""
        over = 0.0 if self.available_mm is None else self.length_mm - self.available_mm
        return over if over > 1e-6 else 0.0

    @property
    def fits(self) -> bool:
        """Whether the cloth is long enough."""
        return self.missing_mm == 0.0

    @property
    def message(self) -> str:
        """One line for the maker."""
        takes = f"{self.cloth.title}: the lay takes {self.length_mm:.1f} mm"
        if self.available_mm is None:
            return takes
        there = f"{takes}, the cloth has {self.available_mm:.1f} mm"
        return there if self.fits else f"{there}: {self.missing_mm:.1f} mm are missing"


@dataclass(frozen=True)
class LayResult:
    """What came of laying: the project with its new placements, and a lay for each cloth that has panels.

    `status` says whether all the work was done; the lays are legal in any case.
    """

    project: Project
    lays: tuple[ClothLay, ...]
    seconds: float
    status: Status

    @property
    def message(self) -> str:
        """One line for the maker."""
        return "; ".join(lay.message for lay in self.lays)


def lay(project: Project, progress: Progress = silent, seconds: float = 6.0, seed: int = 0) -> LayResult:
    """Find positions for all panels that are not held; on striped cloth w = u - skew * v is kept modulo the period.

    The work is counted, so that the same project and seed give the same lay; `seconds` only cuts it short, and so does
    `progress`. Lays that leave here are checked to be legal. A lay longer than its cloth is given all the same, and
    says what is missing. Raises BadInput for a panel wider than its cloth, CannotBeHad for one that has no place or for
    held panels that are in each other's way.
    """
    began = time.monotonic()
    check_fits(project)
    cloths = [cloth for cloth in project.cloths if panels_on(project, cloth)]
    total = sum(len(panels_on(project, cloth)) for cloth in cloths)
    status: Status = "done"
    done, lays = 0, []
    for cloth in cloths:
        share = done / total, (done + len(panels_on(project, cloth))) / total
        project, ended = _laid(project, cloth, part(progress, *share), began + seconds * share[1], seed)
        lays.append(cloth_lay(project, cloth))
        status = ended if status == "done" else status
        done += len(panels_on(project, cloth))
    progress(1.0, "laid")
    return LayResult(project, tuple(lays), time.monotonic() - began, status)


def cloth_lay(project: Project, cloth: Cloth) -> ClothLay:
    """What the placements as they stand amount to on a cloth that has panels."""
    lines = cut_lines(project, cloth)
    length = max(float(line[:, 1].max()) for line in lines.values())
    area = sum(abs(signed_area(line)) for line in lines.values())
    usable = cloth.usable[1] - cloth.usable[0]
    return ClothLay(cloth, tuple(lines), length, cloth.length, area / (usable * length))


def _laid(project: Project, cloth: Cloth, progress: Progress, limit: float, seed: int) -> tuple[Project, Status]:
    _check_held(project, cloth)
    task = task_of(project, cloth)
    budget = Budget(moves_for(task), limit, progress, cloth.title)
    found = shortest(task, budget, seed)
    changes: dict[PanelName, Placement] = {
        task.loose[entry].name: task.placement(entry, int(found.column[entry]), float(found.v[entry]))
        for entry in found.there.tolist()
    }
    project = project.placed(changes)
    faults = faults_of(cut_lines(project, cloth), cloth)
    if faults:
        raise CannotBeHad(f"no legal lay was found on {cloth.title!r}: {faults[0]}")
    return project, budget.ended or "done"


def _check_held(project: Project, cloth: Cloth) -> None:
    held = {name: line for name, line in cut_lines(project, cloth).items() if project.placement(name).hold}
    faults = faults_of(held, cloth)
    if faults:
        raise CannotBeHad(f"what is held on {cloth.title!r} can't stay there: {faults[0]}")
