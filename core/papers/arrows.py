"""The head of an arrow, the same for all painters."""

import numpy as np

from core.geometry.paths import Points

ARROW_MM = 2.6


def arrowhead(points: Points) -> Points:
    """A slim triangle whose tip is the end of a polyline; shape (3, 2)."""
    along = points[-1] - points[-2]
    along = along / np.hypot(*along)
    across = np.array([-along[1], along[0]])
    base = points[-1] - along * ARROW_MM
    return np.array([points[-1], base + across * ARROW_MM * 0.28, base - across * ARROW_MM * 0.28])
