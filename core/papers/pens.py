"""How each role is drawn: one table for all painters. Told apart by weight and dashes, so grey print stays clear."""

from dataclasses import dataclass

from core.papers.drawing import Role


@dataclass(frozen=True)
class Pen:
    """Width and dash pattern in mm on paper; colour as #rrggbb."""

    width: float
    colour: str = "#000000"
    dashes: tuple[float, ...] = ()


PENS: dict[Role, Pen] = {
    "cut line": Pen(0.45),
    "net line": Pen(0.3, dashes=(1.6, 1.0)),
    "line before": Pen(0.15, "#444444", (0.9, 0.9)),
    "patch": Pen(0.25, "#333333", (2.4, 0.8)),
    "neighbour": Pen(0.2, "#666666"),
    "ground": Pen(0.0),
    "stripe": Pen(0.0),
    "stripe edge": Pen(0.12, "#555555"),
    "lead stripe": Pen(0.15, "#444444", (3.0, 0.8, 0.5, 0.8)),
    "grain": Pen(0.35),
    "notch": Pen(0.6),
    "mark": Pen(0.25),
    "cloth edge": Pen(0.3),
    "selvedge": Pen(0.2, "#555555"),
    "flaw": Pen(0.3),
    "cut off": Pen(0.4, dashes=(4.0, 1.2)),
    "ruler": Pen(0.15),
    "check square": Pen(0.2),
    "trim": Pen(0.2),
    "overlap": Pen(0.12, "#555555", (0.6, 1.4)),
    "strip": Pen(0.2, "#333333"),
    "height": Pen(0.25),
    "seam": Pen(0.6),
    "rule": Pen(0.15, "#777777"),
    "zero": Pen(0.15, "#555555"),
    "step good": Pen(0.45, "#0072b2"),
    "step fair": Pen(0.45, "#b36b00", (1.4, 0.6)),
    "step poor": Pen(0.7, "#b34700", (0.5, 0.5)),
    "text": Pen(0.0),
    "fine text": Pen(0.0, "#333333"),
}

LABEL_GROUND = "#ffffff"
HALO_MM = 0.5
"""Lettering with a halo clears so much of the ground round it."""

LIGHTEST_TINT = 0.30
"""How much of a colour's darkness is left when cloth is drawn lightly under lines and lettering."""


def light_tint(colour: str) -> str:
    """A cloth's colour, #rrggbb, thinned with white."""
    channels = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return "#" + "".join(f"{round(255 - (255 - channel) * LIGHTEST_TINT):02x}" for channel in channels)
