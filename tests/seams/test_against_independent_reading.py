"""measure against an independent computation from the file and the formulas (svgpathtools for the paths)."""

import numpy as np
import pytest
from scipy.integrate import quad

from core.files.project_file import project_to_bytes, read_project
from core.seams.readings import measure
from garments import EVERY_KIND, ring, scattered
from oracle import matched_axis, seam_figures, step_function


@pytest.mark.parametrize("kind", EVERY_KIND, ids=lambda k: "-".join(str(v) for v in k.values()))
def test_every_seam_reads_as_the_formulas_say(kind):
    project = scattered(ring(3, **kind), 5)
    figures = seam_figures(project)
    measurement = measure(project)
    assert len(figures) == len(measurement.read)
    for reading in measurement.read:
        rms, worst = figures[reading.line.sewn.a, reading.line.sewn.b]
        assert reading.rms_mm == pytest.approx(rms, abs=0.005)
        assert reading.worst[0] == pytest.approx(worst, abs=0.01)


def test_seen_open_and_every_way_to_join_unequal_edges_read_as_the_formulas_say(harbour_skirt):
    import msgspec

    project = scattered(read_project(harbour_skirt), 2)
    ways = [
        {"seen": (120.0, 610.0)},
        {"open": (0.0, 250.0), "join": "top"},
        {"join": "bottom", "seen": (50.0, 5000.0)},
        {"join": "spread", "open": (300.0, 420.0), "seen": (200.0, 700.0)},
        {"join": "top"},
        {"join": "bottom"},
    ]
    seams = tuple(msgspec.structs.replace(seam, **way) for seam, way in zip(project.seams, ways, strict=True))
    # edges of unlike length: the side gore is sewn to the back gore instead of the side back gore
    seams = (*seams[:3], msgspec.structs.replace(seams[3], b="front.R/centre", both_sides=True), *seams[4:])
    project = msgspec.structs.replace(project, seams=seams[1:])
    figures = seam_figures(project)
    for reading in measure(project).read:
        rms, worst = figures[reading.line.sewn.a, reading.line.sewn.b]
        assert reading.rms_mm == pytest.approx(rms, abs=0.005)
        assert reading.worst[0] == pytest.approx(worst, abs=0.01)


def test_rms_agrees_with_scipys_quadrature():
    import json

    project = scattered(ring(8, 6, "even", 22.0, 0.5), 1)
    raw = json.loads(project_to_bytes(project))
    for reading in measure(project).read:
        seam = next(s for s in raw["seams"] if s["a"] == reading.line.sewn.a)
        step, length = step_function(raw, seam, seam["a"], seam["b"])
        square, _ = quad(lambda h, step=step: float(step(h)) ** 2, 0, length, limit=400, epsabs=1e-3, epsrel=1e-6)
        assert reading.rms_mm == pytest.approx(np.sqrt(square / length), abs=0.005)


@pytest.mark.parametrize("kind", ["even", "uneven", "half", "fine pair"])
def test_axis_period_and_evenness_agree_with_brute_force(kind):
    import json

    project = ring(1, 6, kind, 24.0)
    found = project.cloths[0].repeat
    c, period, even = matched_axis(json.loads(project_to_bytes(project))["cloths"][0]["repeat"])
    assert found.period == pytest.approx(period)
    assert found.even is even
    assert (found.c - c + period / 2) % period == pytest.approx(period / 2, abs=1e-6)
