"""How far a stitching line may be moved, as the maker chose it last."""

from dataclasses import dataclass

from core.shifting.result import Ends
from core.shifting.shift import USUAL_CAP_MM


@dataclass(frozen=True)
class ShiftWish:
    """The most a line is moved, mm, and whether its ends may move too."""

    cap_mm: float = USUAL_CAP_MM
    ends: Ends = "free"
