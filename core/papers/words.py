"""Numbers and places put into words, the same way on every page and in every table."""

from dataclasses import dataclass

from core.model.cloth import Cloth
from core.papers.figures import Expected, GrainEnd, PanelFigures
from core.units import Units
from core.wording import later, number, tr


@dataclass(frozen=True)
class Step:
    """One thing to do, and the measures it goes by, each on a line of its own."""

    text: str
    measures: tuple[str, ...] = ()


def sideways(value: float, units: Units) -> str:
    """A signed length across the cloth: "3.2 mm to the right"."""
    right, left = later("{far} to the right"), later("{far} to the left")
    return tr(right if value > 0 else left, far=units.say(abs(value)))


def degrees(value: float) -> str:
    """A turn to a hundredth of a degree, without a negative zero."""
    return number(value, 2)


def off_lead_words(end: GrainEnd, units: Units) -> str:
    """Where a grain end lies against its lead stripe: "3.2 mm to the right of the middle", "on the middle"."""
    if end.off_lead_mm is None:
        return ""
    if abs(end.off_lead_mm) < units.nothing_mm:
        return tr("on the middle")
    return tr("{sideways} of the middle", sideways=sideways(end.off_lead_mm, units))


def other_stripe_words(figures: PanelFigures, units: Units) -> str:
    """Which stripe the bottom end is set by, seen from the one of the top end."""
    top, bottom = figures.grain_top.lead_mm, figures.grain_bottom.lead_mm
    if top is None or bottom is None:
        return ""
    if abs(bottom - top) < units.nothing_mm:
        return tr("the same one")
    return tr("the one {sideways} of that", sideways=sideways(bottom - top, units))


def lead_words(cloth: Cloth) -> str:
    """The lead stripe by name."""
    return tr("lead stripe ({name})", name=cloth.repeat.lead_stripe.name) if cloth.repeat else ""


def where_on_edge(end: GrainEnd, units: Units) -> str:
    """A grain end as a place on the paper piece."""
    if end.along_mm < units.nothing_mm:
        return tr("the corner of the {edge} edge and the {other} edge", edge=end.edge, other=end.corner_with)
    along = units.say(end.along_mm)
    return tr(
        "a point on the {edge} edge {along} from its corner with the {other} edge",
        edge=end.edge,
        along=along,
        other=end.corner_with,
    )


def expected_words(expected: Expected, partner: str, units: Units) -> str:
    """What to expect at a seam."""
    if expected.rms_mm is None or expected.worst_mm is None:
        return tr("{seam}, to {partner}: no stripes to match here.", seam=expected.seam, partner=partner)
    rms, worst = units.say_fine(expected.rms_mm), units.say_fine(expected.worst_mm)
    at = (
        tr(" at {height} down", height=units.say_whole(expected.worst_at_mm))
        if expected.worst_at_mm is not None
        else ""
    )
    return tr(
        "{seam}, to {partner}: rms {rms}, worst {worst}{at}.",
        seam=expected.seam,
        partner=partner,
        rms=rms,
        worst=worst,
        at=at,
    )
