"""What `match --shift-mm --json` prints of shifted lines, as plain dictionaries. Lengths are mm."""

from typing import Any

from core.files.reports import rounded
from core.shifting.shift import SeamShift, ShiftResult


def shift_report(result: ShiftResult) -> dict[str, Any]:
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


def _seam(seam: SeamShift) -> dict[str, Any]:
    by, at = seam.largest
    return {
        "seam": seam.sewn.seam.name,
        "side": seam.sewn.side,
        "rms_before_mm": rounded(seam.rms_before_mm),
        "rms_mm": rounded(seam.rms_mm),
        "largest_mm": rounded(by),
        "at_mm": rounded(at),
        "stays": seam.stays or None,
        "knots": [{"at_mm": rounded(height), "shift_mm": rounded(shift)} for height, shift in seam.knots],
    }
