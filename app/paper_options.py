"""The options of the commands that write papers."""

import argparse
from typing import get_args

from core.papers.choices import LineChoice, PaperChoices, PaperName, UnitName

DEFAULT = PaperChoices()


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
        help=f"units on the papers (default: {DEFAULT.units})",
    )
    command.add_argument(
        "--lines",
        choices=get_args(LineChoice),
        default=DEFAULT.lines,
        help=f"lines of the full-size pattern: stitching, cutting or both (default: {DEFAULT.lines})",
    )
    return command


def paper_choices(options: argparse.Namespace) -> PaperChoices:
    """The choices that were made."""
    return PaperChoices(paper=options.paper, units=options.units, lines=options.lines)
