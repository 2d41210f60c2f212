"""An outline brought to how a piece is drawn: clockwise, its grain running down, its top at the origin."""

import math
from dataclasses import replace

import numpy as np

from core.files.outlines import Line, Outline
from core.geometry.beziers import reversed_segments
from core.seams.walk import Finding
from core.wording import tr


def standing(outline: Outline, turn_deg: float, place: str, findings: list[Finding]) -> Outline:
    """The outline drawn clockwise, its grain line upright, then turned by an angle (degrees, clockwise), then moved.

    The middle of the box round the line that is drawn, the stitching line where there is one, comes to x = 0 and its
    top to y = 0. What there is to say is added to `findings`.
    """
    return _turned_and_moved(_clockwise(outline), turn_deg, place, findings)


def _clockwise(outline: Outline) -> Outline:
    """The outline and its stitching line drawn clockwise as one looks at them."""
    turned = outline
    if outline.area_mm2 < 0:
        turned = replace(turned, segments=reversed_segments(outline.segments))
    if outline.sew and Outline(outline.sew, True).area_mm2 < 0:
        turned = replace(turned, sew=reversed_segments(outline.sew))
    return turned


def _turned_and_moved(outline: Outline, turn_deg: float, place: str, findings: list[Finding]) -> Outline:
    angle = math.radians(turn_deg) + _to_grain(outline.grain, place, findings)
    turn = np.array([[math.cos(angle), -math.sin(angle), 0.0], [math.sin(angle), math.cos(angle), 0.0]])
    turned = outline if angle == 0 else outline.moved(turn)
    left, top, right, _ = Outline(turned.sew or turned.segments, True).box
    return turned.moved(np.array([[1.0, 0.0, -(left + right) / 2], [0.0, 1.0, -top]]))


def _to_grain(grain: Line | None, place: str, findings: list[Finding]) -> float:
    """The turn, radians, that brings a grain line upright; one that lies more across than down starts at the top."""
    if grain is None or math.dist(*grain) < 1.0:
        return 0.0
    across, down = grain[1][0] - grain[0][0], grain[1][1] - grain[0][1]
    if abs(across) > 1.001 * abs(down):
        what = tr("its grain line lies across, so the piece was turned until that runs down from its first point")
        findings.append(Finding(place, what, tr("turn it by 180 degrees if its hem is now above")))
        return math.atan2(across, down)
    return math.atan2(across, down) if down > 0 else math.atan2(-across, -down)
