"""`stripewright list`: what there is to cut and to buy."""

import argparse
from typing import Any

from app.command_line.console import print_json, table
from core.derive.count import ClothNeed, CutPiece, CuttingList, cutting_list
from core.files.project_file import read_project
from core.files.reports import list_report


def add_list_command(commands: Any) -> None:
    """Add the command."""
    does = "everything to cut, the notions, and what each cloth needs"
    command = commands.add_parser("list", help=does, description=does)
    command.add_argument("file", metavar="FILE", help="a project file")
    command.add_argument("--json", action="store_true", help="print one JSON object and nothing else")


def run_list(options: argparse.Namespace) -> int:
    """Print the list of a project file, as text or as one JSON object; returns the exit code."""
    found = cutting_list(read_project(options.file))
    if options.json:
        return print_json(list_report(found))
    print(list_text(found))
    return 0


def list_text(found: CuttingList) -> str:
    """Pieces, notions and cloths as three tables."""
    pieces = [("piece", "cloth", "number", "mirrored", "grain"), *(_piece_row(piece) for piece in found.pieces)]
    notions = [("notion", "mm"), ("binding, both edges of all seams", f"{found.binding_mm:.0f}")]
    notions += [("braid round the hem, joined once", f"{found.braid_mm:.0f}")]
    notions += [(f"{title}, along its edge", f"{long:.0f}") for title, long in found.followed_mm]
    cloths = [("cloth", "area m2", "lay mm", "buy mm", "cost"), *(_cloth_row(need) for need in found.cloths)]
    parts = [table(pieces), f"{found.count} pieces to cut", table(notions), table(cloths)]
    return "\n\n".join([*parts, *(_matching(need) for need in found.cloths if need.matching_mm)])


def _matching(need: ClothNeed) -> str:
    return f"{need.cloth.title}: {need.matching_mm:.0f} mm of what to buy is for bringing its bars into place"


def _piece_row(piece: CutPiece) -> tuple[str, ...]:
    mirrored = f"{piece.number // 2} of them" if piece.mirrored else "no"
    return piece.name, piece.cloth, str(piece.number), mirrored, piece.grain


def _cloth_row(need: ClothNeed) -> tuple[str, ...]:
    if need.length_mm is None or need.buy_mm is None:
        return need.cloth.title, f"{need.area_mm2 / 1e6:.3f}", "not laid", "-", "-"
    cost = "-" if need.cost is None else f"{need.cost:.2f}"
    return need.cloth.title, f"{need.area_mm2 / 1e6:.3f}", f"{need.length_mm:.0f}", f"{need.buy_mm:.0f}", cost
