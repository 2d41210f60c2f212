"""How large a picture is, and the cloth in it seen square on."""

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from core.errors import BadInput
from core.swatch.picture import FEWEST_PIXELS, KEPT_PIXELS, Picture
from core.wording import tr

Point = tuple[float, float]
MOST_UNEQUAL = 4.0
"""Where the scale changes more than this across a picture taken aslant, only the known rectangle itself is used."""


MARK_SD_PX = 1 / math.sqrt(12)
"""Standard deviation of a mark that is set to the nearest pixel."""


@dataclass(frozen=True)
class PerPixel:
    """Every pixel of the file is `mm` wide and high: a scan, or a camera held square to the cloth."""

    mm: float
    share_sd: float = 0.0
    """Standard deviation of the scale, as a share of it."""

    def __post_init__(self) -> None:
        if not 1e-4 <= self.mm <= 100:
            raise BadInput(tr("one pixel is {mm:g} mm", mm=self.mm), "scale", tr("0.0001 to 100 mm is right"))


@dataclass(frozen=True)
class Corners:
    """Four corners, px from the picture's own, of a rectangle of known size, clockwise from the upper left one."""

    points: tuple[Point, Point, Point, Point]
    width_mm: float
    height_mm: float

    def __post_init__(self) -> None:
        if not (1 <= self.width_mm <= 1e5 and 1 <= self.height_mm <= 1e5):
            raise BadInput(tr("the rectangle's size is wrong"), "corners", tr("1 to 100000 mm each way is right"))
        xy = np.array(self.points)
        sides = np.roll(xy, -1, axis=0) - xy
        turns = sides[:, 0] * np.roll(sides[:, 1], -1) - sides[:, 1] * np.roll(sides[:, 0], -1)
        if not (np.isfinite(xy).all() and (turns > 1).all()):
            right = tr("upper left, upper right, lower right, lower left of a rectangle is right")
            raise BadInput(tr("the four points go round no rectangle"), "corners", right)

    @property
    def share_sd(self) -> float:
        """Standard deviation of the scale, as a share of it: two opposite sides tell it, each by two marks."""
        xy = np.array(self.points)
        return MARK_SD_PX / float(np.hypot(*(np.roll(xy, -1, axis=0) - xy).T).mean())


Scale = PerPixel | Corners


def by_dpi(dpi: float) -> PerPixel:
    """The scale of a scan. Raises BadInput for a resolution that no scan has."""
    if not 1 <= dpi <= 20000:
        raise BadInput(tr("{dpi:g} dpi", dpi=dpi), "scale", tr("1 to 20000 is right"))
    return PerPixel(25.4 / dpi)


def by_marks(a: Point, b: Point, apart_mm: float) -> PerPixel:
    """The scale from two marks, px, that lie `apart_mm` apart on a ruler. Raises BadInput if they are too close."""
    apart_px = math.hypot(b[0] - a[0], b[1] - a[1])
    if not (apart_px >= 10 and apart_mm > 0):
        raise BadInput(
            tr("the two marks are too close"), "scale", tr("marks at least 10 pixels apart, the further the better")
        )
    return PerPixel(apart_mm / apart_px, math.sqrt(2) * MARK_SD_PX / apart_px)


@dataclass(frozen=True, eq=False)
class View:
    """The cloth seen square on: linear light (height, width, 3), which pixels show cloth, and mm in one pixel.

    `to_file` (3, 3) takes a point of the view, px, (x, y, 1) to one of the file, px, up to a factor.
    """

    light: npt.NDArray[np.float32]
    seen: npt.NDArray[np.bool_]
    mm_per_px: float
    to_file: npt.NDArray[np.float64]


def view_of(picture: Picture, scale: Scale, part: tuple[float, float, float, float] | None = None) -> View:
    """The part of a picture that shows cloth (left, top, right, bottom, px of the file; None: all), square on.

    Raises BadInput if the part does not lie in the picture.
    """
    left, top, right, bottom = _part(picture, part)
    if isinstance(scale, PerPixel):
        light = picture.light[top:bottom, left:right]
        to_file = picture.factor * np.array([[1, 0, left], [0, 1, top], [0, 0, 1 / picture.factor]])
        return View(light, np.ones(light.shape[:2], dtype=bool), scale.mm * picture.factor, to_file)
    return _square_on(picture, scale, (left, top, right, bottom))


