"""Up to five panels against every order, column and way round: nothing shorter exists."""

import itertools

import numpy as np
import pytest
from shapely.geometry import Polygon

from cloths import outlined, project_of, rectangle
from core.lay.lay import lay
from core.model.project import Placement


def shortest_of_rectangles(sizes, phases, width: float, period: float) -> float:
    """Every order and every column, each panel as near to the cut end as those before it allow.

    Some order builds every lay in which no panel can be pushed towards the cut end, so one of them is the shortest.
    """
    columns = [
        np.arange(phase % period, width - wide + 1e-9, period) for (wide, _), phase in zip(sizes, phases, strict=True)
    ]
    best = sum(tall for _, tall in sizes)
    for order in itertools.permutations(range(len(sizes))):
        best = min(best, _built([], order, sizes, columns, best))
    return best


def _built(laid, order, sizes, columns, best: float) -> float:
    if max((bottom for *_, bottom in laid), default=0) >= best:
        return best
    if not order:
        return max(bottom for *_, bottom in laid)
    (wide, tall), rest = sizes[order[0]], order[1:]
    for left in columns[order[0]]:
        met = [bottom for a, b, bottom in laid if a < left + wide - 1e-9 and left < b - 1e-9]
        top = max(met, default=0.0)
        best = min(best, _built([*laid, (left, left + wide, top + tall)], rest, sizes, columns, best))
    return best


@pytest.mark.parametrize("seed", range(9))
def test_rectangles_lie_as_short_as_any_order_and_column_allow(seed: int) -> None:
    rng = np.random.default_rng(seed)
    count, period = 3 + seed % 3, float(rng.choice([40, 75, 110]))
    sizes = [(float(w), float(t)) for w, t in rng.integers([120, 100], [360, 400], (count, 2))]
    phases = rng.uniform(0, period, count).tolist()
    pieces = [rectangle(f"r{i}", wide, tall) for i, (wide, tall) in enumerate(sizes)]
    project = project_of(pieces, 640, period, one_way=True)
    project = project.placed({f"r{i}": Placement(u=phase) for i, phase in enumerate(phases)})
    assert lay(project).lays[0].length_mm == pytest.approx(shortest_of_rectangles(sizes, phases, 640, period), abs=1e-5)


def test_two_gores_are_as_near_to_each_other_as_shapely_lets_them() -> None:
    """Every pair of columns, the second gore brought along the cloth by halving until it touches the first."""
    gores = [
        np.array([[-30, 0], [30, 0], [130, 700], [-130, 700.0]]),
        np.array([[-40, 0], [40, 0], [110, 640], [-110, 640.0]]),
    ]
    pieces = [outlined(f"g{i}", gore) for i, gore in enumerate(gores)]
    project = project_of(pieces, 380, 40.0, one_way=True)
    places = [np.arange(-g[:, 0].min() // 40 * 40, 380, 40) for g in gores]
    best = np.inf
    for u, w in itertools.product(*places):
        if any(u0 + g[:, 0].min() < 0 or u0 + g[:, 0].max() > 380 for u0, g in zip((u, w), gores, strict=True)):
            continue
        for lower, upper, across in ((0, 1, w - u), (1, 0, u - w)):
            fixed, low, high = Polygon(gores[lower]), 0.0, 1400.0
            for _ in range(60):
                middle = (low + high) / 2
                over = fixed.intersection(Polygon(gores[upper] + np.array([across, middle]))).area > 1e-9
                low, high = (middle, high) if over else (low, middle)
            best = min(best, max(gores[lower][:, 1].max(), high + gores[upper][:, 1].max()))
    assert lay(project).lays[0].length_mm == pytest.approx(best, abs=1e-3)
