"""A photograph of a paper piece beside a rectangle of known size: straight on or slanted, traced in mm."""

from pathlib import Path

import numpy as np
import numpy.typing as npt
from shapely.geometry import Polygon

from core.errors import BadInput
from core.files.outlines import Drawing, Outline
from core.files.trace_fit import Traced, fitted_ring
from core.geometry.paths import Points
from core.seams.walk import Finding
from core.swatch.picture import Picture, open_picture
from core.swatch.scale import Corners, homography, mapped
from core.wording import tr

SMALLEST_MM2 = 2000.0
"""A piece is larger than this."""

FEWEST_LEVELS = 0.08
"""Paper and table differ by at least this in lightness, 0 to 1."""

_BLUR_PX = 1.0
_GREY = np.array([0.2126, 0.7152, 0.0722])
"""Share of red, green and blue in the light that is seen (ITU-R BT.709)."""

Lightness = npt.NDArray[np.float64]


def read_photo(path: Path | str, corners: Corners) -> Drawing:
    """The outlines of what lies on the table, apart from the rectangle, with the residual of each.

    `corners` are those of the rectangle in the picture as it stands upright. Raises BadInput: no picture, nothing that
    stands out from the table, no piece wholly in the picture.
    """
    try:
        return traced(open_picture(path), corners)
    except BadInput as error:
        place = f"{path}, {error.place}" if error.place and str(path) not in error.place else str(path)
        raise BadInput(error.what, place, error.right) from None


def traced(picture: Picture, corners: Corners) -> Drawing:
    """The outlines in a picture, the largest first. Raises BadInput."""
    to_mm = _to_mm(corners)
    rings = [mapped(to_mm, ring) for ring in _contours(picture)]
    rectangle = Polygon([(0, 0), (corners.width_mm, 0), (corners.width_mm, corners.height_mm), (0, corners.height_mm)])
    pieces = [ring for ring in rings if _is_piece(Polygon(ring), rectangle)]
    if not pieces:
        raise BadInput(
            tr("no piece of at least {smallest_mm2:g} mm2 lies wholly in the picture", smallest_mm2=SMALLEST_MM2),
            right=tr("paper that stands out from the table, with some table all round it, is right"),
        )
    found = [fitted_ring(ring) for ring in sorted(pieces, key=lambda ring: -Polygon(ring).area)]
    outlines = [_outline(one, number) for number, one in enumerate(found, 1)]
    return Drawing(
        tuple(outlines), tuple(_residual(one, outline) for one, outline in zip(found, outlines, strict=True))
    )


def _outline(one: Traced, number: int) -> Outline:
    return Outline(
        one.segments, True, label=tr("piece {number}", number=number), place=tr("piece {number}", number=number)
    )


def _residual(one: Traced, outline: Outline) -> Finding:
    what = tr(
        "the smooth outline keeps within {rms_mm:.2f} mm of the traced one on average, {worst_mm:.2f} at worst",
        rms_mm=one.rms_mm,
        worst_mm=one.worst_mm,
    )
    return Finding(outline.title, what, tr("measure the paper in two places before relying on it"))


def _to_mm(corners: Corners) -> npt.NDArray[np.float64]:
    """The projective map that takes pixels of the file to mm, the rectangle's upper left corner being the origin."""
    w, h = corners.width_mm, corners.height_mm
    return homography(np.array(corners.points), np.array([[0, 0], [w, 0], [w, h], [0, h]], dtype=float))


def _is_piece(shape: Polygon, rectangle: Polygon) -> bool:
    if not shape.is_valid or shape.area < SMALLEST_MM2:
        return False
    return bool(shape.intersection(rectangle).area < 0.8 * rectangle.area)


def _contours(picture: Picture) -> list[Points]:
    """Closed lines between paper and table, pixels of the file; those that run off the picture are left out."""
    from contourpy import contour_generator
    from scipy.ndimage import gaussian_filter

    light = gaussian_filter(np.sqrt(picture.light @ _GREY), _BLUR_PX)
    lines = [np.asarray(line, dtype=float) for line in contour_generator(z=light).lines(_threshold(light))]
    closed = [line for line in lines if len(line) > 20 and np.array_equal(line[0], line[-1])]
    return [(line + 0.5) * picture.factor for line in closed]


def _threshold(light: Lightness) -> float:
    """Midway between the means of paper and table, which Otsu's criterion parts. Raises BadInput if they are alike."""
    counts, edges = np.histogram(light, bins=256, range=(0.0, 1.0))
    middle = (edges[:-1] + edges[1:]) / 2
    below, total = np.cumsum(counts), counts.sum()
    weighted = np.cumsum(counts * middle)
    with np.errstate(all="ignore"):
        low, high = weighted / below, (weighted[-1] - weighted) / (total - below)
        between = np.nan_to_num(below * (total - below) * (high - low) ** 2)
    best = int(np.argmax(between))
    if not high[best] - low[best] > FEWEST_LEVELS:
        raise BadInput(
            tr("nothing stands out from the table"), right=tr("light paper on a dark table, or the other way round")
        )
    return float((low[best] + high[best]) / 2)
