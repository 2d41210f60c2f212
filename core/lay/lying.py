"""How panels lie on one cloth while hands move them: which overlap, and the length, worked out for what moved only."""

from collections import Counter
from collections.abc import Iterator, Set
from dataclasses import dataclass
from typing import TypeVar

import numpy as np
import shapely
from shapely.geometry import Polygon
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.lay.legal import BEYOND_MM, GRID_MM, OVERLAP_MM2, cut_line, panels_on
from core.model.cloth import Cloth
from core.model.panel import Panel
from core.model.pattern import PanelName
from core.model.project import Project

Two = tuple[PanelName, PanelName]
Known = TypeVar("Known")


@dataclass(frozen=True, eq=False)
class Lying:
    """The panels of one cloth where they lie; those that have no places yet lie nowhere.

    `boxes` holds least u and v, then largest u and v, mm. `clashes` has the area common to every two panels that
    overlap by more than 0.01 mm2, each two in the order of the pieces.
    """

    panels: dict[PanelName, Panel]
    shapes: dict[PanelName, Polygon]
    boxes: dict[PanelName, tuple[float, float, float, float]]
    clashes: dict[Two, BaseGeometry]

    @classmethod
    def of(cls, project: Project, cloth: Cloth) -> "Lying":
        """All panels of a cloth as a project puts them."""
        panels = {panel.name: panel for panel in panels_on(project, cloth)}
        return cls(panels, {}, {}, {}).after(project, frozenset(panels))

    def after(self, project: Project, moved: frozenset[PanelName]) -> "Lying":
        """The same panels when some of them lie where `project` says."""
        here = moved & self.panels.keys()
        if not here:
            return self
        placed = here & project.placements.keys()
        lines = {name: cut_line(self.panels[name], project.placement(name)) for name in placed}
        shapes = _without(self.shapes, here) | {name: Polygon(line) for name, line in lines.items()}
        boxes = _without(self.boxes, here) | {name: _box(line) for name, line in lines.items()}
        clashes = {two: area for two, area in self.clashes.items() if not here & set(two)}
        near = [two for two in self._pairs(list(lines), boxes.keys()) if _meet(boxes, two)]
        return Lying(self.panels, shapes, boxes, clashes | _common(shapes, near))

    def _pairs(self, moved: list[PanelName], lying: Set[PanelName]) -> Iterator[Two]:
        """Every two panels that lie somewhere of which one or both have moved, in the order of the pieces."""
        order = {name: place for place, name in enumerate(self.panels)}
        for done, name in enumerate(moved):
            for other in lying - set(moved[: done + 1]):
                yield (name, other) if order[name] < order[other] else (other, name)

    @property
    def overlapping(self) -> frozenset[PanelName]:
        """All panels that overlap another."""
        return frozenset(name for two in self.clashes for name in two)

    @property
    def heaped(self) -> bool:
        """Whether most panels lie on two others or more: found their places across, but not yet along the cloth."""
        covered = Counter(name for two in self.clashes for name in two)
        return 2 * sum(others > 1 for others in covered.values()) > len(self.boxes)

    def off(self, cloth: Cloth) -> frozenset[PanelName]:
        """Panels that reach over the usable width, the cut end, or the end of a cloth whose length is given."""
        (left, right), end = cloth.usable, np.inf if cloth.end is None else cloth.end
        low, high = (left - BEYOND_MM, -BEYOND_MM), (right + BEYOND_MM, end + BEYOND_MM)
        return frozenset(
            name
            for name, box in self.boxes.items()
            if box[0] < low[0] or box[1] < low[1] or box[2] > high[0] or box[3] > high[1]
        )

    @property
    def length_mm(self) -> float:
        """Where the last panel ends, mm; 0.0 if there is none."""
        return max((box[3] for box in self.boxes.values()), default=0.0)


def _without(known: dict[PanelName, Known], names: frozenset[PanelName]) -> dict[PanelName, Known]:
    return {name: value for name, value in known.items() if name not in names}


def _box(line: Points) -> tuple[float, float, float, float]:
    (left, start), (right, end) = line.min(axis=0).tolist(), line.max(axis=0).tolist()
    return left, start, right, end


def _meet(boxes: dict[PanelName, tuple[float, float, float, float]], two: Two) -> bool:
    a, b = (boxes[name] for name in two)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def _common(shapes: dict[PanelName, Polygon], pairs: list[Two]) -> dict[Two, BaseGeometry]:
    """What the two of each pair have in common, where that is more than nothing."""
    common = {two: _shared(shapes[two[0]], shapes[two[1]]) for two in pairs}
    return {two: part for two, part in common.items() if part.area > OVERLAP_MM2}


def _shared(a: Polygon, b: Polygon) -> BaseGeometry:
    """The area common to two outlines, taken the quick way where that tells.

    That they lie apart is told by one that was prepared once and stays; the overlay on a grid, which takes seven times
    as long as that without, is left to outlines that lie on each other.
    """
    still, moved = (b, a) if shapely.is_prepared(b) else (a, b)
    shapely.prepare(still)
    if not shapely.dwithin(still, moved, 2 * GRID_MM):
        return Polygon()
    common: BaseGeometry = shapely.intersection(a, b)
    return common if common.area > OVERLAP_MM2 else shapely.intersection(a, b, grid_size=GRID_MM)
