"""What `--json` prints, as plain dictionaries. Lengths are mm, angles degrees; rounded to a millionth."""

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import numpy as np

from core.geometry.transform import placed
from core.model.panel import panels_of
from core.model.pattern import PanelName
from core.model.project import Project
from core.seams.garment import SeamLine
from core.seams.levels import Level, find_levels, find_rounds
from core.seams.readings import Crossing, Measurement, SeamReading

if TYPE_CHECKING:
    from core.derive.count import CuttingList
    from core.forecast.forecast import Forecast, SeamForecast
    from core.lay.cloth_lay import ClothLay
    from core.lay.lay import LayResult
    from core.matching.solve import MatchResult


def measurement_report(project: Project, measurement: Measurement) -> dict[str, Any]:
    """The keys of `measure --json`."""
    seams = zip(measurement.garment.seams, measurement.seams, measurement.crosswise, strict=True)
    levels = find_levels(project, measurement.garment)
    return {
        "rms_mm": rounded(measurement.rms_mm),
        "lengthwise_rms_mm": rounded(measurement.rms_of("lengthwise")),
        "crosswise_rms_mm": rounded(measurement.rms_of("crosswise")),
        "seams": [_seam(project, line, lengthwise, crosswise) for line, lengthwise, crosswise in seams],
        "levels": [_level(level) for level in levels],
        "levels_round": [
            {
                "side": one.side,
                "panels": [level.panel for level in one.levels],
                "low_mm": rounded(one.low_mm),
                "high_mm": rounded(one.high_mm),
                "uneven_mm": rounded(one.uneven_mm),
            }
            for one in find_rounds(project, levels)
        ],
        "placements": placements_report(project),
    }


def _level(level: Level) -> dict[str, Any]:
    return {
        "panel": level.panel,
        "edge": level.edge,
        "side": level.side,
        "to_bar_mm": rounded(level.to_bar_mm),
        "swing_mm": rounded(level.swing_mm),
    }


def placements_report(project: Project) -> dict[str, Any]:
    """Where every panel lies, those without a placement in the file included."""
    report = {}
    for name in project.panel_names:
        at = project.placement(name)
        report[name] = {
            "u": rounded(at.u),
            "v": rounded(at.v),
            "turn_deg": rounded(at.turn_deg),
            "turned": at.turned,
            "hold": at.hold,
        }
    return report


def solve_report(result: "MatchResult") -> dict[str, Any]:
    """The value of the key `solve` that `match` and `plan` add."""
    return {
        "rms_mm": rounded(result.rms_mm),
        "lower_bound_mm": rounded(result.lower_bound_mm),
        "seconds": round(result.seconds, 3),
        "status": result.status,
    }


def lays_report(result: "LayResult") -> list[dict[str, Any]]:
    """The value of the key `lays` that `lay` and `plan` add; lines are in cloth coordinates (u, v)."""
    return [_lay(result.project, lay) for lay in result.lays]


def _lay(project: Project, lay: "ClothLay") -> dict[str, Any]:
    return {
        "cloth": lay.cloth.id,
        "length_mm": rounded(lay.length_mm),
        "available_mm": rounded(lay.available_mm),
        "fits": lay.fits,
        "missing_mm": rounded(lay.missing_mm),
        "lower_bound_mm": rounded(lay.at_least_mm),
        "left_over": list(lay.left_over),
        "remedies": [{"what": one.what, "length_mm": rounded(one.length_mm), "fits": one.fits} for one in lay.remedies],
        "used_share": rounded(lay.used_share),
        "bars_rms_mm": lay.bars_mm and {"before": rounded(lay.bars_mm[0]), "after": rounded(lay.bars_mm[1])},
        "panels": {name: _laid(project, name) for name in lay.panels},
    }


def _laid(project: Project, name: PanelName) -> dict[str, Any]:
    at = project.placement(name)
    panel = next(panel for panel in panels_of(project.piece_of(name)) if panel.name == name)
    lines = {
        key: np.round(placed(ring, at.u, at.v, at.turn_deg, at.turned), 4).tolist()
        for key, ring in (("cut_line", panel.cut_ring), ("net_line", panel.net_ring))
    }
    return {"u": rounded(at.u), "v": rounded(at.v), "turn_deg": rounded(at.turn_deg), "turned": at.turned, **lines}


