"""Seams cut by grade, against the step read height by height."""

import itertools

import msgspec
import numpy as np
import pytest

from core.seams.readings import SeamReading, measure
from core.seams.runs import graded_runs
from garments import EVERY_KIND, ring

LIMITS = (2.0, 3.0)


def readings(kind: dict) -> tuple[SeamReading, ...]:
    return measure(ring(4, **kind)).read


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda kind: f"{kind.get('kind', 'even')}-{kind['number']}")
def test_runs_cover_the_seam_and_agree_with_the_step(kind):
    for reading in readings(kind):
        runs = graded_runs(reading, LIMITS)
        assert runs[0].height[0] == 0
        assert runs[-1].height[-1] == reading.line.length
        assert all(one.height[-1] == other.height[0] for one, other in itertools.pairwise(runs))
        for run in runs:
            between = run.height[0] + (run.height[-1] - run.height[0]) * np.linspace(0.01, 0.99, 25)
            steps = reading.step_at(between)
            assert np.interp(between, run.height, run.step) == pytest.approx(steps, abs=1e-6)
            if run.height[-1] - run.height[0] > 0.01:
                assert (np.searchsorted(LIMITS, np.abs(steps)) == run.grade).all()


def test_neighbouring_runs_differ_or_the_step_jumps():
    for reading in readings({"number": 8, "width": 20.0}):
        runs = graded_runs(reading, LIMITS)
        for one, other in itertools.pairwise(runs):
            jump = abs(one.step[-1] - other.step[0])
            assert (one.grade, one.counts) != (other.grade, other.counts) or jump == pytest.approx(reading.period)


def test_what_is_open_or_not_seen_does_not_count():
    project = ring(4, 6)
    seam = msgspec.structs.replace(project.seams[0], open=(100.0, 250.0), seen=(0.0, 700.0))
    project = msgspec.structs.replace(project, seams=(seam, *project.seams[1:]))
    for run in graded_runs(measure(project).seams[0], LIMITS):
        middle = (run.height[0] + run.height[-1]) / 2
        assert run.counts == (not 100 < middle < 250 and middle < 700)


def test_limits_wider_than_the_repeat_leave_one_grade():
    for reading in readings({"number": 6, "width": 20.0}):
        assert {run.grade for run in graded_runs(reading, (11.0, 12.0))} == {0}
