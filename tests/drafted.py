"""Measuring drafted pieces with svgpathtools, a general library for SVG paths: lengths, directions, leans."""

import math

import numpy as np
from svgpathtools import Path, parse_path

from core.model.panel import panels_of
from core.model.pattern import Piece
from core.model.project import Project

INCH, YARD = 25.4, 914.4


def piece(project: Project, piece_id: str) -> Piece:
    return next(piece for piece in project.pieces if piece.id == piece_id)


def edge(piece: Piece, name: str) -> Path:
    return parse_path(next(edge.path for edge in piece.edges if edge.name == name))


def width(piece: Piece, line: str) -> float:
    """Whole width of a gore along its waist or hem, mm; a gore on the fold is drawn by half."""
    return edge(piece, line).length() * (2 if piece.cut == "fold" else 1)


def hip_width(piece: Piece) -> float:
    """Distance between the hip notches, mm."""
    lowest = sorted((mark.point for mark in panels_of(piece)[0].notches), key=lambda point: -point[1])[:2]
    return float(np.hypot(*(lowest[0] - lowest[1])))


def lean_deg(piece: Piece, name: str) -> float:
    """How far the lowest straight part of an edge leans off the grain, degrees."""
    path = edge(piece, name)
    line = max((path[0], path[-1]), key=lambda part: max(part.start.imag, part.end.imag))
    run = line.end - line.start
    return math.degrees(math.atan2(abs(run.real), abs(run.imag)))


def middle_length(piece: Piece) -> float:
    """From the middle of the upper edge to the middle of the hem of a whole gore, mm."""
    return (edge(piece, "hem").point(0.5) - edge(piece, "waist").point(0.5)).imag
