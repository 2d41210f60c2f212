"""Finding room for lettering: no text over text, and none where something else must stay legible."""

import math
from collections.abc import Iterable

import numpy as np
from shapely import contains, intersects, polygons, prepare
from shapely.geometry.base import BaseGeometry

from core.geometry.paths import Points
from core.papers.drawing import Point, Text
from core.papers.lettering import LINE_HEIGHT, text_box

APART_MM = 0.5


class Labels:
    """Remembers what room is taken on one page; everything is in the page's mm."""

    def __init__(self) -> None:
        self._taken: list[BaseGeometry] = []

    def take(self, shape: BaseGeometry) -> None:
        """Keep a shape free of lettering."""
        self._taken.append(shape)

    def place(self, candidates: Iterable[tuple[Text, ...]], inside: BaseGeometry | None = None) -> tuple[Text, ...]:
        """The first candidate, a block of lines, that lies on nothing taken and within a shape; else nothing."""
        if inside is not None:
            prepare(inside)
        taken = np.array(self._taken, dtype=object)
        for texts in (texts for texts in candidates if texts):
            corners = [text_box(text, APART_MM) for text in texts]
            if inside is not None and not _within(np.concatenate(corners), inside.bounds):
                continue
            rooms = polygons(np.array(corners))
            fits = inside is None or bool(contains(inside, rooms).all())
            if fits and not intersects(taken[:, None], rooms).any():
                self._taken += rooms.tolist()
                return texts
        return ()


def _within(points: Points, bounds: tuple[float, float, float, float]) -> bool:
    left, top, right, bottom = bounds
    x, y = points.T
    return bool(x.min() >= left and y.min() >= top and x.max() <= right and y.max() <= bottom)


def block(at: Point, lines: Iterable[tuple[str, float, bool]], angle_deg: float = 0.0) -> tuple[Text, ...]:
    """Lines of (text, size, bold) stacked with their common middle at a point, turned clockwise about it."""
    kept = [line for line in lines if line[0]]
    sine, cosine = math.sin(math.radians(angle_deg)), math.cos(math.radians(angle_deg))
    texts, y = list[Text](), -sum(size for _, size, _ in kept) * LINE_HEIGHT / 2
    for text, size, bold in kept:
        here = (at[0] - sine * (y + 0.9 * size), at[1] + cosine * (y + 0.9 * size))
        texts.append(Text(here, text, size, anchor="middle", angle_deg=angle_deg, bold=bold, halo=True))
        y += size * LINE_HEIGHT
    return tuple(texts)
