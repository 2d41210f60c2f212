"""Strips: straight-sided pieces on the straight grain or on the bias, and what a bias strip takes of the cloth."""

import itertools
import math

import numpy as np

from core.geometry.paths import Points, path_of
from core.model.cloth import Cloth
from core.model.pattern import Edge, Piece
from core.model.project import Strip

_STRAIGHT_EDGES = ("upper end", "right side", "lower end", "left side")
_BIAS_EDGES = ("upper side", "right end", "lower side", "left end")


def strip_pieces(strip: Strip) -> tuple[Piece, ...]:
    """The pieces of a strip, one for each that is cut.

    On the straight grain a rectangle, its length along the cloth. On the bias its sides run at 45 degrees and its ends
    along the grain, as they are joined.
    """
    straight = strip.grain == "straight"
    corners = _straight(strip) if straight else _bias(strip)
    names = _STRAIGHT_EDGES if straight else _BIAS_EDGES
    ends = np.roll(corners, -1, axis=0)
    edges = tuple(
        Edge(name=name, path=path_of(np.stack([start, end]), 6), allowance=strip.allowance)
        for name, start, end in zip(names, corners, ends, strict=True)
    )
    paired = strip.on is not None and strip.on.panel.endswith((".R", ".L"))
    sides = itertools.cycle((strip.on, strip.on.mirrored) if strip.on and paired else (strip.on,))
    return tuple(
        Piece(id=one, name=strip.title, cloth=strip.cloth, edges=edges, grain=strip.grain, on=on)
        for one, on in zip(strip.piece_ids, sides, strict=False)
    )


def _straight(strip: Strip) -> Points:
    width, long = strip.width, strip.length
    return np.array([[0.0, 0.0], [width, 0.0], [width, long], [0.0, long]])


def _bias(strip: Strip) -> Points:
    run, end = strip.length / math.sqrt(2), bias_selvedge_mm(strip.width)
    return np.array([[0.0, 0.0], [run, run], [run, run + end], [0.0, end]])


def bias_selvedge_mm(width: float) -> float:
    """How much of the selvedge a bias strip of a width takes, mm."""
    return width * math.sqrt(2)


def longest_bias_mm(cloth: Cloth) -> float:
    """Length of a bias strip that runs across all the usable width of a cloth, mm."""
    return (cloth.usable[1] - cloth.usable[0]) * math.sqrt(2)
