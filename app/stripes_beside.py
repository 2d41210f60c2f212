"""How far a place on the cloth lies from the nearest lead stripe, in words."""

import numpy as np

from app.figures import step, unit
from app.words import tr
from core.model.cloth import Cloth
from core.seams.stripes import lead_centres_between


def off_lead_mm(cloth: Cloth, u: float, v: float) -> float | None:
    """Offset of a place from the middle of the nearest lead stripe, mm, positive to its right; None on plain cloth."""
    if cloth.repeat is None:
        return None
    w = u - cloth.skew * v
    away = w - lead_centres_between(cloth.repeat, w - cloth.repeat.width, w + cloth.repeat.width)
    return float(away[np.argmin(np.abs(away))])


def beside_lead(cloth: Cloth, u: float, v: float) -> str:
    """The offset in words, with the lead stripe's name; empty on a plain cloth."""
    off = off_lead_mm(cloth, u, v)
    if off is None or cloth.repeat is None:
        return ""
    lead = cloth.repeat.lead_stripe.name
    if abs(off) < 0.05:
        return tr("on the middle of {lead}").format(lead=lead)
    told = tr("{step} {unit} right of {lead}") if off > 0 else tr("{step} {unit} left of {lead}")
    return told.format(step=step(abs(off)), unit=unit(), lead=lead)
