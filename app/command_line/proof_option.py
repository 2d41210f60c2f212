"""The option --prove of the command match: how long to prove, and what is said of it."""

import argparse
import math
from typing import TYPE_CHECKING

from app.command_line.console import progress_bar
from core.model.project import Project
from core.wording import number, tr

if TYPE_CHECKING:
    from core.matching.bound import Bound
    from core.matching.solve import MatchResult


def add_prove_option(command: argparse.ArgumentParser) -> None:
    """Add --prove SECONDS to a command."""
    command.add_argument(
        "--prove",
        type=_seconds,
        metavar="SECONDS",
        help="prove that no placement is much better: within 1 %% or 0.01 mm, or as near as that time allows",
    )


def proved(options: argparse.Namespace, project: Project, result: "MatchResult") -> "Bound | None":
    """The proof of a match if it was asked for; None too where no stripes are to match."""
    from core.matching.bound import prove

    return None if options.prove is None else prove(project, result, progress_bar(options.json), options.prove)


def proof_text(bound: "Bound") -> str:
    """One line about what was proved."""
    near = how_near(bound.gap_share, bound.gap_mm, bound.status == "proved", bound.lower_bound_mm > 0)
    claim = f"no placement inside the tolerance goes below {bound.lower_bound_mm:.3f} mm ({near})"
    if bound.status == "proved":
        return f"Proved: {claim}."
    if bound.status == "each way":
        return f"Proved: {claim}, if stripes and bars could have their own turns."
    if not bound.lower_bound_mm:
        return f"Nothing was proved in {bound.seconds:.0f} s."
    return f"Proved so far: {claim}; {bound.seconds:.0f} s were not enough for more."


def how_near(gap_share: float, gap_mm: float, proved: bool, bounded: bool) -> str:
    """How near a bound is: in percent, and in mm where that is what was reached, to the thousandth above.

    `bounded`: it is above zero.
    """
    share = tr("within {percent} %", percent=number(100 * gap_share, 1))
    if not proved or gap_share < 0.0105:
        return share
    length = number(max(math.ceil(gap_mm * 1000 - 0.02), 1) / 1000, 3)
    return f"{share}, {length} mm" if bounded else tr("within {length} mm", length=length)


def _seconds(text: str) -> float:
    try:
        seconds = float(text)
    except ValueError:
        seconds = math.nan
    if not 0 < seconds < math.inf:
        raise argparse.ArgumentTypeError(f"{text!r} is no time; a number of seconds above 0 is right")
    return seconds
