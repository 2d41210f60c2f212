"""How long the lay takes: its tables, and the whole of it on the ten-panel sample."""

import numpy as np
import pytest

from core.files.project_file import read_project
from core.lay.lay import lay
from core.lay.task import task_of
from core.model.project import Placement, Project


@pytest.fixture
def skirt(harbour_skirt) -> Project:
    project, rng = read_project(harbour_skirt), np.random.default_rng(1)
    places = rng.uniform([0, -0.3], [22, 0.3], (len(project.panel_names), 2)).tolist()
    return project.placed(
        {n: Placement(u=u, turn_deg=turn) for n, (u, turn) in zip(project.panel_names, places, strict=True)}
    )


def test_tables_of_ten_panels(benchmark, skirt) -> None:
    benchmark(task_of, skirt, skirt.cloths[0])


def test_lay_of_ten_panels(benchmark, skirt) -> None:
    result = benchmark.pedantic(lay, (skirt,), {"seconds": 60.0}, rounds=3)
    benchmark.extra_info["length_mm"] = result.lays[0].length_mm
    benchmark.extra_info["used_share"] = result.lays[0].used_share
