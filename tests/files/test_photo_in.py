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
