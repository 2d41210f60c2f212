"""What the maker chooses about the papers: which of them, on what paper, in which units, with which lines."""

from dataclasses import dataclass
from typing import Literal, get_args

from core.units import UnitName

PaperName = Literal["a4", "letter", "a3"]
LineChoice = Literal["net", "cut", "both"]
Part = Literal["cutting papers", "full size", "edge strips", "seam sheet", "full-size plan", "lists"]

ROLL_MM = 914.0
"""The usual width of a roll."""

ROLL_RANGE_MM = (200.0, 5000.0)
"""The narrowest and the widest roll that is asked for."""

ALL_PARTS: frozenset[Part] = frozenset(get_args(Part))


@dataclass(frozen=True)
class PaperChoices:
    """`paper` is what the printer takes, `lines` which lines of the pattern are drawn full size, `roll_mm` how wide a
    roll of paper is."""

    paper: PaperName = "a4"
    units: UnitName = "mm"
    lines: LineChoice = "both"
    parts: frozenset[Part] = ALL_PARTS
    roll_mm: float = ROLL_MM
