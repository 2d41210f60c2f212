"""What edges and ways of joining are called on the screen."""

import re

from app.words import later
from core.model.pattern import EdgeRef, edge_of, panel_of
from core.model.project import Project

JOINS = ((later("Spread evenly"), "spread"), (later("Held at the top"), "top"), (later("Held at the bottom"), "bottom"))


def edge_title(project: Project, ref: EdgeRef) -> str:
    """An edge by its piece's name, the side in a pair, and its own name: Front gore R, waist."""
    return f"{panel_title(project, panel_of(ref))}, {edge_of(ref)}"


def panel_title(project: Project, panel: str) -> str:
    """A panel by its piece's name, and R or L in a pair."""
    piece = project.piece_of(panel)
    return f"{piece.title} {panel[-1]}" if piece.cut == "pair" else piece.title


def sentence(text: str) -> str:
    """A text with a capital at its beginning."""
    return text[:1].upper() + text[1:]


def with_titles(project: Project, text: str) -> str:
    """A finding's words with the titles of edges and panels in place of their references."""
    for panel in sorted(project.panel_names, key=len, reverse=True):
        for edge in sorted(project.piece_of(panel).edge_names, key=len, reverse=True):
            text = re.sub(
                rf"(?<!\S){re.escape(f'{panel}/{edge}')}(?![\w.])", edge_title(project, f"{panel}/{edge}"), text
            )
    return sentence(text)
