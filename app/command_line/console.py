"""What the command line says: tables on standard output, a progress bar on standard error."""

import json
import signal
import sys
import time
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

from core.model.cloth import Way
from core.model.project import Project
from core.progress import Progress, silent
from core.seams.levels import NOTHING_MM, Level, find_levels, find_rounds
from core.seams.readings import Measurement, SeamReading
from core.units import MM

if TYPE_CHECKING:
    from core.lay.cloth_lay import ClothLay

BAR_WIDTH = 28
REDRAW_EVERY_S = 0.05


def progress_bar(quiet: bool) -> Progress:
    """A bar on a terminal; silent where standard error is none, or if quiet."""
    if quiet or not sys.stderr.isatty():
        return silent
    drawn = 0.0

    def show(share: float, note: str) -> bool:
        nonlocal drawn
        now = time.monotonic()
        if now - drawn > REDRAW_EVERY_S or share >= 1:
            drawn = now
            filled = round(share * BAR_WIDTH)
            bar = "#" * filled + "." * (BAR_WIDTH - filled)
            end = "\r\033[K" if share >= 1 else ""
            sys.stderr.write(f"\r[{bar}] {share * 100:3.0f} %  {note[:44]:<44}{end}")
            sys.stderr.flush()
        return True

    return show


@contextmanager
def stoppable(progress: Progress) -> Iterator[Progress]:
    """While it lasts, Ctrl-C asks the work that reports to this progress to stop; once more breaks it off."""
    stopped = False

    def stop(number: int, frame: object) -> None:
        nonlocal stopped
        if stopped:
            raise KeyboardInterrupt
        stopped = True

    before = signal.signal(signal.SIGINT, stop)
    try:
        yield lambda share, note: progress(share, note) and not stopped
    finally:
        signal.signal(signal.SIGINT, before)


def print_json(report: dict[str, Any]) -> int:
    """Print a report as one JSON object on a line; returns the exit code."""
    json.dump(report, sys.stdout, allow_nan=False)
    sys.stdout.write("\n")
    return 0


def measurement_text(project: Project, measurement: Measurement) -> str:
    """The seams as a table, for each way in which there is something to match, then the garment's figure."""
    barred = any(measurement.crosswise)
    parts = []
    for way in ("lengthwise", "crosswise") if barred else ("lengthwise",):
        title = f"{_TITLES[way]}\n\n" if barred else ""
        if any(measurement.readings_of(way)) or not barred:
            parts.append(title + _seam_table(measurement, way))
    levels = find_levels(project, measurement.garment)
    if levels:
        parts.append("Bars at waists and hems\n\n" + _level_table(levels))
        parts += ["\n".join(one.words(MM) for one in find_rounds(project, levels))]
    return "\n\n".join([*parts, *_figure_lines(measurement)])


_TITLES = {"lengthwise": "Lengthwise stripes", "crosswise": "Crosswise bars"}


def _seam_table(measurement: Measurement, way: Way) -> str:
    rows = [("seam", "rms mm", "worst mm", "at mm", "drift mm/m", "lean", "same colour")]
    readings = measurement.readings_of(way)
    rows += [_row(line.sewn.label, r) for line, r in zip(measurement.garment.seams, readings, strict=True)]
    return table(rows)


def _level_table(levels: Sequence[Level]) -> str:
    """Distances from edges to bars, and to which side."""
    rows = [("edge", "nearest bar mm", "lies", "changes along it mm")]
    for one in levels:
        far = f"{abs(one.to_bar_mm):.1f}"
        rows.append((f"{one.panel}/{one.edge}", far, _side(one.to_bar_mm), f"{one.swing_mm:.1f}"))
    return table(rows)


def _side(to_bar_mm: float) -> str:
    return "on it" if abs(to_bar_mm) < NOTHING_MM else "below" if to_bar_mm > 0 else "above"


def _figure_lines(measurement: Measurement) -> list[str]:
    """The garment's figure, that of either way where there are both, and the seams that can't meet altogether."""
    if measurement.rms_mm is None:
        return []
    text = f"The garment: {measurement.rms_mm:.3f} mm rms"
    stripes, bars = measurement.rms_of("lengthwise"), measurement.rms_of("crosswise")
    if stripes is not None and bars is not None:
        text += f" (stripes {stripes:.3f}, bars {bars:.3f})"
    for way, what in (("lengthwise", "stripe"), ("crosswise", "bar")):
        read = [reading for reading in measurement.readings_of(way) if reading is not None]
        notes = [reading.line.sewn.label for reading in read if not reading.all_stripes_meet_at_zero]
        if notes:
            text += f"\nOnly the lead {what} can meet (uneven repeat, opposite leans): {', '.join(notes)}"
    return [text]


def _row(label: str, reading: SeamReading | None) -> tuple[str, ...]:
    if reading is None or reading.rms_mm is None or reading.worst is None:
        return (label, "-", "-", "-", "-", "-", "-")
    return (
        label,
        f"{reading.rms_mm:.2f}",
        f"{reading.worst[0]:.2f}",
        f"{reading.worst[1]:.0f}",
        f"{reading.drift_mm_per_m:+.2f}",
        reading.lean,
        f"{100 * reading.agreement:.0f} %",
    )


def lay_text(lay: "ClothLay") -> str:
    """A line about the lay on one cloth; others where something is missing, or a bow did the bars harm."""
    return "\n  ".join(line for line in (_taken(lay), lay.proof(), *lay.advice, lay.of_bars()) if line)


def _taken(lay: "ClothLay") -> str:
    text = f"{lay.cloth.title}: {len(lay.panels)} panels in {lay.length_mm:.0f} mm, {100 * lay.used_share:.0f} % used"
    if lay.available_mm is None:
        return text
    if lay.fits:
        return f"{text}, {lay.available_mm - lay.length_mm:.0f} mm left of {lay.available_mm:.0f}"
    return f"{text}\n  it does not fit: {lay.missing_mm:.0f} mm are missing, there are {lay.available_mm:.0f}"


def table(rows: Sequence[Sequence[str]]) -> str:
    """Rows of text in columns, the first to the left, the rest to the right; the first row is the header."""
    widths = [max(len(row[column]) for row in rows) for column in range(len(rows[0]))]
    lines = [
        "  ".join(
            cell.ljust(width) if column == 0 else cell.rjust(width)
            for column, (cell, width) in enumerate(zip(row, widths, strict=True))
        ).rstrip()
        for row in rows
    ]
    return "\n".join([lines[0], "-" * max(map(len, lines)), *lines[1:]])
