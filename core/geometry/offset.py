"""Offsetting an outline edge by edge, each edge by its own distance, corners mitred as a person would mark them."""

import math
from collections.abc import Sequence

import numpy as np
from shapely.geometry import LineString, Point, Polygon
from shapely.validation import explain_validity

from core.errors import BadInput
from core.geometry.corners import MITRE_LIMIT, STEP_BELOW_DEG, Corner, Side, corner_between, turn_between
from core.geometry.loops import without_loops
from core.geometry.paths import Points, without_repeats
from core.geometry.polyline import lengths_along, outward, signed_area
from core.wording import tr

NEAR_MM = 0.01
"""A vertex closer than this to the corner at which its edge is cut gives way to the corner."""

STEP_SLACK_MM = 0.05
"""A step between two drawn edges is known as one if its length is right within this."""

INSIDE_MM = 0.02
"""One outline lies within another if it reaches no farther beyond it than this."""


def offset_edges(edges: Sequence[Points], distances: Sequence[float], names: Sequence[str] = ()) -> list[Points]:
    """Offset each edge of a clockwise closed outline (y down) by its own distance, mm, outwards positive.

    Returns one polyline an edge, each starting where the one before it ends. Where two moved edges cross they are
    trimmed at the crossing; where they part they are extended along their end tangents to a mitre; edges that run on
    into each other and move by different distances meet in a square step, which belongs to the one moved farther
    (and which is taken out again on the way back). A bend narrower than its distance is cut short where its parallel
    crosses itself. What a neighbour has trimmed off a curve is not known any more on the way back: its end is then
    carried on straight, which is exact for straight edges and for corners near the square.

    Raises BadInput, with the edge's name from `names` if given, where nothing of an edge would be left or the moved
    outline would cross itself or the drawn one.
    """
    labels = list(names) or [str(index + 1) for index in range(len(edges))]
    lines, stepped = _without_steps(list(edges), distances)
    sides = [Side(line, shifted(line, by), by) for line, by in zip(lines, distances, strict=True)]
    corners = [_corner(sides, index, stepped[index], labels) for index in range(len(sides))]
    moved = [_between(side, corners[i - 1], corners[i], labels[i]) for i, side in enumerate(sides)]
    _check_sound(edges, moved, sum(distances) >= 0)
    return moved


def shifted(line: Points, distance: float) -> Points:
    """The parallel of a polyline at a distance, mm, positive outwards of a clockwise outline (y down)."""
    if distance == 0:
        return line
    steps = np.diff(line, axis=0)
    ways = steps / np.hypot(*steps.T)[:, None]
    aside = distance * outward(ways)
    into, out = ways[:-1], ways[1:]
    cosine = np.sum(into * out, axis=1)
    sine = into[:, 0] * out[:, 1] - into[:, 1] * out[:, 0]
    longer = distance * sine / np.maximum(1 + cosine, 1e-9)
    reach = MITRE_LIMIT * abs(distance)
    longer = np.where(longer < -reach, 0.0, np.minimum(longer, reach))[:, None]
    ends, starts = line[1:-1] + aside[:-1] + longer * into, line[1:-1] + aside[1:] - longer * out
    inner = np.stack([ends, starts], axis=1).reshape(-1, 2)
    segments = np.vstack([line[:1] + aside[:1], inner, line[-1:] + aside[-1:]]).reshape(-1, 2, 2)
    return without_loops(without_repeats(_without_reversed_ends(segments, ways).reshape(-1, 2)))


def _without_reversed_ends(segments: Points, ways: Points) -> Points:
    """The moved segments, (n, 2, 2), without those at both ends that came out pointing against their way."""
    kept = np.flatnonzero(np.sum((segments[:, 1] - segments[:, 0]) * ways, axis=1) > 0)
    return segments[kept[0] : kept[-1] + 1] if len(kept) else segments


def filled_bend(line: Points, distance: float) -> tuple[Points, float] | None:
    """The bend of an edge that its parallel at a distance does not follow most: the place, and by how much, mm.

    None if the parallel keeps its distance everywhere.
    """
    parallel = LineString(shifted(line, distance))
    excess = np.array([parallel.distance(Point(point)) for point in line]) - abs(distance)
    worst = int(np.argmax(excess))
    return (line[worst], float(excess[worst])) if excess[worst] > STEP_SLACK_MM else None


