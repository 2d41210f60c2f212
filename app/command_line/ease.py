"""`stripewright ease`: where to ease one edge of a seam onto the other so that the stripes meet better."""

import argparse
from typing import Any, get_args

from app.command_line.console import print_json, table
from app.command_line.option_values import number
from core.errors import BadInput
from core.files.project_file import read_project
from core.files.shift_report import easing_report
from core.model.project import Project
from core.seams.easing import Easing, Ends, best_easing
from core.seams.readings import measure

MOST_PERCENT = 20.0


def add_ease_command(commands: Any) -> None:
    """Describe the command."""
    does = "where to ease one edge of each seam onto the other, within what the cloth takes, and what it gains"
    command: argparse.ArgumentParser = commands.add_parser("ease", help=does, description=does)
    command.add_argument("file", metavar="FILE", help="a project file")
    command.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    command.add_argument("--seam", metavar="NAME", help="the seam to ease (else all)")
    command.add_argument(
        "--limit", type=_percent, metavar="PERCENT", help="the most an edge is eased (else what its cloth says, or 2)"
    )
    command.add_argument(
        "--ends", choices=get_args(Ends), default="kept", help="whether both ends must meet (default: kept)"
    )


def run_ease(options: argparse.Namespace) -> int:
    """Print the best easing of the seams of a project file; returns the exit code."""
    found = _eased(read_project(options.file), options)
    if options.json:
        return print_json({"seams": [easing_report(one) for one in found]})
    print(easing_text(found))
    return 0


def _eased(project: Project, options: argparse.Namespace) -> list[Easing]:
    names = [seam.name for seam in project.seams]
    if options.seam is not None and options.seam not in names:
        raise BadInput(f"there is no seam {options.seam!r}", options.file, f"the seams are {', '.join(names)}")
    asked = [r for r in measure(project).seams if r is not None and options.seam in (None, r.line.sewn.seam.name)]
    return [best_easing(reading, options.limit, options.ends) for reading in asked if reading.rms_mm is not None]


def easing_text(found: list[Easing]) -> str:
    """The seams as a table, then where to ease and by how much, or the plain truth that it is not worth it."""
    if not found:
        return "There is nothing to ease: no seam joins two panels of one cloth with stripes along it."
    rows = [("seam", "rms mm", "eased rms mm", "eased worst mm", "limit %", "eased in all mm", "worth it")]
    rows += [_row(one) for one in found]
    worth = [one for one in found if one.worth]
    lines = [table(rows), "", *(line for one in worth for line in _runs(one))]
    if any(one.reading.cloth.ease_percent is None for one in worth):
        lines.append("The limit is what is usual for firm cotton; give the cloth its own ease_percent if you know it.")
    if not worth:
        lines.append("Easing is not worth the work on any seam: it takes less than a tenth off the step.")
    return "\n".join(lines)


def _row(one: Easing) -> tuple[str, ...]:
    figures = (one.reading.rms_mm, one.rms_mm, one.worst_mm)
    numbers = ["-" if value is None else f"{value:.2f}" for value in figures]
    eased = f"{one.total_mm:.1f}"
    return (one.reading.line.sewn.label, *numbers, f"{one.limit_percent:g}", eased, "yes" if one.worth else "no")


def _runs(one: Easing) -> list[str]:
    """Where to ease, one line for each stretch of one rate."""
    label = one.reading.line.sewn.label
    sides = {True: "right edge onto the left", False: "left edge onto the right"}
    return [
        f"{label}, {run.from_mm:.0f} to {run.to_mm:.0f} mm: ease {abs(run.per_100_mm):.1f} mm in 100 of the "
        f"{sides[run.per_100_mm > 0]}"
        for run in one.runs
    ]


def _percent(text: str) -> float:
    percent = number(text)
    if not 0 < percent <= MOST_PERCENT:
        raise argparse.ArgumentTypeError(f"{text!r} is no limit; above 0 and up to {MOST_PERCENT:g} percent is right")
    return percent