def rounded(value: float | None) -> float | None:
    """A number to six decimals, without a negative zero; None stays None."""
    return None if value is None else round(float(value), 6) + 0.0


def _seam(
    project: Project, line: SeamLine, lengthwise: SeamReading | None, crosswise: SeamReading | None
) -> dict[str, Any]:
    return {
        "seam": line.sewn.seam.name,
        "side": line.sewn.side,
        "a": line.sewn.a,
        "b": line.sewn.b,
        "length_mm": rounded(line.length),
        **(_figures(project, lengthwise) if lengthwise else _NO_FIGURES),
        "crosswise": _figures(project, crosswise) if crosswise else None,
    }


_NO_FIGURES: dict[str, Any] = {
    **dict.fromkeys(("lean", "rms_mm", "worst_mm", "worst_at_mm", "drift_mm_per_m", "agreement", "easing_ratio")),
    "shift_mm": None,
    "readings": [],
    "crossings": [],
}


def _figures(project: Project, reading: SeamReading) -> dict[str, Any]:
    """All that is read off a seam one way."""
    worst = reading.worst
    return {
        "lean": reading.lean,
        "rms_mm": rounded(reading.rms_mm),
        "worst_mm": rounded(worst[0]) if worst else None,
        "worst_at_mm": rounded(worst[1]) if worst else None,
        "drift_mm_per_m": rounded(reading.drift_mm_per_m),
        "agreement": rounded(reading.agreement),
        "easing_ratio": rounded(reading.easing_ratio),
        "shift_mm": rounded(reading.shift_mm),
        "readings": [
            {"at_mm": rounded(r.at_mm), "step_mm": rounded(r.step_mm), "counts": r.counts}
            for r in reading.readings(project.heights)
        ],
        "crossings": [_crossing(crossing) for crossing in reading.crossings],
    }


def _crossing(crossing: Crossing) -> dict[str, Any]:
    return {
        "stripe": crossing.stripe,
        "a_at_mm": rounded(crossing.a_at_mm),
        "b_at_mm": rounded(crossing.b_at_mm),
        "along_gap_mm": rounded(crossing.along_gap_mm),
        "step_mm": rounded(crossing.step_mm),
    }


def list_report(found: "CuttingList") -> dict[str, Any]:
    """What `list --json` prints: pieces, notions, and what each cloth needs (lengths null until it is laid)."""
    return {
        "count": found.count,
        "pieces": [asdict(piece) for piece in found.pieces],
        "notions": {"binding_mm": rounded(found.binding_mm), "braid_mm": rounded(found.braid_mm)},
        "cloths": [
            {
                "cloth": need.cloth.id,
                "area_mm2": rounded(need.area_mm2),
                "length_mm": rounded(need.length_mm),
                "buy_mm": rounded(need.buy_mm),
            }
            for need in found.cloths
        ],
    }


def forecast_report(found: "Forecast", rests: dict[str, float | None]) -> dict[str, Any]:
    """What `forecast --json` prints; `rests` is the figure to expect without each kind of error, mm."""
    return {
        "rms_mm": rounded(found.planned.rms_mm),
        "expected_rms_mm": rounded(found.rms_mm),
        "tenth_mm": rounded(found.tenth_mm),
        "errors": {
            name: {"sd": getattr(found.errors, name), "share": rounded(share), "rms_without_mm": rounded(rests[name])}
            for name, share in found.shares.items()
        },
        "seams": [_seam_forecast(seam) for seam in found.seams],
    }


def _seam_forecast(seam: "SeamForecast") -> dict[str, Any]:
    at = np.array([reading.at_mm for reading in seam.reading.readings(None) if reading.counts])
    steps, deviations = seam.reading.step_at(at), np.interp(at, seam.heights, seam.deviations)
    return {
        "seam": seam.sewn.seam.name,
        "side": seam.sewn.side,
        "way": seam.reading.way,
        "rms_mm": rounded(seam.reading.rms_mm),
        "expected_rms_mm": rounded(seam.rms_mm),
        "sd_mm": rounded(seam.deviation_mm),
        "readings": [
            {"at_mm": rounded(float(h)), "step_mm": rounded(float(step)), "sd_mm": rounded(float(sd))}
            for h, step, sd in zip(at, steps, deviations, strict=True)
        ],
    }
