"""Numbers that pages tell about a project."""

from core.model.panel import panels_of
from core.model.project import Project


def longest_panel_mm(project: Project) -> float | None:
    """Length along the grain of the longest cutting line of a project, mm; None where there are no pieces."""
    rings = [panel.cut_ring for piece in project.pieces for panel in panels_of(piece)]
    return max((float(ring[:, 1].max() - ring[:, 1].min()) for ring in rings), default=None)


def summary(project: Project) -> str:
    """Title and numbers of a project."""
    panels, seams = len(project.panel_names), len(project.sewn)
    return f"{project.title}: {_counted(panels, 'panel')}, {_counted(seams, 'seam')}."


def _counted(number: int, one: str) -> str:
    return f"{number or 'no'} {one if number == 1 else one + 's'}"
