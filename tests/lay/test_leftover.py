"""What is left of a cloth once its lay has been cut."""

import msgspec
import numpy as np
import pytest
from shapely import affinity
from shapely.geometry import Polygon
from shapely.ops import unary_union

from conftest import SAMPLES
from core.errors import CannotBeHad
from core.files.project_file import read_project
from core.lay.lay import quick_lay
from core.lay.leftover import leftover
from core.lay.legal import cut_lines
from core.matching.solve import match
from core.model.project import Project


@pytest.fixture(scope="module")
def laid() -> Project:
    project = read_project(SAMPLES / "harbour-skirt.stripewright")
    cloth = msgspec.structs.replace(
        project.cloths[0], length=3000.0, skew_mm_per_m=4.0, flaws=((200, 2500, 260, 2600),)
    )
    project = msgspec.structs.replace(project, cloths=(cloth, *project.cloths[1:]))
    return quick_lay(match(project).project).project


def test_a_remnant_has_nothing_that_was_cut_away_and_most_of_the_rest(laid):
    cloth, cut = laid.cloths[0], [Polygon(line) for line in cut_lines(laid, laid.cloths[0]).values()]
    left = leftover(laid, cloth.id)
    start = 2600 - max(v for _, v in left.flaw_outlines[0])
    kept = affinity.translate(Polygon(left.remnant.outline, left.remnant.holes), 0, start)
    assert kept.intersection(unary_union(cut)).area < 1e-6
    end = max(shape.bounds[3] for shape in cut)
    assert kept.area >= 0.999 * (3000 - end) * cloth.width
    assert min(v for _, v in left.remnant.outline) == pytest.approx(0.0, abs=0.01)


def test_stripes_keep_their_places_on_a_remnant_of_leaning_stripes(laid):
    cloth = msgspec.structs.replace(laid.cloths[0], crosswise=laid.cloths[0].repeat, weft_skew_percent=2.0)
    left = leftover(msgspec.structs.replace(laid, cloths=(cloth, *laid.cloths[1:])), cloth.id)
    start = 2600 - max(v for _, v in left.flaw_outlines[0])
    u, v = np.random.default_rng(0).uniform([0, start], [cloth.width, 3000], (50, 2)).T
    before = (u - cloth.skew * v - cloth.repeat.origin) % cloth.repeat.width
    after = (u - left.skew * (v - start) - left.repeat.origin) % left.repeat.width
    assert np.cos(2 * np.pi * (before - after) / cloth.repeat.width) == pytest.approx(1.0, abs=1e-6)
    bars = (cloth.z(u, v) - cloth.crosswise.origin) - (left.z(u, v - start) - left.crosswise.origin)
    assert np.cos(2 * np.pi * bars / cloth.crosswise.width) == pytest.approx(1.0, abs=1e-6)


def test_without_a_length_or_without_places_nothing_can_be_told(laid):
    endless = msgspec.structs.replace(laid.cloths[0], length=None)
    with pytest.raises(CannotBeHad, match="length is not given"):
        leftover(msgspec.structs.replace(laid, cloths=(endless, *laid.cloths[1:])), endless.id)
    with pytest.raises(CannotBeHad, match="have no places yet"):
        leftover(msgspec.structs.replace(laid, placements={}), laid.cloths[0].id)
