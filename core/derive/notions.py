"""Lengths of binding, braid, facings and linings."""

from core.geometry.paths import Points
from core.geometry.polyline import length
from core.model.panel import Panel, panels_of
from core.model.project import Project

BRAID_JOIN_MM = 12.7
"""What each of a braid's two ends takes where they are joined: half an inch."""

HEMS = ("hem", "rim")
"""Edges of these names are the lower edge of the garment."""


def binding_mm(project: Project) -> float:
    """Binding for all seam edges: both net edges of every seam as sewn, stretches left open included, mm."""
    edges = {
        f"{panel.name}/{name}": line
        for piece in project.pieces
        for panel in panels_of(piece)
        for name, line in panel.net.items()
    }
    return sum(length(edges[ref]) for seam in project.sewn for ref in (seam.a, seam.b))


def braid_mm(project: Project) -> float:
    """Braid round the hem: the net hem edges of all panels and the two ends of one join, mm; 0 without a hem.

    Hem edges are those named hem or rim; if no panel has one, the lowest edge of each panel that is in no seam.
    """
    hems = hem_lines(project)
    return sum(length(line) for line in hems) + 2 * BRAID_JOIN_MM if hems else 0.0


def hem_lines(project: Project) -> list[Points]:
    """The hem edges of all panels, on the net line."""
    panels = [panel for piece in project.pieces for panel in panels_of(piece)]
    named = [line for panel in panels for name, line in panel.net.items() if name.partition(".")[0] in HEMS]
    sewn = {ref for seam in project.sewn for ref in (seam.a, seam.b)}
    return named or [line for panel in panels for line in _lowest(panel, sewn)]


def _lowest(panel: Panel, sewn: set[str]) -> list[Points]:
    free = [line for name, line in panel.net.items() if f"{panel.name}/{name}" not in sewn]
    return [max(free, key=lambda line: float(line[:, 1].mean()))] if free else []


def followed_mm(project: Project) -> tuple[tuple[str, float], ...]:
    """For every facing and lining its title and the length of the edges that it follows round the garment, mm."""
    drawn = {piece.id: piece for piece in project.pieces}
    return tuple(
        (layer.title, sum(_edge_mm(panel, layer.edge) for of in layer.of for panel in panels_of(drawn[of])))
        for layer in project.layers
        if layer.edge is not None
    )


def _edge_mm(panel: Panel, edge: str) -> float:
    """Length of an edge as drawn on a panel; of a fold both halves."""
    return sum(length(line) for name, line in panel.net.items() if name in (edge, f"{edge}.R", f"{edge}.L"))
