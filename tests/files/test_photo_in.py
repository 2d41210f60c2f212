"""A photograph made up from a known piece, seen aslant, traces back to it."""

import numpy as np
import pytest
import shapely
from PIL import Image
from scipy.ndimage import gaussian_filter
from shapely.geometry import Polygon

from app.cli import main
from core.draft.measures import USUAL_CLOTH
from core.errors import BadInput
from core.files.outlines import Drawing
from core.files.photo_in import read_photo
from core.files.project_file import read_project
from core.files.to_pieces import Wishes, project_from
from core.files.trace_fit import fitted_ring
from core.geometry.beziers import flattened
from core.geometry.paths import flatten
from core.model.panel import panels_of
from core.swatch.scale import Corners

SHEET = (297.0, 210.0)
"""A4, lying across (ISO 216), its upper left corner at the origin of the table, mm."""

SIDES = ("M 360 20 Q 410 34 460 20", "M 460 20 C 470 200 500 380 545 560", "M 545 560 Q 410 600 275 560")
SIDES += ("M 275 560 C 320 380 350 200 360 20",)
GORE = Polygon(np.vstack([flatten(side)[:-1] for side in SIDES]))

STRAIGHT = [(40, 60), (470, 60), (470, 364), (40, 364)]
ASLANT = [(30, 140), (480, 90), (470, 400), (60, 420)]


def from_table(corners):
    """The projective map from mm on the table to pixels that takes the sheet's corners to given ones."""
    (w, h), rows, values = SHEET, [], []
    for (x, y), (s, t) in zip([(0, 0), (w, 0), (w, h), (0, h)], corners, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -s * x, -s * y], [0, 0, 0, x, y, 1, -t * x, -t * y]]
        values += [s, t]
    return np.append(np.linalg.solve(rows, values), 1).reshape(3, 3)


def photograph(path, shapes, corners, size=(880, 960), light=(205, 60), noise=4.0, finer=2):
    """A picture of light shapes on a darker table, each pixel the mean of finer ones, blurred and with noise."""
    width, height = size
    rows, columns = (np.mgrid[: height * finer, : width * finer] + 0.5) / finer
    back = np.linalg.inv(from_table(corners))
    depth = back[2, 0] * columns + back[2, 1] * rows + back[2, 2]
    x = (back[0, 0] * columns + back[0, 1] * rows + back[0, 2]) / depth
    y = (back[1, 0] * columns + back[1, 1] * rows + back[1, 2]) / depth
    inside = np.zeros(x.shape, dtype=bool)
    for shape in shapes:
        inside |= shapely.contains_xy(shape, x, y)
    share = inside.reshape(height, finer, width, finer).mean(axis=(1, 3))
    grey = gaussian_filter(light[1] + (light[0] - light[1]) * share, 0.8)
    shade = np.linspace(0.93, 1.05, width)
    grey = grey * shade + np.random.default_rng(1).normal(0, noise, grey.shape)
    Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8)).convert("RGB").save(path)
    return path


def sheet():
    return shapely.box(0, 0, *SHEET)


@pytest.mark.parametrize("corners", [STRAIGHT, ASLANT], ids=["straight on", "aslant"])
def test_a_piece_traces_back_within_a_millimetre(corners, tmp_path):
    path = photograph(tmp_path / "table.png", [sheet(), GORE], corners)
    drawing = read_photo(path, Corners(tuple(corners), *SHEET))
    (outline,) = drawing.outlines
    assert Polygon(outline.points).exterior.hausdorff_distance(GORE.exterior) < 1.0
    assert "mm of the traced one" in str(drawing.findings[0])
    piece = project_from(Drawing((outline,)), Wishes(cloth=USUAL_CLOTH))[0].pieces[0]
    assert [edge.name for edge in piece.edges] == ["waist", "right", "hem", "left"]
    lengths = [shapely.LineString(flatten(side)).length for side in SIDES]
    found = [shapely.LineString(flatten(edge.path)).length for edge in piece.edges]
    assert found == pytest.approx(lengths, abs=1.5)
    assert Polygon(panels_of(piece)[0].net_ring).area == pytest.approx(GORE.area, rel=0.004)


def test_the_command_makes_a_project_of_a_photograph(tmp_path, capsys):
    path = photograph(tmp_path / "table.png", [sheet(), GORE], ASLANT, finer=1)
    places = [f"{x},{y}" for x, y in ASLANT]
    target = tmp_path / "out.stripewright"
    words = ["import", str(path), "-o", str(target), "--corners", *places, "--rectangle", "297", "21cm"]
    assert main(words) == 0
    assert "piece-1 (single): stitching line 270." in capsys.readouterr().out
    assert len(read_project(target).pieces) == 1


def test_dark_paper_on_a_light_table_is_traced_as_well(tmp_path):
    path = photograph(tmp_path / "table.png", [sheet(), GORE], STRAIGHT, light=(40, 190), finer=1)
    (outline,) = read_photo(path, Corners(tuple(STRAIGHT), *SHEET)).outlines
    assert Polygon(outline.points).exterior.hausdorff_distance(GORE.exterior) < 1.0


