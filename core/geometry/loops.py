"""Taking the loops out of a polyline that crosses itself, as the parallel of a narrow bend does."""

import numpy as np
import shapely
from shapely import STRtree

from core.geometry.paths import Points, without_repeats

Crossing = tuple[float, float, Points]
"""Where a polyline meets itself: the earlier and the later place, as segment number plus share of it, and the point."""


def without_loops(line: Points) -> Points:
    """The polyline from its start to its end, cut short at every crossing with itself; shape (n, 2)."""
    if shapely.linestrings(line).is_simple:
        return line
    kept, here = [line[:1]], 0.0
    for earlier, later, point in _crossings(line):
        if earlier >= here:
            kept += [line[int(here) + 1 : int(earlier) + 1], point[None]]
            here = later
    return without_repeats(np.concatenate([*kept, line[int(here) + 1 :]]))


def _crossings(line: Points) -> list[Crossing]:
    """All crossings of segments that are not neighbours, by their earlier place."""
    steps = np.diff(line, axis=0)
    segments = shapely.linestrings(np.stack([line[:-1], line[1:]], axis=1))
    earlier, later = STRtree(segments).query(segments, predicate="intersects")
    apart = later > earlier + 1
    earlier, later = earlier[apart], later[apart]
    gap = line[later] - line[earlier]
    slant = _cross(steps[earlier], steps[later])
    known = np.abs(slant) > 1e-12
    earlier, later, gap, slant = earlier[known], later[known], gap[known], slant[known]
    share_earlier = np.clip(_cross(gap, steps[later]) / slant, 0.0, 1.0 - 1e-12)
    share_later = np.clip(_cross(gap, steps[earlier]) / slant, 0.0, 1.0 - 1e-12)
    points = line[earlier] + share_earlier[:, None] * steps[earlier]
    found = zip((earlier + share_earlier).tolist(), (later + share_later).tolist(), points, strict=True)
    return sorted(found, key=lambda crossing: crossing[0])


def _cross(first: Points, second: Points) -> Points:
    return np.asarray(first[:, 0] * second[:, 1] - first[:, 1] * second[:, 0])
