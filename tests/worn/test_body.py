"""The worn view shows the stripes that the seams' readings speak of."""

import math

import msgspec
import numpy as np
import pytest
from shapely.geometry import Polygon

from core.errors import CannotBeHad
from core.files.project_file import read_project
from core.geometry.transform import placed
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import measure
from core.seams.stripes import Across, wrap
from core.worn.body import worn_body
from core.worn.patch import ROWS, SHARES
from core.worn.places import Stripes
from core.worn.sight import Frame, Sight, fitted, look

NAMES = ("harbour-skirt", "pier-parasol", "ferry-apron", "skylight-skirt")


def scattered(project: Project) -> Project:
    """Every panel somewhere, turned a little."""
    dice = np.random.default_rng(7)
    u, v, turn = dice.uniform(-300, 900, (3, 80))
    names = project.panel_names
    return project.placed({n: Placement(u=u[i], v=v[i], turn_deg=turn[i] / 2000) for i, n in enumerate(names)})


@pytest.fixture(params=NAMES)
def project(request, harbour_skirt) -> Project:
    return scattered(read_project(harbour_skirt.with_name(f"{request.param}.stripewright")))


def test_at_every_height_of_a_seam_both_sides_show_what_its_reading_says(project):
    garment = Garment.of(project)
    body = worn_body(project, garment)
    stripes, measurement = Stripes.of(body, project), measure(project, garment)
    checked = 0
    for reading in measurement.read:
        a, b = (body.panels.index(name) for name in reading.line.panels)
        if (b - a) % len(body.panels) != 1:
            continue
        rows = np.array([0, 200, 511, 800, ROWS - 1], np.int32)
        heights = SHARES[rows] * reading.line.length
        side = 1e-5
        at_a, at_b = (
            stripes.seen(Sight(rows, rows, angle.astype(np.float32), np.ones(len(rows), np.float32)), 0.0)
            for angle in (_wrapped(body.borders[rows, a + 1] - side), _wrapped(body.borders[rows, b] + side))
        )
        assert set(at_a.panel.tolist()) == {a}, (at_a.panel, a, body.borders[rows])
        assert set(at_b.panel.tolist()) == {b}
        c = project.cloth_of(reading.line.panels[0]).repeat.c
        pa, pb = at_a.w - c, at_b.w - c
        seen = wrap(pa - pb if reading.lean == "alike" else pa + pb, reading.period)
        assert wrap(seen - reading.step_at(heights), reading.period) == pytest.approx(np.zeros(len(rows)), abs=0.02)
        checked += 1
    assert checked >= len(body.panels) - 1


def _wrapped(angle: np.ndarray) -> np.ndarray:
    return (angle + math.pi) % math.tau - math.pi


def test_the_girth_of_a_row_is_the_width_of_its_panels(project):
    body = worn_body(project, Garment.of(project))
    sweep = math.tau if body.closed else math.pi
    assert body.radius * sweep == pytest.approx(body.width.sum(axis=1))
    assert np.diff(body.borders, axis=1) == pytest.approx(body.width / body.width.sum(axis=1)[:, None] * sweep)


def test_a_hung_panel_has_the_area_of_the_panel_cut(project):
    """A panel's patch covers its net outline: their areas agree (shapely's for the outline)."""
    garment = Garment.of(project)
    body = worn_body(project, garment)
    t = np.linspace(0, 1, 33)
    for index, name in enumerate(body.panels):
        c0, c1, c2 = np.moveaxis(body.places[:, index], 1, 0)[:, :, None, :]
        grid = c0 + c1 * t[:, None] + c2 * t[:, None] ** 2
        border = np.concatenate([grid[0], grid[1:, -1], grid[-1, ::-1][1:], grid[::-1, 0][1:]])
        assert Polygon(border).area == pytest.approx(Polygon(garment.panels[name].net_ring).area, rel=0.01)


