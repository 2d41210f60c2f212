"""The seam readings: one row a seam with its figures and a small picture of the step down the seam."""

from collections.abc import Iterator
from typing import Literal

import numpy as np

from core.papers.drawing import Box, Drawing, Line, Primitive, Role, Text, joined, segment
from core.papers.figures import GRADES_MM, Figures, grade_of
from core.papers.lettering import shortened
from core.papers.page import FINE_SIZE, Page, Paragraph, flow, heading
from core.seams.garment import SeamLine
from core.seams.levels import find_rounds
from core.seams.readings import Measurement, SeamReading
from core.units import Units
from core.wording import later, number, tr

ROW_MM = 11.0
LEFT = 13.0
PICTURE = Box(160.0, 1.0, 197.0, 10.0)
"""Room of the small picture in a row, across the page and from the row's top."""

NUMBER_COLUMNS: dict[str, float] = {
    "rms": 72.5,
    "worst": 85.5,
    "at": 102.0,
    "drift": 115.0,
    "agree": 126.0,
    "shift": 138.0,
    "easing": 151.0,
}
"""Right ends of the columns of figures, mm from the page's left."""

LEANS = {"alike": later(", leaning alike{rest}"), "opposite": later(", leaning opposite ways{rest}")}
ROLES: dict[Literal["good", "fair", "poor"], Role] = {"good": "step good", "fair": "step fair", "poor": "step poor"}

LEGEND = {
    "step": later(
        "how far apart, square across the stripes, the two sides' stripes lie; heights run down the seam from the top"
    ),
    "rms": later("the step on the whole, large ones counted more than small ones"),
    "worst": later("the largest step, and at which height it is"),
    "drift": later("how fast the step changes down the seam"),
    "agree": later("share of the seam along which both sides show the same stripe or both the ground"),
    "shift": later(
        "move the stitching line this far where the step is worst, one edge out and the other in: the seam closes"
    ),
    "easing": later(
        "share of its length by which an edge would be eased in instead, the right-hand edge if the "
        "number is plus, the left-hand one if minus; more than two or three in a hundred will pucker"
    ),
    "leaning": later(
        "alike if both edges slant the same way across the stripes, opposite ways if like a chevron's sides"
    ),
}


NAMES = (
    *(later("step"), later("rms"), later("worst"), later("drift"), later("agree"), later("shift"), later("easing")),
    *(later("leaning"), later("picture"), later("at")),
)
"""The names of figures as they stand on the page."""


def readings_pages(figures: Figures, page: Page, units: Units) -> tuple[Drawing, ...]:
    """As many pages as the seams need; the legend and the garment's figure stand on the first."""
    rows = _rows(figures.measurement)
    limit = _picture_limit(figures)
    top, start = _first_part(figures, limit, page, units)
    pages = [heading(page, tr("Seam readings")) + top]
    while rows:
        fitting = int((page.body.bottom - start - 9.0) / ROW_MM)
        body = joined(
            _row(line, reading, start + 9.0 + ROW_MM * i, limit, units)
            for i, (line, reading) in enumerate(rows[:fitting])
        )
        pages[-1] = pages[-1] + _head(start, units) + body
        rows = rows[fitting:]
        if rows:
            pages.append(heading(page, tr("Seam readings, continued")))
            start = page.body.top - 3.0
    return tuple(pages)


def _rows(measurement: Measurement) -> list[tuple[SeamLine, SeamReading | None]]:
    """Every seam with its reading, and once more with that of its bars where it has any."""
    stripes = zip(measurement.garment.seams, measurement.seams, strict=True)
    return [*stripes, *((reading.line, reading) for reading in measurement.crosswise if reading)]


def _picture_limit(figures: Figures) -> float:
    """The step at the upper and lower border of every picture, mm."""
    worst = [reading.worst[0] for _, reading in _rows(figures.measurement) if reading and reading.worst]
    return float(max(4.0, np.ceil(max(worst, default=0.0))))


def _first_part(figures: Figures, limit: float, page: Page, units: Units) -> tuple[Drawing, float]:
    rms = figures.measurement.rms_mm
    figure = (
        tr("Nothing is matched: no seam joins two panels of one striped cloth.")
        if rms is None
        else tr("The whole garment: rms {rms}, every seam counted by how much it shows.", rms=units.say_fine(rms))
    )
    legend = {**LEGEND, "picture": _picture_words(limit, units)}
    explained = (
        Paragraph(tr(text), 3.1, label=tr(name), indent=16.0, hang=16.0, gap=0.8) for name, text in legend.items()
    )
    bars = [_parts_words(figures.measurement, units), *_levels_words(figures, units)]
    told = [Paragraph(figure, 4.0, bold=True), *(Paragraph(line, 3.5, gap=1.0) for line in bars if line)]
    words = [*told, Paragraph("", gap=1.0), *explained]
    drawing, _, end = flow(words, Box(page.body.left, 24.5, page.body.right, page.body.bottom))
    return drawing, end + 3.0


def _parts_words(measurement: Measurement, units: Units) -> str:
    """The figures of stripes and bars apart, where there are both."""
    stripes, bars = measurement.rms_of("lengthwise"), measurement.rms_of("crosswise")
    if stripes is None or bars is None:
        return ""
    return tr("Stripes alone {stripes}, bars alone {bars}.", stripes=units.say_fine(stripes), bars=units.say_fine(bars))


