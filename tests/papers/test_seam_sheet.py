"""The seam sheet against the seam itself: what its moves do, what its picture shows, what its tables say."""

import re
from itertools import pairwise

import numpy as np
import pytest
from shapely.geometry import Point, Polygon

from conftest import SAMPLES
from core.files.project_file import read_project
from core.geometry.polyline import Floats
from core.matching.solve import match
from core.model.project import Project
from core.papers.drawing import Area
from core.papers.figures import Figures, figures_of
from core.papers.page import A4, LETTER
from core.papers.pdf import pdf_bytes
from core.papers.pens import light_tint
from core.papers.seam_picture import opened_seam
from core.papers.seam_remedies import lead_pairs, shifts_at
from core.papers.seam_sheet import seam_pages
from core.seams.readings import SeamReading, measure
from core.seams.strip import edge_at, strip_across
from core.seams.stripes import Across
from core.units import Units
from reading_back import pdf_texts

TENTH_MM = 0.1


@pytest.fixture(scope="module", params=["skirt", "parasol", "leaning"])
def laid(request: pytest.FixtureRequest) -> Project:
    project: Project = request.getfixturevalue(request.param)
    return project


@pytest.fixture(scope="module")
def figures(laid: Project) -> Figures:
    return figures_of(laid, measure(laid))


@pytest.fixture(scope="module")
def texts(figures: Figures) -> list[str]:
    return pdf_texts(pdf_bytes(seam_pages(figures, A4, Units("mm")), "Seams"))


def across_of(project: Project, reading: SeamReading, index: int) -> Across:
    return Across.of(project.placement(reading.line.panels[index]), reading.cloth)


def test_the_moves_close_the_step(laid: Project, figures: Figures) -> None:
    """Both edges moved square to themselves, the left one out and the right one in: the step is gone there."""
    closed = 0
    for reading in figures.measurement.read:
        heights = np.linspace(5.0, reading.line.length - 5.0, 23)
        places = [laid.placement(name) for name in reading.line.panels]
        moves = shifts_at(reading, *places, heights)
        if np.isnan(moves).all():
            turned = {place.turned for place in places}
            assert (reading.lean, len(turned)) in (("alike", 1), ("opposite", 2))
            continue
        a, into_a = edge_at(reading.line, "a", heights)
        b, into_b = edge_at(reading.line, "b", heights)
        w_a = across_of(laid, reading, 0)(a - into_a * moves[:, None])
        w_b = across_of(laid, reading, 1)(b + into_b * moves[:, None])
        assert np.abs(steps(reading, w_a, w_b)).max() < 1e-6
        closed += 1
    assert closed > 3


def steps(reading: SeamReading, w_a: Floats, w_b: Floats) -> Floats:
    c, period = reading.repeat.c, reading.period
    raw = w_a - w_b if reading.lean == "alike" else w_a + w_b - 2 * c
    return np.asarray((raw + period / 2) % period - period / 2)


def test_a_step_of_3_mm_takes_a_move_of_one_and_a_half(skirt: Project) -> None:
    """Design, section 3: moving the line by d changes the step by 2 d where the leans are opposite (to the cosine)."""
    for reading in measure(skirt).read:
        heights = np.linspace(300.0, 700.0, 5)
        moves = shifts_at(reading, *(skirt.placement(name) for name in reading.line.panels), heights)
        assert np.abs(moves) == pytest.approx(np.abs(reading.step_at(heights)) / 2, rel=0.02)


def test_the_eases_bring_each_mark_of_the_right_edge_to_the_left_one(figures: Figures) -> None:
    seen = 0
    for reading in figures.measurement.read:
        pairs = lead_pairs(reading)
        for above, below in pairwise(pairs):
            assert below.ease_mm is not None
            eased = below.b_at_mm - below.ease_mm - above.b_at_mm
            assert eased == pytest.approx(below.a_at_mm - above.a_at_mm)
            seen += 1
    assert seen > 5


