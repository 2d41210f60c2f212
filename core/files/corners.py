"""A closed outline split into edges at its corners."""

from collections.abc import Sequence

import numpy as np

from core.errors import BadInput
from core.geometry.beziers import Point, Segment, Segments, flattened, line_through
from core.geometry.paths import Points
from core.geometry.polyline import Floats, length, lengths_along, points_at
from core.wording import tr

REACH_MM = 1.0
"""A corner is judged by where the outline is this far before and after it."""

APART_MM = 2.5
"""Of corners closer together than this the sharpest counts."""

MOST_EDGES = 60
"""A piece has no more edges than this."""

_SAME_MM = 0.05


def edges_of(ring: Segments, corner_deg: float, smooth: Sequence[Point] = ()) -> list[Segments]:
    """The edges of a closed outline, in its order, split where it turns by more than an angle, degrees.

    `smooth` are vertices that lie on a curve and are no corners. An outline with fewer than two corners is split also
    where it is halfway round from the corner (or from its highest vertex, where it has none).
    Raises BadInput if it has more corners than a piece can have edges.
    """
    lines = [flattened((segment,)) for segment in ring]
    along = np.concatenate([[0.0], np.cumsum([lengths_along(line)[-1] for line in lines])])
    turns = _turns(lines, along)
    turns[_smooth_ones(ring, smooth)] = 0.0
    corners = _sharpest(turns, along, np.radians(corner_deg))
    if len(corners) > MOST_EDGES:
        raise BadInput(
            tr("it has {count} corners", count=len(corners)),
            right=tr("up to {most_edges}; a larger corner angle finds fewer", most_edges=MOST_EDGES),
        )
    if len(corners) < 2:
        ring, corners = _halved(ring, along, corners[0] if corners else _highest(ring))
    return [_between(ring, a, b) for a, b in zip(corners, corners[1:] + corners[:1], strict=True)]


def _turns(lines: Sequence[Points], along: Floats) -> Floats:
    """By how much the outline turns where each segment starts, radians; shape (number of segments,)."""
    ring = np.concatenate([line[:-1] for line in lines] + [lines[0][:1]])
    whole = np.concatenate([ring, ring[1:], ring[1:]])
    reach = min(REACH_MM, along[-1] / 16)
    at = along[:-1] + along[-1]
    before, here, after = (points_at(whole, at + step) for step in (-reach, 0.0, reach))
    first, second = here - before, after - here
    cross = first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0]
    return np.asarray(np.abs(np.arctan2(cross, np.sum(first * second, axis=1))))


def _smooth_ones(ring: Segments, smooth: Sequence[Point]) -> list[int]:
    if not smooth:
        return []
    starts, known = np.array([segment[0] for segment in ring]), np.array(smooth)
    from scipy.spatial import cKDTree

    return list(np.flatnonzero(cKDTree(known).query(starts)[0] < _SAME_MM))


def _sharpest(turns: Floats, along: Floats, least: float) -> list[int]:
    """Indices of the corners, ascending: the sharpest first, and none too close to one that is taken."""
    taken: list[int] = []
    for index in sorted(np.flatnonzero(turns >= least), key=lambda index: -turns[index]):
        apart = [abs((along[index] - along[other] + along[-1] / 2) % along[-1] - along[-1] / 2) for other in taken]
        if min(apart, default=np.inf) >= min(APART_MM, along[-1] / 8):
            taken.append(int(index))
            if len(taken) > 10 * MOST_EDGES:
                break
    return sorted(taken)


def _highest(ring: Segments) -> int:
    return min(range(len(ring)), key=lambda index: ring[index][0][1])


def _halved(ring: Segments, along: Floats, start: int) -> tuple[Segments, list[int]]:
    """The outline with a vertex where it is halfway round from a segment's start, and the indices of both vertices."""
    turned = ring[start:] + ring[:start]
    ends = np.roll(np.diff(along), -start).cumsum()
    index = int(np.searchsorted(ends, ends[-1] / 2))
    missing = ends[-1] / 2 - (ends[index - 1] if index else 0.0)
    if missing < _SAME_MM or ends[index] - ends[-1] / 2 < _SAME_MM:
        return turned, [0, index if missing < _SAME_MM else index + 1]
    first, second = _cut(turned[index], _share_of_length(turned[index], missing))
    return (*turned[:index], first, second, *turned[index + 1 :]), [0, index + 1]


def _share_of_length(segment: Segment, wanted: float) -> float:
    """The parameter at which a Bezier segment has a certain length behind it."""
    low, high = 0.0, 1.0
    for _ in range(40):
        middle = (low + high) / 2
        enough = length(flattened((_cut(segment, middle)[0],))) >= wanted
        low, high = (low, middle) if enough else (middle, high)
    return (low + high) / 2


def _cut(segment: Segment, share: float) -> tuple[Segment, Segment]:
    """A Bezier segment cut in two at a parameter (de Casteljau)."""
    points = np.array(segment)
    first, second = [points[0]], [points[-1]]
    while len(points) > 1:
        points = points[:-1] * (1 - share) + points[1:] * share
        first.append(points[0])
        second.append(points[-1])
    return tuple((float(x), float(y)) for x, y in first), tuple((float(x), float(y)) for x, y in reversed(second))


def _between(ring: Segments, start: int, end: int) -> Segments:
    segments = ring[start:end] if start < end else ring[start:] + ring[:end]
    return _unbent(segments)


def _unbent(segments: Segments) -> Segments:
    """An edge whose vertices all lie on its chord drawn as the one straight line it is."""
    if len(segments) == 1 or any(len(segment) > 2 for segment in segments):
        return segments
    points = np.array([segments[0][0], *(segment[-1] for segment in segments)])
    chord = points[-1] - points[0]
    aside = np.abs(chord[0] * (points[:, 1] - points[0, 1]) - chord[1] * (points[:, 0] - points[0, 0]))
    reach = np.hypot(*chord)
    straight = reach > 0 and aside.max() / reach < 1e-4 and bool((np.diff(points @ chord) > 0).all())
    return line_through((segments[0][0], segments[-1][-1])) if straight else segments
