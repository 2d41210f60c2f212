"""The errors that hands and cloth make, as standard deviations."""

import math
from dataclasses import dataclass, fields

from core.errors import BadInput
from core.wording import later, tr

CUT_LIMIT_MM = 2.0
"""What a side edge may be off when it is cut: Vilumsone-Nemes, Industrial Cutting of Textile Materials, 2nd ed., 2018,
table 13.1, p. 210. Such a limit is read as two standard deviations."""


@dataclass(frozen=True)
class Errors:
    """Standard deviations of what goes wrong; all independent of each other, each one number for a panel or a seam.

    A panel: `placing_mm` across the stripes (and as much along them, where there are bars), `turning_deg` off the angle
    planned, `cutting_mm` of each edge, square to it; `repeat_percent` by which the repeat under it differs from the one
    in the project, `lean_mm_per_m` by which the stripes under it lean, or the bars slant, otherwise than said. A seam:
    `flush_mm` by which the two raw edges don't lie flush, `depth_mm` by which the stitching is deeper or shallower than
    the allowance, `slipping_mm` by which one side is sewn higher than planned. But for the cut, the values given here
    are common practice, not from a source.
    """

    placing_mm: float = 0.5
    turning_deg: float = 0.05
    cutting_mm: float = CUT_LIMIT_MM / 2
    flush_mm: float = 0.5
    depth_mm: float = 0.5
    slipping_mm: float = 1.0
    repeat_percent: float = 0.2
    lean_mm_per_m: float = 0.5

    def __post_init__(self) -> None:
        for field in fields(self):
            value = getattr(self, field.name)
            if not (math.isfinite(value) and 0 <= value <= 100):
                raise BadInput(
                    tr("{value:g} is no error", value=value),
                    field.name,
                    tr("a standard deviation from 0 to 100 is right"),
                )


WORDS = {
    "placing_mm": later("laying panels across the stripes"),
    "turning_deg": later("laying panels at their angle"),
    "cutting_mm": later("cutting the edges"),
    "flush_mm": later("raw edges that don't lie flush"),
    "depth_mm": later("stitching deeper or shallower than the allowance"),
    "slipping_mm": later("one side slipping along the seam"),
    "repeat_percent": later("a repeat that varies along the cloth"),
    "lean_mm_per_m": later("stripes that lean along the cloth"),
}
"""What each error is called."""
