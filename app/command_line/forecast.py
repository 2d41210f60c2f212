"""`stripewright forecast`: the steps to expect once hands have laid, cut and sewn."""

import argparse
from dataclasses import fields
from typing import TYPE_CHECKING, Any

from app.command_line.console import print_json, table
from app.command_line.option_values import number
from core.files.project_file import read_project
from core.files.reports import forecast_report
from core.forecast.errors import WORDS, Errors

if TYPE_CHECKING:
    from core.forecast.forecast import Forecast

LIMITS_MM = (2.0, 3.0)


def add_forecast_command(commands: Any) -> None:
    """Add the command with an option for every kind of error."""
    does = "the steps to expect once the panels are laid, cut and sewn by hand, and which error matters most"
    command = commands.add_parser("forecast", help=does, description=does)
    command.add_argument("file", metavar="FILE", help="a project file")
    command.add_argument("--json", action="store_true", help="print one JSON object and nothing else")
    for field in fields(Errors):
        usual = f"standard deviation, {field.default:g} if not given"
        command.add_argument(
            option_of(field.name), dest=field.name, type=number, metavar="SD", help=f"{WORDS[field.name]}: {usual}"
        )


def option_of(error: str) -> str:
    """The option that sets an error."""
    return "--" + error.replace("_", "-")


def run_forecast(options: argparse.Namespace) -> int:
    """Print the forecast for the placements in a project file; returns the exit code."""
    from core.forecast.forecast import forecast, without

    given = {field.name: getattr(options, field.name) for field in fields(Errors)}
    errors = Errors(**{name: value for name, value in given.items() if value is not None})
    project = read_project(options.file)
    found = forecast(project, errors)
    rests = {name: without(found, name).rms_mm for name in found.shares}
    if options.json:
        return print_json(forecast_report(found, rests))
    print(forecast_text(found, rests))
    return 0


def forecast_text(found: "Forecast", rests: dict[str, float | None]) -> str:
    """Seams and kinds of error as two tables, then what it comes to."""
    from core.forecast.verdict import verdict

    if not found.seams:
        return "There is nothing to match: no seam joins two panels of one striped cloth."
    beyond = tuple(f"over {limit:g} mm" for limit in LIMITS_MM)
    rows = [("seam", "planned rms mm", "spread mm", "expected rms mm", *beyond)]
    for seam in found.seams:
        shares = tuple(f"{seam.share_beyond(limit):.0%}" for limit in LIMITS_MM)
        planned = f"{seam.reading.rms_mm:.2f}"
        rows.append((seam.label, planned, f"{seam.deviation_mm:.2f}", f"{seam.rms_mm:.2f}", *shares))
    errors = [("error", "share of the spread", "expected rms mm without it")]
    errors += [(WORDS[name], f"{share:.0%}", f"{rests[name]:.2f}") for name, share in found.shares.items()]
    return "\n\n".join([table(rows), table(errors), "\n".join(verdict(found))])
