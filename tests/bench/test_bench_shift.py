"""How long shifting lines and easing take. Run: pytest tests/bench --benchmark-only --benchmark-enable."""

import pytest

from core.files.project_file import read_project
from core.matching.solve import match
from core.seams.easing import best_easing
from core.seams.readings import measure
from core.shifting.shift import shift_lines, shift_where_it_lies
from near_gores import near_skirt


@pytest.mark.parametrize("number", [10, 24])
def test_the_lines_of_a_skirt_are_shifted_with_its_places(benchmark, number):
    project = near_skirt(1, number)
    result = benchmark.pedantic(lambda: shift_lines(project), rounds=2)
    assert result.rms_mm < result.rms_before_mm


def test_the_lines_of_mirrored_gores_are_shifted(benchmark, harbour_skirt):
    project = read_project(harbour_skirt)
    benchmark.pedantic(lambda: shift_lines(project), rounds=2)


def test_one_seam_is_shifted_where_it_lies(benchmark):
    project = match(near_skirt(1, 10)).project
    benchmark.pedantic(lambda: shift_where_it_lies(project, "s0"), rounds=3)


def test_one_seam_is_eased(benchmark):
    reading = measure(match(near_skirt(1, 10)).project).read[0]
    benchmark(lambda: best_easing(reading).rms_mm)
