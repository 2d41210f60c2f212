"""Single lines chained into closed outlines, also where neighbouring outlines share a line."""

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

import numpy as np

from core.files.outlines import MEETS_MM, REPAIR_MM, Outline
from core.geometry.beziers import Point, Segments, flattened, reversed_segments
from core.geometry.polyline import points_at
from core.seams.walk import Finding
from core.wording import tr

SMALLEST_MM2 = 1.0
"""A closed outline encloses at least this."""

_AHEAD_MM = 1.0

Way = tuple[int, bool]
"""A line by its index, and whether it is walked from its end to its start."""


def closed_up(strokes: Sequence[Outline]) -> tuple[list[Outline], list[Outline], list[Finding]]:
    """Closed outlines, what stays open, and what was mended on the way.

    Lines that meet within MEETS_MM are chained first; gaps up to REPAIR_MM between what is left are closed as well and
    reported. The outlines keep the order of their first strokes.
    """
    numbered = list(enumerate(strokes))
    done = [(index, stroke) for index, stroke in numbered if stroke.closed]
    loose = [(index, stroke) for index, stroke in numbered if not stroke.closed]
    findings: list[Finding] = []
    for reach in (MEETS_MM, REPAIR_MM):
        rings, loose = _rings_and_rest(loose, reach)
        findings += [found for _, ring in rings for found in _mended(ring)]
        done += rings
    outlines = [_snapped(outline) for _, outline in sorted(done, key=lambda item: item[0])]
    return outlines, [outline for _, outline in sorted(loose, key=lambda item: item[0])], findings


def _mended(ring: Outline) -> list[Finding]:
    ends = zip(ring.segments, ring.segments[1:] + ring.segments[:1], strict=True)
    gap, point = max((math.dist(a[-1], b[0]), a[-1]) for a, b in ends)
    if gap <= MEETS_MM:
        return []
    what = tr(
        "a gap of {gap:.2f} mm at ({point:.1f}, {point_2:.1f}) was closed", gap=gap, point=point[0], point_2=point[1]
    )
    return [Finding(tr("outline {title}", title=ring.title), what, tr("look at the place on the piece"))]


def _snapped(ring: Outline) -> Outline:
    """The closed outline with every segment starting exactly where the one before it ends."""
    segments = list(ring.segments)
    for index, segment in enumerate(segments):
        segments[index] = (segments[index - 1][-1], *segment[1:])
    return replace(ring, segments=tuple(segments))


Numbered = list[tuple[int, Outline]]


def _rings_and_rest(loose: Numbered, reach: float) -> tuple[Numbered, Numbered]:
    net = _Net.of([stroke for _, stroke in loose], reach)
    ways = net.without_dead_ends()
    walked = [(_walked(loose, face, closed=True), face) for face in net.faces(ways)]
    kept = [(ring, face) for ring, face in walked if ring[1].area_mm2 > SMALLEST_MM2]
    used = {index for _, face in kept for index, _ in face}
    rings = [ring for ring, _ in kept]
    rest = net.chains([index for index in range(len(loose)) if index not in used])
    return rings, [_walked(loose, chain, closed=False) for chain in rest]


def _walked(loose: Numbered, ways: Sequence[Way], closed: bool) -> tuple[int, Outline]:
    """The outline drawn by walking some lines, with what those have in common."""
    strokes = [loose[index][1] for index, _ in ways]
    first = min(range(len(ways)), key=lambda place: loose[ways[place][0]][0])
    segments: Segments = ()
    for stroke, (_, back) in zip(strokes, ways, strict=True):
        segments += reversed_segments(stroke.segments) if back else stroke.segments
    outline = Outline(
        segments,
        closed,
        label=_common(stroke.label for stroke in strokes),
        layer=_common(stroke.layer for stroke in strokes),
        place=strokes[first].place,
    )
    return loose[ways[first][0]][0], outline


def _common(words: Iterable[str]) -> str:
    found = set(words)
    return found.pop() if len(found) == 1 else ""


