"""How far a stitching line may be moved, as the maker chose it last."""

from dataclasses import dataclass

from core.shifting.shift import USUAL_CAP_MM, Ends


@dataclass(frozen=True)
class ShiftWish:
    """The most a line is moved, mm, and whether its ends may move too."""

    cap_mm: float = USUAL_CAP_MM
    ends: Ends = "free"