def _corner(sides: list[Side], index: int, stepped: bool, labels: list[str]) -> Corner:
    first, second = sides[index], sides[(index + 1) % len(sides)]
    corner = corner_between(first, second, stepped)
    if corner is None:
        names = tr("{label!r} and {label_2!r}", label=labels[index], label_2=labels[(index + 1) % len(sides)])
        raise BadInput(
            tr(
                "allowances of {distance:g} and {distance_2:g} mm are wider than the corner of {names} has room for",
                distance=abs(first.distance),
                distance_2=abs(second.distance),
                names=names,
            ),
            tr("edge {label!r}", label=labels[index]),
            tr("smaller allowances, or longer edges"),
        )
    return corner


def _between(side: Side, before: Corner, after: Corner, label: str) -> Points:
    """The moved edge from corner to corner, extended or cut at both."""
    start, end = _place(side.moved, before.start), _place(side.moved, after.end)
    if start > end - NEAR_MM:
        raise BadInput(
            tr("nothing of it is left once its neighbours' allowances are taken"),
            tr("edge {label!r}", label=label),
            tr("smaller allowances, or a longer edge"),
        )
    along = lengths_along(side.moved)[1:-1]
    inner = side.moved[1:-1][(along > start + NEAR_MM) & (along < end - NEAR_MM)]
    return without_repeats(np.vstack([before.joint, before.start, inner, after.end, after.joint]))


def _place(line: Points, point: Points) -> float:
    """How far along a polyline, or along its straight continuation, a point lies on it, mm."""
    shape = LineString(line)
    along = float(shape.project(Point(point)))
    if along <= 0:
        return -float(np.hypot(*(point - line[0])))
    return along + (float(np.hypot(*(point - line[-1]))) if along >= shape.length else 0.0)


def _without_steps(edges: list[Points], distances: Sequence[float]) -> tuple[list[Points], list[bool]]:
    """The edges without the steps between them, and whether there was one at the end of each."""
    lines, stepped = list(edges), [False] * len(edges)
    for index in range(len(edges)):
        after = (index + 1) % len(edges)
        if abs(distances[index]) < abs(distances[after]):
            cut = _without_step(lines[after], lines[index], distances[after], distances[index])
            lines[after], stepped[index] = (lines[after], False) if cut is None else (cut, True)
        elif abs(distances[index]) > abs(distances[after]):
            cut = _without_step(lines[index][::-1], lines[after][::-1], -distances[index], -distances[after])
            lines[index], stepped[index] = (lines[index], False) if cut is None else (cut[::-1], True)
    return lines, stepped


def _without_step(wide: Points, narrow: Points, by: float, narrow_by: float) -> Points | None:
    """The edge moved farther without the step it starts with, if it does; `narrow` is the edge before it."""
    if len(wide) < 3:
        return None
    step, way = wide[1] - wide[0], (wide[2] - wide[1]) / np.hypot(*(wide[2] - wide[1]))
    turn = turn_between(narrow, wide[1:])
    if abs(turn) >= math.radians(STEP_BELOW_DEG) or abs(step @ way) > STEP_SLACK_MM:
        return None
    height = -math.copysign(abs(by) - abs(narrow_by) / math.cos(turn), by)
    return wide[1:] if abs(step @ outward(way) - height) < STEP_SLACK_MM else None


def _check_sound(edges: Sequence[Points], moved: list[Points], outwards: bool) -> None:
    """Refuse a moved outline that crosses itself or the one it was moved from."""
    ring = _ring(moved)
    if min(len(ring), len(_ring(edges))) < 3 or signed_area(ring) <= 0:
        raise BadInput(tr("an allowance is wider than the piece"), right=tr("smaller allowances"))
    drawn, shape = Polygon(_ring(edges)), Polygon(ring)
    if not drawn.is_valid:
        raise BadInput(
            tr("the outline crosses itself ({explain_validity})", explain_validity=explain_validity(drawn)),
            right=tr("edges that don't cross"),
        )
    outer, inner = (shape, drawn) if outwards else (drawn, shape)
    if not shape.is_valid or not outer.buffer(INSIDE_MM).contains(inner):
        where = "" if shape.is_valid else f" ({explain_validity(shape)})"
        raise BadInput(
            tr("an allowance is wider than a narrow part of the outline{where}", where=where),
            right=tr("smaller allowances there"),
        )


def _ring(edges: Sequence[Points]) -> Points:
    return np.concatenate([edge[:-1] for edge in edges])
