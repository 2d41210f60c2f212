"""The band of a piece between one of its edges and the parallel at a depth, cut off by the neighbouring edges."""

from dataclasses import dataclass

import numpy as np
import shapely
from shapely.geometry import LineString, Point, Polygon

from core.errors import BadInput
from core.geometry.offset import shifted
from core.geometry.paths import Points, without_repeats
from core.geometry.polyline import distance_of, length, stretch
from core.wording import tr

INNER = "inner edge"
"""Name of the loose edge of a band."""

REACH = 6.0
"""How many times the depth a parallel is carried on straight to meet the sides."""


@dataclass(frozen=True, eq=False)
class Band:
    """A band, clockwise (y down), by edge: the followed edge, one side, the inner edge, the other side.

    `part_of` names the edge of the piece that each edge of the band is a part of (None for the inner edge), `kept` the
    stretch of it that it is, mm along it.
    """

    net: dict[str, Points]
    part_of: dict[str, str | None]
    kept: dict[str, tuple[float, float]]


@dataclass(frozen=True, eq=False)
class _Part:
    edge: str
    line: Points
    start: float


def band_along(net: dict[str, Points], edge: str, depth: float) -> Band:
    """The band along an edge of a closed net line, to a depth, mm. Raises BadInput if the piece is not that deep."""
    names = list(net)
    first = names.index(edge)
    others = names[first + 1 :] + names[:first]
    way = without_repeats(np.concatenate([net[name] for name in others]))
    parallel = _carried_on(shifted(net[edge], -depth), REACH * depth)
    leave, back = _crossings(way, parallel)
    inner = _inner(parallel, back, leave)
    ahead = _parts(net, others, 0.0, distance_of(way, leave))
    behind = _parts(net, others, distance_of(way, back), length(way))
    band = _assembled(_Part(edge, net[edge], 0.0), ahead, inner, behind)
    _check_band(band, net)
    return band


def _too_deep() -> BadInput:
    return BadInput(tr("its depth reaches through the piece"), right=tr("a smaller depth"))


def _carried_on(line: Points, by: float) -> Points:
    steps = line[0] - line[1], line[-1] - line[-2]
    before, after = (step / np.hypot(*step) * by for step in steps)
    return np.vstack([line[0] + before, line, line[-1] + after])


def _crossings(way: Points, parallel: Points) -> tuple[Points, Points]:
    """Where the way round the piece from the edge's end first meets the parallel, and where it last does."""
    common = LineString(way).intersection(LineString(parallel))
    points = [np.array(point) for part in shapely.get_parts(common) for point in part.coords]
    if len(points) < 2:
        raise _too_deep()
    line = LineString(way)
    ordered = sorted(points, key=lambda point: float(line.project(Point(point))))
    return ordered[0], ordered[-1]


def _inner(parallel: Points, back: Points, leave: Points) -> Points:
    start, end = distance_of(parallel, back), distance_of(parallel, leave)
    if start > end - 1e-6:
        raise _too_deep()
    return stretch(parallel, start, end)[::-1]


def _parts(net: dict[str, Points], names: list[str], start: float, end: float) -> list[_Part]:
    """The edges, whole or in part, that lie between two distances along the way through them."""
    parts, begun = [], 0.0
    for name in names:
        size = length(net[name])
        low, high = max(start - begun, 0.0), min(end - begun, size)
        if high - low > 1e-3:
            parts.append(_Part(name, stretch(net[name], low, high), low))
        begun += size
    return parts


def _assembled(followed: _Part, ahead: list[_Part], inner: Points, behind: list[_Part]) -> Band:
    net: dict[str, Points] = {}
    part_of: dict[str, str | None] = {}
    kept: dict[str, tuple[float, float]] = {}
    for part in (followed, *ahead, None, *behind):
        name = _fresh(INNER if part is None else part.edge, net)
        net[name] = inner if part is None else part.line
        part_of[name] = None if part is None else part.edge
        if part is not None:
            kept[name] = (part.start, part.start + length(part.line))
    return Band(net, part_of, kept)


def _fresh(name: str, taken: dict[str, Points]) -> str:
    return name if name not in taken else _fresh(f"{name} again", taken)


def _check_band(band: Band, net: dict[str, Points]) -> None:
    shape = Polygon(np.concatenate([line[:-1] for line in band.net.values()]))
    whole = Polygon(np.concatenate([line[:-1] for line in net.values()]))
    if not shape.is_valid or not whole.buffer(0.01).contains(shape):
        raise _too_deep()
