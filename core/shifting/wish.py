"""What is asked of a shift: how far lines may be moved, and whether their ends may move too."""

from dataclasses import dataclass
from typing import Literal

USUAL_CAP_MM = 2.0
LARGEST_CAP_MM = 20.0

Ends = Literal["free", "kept"]


@dataclass(frozen=True)
class ShiftWish:
    """The most a line is moved, mm, and whether its ends may move too."""

    cap_mm: float = USUAL_CAP_MM
    ends: Ends = "free"
