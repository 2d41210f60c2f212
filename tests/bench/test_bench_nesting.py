"""The lay's length against a general strip packer that ignores the stripes, on the same cut lines in one run.

Skips where the packer (spyrrow, from PyPI) is not installed. Figures go to the benchmark's extra information.
"""

import statistics
import tracemalloc

import numpy as np
import pytest

from cloths import project_of
from core.lay.lay import lay
from core.lay.task import task_of
from core.model.project import Placement, Project

GORES = [(90, 330), (80, 300), (100, 360), (85, 310), (95, 345)]
DRAWS = 5


def gore(name: str, top: float, hem: float, tall: float = 950, dip: float = 12) -> dict:
    a, b = top / 2, hem / 2
    sides = [
        ("right", f"M {a} 0 L {b} {tall}"),
        ("hem", f"M {b} {tall} Q 0 {tall + 2 * dip} {-b} {tall}"),
        ("left", f"M {-b} {tall} L {-a} 0"),
        ("top", f"M {-a} 0 Q 0 8 {a} 0"),
    ]
    return {"id": name, "cloth": "cloth", "edges": [{"name": edge, "path": path} for edge, path in sides]}


def small_pieces(count: int) -> list[dict]:
    rng = np.random.default_rng(5)
    sizes = rng.uniform([60, 80], [220, 320], (count, 2)).tolist()
    return [gore(f"s{i}", wide * (0.6 if i % 2 else 1), wide, tall, 4) for i, (wide, tall) in enumerate(sizes)]


def ten_gores() -> list[dict]:
    return [gore(f"g{i}", *GORES[i // 2]) for i in range(10)]


def eight_gores_and_small_pieces(times: int = 1) -> list[dict]:
    gores = [gore(f"g{i}", 1.1 * GORES[i // 2 % 5][0], 1.22 * GORES[i // 2 % 5][1]) for i in range(8 * times)]
    return [*gores, *small_pieces(16 * times)]


def drawn(pieces: list[dict], period: float, draw: int, one_way: bool) -> Project:
    project, rng = project_of(pieces, 1400, period, one_way=one_way), np.random.default_rng(draw)
    return project.placed({name: Placement(u=float(rng.uniform(0, period))) for name in project.panel_names})


@pytest.fixture(scope="module")
def packed():
    spyrrow = pytest.importorskip("spyrrow")
    known: dict[tuple[int, bool], float] = {}

    def length(pieces: list[dict], one_way: bool) -> float:
        key = len(pieces), one_way
        if key not in known:
            project = drawn(pieces, 20, 0, one_way)
            rings = [one.shape.ring.tolist() for one in task_of(project, project.cloths[0]).loose]
            ways = [0.0] if one_way else [0.0, 180.0]
            items = [
                spyrrow.Item(str(i), [(v, u) for u, v in ring], demand=1, allowed_orientations=ways)
                for i, ring in enumerate(rings)
            ]
            problem = spyrrow.StripPackingInstance("lay", strip_height=1400.0, items=items)
            settings = spyrrow.StripPackingConfig(total_computation_time=60, num_workers=2, seed=0)
            known[key] = problem.solve(settings).width
        return known[key]

    return length


@pytest.mark.parametrize("period", [6.0, 20.0, 60.0])
@pytest.mark.parametrize(
    ("pieces", "one_way"),
    [(ten_gores(), True), (ten_gores(), False), (eight_gores_and_small_pieces(), True)],
    ids=["ten gores, one-way", "ten gores, end for end", "eight gores and sixteen small, one-way"],
)
def test_length_against_a_packer_without_stripes(benchmark, packed, pieces, one_way, period) -> None:
    free = packed(pieces, one_way)
    draws = iter(range(DRAWS))
    ratios = []

    def one() -> None:
        ratios.append(lay(drawn(pieces, period, next(draws), one_way), seconds=30).lays[0].length_mm / free)

    benchmark.pedantic(one, rounds=DRAWS)
    benchmark.extra_info |= {"median": statistics.median(ratios), "worst": max(ratios)}


@pytest.mark.parametrize("times", [1, 4], ids=["24 panels", "96 panels"])
def test_time_and_memory_of_many_panels(benchmark, times) -> None:
    project = drawn(eight_gores_and_small_pieces(times), 20, 1, True)
    tracemalloc.start()
    task_of(project, project.cloths[0])
    benchmark.extra_info["table_bytes_a_panel"] = tracemalloc.get_traced_memory()[1] / len(project.panel_names)
    tracemalloc.stop()
    result = benchmark.pedantic(lay, (project,), {"seconds": 30.0}, rounds=1)
    benchmark.extra_info |= {"used_share": result.lays[0].used_share, "seconds": result.seconds}
