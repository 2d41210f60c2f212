"""The options of the commands that write papers."""

import argparse
from typing import get_args

from app.command_line.option_values import add_length
from core.errors import BadInput
from core.papers.choices import ROLL_RANGE_MM, LineChoice, PaperChoices, PaperName, Part
from core.units import UnitName

DEFAULT = PaperChoices()
PARTS: dict[str, Part] = {part.replace(" ", "-"): part for part in get_args(Part)}
"""The papers by the names that they have on the command line."""


def add_paper_options(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Add what can be chosen about the papers."""
    command.add_argument(
        "--paper",
        choices=get_args(PaperName),
        default=DEFAULT.paper,
        help=f"the printer's paper (default: {DEFAULT.paper})",
    )
    command.add_argument(
        "--units",
        choices=get_args(UnitName),
        default=DEFAULT.units,
        help=f"units on the papers and in the tables (default: {DEFAULT.units})",
    )
    command.add_argument(
        "--lines",
        choices=get_args(LineChoice),
        default=DEFAULT.lines,
        help=f"lines of the full-size pattern: stitching, cutting or both (default: {DEFAULT.lines})",
    )
    command.add_argument(
        "--part",
        choices=list(PARTS),
        action="append",
        help="one of the papers, and more if it is given again (default: all)",
    )
    add_length(command, "--roll", f"width of a roll of paper (default: {DEFAULT.roll_mm:g} mm)", dest="roll_mm")
    return command


def paper_choices(options: argparse.Namespace) -> PaperChoices:
    """The choices that were made. Raises BadInput for a roll that no printer has."""
    roll_mm = DEFAULT.roll_mm if options.roll_mm is None else options.roll_mm
    least, most = ROLL_RANGE_MM
    if not least <= roll_mm <= most:
        raise BadInput(f"a roll of {roll_mm:g} mm", "--roll", f"a width from {least:g} to {most:g} mm")
    parts = frozenset(PARTS[name] for name in options.part) if options.part else DEFAULT.parts
    return PaperChoices(paper=options.paper, units=options.units, lines=options.lines, parts=parts, roll_mm=roll_mm)
