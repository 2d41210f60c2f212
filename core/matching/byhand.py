"""The practice at the cutting table, to compare with: each next panel is laid against its cut neighbour.

The first panel is cut on the grain with the lead stripe down its middle; every other one is laid on the grain so that
the stripes meet at one height of a seam that it shares with a panel already cut. (Butterick, The New Dressmaker,
1921, p. 34: choose what lies at the centre front, cut it, lay each next gore against its cut neighbour.)
"""

from core.model.cloth import WAYS
from core.model.pattern import PanelName
from core.model.project import Placement, Project
from core.seams.garment import Garment, SeamLine
from core.seams.readings import SeamReading


def by_hand(project: Project, garment: Garment, height_share: float = 0.5) -> Project:
    """The project with every panel laid against its neighbour so that the step is 0 at a share of the seam's length.

    On barred cloth the bars meet there too.
    """
    lines = [line for line in garment.seams if line.cloth is not None]
    waiting = [name for name in project.panel_names if project.cloth_of(name).ways]
    cut: list[PanelName] = []
    while waiting:
        line = next((line for line in lines if _joins(line, cut, waiting)), None)
        panel = waiting[0] if line is None else next(name for name in line.panels if name in waiting)
        at = _first(project, garment, panel) if line is None else _against(project, line, panel, height_share)
        project = project.placed({panel: at})
        waiting.remove(panel)
        cut.append(panel)
    return project


def _joins(line: SeamLine, cut: list[PanelName], waiting: list[PanelName]) -> bool:
    a, b = line.panels
    return (a in cut and b in waiting) or (b in cut and a in waiting)


def _first(project: Project, garment: Garment, panel: PanelName) -> Placement:
    repeat = project.cloth_of(panel).repeat
    return Placement(u=(repeat.c if repeat else 0.0) - float(garment.panels[panel].middle[0]))


def _against(project: Project, line: SeamLine, panel: PanelName, share: float) -> Placement:
    placed = {name: project.placement(name) for name in line.panels} | {panel: Placement()}
    ends = [placed[name] for name in line.panels]
    readings = [SeamReading.of(line, ends[0], ends[1], way) for way in WAYS]
    du, dv = project.cloth_of(panel).shift_for(*(_shift(reading, panel, share) for reading in readings))
    return Placement(u=du, v=dv)


def _shift(reading: SeamReading | None, panel: PanelName, share: float) -> float:
    """By how much the panel goes across the stripes, or the bars, to close the step, mm."""
    if reading is None:
        return 0.0
    line = reading.line
    step = float(reading.step_at(line.height[-1:] * share)[0])
    return -step if panel == line.panels[0] or reading.lean == "opposite" else step
