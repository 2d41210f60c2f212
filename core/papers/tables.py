"""The tables that go with the papers: `positions.csv`, one row a panel, and `stripe-marks.csv`, one row a place."""

import csv
import io
from collections.abc import Iterable, Sequence

from core.model.cloth import WAYS
from core.papers.figures import Figures, GrainEnd, PanelFigures
from core.papers.measures import mm
from core.papers.words import degrees

POSITION_COLUMNS = (
    "number",
    "panel",
    "piece",
    "side",
    "cloth",
    "paper_face",
    "turned",
    "held",
    "u_mm",
    "v_mm",
    "turn_deg",
    "lean_mm",
    "grain_length_mm",
    "grain_top_u_mm",
    "grain_top_v_mm",
    "grain_top_right_of_lead_mm",
    "grain_bottom_u_mm",
    "grain_bottom_v_mm",
    "grain_bottom_right_of_lead_mm",
)
MARK_COLUMNS = (
    "number",
    "panel",
    "edge",
    "seam",
    "sewn_to",
    "edge_length_mm",
    "from_corner_with",
    "place",
    "at_mm",
    "way",
)


def positions_csv(figures: Figures) -> bytes:
    """One row a panel: mm to a tenth as on the cards, (u, v) of the piece's origin to a thousandth."""
    return _csv(POSITION_COLUMNS, (_position(panel) for panel in figures.panels))


def stripe_marks_csv(figures: Figures) -> bytes:
    """One row for each place where the middle of a lead stripe or bar meets a sewn edge, mm along the line."""
    return _csv(MARK_COLUMNS, (row for panel in figures.panels for row in _marks(panel)))


def _position(figures: PanelFigures) -> list[str]:
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
        f"{round(at.u, 3) + 0.0:.3f}",
        f"{round(at.v, 3) + 0.0:.3f}",
        degrees(at.turn_deg),
        mm(figures.lean_mm),
        mm(figures.grain_length_mm),
        *_end(figures.grain_top),
        *_end(figures.grain_bottom),
    ]


def _end(end: GrainEnd) -> list[str]:
    return [mm(end.u_mm), mm(end.v_mm), "" if end.off_lead_mm is None else mm(end.off_lead_mm)]


def _yes(value: bool) -> str:
    return "yes" if value else "no"


def _marks(figures: PanelFigures) -> list[list[str]]:
    return [
        [
            f"{figures.number}",
            figures.name,
            marks.edge,
            marks.seam,
            marks.partner,
            mm(marks.length_mm),
            marks.corner_with,
            f"{place}",
            mm(at),
            way,
        ]
        for marks in figures.edges
        for way, meets_mm in zip(WAYS, (marks.meets_mm, marks.bars_mm), strict=True)
        for place, at in enumerate(meets_mm, 1)
    ]


def _csv(columns: Sequence[str], rows: Iterable[Sequence[str]]) -> bytes:
    text = io.StringIO(newline="")
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(columns)
    writer.writerows(rows)
    return text.getvalue().encode("utf-8")
