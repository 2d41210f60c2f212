"""Gaps between stripes so narrow that the picture blurs them away: found by what plain stripes leave unaccounted for.

Where two stripes lie a pixel or two apart, the light of the ground between them runs into both, and nothing steep is
seen. A cut without the gap describes the profile badly, though: its stripes come out too wide, and too pale. With the
gap in place, in the colour the ground has elsewhere, edges, blur and colours fall where they should.
"""

from collections.abc import Iterator

import numpy as np
import numpy.typing as npt

from core.swatch.profile import Profile
from core.swatch.repeat import ground_of
from core.swatch.stripes import Segments, described, in_kinds, misfit, unexplained

LEAST_GAP_PX = 0.15
BETTER = 0.5
"""A gap is believed if it leaves less than this share of the misfit."""
WELL_EXPLAINED = 2e-4
BADLY_EXPLAINED = 0.003
"""Where more is left unaccounted for, any colour found may be the ground's."""
HOPEFUL = 0.95
"""A gap that leaves more than this share of it at first is given up."""
MOST_TRIED, MOST_GROUNDS, MOST_STRETCHES = 4, 2, 12
"""Touching edges tried one by one, colours tried as the ground's, stretches with gaps: more would take too long."""
_FIRST_STEPS, _STEPS = 20, 40
_HALF_PX, _ASIDE_PX = 0.7, 1.0


def with_gaps(profile: Profile, segments: Segments) -> Segments:
    """The same, with every gap that the profile needs; `segments` as they are, where it needs none."""
    found = segments
    while len(found.edges) < MOST_STRETCHES and unexplained(profile, found) > WELL_EXPLAINED:
        better = _with_more(profile, found, (0.0,)) or _with_more(profile, found, (-_ASIDE_PX, _ASIDE_PX))
        if better is None:
            break
        found = better
    return segments if found is segments else in_kinds(profile, found)


def _with_more(profile: Profile, segments: Segments, asides: tuple[float, ...]) -> Segments | None:
    """The best of those with more gaps, first looked for so many px beside the edges; None if none is believed."""
    best = min(_tried(profile, segments, asides), key=lambda one: misfit(profile, one), default=None)
    return best if best and misfit(profile, best) < BETTER * misfit(profile, segments) else None


def _tried(profile: Profile, segments: Segments, asides: tuple[float, ...]) -> Iterator[Segments]:
    """The stretches with one more gap, or one wherever there may be one: cloth that is even needs them in pairs."""
    for ground in _grounds(profile, segments):
        touching = np.flatnonzero((segments.kind != ground) & (np.roll(segments.kind, 1) != ground))
        for where in _places(touching):
            for aside in asides:
                tried = _fitted(profile, _opened(segments, where, ground, aside), _FIRST_STEPS)
                if misfit(profile, tried) > HOPEFUL * misfit(profile, segments):
                    continue
                tried = _fitted(profile, _fitted(profile, tried))
                if tried.widths.min() >= LEAST_GAP_PX:
                    yield tried


def _grounds(profile: Profile, segments: Segments) -> list[int]:
    """The kinds that a gap may show, those that cover most first."""
    if unexplained(profile, segments) < BADLY_EXPLAINED:
        return [ground_of(segments)]
    cover = np.bincount(segments.kind, weights=segments.widths)
    return [int(kind) for kind in np.argsort(-cover)[:MOST_GROUNDS]]


def _places(touching: npt.NDArray[np.intp]) -> list[npt.NDArray[np.intp]]:
    """Sets of edges at which gaps are tried together: each for itself, if they are few, and all."""
    alone = [np.array([one]) for one in touching] if len(touching) <= MOST_TRIED else []
    return alone + ([touching] if len(touching) > 1 else [])


def _opened(segments: Segments, where: npt.NDArray[np.intp], ground: int, aside: float) -> Segments:
    """The stretches with a gap of the ground's colour about the edges `where`, or so many px aside."""
    widths, light = segments.widths, segments.light
    room = 0.3 * np.minimum(widths, np.roll(widths, 1))[where]
    half, middle = np.minimum(_HALF_PX, room), segments.edges[where] + np.clip(aside, -room, room)
    edges = segments.edges.copy()
    edges[where] = middle + half
    shown = light[int(np.argmax(segments.kind == ground))]
    return Segments(
        np.insert(edges, where, middle - half),
        segments.width,
        segments.blur,
        np.insert(light, where, shown, axis=0),
        np.insert(segments.kind, where, ground),
    )


def _fitted(profile: Profile, segments: Segments, steps: int = _STEPS) -> Segments:
    """Fitted from where they are; no edge runs further than half a stretch at a time, so that it may take several."""
    return described(profile, segments.edges, segments.kind, segments.blur, steps)
