"""The option --variant of the command measure, and the variants of a project as a table."""

import argparse

from app.command_line.console import table
from core.errors import inside
from core.model.project import Project
from core.model.variants import in_force, variant_of


def add_variant_option(command: argparse.ArgumentParser) -> None:
    """Add --variant NAME to a command."""
    command.add_argument("--variant", metavar="NAME", help="for the variant of this name that the project keeps")


def variant_in(options: argparse.Namespace, project: Project) -> Project:
    """The project with the variant in force that was asked for. Raises BadInput if there is none of that name."""
    if options.variant is None:
        return project
    with inside(options.file):
        return in_force(project, variant_of(project, options.variant))


def variants_text(project: Project) -> str:
    """The figures of all variants, a row each."""
    from core.derive.compare import standings

    rows = [("variant", "rms mm", "same weights", "worst mm", "at seam", "end for end", "largest turn °", "lay mm")]
    for found in standings(project):
        rms, alike, worst = (_number(value, 3) for value in (found.rms_mm, found.alike_rms_mm, found.worst_mm))
        turn, lay = f"{found.longest_turn_deg:.2f}", _number(found.lay_mm, 0)
        rows.append((found.name, rms, alike, worst, found.worst_seam or "-", str(found.turned), turn, lay))
    return table(rows)


def _number(value: float | None, decimals: int) -> str:
    return "-" if value is None else f"{value:.{decimals}f}"
