"""The panel transform of the design: a point p of a panel lies at R(t) p + (u, v)."""

import math

import numpy as np

from core.geometry.paths import Points


def rotation(turn_deg: float, turned: bool) -> Points:
    """R(t), with t = turn plus 180 degrees if turned; clockwise as you look at the face (y down); shape (2, 2)."""
    t = math.radians(turn_deg)
    sign = -1.0 if turned else 1.0
    return sign * np.array([[math.cos(t), -math.sin(t)], [math.sin(t), math.cos(t)]])


def placed(points: Points, u: float, v: float, turn_deg: float, turned: bool) -> Points:
    """Panel points brought onto the cloth; columns are u and v, mm."""
    return np.asarray(points @ rotation(turn_deg, turned).T + np.array([u, v]))