@pytest.mark.parametrize(
    ("shapes", "light", "says"),
    [
        ([GORE, sheet()], (100, 99), "nothing stands out"),
        ([sheet()], (205, 60), "no piece"),
        ([sheet(), shapely.box(350, -100, 800, 1800)], (205, 60), "no piece"),
    ],
)
def test_a_picture_without_a_piece_is_told(shapes, light, says, tmp_path):
    path = photograph(tmp_path / "table.png", shapes, STRAIGHT, light=light, noise=0.0, finer=1)
    with pytest.raises(BadInput, match=says):
        read_photo(path, Corners(tuple(STRAIGHT), *SHEET))


def test_what_is_no_picture_is_told(tmp_path):
    path = tmp_path / "table.png"
    path.write_bytes(b"no picture")
    with pytest.raises(BadInput, match="no picture"):
        read_photo(path, Corners(tuple(STRAIGHT), *SHEET))


def traced_outline(ring: np.ndarray, noise: float, seed: int = 3) -> np.ndarray:
    """A closed outline as a trace has it: points 0.7 mm apart, rounded at the corners, off their places by noise of a
    standard deviation, mm, that is alike over some points, as blur leaves it."""
    line = shapely.LineString(np.vstack([ring, ring[:1]])).segmentize(0.7)
    points = np.array(line.coords)[:-1]
    off = gaussian_filter(np.random.default_rng(seed).normal(0, 1, points.shape), (2, 0), mode="wrap")
    points = gaussian_filter(points, (1.5, 0), mode="wrap") + noise * off / off.std()
    return np.vstack([points, points[:1]])


def straight_parts(found) -> list[tuple[float, float]]:
    """Length, mm, and direction, degrees from 0 to below 180, of every straight segment."""
    parts = []
    for start, *rest in found.segments:
        if len(rest) == 1:
            step = np.subtract(rest[0], start)
            parts.append((float(np.hypot(*step)), float(np.degrees(np.arctan2(step[1], step[0])) % 180)))
    return parts


@pytest.mark.parametrize("noise", [0.0, 0.1, 0.2])
def test_straight_sides_of_a_noisy_trace_are_straight(noise):
    ring = np.array([(0, 0), (120, 0), (230, 700), (-90, 690)], dtype=float)
    found = fitted_ring(traced_outline(ring, noise))
    lengths = np.hypot(*np.diff(np.vstack([ring, ring[:1]]), axis=0).T)
    assert len(found.segments) == 4
    assert sorted(long for long, _ in straight_parts(found)) == pytest.approx(sorted(lengths), abs=1.0)


@pytest.mark.parametrize("noise", [0.0, 0.1, 0.2])
def test_a_side_that_is_curved_at_the_hip_and_straight_below_is_drawn_so(noise):
    """A hip curve of 300 mm radius runs on without a corner into a straight side of 500 mm."""
    angle = np.linspace(0, 0.5, 60)
    hip = np.stack([100 + 300 * (1 - np.cos(angle)) * -1 + 36.7, 300 * np.sin(angle)], axis=1)[::1]
    way = hip[-1] - hip[-2]
    foot = hip[-1] + 500 * way / np.hypot(*way)
    ring = np.vstack([[(-60.0, 0.0)], hip, [foot], [(-60.0, foot[1])]])
    found = fitted_ring(traced_outline(ring, noise))
    lean = np.degrees(np.arctan2(way[1], way[0])) % 180
    side = [long for long, direction in straight_parts(found) if abs(direction - lean) < 1.0]
    assert max(side, default=0) == pytest.approx(500, abs=50)
    assert any(len(segment) == 4 for segment in found.segments)
    assert Polygon(flattened(found.segments)).exterior.hausdorff_distance(Polygon(ring).exterior) < 1.0


def test_gentle_curves_stay_curves():
    """A hem of 2 m radius and 400 mm bows by 10 mm; a side of 9 m radius and 700 mm by 7."""

    def arc(start, end, radius):
        start, end = np.array(start, dtype=float), np.array(end, dtype=float)
        half = np.hypot(*(end - start)) / 2
        normal = np.array([(end - start)[1], -(end - start)[0]]) / (2 * half)
        centre = (start + end) / 2 - normal * np.sqrt(radius**2 - half**2)
        first, last = (np.arctan2(*(p - centre)[::-1]) for p in (start, end))
        turn = (last - first + np.pi) % (2 * np.pi) - np.pi
        angles = first + np.linspace(0, turn, 80)
        return centre + radius * np.stack([np.cos(angles), np.sin(angles)], axis=1)

    ring = np.vstack([[(0, 0)], arc((150, 0), (250, 700), 9000), arc((250, 700), (-150, 700), 2000)])
    found = fitted_ring(traced_outline(ring, 0.15))
    whole = straight_parts(found)
    assert sum(long for long, _ in whole) < 150 + 720 + 10
    assert sum(len(segment) == 4 for segment in found.segments) >= 2
