"""Cards tell how far the lines that were shifted lie from the old ones."""

import numpy as np
import pytest
import shapely

from core.model.panel import lines_before_shift
from core.papers.figures import figures_of
from core.papers.moved_lines import moved_edges
from core.seams.readings import measure
from core.shifting.shift import shift_lines
from near_gores import near_skirt


@pytest.fixture(scope="module")
def shifted():
    project = shift_lines(near_skirt(1, 3)).project
    return figures_of(project, measure(project))


def test_told_distances_lead_from_the_old_line_to_the_new_one(shifted):
    for panel in shifted.panels:
        for one in moved_edges(panel):
            line = shapely.LineString(panel.net[one.marks.edge])
            old = shapely.union_all([shapely.LineString(before) for before in panel.lines_before.values()])
            assert one.places[0][0] == 0
            assert one.places[-1][0] == pytest.approx(one.marks.length_mm)
            for at, out in one.places[1:-1]:
                way = at if one.marks.downwards else one.marks.length_mm - at
                point = line.interpolate(way)
                assert point.distance(old) == pytest.approx(abs(out), abs=0.02)
                outline = shapely.Polygon(panel.on_cloth(_as_it_was(panel)))
                if abs(out) > 0.1:
                    assert outline.contains(point) == (out < 0)


def _as_it_was(panel):
    old = lines_before_shift(panel.panel)
    return np.vstack([old.get(name, line) for name, line in panel.panel.net.items()])


def test_nothing_is_told_of_a_pattern_that_was_not_shifted():
    project = near_skirt(1, 3)
    figures = figures_of(project, measure(project))
    assert all(not moved_edges(panel) for panel in figures.panels)
