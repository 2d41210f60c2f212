"""Numbers and places put into words, the same way on every page and in every table."""

from dataclasses import dataclass

from core.model.cloth import Cloth
from core.papers.figures import Expected, GrainEnd, PanelFigures
from core.units import Units


@dataclass(frozen=True)
class Step:
    """One thing to do, and the measures it goes by, each on a line of its own."""

    text: str
    measures: tuple[str, ...] = ()


def sideways(value: float, units: Units) -> str:
    """A signed length across the cloth: "3.2 mm to the right"."""
    return f"{units.say(abs(value))} to the {'right' if value > 0 else 'left'}"


def degrees(value: float) -> str:
    """A turn to a hundredth of a degree, without a negative zero."""
    return f"{round(value, 2) + 0.0:.2f}"


def off_lead_words(end: GrainEnd, units: Units) -> str:
    """Where a grain end lies against its lead stripe: "3.2 mm to the right of the middle", "on the middle"."""
    if end.off_lead_mm is None:
        return ""
    if abs(end.off_lead_mm) < units.nothing_mm:
        return "on the middle"
    return f"{sideways(end.off_lead_mm, units)} of the middle"


def other_stripe_words(figures: PanelFigures, units: Units) -> str:
    """Which stripe the bottom end is set by, seen from the one of the top end."""
    top, bottom = figures.grain_top.lead_mm, figures.grain_bottom.lead_mm
    if top is None or bottom is None:
        return ""
    if abs(bottom - top) < units.nothing_mm:
        return "the same one"
    return f"the one {sideways(bottom - top, units)} of that"


def lead_words(cloth: Cloth) -> str:
    """The lead stripe by name."""
    return f"lead stripe ({cloth.repeat.lead_stripe.name})" if cloth.repeat else ""


def where_on_edge(end: GrainEnd, units: Units) -> str:
    """A grain end as a place on the paper piece."""
    if end.along_mm < units.nothing_mm:
        return f"the corner of the {end.edge} edge and the {end.corner_with} edge"
    along = units.say(end.along_mm)
    return f"a point on the {end.edge} edge {along} from its corner with the {end.corner_with} edge"


def expected_words(expected: Expected, partner: str, units: Units) -> str:
    """What to expect at a seam."""
    if expected.rms_mm is None or expected.worst_mm is None:
        return f"{expected.seam}, to {partner}: no stripes to match here."
    rms, worst = units.say_fine(expected.rms_mm), units.say_fine(expected.worst_mm)
    at = f" at {units.whole(expected.worst_at_mm)} {units.name} down" if expected.worst_at_mm is not None else ""
    return f"{expected.seam}, to {partner}: rms {rms}, worst {worst}{at}."