def _part(picture: Picture, part: tuple[float, float, float, float] | None) -> tuple[int, int, int, int]:
    height, width = picture.light.shape[:2]
    if part is None:
        return 0, 0, width, height
    left, right = (round(min(max(x / picture.factor, 0), width)) for x in (part[0], part[2]))
    top, bottom = (round(min(max(y / picture.factor, 0), height)) for y in (part[1], part[3]))
    if right - left < FEWEST_PIXELS or bottom - top < FEWEST_PIXELS:
        right_size = tr(
            "left, top, right, bottom in pixels, in a picture of {width} x {height} at least {fewest_pixels}",
            width=width,
            height=height,
            fewest_pixels=FEWEST_PIXELS,
        )
        raise BadInput(tr("the part of the picture is too small"), "part", right_size)
    return left, top, right, bottom


def homography(source: npt.NDArray[np.float64], target: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """The projective map (3, 3) that takes four points (4, 2) to four others. Raises BadInput if there is none."""
    rows, values = [], []
    for (x, y), (s, t) in zip(source, target, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -s * x, -s * y], [0, 0, 0, x, y, 1, -t * x, -t * y]]
        values += [s, t]
    try:
        return np.append(np.linalg.solve(np.array(rows), np.array(values)), 1.0).reshape(3, 3)
    except np.linalg.LinAlgError:
        raise BadInput(tr("three of the four points lie on one line"), "corners") from None


def mapped(matrix: npt.NDArray[np.float64], points: npt.NDArray[np.float64]) -> npt.NDArray[np.float64]:
    """Points (n, 2) taken through a projective map."""
    lifted = np.column_stack([points, np.ones(len(points))]) @ matrix.T
    return np.asarray(lifted[:, :2] / lifted[:, 2:])


def _square_on(picture: Picture, corners: Corners, part: tuple[int, int, int, int]) -> View:
    known = np.array(corners.points) / picture.factor
    w, h = corners.width_mm, corners.height_mm
    to_mm = homography(known, np.array([[0, 0], [w, 0], [w, h], [0, h]], dtype=float))
    left, top, right, bottom = part
    region = np.array([[left, top], [right, top], [right, bottom], [left, bottom]], dtype=float)
    if _unequal(to_mm, region) > MOST_UNEQUAL:
        region = known
    outline = mapped(to_mm, region)
    low, high = outline.min(axis=0), outline.max(axis=0)
    mm_per_px = max(math.sqrt(_area(outline) / _area(region)), math.sqrt(float(np.prod(high - low)) / KEPT_PIXELS))
    columns, rows = (max(int(n), 1) for n in (high - low) / mm_per_px)
    to_view_mm = np.array([[mm_per_px, 0, low[0]], [0, mm_per_px, low[1]], [0, 0, 1]])
    matrix = np.linalg.inv(to_mm) @ to_view_mm
    light, seen = _sampled(picture, matrix, (rows, columns), part)
    return View(light, seen, mm_per_px, np.diag([picture.factor, picture.factor, 1.0]) @ matrix)


def _unequal(to_mm: npt.NDArray[np.float64], region: npt.NDArray[np.float64]) -> float:
    """How many times larger the scale is at one corner of a region than at another; infinite across the horizon."""
    depth = np.column_stack([region, np.ones(4)]) @ to_mm[2]
    if (depth <= 0).any():
        return math.inf
    return math.pow(float(depth.max() / depth.min()), 1.5)


def _area(ring: npt.NDArray[np.float64]) -> float:
    x, y = ring.T
    return abs(float(np.dot(x, np.roll(y, -1)) - np.dot(y, np.roll(x, -1)))) / 2


def _sampled(
    picture: Picture, matrix: npt.NDArray[np.float64], shape: tuple[int, int], part: tuple[int, int, int, int]
) -> tuple[npt.NDArray[np.float32], npt.NDArray[np.bool_]]:
    from scipy.ndimage import map_coordinates

    ys, xs = np.mgrid[: shape[0], : shape[1]]
    points = mapped(matrix, np.column_stack([xs.ravel() + 0.5, ys.ravel() + 0.5]))
    x, y = points[:, 0].reshape(shape), points[:, 1].reshape(shape)
    left, top, right, bottom = part
    seen = (x >= left + 0.5) & (x <= right - 0.5) & (y >= top + 0.5) & (y <= bottom - 0.5)
    channels = [
        map_coordinates(picture.light[..., channel], [y - 0.5, x - 0.5], order=1, mode="nearest", output=np.float32)
        for channel in range(3)
    ]
    return np.stack(channels, axis=-1), seen
