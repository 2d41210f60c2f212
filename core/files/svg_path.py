"""SVG path data with all its commands (W3C SVG 2, chapter 9) turned into lines, quadratic and cubic curves."""

import math
import re
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from core.errors import BadInput
from core.files.svg_values import bounded
from core.geometry.beziers import Point, Segment, Segments, transformed, unit_arc
from core.wording import later, tr

SMALLEST_RADIUS = 1e-9
"""An arc with a smaller radius is a straight line."""

_COMMAND = re.compile(r"[\s,]*([A-Za-z])")
_NUMBER = re.compile(r"[\s,]*([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?)")
_FLAG = re.compile(r"[\s,]*([01])")
_BLANK = re.compile(r"[\s,]*")
_TAKES = {"M": 2, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7, "Z": 0}


@dataclass(frozen=True)
class Subpath:
    """One line of a path, in its own units; `closed` if it says that it goes back to its start."""

    segments: Segments
    closed: bool


def subpaths_of(data: str, mm_per_unit: float) -> list[Subpath]:
    """The lines that path data draws; arcs become cubics that keep within the house's limit at the given size.

    Raises BadInput: an unknown command, a number missing, another beginning than M.
    """
    pen = _Pen(mm_per_unit)
    position, command = 0, ""
    while (position := _past_blanks(data, position)) < len(data):
        found = _COMMAND.match(data, position)
        if found:
            command, position = found[1], found.end()
        elif not command or command in "Zz":
            raise BadInput(
                tr("path has {data!r} where a command belongs", data=data[position : position + 12]),
                right=tr(_COMMANDS),
            )
        if command.upper() not in _TAKES or (not pen.started and command not in "Mm"):
            raise BadInput(
                tr("path has the command {command!r} where it can't stand", command=command), right=tr(_COMMANDS)
            )
        values, position = _values(data, position, command)
        pen.draw(command, values)
        command = {"M": "L", "m": "l"}.get(command, command)
    return pen.finished()


_COMMANDS = later("M first, then M, L, H, V, C, S, Q, T, A and Z")


def _past_blanks(data: str, position: int) -> int:
    found = _BLANK.match(data, position)
    return found.end() if found else position


def _values(data: str, position: int, command: str) -> tuple[list[float], int]:
    values: list[float] = []
    for index in range(_TAKES[command.upper()]):
        found = (_FLAG if command in "Aa" and index in (3, 4) else _NUMBER).match(data, position)
        if not found:
            stands = data[position : position + 12].strip() or "nothing"
            raise BadInput(
                tr("path command {command} has {stands!r} for a number", command=command, stands=stands),
                right=tr("it takes {numbers}", numbers=_TAKES[command.upper()]),
            )
        values.append(bounded(float(found[1])))
        position = found.end()
    return values, position


class _Pen:
    def __init__(self, mm_per_unit: float) -> None:
        self._mm_per_unit = mm_per_unit
        self._done: list[Subpath] = []
        self._segments: list[Segment] = []
        self._here: Point = (0.0, 0.0)
        self._start: Point = (0.0, 0.0)
        self._control: tuple[str, Point] = ("", (0.0, 0.0))
        self.started = False

    def draw(self, command: str, values: list[float]) -> None:
        kind = command.upper()
        before, self._control = self._control, ("", self._here)
        if kind == "Z":
            self._finish(closed=True)
        elif kind == "M":
            self._finish(closed=False)
            self._here = self._start = self._points(command, values)[0]
            self.started = True
        else:
            _DRAWN[kind](self, command, values, before)

    def finished(self) -> list[Subpath]:
        self._finish(closed=False)
        return self._done

    def _finish(self, closed: bool) -> None:
        if self._segments:
            self._done.append(Subpath(tuple(self._segments), closed))
        self._segments = []
        self._here = self._start

    def _points(self, command: str, values: list[float]) -> list[Point]:
        x, y = self._here if command.islower() else (0.0, 0.0)
        return [(x + a, y + b) for a, b in zip(values[::2], values[1::2], strict=True)]

    def _to(self, *points: Point) -> None:
        self._segments.append((self._here, *points))
        self._here = points[-1]

    def _line(self, command: str, values: list[float], _: tuple[str, Point]) -> None:
        self._to(*self._points(command, values))

    def _across(self, command: str, values: list[float], _: tuple[str, Point]) -> None:
        self._to((values[0] + (self._here[0] if command == "h" else 0.0), self._here[1]))

    def _down(self, command: str, values: list[float], _: tuple[str, Point]) -> None:
        self._to((self._here[0], values[0] + (self._here[1] if command == "v" else 0.0)))

    def _curve(self, command: str, values: list[float], _: tuple[str, Point]) -> None:
        points = self._points(command, values)
        self._to(*points)
        self._control = ("QC"[len(points) - 2], points[-2])

    def _smooth(self, command: str, values: list[float], before: tuple[str, Point]) -> None:
        points = self._points(command, values)
        kind = "QC"[len(points) - 1]
        x, y = self._here
        control = (2 * x - before[1][0], 2 * y - before[1][1]) if before[0] == kind else (x, y)
        self._to(control, *points)
        self._control = (kind, (control, *points)[-2])

    def _arc(self, command: str, values: list[float], _: tuple[str, Point]) -> None:
        end = self._points(command, values[5:])[0]
        radii = abs(values[0]), abs(values[1])
        if end == self._here:
            return
        if min(radii) < SMALLEST_RADIUS:
            self._to(end)
            return
        curves = arc(self._here, end, radii, math.radians(values[2]), values[3] != 0, values[4] != 0, self._mm_per_unit)
        for curve in curves[:-1]:
            self._to(*curve[1:])
        self._to(*curves[-1][1:-1], end)


_DRAWN: dict[str, Callable[[_Pen, str, list[float], tuple[str, Point]], None]] = {
    "L": _Pen._line,
    "H": _Pen._across,
    "V": _Pen._down,
    "C": _Pen._curve,
    "Q": _Pen._curve,
    "S": _Pen._smooth,
    "T": _Pen._smooth,
    "A": _Pen._arc,
}


def arc(
    start: Point, end: Point, radii: tuple[float, float], tilt: float, large: bool, positive: bool, mm_per_unit: float
) -> Segments:
    """Cubics for an elliptical arc given by its ends (W3C SVG 2, appendix B.2); `tilt` of its x-axis in radians.

    Radii too small to reach from end to end are enlarged until they do.
    """
    turn = np.array([[math.cos(tilt), -math.sin(tilt)], [math.sin(tilt), math.cos(tilt)]])
    axes = turn * np.array(radii)
    to_unit = np.linalg.inv(axes)
    a, b = to_unit @ np.array(start), to_unit @ np.array(end)
    half = (b - a) / 2
    reach = float(np.hypot(*half))
    grown = max(reach, 1.0)
    offset = math.sqrt(max(grown * grown - reach * reach, 0.0)) / reach * (1.0 if large != positive else -1.0)
    middle = (a + b) / 2 + offset * np.array([-half[1], half[0]])
    first = math.atan2(*(a - middle)[::-1])
    sweep = (math.atan2(*(b - middle)[::-1]) - first) % (2 * math.pi)
    sweep = sweep if positive else sweep - 2 * math.pi
    matrix = np.hstack([axes * grown, (axes @ middle)[:, None]])
    return transformed(unit_arc(first, sweep, max(radii) * grown * mm_per_unit), matrix)
