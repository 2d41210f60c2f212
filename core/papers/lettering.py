"""Widths of lettering, lines that wrap, names that are cut short. Sizes and widths are mm."""

import math
import re
import unicodedata
from bisect import bisect_right
from functools import lru_cache

import numpy as np

from core.geometry.paths import Points
from core.papers.drawing import Text

FACES = {False: ("Vera", "Vera.ttf"), True: ("VeraBd", "VeraBd.ttf")}
"""Plain and bold: the name and file of the typefaces that come with the PDF library and are embedded."""

LINE_HEIGHT = 1.32
ELLIPSIS = "…"


@lru_cache(maxsize=2)
def face_name(bold: bool) -> str:
    """The registered name of the plain or the bold face."""
    from reportlab.pdfbase import pdfmetrics
    from reportlab.pdfbase.ttfonts import TTFont

    name, file = FACES[bold]
    pdfmetrics.registerFont(TTFont(name, file))
    return name


@lru_cache(maxsize=8192)
def printable(text: str) -> str:
    """The text with what the face has no letter for replaced: by the letter without its accent, else by "?"."""
    letters = _letters()
    kept = []
    for letter in " ".join(text.split()):
        plain = unicodedata.normalize("NFKD", letter)[:1]
        kept.append(letter if ord(letter) in letters else plain if ord(plain) in letters else "?")
    return "".join(kept)


@lru_cache(maxsize=1)
def _letters() -> frozenset[int]:
    from reportlab.pdfbase import pdfmetrics

    plain, bold = (pdfmetrics.getFont(face_name(which)).face.charToGlyph for which in (False, True))
    return frozenset(code for code in plain if code in bold and code >= 32)


@lru_cache(maxsize=16384)
def width_of(text: str, size: float, bold: bool = False) -> float:
    """Width of one line of text set at a size (em), mm."""
    from reportlab.pdfbase import pdfmetrics

    return float(pdfmetrics.stringWidth(printable(text), face_name(bold), size))


def shortened(text: str, size: float, room: float, bold: bool = False) -> str:
    """The text, or as much of it as fits into the room with an ellipsis after it; empty if not one letter fits."""
    if width_of(text, size, bold) <= room:
        return text

    def cut_at(end: int) -> str:
        return text[:end].rstrip() + ELLIPSIS

    end = bisect_right(range(1, len(text)), room, key=lambda end: width_of(cut_at(end), size, bold))
    return cut_at(end) if end else ""


_WORD = re.compile(r"\d+ \d+/\d+\S*|\S+")


def wrapped_lines(text: str, size: float, room: float, bold: bool = False) -> list[str]:
    """The text in lines no wider than the room; a word that is wider by itself is cut short.

    A whole number and its fraction stay together.
    """
    lines: list[str] = []
    for word in _WORD.findall(text):
        longer = f"{lines[-1]} {word}" if lines else word
        if lines and width_of(longer, size, bold) <= room:
            lines[-1] = longer
        else:
            lines.append(shortened(word, size, room, bold))
    return lines


def text_box(text: Text, margin: float = 0.0) -> Points:
    """The four corners of the room that a line of lettering takes, mm; shape (4, 2)."""
    width = width_of(text.text, text.size, text.bold)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    x0, x1 = left - margin, left + width + margin
    y0, y1 = -0.76 * text.size - margin, 0.24 * text.size + margin
    return turned_by(np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]]), text.angle_deg) + text.at


def turned_by(points: Points, angle_deg: float) -> Points:
    """The points turned clockwise (y down) about zero."""
    if angle_deg == 0.0:
        return points
    t = math.radians(angle_deg)
    return np.asarray(points @ np.array([[math.cos(t), math.sin(t)], [-math.sin(t), math.cos(t)]]))
