"""`stripewright true`: trues the seams of a project by a method."""

import argparse
from typing import Any

from core.files.project_file import read_project, write_project
from core.seams.garment import Garment
from core.seams.remedy import METHODS
from core.seams.truing import trued_by
from core.seams.walk import walk


def add_true_command(commands: Any) -> None:
    """Describe the command."""
    does = "true the seams that walking finds fault with, by a method of your choice"
    command: argparse.ArgumentParser = commands.add_parser(
        "true", help=does, description=does, epilog="The methods: " + "; ".join(METHODS) + "."
    )
    command.add_argument("file", metavar="FILE", help="a project file")
    command.add_argument("--by", required=True, metavar="METHOD", choices=METHODS, help="what to do, in words")
    command.add_argument("--seam", metavar="NAME", help="the seam to true (else all that offer the method)")
    command.add_argument("-o", dest="output", metavar="OUT", help="write the project here (else FILE)")


def run_true(options: argparse.Namespace) -> int:
    """True the seams of a project file; prints what was trued and what is left to look at; returns the exit code."""
    project, done = trued_by(read_project(options.file), options.by, options.seam)
    write_project(options.output or options.file, project)
    for finding in done:
        print(f"trued, {finding.place}: {finding.what}")
    left = walk(project, Garment.of(project))
    print(*left, f"{len(done)} trued, {len(left) or 'no'} findings left", sep="\n")
    return 0
