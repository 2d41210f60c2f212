"""Canopy gores against the ball they cover."""

import dataclasses
import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.integrate import quad

from core.draft.canopy import CanopyMeasures, draft_canopy
from core.errors import BadInput
from core.geometry.polyline import length
from core.matching.solve import match
from core.model.panel import panels_of
from core.model.validate import validate
from core.seams.garment import Garment
from core.seams.walk import walk
from drafted import edge

PARASOL = CanopyMeasures(radius=550.0, rise=220.0, ribs=8, hole=8.0)

canopies = st.builds(
    lambda radius, share, ribs, hole: CanopyMeasures(radius=radius, rise=radius * share, ribs=ribs, hole=hole),
    st.floats(200, 1500),
    st.one_of(st.just(0.0), st.floats(0.02, 1.0)),
    st.integers(3, 32),
    st.one_of(st.just(0.0), st.floats(3, 40)),
)


def cap(measures: CanopyMeasures) -> tuple[float, float]:
    """Radius of the ball, and the way from crown to rim over it by integrating along its profile z(r)."""
    ball = (measures.radius**2 + measures.rise**2) / (2 * measures.rise)
    share = measures.radius / ball
    over, _ = quad(lambda r: 1 / math.sqrt(1 - r * r), 0, share * (1 - 1e-12))
    return ball, ball * over


@settings(deadline=None, max_examples=30)
@given(canopies)
def test_at_every_level_the_gores_together_go_once_round_the_ball(measures):
    panel = panels_of(draft_canopy(measures).project.pieces[0])[0]
    right, left = panel.net["right"], panel.net["left"][::-1]
    s = np.linspace(right[0, 1], right[-1, 1], 41)
    wide = np.interp(s, right[:, 1], right[:, 0]) - np.interp(s, left[:, 1], left[:, 0])
    ball = cap(measures)[0] if measures.rise else math.inf
    round_it = 2 * math.pi * (ball * np.sin(s / ball) if measures.rise else s)
    assert measures.ribs * wide == pytest.approx(round_it, abs=0.01 * measures.ribs)


@settings(deadline=None, max_examples=30)
@given(canopies.filter(lambda measures: measures.rise > 0 and measures.hole == 0))
def test_gores_are_as_long_as_the_way_over_the_ball_and_their_edges_as_an_integral_says(measures):
    ball, over = cap(measures)
    panel = panels_of(draft_canopy(measures).project.pieces[0])[0]
    assert panel.net["right"][-1, 1] == pytest.approx(over, rel=1e-5)
    along, _ = quad(lambda s: math.hypot(1, math.pi / measures.ribs * math.cos(s / ball)), 0, over)
    assert length(panel.net["right"]) == pytest.approx(along, rel=1e-5)


@settings(deadline=None, max_examples=8)
@given(canopies)
def test_every_canopy_is_valid_and_walks_clean(measures):
    draft = draft_canopy(measures)
    validate(draft.project)
    garment = Garment.of(draft.project)
    assert walk(draft.project, garment) == ()
    assert len(garment.seams) == len(garment.panels) == measures.ribs


def test_half_a_ball_of_radius_r_takes_gores_a_quarter_of_its_girth_long():
    project = draft_canopy(CanopyMeasures(radius=400.0, rise=400.0, ribs=12)).project
    assert edge(project.pieces[0], "right").end.imag == pytest.approx(math.pi / 2 * 400, abs=0.01)
    assert 2 * edge(project.pieces[0], "right").end.real == pytest.approx(2 * math.pi * 400 / 12, abs=0.01)


def test_the_rim_runs_on_smoothly_over_the_ribs_unless_it_is_hollowed():
    smooth = draft_canopy(PARASOL).project.pieces[0]
    at_rim = edge(smooth, "right").unit_tangent(1.0) * edge(smooth, "rim").unit_tangent(0.0).conjugate()
    assert at_rim.real == pytest.approx(0, abs=1e-4)
    hollow = edge(draft_canopy(dataclasses.replace(PARASOL, rim_hollow=40.0)).project.pieces[0], "rim")
    assert hollow.start.imag - hollow.point(0.5).imag == pytest.approx(40.0, abs=1e-3)


def test_a_drafted_canopy_is_ready_to_match():
    """Like gores on an even repeat: all seams can meet, and do."""
    assert match(draft_canopy(PARASOL).project).rms_mm < 0.01


def test_a_gore_wider_than_the_cloth_is_found():
    cloth = PARASOL.cloth.__class__(id="narrow", width=300.0)
    (finding,) = draft_canopy(dataclasses.replace(PARASOL, cloth=cloth)).findings
    assert finding.place == "piece 'gore-1'"
    assert "usable width of 'narrow' is 300.0 mm" in finding.what


def test_a_turning_wider_than_the_hole_at_the_crown_is_refused():
    with pytest.raises(BadInput, match="edge 'crown'"):
        draft_canopy(dataclasses.replace(PARASOL, crown_allowance=30.0))


@pytest.mark.parametrize(
    ("changes", "place"),
    [
        ({"ribs": 2}, "ribs"),
        ({"ribs": 8.0}, "ribs"),
        ({"radius": math.nan}, "radius"),
        ({"radius": 1e308}, "radius"),
        ({"rise": 551.0}, "rise"),
        ({"rise": -1.0}, "rise"),
        ({"hole": 300.0}, "hole"),
        ({"rim_hollow": math.inf}, "rim hollow"),
        ({"seam_allowance": -1.0}, "allowance, seam"),
    ],
)
def test_measurements_of_no_canopy_are_refused_by_name(changes, place):
    with pytest.raises(BadInput) as error:
        draft_canopy(dataclasses.replace(PARASOL, **changes))
    assert error.value.place == place
