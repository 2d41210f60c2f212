"""How much each error changes the step of a seam: the step is linear in all of them while they are small."""

from dataclasses import fields

import numpy as np

from core.forecast.errors import Errors
from core.geometry.polyline import Floats
from core.geometry.transform import rotation
from core.model.panel import Panel
from core.model.project import Placement, Project
from core.seams.garment import Garment
from core.seams.readings import SeamReading
from core.seams.strip import Side, edge_at
from core.seams.stripes import Across

Columns = dict[tuple[str, str], Floats]
"""(name of the error, whose it is) -> change of the step at each height, mm, per standard deviation."""

_QUARTER = rotation(90.0, False)


def columns_of(project: Project, garment: Garment, reading: SeamReading, heights: Floats, errors: Errors) -> Columns:
    """What one standard deviation of every error does to a seam's step at heights on it, mm."""
    senses = {"a": 1.0, "b": 1.0 if reading.lean == "opposite" else -1.0}
    columns: Columns = {}
    sides: tuple[tuple[Side, str], ...] = (("a", reading.line.panels[0]), ("b", reading.line.panels[1]))
    for side, name in sides:
        found = _Side(garment.panels[name], project.placement(name), reading, side, heights)
        for error, change in found.changes().items():
            who = f"{name}/{side}" if error == "cutting_mm" else "seam" if error in SEAM_ERRORS else name
            before = columns.get((error, who), 0.0)
            columns[error, who] = np.asarray(before + senses[side] * change * _size(errors, error))
    return columns


SEAM_ERRORS = ("flush_mm", "depth_mm", "slipping_mm")


def _size(errors: Errors, name: str) -> float:
    """An error in mm, radians or as a ratio."""
    value = float(getattr(errors, name))
    scale = {"turning_deg": np.pi / 180, "repeat_percent": 0.01, "lean_mm_per_m": 0.001}
    return value * float(scale.get(name, 1.0))


class _Side:
    """One panel at a seam: how its coordinate changes at heights, per unit of each error; w lengthwise, z crosswise."""

    def __init__(self, panel: Panel, at: Placement, reading: SeamReading, side: Side, heights: Floats) -> None:
        self._side = side
        points, inward = edge_at(reading.line, side, heights)
        across = Across.of(at, reading.cloth, reading.way)
        away = points - panel.middle
        turn = rotation(at.turn_deg, at.turned)
        self._inward = across.rate_along(points, inward)
        self._turning = across.rate_along(points, away @ _QUARTER.T)
        self._across = across(points) - across(panel.middle[None])
        self._along = away @ turn[1 if reading.way == "lengthwise" else 0]
        w = reading.w_a if side == "a" else reading.w_b
        self._down = np.interp(heights, *_slopes(reading.line.height, w))

    def changes(self) -> dict[str, Floats]:
        """Change of w by each error: 1 mm, 1 radian, or 1 as a ratio."""
        shares = {
            "placing_mm": np.ones_like(self._across),
            "turning_deg": self._turning,
            "cutting_mm": -self._inward,
            "flush_mm": self._inward * (-0.5 if self._side == "a" else 0.5),
            "depth_mm": self._inward,
            "slipping_mm": self._down if self._side == "b" else np.zeros_like(self._down),
            "repeat_percent": -self._across,
            "lean_mm_per_m": -self._along,
        }
        assert shares.keys() == {field.name for field in fields(Errors)}
        return shares


def _slopes(height: Floats, w: Floats) -> tuple[Floats, Floats]:
    """Middles of the stretches between heights, and the change of w per mm on each."""
    return (height[:-1] + height[1:]) / 2, np.diff(w) / np.diff(height)
