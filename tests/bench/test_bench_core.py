"""How long reading and matching take. Run: pytest tests/bench --benchmark-only --benchmark-enable."""

import pytest

from core.files.project_file import read_project
from core.matching.solve import match
from core.model.project import Placement
from core.seams.garment import Garment
from core.seams.readings import measure, remeasure
from garments import ring


def test_all_seams_of_ten_panels_are_read(benchmark, harbour_skirt):
    project = read_project(harbour_skirt)
    garment = Garment.of(project)

    def read() -> None:
        measurement = measure(project, garment)
        assert measurement.rms_mm is not None
        assert all(reading.worst for reading in measurement.read)

    benchmark(read)


def test_one_dragged_panel_of_ten_is_read_again(benchmark, harbour_skirt):
    project = read_project(harbour_skirt)
    before = measure(project)
    moved = project.placed({"side.R": Placement(u=3.0)})
    benchmark(lambda: remeasure(before, moved, frozenset({"side.R"})).rms_mm)


def test_crossings_and_agreement_of_ten_panels(benchmark, harbour_skirt):
    project = read_project(harbour_skirt)
    garment = Garment.of(project)
    benchmark(lambda: [(reading.crossings, reading.agreement) for reading in measure(project, garment).read])


@pytest.mark.parametrize("number", [6, 12, 24, 48])
def test_a_ring_of_unlike_panels_is_matched(benchmark, number):
    project = ring(1, number, "even", 20.0, 1.0)
    garment = Garment.of(project)
    benchmark.pedantic(lambda: match(project, garment=garment), rounds=3)
