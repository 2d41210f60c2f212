"""About how many pages the papers take, told before they are made."""

import math
from collections.abc import Iterable

from core.geometry.polyline import signed_area
from core.model.panel import Panel
from core.papers.choices import PaperChoices
from core.papers.page import DRAWN_ON
from core.papers.tiles import Grid

MORE_THAN_AREA = 1.13
"""Tiles of a skirt take about so many times the pages that their area would fill: 1.09 to 1.16 in the samples."""


def about_tile_pages(panels: Iterable[Panel], choices: PaperChoices) -> int:
    """Pages of the full-size pattern in tiles, to within some; the map of the tiles is not counted."""
    rings = (panel.net_ring if choices.lines == "net" else panel.cut_ring for panel in panels)
    across, down = Grid(DRAWN_ON[choices.paper], (0.0, 0.0)).step
    return math.ceil(MORE_THAN_AREA * sum(abs(signed_area(ring)) for ring in rings) / (across * down))
