"""Marks of a drawing put to the outlines they belong to: grain line, fold line, notches, stitching line."""

import re
from collections.abc import Sequence
from dataclasses import replace
from typing import Literal

import numpy as np
import shapely

from core.files.chaining import closed_up
from core.files.outlines import Drawing, Outline, checked
from core.geometry.beziers import Point
from core.geometry.paths import Points
from core.seams.walk import Finding

Role = Literal["grain", "fold", "notch", "sew"]

NEAR_MM = 3.0
"""A mark this close to an outline still belongs to it."""

_WORDS: dict[str, Role] = {
    "grain": "grain",
    "grainline": "grain",
    "fold": "fold",
    "mirror": "fold",
    "notch": "notch",
    "notches": "notch",
    "net": "sew",
    "sew": "sew",
    "sewing": "sew",
    "stitch": "sew",
    "stitching": "sew",
}


def drawing_of(
    strokes: Sequence[Outline], findings: Sequence[Finding], page: tuple[float, float] | None = None
) -> Drawing:
    """The outlines that strokes draw, chained and closed, with the marks that their names or layers say they are.

    Raises BadInput where there is nothing that can be a pattern.
    """
    marks: list[tuple[Role, Outline]] = []
    lines: list[Outline] = []
    for stroke in checked(strokes):
        role = _role_of(stroke)
        if role:
            marks.append((role, stroke))
        else:
            lines.append(stroke)
    sewn, loose_sewn, mended_sewn = closed_up([stroke for role, stroke in marks if role == "sew"])
    closed, loose, mended = closed_up(lines)
    closed, homeless = _with_stitching(closed, sewn)
    closed = _with_marks(closed, [(role, stroke) for role, stroke in marks if role != "sew"])
    return Drawing((*closed, *homeless, *loose, *loose_sewn), (*findings, *mended, *mended_sewn), page)


def _role_of(stroke: Outline) -> Role | None:
    words = re.findall(r"[a-z]+", f"{stroke.label} {stroke.layer}".lower())
    roles = [_WORDS[word] for word in words if word in _WORDS]
    if "sew" in roles:
        return "sew"
    straight = not stroke.closed and len(stroke.segments) == 1
    return next((role for role in roles if straight or (role == "notch" and stroke.length_mm < 30)), None)


def _with_stitching(outlines: list[Outline], sewn: list[Outline]) -> tuple[list[Outline], list[Outline]]:
    """Outlines with the stitching lines inside them, and the stitching lines that lie in none."""
    homes = homes_of(outlines, [middle_of(line) for line in sewn])
    found, homeless = list(outlines), []
    for line, home in zip(sewn, homes, strict=True):
        if home is None or found[home].sew or abs(line.area_mm2) >= abs(found[home].area_mm2):
            homeless.append(line)
        else:
            found[home] = replace(found[home], sew=line.segments)
    return found, homeless


def _with_marks(outlines: list[Outline], marks: list[tuple[Role, Outline]]) -> list[Outline]:
    found = list(outlines)
    for (role, mark), home in zip(marks, homes_of(found, [middle_of(mark) for _, mark in marks]), strict=True):
        if home is None:
            continue
        ends = mark.segments[0][0], mark.segments[-1][-1]
        if role == "notch":
            found[home] = replace(found[home], notches=(*found[home].notches, nearer(found[home], ends)))
        elif role == "grain":
            found[home] = replace(found[home], grain=ends)
        else:
            found[home] = replace(found[home], mirror=ends)
    return found


def middle_of(outline: Outline) -> Point:
    """Middle of the box round an outline, mm."""
    left, top, right, bottom = outline.box
    return (left + right) / 2, (top + bottom) / 2


def nearer(outline: Outline, points: Sequence[Point]) -> Point:
    """The point of some that lies nearest to an outline."""
    line = shapely.LineString(outline.points)
    return min(points, key=lambda point: float(line.distance(shapely.Point(point))))


def homes_of(outlines: Sequence[Outline], points: Sequence[Point]) -> list[int | None]:
    """For every point the index of the smallest closed outline that it lies in, or within NEAR_MM of; or None."""
    if not points or not outlines:
        return [None] * len(points)
    tree = shapely.STRtree([polygon_of(outline.points) for outline in outlines])
    at, within = tree.query(shapely.points(np.array(points)), predicate="dwithin", distance=NEAR_MM)
    homes: list[int | None] = [None] * len(points)
    for point, index in zip(at.tolist(), within.tolist(), strict=True):
        other = homes[point]
        if other is None or abs(outlines[index].area_mm2) < abs(outlines[other].area_mm2):
            homes[point] = index
    return homes


def polygon_of(points: Points) -> shapely.Polygon:
    """The polygon within a closed polyline, empty where that has too few points."""
    return shapely.Polygon(points) if len(points) > 3 else shapely.Polygon()