def test_lines_of_sight_meet_the_body_where_they_say(project):
    """Each pixel's row and angle, put back into space and projected, give the pixel again."""
    body = worn_body(project, Garment.of(project))
    for tilt in (-0.4, 0.0, 0.35, 1.2):
        frame = fitted(body, 160, 150, tilt, 8)
        for sight in look(body, frame):
            r, z = body.radius[sight.row], body.drop[sight.row]
            x = r * np.sin(sight.angle) * frame.scale + frame.wide / 2
            y = (z * math.cos(tilt) + r * np.cos(sight.angle) * math.sin(tilt)) * frame.scale + frame.top
            assert np.abs(x - (sight.pixel % frame.wide + 0.5)).max() < 0.7
            assert np.quantile(np.abs(y - (sight.pixel // frame.wide + 0.5)), 0.98) < 1.2


def test_rows_looked_at_alone_show_the_same(project):
    body = worn_body(project, Garment.of(project))
    frame = fitted(body, 90, 80, 0.3, 4)
    whole = look(body, frame)[-1]
    parts = [look(body, frame, rows)[-1] for rows in ((0, 31), (31, 80))]
    for name in ("pixel", "row", "angle", "facing"):
        assert np.array_equal(getattr(whole, name), np.concatenate([getattr(part, name) for part in parts]))


def test_a_pixel_shows_the_stripe_of_its_panel_there(project):
    """At random pixels: the place found on the body lies in the panel, and has the across-coordinate told."""
    garment = Garment.of(project)
    body = worn_body(project, garment)
    stripes = Stripes.of(body, project)
    sight = look(body, fitted(body, 120, 120, 0.25, 4))[-1]
    for turn in (0.0, 1.0, -2.9):
        places = stripes.seen(sight, turn)
        for at in np.random.default_rng(3).integers(0, len(sight.pixel), 40):
            row, panel = sight.row[at], places.panel[at]
            if panel < 0:
                continue
            begin, end = body.borders[row, panel : panel + 2]
            share = ((float(sight.angle[at]) + turn - (begin + end) / 2 + math.pi) % math.tau - math.pi) / (end - begin)
            assert abs(share) < 0.5 + 1e-3
            place = body.places[row, panel].T @ (share + 0.5) ** np.arange(3)
            name = body.panels[panel]
            outline = Polygon(garment.panels[name].net_ring)
            assert outline.buffer(0.02 * math.sqrt(outline.area)).contains_properly(_point(place))
            w = Across.of(project.placement(name), project.cloth_of(name))(place[None])[0]
            assert places.w[at] == pytest.approx(w, abs=0.05)


def _point(place: np.ndarray):
    from shapely.geometry import Point

    return Point(*place)


def test_turning_once_round_shows_the_same_again(harbour_skirt):
    project = scattered(read_project(harbour_skirt))
    body = worn_body(project, Garment.of(project))
    stripes, sight = Stripes.of(body, project), look(body, Frame(60, 60, 0.05, 5.0, 0.2))[0]
    one, other = stripes.seen(sight, 0.7), stripes.seen(sight, 0.7 + math.tau)
    assert (one.panel == other.panel).mean() > 0.999
    assert np.median(np.abs(one.w - other.w)) < 0.01


def test_panels_that_are_not_sewn_can_not_be_hung(harbour_skirt):
    project = msgspec.structs.replace(read_project(harbour_skirt), seams=())
    with pytest.raises(CannotBeHad, match="sewn"):
        worn_body(project, Garment.of(project))


def test_bars_are_seen_where_they_lie_on_the_panels(harbour_skirt):
    """z of what is seen is that of the panel's place on a cloth with skewed and bowed bars."""
    project = scattered(read_project(harbour_skirt))
    (cloth,) = project.cloths
    barred = msgspec.structs.replace(cloth, crosswise=cloth.repeat, weft_skew_percent=2.0, bow_percent=1.0)
    project = msgspec.structs.replace(project, cloths=(barred,))
    body = worn_body(project, Garment.of(project))
    sight = look(body, fitted(body, 90, 90, 0.25, 4))[-1]
    places = Stripes.of(body, project).seen(sight, 0.3)
    for at in range(0, len(sight.pixel), 97):
        panel, row = places.panel[at], sight.row[at]
        begin, end = body.borders[row, panel : panel + 2]
        share = 0.5 + ((float(sight.angle[at]) + 0.3 - (begin + end) / 2 + math.pi) % math.tau - math.pi) / (
            end - begin
        )
        x, y = body.places[row, panel].T @ share ** np.arange(3)
        placement = project.placement(body.panels[panel])
        ((u, v),) = placed(np.array([[x, y]]), placement.u, placement.v, placement.turn_deg, placement.turned)
        assert places.z[at] == pytest.approx(barred.z(u, v), abs=0.1)
    assert Stripes.of(body, scattered(read_project(harbour_skirt))).seen(sight, 0.3).z is None
