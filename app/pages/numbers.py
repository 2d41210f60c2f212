"""Numbers that pages tell about a project."""

from app.words import tr
from core.model.panel import panels_of
from core.model.project import Project


def longest_panel_mm(project: Project) -> float | None:
    """Length along the grain of the longest cutting line of a project, mm; None where there are no pieces."""
    rings = [panel.cut_ring for piece in project.pieces for panel in panels_of(piece)]
    return max((float(ring[:, 1].max() - ring[:, 1].min()) for ring in rings), default=None)


def summary(project: Project) -> str:
    """Title and numbers of a project."""
    panels, seams = len(project.panel_names), len(project.sewn)
    return f"{project.title}: {counted_panels(panels)}, {counted_seams(seams)}."


def counted_panels(number: int) -> str:
    """So many panels."""
    return tr("1 panel") if number == 1 else tr("{count} panels").format(count=number or tr("no"))


def counted_seams(number: int) -> str:
    """So many seams."""
    return tr("1 seam") if number == 1 else tr("{count} seams").format(count=number or tr("no"))
