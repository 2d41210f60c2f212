"""`stripewright lay FILE --compare`: what choices cost in cloth."""

import argparse
from typing import TYPE_CHECKING, Any

from app.command_line.console import table

if TYPE_CHECKING:
    from core.derive.choices import Choice


def add_compare_option(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Add the option to `lay`."""
    command.add_argument(
        "--compare",
        action="store_true",
        help="tell what it takes one way and end for end, matched and not, with another centre; writes nothing",
    )
    return command


def choices_report(choices: "tuple[Choice, ...]") -> dict[str, Any]:
    """What `--json` prints: lengths in mm, costs in the currency of the prices, null without one."""
    return {"choices": [_choice_report(choice) for choice in choices]}


def _choice_report(choice: "Choice") -> dict[str, Any]:
    cloths = [
        {
            "cloth": need.cloth.id,
            "length_mm": round(need.length_mm or 0.0, 4),
            "buy_mm": need.buy_mm,
            "cost": need.cost,
        }
        for need in choice.cloths
    ]
    return {"what": choice.what, "length_mm": round(choice.length_mm, 4), "cost": choice.cost, "cloths": cloths}


def choices_text(choices: "tuple[Choice, ...]") -> str:
    """A row for each choice and cloth: what the lay takes, more or less than as it is, what to buy and its price."""
    several, priced = len(choices[0].cloths) > 1, any(need.cost is not None for need in choices[0].cloths)
    rows = [("choice", *(("cloth",) * several), "lay mm", "more mm", "to buy mm", *(("cost",) * priced))]
    for choice in choices:
        for need, first in zip(choice.cloths, choices[0].cloths, strict=True):
            more = f"{(need.length_mm or 0.0) - (first.length_mm or 0.0):+.0f}"
            cost = "" if need.cost is None else f"{need.cost:.2f}"
            lengths = f"{need.length_mm:.0f}", more, f"{need.buy_mm:.0f}"
            rows.append((choice.what, *((need.cloth.title,) * several), *lengths, *((cost,) * priced)))
    return table(rows)
