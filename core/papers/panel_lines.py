"""What is drawn of a panel wherever it is seen, on the screen and on paper, in the panel's own frame."""

import numpy as np

from core.model.panel import Panel, lines_before_shift
from core.papers.drawing import Drawing, Line

NOTCH_MM = 8.0


def panel_lines(panel: Panel) -> Drawing:
    """Cutting line, stitching line, lines as they were before a shift, and notches, mm in the panel's frame."""
    before = (Line(line, "line before") for line in lines_before_shift(panel).values())
    notches = (Line(np.array([mark.point, mark.point + mark.out * NOTCH_MM]), "notch") for mark in panel.notches)
    cut, net = Line(panel.cut_ring, "cut line", closed=True), Line(panel.net_ring, "net line", closed=True)
    return Drawing((cut, net, *before, *notches))
