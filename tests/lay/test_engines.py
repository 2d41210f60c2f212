"""The compiled loops and those of numpy: both give lays that can be cut, and the same answers where there is one."""

import tempfile

import msgspec
import numpy as np
import pytest

from cloths import assert_can_be_cut, assert_phases_kept, project_of, rectangle, scattered
from core.files.project_file import read_project
from core.lay import budget, engine, kernel, places, plainly
from core.lay.lay import lay, quick_lay
from core.lay.legal import find_faults
from core.lay.task import task_of
from core.matching.solve import match
from garments import ring


@pytest.mark.parametrize("seed", range(3))
def test_numpy_alone_gives_lays_that_can_be_cut(seed: int, monkeypatch) -> None:
    monkeypatch.setattr(engine, "loops", lambda: plainly)
    project = scattered(ring(seed, number=6, width=11.0 + 9 * seed), seed)
    result = lay(project, seconds=0.3, seed=seed)
    assert_can_be_cut(result.project)
    assert_phases_kept(project, result.project)


def test_numpy_alone_fills_a_plain_cloth(monkeypatch) -> None:
    monkeypatch.setattr(engine, "loops", lambda: plainly)
    sizes = [(310, 400), (470, 400), (720, 250), (720, 150), (780, 200), (720, 200)]
    project = project_of([rectangle(f"r{i}", wide, tall) for i, (wide, tall) in enumerate(sizes)], 1500)
    assert lay(project).lays[0].length_mm == pytest.approx(600, abs=1e-6)


@pytest.mark.parametrize("seed", range(6))
def test_both_find_the_same_lowest_place_for_every_panel(seed: int) -> None:
    project = scattered(ring(seed, number=7, width=9.0 + 6 * seed), seed)
    task = task_of(project, project.cloths[0])
    at = places.one_by_one(task, np.random.default_rng(seed).permutation(7))
    for index in range(7):
        at.column[index] = -1
        tables = task.pairs, task.still, task.whose
        compiled, plain = (
            loops.lowest(*tables, task.least, task.most, task.rungs, at.column, at.v, index, np.inf)
            for loops in (kernel, plainly)
        )
        assert compiled == plain
        at.column[index], at.v[index] = compiled


def test_a_quick_lay_is_legal_and_always_the_same(harbour_skirt, monkeypatch):
    monkeypatch.setattr(budget, "QUICK_WORK", 5e5)
    project = match(read_project(harbour_skirt)).project
    first, second = quick_lay(project), quick_lay(project)
    assert first.project == second.project
    assert find_faults(first.project, "ticking") == ()
    assert engine.loops().__name__ == "core.lay.kernel"


def test_what_a_quick_lay_does_not_fit_in_is_searched_for_in_full(harbour_skirt, monkeypatch):
    monkeypatch.setattr(budget, "WORK", 3e7)
    monkeypatch.setattr(budget, "QUICK_WORK", 2e5)
    project = match(read_project(harbour_skirt)).project
    quick, full = quick_lay(project).lays[0].length_mm, lay(project).lays[0].length_mm
    assert full < quick - 1
    tight_cloth = msgspec.structs.replace(project.cloths[0], length=(quick + full) / 2)
    tight = msgspec.structs.replace(project, cloths=(tight_cloth,))
    assert quick_lay(tight).lays[0].fits


def test_what_is_compiled_is_never_taken_from_a_folder_that_others_can_write_to(tmp_path, monkeypatch):
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    folder = engine.private_folder()
    assert folder.parent == tmp_path
    assert engine.private_folder() == folder
    folder.chmod(0o777)
    with pytest.raises(PermissionError):
        engine.private_folder()
    folder.rmdir()
    (tmp_path / "elsewhere").mkdir(mode=0o700)
    folder.symlink_to(tmp_path / "elsewhere")
    with pytest.raises(PermissionError):
        engine.private_folder()
