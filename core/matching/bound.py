"""The proof: a figure that no placement inside the tolerance can go below.

All placements are held in boxes of cells of phase and turn. The box in which the figure may go lowest is halved again
and again, and cells in which it can't go below what is to be proved are left, until none remains or the time is over.
"""

import heapq
import itertools
import math
import time
from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

import msgspec

from core.errors import CannotBeHad
from core.matching.cells import UNWEIGHED, Box, Part, Weighed
from core.matching.objective import Objective
from core.matching.orientation import orientations
from core.matching.problem import SeamCost, build_problem, mirrors_pairs
from core.matching.refine import EQUAL_MM, EQUAL_SHARE, Point, bounds_of, least_turning, refined
from core.matching.solve import MatchResult, connected, match
from core.model.cloth import WAYS, Way
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.progress import Progress, part, silent
from core.seams.garment import Garment
from core.seams.readings import measure, read_seam
from core.wording import tr

ROUNDING_MM = 1e-5
"""Taken off every bound: more than what the rounding of placements and of sums can do."""


Status = Literal["proved", "time", "stopped", "each way"]


@dataclass(frozen=True, eq=False)
class Bound:
    """What was proved of a match.

    No placement inside the tolerance has a figure below `lower_bound_mm`; the figure of `result`, which is the match
    given or a better one that turned up, is higher by `gap_mm`, which is `gap_share` of that figure. `status`: `proved`
    to the gap asked for; `time` if that was over before; `stopped` by the caller; `each way` if stripes and bars were
    proved each by itself, but want turns that don't go together. `boxes`: how many were weighed.
    """

    result: MatchResult
    lower_bound_mm: float
    gap_mm: float
    gap_share: float
    status: Status
    boxes: int
    seconds: float


def prove(
    project: Project,
    result: MatchResult,
    progress: Progress = silent,
    seconds: float = 30.0,
    gap_share: float = 0.01,
    gap_mm: float = 0.01,
) -> Bound | None:
    """Bound the garment's figure from below until the gap is that share of it, or that length, mm, or time is over.

    The bound is for all placements that keep the project's holds, mirrored pairs and centre; which panels lie end for
    end stays as matched. The time is looked at between boxes. The same project takes the same steps, so more time
    never gives a lower bound. None where no seam has stripes to match.

    With bars, each way is bounded by itself and the bounds are weighed together. Raises CannotBeHad for bowed bars.
    """
    if result.rms_mm is None:
        return None
    if any(cloth.crosswise is not None for cloth in project.cloths):
        return _prove_both_ways(project, result, progress, seconds, gap_share, gap_mm)
    return _prove_one_way(project, result, "lengthwise", progress, seconds, gap_share, gap_mm)


def _prove_both_ways(
    project: Project, result: MatchResult, progress: Progress, seconds: float, gap_share: float, gap_mm: float
) -> Bound:
    """No placement matches either way better than the best for it alone: the two bounds weighed as in the figure.

    Half of the time is for either way. The match given is never changed. A bow is no matter of phases and turns alone,
    so that no bound holds for all places across the cloth.
    """
    assert result.rms_mm is not None
    for cloth in project.cloths:
        if cloth.is_bowed:
            raise CannotBeHad(
                tr("nothing can be proved on {title!r}: its bars are bowed, and a bow depends on u", title=cloth.title)
            )
    started = time.perf_counter()
    found: dict[Way, Bound] = {}
    for index, way in enumerate(WAYS):
        one, watch = _only(project, way), part(progress, index / 2, (index + 1) / 2)
        best = match(one)
        if best.rms_mm is not None:
            found[way] = _prove_one_way(one, best, way, watch, seconds / 2, gap_share, gap_mm)
    weights = _weights(result.project)
    total = sum(weights[way] for way in found)
    low = math.sqrt(sum(weights[way] * bound.lower_bound_mm**2 for way, bound in found.items()) / total)
    gap = max(result.rms_mm - low, 0.0)
    return Bound(
        replace(result, lower_bound_mm=low),
        low,
        gap,
        gap / result.rms_mm if result.rms_mm else 0.0,
        _status(found.values(), gap <= max(gap_share * result.rms_mm, gap_mm)),
        sum(bound.boxes for bound in found.values()),
        time.perf_counter() - started,
    )


def _only(project: Project, way: Way) -> Project:
    """The project with stripes one way only, pairs mirrored if they are so on all cloths."""
    mirrored = all(mirrors_pairs(project, cloth) for cloth in project.cloths if cloth.ways)
    other = {"repeat": None} if way == "crosswise" else {"crosswise": None}
    return msgspec.structs.replace(
        project,
        cloths=tuple(msgspec.structs.replace(cloth, **other) for cloth in project.cloths),
        match=msgspec.structs.replace(project.match, mirror_pairs=mirrored, crosswise_weight=1.0),
    )


def _weights(project: Project) -> dict[Way, float]:
    """How much each way counts in the garment's figure."""
    measurement = measure(project)
    counted = {
        way: sum(r.line.sewn.seam.weight for r in measurement.readings_of(way) if r and r.mean_square is not None)
        for way in WAYS
    }
    return {**counted, "crosswise": counted["crosswise"] * project.match.crosswise_weight}


def _status(found: Iterable[Bound], near_enough: bool) -> Status:
    ends = {bound.status for bound in found}
    if near_enough:
        return "proved"
    return "stopped" if "stopped" in ends else "time" if "time" in ends else "each way"


