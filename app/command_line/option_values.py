"""Values of options on the command line: lengths with their units, numbers, and which options were given."""

import argparse
import math
from typing import Any

from core.draft.lengths import length_mm
from core.errors import BadInput


def add_length(group: Any, option: str, told: str, dest: str | None = None, required: bool = False) -> None:
    """Add an option that takes a length, read in mm."""
    dest = dest or option.removeprefix("--").replace("-", "_")
    group.add_argument(option, dest=dest, type=length_value, metavar="LENGTH", required=required, help=told)


def length_value(text: str) -> float:
    """A length in mm from what was typed."""
    try:
        return length_mm(text)
    except BadInput as error:
        raise argparse.ArgumentTypeError(str(error)) from None


def number(text: str) -> float:
    """A finite number from what was typed."""
    try:
        value = float(text.replace(",", "."))
    except ValueError:
        value = math.nan
    if not math.isfinite(value):
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is no number")
    return value


def whole_number(text: str) -> int:
    """A whole number from what was typed."""
    if not text.isdecimal() or len(text) > 9:
        raise argparse.ArgumentTypeError(f"{text[:40]!r} is no whole number")
    return int(text)


def stated_in(options: argparse.Namespace, names: tuple[str, ...]) -> dict[str, Any]:
    """The options of these names that were given; the others keep their defaults."""
    return {name: value for name in names if (value := getattr(options, name)) is not None}
