"""Notches against notches: which of one edge meets which of the other when a seam is sewn."""

from dataclasses import dataclass

import numpy as np

from core.geometry.polyline import Floats, distance_of, length
from core.model.panel import Panel
from core.model.pattern import edge_of
from core.seams.garment import Garment, SeamLine, joined

REACH_MM = 40.0
"""Two notches farther apart than this down the seam don't stand for each other."""


@dataclass(frozen=True)
class NotchPair:
    """Two notches that stand for each other, or one alone: their heights down the seam, mm, None where none is."""

    a_mm: float | None
    b_mm: float | None

    @property
    def apart_mm(self) -> float:
        """How far below a's notch b's lies, mm. Only for a pair of two."""
        return (self.b_mm or 0.0) - (self.a_mm or 0.0)


def notch_pairs(garment: Garment, line: SeamLine) -> tuple[NotchPair, ...]:
    """The notches of both edges, paired in order so that as little as possible lies between partners.

    Heights are those of the seam: where the edges differ in length, b's are read as the seam's `join` says.
    """
    a, b = (heights_of_notches(garment, line, side) for side in (0, 1))
    return tuple(
        NotchPair(None if i is None else float(a[i]), None if j is None else float(b[j])) for i, j in _aligned(a, b)
    )


def heights_of_notches(garment: Garment, line: SeamLine, side: int) -> Floats:
    """The notches on one edge of a seam (0 is a, 1 is b) by their heights down it, mm, ascending; shape (n,)."""
    panel, edge = garment.panels[line.panels[side]], edge_of((line.sewn.a, line.sewn.b)[side])
    _, lift_a, lift_b, stretch_b = joined(line.sewn.seam, *line.edge_lengths)
    from_start = _along(panel, edge)
    if side == 0:
        return np.sort(from_start - lift_a)
    return np.sort((length(panel.net[edge]) - from_start - lift_b) / stretch_b)


def _along(panel: Panel, edge: str) -> Floats:
    net = panel.net[edge]
    return np.array([distance_of(net, mark.point) for mark in panel.notches if mark.edge == edge])


def _aligned(a: Floats, b: Floats) -> list[tuple[int | None, int | None]]:
    """The pairing in order with the least sum of distances, one alone counting half of REACH_MM; (index, index)."""
    cost = np.zeros((len(a) + 1, len(b) + 1))
    cost[:, 0], cost[0, :] = np.arange(len(a) + 1) * REACH_MM / 2, np.arange(len(b) + 1) * REACH_MM / 2
    for i in range(len(a)):
        for j in range(len(b)):
            alone = min(cost[i, j + 1], cost[i + 1, j]) + REACH_MM / 2
            cost[i + 1, j + 1] = min(cost[i, j] + abs(a[i] - b[j]), alone)
    return _traced(cost, a, b)


def _traced(cost: Floats, a: Floats, b: Floats) -> list[tuple[int | None, int | None]]:
    pairs: list[tuple[int | None, int | None]] = []
    i, j = len(a), len(b)
    while i or j:
        if i and j and cost[i, j] == cost[i - 1, j - 1] + abs(a[i - 1] - b[j - 1]):
            i, j = i - 1, j - 1
            pairs.append((i, j))
        elif i and cost[i, j] == cost[i - 1, j] + REACH_MM / 2:
            i -= 1
            pairs.append((i, None))
        else:
            j -= 1
            pairs.append((None, j))
    return pairs[::-1]
