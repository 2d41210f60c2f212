"""Which panels lie end for end, where the cloth allows it and an uneven repeat needs it.

Turning a panel end for end exchanges the lean of its edges. The figure can be had either way; but on an uneven repeat
all stripes of a seam meet only where its edges lean alike, so the weight of such seams is made as large as possible.
The same goes for bars, which count as the project says.
"""

import numpy as np

from core.matching.elimination import Tables, minimise
from core.matching.problem import mirrors_pairs
from core.model.cloth import Cloth, Way
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import SeamReading


def orientations(project: Project, garment: Garment, cloth: Cloth) -> dict[PanelName, bool]:
    """For every panel on a striped cloth whether it lies end for end; held panels stay as they are."""
    names = [name for name in project.panel_names if project.piece_of(name).cloth == cloth.id]
    as_placed = {name: project.placement(name).turned for name in names}
    if cloth.one_way:
        return {name: as_placed[name] and project.placement(name).hold for name in names}
    if not _uneven_ways(project, cloth):
        return as_placed
    groups = _groups(project, cloth, names)
    chosen = _most_alike(project, garment, cloth, groups)
    return {name: as_placed[name] if project.placement(name).hold else chosen[groups[name]] for name in names}


def _uneven_ways(project: Project, cloth: Cloth) -> list[tuple[Way, float]]:
    """The ways in which turning makes a difference, and how much they count."""
    counts: dict[Way, float] = {"lengthwise": 1.0, "crosswise": max(project.match.crosswise_weight, 1e-3)}
    return [(way, counts[way]) for way in cloth.ways if (repeat := cloth.repeat_of(way)) and not repeat.even]


def _groups(project: Project, cloth: Cloth, names: list[PanelName]) -> dict[PanelName, int]:
    """Panels that must lie the same way round: the two of a mirrored pair, each other one alone."""
    together = mirrors_pairs(project, cloth)
    keys = [project.piece_of(name).id if together else name for name in names]
    return {name: list(dict.fromkeys(keys)).index(key) for name, key in zip(names, keys, strict=True)}


def _most_alike(project: Project, garment: Garment, cloth: Cloth, groups: dict[PanelName, int]) -> list[bool]:
    number = max(groups.values()) + 1
    tables = Tables([2] * number)
    for group in range(number):
        tables.add((group,), np.array([0.0, 1e-4 * (2 - group / number)], dtype=np.float32))
    for name, group in groups.items():
        if project.placement(name).hold:
            wrong = int(not project.placement(name).turned)
            tables.add((group,), np.array([1e6 * (wrong == 0), 1e6 * (wrong == 1)], dtype=np.float32))
    for line in garment.seams:
        a, b = line.panels
        if line.cloth is not cloth or groups[a] == groups[b]:
            continue
        for way, counts in _uneven_ways(project, cloth):
            reading = SeamReading.of(line, Placement(), Placement(), way)
            alike = reading is not None and reading.lean == "alike"
            costs = np.array([[0, 1], [1, 0]] if alike else [[1, 0], [0, 1]], dtype=np.float32)
            tables.add((groups[a], groups[b]), costs * np.float32(counts * line.sewn.seam.weight))
    return [bool(state) for state in minimise(tables)[0][1]]