def test_the_picture_shows_the_stripe_that_lies_there(laid: Project, figures: Figures) -> None:
    panels = {panel.name: panel for panel in figures.panels}
    rng = np.random.default_rng(11)
    looked_at = 0
    for reading in figures.measurement.read[:6]:
        line, repeat = reading.line, reading.repeat
        left, right = (panels[name] for name in line.panels)
        drawing = opened_seam(reading, (left, right), 30.0)
        areas = [(Polygon(part.points), part.colour) for part in drawing.parts if isinstance(part, Area)]
        for height, depth in rng.uniform((20.0, 1.0), (line.length - 20.0, 28.0), (25, 2)):
            for index, side in enumerate("ab"):
                across = across_of(laid, reading, index)
                (w,) = strip_across(line, side, across, np.array([height]), np.array([depth]))[0]  # type: ignore[arg-type]
                near = [repeat.kind_at((w + d - repeat.origin) % repeat.width) for d in (-TENTH_MM, 0, TENTH_MM)]
                if len(set(near)) > 1:
                    continue
                place = Point(-depth if side == "a" else depth, height)
                shown = [colour for shape, colour in areas if shape.covers(place)]
                expected = [] if near[0] < 0 else [light_tint(repeat.kinds[near[0]][0].colour)]
                assert shown[-1:] == expected
                looked_at += 1
    assert looked_at > 100


def test_every_seam_has_a_page_that_says_what_is_measured(laid: Project, figures: Figures, texts: list[str]) -> None:
    for reading in figures.measurement.read:
        label = reading.line.sewn.label
        page = " ".join(text for text in texts if re.match(rf"Seam: {re.escape(label)}(,| left)", text))
        assert page
        for one in reading.readings(laid.heights):
            assert f"{one.at_mm:.0f} {signed(one.step_mm) if one.counts else 'open'}" in page
        for crossing in reading.crossings:
            words = f"{crossing.a_at_mm:.1f} {crossing.b_at_mm:.1f} {signed(crossing.along_gap_mm)}"
            assert f"{words} {signed(crossing.step_mm)}" in page
        assert reading.worst is not None
        assert f"worst {reading.worst[0]:.2f} mm at {reading.worst[1]:.0f} mm" in page


def signed(value: float) -> str:
    places = 0 if abs(value) >= 100 else 2
    return f"{round(value, places) + 0.0:.{places}f}".replace("-", "−")


def test_thread_marks_are_places_of_the_marks_table(figures: Figures, texts: list[str]) -> None:
    panels = {panel.name: panel for panel in figures.panels}
    for reading in figures.measurement.read:
        sewn = reading.line.sewn
        page = " ".join(text for text in texts if re.match(rf"Seam: {re.escape(sewn.label)}(,| left)", text))
        said = re.findall(r"(\d+\.\d) (\d+\.\d)(?= )", page.partition("Thread marks")[2].partition("Every stripe")[0])
        assert len(said) == len(lead_pairs(reading))
        for pair in said:
            for place, ref, name in zip(pair, (sewn.a, sewn.b), reading.line.panels, strict=True):
                marks = next(marks for marks in panels[name].edges if marks.ref == ref)
                assert any(f"{meets:.1f}" == place for meets in marks.meets_mm)


def test_heights_are_whole_inches_on_inch_papers(skirt: Project) -> None:
    figures = figures_of(skirt, measure(skirt))
    (first, *_) = pdf_texts(pdf_bytes(seam_pages(figures, LETTER, Units("in")), skirt.title))
    assert all(f" {inches} " in first for inches in (4, 8, 12, 16, 20, 24))


def test_a_stripe_that_only_just_reaches_into_the_picture_does_no_harm() -> None:
    """On the small apron a corner of a stripe, a hundredth of a millimetre broad, reaches into a seam's picture."""
    project = match(read_project(SAMPLES / "ferry-apron.stripewright")).project
    leaves = seam_pages(figures_of(project, measure(project)), A4, Units())
    areas = [part for leaf in leaves for part in leaf.drawing.parts if isinstance(part, Area)]
    assert areas
    assert min(len(area.points) for area in areas) > 2
