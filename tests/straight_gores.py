"""Straight gores sewn in a row, made to order for walking and truing. All numbers are invented."""

import itertools
import json
import math

from core.files.project_file import project_from_bytes
from core.model.project import Project
from core.seams.garment import Garment
from core.seams.truing import trued
from core.seams.walk import Finding, walk

CUT_AT = {"top": 10.0, "r": 12.0, "hem": 30.0, "l": 12.0}


def gore(name: str, length: float = 800.0, lean_deg: float = 6.0, cut: str = "single", **keys) -> dict:
    """A gore 100 mm wide at the top, symmetric about the grain, with straight edges of one length."""
    x, y = 50 + length * math.sin(math.radians(lean_deg)), length * math.cos(math.radians(lean_deg))
    edges = [
        {"name": "top", "path": "M -50 0 L 50 0"},
        {"name": "r", "path": f"M 50 0 L {x!r} {y!r}"},
        {"name": "hem", "path": f"M {x!r} {y!r} L {-x!r} {y!r}"},
        {"name": "l", "path": f"M {-x!r} {y!r} L -50 0"},
    ]
    for edge in edges:
        edge["allowance"] = CUT_AT[edge["name"]]
    return {"id": name, "cloth": "cloth", "edges": edges, "cut": cut, **keys}


def sewn(*pieces: dict, **seam) -> Project:
    """Gores in a row, each with its right edge to the left one of the next."""
    refs = [(panel(left), panel(right)) for left, right in itertools.pairwise(pieces)]
    seams = [
        {"name": f"s{i}", "a": f"{a}/r", "b": f"{b}/l", **({"both_sides": True} if a.endswith(".R") else {}), **seam}
        for i, (a, b) in enumerate(refs)
    ]
    return made(pieces, seams)


def panel(piece: dict) -> str:
    return f"{piece['id']}.R" if piece["cut"] == "pair" else piece["id"]


def made(pieces, seams) -> Project:
    cloth = {"id": "cloth", "width": 3000, "repeat": {"width": 20, "stripes": [STRIPE]}}
    raw = {"format": "stripewright-project", "version": 1, "cloths": [cloth], "pieces": [*pieces], "seams": [*seams]}
    return project_from_bytes(json.dumps(raw).encode())


STRIPE = {"name": "line", "at": 0, "width": 5, "colour": "#203050"}


def findings(project: Project, word: str = "") -> list[Finding]:
    """What walking finds, or only what has a word in it."""
    return [finding for finding in walk(project, Garment.of(project)) if word in str(finding)]


def true(project: Project, method: str, word: str = "") -> Project:
    """The project after the first remedy of that method that a finding offers."""
    for finding in findings(project, word):
        for remedy in finding.remedies:
            if remedy.method == method:
                return trued(project, remedy)
    raise AssertionError(f"nobody offers to {method}")


def seam_lengths(project: Project, index: int = 0) -> tuple[float, float]:
    return Garment.of(project).seams[index].edge_lengths
