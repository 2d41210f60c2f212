"""Where everything in the close-up stands, and how labels beside a seam keep clear of each other."""

from dataclasses import dataclass

from PySide6.QtCore import QRect

from app.theme import GRID, SPACE

OVERVIEW, RULER, READINGS, CROSSINGS = 11 * GRID, 11 * GRID, 15 * GRID, 48 * GRID
LEAST_CLOTH = 37 * GRID
CAPTIONS = 9 * GRID


@dataclass(frozen=True)
class Rooms:
    """Parts of the close-up from left to right; a part without room is empty."""

    overview: QRect
    ruler: QRect
    readings: QRect
    cloth: QRect
    crossings: QRect

    @classmethod
    def of(cls, area: QRect) -> "Rooms":
        """Share out an area below the heading. The crossings give way first, then the overview."""
        spare = area.width() - LEAST_CLOTH - RULER - READINGS
        crossings = CROSSINGS if spare >= CROSSINGS else 0
        overview = OVERVIEW + SPACE if spare - crossings >= OVERVIEW + SPACE else 0
        top, height = area.top() + CAPTIONS, area.height() - CAPTIONS
        left = area.left()
        ruler, readings = left + overview, left + overview + RULER
        cloth = readings + READINGS
        width = area.right() + 1 - crossings - cloth
        return cls(
            QRect(left, top, max(overview - SPACE, 0), height),
            QRect(ruler, top, RULER, height),
            QRect(readings, top, READINGS, height),
            QRect(cloth, top, width, height),
            QRect(cloth + width, top, crossings, height),
        )


def spread_out(wanted: list[float], apart: float, top: float, bottom: float) -> list[float]:
    """Places for labels, ascending like the wanted ones and near them, at least `apart` from each other.

    All lie between top and bottom if there is room; else they run over the bottom's end upwards.
    """
    placed: list[float] = []
    for place in wanted:
        placed.append(max(place, placed[-1] + apart if placed else top))
    limit = bottom
    for index in range(len(placed) - 1, -1, -1):
        placed[index] = min(placed[index], limit)
        limit = placed[index] - apart
    return placed


def between(rooms: QRect, y: float, margin: float = 0.0) -> bool:
    """Whether a y lies inside a part, `margin` px clear of its ends."""
    return rooms.top() + margin <= y <= rooms.bottom() - margin
