"""The search's own rules: what it starts anew from, and when it stops."""

import time

import numpy as np
import pytest

from cloths import project_of, rectangle, scattered
from core.lay.budget import Budget
from core.lay.places import one_by_one
from core.lay.search import disturbed, shortest
from core.lay.task import Task, task_of
from core.progress import silent
from garments import ring


def moves(count: int) -> Budget:
    return Budget(count, time.monotonic() + 60.0, silent, "cloth")


def seven(one_way: bool) -> Task:
    project = scattered(ring(2, number=7, width=17.0), 2)
    cloth = project.cloths[0]
    return task_of(project, cloth, frozenset() if one_way else frozenset(project.panel_names))


@pytest.mark.parametrize("one_way", [True, False])
def test_a_disturbed_lay_has_every_panel_once_in_a_column_of_its_own(one_way: bool) -> None:
    task, rng = seven(one_way), np.random.default_rng(1)
    start = one_by_one(task, np.arange(task.panels))
    changed = 0
    for _ in range(200):
        column, v = start.column.copy(), start.v.copy()
        at = disturbed(task, start, rng)
        assert np.array_equal(start.column, column)
        assert np.array_equal(start.v, v)
        assert sorted(task.whose[at.there].tolist()) == list(range(task.panels))
        assert all(task.least[entry, at.column[entry]] <= task.most[entry, at.column[entry]] for entry in at.there)
        changed += int(np.sum((at.column != start.column) | (at.v != start.v)) in (1, 2))
    assert changed > 150


def test_a_length_that_is_enough_is_not_searched_beyond() -> None:
    project = project_of([rectangle(f"r{i}", 500, 300) for i in range(6)], 1500)
    task, budget = task_of(project, project.cloths[0]), moves(500_000)
    assert shortest(task, budget, 0).length(task) == pytest.approx(600)
    assert budget.left > 490_000


def test_all_work_is_done_where_nothing_ends_it_and_no_more() -> None:
    task, budget = seven(True), moves(40_000)
    found = shortest(task, budget, 3)
    assert found.length(task) > task.floor
    assert -1000 < budget.left <= 0
    assert shortest(task, moves(40_000), 3).length(task) == found.length(task)
    assert shortest(task, moves(4_000), 3).length(task) >= found.length(task)
