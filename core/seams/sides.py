"""Which way round a piece each of its edges lies: top, right, hem or left, as one looks at it with the hem below."""

from collections.abc import Sequence
from typing import Literal

import numpy as np

from core.geometry.paths import Points
from core.geometry.polyline import length, points_at

Side = Literal["top", "right", "hem", "left"]


def sides_of(edges: Sequence[Points]) -> tuple[Side, ...]:
    """The side on which each edge of a clockwise outline (y down) lies.

    Of four edges and more the hem is the one whose middle lies lowest, and the top the one whose middle lies highest of
    those that don't touch the hem. Between top and hem, clockwise, lie the edges of the right side, and between hem and
    top those of the left. Edges at the ends of a side that run flatter than 45 degrees, where the side has a steeper
    one, belong to the top or the hem. Of three edges the flattest is the hem, or the top, and two are right and left.
    """
    if len(edges) < 4:
        return _sides_of_few(edges)
    count = len(edges)
    middles = [float(points_at(edge, np.array([length(edge) / 2]))[0, 1]) for edge in edges]
    hem = max(range(count), key=lambda index: middles[index])
    top = min(((hem + step) % count for step in range(2, count - 1)), key=lambda index: middles[index])
    sides: list[Side] = ["hem"] * count
    sides[top] = "top"
    _mark(sides, edges, [(top + step) % count for step in range(1, (hem - top) % count)], ("top", "right", "hem"))
    _mark(sides, edges, [(hem + step) % count for step in range(1, (top - hem) % count)], ("hem", "left", "top"))
    return tuple(sides)


def _sides_of_few(edges: Sequence[Points]) -> tuple[Side, ...]:
    """The flattest of three edges is the hem or the top, the others are left and right, as two edges are."""
    sides: list[Side] = ["left" if edge[-1, 1] < edge[0, 1] else "right" for edge in edges]
    if len(edges) == 3:
        flattest = max(range(3), key=lambda index: float(np.divide(*np.abs(edges[index][-1] - edges[index][0]) + 1e-9)))
        sides[flattest] = "hem" if edges[flattest][-1, 0] < edges[flattest][0, 0] else "top"
    elif sides[0] == sides[1]:
        sides[1] = "right"
    return tuple(sides)


def _mark(sides: list[Side], edges: Sequence[Points], run: list[int], names: tuple[Side, Side, Side]) -> None:
    """Name a run of edges between two others: its steep middle part is the side, its flat ends belong to those."""
    steep = [place for place, index in enumerate(run) if _steep(edges[index])] or list(range(len(run)))
    for place, index in enumerate(run):
        sides[index] = names[0] if place < steep[0] else names[2] if place > steep[-1] else names[1]


def _steep(edge: Points) -> bool:
    across, down = np.abs(edge[-1] - edge[0])
    return bool(down >= across)
