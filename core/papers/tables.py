"""The tables that go with the papers: `positions.csv`, one row a panel, and `stripe-marks.csv`, one row a place.

Lengths are in one unit, which the heads of their columns end with: `u_mm`, `u_cm` or `u_in`, inches as decimals.
"""

import csv
import io
from collections.abc import Iterable, Sequence

from core.model.cloth import WAYS
from core.papers.figures import Figures, GrainEnd, PanelFigures
from core.papers.words import degrees
from core.units import Units

POSITION_COLUMNS = (
    "number",
    "panel",
    "piece",
    "side",
    "cloth",
    "paper_face",
    "turned",
    "held",
    "u",
    "v",
    "turn_deg",
    "lean",
    "grain_length",
    "grain_top_u",
    "grain_top_v",
    "grain_top_right_of_lead",
    "grain_bottom_u",
    "grain_bottom_v",
    "grain_bottom_right_of_lead",
)
MARK_COLUMNS = (
    "number",
    "panel",
    "edge",
    "seam",
    "sewn_to",
    "edge_length",
    "from_corner_with",
    "place",
    "at",
    "way",
)


LENGTHS = {
    *("u", "v", "lean", "grain_length", "edge_length", "at"),
    *(f"grain_{end}_{what}" for end in ("top", "bottom") for what in ("u", "v", "right_of_lead")),
}
"""The columns that hold lengths."""

MM = Units("mm")


def positions_csv(figures: Figures, units: Units = MM) -> bytes:
    """One row a panel: lengths to a tenth of a mm as on the cards, (u, v) of the piece's origin to a thousandth."""
    return _csv(POSITION_COLUMNS, (_position(panel, units) for panel in figures.panels), units)


def stripe_marks_csv(figures: Figures, units: Units = MM) -> bytes:
    """One row for each place where the middle of a lead stripe or bar meets a sewn edge, along the line."""
    return _csv(MARK_COLUMNS, (row for panel in figures.panels for row in _marks(panel, units)), units)


def _position(figures: PanelFigures, units: Units) -> list[str]:
    at = figures.at
    return [
        f"{figures.number}",
        figures.name,
        figures.panel.piece.title,
        figures.side or "",
        figures.cloth.id,
        figures.paper,
        _yes(at.turned),
        _yes(at.hold),
        units.decimal(at.u, 3),
        units.decimal(at.v, 3),
        degrees(at.turn_deg),
        units.decimal(figures.lean_mm),
        units.decimal(figures.grain_length_mm),
        *_end(figures.grain_top, units),
        *_end(figures.grain_bottom, units),
    ]


def _end(end: GrainEnd, units: Units) -> list[str]:
    off = "" if end.off_lead_mm is None else units.decimal(end.off_lead_mm)
    return [units.decimal(end.u_mm), units.decimal(end.v_mm), off]


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _marks(figures: PanelFigures, units: Units) -> list[list[str]]:
    return [
        [
            f"{figures.number}",
            figures.name,
            marks.edge,
            marks.seam,
            marks.partner,
            units.decimal(marks.length_mm),
            marks.corner_with,
            f"{place}",
            units.decimal(at),
            way,
        ]
        for marks in figures.edges
        for way, meets_mm in zip(WAYS, (marks.meets_mm, marks.bars_mm), strict=True)
        for place, at in enumerate(meets_mm, 1)
    ]


def _csv(columns: Sequence[str], rows: Iterable[Sequence[str]], units: Units) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(f"{name}_{units.name}" if name in LENGTHS else name for name in columns)
    writer.writerows(rows)
    return text.getvalue().encode("utf-8")
