"""What is odd about allowances and strips of a project whose file is in order."""

from core.derive.strips import longest_bias_mm
from core.geometry.offset import filled_bend
from core.model.panel import drawn_edges
from core.model.pattern import Piece
from core.model.project import Project, Strip
from core.seams.walk import Finding


def find_odd(project: Project) -> tuple[Finding, ...]:
    """Findings about all edges of all pieces, then about the strips, of a validated project."""
    edges = [finding for piece in project.pieces for finding in _bends(piece)]
    return (*edges, *(finding for strip in project.strips for finding in _too_long(project, strip)))


def _bends(piece: Piece) -> list[Finding]:
    """Bends of the drawn line that are narrower than the allowance, so that the other line cuts them short."""
    sign, other = (1.0, "cutting") if piece.outline_is == "net" else (-1.0, "stitching")
    found = []
    for edge, line in zip(piece.edges, drawn_edges(piece), strict=True):
        bend = None if edge.name == piece.fold else filled_bend(line, sign * edge.allowance)
        if bend is not None:
            (x, y), by = bend
            what = f"its bend at ({x:.1f}, {y:.1f}) is narrower than the allowance of {edge.allowance:g} mm"
            how = f"the {other} line cuts it short by {by:.1f} mm; a smaller allowance there follows it"
            found.append(Finding(f"piece {piece.id!r}, edge {edge.name!r}", what, how))
    return found


def _too_long(project: Project, strip: Strip) -> list[Finding]:
    cloth = project.cloth(strip.cloth)
    most = longest_bias_mm(cloth)
    if strip.grain != "bias" or strip.length <= most:
        return []
    what = f"on the bias {cloth.title!r} gives {most:.0f} mm in one length, the strip is {strip.length:g} mm long"
    return [Finding(f"strip {strip.id!r}", what, "a larger number of shorter ones, joined along the grain")]
