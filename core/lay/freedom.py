"""What may change for the lay's sake while no seam gets worse: panels end for end, and common shifts of a group."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from itertools import chain

import msgspec

from core.lay.legal import panels_on
from core.lay.ways import end_for_end
from core.matching.problem import mirrors_pairs
from core.model.cloth import WAYS, Cloth, Way
from core.model.panel import on_of, panels_of
from core.model.pattern import PanelName
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import Measurement, measure, read_seam, remeasure

WORSE_MM = 1e-6
"""A seam whose rms or worst step grows by no more than this has not got worse."""

SHIFTS = 4
"""How many shifts of a group, evenly spread over a period, are looked at."""


@dataclass(frozen=True, eq=False)
class Freedom:
    """The freedom of one cloth's panels in a project that is matched; `garment` is the project's."""

    project: Project
    cloth: Cloth
    garment: Garment

    @cached_property
    def either_way(self) -> frozenset[PanelName]:
        """Panels that may lie end for end each for itself: any on plain cloth, on even repeats those that keep their
        seams; none on one-way cloth, where stripes or bars are uneven, or among those that are held."""
        repeats = [repeat for repeat in (self.cloth.repeat, self.cloth.crosswise) if repeat is not None]
        if self.cloth.one_way or not all(repeat.even for repeat in repeats):
            return frozenset()
        loose = [name for name in self._names if not self.project.placement(name).hold]
        if not repeats:
            return frozenset(loose)
        straight = self._without_bow
        return frozenset(name for name in loose if straight._keeps_seams(straight._turned((name,))))

    def others(self) -> Iterator[Project]:
        """The project with groups of panels shifted together, or on an uneven repeat turned as one, where no seam gets
        worse; one group after another. A panel that is sewn to none on its cloth stays where it was put.

        On a bowed cloth that is told as if its bars were straight: the lay brings them together again.
        """
        straight = self._without_bow
        if self.cloth.repeat is None:
            return
        for way in self._groups("lengthwise"):
            if self._loose(way):
                changed = (other for other in straight._changed(way) if straight._keeps_seams(other))
                yield from (self.project.placed(other.placements) for other in changed)

    @cached_property
    def along(self) -> dict[PanelName, int]:
        """Which way each panel goes when a group is shifted across its bars: 1, -1, or 0 for those that stay."""
        ways = [way if self._loose(way) else dict.fromkeys(way, 0) for way in self._groups("crosswise")]
        return {name: sign for way in ways for name, sign in way.items()}

    @cached_property
    def _without_bow(self) -> "Freedom":
        if not self.cloth.is_bowed:
            return self
        cloth = msgspec.structs.replace(self.cloth, bow_percent=0.0)
        cloths = tuple(cloth if one.id == cloth.id else one for one in self.project.cloths)
        project = msgspec.structs.replace(self.project, cloths=cloths)
        return Freedom(project, cloth, Garment.of(project))

    @cached_property
    def _names(self) -> tuple[PanelName, ...]:
        return tuple(panel.name for panel in panels_on(self.project, self.cloth))

    @cached_property
    def _before(self) -> Measurement:
        return measure(self.project, self.garment)

    def _changed(self, way: dict[PanelName, int]) -> Iterator[Project]:
        repeat, centre = self.cloth.repeat, self.project.match.centre
        assert repeat is not None
        pinned = centre.on != "free" and self._centred(way)
        if all(way.values()) and not pinned:
            yield from (self._shifted(way, repeat.period * part / SHIFTS) for part in range(1, SHIFTS))
        if not (self.cloth.one_way or repeat.even or (pinned and centre.on == "ground")):
            yield self._turned(tuple(way))

    def _loose(self, way: dict[PanelName, int]) -> bool:
        return len(way) > 1 and not any(self.project.placement(name).hold for name in way)

    def _centred(self, way: dict[PanelName, int]) -> bool:
        centre = self.project.match.centre
        ends = [line.panels for line in self.garment.seams if line.sewn.seam.name == centre.seam]
        return bool(way.keys() & {centre.panel, *(name for pair in ends for name in pair)})

    def _groups(self, over: Way) -> Iterator[dict[PanelName, int]]:
        """Panels that hang together, with the way each goes when the group shifts: 1, -1, or 0 where none may.

        A seam keeps its step if both sides go the same way where they lean alike, opposite ways else; the two of a
        mirrored pair go opposite ways across stripes, the same way across bars.
        """
        links = list(self._links(over))
        left = dict.fromkeys(self._names)
        while left:
            way = {next(iter(left)): 1}
            for _ in self._names:
                for a, b, relation in links:
                    for one, other in ((a, b), (b, a)):
                        if one in way and other not in way:
                            way[other] = way[one] * relation
            firm = all(way[a] * relation == way[b] for a, b, relation in links if a in way)
            yield way if firm else dict.fromkeys(way, 0)
            for name in way:
                del left[name]

    def _links(self, over: Way) -> Iterator[tuple[PanelName, PanelName, int]]:
        here = set(self._names)
        for line in self.garment.seams:
            reading = read_seam(self.project, line, over)
            if reading is not None and here.issuperset(line.panels):
                a, b = line.panels
                yield a, b, 1 if reading.lean == "alike" else -1
        yield from self._patches(here)
        if mirrors_pairs(self.project, self.cloth):
            for piece in self.project.pieces:
                if piece.cut == "pair" and here.issuperset(piece.panel_names):
                    right, left = piece.panel_names
                    alike = self.project.placement(right).turned == self.project.placement(left).turned
                    yield right, left, 1 if alike == (over == "crosswise") else -1

    def _patches(self, here: set[PanelName]) -> Iterator[tuple[PanelName, PanelName, int]]:
        """What lies on a panel goes the way that its panel goes, or opposite if it lies end for end to it."""
        for piece in self.project.pieces:
            for panel in panels_of(piece) if piece.on else ():
                name, under = panel.name, on_of(panel).panel
                if here >= {name, under}:
                    at = self.project.placement
                    yield under, name, 1 if at(name).turned == at(under).turned else -1

    def _shifted(self, way: dict[PanelName, int], by_mm: float) -> Project:
        at = {name: self.project.placement(name) for name in way}
        du, dv = self.cloth.shift_for(by_mm, 0.0) if self.cloth.crosswise else (by_mm, 0.0)
        return self.project.placed(
            {
                name: msgspec.structs.replace(at[name], u=at[name].u + sign * du, v=at[name].v + sign * dv)
                for name, sign in way.items()
            }
        )

    def _turned(self, names: tuple[PanelName, ...]) -> Project:
        return self.project.placed({name: end_for_end(self.project.placement(name), self.cloth) for name in names})

    def _keeps_seams(self, other: Project) -> bool:
        after = remeasure(self._before, other, frozenset(self._names))
        return no_worse(self._before, after)


def no_worse(before: Measurement, after: Measurement) -> bool:
    """Whether no seam's rms or worst step has grown, either way."""
    pairs = (zip(before.readings_of(way), after.readings_of(way), strict=True) for way in WAYS)
    for old, new in chain.from_iterable(pairs):
        if old is None or new is None or old.rms_mm is None or new.rms_mm is None:
            continue
        if new.rms_mm > old.rms_mm + WORSE_MM:
            return False
        if old.worst and new.worst and new.worst[0] > old.worst[0] + WORSE_MM:
            return False
    return True
