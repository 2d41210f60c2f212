"""What the command line says: tables on standard output, a progress bar on standard error."""

import sys
import time
from collections.abc import Sequence

from core.lay.lay import ClothLay
from core.model.project import Project
from core.progress import Progress, silent
from core.seams.readings import Measurement, SeamReading

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


def measurement_text(project: Project, measurement: Measurement) -> str:
    """The seams as a table, then the garment's figure."""
    rows = [("seam", "rms mm", "worst mm", "at mm", "drift mm/m", "lean", "same colour")]
    notes = []
    for line, reading in zip(measurement.garment.seams, measurement.seams, strict=True):
        rows.append(_row(line.sewn.label, reading))
        if reading is not None and not reading.all_stripes_meet_at_zero:
            notes.append(line.sewn.label)
    figure = measurement.rms_mm
    text = table(rows) + f"\n\nThe garment: {figure:.3f} mm rms" if figure is not None else table(rows)
    if notes:
        text += f"\nOnly the lead stripe can meet (uneven repeat, opposite leans): {', '.join(notes)}"
    return text


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


def lay_text(lay: ClothLay) -> str:
    """One line about the lay on one cloth, and a second one where something is missing."""
    text = f"{lay.cloth.title}: {len(lay.panels)} panels in {lay.length_mm:.0f} mm, {100 * lay.used_share:.0f} % used"
    if lay.available_mm is None:
        return text
    if lay.fits:
        return f"{text}, {lay.available_mm - lay.length_mm:.0f} mm left of {lay.available_mm:.0f}"
    short = f"it does not fit: {lay.missing_mm:.0f} mm are missing, there are {lay.available_mm:.0f}"
    return "\n  ".join((text, short, *lay.advice))


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
