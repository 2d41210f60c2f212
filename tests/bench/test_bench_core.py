"""How long reading and matching take. Run: pytest tests/bench --benchmark-only --benchmark-enable."""

from itertools import count

import msgspec
import pytest

from core.files.project_file import read_project
from core.matching.follow import Followers
from core.matching.solve import match
from core.model.project import Placement
from core.seams.garment import Garment
from core.seams.readings import measure, remeasure
from garments import repeat, ring


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


def test_one_dragged_panel_of_a_ten_panel_plaid_is_read_again(benchmark):
    project = ring(1, 10, crosswise=repeat("even", 26.0))
    before = measure(project)
    moved = project.placed({"g3": Placement(u=3.0, v=8.0)})
    benchmark(lambda: remeasure(before, moved, frozenset({"g3"})).rms_mm)


@pytest.mark.parametrize("number", [10, 24])
def test_a_plaid_is_matched_both_ways(benchmark, number):
    project = ring(1, number, "even", 20.0, 0.5, crosswise=repeat("even", 26.0))
    benchmark.pedantic(match, (project,), rounds=1)


def test_crossings_and_agreement_of_ten_panels(benchmark, harbour_skirt):
    project = read_project(harbour_skirt)
    garment = Garment.of(project)
    benchmark(lambda: [(reading.crossings, reading.agreement) for reading in measure(project, garment).read])


@pytest.mark.parametrize("bars", [{}, {"crosswise": repeat("even", 45.0)}], ids=["stripes", "plaid"])
@pytest.mark.parametrize("number", [10, 24, 48])
def test_the_others_follow_a_dragged_panel(benchmark, number, bars):
    """All free panels solved again for one more move of the hand; aim: under 30 ms with ten panels."""
    project = match(ring(1, number, "even", 20.0, 1.0, **bars)).project
    garment, at, step = Garment.of(project), project.placement("g3"), count()
    followers = Followers(project, garment, ["g3"])
    followers.places({"g3": at})

    def move() -> None:
        far = 0.37 * next(step)
        hand = {"g3": msgspec.structs.replace(at, u=at.u + far, v=at.v + far)}
        assert followers.places(hand)

    benchmark.pedantic(move, rounds=60, warmup_rounds=3)


@pytest.mark.parametrize("number", [6, 12, 24, 48])
def test_a_ring_of_unlike_panels_is_matched(benchmark, number):
    project = ring(1, number, "even", 20.0, 1.0)
    garment = Garment.of(project)
    benchmark.pedantic(lambda: match(project, garment=garment), rounds=3)