def _levels_words(figures: Figures, units: Units) -> list[str]:
    """Where bars lie at the waists and at the hems of the garment, and how unevenly."""
    levels = [level for panel in figures.panels for level in panel.levels]
    return [one.words(units) for one in find_rounds(figures.project, levels)]


def _picture_words(limit: float, units: Units) -> str:
    good, fair = (units.say_fine(grade) for grade in GRADES_MM)
    return tr(
        "the step from the top (left) to the bottom (right): solid up to {good}, dashed up to "
        "{fair}, dotted and heavy beyond; a gap is a stretch that is not sewn or not seen; its "
        "height stands for {limit} to either side",
        good=good,
        fair=fair,
        limit=units.say_fine(limit),
    )


def _head(top: float, units: Units) -> Drawing:
    names = dict.fromkeys(NUMBER_COLUMNS, units.name) | {"drift": units.rate_name, "agree": "%", "easing": "%"}
    texts: list[Primitive] = [Text((LEFT, top + 3.0), tr("seam"), FINE_SIZE, bold=True)]
    for name, right in NUMBER_COLUMNS.items():
        texts.append(Text((right, top + 3.0), tr(name), FINE_SIZE, anchor="end", bold=True))
        texts.append(Text((right, top + 6.6), names[name], FINE_SIZE, "fine text", anchor="end"))
    texts.append(Text((PICTURE.left, top + 3.0), tr("step down the seam"), FINE_SIZE, bold=True))
    return Drawing((*texts, segment((LEFT, top + 8.4), (PICTURE.right, top + 8.4), "rule")))


def _row(line: SeamLine, reading: SeamReading | None, top: float, limit: float, units: Units) -> Drawing:
    joins = f"{line.sewn.a} – {line.sewn.b}{_lean_words(reading)}"
    parts: list[Primitive] = [
        Text(
            (LEFT, top + 4.4),
            shortened(f"{_way_words(reading)}{line.sewn.label}", 3.5, 47.0, bold=True),
            3.5,
            bold=True,
        ),
        Text((LEFT, top + 8.9), shortened(joins, 2.6, 132.0), 2.6, "fine text"),
        segment((LEFT, top + ROW_MM - 0.4), (PICTURE.right, top + ROW_MM - 0.4), "rule"),
    ]
    if reading is None:
        parts.append(Text((64.0, top + 4.4), tr("no stripes to match here"), 3.2))
        return Drawing(tuple(parts))
    for name, words in _figures_of(reading, units).items():
        parts.append(Text((NUMBER_COLUMNS[name], top + 4.4), words, 3.5, anchor="end", bold=name == "worst"))
    return Drawing(tuple(parts)) + _picture(reading, top, limit)


def _way_words(reading: SeamReading | None) -> str:
    return tr("bars, ") if reading and reading.way == "crosswise" else ""


def _lean_words(reading: SeamReading | None) -> str:
    if reading is None:
        return ""
    rest = "" if reading.all_stripes_meet_at_zero else tr("; only the lead stripe can meet, the repeat is uneven")
    return tr(LEANS[reading.lean], rest=rest)


def _figures_of(reading: SeamReading, units: Units) -> dict[str, str]:
    worst, rms, easing, shift = reading.worst, reading.rms_mm, reading.easing_ratio, reading.shift_mm
    none = "–"
    return {
        "rms": none if rms is None else units.fine(rms),
        "worst": units.fine(worst[0]) if worst else none,
        "at": units.whole(worst[1]) if worst else none,
        "drift": _minus(units.rate(reading.drift_mm_per_m)),
        "agree": number(reading.agreement * 100, 0),
        "shift": none if shift is None else units.fine(shift),
        "easing": none if easing is None else _minus(number(easing * 100, 1)),
    }


def _minus(number: str) -> str:
    return number.replace("-", "−")


def _picture(reading: SeamReading, top: float, limit: float) -> Drawing:
    box = Box(PICTURE.left, top + PICTURE.top, PICTURE.right, top + PICTURE.bottom)
    middle = (box.top + box.bottom) / 2
    role = ROLES[grade_of(reading.worst[0] if reading.worst else 0.0)]
    parts: list[Primitive] = [
        Line(box.corners, "zero", closed=True),
        segment((box.left, middle), (box.right, middle), "zero"),
    ]
    for heights in _counted_runs(reading):
        for run in _unbroken(heights, reading):
            x = box.left + run[:, 0] / reading.line.length * box.width
            y = middle + run[:, 1] / limit * box.height / 2
            parts.append(Line(np.column_stack([x, y]), role))
    return Drawing(tuple(parts))


def _counted_runs(reading: SeamReading) -> Iterator[np.ndarray]:
    """Runs of heights along which the seam counts."""
    parts = np.concatenate([[False], reading.line.counted_parts, [False]])
    for start, end in np.flatnonzero(parts[1:] != parts[:-1]).reshape(-1, 2):
        first, last = reading.line.height[start], reading.line.height[end]
        yield np.linspace(first, last, 160)


def _unbroken(heights: np.ndarray, reading: SeamReading) -> list[np.ndarray]:
    """Points (height, step) of a run, parted where the step jumps from one half period to the other."""
    steps = reading.step_at(heights)
    jumps = np.flatnonzero(np.abs(np.diff(steps)) > reading.period / 2) + 1
    runs = np.split(np.column_stack([heights, steps]), jumps)
    return [run for run in runs if len(run) > 1]