def _prove_one_way(
    project: Project, result: MatchResult, way: Way, progress: Progress, seconds: float, gap_share: float, gap_mm: float
) -> Bound:
    """The same of a match that has a figure, for a project whose cloths all have stripes one way only."""
    assert result.rms_mm is not None
    started = time.perf_counter()
    searches = _searches(project, result, way, max(gap_share * result.rms_mm, gap_mm))
    status: Status = "proved"
    while search := _widest(searches):
        spent = time.perf_counter() - started
        if not progress(
            min(spent / max(seconds, 1e-9), 1.0), tr("no placement goes below {low:.3f} mm", low=_low(searches))
        ):
            status = "stopped"
        elif spent > seconds:
            status = "time"
        if status != "proved":
            break
        search.step()
    return _bound(result, searches, status, time.perf_counter() - started)


class _Search:
    """The proof for one connected part: its boxes, the lowest first, and the best placement of its panels known."""

    def __init__(self, part: Part, seams: tuple[SeamCost, ...], project: Project, slack_mm: float) -> None:
        self.weight = sum(seam.weight for seam in seams)
        self.found: dict[PanelName, Placement] = {}
        self.boxes = 0
        self._project = project
        self._part, self._seams, self._slack_mm = part, seams, slack_mm
        self._objective = Objective(part.problem, seams)
        self.figure = self._measured(project)
        self._left, self._lowest = math.inf, math.inf
        self._number = itertools.count()
        self._heap: list[tuple[float, int, Box]] = []
        for box in part.whole():
            self._push(box)

    @property
    def low(self) -> float:
        """No placement of this part has a figure below, mm."""
        waiting = math.sqrt(max(self._heap[0][0], 0.0)) if self._heap else math.inf
        return max(min(waiting, self._left, self.figure) - ROUNDING_MM, 0.0)

    @property
    def done(self) -> bool:
        """Whether nothing is left to halve that could go below what is to be proved, or there is nothing to prove."""
        return not self._target or not self._heap or self._heap[0][0] >= self._target**2

    @property
    def _target(self) -> float:
        return max(self.figure - self._slack_mm, 0.0)

    def step(self) -> None:
        """Halve the lowest box and weigh what comes of it."""
        box = heapq.heappop(self._heap)[2]
        pieces = [box] if box.low == UNWEIGHED else self._part.halves(box)
        if not pieces:
            self._left = min(self._left, math.sqrt(box.low))
        for piece in pieces:
            self._weigh(piece)

    def _weigh(self, box: Box) -> None:
        target = self._target
        weighed = self._part.weigh(box, target**2)
        self.boxes += 1
        self._left = min(self._left, target)
        if weighed.box.low < target**2:
            self._push(weighed.box)
        if weighed.value < self._lowest:
            self._lowest = weighed.value
            self._try(weighed)

    def _push(self, box: Box) -> None:
        heapq.heappush(self._heap, (box.low, next(self._number), box))

    def _try(self, weighed: Weighed) -> None:
        """Descend from the best corners found yet; keep what that leads to if it is better by more than equals are."""
        bounds = bounds_of(self._objective, self._part.variables)
        value = self._objective.value(weighed.phases, weighed.turns)
        low = refined(self._objective, bounds, Point(weighed.phases, weighed.turns, value))
        point = least_turning(self._objective, bounds, low)
        found = self._part.placements(self._project, point.phases, point.turns)
        figure = self._measured(self._project.placed(found))
        if figure * (1 + EQUAL_SHARE) + EQUAL_MM < self.figure:
            self.found, self.figure = found, figure

    def _measured(self, project: Project) -> float:
        """The exact figure of this part's seams, mm."""
        way = self._part.problem.way
        readings = [(seam.weight, read_seam(project, seam.line, way)) for seam in self._seams]
        squares = [weight * (reading.mean_square or 0.0) for weight, reading in readings if reading is not None]
        return math.sqrt(max(sum(squares) / self.weight, 0.0))


def _searches(project: Project, result: MatchResult, way: Way, slack_mm: float) -> list[_Search]:
    """One search for each connected part of each cloth with seams to match; all may fall short by the same length.

    Figures go together as root mean squares, so that the whole then falls short by no more.
    """
    garment, solved = Garment.of(project), result.project
    searches = []
    for cloth in (cloth for cloth in project.cloths if cloth.repeat_of(way) is not None):
        problem = build_problem(solved, garment, cloth, orientations(solved, garment, cloth), way)
        searches += [
            _Search(Part(problem, variables, seams), seams, solved, slack_mm)
            for variables, seams in connected(problem)
            if seams
        ]
    return searches


def _widest(searches: list[_Search]) -> _Search | None:
    """The unfinished search whose gap adds most to the whole."""
    waiting = [search for search in searches if not search.done]
    return max(waiting, key=lambda search: search.weight * (search.figure**2 - search.low**2), default=None)


def _low(searches: list[_Search]) -> float:
    """No placement of the garment has a figure below, mm."""
    total = sum(search.weight for search in searches)
    return math.sqrt(sum(search.weight * search.low**2 for search in searches) / total) if total else 0.0


def _bound(result: MatchResult, searches: list[_Search], status: Status, seconds: float) -> Bound:
    project = result.project
    for search in searches:
        project = project.placed(search.found)
    rms = measure(project).rms_mm if any(search.found for search in searches) else result.rms_mm
    figure, low = rms or 0.0, _low(searches)
    gap = max(figure - low, 0.0)
    better = replace(result, project=project, rms_mm=rms, lower_bound_mm=low)
    boxes = sum(search.boxes for search in searches)
    return Bound(better, low, gap, gap / figure if figure else 0.0, status, boxes, seconds)