@dataclass(frozen=True)
class _Net:
    """Lines and the nodes at which their ends meet; `ends[i]` are the nodes at the start and the end of line i."""

    lines: tuple[Segments, ...]
    ends: tuple[tuple[int, int], ...]

    @classmethod
    def of(cls, strokes: Sequence[Outline], reach: float) -> "_Net":
        nodes = _Nodes(reach)
        ends = [(nodes.at(stroke.segments[0][0]), nodes.at(stroke.segments[-1][-1])) for stroke in strokes]
        return cls(tuple(stroke.segments for stroke in strokes), tuple(ends))

    def _at_nodes(self, indices: Iterable[int]) -> dict[int, list[Way]]:
        """For every node the ways that leave it."""
        leaving: dict[int, list[Way]] = defaultdict(list)
        for index in indices:
            leaving[self.ends[index][0]].append((index, False))
            leaving[self.ends[index][1]].append((index, True))
        return leaving

    def without_dead_ends(self) -> list[Way]:
        """Both ways along every line that is no dead end and does not lead to dead ends only."""
        leaving = self._at_nodes(range(len(self.lines)))
        degree = {node: len(ways) for node, ways in leaving.items()}
        alive = dict.fromkeys(range(len(self.lines)))
        dead = [node for node, count in degree.items() if count == 1]
        while dead:
            for index, back in leaving[dead.pop()]:
                if index in alive:
                    del alive[index]
                    node = self._target((index, back))
                    degree[node] -= 1
                    if degree[node] == 1:
                        dead.append(node)
        return [(index, back) for index in alive for back in (False, True)]

    def _target(self, way: Way) -> int:
        return self.ends[way[0]][0 if way[1] else 1]

    def faces(self, ways: Sequence[Way]) -> list[list[Way]]:
        """The ways round every face of the net, each face on the right hand of its ways (clockwise, y down)."""
        after = self._turnings(ways)
        faces, seen = [], set()
        for start in ways:
            face: list[Way] = []
            way = start
            while way not in seen:
                seen.add(way)
                face.append(way)
                way = after[way]
            if face:
                faces.append(face)
        return faces

    def _turnings(self, ways: Sequence[Way]) -> dict[Way, Way]:
        """For every way the one to take at its end: the sharpest turn to the right."""
        leaving: dict[int, list[Way]] = defaultdict(list)
        for way in ways:
            leaving[self._target((way[0], not way[1]))].append(way)
        after = {}
        for around in leaving.values():
            around.sort(key=self._bearing)
            for place, way in enumerate(around):
                after[way[0], not way[1]] = around[place - 1]
        return after

    def _bearing(self, way: Way) -> float:
        index, back = way
        points = flattened(reversed_segments(self.lines[index]) if back else self.lines[index])
        ahead = points_at(points, np.array([_AHEAD_MM]))[0] - points[0]
        return math.atan2(ahead[1], ahead[0])

    def chains(self, indices: Sequence[int]) -> list[list[Way]]:
        """The lines named, joined end to end wherever exactly two of them meet."""
        leaving = self._at_nodes(indices)
        seen: set[int] = set()
        chains = []
        for index in indices:
            if index not in seen:
                seen.add(index)
                before = self._onwards((index, True), leaving, seen)
                after = self._onwards((index, False), leaving, seen)
                chains.append([(i, not back) for i, back in reversed(before)] + [(index, False), *after])
        return chains

    def _onwards(self, way: Way, leaving: dict[int, list[Way]], seen: set[int]) -> list[Way]:
        found: list[Way] = []
        while True:
            around = leaving[self._target(way)]
            fresh = [other for other in around[:2] if other[0] not in seen]
            if len(around) != 2 or not fresh:
                return found
            way = fresh[0]
            seen.add(way[0])
            found.append(way)


class _Nodes:
    """Points numbered so that points within reach of a numbered one share its number."""

    def __init__(self, reach: float) -> None:
        self._reach = reach
        self._cells: dict[tuple[int, int], list[tuple[Point, int]]] = defaultdict(list)
        self._count = 0

    def at(self, point: Point) -> int:
        """The number of a point."""
        column, row = math.floor(point[0] / self._reach), math.floor(point[1] / self._reach)
        near = [
            (math.dist(point, other), number)
            for x in (column - 1, column, column + 1)
            for y in (row - 1, row, row + 1)
            for other, number in self._cells.get((x, y), ())
        ]
        distance, number = min(near, default=(math.inf, -1))
        if distance > self._reach:
            number, self._count = self._count, self._count + 1
            self._cells[column, row].append((point, number))
        return number
