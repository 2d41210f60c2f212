"""Where a patch goes on the panel whose stripes it continues, told by a stripe and a bar of both."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np
from shapely.geometry import LineString, Polygon

from core.geometry.paths import Points
from core.geometry.polyline import Floats, lengths_along, points_at
from core.model.cloth import Repeat, Way
from core.model.panel import Panel
from core.model.project import Placement
from core.papers.figures import PanelFigures
from core.papers.words import Step, sideways
from core.seams.patch import Patch
from core.seams.stripes import Across, crossing_heights
from core.units import Units
from core.wording import listed, tr

STATIONS = 65
"""Points of a line across a patch, between which stripes and bars are straight."""


def patch_step(figures: PanelFigures, titles: Mapping[str, str], units: Units) -> list[Step]:
    """Where a patch goes on its panel; nothing for what isn't one."""
    patch = figures.patch
    if patch is None:
        return []
    title = titles.get(patch.under.name, patch.under.name)
    words = (_stripe_words(met, units) for way in patch.cloth.ways if (met := meeting(patch, way)))
    return [
        Step(
            tr(
                "It is sewn onto {title}, inside the outline drawn on that panel's pattern, stripe on stripe.",
                title=title,
            ),
            (
                tr("Its middle: {place}.", place=listed(_place_words(patch, patch.on.at, units))),
                *words,
                tr("Largest step between the two: {step}.", step=units.say_fine(patch.apart_mm)),
            ),
        )
    ]


@dataclass(frozen=True, eq=False)
class Meeting:
    """A lead stripe or bar of a patch on the line through its middle, and the panel's on which it belongs.

    `at_mm` runs along that line, which is `length_mm` long, from the patch's left (`across`) or upper edge; it lies
    beyond the line where no such stripe crosses the patch. `on_panel` is the place in the panel's frame.
    """

    patch: Patch
    way: Way
    across: bool
    length_mm: float
    at_mm: float
    on_panel: tuple[float, float]


def meeting(patch: Patch, way: Way) -> Meeting | None:
    """The lead stripe of a patch that lies nearest to its middle, or the panel's where none crosses it.

    None where that is farther from the patch than one repeat.
    """
    repeat = patch.cloth.repeat_of(way)
    assert repeat is not None
    across = _square_to(patch.at, way)
    line = _middle_line(patch.panel, across)
    length = float(lengths_along(line)[-1])
    mine = _leads_on(line, patch.at, patch, repeat, way)
    wider = _lengthened(line, repeat.width)
    theirs = _leads_on(patch.on_panel(wider), patch.under_at, patch, repeat, way) - repeat.width
    if not len(theirs):
        return None
    at = _nearest(mine if len(mine) else theirs, length / 2)
    x, y = patch.on_panel(points_at(wider, np.array([_nearest(theirs, at) + repeat.width])))[0]
    return Meeting(patch, way, across, length, at, (float(x), float(y)))


def _square_to(at: Placement, way: Way) -> bool:
    """Whether the stripes of a way are crossed by going across a panel, rather than down it."""
    upright = abs(math.cos(math.radians(at.turn_deg))) >= math.sqrt(0.5)
    return upright == (way == "lengthwise")


def _middle_line(panel: Panel, across: bool) -> Points:
    """The part of the line through a panel's middle, from the left or from above, that lies within its stitching
    line; shape (STATIONS, 2)."""
    way = np.array([1.0, 0.0] if across else [0.0, 1.0])
    far = float(np.ptp(panel.net_ring, axis=0).max())
    ends = panel.middle + way * far * np.array([[-1.0], [1.0]])
    left, top, right, bottom = LineString(ends).intersection(Polygon(panel.net_ring)).bounds
    return np.asarray(np.linspace((left, top), (right, bottom), STATIONS))


def _lengthened(line: Points, by: float) -> Points:
    """A straight line longer at both ends."""
    along = (line[-1] - line[0]) / float(lengths_along(line)[-1])
    return np.asarray(np.linspace(line[0] - along * by, line[-1] + along * by, len(line)))


def _leads_on(line: Points, at: Placement, patch: Patch, repeat: Repeat, way: Way) -> Floats:
    """Where the centres of lead stripes cross a line of a panel that lies somewhere on the patch's cloth."""
    kind = next(kind for kind in repeat.kinds if repeat.lead_stripe in kind)
    places = np.array([repeat.origin + stripe.at for stripe in kind])
    return crossing_heights(lengths_along(line), Across.of(at, patch.cloth, way)(line), places, repeat.width)[0]


def _nearest(places: Floats, to: float) -> float:
    return float(places[np.argmin(np.abs(places - to))])


def _stripe_words(met: Meeting, units: Units) -> str:
    repeat = met.patch.cloth.repeat_of(met.way)
    assert repeat is not None
    lead = tr("lead stripe ({name})" if met.way == "lengthwise" else "lead bar ({name})", name=repeat.lead_stripe.name)
    there = _seen_from_panel(met, units)
    if 0.0 <= met.at_mm <= met.length_mm:
        start = tr("from its left edge at half its height") if met.across else tr("below its top at half its width")
        return tr(
            "Its {stripe}, {at} {start}, lies on the panel's, {there}.",
            stripe=lead,
            at=units.say(met.at_mm),
            start=start,
            there=there,
        )
    return tr("The panel's {stripe}, {there}: {beyond} its edge.", stripe=lead, there=there, beyond=_beyond(met, units))


def _beyond(met: Meeting, units: Units) -> str:
    """How far outside a patch a stripe lies that doesn't cross it."""
    if met.at_mm < 0:
        return tr("{far} to the left of" if met.across else "{far} above", far=units.say(-met.at_mm))
    return tr("{far} to the right of" if met.across else "{far} below", far=units.say(met.at_mm - met.length_mm))


def _seen_from_panel(met: Meeting, units: Units) -> str:
    """A place on the panel by what tells its stripes apart there."""
    aside, down = _place_words(met.patch, met.on_panel, units)
    return aside if _square_to(met.patch.under_at, met.way) else down


def _place_words(patch: Patch, place: tuple[float, float], units: Units) -> tuple[str, str]:
    """A place in the panel's frame: from its grain line, and from that line's top end."""
    ring, middle = patch.under.net_ring, float(patch.under.middle[0])
    upright = LineString([(middle, ring[:, 1].min() - 1.0), (middle, ring[:, 1].max() + 1.0)])
    top = float(upright.intersection(Polygon(ring)).bounds[1])
    off = place[0] - middle
    aside = tr("{sideways} of the panel's grain line", sideways=sideways(off, units))
    down = tr("{far} below its top end", far=units.say(place[1] - top))
    return tr("on the panel's grain line") if abs(off) < units.nothing_mm else aside, down
