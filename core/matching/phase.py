"""Where one panel matches best while all others stay."""

import numpy as np

from core.geometry.polyline import Floats
from core.model.cloth import Way
from core.model.pattern import PanelName
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.readings import SeamReading, mean_wrapped_square, read_seam
from core.seams.stripes import wrapped

PLACES = 120
"""Phases tried in a period."""


def best_shifts(project: Project, garment: Garment, panel: PanelName, way: Way = "lengthwise") -> tuple[float, ...]:
    """How far a panel would be moved across its stripes, or its bars, so that its seams match best that way, mm.

    In [-P/2, P/2), to every minimum of its seams' mean square step, best first; minima more than twice as high as the
    best (by more than a hundredth of P squared) are left out. Empty for a panel that has no seam to match that way.
    """
    readings = [read_seam(project, line, way) for line in garment.seams if line.panels.count(panel) == 1]
    matched = [reading for reading in readings if reading is not None and reading.mean_square is not None]
    if not matched:
        return ()
    period = matched[0].period
    shifts = np.arange(PLACES) * period / PLACES
    costs = sum((_costs(reading, panel, shifts) for reading in matched), np.zeros(PLACES))
    low = np.flatnonzero((costs <= np.roll(costs, 1)) & (costs < np.roll(costs, -1)))
    low = low[np.argsort(costs[low], kind="stable")]
    limit = 2 * costs[low[0]] + 0.01 * period**2 * sum(r.line.sewn.seam.weight for r in matched) if len(low) else 0.0
    return tuple(float(wrapped(_bottom(costs, i) * period / PLACES, period)) for i in low.tolist() if costs[i] <= limit)


def _costs(reading: SeamReading, panel: PanelName, shifts: Floats) -> Floats:
    """Weighted mean square of one seam for each shift of the panel, mm2; shape of shifts."""
    way = 1.0 if panel == reading.line.panels[0] or reading.lean == "opposite" else -1.0
    spans = np.diff(reading.line.height) * reading.line.counted_parts
    means = mean_wrapped_square(reading.raw + way * shifts[:, None], reading.period) @ spans
    return np.asarray(means / spans.sum() * reading.line.sewn.seam.weight)


def _bottom(costs: Floats, index: int) -> float:
    """The place of a minimum between samples, by the parabola through it and its neighbours."""
    before, here, after = costs[index - 1], costs[index], costs[(index + 1) % len(costs)]
    bend = before - 2 * here + after
    return index + (0.5 * (before - after) / bend if bend > 0 else 0.0)
