"""The options --shift-mm and --shift-ends of the command match, and what is said of shifted lines."""

import argparse
from typing import TYPE_CHECKING, Any, get_args

from app.command_line.console import progress_bar, table
from app.command_line.option_values import number
from core.files.reports import rounded
from core.files.shift_report import shift_report
from core.model.project import Project
from core.shifting.wish import LARGEST_CAP_MM, Ends

if TYPE_CHECKING:
    from core.shifting.result import SeamShift, ShiftResult


def add_shift_options(command: argparse.ArgumentParser) -> argparse.ArgumentParser:
    """Add --shift-mm CAP and --shift-ends to a command."""
    command.add_argument(
        "--shift-mm",
        dest="shift_mm",
        type=_cap,
        metavar="CAP",
        help="also move stitching lines between two panels by at most this, one edge out and the other in",
    )
    command.add_argument(
        "--shift-ends",
        dest="shift_ends",
        choices=get_args(Ends),
        default="free",
        help="whether the ends of a moved line may move too (default: free)",
    )
    return command


def shifted(options: argparse.Namespace, project: Project) -> "ShiftResult":
    """The match with shifted lines that was asked for."""
    from core.shifting.shift import shift_lines

    return shift_lines(project, options.shift_mm, options.shift_ends, progress_bar(options.json))


def shift_keys(result: "ShiftResult") -> dict[str, Any]:
    """The keys that a match with shifted lines adds to `match --json`."""
    solve = {"rms_mm": rounded(result.rms_mm), "lower_bound_mm": None, "seconds": round(result.seconds, 3)}
    return {"solve": {**solve, "status": result.status}, "shift": shift_report(result)}


def shift_text(result: "ShiftResult") -> str:
    """What was moved where, seam by seam, and what it gives."""
    bars = ("bars before mm", "bars after mm") if result.bars_mm[0] is not None else ()
    rows = [("seam", "before mm", "after mm", *bars, "moved by mm", "at mm")]
    rows += [_row(seam, bool(bars)) for seam in result.seams]
    lines = [table(rows), ""]
    stays: dict[str, list[str]] = {}
    for seam in result.seams:
        if seam.stays:
            stays.setdefault(seam.stays, []).append(seam.sewn.label)
    lines += [_instead(seam) for seam in result.seams if seam.instead]
    lines += [f"Not moved, {', '.join(labels)}: {why}." for why, labels in stays.items()]
    if result.rms_before_mm is None or result.rms_mm is None:
        return "\n".join([*lines, "There is nothing to match."])
    figures = f"{result.rms_before_mm:.3f} mm rms without moving a line, {result.rms_mm:.3f} mm with it"
    lines.append(f"The garment: {figures}; lines move by up to {result.largest_mm:.2f} mm.")
    lines += _parts(result)
    changes = f"girth changes by at most {result.girth_change_mm:.3f} mm at any height"
    lines.append("+ in the table: the edge on the left of the seam is let out and the right one taken in.")
    lines.append(f"The {changes}, two sewn edges differ by at most {result.length_change_mm:.3f} mm more than before.")
    return "\n".join(lines)


def _instead(seam: "SeamShift") -> str:
    by = seam.instead
    if by is None:
        return ""
    each = f"{by.least_mm:+.1f} to {by.most_mm:+.1f} mm"
    return (
        f"{seam.sewn.label}: one edge alone let out (+) or taken in by {each} would close it, and so change the girth."
    )


def _parts(result: "ShiftResult") -> list[str]:
    """What became of stripes and of bars, where there are both."""
    ways = (("stripes", result.stripes_mm), ("bars", result.bars_mm))
    said = [
        f"{what} {before:.3f} mm before, {after:.3f} mm after"
        for what, (before, after) in ways
        if before is not None and after is not None
    ]
    return [f"Of that {'; '.join(said)}."] if len(said) > 1 else []


def _row(seam: "SeamShift", bars: bool) -> tuple[str, ...]:
    by, at = seam.largest
    told = (seam.rms_before_mm, seam.rms_mm, *((seam.bars_before_mm, seam.bars_mm) if bars else ()))
    figures = ["-" if value is None else f"{value:.2f}" for value in told]
    moved = (f"{by:+.2f}", f"{at:.0f}") if seam.knots else ("-", "-")
    return (seam.sewn.label, *figures, *moved)


def _cap(text: str) -> float:
    cap = number(text)
    if not 0 < cap <= LARGEST_CAP_MM:
        raise argparse.ArgumentTypeError(f"{text!r} is no cap; above 0 and up to {LARGEST_CAP_MM:g} mm is right")
    return cap
