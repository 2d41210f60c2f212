"""SVG path data (W3C SVG 2, chapter 9; absolute M, L, Q, C only) to polylines, and back."""

import re
from collections.abc import Iterator
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from core.errors import BadInput
from core.wording import tr

Points = NDArray[np.float64]

FLATNESS_MM = 0.002
"""Largest distance between a curve and the polyline that stands for it."""

LARGEST_MM = 100_000.0
"""No coordinate of a garment lies farther from its origin than this (100 m)."""

_TOKEN = re.compile(r"[A-Za-z]|[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?")
_FILLER = re.compile(r"[\s,]*")
_NUMBERS_OF = {"M": 2, "L": 2, "Q": 4, "C": 6}


def tokens_of(data: str) -> list[str]:
    """Split path data into command letters and numbers. Raises BadInput at anything else."""
    tokens, position = [], 0
    while (position := _end_of_filler(data, position)) < len(data):
        found = _TOKEN.match(data, position)
        if not found:
            raise BadInput(
                tr("path has {data!r} in it", data=data[position : position + 8]),
                right=tr("numbers and M, L, Q, C are right"),
            )
        tokens.append(found.group())
        position = found.end()
    return tokens


def _end_of_filler(data: str, position: int) -> int:
    found = _FILLER.match(data, position)
    return found.end() if found else position


def segments_of(data: str) -> tuple[tuple[tuple[float, float], ...], ...]:
    """Read path data as Bezier segments of 2, 3 or 4 control points, each starting where the last one ended.

    Raises BadInput: another command than M, L, Q, C, a wrong count of numbers, more than one M, a number too large.
    """
    segments: list[tuple[tuple[float, float], ...]] = []
    here: tuple[float, float] | None = None
    for command, numbers in _commands(tokens_of(data)):
        points = tuple(zip(numbers[::2], numbers[1::2], strict=True))
        if command == "M":
            if here is not None:
                raise BadInput(tr("path starts more than once"), right=tr("one M, at its beginning, is right"))
        elif here is None:
            raise BadInput(tr("path starts with {command}", command=command), right=tr("it must start with M"))
        else:
            segments.append((here, *points))
        here = points[-1]
    if not segments:
        raise BadInput(tr("path draws nothing"), right=tr("M and at least one L, Q or C are right"))
    return tuple(segments)


def _commands(tokens: list[str]) -> Iterator[tuple[str, list[float]]]:
    command, position = "", 0
    while position < len(tokens):
        if tokens[position].isalpha():
            command, position = tokens[position], position + 1
            if command not in _NUMBERS_OF:
                raise BadInput(
                    tr("path command {command!r}", command=command), right=tr("absolute M, L, Q and C are right")
                )
        elif command in ("", "M"):
            command = "L" if command else ""
        if not command:
            raise BadInput(tr("path starts with a number"), right=tr("it must start with M"))
        count = _NUMBERS_OF[command]
        numbers = tokens[position : position + count]
        if len(numbers) < count or any(token.isalpha() for token in numbers):
            raise BadInput(
                tr("path command {command} lacks numbers", command=command),
                right=tr("{command} takes {count}", command=command, count=count),
            )
        yield command, [_number(token) for token in numbers]
        position += count


def _number(token: str) -> float:
    value = float(token)
    if not abs(value) <= LARGEST_MM:
        raise BadInput(
            tr("path coordinate {token}", token=token),
            right=tr("up to {largest_mm:g} mm is right", largest_mm=LARGEST_MM),
        )
    return value


@lru_cache(maxsize=4096)
def flatten(data: str) -> Points:
    """The polyline that stands for path data, within FLATNESS_MM of it; shape (n, 2), read-only."""
    pieces = [flatten_segment(np.array(segment, dtype=np.float64)) for segment in segments_of(data)]
    points = np.concatenate([pieces[0], *(piece[1:] for piece in pieces[1:])])
    points = without_repeats(points)
    points.setflags(write=False)
    return points


def flatten_segment(control: Points) -> Points:
    """The polyline that stands for one Bezier segment of 2, 3 or 4 control points; shape (n, 2)."""
    degree = len(control) - 1
    if degree == 1:
        return control
    bend = np.abs(np.diff(control, 2, axis=0)).max() * degree * (degree - 1)
    count = int(min(max(np.ceil(np.sqrt(bend / (8 * FLATNESS_MM))), 1), 4000))
    t = np.linspace(0.0, 1.0, count + 1)[:, None]
    points = control[:, None, :]
    while len(points) > 1:
        points = points[:-1] * (1 - t) + points[1:] * t
    return np.asarray(points[0])


def without_repeats(points: Points) -> Points:
    """The polyline without points that repeat the one before (closer than 1e-9 mm)."""
    step = np.hypot(*np.diff(points, axis=0).T)
    return np.asarray(points[np.concatenate([[True], step > 1e-9])])


def path_of(points: Points, digits: int = 4) -> str:
    """Path data that draws a polyline."""
    pairs = [f"{short_number(x, digits)} {short_number(y, digits)}" for x, y in points]
    return f"M {pairs[0]} L " + " L ".join(pairs[1:])


def short_number(value: float, digits: int = 4) -> str:
    """A number as path data has it, without needless zeros."""
    return f"{round(float(value), digits) + 0.0:.{digits}f}".rstrip("0").rstrip(".")
