"""What an eye sees of a body of revolution: for every pixel the row, the angle and how squarely it is looked at.

The eye is far off, so that lines of sight are parallel. Between two rows the body is a cone, which a line of sight
meets where a quadratic equation says. Turning the body about its axis changes nothing here but the angle, by the same
amount everywhere; so a sight serves for every turn.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.geometry.polyline import Floats
from core.worn.body import WornBody
from core.worn.patch import ROWS

BANDS = 32
"""Cones that the body is made of."""
_LEAST_TILT = 1e-3
_EPS = 1e-9

Pixels32 = NDArray[np.int32]
Floats32 = NDArray[np.float32]


@dataclass(frozen=True)
class Frame:
    """A picture of `wide` x `high` pixels; the axis is in its middle, `top` pixels lie above the upper border.

    `scale` is pixels per mm; `tilt` how far the eye is above (positive) or below the horizontal, radians.
    """

    wide: int
    high: int
    scale: float
    top: float
    tilt: float


@dataclass(frozen=True, eq=False)
class Sight:
    """Pixels on which the body is seen, by number from the upper left on; all of shape (m,).

    `angle` is 0 towards the eye and grows to the right, radians; `facing` is the cosine between the line of sight and
    the outside of the cloth, negative where the inside is seen.
    """

    pixel: Pixels32
    row: Pixels32
    angle: Floats32
    facing: Floats32


@dataclass(frozen=True, eq=False)
class _Layer:
    """The nearest cloth found so far on the right half of a picture: of the outside, or of the inside."""

    depth: Floats32
    row: Floats32
    angle: Floats32
    facing: Floats32

    @classmethod
    def blank(cls, high: int, wide: int) -> "_Layer":
        return cls(np.full((high, wide), -np.inf, np.float32), *(np.zeros((high, wide), np.float32) for _ in range(3)))


def fitted(body: WornBody, wide: int, high: int, tilt: float, margin: float) -> Frame:
    """The frame in which the whole body is seen as large as it goes, with a margin in pixels."""
    tall = (body.drop * math.cos(tilt))[:, None] + body.radius[:, None] * math.sin(tilt) * np.array([-1.0, 1.0])
    low, tallest = float(tall.min()), max(float(tall.max() - tall.min()), 1.0)
    widest = max(2 * float(body.radius.max()), 1.0)
    scale = max(min((wide - 2 * margin) / widest, (high - 2 * margin) / tallest), 1e-3)
    return Frame(wide, high, scale, (high - tallest * scale) / 2 - low * scale, tilt)


def look(body: WornBody, frame: Frame, rows: tuple[int, int] | None = None) -> tuple[Sight, ...]:
    """What is seen in a frame, or in some of its pixel rows: the nearest cloth.

    Of a body that does not close two layers are given, the far one first, since its gap lets the eye through.
    """
    first, last = rows or (0, frame.high)
    half = (frame.wide + 1) // 2
    x: Floats = np.asarray((np.arange(half) + (0.5 if frame.wide % 2 == 0 else 0.0)) / frame.scale, dtype=np.float64)
    y: Floats = np.asarray((np.arange(first, last) + 0.5 - frame.top) / frame.scale, dtype=np.float64)
    outside, inside = (_Layer.blank(last - first, half) for _ in range(2))
    for start, end in _bands():
        _meet(body, (start, end), frame.tilt, x, y, (outside, inside))
    nearer = outside.depth >= inside.depth
    near = _merged(nearer, outside, inside)
    if body.closed:
        return (_sight(body, near, frame, first),)
    return _sight(body, _merged(~nearer, outside, inside), frame, first), _sight(body, near, frame, first)


def _bands() -> list[tuple[int, int]]:
    ends = np.linspace(0, ROWS - 1, BANDS + 1).round().astype(int).tolist()
    return list(pairwise(ends))


def _meet(
    body: WornBody, rows: tuple[int, int], tilt: float, x: Floats, y: Floats, layers: tuple[_Layer, _Layer]
) -> None:
    """Look at one cone, the body between two rows; x (w,) to the right, y (h,) down, mm."""
    tilt = tilt if abs(tilt) > _LEAST_TILT else math.copysign(_LEAST_TILT, tilt)
    sin, cos = math.sin(tilt), math.cos(tilt)
    (r0, r1), (z0, z1) = body.radius[list(rows)].tolist(), body.drop[list(rows)].tolist()
    reach = [z * cos + side * r * sin for z, r in ((z0, r0), (z1, r1)) for side in (-1, 1)]
    top, bottom = np.searchsorted(y, (min(reach), max(reach)))
    right = int(np.searchsorted(x, max(r0, r1)))
    if top == bottom or right == 0:
        return
    here = slice(int(top), int(bottom)), slice(0, right)
    x, y = x[None, :right], y[top:bottom, None]
    fall, out, away, square = (z1 - z0) * cos, r1 - r0, y - z0 * cos, sin * sin
    a = fall * fall - square * out * out
    a = a if abs(a) > _EPS else _EPS
    b = away * fall + square * r0 * out
    under_root = b * b - a * (away * away + square * (x * x - r0 * r0))
    root = np.sqrt(np.maximum(under_root, 0.0))
    for sign in (-1.0, 1.0):
        share = (b + sign * root) / a
        hit = (share >= -_EPS) & (share < 1 + _EPS) & (under_root >= 0)
        _keep(hit, share, here, (x, y), (rows, r0, out, z0, z1 - z0), (sin, cos), layers)


def _keep(
    hit: NDArray[np.bool_],
    share: Floats,
    here: tuple[slice, slice],
    at: tuple[Floats, Floats],
    cone: tuple[tuple[int, int], float, float, float, float],
    tilt: tuple[float, float],
    layers: tuple[_Layer, _Layer],
) -> None:
    """Keep those hits that lie nearer than what was found before."""
    line, column = np.nonzero(hit)
    share = share[line, column]
    (start, end), _, out, z0, fall = cone
    sin, cos = tilt
    x, z = at[0][0, column], z0 + share * fall
    q = (at[1][line, 0] - z * cos) / sin
    angle, slant = np.arctan2(x, q), math.hypot(out, fall)
    facing = (fall * np.cos(angle) * cos + out * sin) / slant
    depth = q * cos - z * sin
    line, column = line + here[0].start, column + here[1].start
    for layer, mine in zip(layers, (facing >= 0, facing < 0), strict=True):
        mine &= depth > layer.depth[line, column]
        to = line[mine], column[mine]
        layer.depth[to] = depth[mine]
        layer.row[to] = start + share[mine] * (end - start)
        layer.angle[to] = angle[mine]
        layer.facing[to] = facing[mine]


def _merged(first: NDArray[np.bool_], one: _Layer, other: _Layer) -> _Layer:
    pairs = ((one.depth, other.depth), (one.row, other.row), (one.angle, other.angle), (one.facing, other.facing))
    return _Layer(*(np.where(first, a, b) for a, b in pairs))


def _sight(body: WornBody, layer: _Layer, frame: Frame, first: int) -> Sight:
    """The whole picture from its right half: the left one is its mirror image."""
    seen = _whole(layer.depth, frame.wide) > -np.inf
    angle = _whole(layer.angle, frame.wide)
    angle[:, : frame.wide // 2] *= -1
    row = np.clip(np.rint(_whole(layer.row, frame.wide)[seen]), 0, ROWS - 1).astype(np.int32)
    side = np.sign(_whole(layer.facing, frame.wide)[seen])
    pixel = (np.flatnonzero(seen) + first * frame.wide).astype(np.int32)
    return Sight(pixel, row, angle[seen], side * _rounded(body, frame.tilt, row, angle[seen]))


def _rounded(body: WornBody, tilt: float, row: Pixels32, angle: Floats32) -> Floats32:
    """How squarely the body itself is looked at, where the cones have edges; without sign."""
    step = ROWS // BANDS
    out, fall = (np.gradient(values)[row // step] for values in (body.radius[::step], body.drop[::step]))
    square = (fall * np.cos(angle) * math.cos(tilt) + out * math.sin(tilt)) / np.hypot(out, fall)
    return np.asarray(np.abs(square), dtype=np.float32)


def _whole(half: Floats32, wide: int) -> Floats32:
    return np.concatenate([half[:, ::-1][:, : wide // 2], half], axis=1)
