"""What `match --shift-mm --json` and `ease --json` print, as plain dictionaries. Lengths are mm."""

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from core.files.reports import rounded

if TYPE_CHECKING:
    from core.seams.easing import Easing
    from core.shifting.result import SeamShift, ShiftResult


def shift_report(result: "ShiftResult") -> dict[str, Any]:
    """The value of the key `shift`."""
    return {
        "cap_mm": rounded(result.cap_mm),
        "ends": result.ends,
        "rms_before_mm": rounded(result.rms_before_mm),
        "rms_mm": rounded(result.rms_mm),
        "largest_mm": rounded(result.largest_mm),
        "girth_change_mm": rounded(result.girth_change_mm),
        "length_change_mm": rounded(result.length_change_mm),
        "seconds": round(result.seconds, 3),
        "status": result.status,
        "seams": [_seam(seam) for seam in result.seams],
    }


def _seam(seam: "SeamShift") -> dict[str, Any]:
    by, at = seam.largest
    return {
        "seam": seam.sewn.seam.name,
        "side": seam.sewn.side,
        "rms_before_mm": rounded(seam.rms_before_mm),
        "rms_mm": rounded(seam.rms_mm),
        "crosswise_rms_before_mm": rounded(seam.bars_before_mm),
        "crosswise_rms_mm": rounded(seam.bars_mm),
        "largest_mm": rounded(by),
        "at_mm": rounded(at),
        "stays": seam.stays or None,
        "instead": None if seam.instead is None else {key: rounded(by) for key, by in asdict(seam.instead).items()},
        "knots": [{"at_mm": rounded(height), "shift_mm": rounded(shift)} for height, shift in seam.knots],
    }


def easing_report(found: "Easing") -> dict[str, Any]:
    """What the best easing of one seam comes to; `limit_is_usual` is true where the cloth states no limit."""
    line = found.reading.line
    return {
        "seam": line.sewn.seam.name,
        "side": line.sewn.side,
        "rms_before_mm": rounded(found.reading.rms_mm),
        "easing": {
            "limit_percent": rounded(found.limit_percent),
            "limit_is_usual": found.reading.cloth.ease_percent is None,
            "rms_mm": rounded(found.rms_mm),
            "worst_mm": rounded(found.worst_mm),
            "total_mm": rounded(found.total_mm),
            "worth": found.worth,
            "runs": [
                {"from_mm": rounded(r.from_mm), "to_mm": rounded(r.to_mm), "ease_mm_per_100": rounded(r.per_100_mm)}
                for r in found.runs
            ],
        },
    }
