"""Numbers and places put into words, the same way on every page and in every table."""

from core.model.cloth import Cloth
from core.papers.figures import Expected, GrainEnd, PanelFigures

NOTHING_MM = 0.05
"""What rounds to 0.0 mm is nothing."""


def mm(value: float) -> str:
    """A length to a tenth of a millimetre, without a negative zero."""
    return f"{round(value, 1) + 0.0:.1f}"


def sideways(value: float) -> str:
    """A signed length across the cloth: "3.2 mm to the right"."""
    return f"{mm(abs(value))} mm to the {'right' if value > 0 else 'left'}"


def degrees(value: float) -> str:
    """A turn to a hundredth of a degree, without a negative zero."""
    return f"{round(value, 2) + 0.0:.2f}"


def off_lead_words(end: GrainEnd) -> str:
    """Where a grain end lies against its lead stripe: "3.2 mm to the right of the middle", "on the middle"."""
    if end.off_lead_mm is None:
        return ""
    if abs(end.off_lead_mm) < NOTHING_MM:
        return "on the middle"
    return f"{sideways(end.off_lead_mm)} of the middle"


def other_stripe_words(figures: PanelFigures) -> str:
    """Which stripe the bottom end is set by, seen from the one of the top end."""
    top, bottom = figures.grain_top.lead_mm, figures.grain_bottom.lead_mm
    if top is None or bottom is None:
        return ""
    if abs(bottom - top) < NOTHING_MM:
        return "the same one"
    return f"the one {sideways(bottom - top)} of that"


def lead_words(cloth: Cloth) -> str:
    """The lead stripe by name."""
    return f"lead stripe ({cloth.repeat.lead_stripe.name})" if cloth.repeat else ""


def where_on_edge(end: GrainEnd) -> str:
    """A grain end as a place on the paper piece."""
    if end.along_mm < NOTHING_MM:
        return f"the corner of the {end.edge} edge and the {end.corner_with} edge"
    return f"a point on the {end.edge} edge {mm(end.along_mm)} mm from its corner with the {end.corner_with} edge"


def expected_words(expected: Expected, partner: str) -> str:
    """What to expect at a seam."""
    if expected.rms_mm is None or expected.worst_mm is None:
        return f"{expected.seam}, to {partner}: no stripes to match here."
    at = f" at {expected.worst_at_mm:.0f} mm down" if expected.worst_at_mm is not None else ""
    return f"{expected.seam}, to {partner}: rms {expected.rms_mm:.2f} mm, worst {expected.worst_mm:.2f} mm{at}."
